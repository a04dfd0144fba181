"""Words for somebody who has a caliper and has never seen a key of the file."""

import datetime
import re
from pathlib import Path

import pytest
from interview._answers import at

from torqcheck.assessment import assess
from torqcheck.interview.identified import reading_place
from torqcheck.interview.joint_questions import ASKED_KINDS, JOINT_QUESTIONS
from torqcheck.interview.machine_questions import DUTY_QUESTIONS, MACHINE_QUESTIONS, RECORD_QUESTIONS
from torqcheck.interview.question import Question
from torqcheck.interview.schema_place import Field, field_at, steps_of
from torqcheck.interview.steel_search import matching_steels
from torqcheck.interview.template import answered_by
from torqcheck.interview.wording import example_of, help_of
from torqcheck.report.asking import question_lines
from torqcheck.report.new_scenario import scenario_text
from torqcheck.scenario import scenario_from_text
from torqcheck.units import read

QUESTIONS = (*MACHINE_QUESTIONS, *DUTY_QUESTIONS, *JOINT_QUESTIONS, *RECORD_QUESTIONS)
READINGS = [question for question in QUESTIONS if question.form == "reading"]


def _field(question: Question) -> Field:
    """The field of a reading, in the first kind of joint that has it."""
    key = reading_place(question.key, "external") if ".identify." in question.key else question.key
    for kind in ("", *ASKED_KINDS) if not key.startswith("joint") else ASKED_KINDS:
        try:
            return field_at(steps_of(key, 0), kind)
        except (KeyError, IndexError):
            continue
    raise AssertionError(question.key)


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.key)
def test_help_says_more_than_the_hint(question: Question) -> None:
    assert len(help_of(question)) > 20
    assert help_of(question) not in {question.how, question.words}


QUANTITIES = [question for question in READINGS if _field(question).usual is not None]


@pytest.mark.parametrize("question", QUANTITIES, ids=lambda question: question.key)
def test_an_example_has_the_usual_size_of_what_is_asked(question: Question) -> None:
    usual = _field(question).usual
    assert usual is not None
    shown = example_of(question) or _field(question).example.replace('"', "")
    values = [read(text, usual.kind)[0] for text in shown.split(" or ")]
    assert all(usual.low <= value <= usual.high for value in values)
    assert max(values) <= 1.08 * min(values), "both systems say the same"


def test_no_two_sizes_apart_share_an_example() -> None:
    """Play of a worn spline is no length of a shaft, service life no rise time."""
    said = {question.key: example_of(question) for question in QUANTITIES}
    assert said["targets.service_life"] == "2000 h"
    for key in ("joint[].lash.travel", "joint[].lash.clearance", "joint[].external.measured.worn_step"):
        assert read(said[key].split(" or ")[0], "length")[0] < 1e-3
    assert sum(not text for text in said.values()) <= 5


def test_every_example_and_every_slip_shows_that_example() -> None:
    life = at("targets.service_life")
    assert "     For example 2000 h." in question_lines(life)
    assert life.fed("2000").lines == ('"2000" has no unit; write for example "2000 h"',)
    travel = at("joint[1].lash.travel")
    assert 'write for example "0.35 mm" or "0.014 in"' in travel.fed("0.35").lines[0]


@pytest.mark.parametrize(
    ("key", "line", "kept"),
    [
        ("duty[1].torque", "60 %", "0.6"),
        ("duty[1].torque", "100%", "1"),
        ("duty[1].torque", "-30 percent", "-0.3"),
        ("duty[1].share", "12.5 %", "0.125"),
        ("reduction.efficiency", "97 %", "0.97"),
    ],
)
def test_a_share_may_be_a_per_cent(key: str, line: str, kept: str) -> None:
    changes = {"reduction.ratio": "2.5"} if key.startswith("reduction") else {}
    reply = at(key, **changes).fed(line)
    assert reply.kind == "taken"
    assert reply.dialogue.given[-1] == (key, kept)
    assert reply.note == f"taken as {kept}"


