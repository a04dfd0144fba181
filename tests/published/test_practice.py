"""Facts of the trade: conversions of play and ramp, and a spline that fretted at low stress."""

import math

import pytest
from builder import assessed, edited
from published._case import Case

from torqcheck.assessment.torque.path import slip_torque
from torqcheck.capacity import flank_pressure
from torqcheck.geometry import angle_from_travel, clearance_from_travel
from torqcheck.scenario.estimates import driven_inertias, rotor_inertia, torque_rise
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.schema import Driven, Motor, Slip

MANUAL = "Compact tractor, service manual, clutch section"
FIRMWARE = "Open vehicle-control firmware, default throttle ramps"
DERIVED = "Arithmetic on the stated inputs"


def test_play_at_the_clutch_disc_as_an_angle_and_at_the_spline() -> None:
    # 1.0 mm at 115 mm radius is the limit that the manual prints; degrees and clearance follow
    inputs = {"travel": 1.0e-3, "radius": 0.115}
    case = Case(MANUAL, "play limit at the disc edge, converted", "derived", inputs, "0.498", math.radians(1))
    case.check(float(angle_from_travel(**inputs)))
    case = Case(MANUAL, "the same at 12.5 mm pitch radius", "derived", inputs, "0.109", 1e-3)
    case.check(float(clearance_from_travel(1.0e-3, 0.115, 0.025)))


@pytest.mark.parametrize(
    ("percent", "seconds", "slope"), [(3, "0.333", "675"), (5, "0.200", "1125"), (2, "0.500", "450")]
)
def test_percent_per_10_milliseconds_as_time_and_slope(percent: int, seconds: str, slope: str) -> None:
    motor = Motor.model_validate(
        {"peak_torque": "225 N*m", "percent_per_10ms": float(percent), "max_speed": "3000 rpm"}
    )
    inputs = {"percent": float(percent), "peak": 225.0}
    Case(FIRMWARE, f"{percent} % per 10 ms, slope at 225 N m", "derived", inputs, slope).check(
        torque_rise(motor)
    )
    Case(FIRMWARE, f"{percent} % per 10 ms, zero to peak", "derived", inputs, seconds).check(
        225.0 / torque_rise(motor)
    )


def test_rotor_inertia_from_motor_mass_and_frame() -> None:
    motor = Motor.model_validate(
        {
            "peak_torque": "200 N*m",
            "rise_time": "0.3 s",
            "max_speed": "3000 rpm",
            "motor_mass": "50 kg",
            "frame_diameter": "0.23 m",
        }
    )
    case = Case("First estimate from mass and frame", "50 kg, 0.23 m", "derived", {"mass": 50.0}, "0.054")
    case.check(rotor_inertia(motor, Ledger()))


def test_moved_mass_as_inertia_of_the_joint() -> None:
    driven = Driven.model_validate(
        {"load": "uniform", "moved": {"mass": "1400 kg", "rolling_radius": "0.31 m", "ratio": 6.2}}
    )
    case = Case(DERIVED, "m r^2/i^2 of a vehicle", "derived", {"mass": 1400.0}, "3.5")
    case.check(driven_inertias(driven, 0.05, Ledger())[0])


@pytest.mark.parametrize(("regenerating", "printed"), [(False, "331.579"), (True, "299.250")])
def test_what_the_ground_lets_through(regenerating: bool, printed: str) -> None:
    slip = Slip.model_validate(
        {
            "coefficient": 0.7,
            "normal_force": "9000 N",
            "rolling_radius": "0.31 m",
            "ratio": 6.2,
            "efficiency": 0.95,
        }
    )
    case = Case(DERIVED, "phi N r/(i eta), dry road", "derived", {"coefficient": 0.7}, printed)
    case.check(slip_torque(slip, Ledger(), regenerating=regenerating))


PUMP = "Practitioners' thread on a hydraulic pump spline that fretted"
INCH, POUND_INCH, PSI = 0.0254, 0.1129848290276167, 6894.757293168361
PUMP_DRIVE = (
    ('peak_torque = "240 N*m"', 'peak_torque = "1550 lbf*in"'),
    ('regen_torque = "90 N*m"\n', ""),
    ("ratio = 2.5\nefficiency = 0.97", "ratio = 1.0\nefficiency = 1.0"),
    ('load = "light shock"', 'load = "uniform"'),
    ('teeth = 26, pitch = "20/40"', 'teeth = 13, pitch = "16/32"'),
    ('engagement = "1.25 in"', 'engagement = "1.31 in"'),
    ('measured = { teeth = 26, major_diameter = "1.345 in" }', "measured = { teeth = 13 }"),
    ("measured = { teeth = 26 }", "measured = { teeth = 13 }"),
    ('lubrication = "oil flooded"', 'lubrication = "expired grease"'),
)


def test_the_pump_spline_at_3983_psi() -> None:
    inputs = {
        "torque": 1550 * POUND_INCH,
        "pitch_diameter": 0.8125 * INCH,
        "teeth": 13.0,
        "length": 1.31 * INCH,
        "height": 0.05625 * INCH,
    }
    Case(PUMP, "bearing stress, all teeth, no factors", "published", inputs, "3983", PSI).check(
        float(flank_pressure(**inputs))
    )


def test_the_pump_spline_through_the_whole_check_is_no_bare_pass() -> None:
    # the part fretted in service although its nominal stress is low [published, the same thread]
    unaligned = assessed(*PUMP_DRIVE, ('tilt = { angle = "0.08 deg" }', 'tilt = "not measured"'))
    flank = next(c for c in unaligned.joints[0].checks if c.name == "flank pressure" and "tab" in c.method)
    bare = flank.value / flank.factors["Ka"] / flank.factors["Km"]
    assert bare / PSI == pytest.approx(3983, abs=0.5)
    assert unaligned.verdict != "pass"
    # 0.010 in total indicator reading, as in a pump drive that lasted less than 3000 h
    measured = assessed(
        *PUMP_DRIVE,
        ('tilt = { angle = "0.08 deg" }', 'tilt = { runout = "0.010 in", span = "1.31 in" }'),
        ('service_life = "400 hour"', 'service_life = "3000 hour"'),
    )
    assert measured.verdict == "fail"
    wear = measured.joints[0].wear
    assert wear is not None
    assert wear.verdict == "fail"


def test_low_stress_with_everything_measured_still_warns() -> None:
    text = edited(*PUMP_DRIVE)
    assert "not measured" not in text
    result = assessed(*PUMP_DRIVE)
    assert any("Low stress alone" in caution.text for caution in result.cautions)
