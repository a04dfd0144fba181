"""The block on torsional fatigue: damage, range of the life, place, and what does most."""

import pytest
from builder import BASE, assessed, loaded

from torqcheck.assessment import assess
from torqcheck.report.build import sheet_of
from torqcheck.report.fatigue import fatigue_table

WEAK = (
    ('steel = "8620_carb_63"\nhardness = "60 HRC +/- 1"', 'steel = "4140_QT425"\nhardness = "38 HRC"'),
    ('peak_torque = "240 N*m"', 'peak_torque = "400 N*m"'),
    ("events_per_hour = 20", "events_per_hour = 200"),
    ('"400 hour"', '"4000 hour"'),
)
WEAK_AND_SEVERAL = BASE + (
    '\n[[joint]]\nname = "stub"\nkind = "shaft"\ndiameter = "40 mm"\nsteel = "4140_QT425"\nreused = false\n'
)


def test_a_row_names_member_place_and_worst_cycle() -> None:
    result = assessed(*WEAK)
    table = fatigue_table(result, ("si", "inch"))
    assert table is not None
    assert table.title == "Torsional fatigue, damage over 4000 h"
    ((name, damage, life, place, most),) = table.rows
    fatigue = result.joints[0].fatigue
    assert fatigue.service_damage is not None
    assert name == "gearbox input"
    assert float(damage) == pytest.approx(fatigue.service_damage, rel=0.05)
    low, high = (float(word) for word in life.split(" to "))
    assert high / low == pytest.approx(9.0, rel=0.1)
    assert place == "shaft, tooth root, surface"
    assert "% by starting" in most
    assert most.endswith("N m")
    assert "DIN 743 (from memory)" in table.legend
    inch = fatigue_table(result, ("inch",))
    assert inch is not None
    assert inch.rows[0][-1].endswith("lbf ft")


def test_a_failing_life_is_said_under_the_verdict() -> None:
    result = assessed(*WEAK)
    (reason,) = (reason for reason in result.decided_by if reason.kind == "fatigue")
    assert "torsional fatigue, life too short" in reason.text
    assert "4000 h are wanted" in reason.text
    assert any(reason.line in words for words in sheet_of(result, "si", 80).words)


def test_a_life_without_an_end_says_so_and_is_no_reason() -> None:
    result = assessed(('peak_torque = "240 N*m"', 'peak_torque = "20 N*m"'), ('"90 N*m"', '"5 N*m"'))
    table = fatigue_table(result, ("si",))
    assert table is not None
    assert table.rows[0][1:3] == ("< 0.001", "no end in sight")
    assert "fatigue" not in {reason.kind for reason in (*result.decided_by, *result.besides)}


def test_a_plain_shaft_has_no_row() -> None:
    result = assess(loaded(base=WEAK_AND_SEVERAL))
    table = fatigue_table(result, ("si",))
    assert table is not None
    assert [row[0] for row in table.rows] == ["gearbox input"]


def test_cast_iron_says_why_it_has_no_life() -> None:
    result = assessed(
        ('steel = "8620_carb_63"\nhardness = "60 HRC +/- 1"', 'steel = "DI_80_55_06"'),
        ('outside_diameter = "52 mm"\n', ""),
    )
    table = fatigue_table(result, ("si",))
    assert table is not None
    assert table.rows[0][1:4] == ("-", "-", "shaft")
    assert table.rows[0][4].startswith("cast iron")
    assert result.to_dict()["joints"][0]["fatigue"]["reason"].startswith("cast iron")
