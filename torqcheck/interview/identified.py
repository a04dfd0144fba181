"""Which standard spline the readings speak for, asked in the middle of the interview."""

import math
from collections.abc import Mapping
from functools import lru_cache
from typing import Any, Literal

from torqcheck.errors import DomainError, QuantityError
from torqcheck.geometry.identifying.identification import Identification, Ranked
from torqcheck.geometry.identifying.identify import identify
from torqcheck.geometry.identifying.readings import Measured, PinPair, Readings
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.spline import InvoluteSpline, StraightSpline
from torqcheck.interview.plan import Asked
from torqcheck.interview.question import NOT_KNOWN
from torqcheck.units import read

__all__ = ["found_at", "offered", "reading_place", "size_of"]

Side = Literal["external", "internal"]
_READ = ("teeth", "major_diameter", "minor_diameter", "pins", "pin")


def reading_place(key: str, side: str) -> str:
    """Where a reading that was taken to find the size stands in the file."""
    name = key.rpartition(".")[2]
    if name == "pins":
        name = "over_pins" if side == "external" else "between_pins"
    return f"joint[].{side}.measured.{name}"


def found_at(asked: Asked, answers: Mapping[str, str]) -> Identification | str:
    """
    Return what the readings of a joint say, or why they say nothing.

    Parameters
    ----------
    asked : Asked
        Any question of the joint.
    answers : mapping
        By the name of the question.
    """
    side = answers.get(asked.other("joint[].identify.side"), "")
    said = tuple(answers.get(asked.other(f"joint[].identify.{name}"), NOT_KNOWN) for name in _READ)
    flanks = "curved" if answers.get(asked.other("joint[].kind")) == "involute spline" else "parallel"
    return _found(side, said, flanks)


@lru_cache(maxsize=32)
def _found(side: str, said: tuple[str, ...], flanks: Literal["curved", "parallel"]) -> Identification | str:
    """Identify once for each set of readings."""
    teeth, major, minor, over, pin = said
    if side not in {"external", "internal"}:
        return "nothing was read"
    which: Side = "external" if side == "external" else "internal"
    try:
        pins = (PinPair(_length(over), _length(pin)),) if NOT_KNOWN not in {over, pin} else ()
        return identify(
            which,
            Readings(
                teeth=int(teeth),
                major_diameter=None if major == NOT_KNOWN else _length(major),
                minor_diameter=None if minor == NOT_KNOWN else _length(minor),
                pins=pins,
                flanks=flanks,
            ),
        )
    except (DomainError, QuantityError, ValueError) as error:
        return str(error)


def _length(text: str) -> Measured:
    value, tolerance = read(text, "length")
    return Measured(value, tolerance or None)


def offered(asked: Asked, answers: Mapping[str, str]) -> tuple[Ranked, ...]:
    """Candidates to choose from, the likeliest first: those of which the file can state the size."""
    found = found_at(asked, answers)
    if isinstance(found, str):
        return ()
    return tuple(entry for entry in found.candidates if size_of(entry) is not None)


def size_of(ranked: Ranked) -> tuple[str, dict[str, Any]] | None:
    """Standard and size of a candidate as the file states them; None where the file has no such size."""
    candidate = ranked.candidate
    spline = candidate.spline
    if candidate.standard in {"ansi b92.1", "iso 4156", "din 5480"}:
        return candidate.standard, _involute(candidate.involute, candidate.standard, candidate.pitch)
    if candidate.standard == "iso 14":
        return "iso 14", {"designation": candidate.designation}
    if candidate.standard == "sae j499" and isinstance(spline, StraightSpline):
        size = {
            "teeth": candidate.teeth,
            "major_diameter": f"{_inches(spline.major_diameter)} in",
            "fit": candidate.designation[-1],
        }
        return "sae", size
    return None


def _involute(spline: InvoluteSpline | None, standard: str, pitch: str | None) -> dict[str, Any]:
    """Size of an involute spline, in the keys of its standard."""
    assert spline is not None
    if standard == "din 5480":
        reference = spline.external.major_diameter + 0.2 * spline.module
        return {
            "reference_diameter": f"{reference * 1e3:.6g} mm",
            "module": f"{spline.module * 1e3:.6g} mm",
            "teeth": spline.teeth,
        }
    scale = {"pitch": pitch} if standard == "ansi b92.1" else {"module": f"{spline.module * 1e3:.6g} mm"}
    angle = f"{math.degrees(spline.pressure_angle):.6g} deg"
    return {"teeth": spline.teeth, **scale, "pressure_angle": angle, "root": spline.root}


def _inches(length: float) -> str:
    return f"{length / INCH:.6g}"
