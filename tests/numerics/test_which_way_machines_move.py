"""Which way the numbers of a whole machine move, over the shipped examples and machines near them."""

import math
import random
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any, cast

import pytest
from numerics._machines import MACHINES, machine

from torqcheck.assessment import Assessment, assess
from torqcheck.assessment.assess import assess_without_ranges
from torqcheck.assessment.result import JointResult
from torqcheck.checks import Check
from torqcheck.errors import ScenarioError
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import NumericKey, edited, numeric_keys, written_at
from torqcheck.units import Kind, read, units_of

ROUNDING = 1e-9
SAMPLING = 0.02
"""What 4096 draws leave open of the width of a range."""
NEAR = 0.3
"""Logarithm by which the numbers of a machine are moved to get another one."""
AS_WRITTEN, SEEDED = 0, 1
TORQUES = ("motor.peak_torque", "motor.regen_torque", "motor.torque_rise", "motor.regen_rise")
OFFSETS = {"temperature", "temperature difference"}
everywhere = pytest.mark.parametrize(
    ("name", "seed"), [(name, (AS_WRITTEN, SEEDED)[place % 2]) for place, name in enumerate(MACHINES)]
)

Key = tuple[int, str, str, str]
Change = Mapping[str, Any]


def movable(scenario: Scenario) -> dict[str, NumericKey]:
    """Numbers that may be moved a little: no counts, no standard sizes, nothing that others sum up to."""
    return {
        key.key: key
        for key in numeric_keys(scenario)
        if not key.whole
        and key.kind not in {"hardness", *OFFSETS}
        and ".size." not in key.key
        and not key.key.startswith(("duty", "stack", "inspection", "record"))
    }


def times(scenario: Scenario, key: NumericKey, factor: float) -> Any:
    """What would stand in the file if that number were so many times as large."""
    written = written_at(scenario, key.key)
    if key.kind is None:
        return written * factor
    value, tolerance = read(written, cast("Kind", key.kind))
    factor /= units_of(cast("Kind", key.kind))[key.unit].factor
    stated = f" +/- {tolerance * factor!r}" if "+/-" in written else ""
    return f"{value * factor!r}{stated} {key.unit}"


@cache
def near(name: str, seed: int) -> Scenario:
    """A machine, or with a seed one near it."""
    scenario, dice = machine(name), random.Random(f"{name} {seed}")
    keys = list(movable(scenario).values())
    while seed:
        moved = dice.sample(keys, min(5, len(keys)))
        changes = {key.key: times(scenario, key, math.exp(dice.uniform(-NEAR, NEAR))) for key in moved}
        try:
            return edited(scenario, changes)
        except ScenarioError:
            continue
    return scenario


@cache
def found(name: str, seed: int) -> Assessment:
    return assess_without_ranges(near(name, seed))


def changed(scenario: Scenario, change: Change) -> Assessment | None:
    """What is said of the changed machine; None if there is no such machine."""
    try:
        other = edited(scenario, change)
    except ScenarioError:
        return None
    return assess_without_ranges(other)


def checks(result: Assessment) -> dict[Key, Check]:
    return {
        (index, check.name, check.method, check.member): check
        for index, joint in enumerate(result.joints)
        for check in joint.checks
        if check.safety_factor is not None
    }


def raised(before: Assessment, after: Assessment, which: Callable[[Check], bool]) -> list[tuple[Any, ...]]:
    """Checks whose factor is higher than before."""
    old, new = checks(before), checks(after)
    assert old
    return [
        (key, old[key].safety_factor, new[key].safety_factor)
        for key in old.keys() & new.keys()
        if which(old[key]) and _factor(new[key]) > _factor(old[key]) * (1.0 + ROUNDING)
    ]


def _factor(check: Check) -> float:
    assert check.safety_factor is not None
    return check.safety_factor


