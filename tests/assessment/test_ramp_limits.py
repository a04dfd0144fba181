"""The largest peak that the checks allow, held against the checks themselves and against hand formulas."""

import math

import pytest
from builder import loaded

from torqcheck.assessment.prepared import Prepared, checks_at, prepared_of
from torqcheck.assessment.ramp.limits import joint_peaks, limits_of, quiet

SHAFT = """
[[joint]]
name = "old shaft"
kind = "shaft"
diameter = "20 mm"
length = "100 mm"
steel = "1045_CD"
after = [[3.0, 0.9]]
"""


def weakest_margin(prepared: Prepared, drive: float, brake: float) -> float:
    standing = {(check.joint, check.name, check.method) for check in limits_of(prepared).standing}
    checks = [
        check
        for index, peak in enumerate(joint_peaks(prepared, drive, brake))
        for check in checks_at(quiet(prepared), index, peak)
        if check.method != "guide, tabulated"
        and check.decides
        and (check.joint, check.name, check.method) not in standing
    ]
    return min(check.margin for check in checks)


@pytest.mark.parametrize("target", ["1.0", "1.5", "3"])
def test_at_the_limit_the_weakest_check_is_at_its_target(target: str) -> None:
    prepared = prepared_of(loaded(("safety_factor = 1.5", f"safety_factor = {target}")))
    limits = limits_of(prepared)
    assert weakest_margin(prepared, limits.drive, 0.0) == pytest.approx(1.0, rel=1e-9)
    assert weakest_margin(prepared, 1.0001 * limits.drive, 0.0) < 1.0
    assert weakest_margin(prepared, 0.0, limits.brake) == pytest.approx(1.0, rel=1e-9)


def test_limit_in_torsion_by_hand() -> None:
    """A joint that cannot rock gives way in its root: 16 T/(pi D^3) against yield strength over sqrt(3)."""
    prepared = prepared_of(loaded(('seat = "flexible"', 'seat = "fixed"')))
    limits = limits_of(prepared)
    state = prepared.joints[0].spline
    assert state is not None
    assert limits.drive_check.name == "torsional yield, external member"
    allowable = state.external.yield_strength / math.sqrt(3.0)
    by_hand = allowable / 1.5 * math.pi * state.root_diameter**3 / 16.0
    assert limits.drive == pytest.approx(by_hand, rel=1e-3)  # 0.577 is printed for 1/sqrt(3)


def test_losses_help_driving_and_hurt_braking() -> None:
    """A joint behind a stage of ratio 3 and efficiency 0.9 sees 2.7 T driving and 3.33 T braking."""
    end = 'outside_diameter = "52 mm"\nmeasured = { teeth = 26 }\n'
    prepared = prepared_of(loaded((end, end + SHAFT)))
    limits = limits_of(prepared)
    assert limits.drive_check.joint == "old shaft"
    assert limits.drive / limits.brake == pytest.approx(1.0 / 0.81, rel=1e-9)
    assert joint_peaks(prepared, 100.0, 0.0)[1] == pytest.approx(270.0)
    assert joint_peaks(prepared, 0.0, 100.0)[1] == pytest.approx(100.0 * 3.0 / 0.9)


def test_what_fails_without_any_blow_is_set_apart() -> None:
    prepared = prepared_of(loaded(("safety_factor = 1.5", "safety_factor = 4")))
    limits = limits_of(prepared)
    assert limits.standing
    assert all(check.method == "guide, tabulated" or check.torque > 0.0 for check in limits.standing)
    assert all(check.margin < 1.0 for check in limits.standing)


def test_looking_for_limits_leaves_no_trace_in_the_ledger() -> None:
    prepared = prepared_of(loaded())
    before = list(prepared.ledger.cautions), list(prepared.ledger.missing), list(prepared.ledger.assumptions)
    limits_of(prepared)
    assert before == (prepared.ledger.cautions, prepared.ledger.missing, prepared.ledger.assumptions)
