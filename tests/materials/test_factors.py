"""Factors between and beyond the printed points; wear classes; the default limit of lash."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.materials import (
    application_factor,
    application_factor_source,
    default_lash_limit,
    fatigue_life_factor,
    lash_limits,
    wear_class,
)
from torqcheck.wear import HARD_FLANK_VICKERS


@pytest.mark.parametrize(
    ("cycles", "reversed_torque", "value"),
    # half way between two printed points on a log axis lies their geometric mean
    [
        (10**4.5, False, math.sqrt(1.0 * 0.5)),
        (10**5.5, True, math.sqrt(0.4 * 0.3)),
        (10**3.5, True, math.sqrt(1.8)),
    ],
)
def test_life_factor_between_the_points(cycles: float, reversed_torque: bool, value: float) -> None:
    ours = fatigue_life_factor(cycles, reversed_torque)
    assert ours.value == pytest.approx(value)
    assert not ours.extrapolated


def test_life_factor_outside_the_table() -> None:
    assert fatigue_life_factor(0.0, False).value == fatigue_life_factor(999.0, True).value == 1.8
    assert not fatigue_life_factor(1.0, False).extrapolated
    beyond = fatigue_life_factor(1e8, False)
    assert beyond.extrapolated
    assert beyond.value == pytest.approx(0.3 * 0.3 / 0.4)  # one decade more, the same ratio
    assert fatigue_life_factor(1e8, True).value == pytest.approx(0.2 * 0.2 / 0.3)
    assert math.isnan(fatigue_life_factor(math.nan, True).value)
    with pytest.raises(DomainError, match="torque cycles must not be negative"):
        fatigue_life_factor(-1.0, False)


@given(st.floats(0.0, 1e10), st.floats(1.0, 100.0))
def test_more_cycles_and_reversal_never_help(cycles: float, more: float) -> None:
    one_way, reversed_torque = fatigue_life_factor(cycles, False), fatigue_life_factor(cycles, True)
    assert fatigue_life_factor(cycles * more, False).value <= one_way.value * (1.0 + 1e-12)
    assert fatigue_life_factor(cycles * more, True).value <= reversed_torque.value * (1.0 + 1e-12)
    assert reversed_torque.value <= one_way.value
    assert one_way.source.mark == "published"


def test_unknown_words_are_refused_with_the_known_ones() -> None:
    with pytest.raises(DomainError, match="character must be one of uniform, light shock, medium shock, not"):
        application_factor("heavy shock", "uniform")
    with pytest.raises(DomainError, match=r"load must be one of uniform, .*heavy shock, not 'smooth'"):
        application_factor("uniform", "smooth")
    with pytest.raises(DomainError, match=r"lubrication must be one of oil flooded, .* not 'wet'"):
        wear_class("wet")
    assert application_factor_source("uniform", "uniform").mark == "published"


def test_wear_class_is_si() -> None:
    """1 mm3/(N m) is 1e-9 m2/N; 697 HV is 60 HRC in the conversion list, and the kernel knows no other."""
    ours = wear_class("sealed grease")
    assert ours.wear_coefficient == pytest.approx(5e-16, rel=1e-12, abs=0.0)
    classes = ("oil flooded", "sealed grease", "expired grease", "dry")
    assert {wear_class(name).reference_hardness for name in classes} == {HARD_FLANK_VICKERS} == {697.0}
    assert ours.sigma_ln == 1.80


def test_default_lash_limit_is_the_one_that_two_manuals_print() -> None:
    ours = default_lash_limit()
    assert ours.limit == pytest.approx(0.30e-3)
    assert ours.source.mark == "published"
    assert lash_limits()["propeller-shaft-yoke"].limit == ours.limit
