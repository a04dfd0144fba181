"""Steels of which little is known."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.materials import (
    as_measured,
    design_ultimate,
    design_yield,
    read_hardness,
    softened_by_welding,
    steel,
    steels,
    unknown_steel,
)

USABLE = [key for key, row in steels().items() if not row.reference_only]
WHOLE = [
    key
    for key in USABLE
    if steels()[key].surface_treatment == "none"
    and not steels()[key].is_iron
    and steels()[key].core_hardness_min <= 432
]


@pytest.mark.parametrize("key", WHOLE)
def test_unknown_steel_is_never_stronger_than_a_known_one_of_its_hardness(key: str) -> None:
    """The strengths that a bare hardness proves lie below every row of the tables."""
    known = steels()[key]
    unknown = unknown_steel(known.core_hardness_min)
    assert design_yield(unknown) <= known.yield_strength
    assert design_ultimate(unknown) <= known.ultimate_strength


def test_unknown_steel_without_a_reading_is_in_the_lowest_band() -> None:
    ours = unknown_steel(None)
    assert (ours.hardness_class, ours.core_hardness_min, ours.source.mark) == ("HB160_200", 160.0, "assumed")
    assert design_ultimate(ours) == pytest.approx(0.9 * 3.29e6 * 160)
    assert design_yield(ours) == pytest.approx(0.9 * 0.52 * 3.29e6 * 160)
    assert "spark" in ours.data_flag


@pytest.mark.parametrize(
    ("hardness", "name"), [(120, "below HB160"), (229, "HB160_200"), (301, "HB230_260"), (432, "HB302_351")]
)
def test_unknown_steel_takes_the_lowest_band_that_the_reading_allows(hardness: float, name: str) -> None:
    assert unknown_steel(hardness).hardness_class == name


def test_a_reading_as_hard_as_a_case_proves_no_core() -> None:
    ours = unknown_steel(500.0)
    assert ours.hardness_class == "HB302_351"
    assert ours.ultimate_strength == unknown_steel(None).ultimate_strength
    assert "case" in ours.data_flag


@pytest.mark.parametrize("hardness", [79.0, 616.0, float("nan")])
def test_unknown_steel_of_impossible_hardness_is_refused(hardness: float) -> None:
    with pytest.raises(DomainError, match="must lie between 80 and 615 HB"):
        unknown_steel(hardness)


@pytest.mark.parametrize("key", USABLE)
def test_weld_never_makes_a_steel_stronger_or_harder(key: str) -> None:
    before = steels()[key]
    after = softened_by_welding(before)
    assert design_yield(after) <= design_yield(before)
    assert design_ultimate(after) <= design_ultimate(before)
    assert after.core_hardness_min <= min(before.core_hardness_min, 160.0)
    assert (after.surface_treatment, after.surface_hardness_min, after.case_depth_min) == ("none", None, None)
    assert after.hardness_class in ("HB160_200", "below HB160")
    assert after.source.mark == "assumed"


def test_measured_hardness_replaces_strength_and_class_of_the_row() -> None:
    """1045 has no part in it: alloy steel, 32 HRC less 2 is 286 HB."""
    before = steel("4140_QT425")
    after = as_measured(before, read_hardness("32 HRC +/- 2"))
    assert (after.core_hardness_min, after.core_hardness_max) == pytest.approx((286.0, 301.0))
    assert after.ultimate_strength == pytest.approx(3.29e6 * 286)
    assert after.yield_strength / after.ultimate_strength == pytest.approx(1138 / 1248)
    assert (after.hardness_class, after.strength_factor) == ("HB230_260", 0.9)
    assert "32 HRC +/- 2" in after.source.where


def test_skin_of_plain_carbon_steel_proves_no_core() -> None:
    before = steel("1045_CD")
    assert as_measured(before, read_hardness("50 HRC")).ultimate_strength == before.ultimate_strength
    assert as_measured(before, read_hardness("140 HB")).ultimate_strength < before.ultimate_strength
    assert as_measured(steel("4140_ann"), read_hardness("30 HRC")).ultimate_strength > 900e6


def test_iron_gains_nothing_from_its_hardness() -> None:
    before = steel("DI_80_55_06")
    assert as_measured(before, read_hardness("300 HB")).ultimate_strength == before.ultimate_strength
    assert as_measured(before, read_hardness("150 HB")).ultimate_strength == pytest.approx(552e6 * 150 / 187)


def test_reading_on_a_case_leaves_the_core_alone() -> None:
    before = steel("8620_carb_30")
    after = as_measured(before, read_hardness("60 HRC +/- 1"))
    assert (after.surface_hardness_min, after.surface_hardness_max) == (59.0, 60.0)
    assert (after.yield_strength, after.core_hardness_min) == (
        before.yield_strength,
        before.core_hardness_min,
    )
    assert (after.surface_mark, after.hardness_class) == ("measured", "CH58_63")


@given(st.floats(80.0, 600.0), st.floats(0.0, 15.0))
def test_harder_reading_is_never_weaker(hardness: float, more: float) -> None:
    row = steel("4340_QT540")
    soft = as_measured(row, read_hardness(f"{hardness:.2f} HB"))
    hard = as_measured(row, read_hardness(f"{hardness + more:.2f} HB"))
    assert design_yield(soft) <= design_yield(hard)
