"""The interview as a state machine: every way through it ends in a file that loads."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from interview._answers import ANSWERS, after, at, brought_to_an_end

from torqcheck.assessment import assess
from torqcheck.interview.checking import probe
from torqcheck.interview.dialogue import MOST_STEELS, Dialogue
from torqcheck.interview.saved import restored, saved_text
from torqcheck.interview.template import TEMPLATE_ANSWERS, answered_by, template
from torqcheck.report.asking import question_lines, reply_lines
from torqcheck.report.new_scenario import scenario_text, template_text
from torqcheck.scenario import Scenario, scenario_from_text
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.load import scenario_from_document
from torqcheck.scenario.sizes import spline_of


def _loaded(text: str) -> Scenario:
    return scenario_from_text(text.encode(), Path("my.toml"))


def _said(text: str) -> dict[str, Any]:
    """What a file says, blocks left out of which all keys are comments; it must load."""
    return {key: value for key, value in _loaded(text).document.items() if value != {}}


def test_every_question_of_the_typical_job_helps() -> None:
    """Also where the kind of the joint is what is asked for."""
    dialogue = Dialogue()
    while dialogue.question is not None:
        helped = dialogue.fed("help")
        assert helped.lines, dialogue.question.id
        assert helped.dialogue.question == dialogue.question
        reply = dialogue.fed(TEMPLATE_ANSWERS.get(dialogue.question.id, "?"))
        assert reply.kind == "taken", (dialogue.question.id, reply.lines)
        dialogue = reply.dialogue


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(ANSWERS, max_size=40), st.booleans())
def test_any_answers_give_a_file_that_loads(lines: list[str], from_the_middle: bool) -> None:
    start = at("joint[1].kind") if from_the_middle else Dialogue()
    dialogue = start
    for line in lines:
        reply = dialogue.fed(line)
        shown = [*question_lines(dialogue), *reply_lines(reply)]
        assert max(map(len, shown), default=0) <= 80
        assert "".join(shown).isprintable()
        dialogue = reply.dialogue
    done = brought_to_an_end(dialogue)
    text = scenario_text(done)
    assert _said(text) == done.document
    assert scenario_text(restored(saved_text(done, "").encode(), "kept")[0]) == text


@settings(max_examples=3, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(ANSWERS, min_size=5, max_size=15))
def test_a_break_at_any_moment_changes_nothing(lines: list[str]) -> None:
    dialogue = through = at("duty.count")
    for line in lines:
        dialogue = dialogue.fed(line).dialogue
        through, lost = restored(saved_text(through.fed(line).dialogue, "").encode(), "kept")
        assert lost == ()
        assert through == dialogue
    assert scenario_text(brought_to_an_end(through)) == scenario_text(brought_to_an_end(dialogue))


def test_moments_of_the_typical_job_can_be_kept() -> None:
    whole = template()
    text = scenario_text(whole)
    for count in (*range(0, len(whole.given), 11), len(whole.given)):
        kept, lost = restored(saved_text(Dialogue(whole.given[:count]), "").encode(), "kept")
        assert (kept.given, lost) == (whole.given[:count], ())
    assert scenario_text(kept) == text


def test_the_template_is_asked_for_and_nothing_of_it_is_left_over() -> None:
    asked = {name for name, _ in template().given}
    assert set(TEMPLATE_ANSWERS) <= asked
    text = template_text(template())
    assert _said(text) == template().document
    assert assess(_loaded(text)).verdict == "undecided"  # it is an example as long as it says so
    assert assess(_loaded(scenario_text(template()))).verdict == "pass"


@pytest.mark.parametrize("title", ['The "old" mill', "C:\\mill # 2", "Mühle \N{TRACTOR}", "= [x]"])
def test_any_title_survives_the_files(title: str) -> None:
    done = answered_by({**TEMPLATE_ANSWERS, "record.title": title})
    assert _loaded(scenario_text(done)).record.title == title
    assert restored(saved_text(done, "").encode(), "kept") == (done, ())


def test_back_undoes_an_answer_and_what_hung_on_it() -> None:
    at_play = at("joint[1].lash.travel")
    assert at_play.document["joint"][0].get("lash") is None
    other = at_play.fed("back").dialogue.fed("as new").dialogue
    assert other.document["joint"][0]["lash"] == "as new"
    assert other.question is not None
    assert other.question.id == "joint[1].lubrication"
    first = Dialogue().fed("back")
    assert (first.kind, first.dialogue) == ("complaint", Dialogue())


SLIPS = [
    ("motor.peak_torque", "150", '"150" has no unit; write for example "240 N*m"'),
    ("motor.peak_torque", "12 J", "is not known for a torque"),
    ("motor.max_speed", "-5 rpm", '"-5 rpm" must be above zero; write for example "4500 rpm"'),
    ("motor.ramp", "300 %", "300.0 must be at most 100"),
    ("motor.ramp", "12 mm", '"12 mm" is a length, not a torque rise'),
    ("driven.load", "heavier", '"heavier" is none of the answers; '),
    ("reduction.ratio", "two", '"two" is not a number'),
    ("targets.safety_factor", "0.5", "0.5 must be at least 1"),
    ("duty[1].share", "1", "1.0 leaves no time for the next spell"),
    ("duty[2].speed", "5000 rpm", 'is above the answer to "What is the highest speed of the motor shaft?"'),
    ("joint[1].size.pitch", "20/41", "pitch '20/41' is not of the published series"),
    ("joint[1].lash.radius", "1 mm", 'at "How far did the dial travel?": '),
    ("joint[1].engagement", "?", "an answer is needed here, nothing can stand for it. Hint: Blue the teeth"),
    ("joint[1].external.steel", "unobtainium", "the nearest names are"),
    ("joint[1].external.hardness", "90 HRC", '"90 HRC" '),
    ("joint[1].internal.outside_diameter", "20 mm", '"20 mm" '),
    ("joint[1].external.measured.teeth", "26.5", "is not a whole number"),
    ("joint[1].external.measured.major_diameter", "60 mm", "does not match 26 teeth of this size"),
    ("record.title", "x\u202ey", "holds control characters"),
    ("record.title", "x" * 300, "this answer is longer than 200 characters"),
]


@pytest.mark.parametrize(("key", "line", "says"), SLIPS)
def test_a_bad_answer_gets_the_line_of_the_file_and_is_asked_again(key: str, line: str, says: str) -> None:
    dialogue = at(key)
    reply = dialogue.fed(line)
    assert reply.kind == "complaint"
    assert any(says in complaint for complaint in reply.lines), reply.lines
    assert reply.dialogue is dialogue


def test_a_fault_of_an_earlier_answer_says_how_to_get_there() -> None:
    hint = "to change an earlier answer, answer back"
    assert hint in at("joint[1].lash.radius").fed("1 mm").lines
    for key, line, _ in SLIPS:
        if key not in {"joint[1].lash.radius", "record.title", "joint[1].engagement"}:
            assert hint not in at(key).fed(line).lines, key


def test_the_rise_of_torque_is_taken_in_every_form_of_a_controller() -> None:
    forms = {
        "50 ms": ("rise_time", "50 ms"),
        "4800 N*m/s": ("torque_rise", "4800 N*m/s"),
        "instant": ("torque_rise", "instant"),
        "3 %": ("percent_per_10ms", 3.0),
        "3% per 10 ms": ("percent_per_10ms", 3.0),
        "2.5 percent/10ms": ("percent_per_10ms", 2.5),
    }
    for line, (key, value) in forms.items():
        motor = at("motor.ramp").fed(line).dialogue.document["motor"]
        assert motor[key] == value
        assert len(motor) == 3


def test_what_is_not_known_is_told_by_the_code_that_assumes_it() -> None:
    standing = at("motor.rotor").standing
    assert standing is not None
    assert standing.assumption is not None
    done = answered_by({**TEMPLATE_ANSWERS, "motor.rotor": "?", "joint[1].play": "not measured"})
    found = {entry.key: entry for entry in assess(_loaded(scenario_text(done))).assumptions}
    assert standing.assumption == found["motor.rotor_inertia"]
    text = scenario_text(done)
    assert '# rotor_inertia = "0.0330 kg m^2"' in text
    assert 'lash = "not measured"' in text
    lubrication = at("joint[1].lubrication").standing
    assert lubrication is not None
    assert lubrication.assumption is not None
    assert lubrication.assumption.word == "expired grease"
    assert at("targets.safety_factor").standing == type(standing)(default=1.5)


def test_steels_are_searched_as_one_types() -> None:
    dialogue = at("joint[1].external.steel")
    several = dialogue.fed("4140")
    assert several.kind == "complaint"
    assert len(several.steels) == MOST_STEELS
    assert "the first 12 are shown" in several.lines[0]
    assert all("4140" in row.id for row in several.steels)
    one = dialogue.fed("4140 qt4")
    assert (one.kind, one.note) == ("taken", "taken as 4140_QT425")
    assert one.dialogue.document["joint"][0]["external"]["steel"] == "4140_QT425"
    assert dialogue.fed("4140 qt425").dialogue.document["joint"][0]["external"]["steel"] == "4140_QT425"
    assert dialogue.fed("?").dialogue.document["joint"][0]["external"]["steel"] == "unknown"


def _found(**said: str) -> Dialogue:
    """The typical job with the spline found from readings, up to the choice."""
    changes = {"joint[1].standard": "?"} | {f"joint[1].identify.{name}": text for name, text in said.items()}
    return at("joint[1].identify.pick", **changes)


def test_a_spline_is_found_from_readings_and_they_are_kept() -> None:
    dialogue = _found(
        side="external", teeth="27", major_diameter="1.166 in", pins="1.2465 +/- 0.0005 in", pin="0.0800 in"
    )
    words = [choice.word for choice in dialogue.choices]
    assert words[0] == "27T 24/48 30 deg flat root"
    assert words[-1] == "none of these"
    assert dialogue.finding
    joint = dialogue.fed("1").dialogue.document["joint"][0]
    assert (joint["standard"], joint["size"]["pitch"], joint["size"]["teeth"]) == ("ansi b92.1", "24/48", 27)
    assert joint["external"]["measured"]["over_pins"] == "1.2465 +/- 0.0005 in"
    done = brought_to_an_end(dialogue.fed("1").dialogue)
    names = [name for name, _ in done.given]
    assert "joint[1].external.measured.teeth" not in names
    assert "joint[1].internal.measured.teeth" in names
    assert _said(scenario_text(done)) == done.document


@pytest.mark.parametrize(
    ("kind", "said", "standard"),
    [
        ("involute spline", {"teeth": "18", "major_diameter": "39.6 mm"}, "din 5480"),
        ("straight spline", {"teeth": "8", "major_diameter": "48 mm"}, "iso 14"),
        ("straight spline", {"teeth": "6", "major_diameter": "1 in"}, "sae"),
    ],
)
def test_every_candidate_that_is_offered_is_a_size_of_the_file(
    kind: str, said: dict[str, str], standard: str
) -> None:
    changes = {"joint[1].kind": kind, "joint[1].standard": "find out", "joint[1].identify.side": "external"}
    changes |= {f"joint[1].identify.{name}": text for name, text in said.items()}
    dialogue = at("joint[1].identify.pick", **changes)
    standards = set()
    for choice in dialogue.choices[:-1]:
        document = dialogue.fed(choice.word).dialogue.document
        scenario = probe(document)
        assert scenario is not None
        joint = scenario.joint[0]
        assert isinstance(joint, SplineJoint)
        assert spline_of(joint).designation == choice.word
        standards.add(document["joint"][0]["standard"])
    assert standard in standards


def test_none_of_these_leads_to_the_dimensions() -> None:
    dialogue = _found(side="internal", teeth="26", minor_diameter="37.9 mm").fed("none of these").dialogue
    assert dialogue.question is not None
    assert dialogue.question.id == "joint[1].standard_all_the_same"
    own = dialogue.fed("own").dialogue
    assert own.question is not None
    assert own.question.id == "joint[1].size.teeth"
    done = brought_to_an_end(own)
    assert done.document["joint"][0]["standard"] == "own"
    assert _said(scenario_text(done)) == done.document


def test_other_kinds_become_a_block_to_fill_in() -> None:
    kinds = [choice.word for choice in at("joint[1].kind").choices]
    for kind in ("key", "weld"):
        assert kind in kinds
        dialogue = at("joint[1].kind").fed(kind).dialogue
        refused = dialogue.fed("no")
        assert refused.kind == "complaint"
        assert "needs a joint that is asked for here" in refused.lines[0]
        done = brought_to_an_end(dialogue.fed("yes").dialogue)
        text = scenario_text(done)
        assert f'#kind = "{kind}"' in text
        assert _said(text) == done.document
        if kind == "key":  # from an example, so that it is whole
            lines = [
                line.removeprefix("#") if not line.startswith("# ") else "" for line in text.splitlines()
            ]
            first = tomllib.loads("\n".join(lines))["joint"][0]
            assert first["kind"] == "key"
            assert scenario_from_document(done.document | {"joint": [first]}, Path("my.toml"))


def test_no_joint_kind_is_forgotten() -> None:
    from torqcheck.scenario.kinds import KINDS

    assert {choice.word for choice in at("joint[1].kind").choices} == set(KINDS)


def test_choices_are_the_words_of_the_schema() -> None:
    from torqcheck.interview.joint_questions import JOINT_QUESTIONS
    from torqcheck.interview.machine_questions import DUTY_QUESTIONS, MACHINE_QUESTIONS
    from torqcheck.interview.schema_place import field_at, steps_of

    checked = 0
    for question in (*MACHINE_QUESTIONS, *DUTY_QUESTIONS, *JOINT_QUESTIONS):
        written = [value for choice in question.choices for place, value in choice.writes]
        places = {place for choice in question.choices for place, _ in choice.writes}
        if places == {question.key} and question.key != "joint[].kind":
            kinds = [word for when in question.when if when.key == "joint[].kind" for word in when.any_of]
            for kind in kinds or [""]:
                words = field_at(steps_of(question.key, 0), kind).words
                assert set(written) == (set(words) if words else {True, False}), question.key
                checked += 1
    assert checked > 12


def test_the_interview_stops_on_a_word_and_explains_on_another() -> None:
    assert at("joint[1].seat").fed("STOP").kind == "stop"
    reply = at("joint[1].seat").fed("help")
    assert reply.kind == "help"
    assert any("located by the spline alone" in line for line in reply.lines)
    assert after(["help", "help"]) == Dialogue()
    for word in ("?", "", "unknown", "Don't know", "  "):
        assert after([word]).given == (("record.title", "?"),)


def test_quotes_around_an_answer_are_those_of_the_file() -> None:
    assert after(['"Mill"']).given == (("record.title", "Mill"),)
    assert at("joint[1].engagement").fed('"1.25 in"').dialogue.given[-1][1] == "1.25 in"
    assert at("joint[1].engagement").fed('1 1/4"').dialogue.given[-1][1] == '1 1/4"'
