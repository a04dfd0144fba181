"""Fields of a scenario that carry a unit: value in SI, tolerance, text as written, mark."""

import math
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any, Literal, TypeAlias, TypeVar

from pydantic import AfterValidator, PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from torqcheck.errors import QuantityError
from torqcheck.materials import Hardness, read_hardness
from torqcheck.provenance import Mark
from torqcheck.units import EXAMPLES, Kind, plain_spaces, read

__all__ = [
    "Angle",
    "AnyLength",
    "CornerRadius",
    "DialReading",
    "Diameter",
    "FlankAngle",
    "Force",
    "HardnessField",
    "Inertia",
    "Length",
    "Line",
    "Mass",
    "Name",
    "Period",
    "Plausible",
    "Prose",
    "Reading",
    "RunningTime",
    "SeatLength",
    "SideStiffness",
    "SignedLength",
    "SmallLength",
    "Speed",
    "Stiffness",
    "Strength",
    "Temperature",
    "TemperatureDifference",
    "Time",
    "Title",
    "TopSpeed",
    "Torque",
    "TorqueOrNone",
    "TorqueRise",
    "WearDepth",
    "needed",
]

QUANTITY_PATTERN = r"^\s*[+-]?([0-9]|\.[0-9]).*[^0-9.\s]\S*\s*$"

