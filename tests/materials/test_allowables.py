"""Hardness class of the guide, and the stresses that it allows."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.materials import allowable_stresses, class_of, hardness_class, read_hardness, steel


@pytest.mark.parametrize(
    ("hardness", "name"),
    # every gap between bands goes to the band below
    [
        (160, "HB160_200"),
        (200, "HB160_200"),
        (229, "HB160_200"),
        (230, "HB230_260"),
        (260, "HB230_260"),
        (261, "HB230_260"),
        (285, "HB230_260"),
        (301, "HB230_260"),
        (302, "HB302_351"),
        (351, "HB302_351"),
        (352, "HB302_351"),
        (389, "HB302_351"),
        (390, "TH42_46"),
        (433, "TH42_46"),
        (159.9, "below HB160"),
    ],
)
def test_class_of_aircraft_quality(hardness: float, name: str) -> None:
    assert hardness_class(hardness, aircraft_quality=True) == name
    assert hardness_class(hardness) == ("HB302_351" if name == "TH42_46" else name)


@pytest.mark.parametrize(
    ("core", "treatment", "surface", "name"),
    [
        (185, "carburised", 58.0, "CH58_63"),
        (185, "carburised", 57.9, "SH48_53"),
        (185, "carburised", 47.9, "HB160_200"),
        (271, "induction", 48.0, "SH48_53"),
        (271, "induction", 60.0, "SH48_53"),
        (271, "induction", 47.0, "HB230_260"),
        (320, "induction", 20.0, "HB160_200"),  # a surface softer than the core governs
        (271, "nitrided", 65.0, "HB230_260"),
        (271, "carburised", None, "HB230_260"),
        (271, "none", 60.0, "HB230_260"),
    ],
)
def test_class_of_a_hard_surface(core: float, treatment: str, surface: float | None, name: str) -> None:
    assert hardness_class(core, treatment, surface) == name


@pytest.mark.parametrize("hardness", [0.0, -1.0, float("nan")])
def test_impossible_hardness_is_refused(hardness: float) -> None:
    with pytest.raises(DomainError, match="must be a positive number of HB"):
        hardness_class(hardness)


def test_unknown_words_are_refused() -> None:
    with pytest.raises(DomainError, match="surface treatment must be one of none, induction"):
        hardness_class(200.0, "chromed")
    with pytest.raises(DomainError, match="no hardness class 'HB999'; the classes are HB160_200"):
        allowable_stresses("HB999")


@given(st.floats(80.0, 615.0), st.floats(0.0, 200.0), st.booleans())
def test_harder_steel_is_never_allowed_less(hardness: float, more: float, aircraft: bool) -> None:
    soft = allowable_stresses(hardness_class(hardness, aircraft_quality=aircraft), hardness)
    hard = allowable_stresses(hardness_class(hardness + more, aircraft_quality=aircraft), hardness + more)
    for name in ("shear", "flank_straight", "flank_crowned", "tension"):
        assert getattr(hard, name) >= getattr(soft, name)


def test_below_the_guide_its_lowest_row_is_scaled() -> None:
    lowest, ours = allowable_stresses("HB160_200"), allowable_stresses("below HB160", 120.0)
    for name in ("shear", "flank_straight", "flank_crowned", "tension"):
        assert getattr(ours, name) == pytest.approx(0.75 * getattr(lowest, name))
    assert (ours.source.mark, ours.tension_source.mark) == ("assumed", "assumed")
    assert "scaled by 120/160 HB" in ours.note
    assert not lowest.note


@pytest.mark.parametrize("hardness", [None, 160.0, 0.0, float("nan")])
def test_below_the_guide_needs_the_hardness(hardness: float | None) -> None:
    with pytest.raises(DomainError, match="needs a core hardness below 160 HB"):
        allowable_stresses("below HB160", hardness)


@pytest.mark.parametrize(
    ("name", "reading", "expected"),
    [
        ("4140_QT425", None, "HB302_351"),
        ("4140_QT425", "24 HRC", "HB230_260"),  # a reading on the part overrides the row
        ("4140_QT425", "302 HB", "HB302_351"),
        ("4140_QT425", "302 HB +/- 5", "HB230_260"),  # less its tolerance
        ("4140_ann", "33 HRC", "HB302_351"),
        ("4140_QT425", "60 HRC", "HB302_351"),
        ("4140_QT425", "95 HRB", "HB160_200"),
        ("300M", "45 HRC", "TH42_46"),
        ("300M", "40 HRC", "HB302_351"),
        ("8620_carb_30", "60 HRC", "CH58_63"),  # case: the reading is that of the surface
        ("8620_carb_30", "60 HRC +/- 3", "SH48_53"),
        ("8620_carb_30", "30 HRC", "HB230_260"),  # case gone: core, here softer than the reading
        ("8620_carb_30", "130 HB", "below HB160"),
        ("4140_ind", "50 HRC", "SH48_53"),
        ("4140_nit", "700 HV", "HB230_260"),
    ],
)
def test_class_of_steel_and_reading(name: str, reading: str | None, expected: str) -> None:
    assert class_of(steel(name), read_hardness(reading) if reading else None) == expected