def test_a_per_cent_is_no_safety_factor() -> None:
    assert at("targets.safety_factor").fed("150 %").kind == "complaint"
    assert at("duty[1].torque").fed("130 %").kind == "complaint"


@pytest.mark.parametrize("line", ["1500 RPM", "1500 1/min", "1500 rpm", "1500 rev/min"])
def test_a_speed_in_the_spelling_of_a_name_plate(line: str) -> None:
    assert at("motor.max_speed").fed(line).kind == "taken"
    assert read(line, "speed")[0] == pytest.approx(157.0796, rel=1e-6)


def test_no_message_names_a_key() -> None:
    slips = {
        "motor.peak_torque": ("150", "-1 N*m", "12 mm", "1e12 N*m"),
        "motor.ramp": ("300 %", "12 mm"),
        "duty[1].torque": ("2", "much"),
        "duty[2].speed": ("9000 rpm",),
        "joint[1].size.pitch": ("20/41",),
        "joint[1].lash.radius": ("1 mm",),
        "joint[1].external.hardness": ("59",),
        "joint[1].external.measured.major_diameter": ("60 mm",),
    }
    for key, lines in slips.items():
        for line in lines:
            reply = at(key).fed(line)
            assert reply.kind == "complaint"
            for text in reply.lines:
                assert not re.search(r"\b(motor|duty|joint|driven|record|targets)\b[\[.]", text), text


def test_what_an_old_part_leads_to_is_said_where_it_is_asked() -> None:
    shown = " ".join(" ".join(question_lines(at("joint[1].internal.reused"))).split())
    assert "an old part gets no pass without a hardness reading" in shown


@pytest.mark.parametrize(
    ("key", "word"),
    [
        ("targets.lash_limit", "pitch circle"),
        ("targets.lash_limit", "lash limit"),
        ("motor.rotor", "band"),
        ("motor.regen_torque", "Regeneration"),
        ("joint[].identify.side", "External"),
        ("joint[].identify.side", "Internal"),
    ],
)
def test_words_of_the_trade_are_explained_where_they_are_used(key: str, word: str) -> None:
    question = next(question for question in QUESTIONS if question.key == key)
    assert word in help_of(question)


def test_a_plain_shaft_has_no_external_member() -> None:
    done = answered_by({"motor.peak_torque": "70 N*m", "motor.max_speed": "1500 rpm", "motor.ramp": "0.2 s",
        "driven.load": "uniform", "joint[1].kind": "shaft", "joint[1].diameter": "30 mm"})  # fmt: skip
    found = assess(scenario_from_text(scenario_text(done).encode(), Path("my.toml")))
    said = " ".join(str(entry) for entry in found.undecided_by)
    assert "hardness of the shaft" in said
    assert "member" not in said + " ".join(entry.text for entry in found.cautions)


def test_the_record_is_asked_for_at_the_end_and_may_be_left_out() -> None:
    date = at("record.date")
    today = datetime.date.today().isoformat()
    assert f"     For example {today} (today)." in question_lines(date)
    assert date.fed("31.12.2026").kind == "complaint"
    assert date.fed("2026-02-30").kind == "complaint"
    assert date.fed("today").dialogue.given[-1] == ("record.date", today)
    done = date.fed("2026-03-14").dialogue.fed("WT-014").dialogue.fed("A. Fitter").dialogue
    assert done.question is None
    record = scenario_from_text(scenario_text(done).encode(), Path("my.toml")).record
    assert (record.date, record.build, record.checked_by) == (
        datetime.date(2026, 3, 14),
        "WT-014",
        "A. Fitter",
    )
    left = date.fed("").dialogue.fed("").dialogue.fed("").dialogue
    assert left.question is None
    assert set(left.document["record"]) == {"title"}


def test_a_row_of_one_hardness_is_no_range() -> None:
    rows = [row.says for text in ("42", "HT", "5", "C") for row in matching_steels(text)]
    assert rows
    assert not [text for text in rows if re.search(r"core (\S+) to \1 HB", text)]
