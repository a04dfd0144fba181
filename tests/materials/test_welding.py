"""What the welding tables say of each steel that the program knows."""

from math import nan

import pytest

from torqcheck.errors import DomainError, TableError
from torqcheck.materials import (
    carbon_equivalent,
    composition_of_grade,
    electrode,
    electrodes,
    preheat_for,
    steels,
    table,
)
from torqcheck.materials.tables import number

NO_EQUIVALENT = ("PH", "maraging", "Ductile", "Cast steel 1")


def test_every_grade_has_a_composition_or_is_one_for_which_the_formula_does_not_hold() -> None:
    without = {steel.grade for steel in steels().values() if composition_of_grade(steel.grade) is None}
    assert without
    assert all(any(word in grade for word in NO_EQUIVALENT) for grade in without)


def test_no_composition_without_its_steel() -> None:
    grades = {steel.grade for steel in steels().values()}
    assert {row["grade"] for row in table("weld_compositions")} <= grades


@pytest.mark.parametrize("grade", ["AISI 1117", "AISI 1137", "AISI 1141", "AISI 1144"])
def test_free_cutting_steel_is_known_by_its_sulphur(grade: str) -> None:
    found = composition_of_grade(grade)
    assert found is not None
    assert found.resulphurised


def test_no_other_steel_is_taken_for_one() -> None:
    assert [row["grade"] for row in table("weld_compositions") if row["resulphurised"] == "yes"] == [
        "AISI 1117",
        "AISI 1137",
        "AISI 1141",
        "AISI 1144",
    ]


def test_stronger_electrodes_are_allowed_more_and_hold_a_factor_of_their_own() -> None:
    found = list(electrodes().values())
    assert [e.allowable_shear for e in found] == sorted(e.allowable_shear for e in found)
    for one in found:
        assert 0.577 * one.yield_strength / one.allowable_shear == pytest.approx(1.6, abs=0.1)


def test_unknown_electrode_is_refused_with_those_that_there_are() -> None:
    with pytest.raises(TableError, match="E60, E70"):
        electrode("E75")


@pytest.mark.parametrize("equivalent", [0.1, 0.45, 0.46, 0.65, 0.66, 1.2])
@pytest.mark.parametrize("thickness", [1e-3, 25e-3, 25.1e-3, 0.3])
def test_every_place_of_the_preheats_is_covered_once(equivalent: float, thickness: float) -> None:
    taken = [
        row
        for row in table("weld_preheats")
        if row["use"] == "taken"
        and number(row, "carbon_equivalent_min") < equivalent <= number(row, "carbon_equivalent_max")
        and number(row, "thickness_min_mm") < 1e3 * thickness <= number(row, "thickness_max_mm")
    ]
    assert len(taken) == 1
    found = preheat_for(equivalent, thickness)
    assert found.steels == taken[0]["steels"]
    assert found.needed == (equivalent > 0.45 or thickness > 25e-3)


def test_more_carbon_or_thickness_never_needs_less_preheat() -> None:
    least = [[preheat_for(e, t).least for t in (0.01, 0.05)] for e in (0.3, 0.5, 0.8)]
    assert all(thin <= thick for thin, thick in least)
    assert [row[0] for row in least] == sorted(row[0] for row in least)


@pytest.mark.parametrize(("equivalent", "thickness"), [(nan, 0.01), (0.5, 0.5), (0.0, 0.01)])
def test_outside_the_preheats_is_refused(equivalent: float, thickness: float) -> None:
    with pytest.raises(DomainError, match="must lie within the table"):
        preheat_for(equivalent, thickness)


def test_negative_share_is_refused_and_nan_stays() -> None:
    with pytest.raises(DomainError, match="nickel must not be negative"):
        carbon_equivalent(0.2, 0.8, nickel=-0.1)
    assert carbon_equivalent(nan, 0.8) != carbon_equivalent(nan, 0.8)