def longer_lives(before: Assessment, after: Assessment) -> list[tuple[Any, ...]]:
    """
    Joints that wear longer than before.

    A check that fails from the start ends no wear life: it is a verdict of its own. A joint in which one
    more does so may wear for longer than before, until its next limit, and is left out. So is one that
    frets before and wears after, or the other way round: no life is stated of what frets.
    """
    return [
        (old.name, old.wear.life, new.wear.life)
        for old, new in zip(before.joints, after.joints, strict=True)
        if old.wear and new.wear and old.wear.life and new.wear.life and _failing(old) == _failing(new)
        if any(b > a * (1.0 + ROUNDING) for a, b in zip(old.wear.life, new.wear.life, strict=True))
    ]


def _failing(joint: JointResult) -> set[tuple[str, str]]:
    return {
        (c.name, c.method) for c in joint.checks if c.safety_factor is not None and c.safety_factor <= 1.0
    }


def splines(scenario: Scenario) -> Iterator[str]:
    for index, joint in enumerate(scenario.document["joint"], start=1):
        if joint["kind"].endswith("spline"):
            yield f"joint[{index}]"


def any_check(check: Check) -> bool:
    return True


def tabulated(check: Check) -> bool:
    return check.method == "guide, tabulated"


def of_a_flank(check: Check) -> bool:
    return check.name.startswith("flank")


@everywhere
def test_more_torque_raises_no_factor_and_lengthens_no_life(name: str, seed: int) -> None:
    """
    The motor's torques grow together with their rise, so that the ramp takes as long as before.

    The blow is no exception here. With T = a f(t) in a path that is linear but for its lash b the peak is
    a P(b / a): it grows with a as long as P grows less than in proportion to the lash, and across a gap
    a blow grows as its root. Torques that stand in a record of their own do not grow with the motor.
    """
    if machine(name).duty_file is not None:
        return
    scenario, dice = near(name, seed), random.Random(f"torque {name} {seed}")
    factor = math.exp(dice.uniform(0.05, 0.7))
    keys = [key for key in numeric_keys(scenario) if key.key in TORQUES]
    keys = [key for key in keys if written_at(scenario, key.key) != "instant"]
    after = changed(scenario, {key.key: times(scenario, key, factor) for key in keys})
    assert after is not None
    assert raised(found(name, seed), after, any_check) == []
    assert longer_lives(found(name, seed), after) == []


@everywhere
def test_less_engagement_raises_no_tabulated_factor(name: str, seed: int) -> None:
    """
    L / Km grows with L although Km does too: Km = 1 + log2(gap / unit) / 2, the gap is L tan(tilt), so that
    d ln Km / d ln L = 1 / (2 ln 2 Km) < 1. The blow is left out: a longer spline is stiffer, and meets
    the ramp in another phase.
    """
    scenario, dice = near(name, seed), random.Random(f"engagement {name} {seed}")
    keys = movable(scenario)
    for joint in splines(scenario):
        key = keys.get(f"{joint}.engagement")
        if key is not None:
            after = changed(scenario, {key.key: times(scenario, key, math.exp(dice.uniform(-0.7, -0.05)))})
            assert after is None or raised(found(name, seed), after, tabulated) == []


@everywhere
def test_more_play_raises_no_tabulated_factor_and_lengthens_no_life(name: str, seed: int) -> None:
    """Through the blow a wider gap may raise a factor: see the proof by integration."""
    scenario, dice = near(name, seed), random.Random(f"play {name} {seed}")
    keys = movable(scenario)
    for joint in splines(scenario):
        for reading in ("lash.clearance", "lash.travel", "radial_play"):
            key = keys.get(f"{joint}.{reading}")
            if key is not None:
                after = changed(scenario, {key.key: times(scenario, key, math.exp(dice.uniform(0.05, 0.7)))})
                assert after is None or raised(found(name, seed), after, tabulated) == []
                assert after is None or longer_lives(found(name, seed), after) == []


