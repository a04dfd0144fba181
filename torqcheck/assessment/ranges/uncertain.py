"""What is not known exactly: every reading with its tolerance, every assumption with its band."""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

from pydantic import BaseModel

from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.torque.blow import COMPUTED_STIFFNESS_KEY
from torqcheck.materials import Hardness, at_value
from torqcheck.provenance import Mark
from torqcheck.scenario import Scenario
from torqcheck.scenario.bands import value_in_band, value_of_reading, value_of_share
from torqcheck.scenario.faults import key_text
from torqcheck.scenario.ledger import Assumption
from torqcheck.scenario.quantity import Reading, needed
from torqcheck.scenario.tilt_schema import ClockReadings, Tilt
from torqcheck.scenario.usual import (
    CLOCK,
    COMPUTED_STIFFNESS,
    Usual,
    has_tolerance,
    in_words,
    usual_hardness,
    usual_of,
)
from torqcheck.units import Kind

__all__ = ["Uncertain", "moved", "uncertain_of", "value_at"]

Place: TypeAlias = tuple[str | int, ...]

WISHES = frozenset({"targets", "record", "stack", "materials"})
"""Blocks that state what is wanted, or that count at their worst case: not drawn."""
STANDARD_SIZE = "size"
KINDS_BY_LENGTH = frozenset({"length", "angle"})
"""Kinds whose tolerance is a distance on the scale; that of all others is a share of the value."""
_JOINT = re.compile(r"joint\[(\d+)\]")
COVERED = frozenset({"driven.stiffness"})
"""Assumptions that are tried at several values already, the worst of which is used."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Uncertain:
    """
    One value that is not known exactly. SI; a hardness on its own scale.

    Parameters
    ----------
    key : str
        As in the scenario file.
    meaning, better : str
        What it is, and how to know it better.
    joint : int or None
        Index of the joint that it belongs to.
    place : tuple
        Where it stands in the scenario; empty for an assumption.
    value : float
        As stated.
    kind : Kind or None
        Kind of quantity; None for a plain number and a hardness.
    scale : str
        Of a hardness.
    tolerance, share : float
        Two standard deviations of a reading, absolute or as a share of the value.
    band : tuple of float, optional
        Of an assumption.
    mark : str
        How the value is known.
    written : bool
        The tolerance stands in the file.
    """

    key: str
    meaning: str
    better: str
    joint: int | None
    place: Place = ()
    value: float
    kind: Kind | None = None
    scale: str = ""
    tolerance: float = 0.0
    share: float = 0.0
    band: tuple[float, float] | None = None
    mark: Mark = "measured"
    written: bool = False

    @property
    def adds(self) -> bool:
        """Whether it moves in equal steps, not in equal ratios."""
        if self.band is not None:
            return not 0.0 < self.band[0] < self.value < self.band[1]
        return self.share == 0.0

    @property
    def even(self) -> bool:
        """Whether any value in its band is as likely as any other."""
        return self.band is not None and self.adds

    @property
    def ends(self) -> tuple[float, float]:
        """The value two standard deviations below and above, or the ends of the band."""
        return self.band or (value_at(self, -2.0), value_at(self, 2.0))


def value_at(uncertain: Uncertain, deviation: Any) -> Any:
    """Value at so many standard deviations; one or many."""
    if uncertain.band is not None:
        return value_in_band(uncertain.value, *uncertain.band, deviation)
    if uncertain.share:
        return value_of_share(uncertain.value, uncertain.share, deviation)
    return value_of_reading(uncertain.value, uncertain.tolerance, deviation)


def moved(
    scenario: Scenario, uncertain: Uncertain, deviation: float, deviations: dict[str, float]
) -> Scenario:
    """Return the scenario with one value moved; an assumption is moved in `deviations`, for the ledger."""
    if not uncertain.place:
        deviations[uncertain.key] = deviation
        return scenario
    value = float(value_at(uncertain, deviation))
    found = _at(scenario, uncertain.place)
    new: Any = value
    if isinstance(found, Reading):
        new = replace(found, value=value, tolerance=0.0)
    elif isinstance(found, Hardness):
        new = at_value(found, value)
    elif isinstance(found, Tilt):
        new = Tilt.model_construct(angle=Reading(value, 0.0, "+/- 0", "angle"))
    result = _replaced(scenario, uncertain.place, new)
    assert isinstance(result, Scenario)
    return result


def uncertain_of(prepared: Prepared, *, usual: bool = True) -> tuple[Uncertain, ...]:
    """
    List what is not known exactly, in the order of the file; assumptions behind.

    Parameters
    ----------
    prepared : Prepared
        The path; its ledger holds the assumptions.
    usual : bool, optional
        Take a usual tolerance where none is written; otherwise such a reading counts as exact.
    """
    swept = _swept(prepared)
    each = _readings(prepared.scenario, (), usual)
    found = list(dict.fromkeys(swept.get(entry.place[:3], entry) for entry in each))
    assumed = {entry.key: entry for entry in prepared.ledger.assumptions if _has_band(entry)}
    found += [_assumed(entry) for entry in assumed.values()]
    if usual:
        found.append(
            Uncertain(
                key=COMPUTED_STIFFNESS_KEY,
                meaning=in_words(COMPUTED_STIFFNESS_KEY)[0],
                better=in_words(COMPUTED_STIFFNESS_KEY)[1],
                joint=None,
                value=1.0,
                share=COMPUTED_STIFFNESS,
                mark="assumed",
            )
        )
    return tuple(found)


def _swept(prepared: Prepared) -> dict[Place, Uncertain]:
    """
    Readings around the clock, by their place: each set as the one tilt that it gives.

    Each reading on its own moves a length in space along its own direction; what they do to the load
    adds up there, not in the factors.
    """
    found = {}
    for index, (joint, resolved) in enumerate(zip(prepared.scenario.joint, prepared.joints, strict=True)):
        tilt, state = getattr(joint, "tilt", None), resolved.spline
        reading = None if state is None or state.joint.seat == "fixed" else state.tilt.alignment
        if reading is None or not isinstance(tilt, Tilt) or not isinstance(tilt.rim, ClockReadings):
            continue
        place: Place = ("joint", index, "tilt")
        found[place] = Uncertain(
            key=key_text(place),
            meaning="tilt of the mesh, by its alignment",
            better=in_words("joint[1].tilt")[1],
            joint=index,
            place=place,
            value=reading.mesh.total,
            kind="angle",
            tolerance=reading.mesh.tolerance,
        )
    return found


def _readings(model: BaseModel, place: Place, usual: bool) -> Iterator[Uncertain]:
    """Walk a model and yield every reading that is not exact."""
    own = getattr(model, "standard", "own") == "own"
    for name in type(model).model_fields:
        value = getattr(model, name)
        if (not place and name in WISHES) or (name == STANDARD_SIZE and not own):
            continue
        items = enumerate(value) if isinstance(value, tuple) else [(None, value)]
        for index, item in items:
            here = (*place, name) if index is None else (*place, name, index)
            if isinstance(item, BaseModel):
                yield from _readings(item, here, usual)
            elif isinstance(item, Reading | Hardness | float):
                found = _reading(item, here, _meaning(model, name), usual)
                if found is not None:
                    yield found


def _meaning(model: BaseModel, name: str) -> str:
    return type(model).model_fields[name].description or name.replace("_", " ")


def _reading(item: Reading | Hardness | float, place: Place, meaning: str, usual: bool) -> Uncertain | None:
    """One reading with the tolerance that is written, or the usual one; None if it is exact."""
    expected = usual_hardness(item.scale) if isinstance(item, Hardness) else usual_of(place)
    if isinstance(item, float):
        if expected is None:
            return None
        number, tolerance, text = item, 0.0, ""
    else:
        number, tolerance, text = item.value, item.tolerance, item.text
    written = has_tolerance(text)
    # where a dial was set to zero, and where there is no play, the reading is as good as any other
    nothing = number == 0.0 and not written and "lash" not in place and place[-1] not in CLOCK
    kind = item.kind if isinstance(item, Reading) else None
    absolute = isinstance(item, Hardness) or kind in KINDS_BY_LENGTH
    if written:
        expected = Usual(
            expected.better if expected is not None else "",
            tolerance if absolute else 0.0,
            0.0 if absolute or number == 0.0 else tolerance / number,
        )
    elif not usual:
        return None
    if expected is None or nothing or not math.isfinite(number) or not (expected.tolerance or expected.share):
        return None
    return Uncertain(
        key=key_text(place),
        meaning=meaning,
        better=expected.better,
        joint=place[1] if place[0] == "joint" and isinstance(place[1], int) else None,
        place=place,
        value=number,
        kind=kind,
        scale=item.scale if isinstance(item, Hardness) else "",
        tolerance=expected.tolerance,
        share=expected.share,
        written=written,
    )


def _has_band(entry: Assumption) -> bool:
    return entry.value is not None and entry.low is not None and entry.key not in COVERED


def _assumed(entry: Assumption) -> Uncertain:
    """One assumption with its band."""
    low, high = needed(entry.low), needed(entry.high)
    joint = _JOINT.match(entry.key)
    meaning, better = in_words(entry.key)
    return Uncertain(
        key=entry.key,
        meaning=meaning,
        better=better,
        joint=int(joint[1]) - 1 if joint else None,
        value=needed(entry.value),
        kind=entry.kind,
        band=(low, high),
        mark=entry.mark,
    )


def _at(model: Any, place: Place) -> Any:
    """What stands at a place of the scenario."""
    for step in place:
        model = model[step] if isinstance(step, int) else getattr(model, step)
    return model


def _replaced(model: Any, place: Place, new: Any) -> Any:
    """A copy with something else at one place."""
    if not place:
        return new
    step, rest = place[0], place[1:]
    if isinstance(step, int):
        return (*model[:step], _replaced(model[step], rest, new), *model[step + 1 :])
    return model.model_copy(update={step: _replaced(getattr(model, step), rest, new)})
