"""Wear of one spline reckoned by hand from first principles, and grease that nobody renews.

The joint: radius 20 mm, 20 teeth, 30 mm engaged, 2 mm of contact height, 30 deg, 200 N m, tilted by
0.1 deg, 1e-6 mm3/(N m). All numbers of it are derived. The motor spline of the last test is published.
"""

from math import radians

import pytest
from builder import assessed
from published._case import Case

from torqcheck.wear import (
    CUBIC_MILLIMETRE_PER_NEWTON_METRE,
    depth_per_revolution,
    depth_with_feedback,
    friction_lock_tilt,
    hours_to_depth,
    running_in_depth,
    sliding_path_per_hour,
    tilt_friction_moment,
    wear_flank_pressure,
    worn_volume_per_revolution,
)

HAND = "Tilted spline of 20 mm radius, reckoned by hand"
JOINT = {
    "torque": 200.0,
    "pitch_radius": 0.020,
    "teeth": 20.0,
    "length": 0.030,
    "contact_height": 0.002,
    "pressure_angle": radians(30),
}
WEAR = {"wear_coefficient": 1e-6 * CUBIC_MILLIMETRE_PER_NEWTON_METRE, "tilt": radians(0.1)}
VOLUME = WEAR | {"torque": 200.0, "pressure_angle": radians(30)}
TURNS_PER_HOUR = 3000.0 * 60.0
MICROMETRE = 1e-6


def case(where: str, printed: str, unit: float = 1.0) -> Case:
    return Case(HAND, where, "derived", {}, printed, unit)


def test_pressure_path_depth_and_life() -> None:
    case("pressure", "9.6225", 1e6).check(float(wear_flank_pressure(**JOINT)))
    path = sliding_path_per_hour(pitch_radius=0.020, tilt=radians(0.1), revolutions=1.0)
    case("path of one turn", "0.139626", 1e-3).check(float(path))
    depth = float(depth_per_revolution(**JOINT, **WEAR))
    case("depth of one turn", "1.34356e-9", 1e-3).check(depth)
    case("volume of one turn", "1.61227e-6", 1e-9).check(float(worn_volume_per_revolution(**VOLUME)))
    case("depth per hour", "0.2418", MICROMETRE).check(depth * TURNS_PER_HOUR)
    case("turns to 0.25 mm", "1.8607e8").check(0.25e-3 / depth)
    case("hours to 0.25 mm", "1033.7").check(0.25e-3 / depth / TURNS_PER_HOUR)


def test_twice_the_teeth_halve_the_depth_and_leave_the_volume() -> None:
    many = JOINT | {"teeth": 40.0}
    case("depth of one turn, 40 teeth", "0.67178e-9", 1e-3).check(float(depth_per_revolution(**many, **WEAR)))
    volume = float(depth_per_revolution(**many, **WEAR)) * 40.0 * 0.030 * 0.002
    case("volume of one turn, 40 teeth", "1.61227e-6", 1e-9).check(volume)


def test_path_of_an_hour_at_3000_turns_a_minute() -> None:
    path = sliding_path_per_hour(pitch_radius=0.020, tilt=radians(0.1), revolutions=TURNS_PER_HOUR)
    case("path of an hour", "25.13").check(float(path))


def test_grease_then_none() -> None:
    hours = hours_to_depth(250 * MICROMETRE, 0.25 * MICROMETRE, 62.5, 2.5 * MICROMETRE)
    case("62.5 h of grease, then ten times the rate", "156.25").check(float(hours))


def test_wear_that_feeds_on_itself() -> None:
    fed = float(depth_with_feedback(0.25 * MICROMETRE, 1e-3, 1000.0))
    case("dh/dt = v + b h after 1000 h", "429.57", MICROMETRE).check(fed)
    case("without feedback", "250", MICROMETRE).check(
        float(depth_with_feedback(0.25 * MICROMETRE, 0.0, 1000.0))
    )


def test_bedding_in_after_one_and_three_scales() -> None:
    # 1 - 1/e and 1 - 1/e^3
    case("one scale", "0.632121").check(float(running_in_depth(1e6, 1.0, 1e6)))
    case("three scales", "0.950213").check(float(running_in_depth(3e6, 1.0, 1e6)))


def test_moment_of_friction_against_rocking() -> None:
    moment = float(tilt_friction_moment(200.0, radians(30), 0.12))
    case("friction 0.12, 200 N m, 30 deg", "17.6").check(moment)
    # shafts of 17.6 kN m/rad take up 1 mrad
    assert float(friction_lock_tilt(200.0, radians(30), 0.12, 1e3 * moment)) == pytest.approx(1e-3, rel=1e-12)


SEALED = 'lubrication = "sealed grease"'
QUIET = (
    ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"'),
    ('regen_torque = "90 N*m"\n', ""),
    ('lash_limit = "0.40 mm"', 'lash_limit = "0.15 mm"'),
)


def median_hours(lubrication: str) -> float:
    wear = assessed(*QUIET, ('lubrication = "oil flooded"', lubrication)).joints[0].wear
    assert wear is not None
    assert wear.life is not None
    return wear.life[1] / 3600.0


def test_sealed_grease_that_nobody_renews_only_delays_the_wear() -> None:
    # practitioners' thread (published): an electric motor's spline, both parts HRC 50, grease sealed in
    # by a ring and never renewed, worn out in moderate hours. It does not wear at the rate of grease.
    never = median_hours(SEALED)
    dry = median_hours('lubrication = "dry"')
    renewed = median_hours(f'{SEALED}\ngrease_renewal = "200 hour"')
    assert dry < never < dry + 1000.0
    assert renewed > 3.0 * never
