"""From the options of a command to the data block of a spline; every slip gives one clear line."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from torqcheck.errors import DomainError, QuantityError, UsageError

if TYPE_CHECKING:
    from torqcheck.geometry.drawing.data_block import DataBlock, MeasuredWidth, MemberName
    from torqcheck.geometry.spline import InvoluteSpline, Root
    from torqcheck.units import Kind

__all__ = ["Given", "block_from_options", "involute_from_options", "quantity", "refuse_bad_count"]

LEAST_TEETH, MOST_TEETH = 4, 400
"""Teeth that the commands take, as a scenario does. No involute kernel goes below 4."""
LONGEST_ON_A_BENCH = 5.0
"""Largest length that a bench reading can have, m (assumed): beyond it the unit is wrong."""
LONGEST_SPLINE = 1.0
"""Largest length of engagement, m (assumed)."""
Given = Mapping[str, str | int]


@dataclass(frozen=True, slots=True)
class _Standard:
    """How a standard may be spelled (without blanks and signs), and its options."""

    spellings: tuple[str, ...]
    needed: tuple[str, ...]
    allowed: tuple[str, ...]
    involute: bool = True


_STANDARDS: dict[str, _Standard] = {
    "ansi b92.1": _Standard(
        ("ansib921", "b921"), ("teeth", "pitch"), ("pressure-angle", "root", "fit", "fit-class")
    ),
    "iso 4156": _Standard(
        ("iso4156", "ansib922m", "b922m"),
        ("teeth", "module"),
        ("pressure-angle", "root", "fit", "fit-class", "length"),
    ),
    "din 5480": _Standard(
        ("din5480",),
        ("reference-diameter", "module", "teeth"),
        ("designation", "pressure-angle", "root", "fit", "fit-class", "length"),
    ),
    "iso 14": _Standard(("iso14",), ("designation",), ("teeth", "fit"), involute=False),
    "sae j499": _Standard(
        ("saej499", "sae", "saej499a", "j499"), ("teeth", "major-diameter", "fit"), (), involute=False
    ),
    "din 5481": _Standard(("din5481",), ("designation",), ("teeth",), involute=False),
}
_EXAMPLES = {
    "teeth": "--teeth 27",
    "pitch": '--pitch "24/48"',
    "module": '--module "2 mm"',
    "reference-diameter": '--reference-diameter "50 mm"',
    "designation": "--designation 8x52x60",
    "major-diameter": '--major-diameter "1 in"',
    "fit": "--fit B",
    "pin": '--pin "0.080 in"',
    "hub-pin": '--hub-pin "0.072 in"',
}
_READINGS = ("over-pins", "pin", "between-pins", "hub-pin")
_DIN_SIZE = re.compile(
    r"\s*[WN]?\s*(\d{1,3}(?:\.\d+)?)\s*x\s*(\d{1,2}(?:\.\d+)?)\s*x\s*(\d{1,3})\s*", re.ASCII | re.IGNORECASE
)


def block_from_options(standard: str, given: Given) -> "tuple[DataBlock, dict[MemberName, MeasuredWidth]]":
    """
    Return the data block that the options describe, and the widths that their readings give.

    Parameters
    ----------
    standard : str
        As the user wrote it.
    given : mapping
        Options by name without dashes; only those that were given.

    Raises
    ------
    UsageError
        If an option is missing, does not belong to the standard or cannot be read.
    DomainError
        If the standard has no such spline.
    """
    name = _standard(standard)
    if name == "din 5480":
        given = _din_given(given)
    _refuse_strangers(name, given)
    block = _block(name, given)
    return block, _readings(block, given)


def involute_from_options(given: Given, teeth: int) -> "InvoluteSpline":
    """
    Return the involute spline that the options describe; which standard they mean is seen from them.

    Parameters
    ----------
    given : mapping
        Options by name without dashes: ``pitch``, or ``module`` with or without
        ``reference-diameter``; ``pressure-angle`` and ``root`` as far as the standard has them.
    teeth : int
        Number of teeth.

    Raises
    ------
    UsageError
        If the options contradict each other, or no standard has such a spline.
    """
    if "pitch" in given and ("module" in given or "reference-diameter" in given):
        raise UsageError("give --pitch, or --module, or --module with --reference-diameter; not two of them")
    names = {"pitch": "ansi b92.1", "reference-diameter": "din 5480", "module": "iso 4156"}
    key = next((key for key in names if key in given), None)
    if key is None:
        raise UsageError(f"which spline? write for example {_EXAMPLES['pitch']} or {_EXAMPLES['module']}")
    size = ("pitch", "module", "reference-diameter", "pressure-angle", "root")
    chosen: Given = {"teeth": teeth, **{name: given[name] for name in size if name in given}}
    _refuse_strangers(names[key], chosen)
    try:
        return _involute(names[key], chosen)
    except DomainError as error:
        raise UsageError(str(error)) from error


def _standard(written: str) -> str:
    """Return the standard that a spelling means."""
    plain = re.sub(r"[^a-z0-9]", "", written.lower())
    for name, standard in _STANDARDS.items():
        if plain in standard.spellings:
            return name
    raise UsageError(f"standard {written[:60]!r} is not known; write one of: {', '.join(_STANDARDS)}")


def _refuse_strangers(name: str, given: Given) -> None:
    """Refuse a missing option, one that does not belong to the standard, and an absurd number of teeth."""
    standard = _STANDARDS[name]
    readings = _READINGS if standard.involute else ()
    strange = [key for key in given if key not in (*standard.needed, *standard.allowed, *readings)]
    if strange:
        wanted = ", ".join(f"--{key}" for key in (*standard.needed, *standard.allowed))
        raise UsageError(f"--{strange[0]} does not belong to {name}; it takes {wanted}")
    for key in standard.needed:
        if key not in given:
            raise UsageError(f"{name} needs --{key}; write for example {_EXAMPLES[key]}")
    if "teeth" in given:
        refuse_bad_count("teeth", int(given["teeth"]))


def refuse_bad_count(option: str, teeth: int) -> None:
    """Refuse a number of teeth that no spline has."""
    if not LEAST_TEETH <= teeth <= MOST_TEETH:
        raise UsageError(
            f"--{option} {teeth} is not a number of teeth; write a whole number from {LEAST_TEETH} to "
            f"{MOST_TEETH}"
        )


def _din_given(given: Given) -> Given:
    """Take a designation of DIN 5480 apart; parts that are given twice must agree."""
    written = given.get("designation")
    if written is None:
        return given
    match = _DIN_SIZE.fullmatch(str(written))
    if match is None:
        raise UsageError(
            f"--designation {str(written)[:60]!r} is not written like 50x2x24 (reference diameter x module x "
            "teeth): leave out W or N, the pressure angle, and the class with its letters (8f, 9H); give the "
            'class by --fit-class 4 to 7 and the fit by --fit, for example "H/f", both of ISO 4156'
        )
    parts: dict[str, str | int] = {
        "reference-diameter": f"{match[1]} mm",
        "module": f"{match[2]} mm",
        "teeth": int(match[3]),
    }
    both = [key for key in parts if key in given]
    if both:
        raise UsageError(f"--designation {written!r} already says --{both[0]}; leave one of them out")
    return {**{key: value for key, value in given.items() if key != "designation"}, **parts}


def quantity(
    given: Given,
    key: str,
    kind: "Kind" = "length",
    *,
    most: float = LONGEST_ON_A_BENCH,
    zero_allowed: bool = False,
) -> tuple[float, float]:
    """
    Read the quantity of an option with its tolerance, both in SI.

    Parameters
    ----------
    given : mapping
        Options by name without dashes.
    key : str
        Name of the option.
    kind : str, optional
        What it is, as in `torqcheck.units`.
    most : float, m, optional
        Largest length that the option takes; other kinds have no such end.
    zero_allowed : bool, optional
        Whether zero is a reading; otherwise the value must lie above it.

    Returns
    -------
    tuple of float
        Value and tolerance; the tolerance is 0 only where none is written.

    Raises
    ------
    UsageError
        If the text cannot be read, or the value or its tolerance cannot be that of this option.
    """
    from torqcheck.scenario.usual import has_tolerance
    from torqcheck.units import read

    text = str(given[key])
    try:
        value, tolerance = read(text, kind)
    except QuantityError as error:
        mend = 'write for example "30 deg"' if kind == "angle" else error.mend
        raise UsageError(f"--{key}: {text[:60]!r} {error.problem}; {mend}") from error
    if zero_allowed and value < 0.0:
        raise UsageError(f"--{key}: {text!r} must be zero or more")
    if value <= 0.0 and not zero_allowed:
        raise UsageError(f"--{key}: {text!r} must be above zero")
    if kind == "length" and value > most:
        raise UsageError(f"--{key}: {text!r} must lie above zero and be at most {most:g} m; check the unit")
    if tolerance == 0.0 and has_tolerance(text):
        raise UsageError(
            f"--{key}: {text!r} has a tolerance of zero, which no reading has; write that of the instrument, "
            "or leave it out"
        )
    return value, tolerance


def _value(given: Given, key: str, kind: "Kind" = "length") -> float | None:
    """Read a quantity that may be missing."""
    return quantity(given, key, kind)[0] if key in given else None


def _word(given: Given, key: str) -> str | None:
    return str(given[key]) if key in given else None


def _block(name: str, given: Given) -> "DataBlock":
    """Build the block of one standard."""
    from torqcheck.geometry import straight
    from torqcheck.geometry.drawing.data_block import block_of_involute, block_of_serration, block_of_straight
    from torqcheck.geometry.standards import serration

    if name == "din 5481":
        spline = serration.spline(str(given["designation"]))
        _refuse_other_count(given, spline.teeth)
        return block_of_serration(spline)
    if name == "iso 14":
        fit = str(given.get("fit", "sliding")).lower()
        sized = straight.iso_14(str(given["designation"]))
        _refuse_other_count(given, sized.teeth)
        return block_of_straight(sized, fit)
    if name == "sae j499":
        letter: straight.SaeFit = str(given["fit"]).upper()  # type: ignore[assignment]  # sae() refuses others
        return block_of_straight(
            straight.sae(int(given["teeth"]), quantity(given, "major-diameter")[0], letter)
        )
    return block_of_involute(
        _involute(name, given),
        int(given["fit-class"]) if "fit-class" in given else None,
        _word(given, "fit"),
        quantity(given, "length", most=LONGEST_SPLINE)[0] if "length" in given else None,
        pin=_value(given, "pin"),
        hub_pin=_value(given, "hub-pin"),
    )


def _refuse_other_count(given: Given, teeth: int) -> None:
    """Counted teeth must be those of the designation."""
    if "teeth" in given and int(given["teeth"]) != teeth:
        raise UsageError(
            f"--teeth {given['teeth']} does not agree with --designation {given['designation']}, "
            f"which has {teeth}"
        )


def _involute(name: str, given: Given) -> "InvoluteSpline":
    """Build an involute spline of one standard."""
    import math

    from torqcheck.geometry import ansi_b92_1, din_5480, iso_4156
    from torqcheck.geometry.standards.limits import MAJOR_DIAMETER_FIT, known_fit, with_major_diameter_fit

    usual = math.radians(30.0)
    angle = _value(given, "pressure-angle", "angle") or usual
    at_usual = abs(angle - usual) < 1e-6
    root = str(given.get("root", "flat" if at_usual else "fillet")).lower()
    if root not in ("flat", "fillet"):
        raise UsageError(f"--root {root!r} is neither flat nor fillet")
    shape: Root = "flat" if root == "flat" else "fillet"
    teeth = int(given["teeth"])
    if name == "ansi b92.1":
        spline = ansi_b92_1.spline(teeth, str(given["pitch"]), angle, shape)
        major = known_fit(spline.standard, _word(given, "fit")) == MAJOR_DIAMETER_FIT
        return with_major_diameter_fit(spline) if major else spline
    if name == "iso 4156":
        return iso_4156.spline(teeth, quantity(given, "module")[0], angle, shape)
    if not at_usual:
        raise UsageError("din 5480 has a pressure angle of 30 deg only; leave --pressure-angle out")
    if root != "flat":
        raise UsageError("din 5480: only flat roots are known; leave --root out")
    return din_5480.spline(quantity(given, "reference-diameter")[0], quantity(given, "module")[0], teeth)


def _readings(block: "DataBlock", given: Given) -> "dict[MemberName, MeasuredWidth]":
    """Turn readings with pins into widths."""
    from torqcheck.geometry.drawing.data_block import measured_space, measured_thickness

    found: dict[MemberName, MeasuredWidth] = {}
    ways: tuple[tuple[MemberName, str, str, Callable[..., MeasuredWidth]], ...] = (
        ("external", "over-pins", "pin", measured_thickness),
        ("internal", "between-pins", "hub-pin", measured_space),
    )
    for member, reading, pin, measure in ways:
        if reading not in given:
            continue
        if pin not in given:
            raise UsageError(
                f"--{reading} needs the pin it was taken with; write for example {_EXAMPLES[pin]}"
            )
        (value, tolerance), (size, size_tolerance) = quantity(given, reading), quantity(given, pin)
        try:
            measured = measure(block, value, size, tolerance, size_tolerance)
        except DomainError as error:
            raise UsageError(
                f"--{reading} {given[reading]} and --{pin} {given[pin]} do not belong to this spline: {error}"
            ) from error
        found[member] = measured
    return found
