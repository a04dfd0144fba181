"""The shipped tables: columns, sources, marks and plausible numbers; what a bad table is told."""

import csv
import io
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from torqcheck.errors import TableError
from torqcheck.materials import (
    allowable_stresses,
    hardness_class,
    lash_limits,
    source,
    steels,
    table,
    wear_classes,
)
from torqcheck.materials.columns import LAYOUTS, Column, Layout
from torqcheck.materials.tables import parse
from torqcheck.provenance import MARKS
from torqcheck.resources import shipped_folder

FOLDER = Path(str(shipped_folder("material_tables")))
SMALL = Layout(
    (
        Column("id"),
        Column("width_mm", "number", 1.0, 50.0),
        Column("mark", "mark"),
        Column("note", required=False),
    ),
    ("id",),
)
GOOD = "id,width_mm,mark,note\nA,12.5,published,\n"


def rows_of_every_file() -> Iterator[tuple[str, dict[str, str]]]:
    """Every row of every table in the folder, whoever reads it."""
    for path in sorted(FOLDER.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as stream:
            for row in csv.DictReader(stream):
                yield path.name, row


# the tables as shipped


@pytest.mark.parametrize("name", LAYOUTS)
def test_table_holds_what_its_layout_says(name: str) -> None:
    header = (FOLDER / f"{name}.csv").read_text(encoding="utf-8").splitlines()[0].split(",")
    assert header == [column.name for column in LAYOUTS[name].columns]
    assert len(table(name)) >= 3


@pytest.mark.parametrize("name", [name for name in LAYOUTS if name != "sources"])
def test_every_row_has_source_and_mark(name: str) -> None:
    for row in table(name):
        assert source(row).work
        assert source(row).mark in MARKS


def test_every_mark_of_every_file_is_one_of_ours() -> None:
    seen = {
        row[column]
        for _, row in rows_of_every_file()
        for column in row
        if column == "mark" or column.endswith("_mark")
    }
    assert seen - {""} <= set(MARKS)
    assert {"published", "from memory", "assumed", "derived", "common practice, no source"} <= seen


def test_what_was_not_read_is_never_marked_published() -> None:
    read = {row["key"]: row["read"] for row in table("sources")}
    for file, row in rows_of_every_file():
        if row.get("mark") == "published":
            assert read[row["source"]] != "not read", f"{file}: {row}"


def test_every_source_is_cited_and_stands_once() -> None:
    cited = {
        row[column]
        for _, row in rows_of_every_file()
        for column in row
        if column == "source" or column.endswith("_source")
    }
    keys = [row["key"] for row in table("sources")]
    assert len(keys) == len(set(keys))
    assert len({row["work"] for row in table("sources")}) == len(keys)
    assert set(keys) <= cited


def test_no_source_is_a_web_address() -> None:
    for file in FOLDER.iterdir():
        assert not re.search(r"https?:|www\.|\.com\b", file.read_text(encoding="utf-8")), file.name


def test_readme_names_every_table_and_column() -> None:
    text = (FOLDER / "README.md").read_text(encoding="utf-8")
    for name, layout in LAYOUTS.items():
        assert f"{name}.csv" in text
        for column in layout.columns:
            assert f"`{column.name}`" in text, f"{name}.csv: {column.name}"


# steels


def test_there_are_many_steels_and_their_marks_are_counted() -> None:
    marks = [row["mark"] for row in table("steels")]
    assert len(marks) == 113
    assert marks.count("published") >= 56  # may grow; the remembered ones may only shrink
    assert marks.count("from memory") <= 52
    assert marks.count("assumed") <= 1


def test_ids_differ_in_more_than_case_and_separators() -> None:
    plain = [re.sub(r"[\W_]", "", row["id"]).lower() for row in table("steels")]
    assert len(plain) == len(set(plain))


@pytest.mark.parametrize("key", list(steels()))
def test_steel_agrees_with_itself(key: str) -> None:
    steel = steels()[key]
    assert steel.yield_strength < steel.ultimate_strength
    assert steel.core_hardness_min <= steel.core_hardness_max
    assert 0.35 <= steel.yield_strength / steel.ultimate_strength <= 0.99
    pairs = (
        (steel.section_min, steel.section_max),
        (steel.surface_hardness_min, steel.surface_hardness_max),
        (steel.surface_hardness_min_hv, steel.surface_hardness_max_hv),
        (steel.case_depth_min, steel.case_depth_max),
    )
    for low, high in pairs:
        assert low is None or high is None or low <= high
    treated = steel.surface_treatment != "none"
    values = (steel.surface_hardness_min, steel.case_depth_min, steel.surface_mark)
    assert all((value is not None) is treated for value in values)
    assert (steel.strength_of == "core") is treated
    poisson = steel.elastic_modulus / (2.0 * steel.shear_modulus) - 1.0
    assert 0.24 <= poisson <= 0.35  # 0.29 for steel; both moduli are rounded to 1 GPa


@pytest.mark.parametrize("key", list(steels()))
def test_strength_over_hardness_is_that_of_steel_or_flagged(key: str) -> None:
    steel = steels()[key]
    ratio = steel.ultimate_strength / 1e6 / steel.core_hardness_min
    assert 2.9 <= ratio <= 3.95 or "outside 2.9 to 3.95" in steel.data_flag


def test_ratio_flag_catches_what_it_should() -> None:
    """1045 cold drawn, Table A-20 (published): 630 MPa, 179 HB. 1050 quenched: 1120 MPa, 514 HB."""
    known = steels()
    good, bad = known["1045_CD"], known["1050_QT205"]
    assert good.ultimate_strength / 1e6 / good.core_hardness_min == pytest.approx(3.52, abs=0.005)
    assert bad.ultimate_strength / 1e6 / bad.core_hardness_min == pytest.approx(2.18, abs=0.005)
    assert not good.data_flag
    assert "2.18" in bad.data_flag
    assert bad.reference_only


@pytest.mark.parametrize("key", list(steels()))
def test_hardness_class_follows_the_rule(key: str) -> None:
    steel = steels()[key]
    aircraft = "AMS" in steel.notes.standard and steel.hardness_class == "TH42_46"
    assert steel.hardness_class == hardness_class(
        steel.core_hardness_min, steel.surface_treatment, steel.surface_hardness_min, aircraft
    )
    hardness = steel.core_hardness_min if steel.hardness_class == "below HB160" else None
    assert allowable_stresses(steel.hardness_class, hardness).shear > 0.0


DISPUTED = {  # the lower of the figures that sources give: MPa, MPa, HB
    "1020_CD": (421, 352, 121),
    "1117_CD": (476, 400, 137),
    "1541_CD": (707, 600, 207),
    "4340_QT425": (1434, 1360, 415),
    "300M": (1862, 1517, 512),  # 270 and 220 ksi
    "9310_carb": (965, 690, 280),
}


@pytest.mark.parametrize("key", DISPUTED)
def test_disputed_rows_carry_the_lower_figure_and_say_so(key: str) -> None:
    steel = steels()[key]
    carried = (steel.ultimate_strength / 1e6, steel.yield_strength / 1e6, steel.core_hardness_min)
    assert carried == pytest.approx(DISPUTED[key])
    assert steel.data_flag.startswith("carries")
    assert not steel.reference_only


def test_notes_are_there_for_every_steel() -> None:
    for steel in steels().values():
        assert steel.notes.welding
        assert steel.notes.heat_treatment
        assert steel.notes.lead_days_min is not None
        assert steel.notes.lead_days_max is not None
        assert steel.notes.lead_days_min <= steel.notes.lead_days_max
        assert steel.notes.lead_and_cost_mark == "common practice, no source"
    assert steels()["1018_CD"].notes.cost_index == 1.0


# the other tables


@pytest.mark.parametrize("part", ["B", "C"])
def test_conversion_list_rises_in_every_column(part: str) -> None:
    rows = [row for row in table("hardness_conversion") if row["part"] == part]
    for column in ("hardness_HRC", "hardness_HRB", "hardness_HV", "hardness_HB", "ultimate_ksi"):
        values = [float(row[column]) for row in rows if row[column]]
        assert values == sorted(set(values)), column


@pytest.mark.parametrize(
    ("name", "columns"),
    [
        (
            "hardness_yield",
            ("hardness_HRC", "hardness_HB", "ultimate_MPa", "yield_MPa", "torsional_yield_MPa"),
        ),
        ("yield_ratio_floor", ("hardness_HB", "yield_to_ultimate")),
    ],
)
def test_list_rises(name: str, columns: tuple[str, ...]) -> None:
    for column in columns:
        values = [float(row[column]) for row in table(name)]
        assert values == sorted(set(values)), column


def test_wear_classes_get_worse_and_their_spread_is_lognormal() -> None:
    """Own choice, marked so; 1.2816 standard deviations lie between the median and a tenth."""
    classes = list(wear_classes().values())
    assert [c.lubrication for c in classes] == ["oil flooded", "sealed grease", "expired grease", "dry"]
    medians = [c.wear_coefficient for c in classes]
    assert medians == sorted(medians)
    for c in classes:
        assert c.source.mark == "assumed"
        assert c.wear_coefficient_p90 / c.wear_coefficient == pytest.approx(10.0)
        assert c.wear_coefficient / c.wear_coefficient_p10 == pytest.approx(10.0)
        assert 2.718281828 ** (1.2816 * c.sigma_ln) == pytest.approx(10.0, rel=0.01)


def test_lash_limits_stand_above_new_play() -> None:
    for limit in lash_limits().values():
        assert limit.limit is not None or limit.new_max is not None
        if limit.new_min is not None and limit.new_max is not None:
            assert limit.new_min < limit.new_max
        if limit.new_max is not None and limit.limit is not None:
            assert limit.new_max < limit.limit


# what a bad table is told


def test_good_table_is_read() -> None:
    ((line, row),) = parse(GOOD, "t.csv", SMALL)
    assert line == 2
    assert dict(row) == {"id": "A", "width_mm": "12.5", "mark": "published", "note": ""}


@pytest.mark.parametrize(
    ("cell", "problem"),
    [
        ("twelve", 'line 2, width_mm: "twelve" is no finite number'),
        ("nan", '"nan" is no finite number'),
        ("inf", '"inf" is no finite number'),
        ("1e999", '"1e999" is no finite number'),
        ("-3", '"-3" is negative'),
        ("0.5", '"0.5" is outside 1 to 50; check the unit'),
        ("1_0", '"1_0" is no finite number'),
        ("0x1A", '"0x1A" is no finite number'),
        ('"12,5"', '"12,5" is no finite number; write a plain number, with a point for the decimals'),
        ("", 'width_mm: "" must not be empty'),
    ],
)
def test_bad_number_is_named_with_its_place(cell: str, problem: str) -> None:
    with pytest.raises(TableError, match=re.escape(problem)):
        parse(f"id,width_mm,mark,note\nA,{cell},published,\n", "t.csv", SMALL)


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("", "t.csv: is empty"),
        ("id,width_mm,mark\n", "t.csv: holds no rows"),
        ("id,mark\nA,published\n", 't.csv: line 1: "width_mm" is missing'),
        (
            "id,width_nm,mark\nA,1,published\n",
            '"width_nm" is no column of this table; did you mean "width_mm"?',
        ),
        ("id,id,width_mm,mark\nA,B,1,published\n", '"id" stands twice'),
        ("id;width_mm;mark\nA;1;published\n", "separate the columns by commas"),
        ("id,width_mm,mark\nA,1\n", "line 2: has 2 fields where the header has 3"),
        ("id,width_mm,mark\nA,2,certain\n", 'line 2, mark: "certain" is no mark'),
        ("id,width_mm,mark\nA,2,assumed\nA,3,assumed\n", 'line 3, id: "A" stands on line 2 already'),
        ('id,width_mm,mark\n"A,2,assumed\n', "is no table of comma-separated values"),
        ("id,width_mm,mark\nA\x1b[2J,2,assumed\n", "holds characters that cannot be printed"),
    ],
)
def test_bad_table_is_told_what_to_mend(text: str, problem: str) -> None:
    with pytest.raises(TableError, match=re.escape(problem)):
        parse(text, "t.csv", SMALL)


