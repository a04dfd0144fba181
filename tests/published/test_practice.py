"""Facts of the trade: conversions of play and ramp, and a spline that fretted at low stress."""

import math

import pytest
from builder import assessed, edited
from published._case import Case

from torqcheck.assessment.torque.path import slip_torque
from torqcheck.capacity import flank_pressure, torsional_shear_stress
from torqcheck.geometry import angle_from_travel, clearance_from_travel
from torqcheck.materials import wear_class
from torqcheck.scenario.estimates import driven_inertias, rotor_inertia, torque_rise
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.schema import Driven, Motor, Slip
from torqcheck.shock import ramp_factor, ramp_factor_envelope, step_peak_with_lash

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


@pytest.mark.parametrize(("stiffness", "printed"), [(70.0, "400.6"), (5000.0, "439.6"), (20000.0, "531.1")])
def test_a_step_of_torque_across_half_a_degree_of_slack(stiffness: float, printed: str) -> None:
    # T + sqrt(T^2 + 2 K T b) against a heavy vehicle; the inertia of the rotor drops out
    inputs = {"torque": 200.0, "driven_inertia": math.inf, "stiffness": stiffness, "lash": 0.0087}
    case = Case(DERIVED, "energy balance of the blow, load held", "derived", inputs, printed)
    for rotor in (0.02, 0.1):
        case.check(float(step_peak_with_lash(driving_inertia=rotor, **inputs)))


@pytest.mark.parametrize(
    ("seconds", "peak", "highest"),
    [
        (0.05, "1.900", "2.000"),
        (0.10, "1.637", "1.637"),
        (0.20, "1.000", "1.318"),
        (0.333, "1.166", "1.191"),
        (0.50, "1.127", "1.127"),
    ],
)
def test_a_ramp_onto_a_driveline_of_five_hertz(seconds: float, peak: str, highest: str) -> None:
    # 1 + |sin(pi f t)|/(pi f t), and 1 + 1/(pi f t) for every phase, no more than 2; textbook, from memory
    inputs = {"rise_time": seconds, "natural_frequency": 5.0}
    Case("Textbook, ramp onto one mode", "", "from memory", inputs, peak).check(float(ramp_factor(**inputs)))
    Case("Textbook, its envelope", "", "from memory", inputs, highest).check(
        float(ramp_factor_envelope(**inputs))
    )


def test_a_motor_shaft_bored_for_a_pilot() -> None:
    # two builders' sizes put together, an illustration: 500 lbf ft on 1 1/8 in with a bore of 0.687 in
    wall = 0.5 * (1.125 - 0.687)
    Case(DERIVED, "wall beside the bore", "derived", {}, "0.219").check(wall)
    Case(DERIVED, "wall under half of a key of 1/4 in", "derived", {}, "0.094").check(wall - 0.125)
    inputs = {"torque": 678.0, "outer_diameter": 0.028575, "bore": 0.01745}
    Case(DERIVED, "16 T D/(pi (D^4 - d^4))", "derived", inputs, "172", 1e6).check(
        float(torsional_shear_stress(678.0, 0.028575, 0.01745))
    )


@pytest.mark.parametrize(
    ("lubrication", "depth", "offset", "revolutions"),
    [
        # hub teeth of 2 mm gone in 2000 miles at 3750 turns each, about 1 mm out of line, dry
        ("dry", 2e-3, 1.0e-3, 2000 * 3750.0),
        # 1 mm gone in 3000 h at 2000 rev/min, 0.010 in of run-out, greased at assembly
        ("sealed grease", 1e-3, 0.127e-3, 3000 * 60 * 2000.0),
    ],
)
def test_wear_of_two_couplers_is_within_the_band_of_their_class(
    lubrication: str, depth: float, offset: float, revolutions: float
) -> None:
    # depth over pressure and path; depth, 10 MPa and speeds are assumed: an order of magnitude and no more
    coefficient = depth / (10e6 * 4.0 * offset * revolutions)
    row = wear_class(lubrication)
    assert row.wear_coefficient_p10 < coefficient < row.wear_coefficient_p90
