"""Steels by name and section; strengths to design with."""

import pytest

from torqcheck.errors import TableError
from torqcheck.materials import Steel, design_ultimate, design_yield, steel, steels


@pytest.mark.parametrize("name", ["4140_QT425", "4140 qt425", "4140-QT425", " 4140.Qt.425 ", "4140QT425"])
def test_case_and_separators_are_free(name: str) -> None:
    assert steel(name).id == "4140_QT425"


def test_values_are_si() -> None:
    """ASM values of AISI 4140, tempered at 425 C (published): 1248/1138 MPa."""
    found = steel("4140_QT425")
    assert (found.ultimate_strength, found.yield_strength) == (1248e6, 1138e6)
    assert found.section_max == pytest.approx(0.025)
    assert found.density == 7850.0
    assert found.notes.through_harden_round == pytest.approx(0.025)
    assert steel("4140_nit").case_depth_min == pytest.approx(0.0002)


def test_unknown_name_lists_the_three_nearest() -> None:
    with pytest.raises(
        TableError, match='no steel "4410_QT425" in the tables; the nearest names are'
    ) as caught:
        steel("4410_QT425")
    names = str(caught.value).split("nearest names are ")[1].split(", ")
    assert len(names) == 3
    assert "4140_QT425" in names
    assert set(names) <= set(steels())


@pytest.mark.parametrize("name", ["", "???", "x" * 10_000])
def test_nonsense_is_refused_in_one_short_line(name: str) -> None:
    with pytest.raises(TableError, match="there is no steel") as caught:
        steel(name)
    assert len(str(caught.value)) < 250


def test_row_for_reference_is_refused_with_the_reason() -> None:
    with pytest.raises(
        TableError, match=r"1050_QT205.* is for reference only.*ultimate strength over hardness"
    ):
        steel("1050 QT205")
    with pytest.raises(TableError, match="is for reference only"):
        design_yield(steels()["1050_QT205"])


def test_typical_values_are_derated_and_minimums_are_not() -> None:
    typical, minimum = steel("4140_QT425"), steel("42CrMo4_QT_40")
    assert design_yield(typical) == pytest.approx(0.9 * 1138e6)
    assert design_ultimate(typical) == pytest.approx(0.9 * 1248e6)
    assert (design_yield(minimum), design_ultimate(minimum)) == (750e6, 1000e6)


@pytest.mark.parametrize(
    ("diameter", "yields"),
    # EN 10083-3:2006, Table 8, 42CrMo4 +QT as on mill cards (published): yield by diameter in mm
    [(16.0, 900), (16.1, 750), (40.0, 750), (40.1, 650), (100.0, 650), (160.0, 550), (250.0, 500)],
)
def test_strength_falls_with_the_section(diameter: float, yields: float) -> None:
    fitting = [
        row
        for row in steels().values()
        if row.grade == "42CrMo4" and row.surface_treatment == "none" and row.fits_section(diameter * 1e-3)
    ]
    assert [row.yield_strength for row in fitting] == [yields * 1e6]


def test_section_of_a_single_size_holds_up_to_it() -> None:
    row = steel("4140_QT540_3in")
    assert row.fits_section(0.060)
    assert row.fits_section(0.075)
    assert not row.fits_section(0.076)
    assert steel("1541_CD").fits_section(0.030) is None


def test_every_mark_travels_with_its_number() -> None:
    row = steel("1018_carb")
    assert (row.source.mark, row.surface_mark, row.constants_mark) == (
        "published",
        "from memory",
        "from memory",
    )
    assert steel("4140_QT425").source.mark == "from memory"  # its hardness is
    assert steel("4140_PH_min28").source.mark == "assumed"  # its yield is
    assert "EN 10083-3:2006" in str(steel("42CrMo4_QT_40").source)


def test_tables_cannot_be_changed() -> None:
    with pytest.raises(TypeError, match="does not support item assignment"):
        steels()["x"] = steel("1018_CD")  # type: ignore[index]


def test_own_tables_come_in_and_must_not_clash() -> None:
    own = {"Shop 1": own_copy("Shop 1")}
    assert steel("shop-1", extra=(own,)).id == "Shop 1"
    assert len(steels((own,))) == len(steels()) + 1
    with pytest.raises(TableError, match='steel "4140 QT425" of an own table is there already'):
        steels(({"4140 QT425": own_copy("4140 QT425")},))
    with pytest.raises(TableError, match='steel "SHOP_1" of an own table is there already'):
        steels((own, {"SHOP_1": own_copy("SHOP_1")}))


def own_copy(name: str) -> Steel:
    """A steel of an own table."""
    base = steel("1045_CD")
    return Steel(
        id=name,
        grade=base.grade,
        condition=base.condition,
        ultimate_strength=base.ultimate_strength,
        yield_strength=base.yield_strength,
        core_hardness_min=base.core_hardness_min,
        core_hardness_max=base.core_hardness_max,
        hardness_class=base.hardness_class,
        strength_factor=1.0,
        source=base.source,
        own_table=True,
    )