BEYOND_REASON = 1e5
BEYOND_A_MACHINE = 10.0
"""How far above what is usual lengths and speeds are still taken."""
BEYOND_PLAY = 50.0
SHORTEST_SEAT, LONGEST_SEAT, THINNEST, WIDEST = 1e-4, 1.0, 1e-3, 5.0
"""Spline, seat or key of a coupler; diameters of its shafts, hubs and flanges. All in m."""
WIDEST_HARDNESS_TOLERANCE = 0.25
WIDEST_ANGLE = math.radians(60.0)
Value = TypeVar("Value")
_CONTROLS = {"Cc", "Co", "Cs", "Zl", "Zp"}
_TURNING = frozenset("\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_UNSEEN = frozenset("\u115f\u1160\u2800\u3164\uffa0")
"""Letters and signs that Unicode counts as such and that leave no mark: fillers, the empty Braille cell."""
Sign = Literal["above zero", "zero or more", "any"]


@dataclass(frozen=True, slots=True)
class Reading:
    """One quantity of the file.

    Parameters
    ----------
    value, tolerance : float
        In SI; the tolerance is taken as two standard deviations, 0 if none was written.
    text : str
        As it stands in the file, in one line.
    kind : str
        Kind of quantity, for showing it again.
    mark : str
        How it is known: ``measured`` for what the user wrote.
    """

    value: float
    tolerance: float
    text: str
    kind: Kind
    mark: Mark = "measured"


def needed(value: Value | None) -> Value:
    """A value that the rules of the file guarantee, for the type checker and for a defect of ours."""
    if value is None:
        raise AssertionError("the rules of the scenario file let a missing value through")
    return value


@dataclass(frozen=True, slots=True)
class Plausible:
    """Range (SI) outside which a value is more likely a slip of the pen than a machine part."""

    low: float
    high: float
    kind: Kind


def _reader(kind: Kind, sign: Sign, word: str) -> Callable[[Any], Reading]:
    """Build the validator of one kind of field; `word` stands for an infinite value."""

    def validate(written: Any) -> Reading:
        if isinstance(written, Reading):
            return written
        example = f"write for example {EXAMPLES[kind]}" + (f', or "{word}"' if word else "")
        if word and written == word:
            return Reading(math.inf, 0.0, word, kind)
        if isinstance(written, int | float) and not isinstance(written, bool):
            raise _fault("is a number without a unit", example)
        if not isinstance(written, str):
            raise _fault(f"is not a {kind}", example)
        return _within(sign, _read(written, kind), example)

    return validate


def _read(written: str, kind: Kind) -> Reading:
    """Read one quantity, its faults on the way through pydantic."""
    try:
        value, tolerance = read(written, kind)
    except QuantityError as error:
        raise _fault(error.problem, error.mend) from error
    return Reading(value, tolerance, plain_spaces(written), kind)


def _within(sign: Sign, reading: Reading, example: str) -> Reading:
    """Refuse what no such quantity can be."""
    if sign == "above zero" and reading.value <= 0.0:
        raise _fault("must be above zero", example)
    if sign == "zero or more" and reading.value < 0.0:
        raise _fault("must not be negative", example)
    if reading.kind == "angle" and reading.value >= WIDEST_ANGLE:
        raise _fault("is no angle between shafts that turn together", "write a value below 60 deg")
    if sign == "above zero" and reading.tolerance >= reading.value:
        raise _fault("has a tolerance as large as the value itself", "measure it better, or leave it out")
    return reading


def _fault(problem: str, mend: str) -> PydanticCustomError:
    """Wrap one fault so that it passes through pydantic unharmed."""
    return PydanticCustomError("fault", "{problem}; {mend}", {"problem": problem, "mend": mend})


def _one_line(text: str) -> str:
    """Refuse what a terminal could take for a command, and line breaks."""
    if any(unicodedata.category(letter) in _CONTROLS or letter in _TURNING for letter in text):
        raise _fault("holds control characters", "write plain text in one line")
    return text


def _shows(text: str) -> bool:
    """Whether a text holds anything that can be seen: blanks, joiners and marks without a letter cannot."""
    return any(unicodedata.category(letter)[0] in "LNPS" and letter not in _UNSEEN for letter in text)


def _not_blank(text: str) -> str:
    """Refuse a text in which nothing can be seen."""
    if text and not _shows(text):
        raise _fault("is blank", "write a few letters, or leave the key out")
    return text


def _not_empty(text: str) -> str:
    """Refuse a text that says nothing."""
    if not _shows(text):
        raise _fault("is empty", "write a few words, or leave the key out")
    return text


def _plain_text(text: str) -> str:
    """Refuse control characters other than line breaks and tabs."""
    _one_line(text.replace("\n", " ").replace("\r", " ").replace("\t", " "))
    return text


def _hardness(written: Any) -> Hardness:
    """Validate a hardness reading."""
    if isinstance(written, Hardness):
        return written
    if not isinstance(written, str):
        raise _fault("is not a hardness", 'write for example "32 HRC" or "300 HB"')
    try:
        reading = read_hardness(written)
    except QuantityError as error:
        raise _fault(error.problem, error.mend) from error
    if reading.tolerance > WIDEST_HARDNESS_TOLERANCE * reading.value:
        raise _fault("has a tolerance too wide to mean anything", "take several readings")
    return reading


def _schema(kind: Kind, word: str) -> WithJsonSchema:
    """Describe a quantity to an editor."""
    examples = [*EXAMPLES[kind].strip('"').split('" or "'), *([word] if word else [])]
    return WithJsonSchema(
        {
            "type": "string",
            "maxLength": 60,
            "pattern": QUANTITY_PATTERN if not word else f"{QUANTITY_PATTERN}|^{word}$",
            "examples": examples,
        }
    )


def _not_absurd(usual: Plausible, beyond_usual: float) -> Callable[[Reading], Reading]:
    """Build the refusal of what no workshop, and no arithmetic, can mean."""

    def validate(reading: Reading) -> Reading:
        beyond = abs(reading.value) > beyond_usual * usual.high
        below = 0.0 < reading.value < usual.low / BEYOND_REASON
        if (beyond or below) and math.isfinite(reading.value):
            raise _fault("is beyond anything that can be built", "check the number and the unit")
        return reading

    return validate


def _between(
    low: float, high: float, words: str, problem: str = "is beyond anything that a machine stands"
) -> AfterValidator:
    """Refuse what no part of a machine can have, not merely what is unusual."""

    def validate(reading: Reading) -> Reading:
        if not low <= reading.value <= high:
            raise _fault(problem, f"write a value between {words}")
        return reading

    return AfterValidator(validate)


def _parts(
    kind: Kind, sign: Sign, low: float, high: float, word: str = "", beyond: float = BEYOND_REASON
) -> tuple[Any, ...]:
    """Assemble the annotation of one kind of field."""
    usual = Plausible(low, high, kind)
    return (
        PlainValidator(_reader(kind, sign, word)),
        AfterValidator(_not_absurd(usual, beyond)),
        _schema(kind, word),
        usual,
    )


Line: TypeAlias = Annotated[str, AfterValidator(_one_line)]
Name: TypeAlias = Annotated[Line, AfterValidator(_not_blank)]
Title: TypeAlias = Annotated[Line, AfterValidator(_not_empty)]
Prose: TypeAlias = Annotated[str, AfterValidator(_plain_text)]
Length: TypeAlias = Annotated[Reading, *_parts("length", "above zero", 0.5e-3, 2.5, beyond=BEYOND_A_MACHINE)]
SeatLength: TypeAlias = Annotated[
    Reading,
    *_parts("length", "above zero", 0.5e-3, 0.5),
    _between(SHORTEST_SEAT, LONGEST_SEAT, "0.1 mm and 1 m", "is no length of a joint that a machine has"),
]
Diameter: TypeAlias = Annotated[
    Length, _between(THINNEST, WIDEST, "1 mm and 5 m", "is no diameter of a joint that a machine has")
]
CornerRadius: TypeAlias = Annotated[
    Reading, *_parts("length", "above zero", 0.05e-3, 50e-3, beyond=BEYOND_A_MACHINE)
]
WearDepth: TypeAlias = Annotated[Reading, *_parts("length", "above zero", 0.1e-6, 0.1e-3)]
SmallLength: TypeAlias = Annotated[Reading, *_parts("length", "zero or more", 0.0, 20e-3, beyond=BEYOND_PLAY)]
DialReading: TypeAlias = Annotated[Reading, *_parts("length", "any", -5e-3, 5e-3, beyond=BEYOND_PLAY)]
SignedLength: TypeAlias = Annotated[Reading, *_parts("length", "any", -2.5, 2.5, beyond=BEYOND_A_MACHINE)]
AnyLength: TypeAlias = Annotated[
    Reading, *_parts("length", "zero or more", 0.0, 2.5, beyond=BEYOND_A_MACHINE)
]
Angle: TypeAlias = Annotated[Reading, *_parts("angle", "zero or more", 0.0, 0.18)]
FlankAngle: TypeAlias = Annotated[Reading, *_parts("angle", "above zero", 0.17, 1.05)]
Torque: TypeAlias = Annotated[Reading, *_parts("torque", "above zero", 1.0, 2e4)]
TorqueOrNone: TypeAlias = Annotated[Reading, *_parts("torque", "zero or more", 0.0, 2e4)]
TorqueRise: TypeAlias = Annotated[Reading, *_parts("torque rise", "above zero", 5.0, 1e6, "instant")]
Speed: TypeAlias = Annotated[Reading, *_parts("speed", "zero or more", 0.0, 3200.0, beyond=BEYOND_A_MACHINE)]
TopSpeed: TypeAlias = Annotated[Reading, *_parts("speed", "above zero", 1.0, 3200.0, beyond=BEYOND_A_MACHINE)]
Inertia: TypeAlias = Annotated[Reading, *_parts("inertia", "above zero", 1e-5, 1e4)]
Stiffness: TypeAlias = Annotated[Reading, *_parts("stiffness", "above zero", 10.0, 1e7, "rigid")]
SideStiffness: TypeAlias = Annotated[Reading, *_parts("side stiffness", "above zero", 1e4, 1e10, "rigid")]
Mass: TypeAlias = Annotated[Reading, *_parts("mass", "above zero", 0.5, 1e5)]
Force: TypeAlias = Annotated[Reading, *_parts("force", "above zero", 10.0, 1e6)]
Time: TypeAlias = Annotated[Reading, *_parts("time", "zero or more", 0.0, 4e8)]
Period: TypeAlias = Annotated[Reading, *_parts("time", "above zero", 60.0, 4e8)]
RunningTime: TypeAlias = Annotated[Reading, *_parts("time", "above zero", 3600.0, 4e8)]
Strength: TypeAlias = Annotated[Reading, *_parts("stress", "above zero", 20e6, 3e9)]
Temperature: TypeAlias = Annotated[
    Reading,
    *_parts("temperature", "any", 200.0, 500.0),
    _between(173.15, 1473.15, "-100 degC and 1200 degC"),
]
TemperatureDifference: TypeAlias = Annotated[
    Reading,
    *_parts("temperature difference", "any", -120.0, 250.0),
    _between(-200.0, 500.0, "-200 K and 500 K"),
]
HardnessField: TypeAlias = Annotated[
    Hardness,
    PlainValidator(_hardness),
    WithJsonSchema({"type": "string", "description": 'a hardness: "32 HRC", "300 HB" or "310 HV"'}),
]
