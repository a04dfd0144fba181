"""Which steels a comparison sets side by side: named ones, or all of the tables that suit the part."""

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

from torqcheck.assessment.members import highest_vickers, surface_vickers
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.teeth.state import SplineState, sections
from torqcheck.errors import QuantityError, TableError, UsageError
from torqcheck.materials import Hardness, Steel, read_hardness, steel, steels
from torqcheck.materials.treatment_notes import treatment_process
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import written_at
from torqcheck.scenario.faults import nearest, printable
from torqcheck.scenario.inspections import inspected_joints
from torqcheck.scenario.joint_names import joint_name, joints_called
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.kinds.sleeve import SleeveJoint
from torqcheck.scenario.sleeve_links import tied_joints

__all__ = ["ALL", "SIDES", "Pair", "Question", "Wanted", "changes_of", "holds_for", "question_of"]

ALL = "all"
SIDES = ("external", "internal")
MOST_PAIRS = 1500
TREATED_AFTER_BORING = ("quench and temper", "carburised", "age hardened", "maraging")
"""A blank that is hardened once it is bored hardens by its wall, not by its bar."""

Pair = tuple[Steel | None, Steel | None]
"""Steel of shaft and hub; None for a member that stays as in the file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """
    What is to be compared, as a person says it.

    Parameters
    ----------
    joint : str or None
        Name or number of a splined joint; None for the one with the weakest check.
    external, internal : tuple of str or None
        Names of steels, or ``("all",)``; None: stays as in the file.
    together : bool
        The same steel for both members.
    above, below : str or None
        Limits for what ``all`` takes in, "300HB" or "32 HRC", both included: the low end of the surface
        hardness must reach the one, the high end must not exceed the other.
    min_safety, max_cost : float or None
        Choices below or above are hidden.
    """

    joint: str | None = None
    external: tuple[str, ...] | None = None
    internal: tuple[str, ...] | None = None
    together: bool = False
    above: str | None = None
    below: str | None = None
    min_safety: float | None = None
    max_cost: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """
    What is compared, made out.

    Parameters
    ----------
    index : int
        Position of the joint.
    joint : str
        Its name.
    sides : tuple of str
        Members that are exchanged.
    pairs : tuple
        The choices, in the order of the lists or tables.
    left_out : mapping
        How many rows of the tables ``all`` has left out, by reason.
    assumed : str
        What was taken because nothing was said, in a sentence; empty if all was said.
    """

    index: int
    joint: str
    sides: tuple[str, ...]
    pairs: tuple[Pair, ...]
    left_out: Mapping[str, int]
    assumed: str


def question_of(scenario: Scenario, prepared: Prepared, wanted: Wanted, weakest: Sequence[int]) -> Question:
    """
    Make out what is to be compared.

    Parameters
    ----------
    scenario : Scenario
        The base.
    prepared : Prepared
        The same, resolved.
    wanted : Wanted
        What was asked for.
    weakest : sequence of int
        Positions of the splined joints, the one with the weakest check first.

    Raises
    ------
    UsageError
        With every mistake of what was asked, one to a line; or if no steel of the tables suits.
    """
    faults: list[str] = []
    limits = _limits(wanted, faults)
    index, assumed = _joint(scenario, wanted.joint, weakest, faults)
    asked = {"external": wanted.external, "internal": wanted.internal}
    if wanted.external is None and wanted.internal is None and index is not None:
        side = SIDES if wanted.together else _new_side(scenario, index, faults)
        asked |= dict.fromkeys(side, (ALL,))
        assumed += f" {_said_of(side)}" if side and not wanted.together else ""
    given = {side: names for side, names in asked.items() if names is not None}
    named = {side: _named(scenario, side, names, faults) for side, names in given.items()}
    if (wanted.above or wanted.below) and given and None not in named.values():
        faults.append("--above and --below limit what all takes in: write all in place of a list")
    if faults or index is None:
        raise UsageError("\n".join(dict.fromkeys(faults)))
    left_out: Counter[str] = Counter()
    state = prepared.joints[index].spline
    assert state is not None
    suits = _Suits(scenario, state, wanted.together, limits, left_out)
    chosen = {side: suits.rows(side) if rows is None else rows for side, rows in named.items()}
    pairs = _together(chosen) if wanted.together else _product(chosen)
    _refuse_number(pairs, left_out)
    return Question(
        index=index,
        joint=joint_name(scenario.joint[index], index),
        sides=SIDES if wanted.together else tuple(given),
        pairs=pairs,
        left_out=dict(left_out),
        assumed=assumed.strip(),
    )


def changes_of(scenario: Scenario, index: int, pair: Pair) -> dict[str, Any]:
    """
    Return the edit that makes one choice of a pair: by key, what is to stand there; None takes a key out.

    A new part: its hardness is that of its row, it is not reused, and nothing was measured on it; the
    lash that was read in service is that of the old pair. A sleeve is one piece with the hubs at its
    ends, and they change with it.
    """
    changes: dict[str, Any] = {}
    for side, choice in zip(SIDES, pair, strict=True):
        if choice is None:
            continue
        for key in _places(scenario, index, side):
            changes[f"{key}.steel"] = choice.id
            changes[f"{key}.reused"] = False
            stale = (f"{key}.{name}" for name in ("hardness", "measured"))
            changes |= {old: None for old in stale if written_at(scenario, old) is not None}
    return changes | _without_inspections(scenario, index, pair)


def _without_inspections(scenario: Scenario, index: int, pair: Pair) -> dict[str, Any]:
    """The inspections of the joints whose parts stay, if there are others."""
    touched = tied_joints(scenario.joint, index) if pair[1] is not None else {index}
    taken_at = inspected_joints(scenario)
    if touched.isdisjoint(taken_at):
        return {}
    written = written_at(scenario, "inspection")
    kept = [entry for entry, joint in zip(written, taken_at, strict=True) if joint not in touched]
    return {"inspection": kept or None}


def _places(scenario: Scenario, index: int, side: str) -> list[str]:
    """Keys of all that is one piece with a member."""
    if side == "external":
        return [f"joint[{index + 1}].external"]
    places = []
    for tied in sorted(tied_joints(scenario.joint, index)):
        is_sleeve = isinstance(scenario.joint[tied], SleeveJoint)
        places.append(f"joint[{tied + 1}]" if is_sleeve else f"joint[{tied + 1}].internal")
    return places


def _joint(
    scenario: Scenario, name: str | None, weakest: Sequence[int], faults: list[str]
) -> tuple[int | None, str]:
    """Position of the joint that is meant, and what to say if it was chosen here."""
    splined = {joint_name(scenario.joint[i], i): i for i in sorted(weakest)}
    known = ", ".join(f'"{printable(one)}"' for one in splined)
    if not splined:
        faults.append(
            "the scenario has no splined joint: compare exchanges the two members of a splined joint; "
            "for other joints change the steel in the file and run torqcheck assess"
        )
        return None, ""
    if name is None:
        first = next(joint for joint, i in splined.items() if i == weakest[0])
        said = f"No --joint was named: {first}, the splined joint with the weakest check."
        return weakest[0], said if len(splined) > 1 else ""
    found = joints_called(scenario.joint, name)
    if found and isinstance(scenario.joint[found[0]], SplineJoint):
        return found[0], ""
    shown = printable(name[:60])
    if found:
        kind = scenario.joint[found[0]].kind
        faults.append(
            f'--joint: "{shown}" is of the kind {kind}; compare exchanges the two members of a splined '
            f"joint: {known}. For others change the steel in the file and run torqcheck assess"
        )
    else:
        faults.append(f'--joint: there is no joint "{shown}"; {nearest(name[:60], splined)}splined: {known}')
    return None, ""


def _new_side(scenario: Scenario, index: int, faults: list[str]) -> tuple[str, ...]:
    """The one member that is stated as new: what is still to be ordered."""
    joint: Any = scenario.joint[index]
    new = tuple(side for side in SIDES if getattr(joint, side).reused is False)
    if len(new) == 1:
        return new
    which = "both members are" if new else "no member is"
    faults.append(
        f"{which} stated as new (reused = false), so that it is not clear which to compare: name "
        "--external or --internal with steels or all, or --together"
    )
    return ()


def _said_of(sides: tuple[str, ...]) -> str:
    return f"No member was named: the {sides[0]} one, which is new, with all steels that suit."


def _named(
    scenario: Scenario, side: str, names: tuple[str, ...], faults: list[str]
) -> tuple[Steel, ...] | None:
    """The steels that are named for one side, each once; None for all of the tables."""
    if any(name.strip().casefold() == ALL for name in names):
        if len(names) > 1:
            faults.append(f"--{side}: all and a list of names contradict each other: keep one of them")
        return None
    found: dict[str, Steel] = {}
    for name in names:
        if not name.strip():
            faults.append(f"--{side}: a name is empty: write names with one comma between them, or all")
            continue
        try:
            one = steel(name.strip(), scenario.library)
            found[one.id] = one
        except TableError as error:
            faults.append(f"--{side}: {printable(str(error))}")
    return tuple(found.values())


def _limits(wanted: Wanted, faults: list[str]) -> tuple[Hardness | None, Hardness | None]:
    """Both limits of hardness; the other numbers are looked at on the way."""
    above, below = (
        _limit(option, text, faults)
        for option, text in (("--above", wanted.above), ("--below", wanted.below))
    )
    if above is not None and below is not None and _vickers(above) > _vickers(below):
        faults.append(f"--above {above.text} lies above --below {below.text}: exchange them")
    for option, value in (("--min-safety", wanted.min_safety), ("--max-cost", wanted.max_cost)):
        if value is not None and not 0.0 <= value < math.inf:
            faults.append(f"{option}: {value:g} must be a number of 0 or more")
    return above, below


def _limit(option: str, text: str | None, faults: list[str]) -> Hardness | None:
    """A hardness on any scale."""
    if text is None:
        return None
    shown = printable(text[:60])
    try:
        limit = read_hardness(text)
    except QuantityError as error:
        faults.append(f'{option}: "{shown}" {error}')
        return None
    if limit.tolerance or limit.hv is None:
        faults.append(f'{option}: "{shown}" is no plain limit; write for example 300HB or "32 HRC"')
        return None
    return limit


def _vickers(limit: Hardness) -> float:
    assert limit.hv is not None
    return limit.hv


@dataclass(frozen=True, slots=True)
class _Suits:
    """Which rows of the tables suit a member; counts the others by reason."""

    scenario: Scenario
    state: SplineState
    together: bool
    limits: tuple[Hardness | None, Hardness | None]
    left_out: Counter[str]

    def rows(self, side: str) -> tuple[Steel, ...]:
        """All rows for one member, or for both where it is the same steel."""
        sides = SIDES if self.together else (side,)
        found = []
        for row in steels(self.scenario.library).values():
            reason = next((text for text in (self._against(row, one) for one in sides) if text), "")
            if not reason:
                found.append(row)
            elif not self.together or side == SIDES[0]:
                self.left_out[reason] += 1
        return tuple(found)

    def _against(self, row: Steel, side: str) -> str:
        """Why a row does not suit a member; an empty text if it does."""
        above, below = self.limits
        if row.reference_only:
            return "for reference only, not to design with"
        if side == "external" and row.is_iron:
            return "iron, no material for a shaft"
        if not holds_for(row, self.state, side):
            return "the row does not hold for the section of the part"
        if above is not None and surface_vickers(row) < _vickers(above):
            return f"its flank may be softer than {above.text}"
        if below is not None and highest_vickers(row) > _vickers(below):
            return f"its flank may be harder than {below.text}"
        return ""


def holds_for(row: Steel, state: SplineState, side: str) -> bool:
    """
    Whether the strengths of a row hold for the section of a member; a row without a section is kept.

    A shaft is as thick as its teeth. A hub is turned from bar of its outside diameter, and where it is
    hardened after boring its wall counts as well.
    """
    tip, wall = sections(state.joint, state.spline)
    if side == "external":
        return row.fits_section(tip) is not False
    bar = tip if state.outside_diameter is None else state.outside_diameter
    if row.fits_section(bar) is not False:
        return True
    return treatment_process(row) in TREATED_AFTER_BORING and row.fits_section(wall) is not False


def _together(chosen: Mapping[str, tuple[Steel, ...]]) -> tuple[Pair, ...]:
    """Every steel of either list for both members."""
    each = {one.id: one for side in SIDES for one in chosen.get(side, ())}
    return tuple((one, one) for one in each.values())


def _product(chosen: Mapping[str, tuple[Steel, ...]]) -> tuple[Pair, ...]:
    nothing: tuple[Steel | None, ...] = (None,)
    external, internal = (chosen.get(side, nothing) for side in SIDES)
    return tuple(product(external, internal))


def _refuse_number(pairs: tuple[Pair, ...], left_out: Mapping[str, int]) -> None:
    """Neither nothing nor more than anybody would wait for."""
    if not pairs:
        why = "; ".join(f"{count} {reason}" for reason, count in left_out.items())
        raise UsageError(f"no steel of the tables suits: {why}")
    if len(pairs) > MOST_PAIRS:
        raise UsageError(
            f"that are {len(pairs)} pairs, and each is a whole check; at most {MOST_PAIRS}: name the steels "
            "of one side, use --together, or narrow all by --above and --below"
        )
