"""What is asked about the size of a spline, and what finds out which one it is."""

import math

from torqcheck.interview.question import NOT_KNOWN, Choice, Question, When
from torqcheck.scenario.sizes import DEFAULT_ANGLE

__all__ = ["BY_HAND", "IDENTIFY", "NONE_OF_THESE", "SIZE_QUESTIONS"]

IDENTIFY = "find out"
"""The answer to the question for the standard that starts an identification."""
NONE_OF_THESE = "none of these"
BY_HAND = "joint[].standard_all_the_same"
"""Asked where the identification ends without a size."""
_INVOLUTE = When("joint[].kind", ("involute spline",))
_STRAIGHT = When("joint[].kind", ("straight spline",))
_FINDING = When("joint[].standard", (IDENTIFY, NOT_KNOWN))


def _standard(word: str, meaning: str) -> Choice:
    return Choice(word, meaning, (("joint[].standard", word),))


_INVOLUTE_STANDARDS = (
    _standard("ansi b92.1", "inch pitch, 24/48 and the like"),
    _standard("iso 4156", "metric, by module and teeth"),
    _standard("din 5480", "metric, by reference diameter, module and teeth"),
    _standard("own", "no standard: you give the dimensions"),
)
_STRAIGHT_STANDARDS = (
    _standard("iso 14", "metric, teeth x small x large diameter"),
    _standard("sae", "inch, 4, 6, 10 or 16 teeth"),
    _standard("own", "no standard: you give the dimensions"),
)
_FIND_OUT = Choice(IDENTIFY, "not known: find it from a count and some readings")
_FROM_PAPER = "From a drawing, or from the maker of one half."


_TEETH = ("teeth", "How many teeth?", "Count twice, from a mark.", True, "")
_ANGLE = (
    "pressure_angle",
    "What is the pressure angle?",
    "30 deg, 37.5 deg or 45 deg; steep blunt teeth have 45.",
    False,
    f"{math.degrees(DEFAULT_ANGLE):g} deg",
)
_MODULE = ("module", "What is the module?", "In mm, from the drawing: 2 mm.", True, "")
_SIZES: dict[str, tuple[tuple[str, str, str, bool, str], ...]] = {
    "ansi b92.1": (
        _TEETH,
        ("pitch", "What is the pitch?", "Two numbers, the second twice the first: 24/48.", True, ""),
        _ANGLE,
    ),
    "iso 4156": (_TEETH, _MODULE, _ANGLE),
    "din 5480": (
        ("reference_diameter", "What is the reference diameter?", "The first number: 40 mm.", True, ""),
        _MODULE,
        _TEETH,
    ),
    "own:involute": (
        _TEETH,
        ("pressure_angle", "What is the pressure angle?", "Drawing, or a cast of a tooth space.", True, ""),
        ("pitch_diameter", "What is the pitch diameter?", "Drawing.", True, ""),
        ("root_diameter", "What is the root diameter of the shaft?", "Caliper in the gaps.", True, ""),
        (
            "internal_major_diameter",
            "What is the diameter at the bottom of the hub's spaces?",
            "Inside caliper.",
            True,
            "",
        ),
        (
            "tooth_thickness",
            "How thick is a tooth half way up (on the pitch circle)?",
            "Drawing, or worked out from pins.",
            True,
            "",
        ),
        ("contact_height", "How high do the teeth overlap?", "Half of large less small diameter.", True, ""),
    ),
    "iso 14": (("designation", "What is the designation?", "Teeth x small x large: 8x52x60.", True, ""),),
    "sae": (
        _TEETH,
        ("major_diameter", "What is the large diameter?", "Caliper over the teeth of the shaft.", True, ""),
        ("fit", "Which fit?", "A permanent, B slides unloaded, C slides under load.", True, ""),
    ),
    "own:straight": (
        _TEETH,
        ("major_diameter", "What is the large diameter?", "Caliper over the teeth of the shaft.", True, ""),
        ("minor_diameter", "What is the small diameter?", "Caliper in the gaps of the shaft.", True, ""),
        ("tooth_width", "How wide is a tooth?", "Caliper across one tooth.", True, ""),
    ),
}
IDENTIFY_QUESTIONS = (
    Question(
        key="joint[].identify.side",
        words="Which half lies on the bench?",
        how="The less worn one tells more.",
        form="choice",
        choices=(Choice("external", "the shaft, teeth outside"), Choice("internal", "the hub, teeth inside")),
        needed=True,
        when=(_FINDING,),
    ),
    Question(
        key="joint[].identify.teeth",
        words="How many teeth does it have?",
        how="Count twice, from a mark.",
        needed=True,
        when=(_FINDING,),
    ),
    Question(
        key="joint[].identify.major_diameter",
        words="What is its largest diameter?",
        how='Over the teeth of a shaft; of a hub, over the grooves. "29.60 +/- 0.02 mm" if you can.',
        nothing="left out",
        when=(_FINDING,),
    ),
    Question(
        key="joint[].identify.minor_diameter",
        words="What is its smallest diameter?",
        how="In the gaps of a shaft; of a hub, between the tips.",
        nothing="left out",
        when=(_FINDING,),
    ),
    Question(
        key="joint[].identify.pins",
        words="What is the reading over two pins (hub: between them)?",
        how="Two pins or drill shanks in opposite gaps, micrometer over them.",
        when=(_FINDING, _INVOLUTE),
        nothing="left out",
    ),
    Question(
        key="joint[].identify.pin",
        words="How thick are the pins?",
        how="Micrometer; the number on a drill is not good enough.",
        when=(_FINDING, _INVOLUTE, When("joint[].identify.pins", none_of=(NOT_KNOWN,))),
        needed=True,
    ),
    Question(
        key="joint[].identify.pick",
        words="Which one is it?",
        how="The likeliest first; take none of these rather than a guess.",
        form="pick",
        needed=True,
        when=(_FINDING,),
    ),
)


