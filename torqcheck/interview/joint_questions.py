"""What is asked about each joint, from the motor to the load."""

from torqcheck.interview.question import NOT_KNOWN, Choice, Question, When, yes_or_no
from torqcheck.interview.size_questions import SIZE_QUESTIONS

__all__ = ["ASKED_KINDS", "JOINT_QUESTIONS", "MORE", "OTHER_KINDS"]

ASKED_KINDS = {
    "involute spline": "curved flanks, thinner towards the tip",
    "straight spline": "teeth with parallel sides, 4 to 16 of them",
    "shaft": "a plain round length",
}
"""Kinds that are asked question by question."""
OTHER_KINDS = {
    "key": "a key in its keyseats",
    "bolted flange": "two faces and their bolts",
    "interference fit": "pressed or shrunk on",
    "clamp": "a split hub, clamped",
    "sleeve": "a sleeve over two splined ends",
    "weld": "a weld around the shaft",
    "pin": "a pin across the shaft",
    "set screws": "screws onto the shaft",
}
"""Kinds of which the file gets a block to fill in by hand."""
MORE = "joint[].more"

_SPLINE = When("joint[].kind", ("involute spline", "straight spline"))
_INVOLUTE = When("joint[].kind", ("involute spline",))
_SHAFT = When("joint[].kind", ("shaft",))
_ASKED = When("joint[].kind", tuple(ASKED_KINDS))
_NOT_ALIGNED = "not measured"
_OLD = "an old part gets no pass without a hardness reading"
_OLD_SPLINE = f"{_OLD}, nor without its teeth counted"


def _kind_choices() -> tuple[Choice, ...]:
    """Every kind of joint, first those that are asked."""
    asked = (Choice(kind, says, (("joint[].kind", kind),)) for kind, says in ASKED_KINDS.items())
    by_hand = (Choice(kind, f"{says}; you fill in a block") for kind, says in OTHER_KINDS.items())
    return (*asked, *by_hand)


_FIRST = (
    Question(
        key="joint[].kind",
        words="From the motor to the load: what kind of joint is next?",
        how="Everything that carries the torque counts, the shafts too.",
        form="choice",
        choices=_kind_choices(),
        needed=True,
    ),
    Question(
        key="joint[].name",
        words="What do you call it?",
        how="A name for the report: gearbox input.",
        when=(_ASKED,),
        nothing="its number in the list",
    ),
)
_SEATING = (
    Question(
        key="joint[].engagement",
        words="Over what length do the teeth overlap?",
        how="Blue the teeth, push together, pull apart, measure the wiped length.",
        when=(_SPLINE,),
        needed=True,
    ),
    Question(
        key="joint[].seat",
        words="Can the hub rock on the shaft?",
        how="Push and pull its rim across the axis, and watch.",
        form="choice",
        choices=(
            Choice("flexible", "yes, or the spline alone holds it", (("joint[].seat", "flexible"),)),
            Choice("fixed", "no: shrunk, clamped or piloted", (("joint[].seat", "fixed"),)),
        ),
        when=(_SPLINE,),
        needed=True,
    ),
    Question(
        key="joint[].nose_supported",
        words="Is the nose of the shaft held by a pilot or spigot bearing?",
        how="Look into the far end. No: the spline itself carries the shaft. No pass without a look.",
        form="choice",
        choices=yes_or_no("joint[].nose_supported"),
        when=(_SPLINE, When("joint[].seat", ("flexible",))),
    ),
    Question(
        key="joint[].alignment",
        words="How was the alignment of the two shafts measured?",
        how="Dial indicator on one shaft, turned around the other. Misalignment kills more splines than "
        "torque.",
        more="A dial on the housing only shows what turns with the part. Readings at four places of the "
        "clock say most; write them into the finished file as tilt = { rim = ..., face = ... } "
        "(`torqcheck schema` says how). Without a measurement no pass is given.",
        form="choice",
        choices=(
            Choice("rim and face", "dial over the rim, then over the face, one turn each"),
            Choice("offset", "the axes are parallel, so far apart"),
            Choice("angle", "the angle between the axes is known"),
            Choice("runout", "dial at the spline: one total reading"),
            Choice(_NOT_ALIGNED, "no pass without it", (("joint[].tilt", _NOT_ALIGNED),)),
        ),
        when=(_SPLINE, When("joint[].seat", ("flexible",))),
        assumed="joint[].tilt",
    ),
)


def _tilt(key: str, form: str, words: str, how: str) -> Question:
    """Return the question for one reading of the alignment."""
    when = (_SPLINE, When("joint[].alignment", (form,)))
    return Question(key=f"joint[].tilt.{key}", words=words, how=how, when=when, needed=True)