def test_all_faults_come_together() -> None:
    with pytest.raises(TableError) as caught:
        parse("id,width_mm,mark\n,x,assumed\nB,-1,sure\n", "t.csv", SMALL)
    lines = str(caught.value).splitlines()
    assert len(lines) == 4
    assert [re.findall(r"line (\d), (\w+)", line)[0] for line in lines] == [
        ("2", "id"),
        ("2", "width_mm"),
        ("3", "width_mm"),
        ("3", "mark"),
    ]


def test_a_flood_of_faults_is_cut_short() -> None:
    text = io.StringIO()
    text.write("id,width_mm,mark\n")
    text.writelines(f"A{i},x,assumed\n" for i in range(1000))
    with pytest.raises(TableError, match="and 960 more faults") as caught:
        parse(text.getvalue(), "t.csv", SMALL)
    assert len(str(caught.value).splitlines()) == 41


def test_unknown_table_is_refused_with_the_names_of_all() -> None:
    with pytest.raises(TableError, match="no table 'stells'; the tables are sources, steels"):
        table("stells")


def test_a_source_that_is_not_listed_is_refused() -> None:
    row = dict(table("steels")[0]) | {"source": "hearsay"}
    with pytest.raises(TableError, match=r"'hearsay' is not in sources\.csv"):
        source(row)


def test_rows_cannot_be_changed() -> None:
    with pytest.raises(TypeError, match="does not support item assignment"):
        table("steels")[0]["id"] = "other"  # type: ignore[index]
