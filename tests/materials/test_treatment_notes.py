"""The notes on heat treatment: every steel has one, and the choice follows surface and condition."""

import pytest

from torqcheck.materials import steels, table, treatment_note, unknown_steel
from torqcheck.materials.treatment_columns import PROCESSES
from torqcheck.materials.treatment_notes import treatment_process


def test_table_has_a_row_for_every_process_in_order() -> None:
    assert tuple(row["process"] for row in table("treatment_notes")) == PROCESSES


@pytest.mark.parametrize("key", list(steels()))
def test_every_steel_has_a_note_that_agrees_with_its_lead(key: str) -> None:
    steel = steels()[key]
    note = treatment_note(steel)
    assert 0.0 <= note.add_days_min <= note.add_days_max
    assert note.growth
    assert note.drawing
    assert note.keep_soft
    assert (note.depth_source is not None) is (steel.surface_treatment != "none")
    assert (note.process == steel.surface_treatment) is (steel.surface_treatment != "none")
    # the lead of a row is for that very steel, waiting for bar included: hard layers and ageing must agree
    if note.process in ("induction", "carburised", "nitrided", "age hardened", "casting"):
        assert steel.notes.lead_days_min is not None
        assert steel.notes.lead_days_max is not None
        assert steel.notes.lead_days_min <= note.add_days_max
        assert note.add_days_min <= steel.notes.lead_days_max


@pytest.mark.parametrize(
    ("key", "process"),
    [
        ("1045_CD", "as delivered"),
        ("C45E_N_16", "as delivered"),
        ("4140_PH28_32", "as delivered"),
        ("4340_PH", "as delivered"),
        ("4140_QT540", "quench and temper"),
        ("42CrMo4_QT_40", "quench and temper"),
        ("1045_QT225HB", "quench and temper"),
        ("1117_WQT350", "carburised"),
        ("135M_nit", "nitrided"),
        ("1045_CD_ind", "induction"),
        ("15_5PH_H900", "age hardened"),
        ("Mar300", "maraging"),
        ("CS_A148_105_85", "casting"),
        ("DI_80_55_06", "casting"),
    ],
)
def test_process_follows_surface_and_condition(key: str, process: str) -> None:
    assert treatment_process(steels()[key]) == process
    assert treatment_note(steels()[key]).process == process


@pytest.mark.parametrize(
    ("key", "days"),
    [("1144_SR", (0, 0)), ("4140_QT540", (3, 10)), ("4140_ind", (3, 15)), ("8620_carb_30", (5, 15)),
     ("4140_nit", (7, 20)), ("17_4PH_H1025", (1, 5))],
)  # fmt: skip
def test_days_are_those_of_practice_and_say_so(key: str, days: tuple[float, float]) -> None:
    note = treatment_note(steels()[key])
    assert (note.add_days_min, note.add_days_max) == days
    assert note.source.mark == "common practice, no source"


def test_what_was_read_is_marked_on_its_own() -> None:
    aged = treatment_note(steels()["17_4PH_H900"])
    assert aged.growth_source.mark == "published"
    assert "0.04 to 0.06 %" in aged.growth  # 0.0004 to 0.0006 in/in
    case = treatment_note(steels()["8620_carb_30"])
    assert case.depth_source is not None
    assert case.depth_source.mark == "published"
    assert case.growth_source.mark == "common practice, no source"
    assert treatment_note(steels()["Mar250"]).growth_source.mark == "from memory"


def test_unknown_steel_is_taken_as_delivered() -> None:
    assert treatment_note(unknown_steel()).process == "as delivered"