_READ_TILT = (
    _tilt("rim", "rim and face", "What did the dial show on the rim?", "Largest less smallest of one turn."),
    _tilt("face", "rim and face", "What did it show on the face?", "Largest less smallest of one turn."),
    _tilt("diameter", "rim and face", "On what diameter was the face read?", "A rule across the face."),
    _tilt("offset", "offset", "How far apart are the axes?", "Half of what the dial shows over a turn."),
    _tilt("span", "offset", "Over what length is that taken up?", "Between the middles of the two bearings."),
    _tilt("angle", "angle", "What is the angle between the axes?", "From rim and face, or a laser."),
    _tilt("runout", "runout", "What did the dial show at the spline?", "Largest less smallest of one turn."),
    Question(
        key="joint[].tilt.turns_with_shaft",
        words="Does the error turn with the shaft?",
        how="Turn both shafts together: yes if the high spot goes round with them.",
        form="choice",
        choices=yes_or_no("joint[].tilt.turns_with_shaft"),
        when=(_SPLINE, When("joint[].alignment", none_of=(_NOT_ALIGNED, NOT_KNOWN))),
    ),
)
_PLAY = (
    Question(
        key="joint[].play",
        words="How was the play in rotation measured?",
        how="Lock one half, rock the other with a lever, a dial at a radius that you know.",
        form="choice",
        choices=(
            Choice("dial", "travel of a dial at a radius"),
            Choice("clearance", "gap between two flanks, with a feeler"),
            Choice("angle", "as an angle"),
            Choice("as new", "both halves are new", (("joint[].lash", "as new"),)),
            Choice("not measured", "no pass without it", (("joint[].lash", "not measured"),)),
        ),
        when=(_SPLINE,),
        assumed="joint[].lash",
    ),
    Question(
        key="joint[].lash.travel",
        words="How far did the dial travel?",
        how="From stop to stop, by hand, five times, the mean.",
        when=(_SPLINE, When("joint[].play", ("dial",))),
        needed=True,
    ),
    Question(
        key="joint[].lash.radius",
        words="At what radius was that?",
        how="From the centre of the shaft to the tip of the dial.",
        when=(_SPLINE, When("joint[].play", ("dial",))),
        needed=True,
    ),
    Question(
        key="joint[].lash.clearance",
        words="What is the clearance?",
        how="Feeler gauge between two flanks, the other side pressed together.",
        when=(_SPLINE, When("joint[].play", ("clearance",))),
        needed=True,
    ),
    Question(
        key="joint[].lash.angle",
        words="What is the angle of the play?",
        how="From stop to stop.",
        when=(_SPLINE, When("joint[].play", ("angle",))),
        needed=True,
    ),
    Question(
        key="joint[].lubrication",
        words="How is it lubricated?",
        how="Wipe a tooth: red dust means dry, whatever was there once.",
        form="choice",
        choices=tuple(
            Choice(word, says, (("joint[].lubrication", word),))
            for word, says in (
                ("oil flooded", "gear oil gets to it all the time"),
                ("sealed grease", "grease behind a seal, renewed"),
                ("expired grease", "grease that nobody renews"),
                ("dry", "nothing, or red dust"),
            )
        ),
        when=(_SPLINE,),
    ),
)


def _steel_of(part: str, whose: str, leads_to: str, *when: When) -> tuple[Question, ...]:
    """Return the questions that every part of steel is asked."""
    place = f"joint[].{part}"
    return (
        Question(
            key=f"{place}steel",
            words=f"What steel is {whose}?",
            how="Grade and treatment: 4140, C45, 16MnCr5; ? if nobody knows.",
            more="Type some letters of the name, and the rows of the tables that hold them are shown. "
            "`torqcheck materials` lists all.",
            form="steel",
            unknown="unknown",
            when=when,
        ),
        Question(
            key=f"{place}hardness",
            words=f"What hardness was measured on {whose}?",
            how='Portable tester or test files on a flank or the end face: "58 HRC +/- 1", "300 HB".',
            nothing="the low end of the steel's row; an old part gets no pass without it",
            when=when,
        ),
        Question(
            key=f"{place}reused",
            words=f"Is {whose} an old part that is used again?",
            how="New is what is made for this job.",
            form="choice",
            leads_to=leads_to,
            choices=yes_or_no(f"{place}reused"),
            when=when,
        ),
        Question(
            key=f"{place}welded_near",
            words=f"Is there a weld on {whose} close to the teeth, or to where it is checked?",
            how="Look for a bead or blue colours; its heat softens.",
            form="choice",
            choices=yes_or_no(f"{place}welded_near"),
            when=when,
        ),
    )


def _reading(key: str, words: str, how: str, *when: When) -> Question:
    """Return the question for one reading that may be left out."""
    return Question(key=f"joint[].{key}", words=words, how=how, when=when, nothing="not measured")


