"""Going back shows what was said, and Enter keeps it."""

import pytest

from torqcheck.interview.dialogue import Dialogue
from torqcheck.interview.saved import restored, saved_text
from torqcheck.interview.template import TEMPLATE_ANSWERS, template
from torqcheck.report.asking import question_lines, resumed_lines


def _up_to(count: int) -> Dialogue:
    """The typical job after so many answers."""
    return Dialogue(template().given[:count])


def _fed(dialogue: Dialogue, *lines: str) -> Dialogue:
    for line in lines:
        reply = dialogue.fed(line)
        assert reply.kind in {"taken", "back"}, (line, reply.lines)
        dialogue = reply.dialogue
    return dialogue


@pytest.mark.parametrize("count", [5, 20, 33, 47, 60])
def test_five_questions_back_and_five_times_enter_change_nothing(count: int) -> None:
    start = _up_to(count)
    back = _fed(start, *["back"] * 5)
    assert len(back.given) == count - 5
    there = _fed(back, *[""] * 5)
    assert there.given == start.given
    assert there.question == start.question


def test_the_answer_before_is_shown_where_one_went_back() -> None:
    back = _fed(_up_to(2), "back")
    assert "     Enter: as before, 150 N*m." in question_lines(back)
    assert not any("as before" in line for line in question_lines(_up_to(1)))
    title = " ".join(" ".join(question_lines(_fed(back, "back"))).split())
    assert "Enter: as before, My machine, coupler to the old gearbox. ?: Untitled check." in title
    changed = _fed(back, "200 N*m", "back")
    assert "     Enter: as before, 200 N*m." in question_lines(changed)


def test_not_known_is_kept_and_can_be_said_instead() -> None:
    unknown = _fed(Dialogue(), "?", "back")
    assert "Enter: as before, not known. ?: Untitled check." in " ".join(question_lines(unknown))
    assert _fed(unknown, "").given == (("record.title", "?"),)
    said = _fed(Dialogue(), "Mill", "back")
    assert _fed(said, "?").given == (("record.title", "?"),)


def test_what_hangs_on_another_answer_is_not_offered_where_it_no_longer_fits() -> None:
    start = Dialogue(tuple(entry for entry in template().given if not entry[0].startswith("joint[1].")))
    found = _fed(
        start,
        "involute spline",
        "input",
        "find out",
        "external",
        "27",
        "1.166 in",
        "?",
        "1.2465 in",
        "0.0800 in",
        "1",
    )
    back = _fed(found, *["back"] * 6, "12")
    assert _fed(back, "9.2 mm", "", "?").before is None


def test_what_was_undone_outlives_a_break() -> None:
    back = _fed(_up_to(12), "back", "back", "back")
    again, lost = restored(saved_text(back, "").encode(), "kept")
    assert (again, lost) == (back, ())
    assert _fed(again, "", "", "").given == _up_to(12).given


def test_what_is_taken_up_again_is_told() -> None:
    assert resumed_lines(_up_to(2)) == (
        "2 answers are taken up again.",
        "Machine: My machine, coupler to the old gearbox",
        "The last one: What is the peak torque of the motor? 150 N*m",
    )
    assert resumed_lines(_fed(Dialogue(), "?"))[0] == "1 answer is taken up again."
    assert TEMPLATE_ANSWERS["motor.peak_torque"] == "150 N*m"