def _asked(kind: When, standards: tuple[Choice, ...]) -> tuple[Question, ...]:
    """Return the question for the standard, and the same once more after readings that named none."""
    words = "Which standard is the spline?"
    return (
        Question(
            key="joint[].standard",
            words=words,
            how=_FROM_PAPER,
            more="If you do not know, readings are asked for, and the sizes that agree with them offered.",
            form="choice",
            choices=(*standards, _FIND_OUT),
            when=(kind,),
            nothing="readings are asked for, and the sizes that agree with them offered",
        ),
        Question(
            key=BY_HAND,
            words=words,
            how='If it is none of the standards, take "own" and give its dimensions.',
            form="choice",
            choices=standards,
            when=(kind, When("joint[].identify.pick", (NONE_OF_THESE,))),
            needed=True,
        ),
    )


def _sizes(kind: When, word: str) -> tuple[Question, ...]:
    """Return the questions for the dimensions, by standard."""
    found = []
    for name, rows in _SIZES.items():
        standard, _, only = name.partition(":")
        if only in {"", word}:
            chosen = When("joint[].standard", (standard,), or_key=BY_HAND)
            found += [
                Question(
                    key=f"joint[].size.{key}",
                    words=words,
                    how=how,
                    needed=needed,
                    nothing=nothing,
                    when=(kind, chosen),
                )
                for key, words, how, needed, nothing in rows
            ]
    return tuple(found)


_BOTH = ((_INVOLUTE, "involute", _INVOLUTE_STANDARDS), (_STRAIGHT, "straight", _STRAIGHT_STANDARDS))
SIZE_QUESTIONS = (
    *(_asked(kind, standards)[0] for kind, _, standards in _BOTH),
    *IDENTIFY_QUESTIONS,
    *(_asked(kind, standards)[1] for kind, _, standards in _BOTH),
    *(question for kind, word, _ in _BOTH for question in _sizes(kind, word)),
)
"""The standard; readings that find it; the standard once more where they did not; the dimensions."""