_TEETH = "Count twice, from a mark: one tooth more on one half is a false fit that slides on."
_NEW_SHAFT, _NEW_HUB = (
    When("joint[].identify.side", none_of=(side,), or_unasked=True) for side in ("external", "internal")
)
"""Not read yet, to find out which spline it is."""
_MEASURED = When("joint[].readings", ("yes",))
_MEMBERS = (
    *_steel_of("external.", "the shaft", _OLD_SPLINE, _SPLINE),
    Question(
        key="joint[].external.bore",
        words="What is the bore of the shaft?",
        how="Caliper; Enter if it is solid.",
        nothing="solid",
        when=(_SPLINE,),
    ),
    *_steel_of("internal.", "the hub", _OLD_SPLINE, _SPLINE),
    Question(
        key="joint[].internal.outside_diameter",
        words="What is the outside diameter of the hub?",
        how="Caliper over the hub where the teeth are.",
        nothing="bursting of the hub is not checked",
        when=(_SPLINE,),
    ),
    _reading("external.measured.teeth", "How many teeth has the shaft?", _TEETH, _SPLINE, _NEW_SHAFT),
    _reading("internal.measured.teeth", "How many teeth has the hub?", _TEETH, _SPLINE, _NEW_HUB),
    Question(
        key="joint[].readings",
        words="Were diameters, pins or a worn step measured on the teeth?",
        how="They tell wear, and whether the halves are mates.",
        form="choice",
        choices=yes_or_no(""),
        nothing="no",
        when=(_SPLINE,),
    ),
    _reading(
        "external.measured.major_diameter",
        "Diameter over the teeth of the shaft?",
        "Caliper.",
        _SPLINE,
        _MEASURED,
        _NEW_SHAFT,
    ),
    _reading(
        "external.measured.over_pins",
        "Reading over two pins on the shaft?",
        "Two pins in opposite gaps, micrometer over them.",
        _INVOLUTE,
        _MEASURED,
        _NEW_SHAFT,
    ),
    Question(
        key="joint[].external.measured.pin",
        words="How thick are the pins?",
        how="Micrometer; the number on a drill is not good enough.",
        when=(_INVOLUTE, _MEASURED, When("joint[].external.measured.over_pins", none_of=(NOT_KNOWN,))),
        needed=True,
    ),
    _reading(
        "external.measured.worn_step",
        "How deep is the worn step on the flanks of the shaft?",
        "Fingernail and feeler gauge at its end.",
        _SPLINE,
        _MEASURED,
    ),
    _reading(
        "internal.measured.minor_diameter",
        "Diameter between the tips of the hub?",
        "Inside caliper.",
        _SPLINE,
        _MEASURED,
        _NEW_HUB,
    ),
    _reading(
        "internal.measured.between_pins",
        "Reading between two pins in the hub?",
        "Two pins in opposite gaps, inside micrometer.",
        _INVOLUTE,
        _MEASURED,
        _NEW_HUB,
    ),
    Question(
        key="joint[].internal.measured.pin",
        words="How thick are those pins?",
        how="Micrometer; the number on a drill is not good enough.",
        when=(_INVOLUTE, _MEASURED, When("joint[].internal.measured.between_pins", none_of=(NOT_KNOWN,))),
        needed=True,
    ),
    _reading(
        "internal.measured.worn_step",
        "How deep is the worn step on the flanks of the hub?",
        "Fingernail and feeler gauge at its end.",
        _SPLINE,
        _MEASURED,
    ),
)
_PLAIN_SHAFT = (
    Question(
        key="joint[].diameter",
        words="What is the smallest outside diameter of this length?",
        how="Caliper or micrometer.",
        when=(_SHAFT,),
        needed=True,
    ),
    Question(
        key="joint[].length",
        words="How long is it, free to twist?",
        how="Tape between what holds it at either end.",
        when=(_SHAFT,),
        nothing="its twist is left out",
    ),
    Question(
        key="joint[].bore",
        words="What bore does it have?",
        how="Caliper; Enter if it is solid.",
        when=(_SHAFT,),
        nothing="solid",
    ),
    *_steel_of("", "this shaft", _OLD, _SHAFT),
)
_LAST = Question(
    key=MORE,
    words="Is there another joint behind this one?",
    how="Follow the torque on towards the load.",
    form="choice",
    choices=yes_or_no(""),
    nothing="no",
)
JOINT_QUESTIONS = (*_FIRST, *SIZE_QUESTIONS, *_SEATING, *_READ_TILT, *_PLAY, *_MEMBERS, *_PLAIN_SHAFT, _LAST)
"""Asked for each joint, until there is no other."""
