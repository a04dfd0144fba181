"""Electrodes, carbon equivalent and preheat.

Read: a page that reprints the allowable stresses of fillet welds; a welding reference page on 4140; a page
that lists preheats of low-alloy steels; a shipyard table whose columns had run together. The strengths of
the electrodes and the compositions of the steels are remembered.
"""

import pytest
from published._case import Case

from torqcheck.materials import carbon_equivalent, composition_of_grade, electrode, preheat_for, table
from torqcheck.materials.tables import number

TABLES = "Reprint of the tables of fillet welds of Shigley's Mechanical Engineering Design"
KSI = 6.894757293168e6


@pytest.mark.parametrize(
    ("name", "printed"),
    [("E60", "18.0"), ("E70", "21.0"), ("E80", "24"), ("E90", "27"), ("E100", "30"), ("E110", "33")],
)
def test_allowable_shear_on_the_throat(name: str, printed: str) -> None:
    case = Case(TABLES, f"electrode {name}", "published", {}, printed, unit=KSI)
    case.check(electrode(name).allowable_shear)


@pytest.mark.parametrize(("name", "printed"), [("E60", "124"), ("E70", "145")])
def test_the_same_in_megapascal(name: str, printed: str) -> None:
    case = Case(TABLES, f"electrode {name}", "published", {}, printed, unit=1e6)
    case.check(electrode(name).allowable_shear)


@pytest.mark.parametrize(("name", "printed"), [("E60", "62"), ("E70", "70"), ("E80", "80"), ("E110", "110")])
def test_tensile_strength_of_the_weld_metal(name: str, printed: str) -> None:
    work = "Budynas and Nisbett, Mechanical Engineering Design"
    case = Case(work, f"table 9-3, {name}", "from memory", {}, printed, unit=KSI)
    case.check(electrode(name).ultimate_strength)


def test_carbon_equivalent_of_4140() -> None:
    case = Case("Welding reference page on 4140", "carbon equivalent", "published", {}, "0.8")
    found = composition_of_grade("AISI 4140")
    assert found is not None
    case.check(found.carbon_equivalent)


def test_carbon_equivalent_by_hand() -> None:
    inputs = {"carbon": 0.40, "manganese": 0.88, "chromium": 0.95, "molybdenum": 0.20}
    case = Case("International Institute of Welding, 1967", "formula", "from memory", inputs, "0.777")
    case.check(float(carbon_equivalent(**case.inputs)))
    assert float(carbon_equivalent(0.10, 0.55, 1.20, 0.12, 0.05, 3.25, 0.20)) == pytest.approx(
        0.10 + 0.55 / 6 + (1.20 + 0.12 + 0.05) / 5 + (3.25 + 0.20) / 15, rel=1e-15
    )


@pytest.mark.parametrize(
    ("steels", "column", "printed", "fahrenheit"),
    [
        ("low-alloy steel, thin", "preheat_min_C", "93", 200),
        ("low-alloy steel, thin", "preheat_max_C", "316", 600),
        ("low-alloy steel, thick", "preheat_min_C", "149", 300),
        ("carbon steel above 0.30 percent carbon", "preheat_min_C", "79", 175),
        ("chromium-molybdenum steel with 3/4 to 2 percent chromium", "preheat_min_C", "121", 250),
    ],
)
def test_preheats_that_were_read(steels: str, column: str, printed: str, fahrenheit: float) -> None:
    row = next(row for row in table("weld_preheats") if row["steels"] == steels)
    case = Case(row["source"], steels, "published", {"F": fahrenheit}, printed)
    case.check((case.inputs["F"] - 32.0) / 1.8)
    assert number(row, column) == float(printed)


@pytest.mark.parametrize(
    ("grade", "least", "most"), [("AISI 4140", "200", "315"), ("AISI 1045", "150", "200")]
)
def test_preheats_that_are_taken(grade: str, least: str, most: str) -> None:
    found = composition_of_grade(grade)
    assert found is not None
    preheat = preheat_for(found.carbon_equivalent, 0.020)
    Case("Workshop", grade, "common practice, no source", {}, least).check(preheat.least - 273.15)
    Case("Workshop", grade, "common practice, no source", {}, most).check(preheat.most - 273.15)
