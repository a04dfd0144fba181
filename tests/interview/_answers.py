"""Answers for every kind of question: some that are sound, and what people type by mistake."""

from functools import cache

from hypothesis import strategies as st

from torqcheck.interview.dialogue import Dialogue
from torqcheck.interview.template import TEMPLATE_ANSWERS

SOUND = (
    "40 mm", "1.25 in", "1 1/4 in", "0.05 +/- 0.02 mm", "0.3 mm", "110 mm", "2 mm", "30 deg", "0.1 deg",
    "150 N*m", "90 lbf*ft", "4500 rpm", "1200 rpm", "0.4 s", "instant", "3 %", "2 % per 10 ms", "4800 N*m/s",
    "1400 kg", "0.05 kg*m^2", "9000 N*m/rad", "rigid", "1500 hour", "0.5", "0.97", "1", "2", "3", "18", "26",
    "-0.3", "20/40", "24/48", "8x42x48", "B", "58 HRC", "300 HB", "4140 ind", "8620_carb_63", "unknown",
    "yes", "no", "own", "find out", "none of these", "involute spline", "straight spline", "shaft", "key",
    "weld", "dial", "clearance", "as new", "offset", "rim and face", "flexible", "fixed", "external", "held",
    "moved mass",
)  # fmt: skip
SLIPS = (
    "", "?", "don't know", "back", "help", "0", "-1", "1e999", "nan", "inf", "1,25 mm", "9**9**9 mm", "150",
    "mm", "1/0 in", "999", "1e300 kg", "\x00", "\x1b[31m", "\u202e", "\udcff", "'", '"', '""', "x" * 300,
    "# change", '"""', "\\", "[[joint]]", "motor.peak_torque", "٣ mm", "0.0 mm", "1e-9 mm",
    "99999999999999999999",
)  # fmt: skip

ANSWERS = st.one_of(
    st.sampled_from(SOUND),
    st.sampled_from(SLIPS),
    st.integers(1, 12).map(str),
    st.text(max_size=12),
)


def after(lines: list[str]) -> Dialogue:
    """The interview after lines as they come, slips and all."""
    dialogue = Dialogue()
    for line in lines:
        dialogue = dialogue.fed(line).dialogue
    return dialogue


def brought_to_an_end(dialogue: Dialogue) -> Dialogue:
    """Answer what is left as somebody would who wants to be done: what is usual, or back and otherwise."""
    backs = 0
    while (asked := dialogue.question) is not None:
        key = asked.id.replace(f"[{asked.number}]", "[1]")
        usual = {"joint[1].more": "no"} | dict(TEMPLATE_ANSWERS) | WAYS_OUT
        tries = ("?", usual.get(key, "?"), "1", "yes")
        reply = next((r for r in map(dialogue.fed, tries) if r.kind == "taken"), None)
        if reply is not None:
            dialogue = reply.dialogue
            continue
        backs += 1
        assert backs < 60, f"no way on at {asked.id}"
        for _ in range(backs):
            dialogue = dialogue.fed("back").dialogue
    return dialogue


WAYS_OUT = {
    "driven.inertia": "2 kg*m^2",
    "motor.rotor_mass": "12 kg",
    "motor.rotor_diameter": "120 mm",
    "motor.motor_mass": "40 kg",
    "motor.frame_diameter": "200 mm",
    "duty[1].speed": "0 rpm",
    "duty[1].share": "0.001",
    "joint[1].kind": "shaft",
    "joint[1].diameter": "60 mm",
    "joint[1].identify.teeth": "26",
    "joint[1].identify.pin": "2 mm",
    "joint[1].identify.pick": "none of these",
    "joint[1].size.module": "2 mm",
    "joint[1].size.reference_diameter": "60 mm",
    "joint[1].size.designation": "8x42x48",
    "joint[1].size.fit": "B",
    "joint[1].size.pitch_diameter": "40 mm",
    "joint[1].size.root_diameter": "37 mm",
    "joint[1].size.internal_major_diameter": "43 mm",
    "joint[1].size.tooth_thickness": "2.4 mm",
    "joint[1].size.contact_height": "2 mm",
    "joint[1].size.major_diameter": "48 mm",
    "joint[1].size.minor_diameter": "42 mm",
    "joint[1].size.tooth_width": "8 mm",
    "joint[1].tilt.offset": "0.05 mm",
    "joint[1].tilt.span": "60 mm",
    "joint[1].tilt.rim": "0.05 mm",
    "joint[1].tilt.face": "0.05 mm",
    "joint[1].tilt.diameter": "100 mm",
    "joint[1].tilt.runout": "0.05 mm",
    "joint[1].lash.clearance": "0.05 mm",
    "joint[1].lash.angle": "0.1 deg",
}


@cache
def at(key: str, **changes: str) -> Dialogue:
    """The typical job up to one question."""
    answers = dict(TEMPLATE_ANSWERS) | changes
    dialogue = Dialogue()
    while dialogue.question is not None and dialogue.question.id != key:
        reply = dialogue.fed(answers.get(dialogue.question.id, "?"))
        assert reply.kind == "taken", (dialogue.question.id, reply.lines)
        dialogue = reply.dialogue
    assert dialogue.question is not None, f"{key} is never asked"
    return dialogue