@everywhere
def test_more_tilt_raises_no_factor_lengthens_no_life_and_shares_no_better(name: str, seed: int) -> None:
    """
    Of the load along and between the teeth the closed form, the median and the 95th percentile all grow.

    A single joint may be helped: where the tilt happens to lie along its spacing errors. Its direction is
    drawn, so that as many are hurt, and more.
    """
    scenario, dice = near(name, seed), random.Random(f"tilt {name} {seed}")
    keys = movable(scenario)
    for joint in splines(scenario):
        for reading in ("tilt.angle", "tilt.offset", "tilt.runout"):
            key = keys.get(f"{joint}.{reading}")
            if key is None:
                continue
            after = changed(scenario, {key.key: times(scenario, key, math.exp(dice.uniform(0.05, 0.9)))})
            if after is None:
                continue
            before = found(name, seed)
            assert raised(before, after, any_check) == []
            assert longer_lives(before, after) == []
            for old, new in zip(before.joints, after.joints, strict=True):
                here, there = old.load_distribution, new.load_distribution
                if here is not None and there is not None:
                    assert there.tilt >= here.tilt * (1.0 - ROUNDING)
                    assert min(b / a for a, b in zip(here.peak, there.peak, strict=True)) >= 1.0 - ROUNDING


@everywhere
def test_a_softer_flank_of_a_known_steel_raises_no_factor_of_the_flank(name: str, seed: int) -> None:
    """Nor does it lengthen the life. Of a steel that is not known a softer reading may say more, below."""
    scenario, dice = near(name, seed), random.Random(f"hardness {name} {seed}")
    for joint in splines(scenario):
        for side in ("external", "internal"):
            soft, hard = sorted(dice.uniform(20.0, 62.0) for _ in range(2))
            if written_at(scenario, f"{joint}.{side}.steel") == "unknown":
                continue
            before = changed(scenario, {f"{joint}.{side}.hardness": f"{hard:.1f} HRC"})
            after = changed(scenario, {f"{joint}.{side}.hardness": f"{soft:.1f} HRC"})
            assert before is not None
            assert after is not None
            assert raised(before, after, of_a_flank) == []
            assert longer_lives(before, after) == []


def test_a_very_hard_flank_of_an_unknown_steel_may_be_a_skin() -> None:
    """
    45 HRC can only be hard right through. From 50 HRC on it may as well be the skin of a soft core, and
    counts as that: the worst that the reading allows.
    """
    scenario = machine("timber_winch")
    assert written_at(scenario, "joint[1].internal.steel") == "unknown"
    through, skin = (
        changed(scenario, {"joint[1].internal.hardness": f"{hardness} HRC"}) for hardness in (45, 50)
    )
    assert through is not None
    assert skin is not None
    key = next(key for key in checks(skin) if key[1] == "flank yield, first tooth")
    assert key[3] == "internal"
    assert min(_factor(c) for k, c in checks(through).items() if k[1] == key[1]) > 2.0 * _factor(
        checks(skin)[key]
    )


WIDENED = tuple(name for name in MACHINES if name not in {"ferry_capstan", "stone_saw", "narrow_gauge_loco"})


@pytest.mark.parametrize("name", WIDENED[::2])
def test_wider_tolerances_narrow_no_range(name: str) -> None:
    """
    Every reading of the file at once, 1 percent and then 2.5.

    True of what moves one way with each reading. A blow that is hardest at a stiffness between the ends
    does not: both ends of a wider tolerance make it softer, and its range may lose some percent; nor does
    a torque that a slip element cuts off. The machines in which that shows are left out.
    """
    scenario = machine(name)
    widths = []
    for share in (0.01, 0.025):
        changes = {}
        for key in movable(scenario).values():
            if key.kind is None or key.key.startswith("targets") or key.value <= 0.0:
                continue
            number = key.value / units_of(cast("Kind", key.kind))[key.unit].factor
            changes[key.key] = f"{number!r} +/- {number * share!r} {key.unit}"
        result = assess(edited(scenario, changes))
        widths.append({key: check.interval for key, check in checks(result).items() if check.interval})
    narrow, wide = widths
    assert narrow
    for key in narrow.keys() & wide.keys():
        (low, high), (lower, higher) = narrow[key], wide[key]
        assert higher / lower >= (high / low) ** (1.0 - SAMPLING), (key, narrow[key], wide[key])
