"""From readings at the bench to tilt, lash and worn widths."""

import math

import pytest
from builder import loaded

from torqcheck.geometry import InvoluteSpline, over_pins
from torqcheck.scenario import Scenario
from torqcheck.scenario.bench import lash_of, lubrication_of, tooth_widths
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.sizes import spline_of
from torqcheck.scenario.tilt_reading import tilt_of

TILT = 'tilt = { angle = "0.08 deg" }'
LASH = 'lash = { clearance = "0.05 mm" }'


def joint_of(scenario: Scenario) -> tuple[SplineJoint, InvoluteSpline]:
    joint = scenario.joint[0]
    assert isinstance(joint, SplineJoint)
    spline = spline_of(joint)
    assert isinstance(spline, InvoluteSpline)
    return joint, spline


def tilt(*changes: tuple[str, str]) -> tuple[float, Ledger]:
    joint, spline = joint_of(loaded(*changes))
    ledger = Ledger()
    lash = lash_of(joint, "joint[1]", "x", spline, spline.pitch_diameter, ledger)
    return tilt_of(joint, "joint[1]", "x", lash, spline, ledger).angle, ledger


@pytest.mark.parametrize(
    ("written", "angle"),
    [
        # 0.1 mm over 60 mm is 1.67 mrad; 0.25 mm TIR is an offset of 0.125 mm; face TIR over its diameter
        ('tilt = { offset = "0.1 mm", span = "60 mm" }', math.atan(0.1 / 60)),
        ('tilt = { runout = "0.2 mm", span = "60 mm" }', math.atan(0.1 / 60)),
        (
            'tilt = { rim = "0.1 mm", face = "0.06 mm", diameter = "120 mm" }',
            math.atan(0.06 / 120) + math.atan(0.05 / 31.75),
        ),
        (
            'tilt = { rim = "0.2 mm", face = "0.06 mm", diameter = "120 mm", span = "60 mm" }',
            math.atan(0.06 / 120) + math.atan(0.1 / 60),
        ),
    ],
)
def test_every_way_to_measure_alignment(written: str, angle: float) -> None:
    assert tilt((TILT, written))[0] == pytest.approx(angle, rel=1e-6)


def test_runout_without_span_is_taken_up_over_the_engagement_and_said_so() -> None:
    angle, ledger = tilt((TILT, 'tilt = { runout = "0.2 mm" }'))
    assert angle == pytest.approx(math.atan(0.1 / 31.75), rel=1e-6)
    assert [entry.key for entry in ledger.assumptions] == ["joint[1].tilt.span"]


def test_unmeasured_alignment_has_a_band_and_a_favourable_end() -> None:
    angle, ledger = tilt((TILT, 'tilt = "not measured"'))
    assert angle == pytest.approx(math.atan(0.125 / 60), rel=1e-6)
    entry = ledger.assumptions[0]
    assert entry.low is not None
    assert entry.high is not None
    assert entry.low < angle < entry.high
    assert [missing.reading for missing in ledger.missing] == ["tilt or runout"]


def test_a_shaft_end_on_its_spline_rocks_in_its_radial_play() -> None:
    angle, _ = tilt(("nose_supported = true", 'nose_supported = false\nradial_play = "0.04 mm"'))
    assert angle == pytest.approx(math.radians(0.08) + math.atan(0.04 / 31.75), rel=1e-6)


@pytest.mark.parametrize(
    ("written", "clearance"),
    [
        (LASH, 0.05e-3),
        # 1.0 mm at 115 mm is 0.498 deg; along a pitch circle of 33.02 mm
        ('lash = { travel = "1.0 mm", radius = "115 mm" }', 1.0e-3 / 0.115 * 33.02e-3 / 2),
        ('lash = { angle = "0.5 deg" }', math.radians(0.5) * 33.02e-3 / 2),
        ('lash = "not measured"', math.radians(0.5) * 33.02e-3 / 2),
    ],
)
def test_every_way_to_measure_play(written: str, clearance: float) -> None:
    joint, spline = joint_of(loaded((LASH, written)))
    lash = lash_of(joint, "joint[1]", "x", spline, spline.pitch_diameter, Ledger())
    assert lash.clearance == pytest.approx(clearance, rel=1e-6)
    assert lash.measured is ("not measured" not in written)


def test_as_new_is_the_largest_new_clearance() -> None:
    joint, spline = joint_of(loaded((LASH, 'lash = "as new"')))
    ledger = Ledger()
    lash = lash_of(joint, "joint[1]", "x", spline, spline.pitch_diameter, ledger)
    assert lash.clearance == spline.new_clearance.maximum
    assert ledger.assumptions[0].mark == "from memory"


def test_pin_readings_replace_the_nominal_widths_in_the_worn_direction_only() -> None:
    nominal = loaded()
    _, spline = joint_of(nominal)
    pin = 0.096 * 0.0254
    for worn in (0.05e-3, -0.05e-3):
        reading = over_pins(26, spline.module, spline.pressure_angle, spline.tooth_thickness - worn, pin)
        text = f'{{ teeth = 26, over_pins = "{float(reading) * 1e3!r} mm", pin = "0.096 in" }}'
        joint, _ = joint_of(loaded(('{ teeth = 26, major_diameter = "1.345 in" }', text)))
        widths = tooth_widths(joint, spline)
        assert widths.external_lost == pytest.approx(max(worn, 0.0), abs=1e-12)
        assert widths.external == pytest.approx(spline.tooth_thickness - max(worn, 0.0), rel=1e-9)


def test_a_low_tip_takes_from_the_contact_height() -> None:
    joint, spline = joint_of(loaded(('"1.345 in"', '"1.330 in"')))
    assert tooth_widths(joint, spline).height == pytest.approx(
        spline.contact_height - (1.35 - 1.33) * 0.0254 / 2, rel=1e-9
    )


def test_lubrication_not_stated_is_expired_grease() -> None:
    joint, _ = joint_of(loaded(('lubrication = "oil flooded"\n', "")))
    ledger = Ledger()
    assert lubrication_of(joint, "joint[1]", ledger) == "expired grease"
    assert ledger.assumptions
