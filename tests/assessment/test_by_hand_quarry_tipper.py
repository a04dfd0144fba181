"""The quarry tipper worked out with bare arithmetic from the formulas that its report prints."""

from functools import cache
from math import log, pi
from pathlib import Path

import pytest
from builder import EXAMPLES

from torqcheck.assessment import Assessment, assess
from torqcheck.checks import Check
from torqcheck.scenario import scenario_from_text

(EXAMPLE,) = (path for path in EXAMPLES if path.stem == "quarry_tipper")

TORQUE = 600.0 * 1.2
"""N m: peak of the motor, light shock; the blow stays below it."""
DEGREASED = (("45 N*m", "65 N*m"), ('"8.8"', '"10.9"'), ('"oily"', '"degreased"'))
DOWELLED = (
    (
        "[joint.driving_flange]",
        '[joint.dowels]\nsize = "8 mm"\ncount = 3\ncircle_diameter = "100 mm"\n\n[joint.driving_flange]',
    ),
)


@cache
def tipper(*changes: tuple[str, str]) -> Assessment:
    text = EXAMPLE.read_text(encoding="utf-8")
    body = text[text.index("format = 1") :]
    for old, new in changes:
        assert body.count(old) == 1, old
        body = body.replace(old, new)
    return assess(scenario_from_text(body.encode(), Path("tipper.toml")))


def check_of(assessment: Assessment, joint: int, name: str, method: str) -> Check:
    (found,) = (c for c in assessment.joints[joint].checks if (c.name, c.method) == (name, method))
    return found


def left_of_the_least(meant: float, scatter: float) -> float:
    """Six M10 through 14 + 12 mm: At 57.99 mm2, E 205 GPa, 10 um of settling."""
    bolt = 205e9 * 57.9896e-6 / (0.026 + 0.010)
    parts = 0.5774 * pi * 205e9 * 0.010 / (2 * log(5 * (0.5774 * 0.026 + 0.005) / (0.5774 * 0.026 + 0.025)))
    return meant * (1.0 - scatter) - 10e-6 * bolt * parts / (bolt + parts)


def test_weakest_link_is_the_grip_of_the_flange() -> None:
    """Fi = 45 / (0.18 x 0.010) = 25 kN; a quarter less, settled: 15.9 kN; T = 0.10 x 6 x 15.9 kN x 50 mm."""
    assessment = tipper()
    left = left_of_the_least(45.0 / (0.18 * 0.010), 0.25)
    assert left == pytest.approx(15.9e3, abs=50.0)
    # mean radius of the face, 53.38 mm, against the bolt circle, 50 mm
    face = (145.0**3 - 55.0**3) / (3 * (145.0**2 - 55.0**2))
    assert face == pytest.approx(53.38, abs=0.01)
    factor = 0.10 * 6 * left * 0.050 / TORQUE
    assert factor == pytest.approx(0.663, abs=5e-4)
    grip = check_of(assessment, 0, "grip", "larger load")
    assert grip.safety_factor == pytest.approx(factor, rel=1e-5)
    assert assessment.weakest is not None
    assert (assessment.weakest.joint, assessment.weakest.check) == ("motor flange", "grip")
    assert assessment.weakest.safety_factor == grip.safety_factor
    assert assessment.verdict == "fail"


def test_bolts_are_as_tight_as_they_should_be() -> None:
    """Most that a bolt can have: 25 kN x 1.25 = 31.25 kN; proof 33.6 kN, yield 37.1 kN."""
    check = check_of(tipper(), 0, "bolt preload", "larger load")
    area = pi / 4 * (10 - 0.938194 * 1.5) ** 2
    assert area == pytest.approx(57.9896, abs=1e-3)
    assert check.value == pytest.approx(31.25e3, rel=1e-9)
    assert check.allowable == pytest.approx(640.0 * area, rel=1e-5)
    assert check.safety_factor == pytest.approx(1.188, abs=1e-3)
    assert check.target == pytest.approx(640.0 / 580.0, rel=1e-9)


def test_bolts_in_shear_stand_beside() -> None:
    """Three of six: F = 2 x 720 / (3 x 0.1) = 4.8 kN on 52.3 mm2; on 10 x 12 mm of the thinner flange."""
    shear = check_of(tipper(), 0, "bolt shear", "larger load")
    assert not shear.counts
    assert shear.value == pytest.approx(4800.0 / (pi / 4 * (10 - 1.226869 * 1.5) ** 2 * 1e-6), rel=1e-5)
    assert shear.allowable == pytest.approx(0.577 * 640e6, rel=1e-3)
    bearing = check_of(tipper(), 0, "bolt bearing", "larger load")
    assert bearing.value == pytest.approx(4800.0 / (0.010 * 0.012), rel=1e-9)
    assert not bearing.counts


def test_spline_is_far_from_its_limits() -> None:
    """tau = 16 T / (pi D^3) at a root of 33.34 mm, Ka = 1.2."""
    check = check_of(tipper(), 1, "root shear, external member", "guide, tabulated")
    diameter = (23 - 2.0) / 16 * 25.4e-3  # root of the fillet form: (N - 2) / P
    assert diameter == pytest.approx(33.34e-3, abs=5e-6)
    assert check.value == pytest.approx(16 * 600.0 * 1.2 / (pi * diameter**3), rel=1e-6)
    assert check.safety_factor is not None
    assert check.safety_factor > 4 * 0.663
    assert {joint.name: joint.verdict for joint in tipper().joints} == {
        "motor flange": "fail",
        "pump shaft": "pass",
    }


def test_clean_faces_and_stronger_bolts_mend_it() -> None:
    """65 / (0.18 x 0.010) = 36.1 kN, mu 0.15."""
    mended = tipper(*DEGREASED)
    left = left_of_the_least(65.0 / (0.18 * 0.010), 0.25)
    factor = 0.15 * 6 * left * 0.050 / TORQUE
    assert factor > 1.5
    assert check_of(mended, 0, "grip", "larger load").safety_factor == pytest.approx(factor, rel=1e-5)
    assert mended.verdict == "pass"


def test_dowels_mend_it_as_the_torque_goes_one_way() -> None:
    """Three of 8 mm, of which 2.25 count: F = 2 x 720 / (2.25 x 0.1) = 6.4 kN against 52.5 kN."""
    mended = tipper(*DOWELLED)
    dowel = check_of(mended, 0, "dowel shear", "larger load")
    assert dowel.counts
    assert dowel.safety_factor == pytest.approx(52.5 / 6.4, rel=1e-9)
    assert not check_of(mended, 0, "grip", "larger load").counts
    assert mended.verdict == "pass"


def test_dowels_do_not_mend_it_where_the_motor_brakes() -> None:
    braking = ('torque_rise = "3000 N*m/s"', 'torque_rise = "3000 N*m/s"\nregen_torque = "60 N*m"')
    reversed_ = tipper(*DOWELLED, braking)
    assert check_of(reversed_, 0, "grip", "larger load").counts
    assert not check_of(reversed_, 0, "dowel shear", "larger load").counts
    assert reversed_.joints[0].verdict == "fail"
