"""What an identification says: the verdict, the candidates, what stands against them, what to read next."""

from dataclasses import dataclass
from typing import Literal

from torqcheck.geometry.identifying._room import Quantity, Side
from torqcheck.geometry.identifying.readings import Readings
from torqcheck.geometry.identifying.series import Candidate

__all__ = [
    "Identification",
    "IdentificationVerdict",
    "Neighbour",
    "NextReading",
    "NextReadingKind",
    "PinDoubt",
    "PseudoMate",
    "Ranked",
    "quantity_of",
]

IdentificationVerdict = Literal["identified", "cannot tell", "none of these"]
NextReadingKind = Literal["major diameter", "minor diameter", "over pins", "between pins", "width", "flanks"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranked:
    """One candidate with its agreement. Lengths in m.

    `deviation` is that of the worst reading in units of its tolerance, 0 inside the room of making and
    wear; None where the pins cannot have lain on this candidate's flanks. `width` is the tooth or space that
    the readings mean; `excess` how far it lies off the basic one to the worn side (negative: to the
    impossible side); `wear` how much of that lies beyond tolerance class 7; None where nothing read it.
    `likelihood` is relative to the best candidate; None if the candidate is not `allowed`.
    `same_part_as` names the earlier candidate whose flanks and tips coincide with this one's.
    """

    candidate: Candidate
    deviation: float | None
    width: float | None
    excess: float | None
    wear: float | None
    likelihood: float | None
    allowed: bool
    same_part_as: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbour:
    """One tooth more or less: what a miscount would hide. Lengths in m, differences to the best candidate.

    `tip_difference` and `pin_difference`: by how much outside diameter (hub: minor diameter) and pin
    reading of the same series differ. `fits` names the size with this number of teeth that agrees with the
    very same readings, None if there is none; its `deviation` in tolerances.
    """

    teeth: int
    same_series: str | None
    tip_difference: float | None
    pin_difference: float | None
    fits: str | None
    deviation: float | None


@dataclass(frozen=True, slots=True)
class PseudoMate:
    """A size of another standard, equal in teeth and close in pitch, that looks like a worn mate."""

    standard: str
    designation: str
    pitch_difference: float  # share of the best candidate's pitch
    tip_difference: float  # m


@dataclass(frozen=True, slots=True)
class PinDoubt:
    """A candidate that would agree if the pins had been of its customary size. Lengths in m."""

    standard: str
    designation: str
    pin: float
    reading: float  # expected with that pin at the basic width
    difference: float  # measured less expected
    deviation: float  # in tolerances


@dataclass(frozen=True, slots=True)
class NextReading:
    """The reading that separates the leading candidates best.

    `separation` between the first two, in units of the reading's tolerance together with what is not
    known of the part; None where the eye decides. `expected`: designation and length, m, or words.
    """

    kind: NextReadingKind
    pin: float | None
    separation: float | None
    expected: tuple[tuple[str, float | str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Identification:
    """Which spline it is, how sure that is, and what would make it surer."""

    side: Side
    readings: Readings
    verdict: IdentificationVerdict
    reasons: tuple[str, ...]
    candidates: tuple[Ranked, ...]
    compared: int
    root_undecided: bool
    indistinguishable: tuple[str, ...]
    pin_doubts: tuple[PinDoubt, ...]
    neighbours: tuple[Neighbour, ...]
    pseudo_mates: tuple[PseudoMate, ...]
    next_reading: NextReading | None
    cautions: tuple[str, ...]
    assumptions: tuple[str, ...]

    @property
    def best(self) -> Ranked | None:
        """The leading candidate, if one is allowed."""
        return next((ranked for ranked in self.candidates if ranked.allowed), None)


def quantity_of(kind: NextReadingKind) -> Quantity:
    """Return the dimension that a kind of reading reads."""
    if kind == "major diameter":
        return "major_diameter"
    return "minor_diameter" if kind == "minor diameter" else "width"
