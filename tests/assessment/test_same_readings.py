"""The same readings of one part, asked of `identify`, of the interview and of the check."""

from pathlib import Path

from builder import assessed

from torqcheck.assessment import assess
from torqcheck.geometry.identifying.identify import identify
from torqcheck.geometry.identifying.readings import CALIPER, OVER_PINS, PIN, Measured, PinPair, Readings
from torqcheck.interview.dialogue import Dialogue
from torqcheck.interview.template import TEMPLATE_ANSWERS
from torqcheck.report.new_scenario import scenario_text
from torqcheck.scenario import scenario_from_text
from torqcheck.scenario.usual import usual_of

FILE = Path("my.toml")
READ = Readings(
    teeth=24,
    major_diameter=Measured(26.4e-3),
    pins=(PinPair(Measured(28.85e-3), Measured(2.032e-3)),),
)
ANSWERS = dict(TEMPLATE_ANSWERS) | {
    "joint[1].standard": "find out",
    "joint[1].identify.side": "external",
    "joint[1].identify.teeth": "24",
    "joint[1].identify.major_diameter": "26.4 mm",
    "joint[1].identify.pins": "28.85 mm",
    "joint[1].identify.pin": "2.032 mm",
    "joint[1].identify.pick": "1",
    "joint[1].internal.measured.teeth": "24",
    "joint[1].readings": "no",
}
SIZE = (
    ('size = { teeth = 26, pitch = "20/40", pressure_angle = "30 deg", root = "flat" }',
     'size = { teeth = 24, pitch = "24/48", pressure_angle = "45 deg", root = "fillet" }'),
    ('measured = { teeth = 26 }', 'measured = { teeth = 24 }'),
)  # fmt: skip
PLAIN = 'measured = { teeth = 26, major_diameter = "1.345 in" }'
BARE = 'measured = { teeth = 24, major_diameter = "26.4 mm", over_pins = "28.85 mm", pin = "2.032 mm" }'


def test_a_size_that_was_identified_is_no_stranger_to_the_check() -> None:
    found = identify("external", READ)
    assert found.verdict == "identified"
    dialogue = Dialogue()
    while dialogue.question is not None:
        reply = dialogue.fed(ANSWERS.get(dialogue.question.id, "?"))
        assert reply.kind == "taken", (dialogue.question.id, reply.lines)
        dialogue = reply.dialogue
    assert dialogue.document["joint"][0]["size"]["pitch"] == "24/48"
    checked = assess(scenario_from_text(scenario_text(dialogue).encode(), FILE))
    assert not [entry for entry in checked.undecided_by if "mates" in str(entry)]


def test_what_is_assumed_without_a_tolerance_is_written_down_once() -> None:
    usual = [
        usual_of(("joint", 0, "external", "measured", key)) for key in ("major_diameter", "over_pins", "pin")
    ]
    assert [entry.tolerance for entry in usual if entry is not None] == [CALIPER, OVER_PINS, PIN]
    bare = assessed((PLAIN, BARE), *SIZE)
    said = [entry.word for entry in bare.assumptions if entry.key.endswith("external.measured")]
    assert said == ["+/- 0.05 mm on diameters, 0.05 mm over pins, 0.02 mm on the pin"]


def test_a_tolerance_that_is_written_counts_as_written() -> None:
    fine = BARE.replace("28.85 mm", "28.85 +/- 0.002 mm").replace("2.032 mm", "2.032 +/- 0.001 mm")
    sharp = assessed((PLAIN, fine), *SIZE)
    assert [entry for entry in sharp.undecided_by if "mates" in str(entry)]
