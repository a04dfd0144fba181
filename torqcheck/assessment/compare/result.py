"""The result of a comparison of steels: frozen data, and `to_dict` for its JSON."""

import datetime
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.compare.choices import SIDES
from torqcheck.assessment.compare.notes import MemberNotes, hardness_words
from torqcheck.assessment.compare.pairing import PAIRING, Pairing
from torqcheck.assessment.compare.row import HOUR, Found
from torqcheck.assessment.result import Link, interval_entry, missing_entry
from torqcheck.assessment.verdict.answered import Answered
from torqcheck.checks import VERDICTS
from torqcheck.materials import Steel

__all__ = ["COST_IS", "Choice", "Comparison", "NotChecked", "margin"]

COST_IS = (
    "per kilogram of bar or blank with its usual heat treatment, cold drawn 1018 as 1; indicative, common "
    "practice without a source"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """
    One choice, checked.

    Parameters
    ----------
    external, internal : str
        Steel of shaft and hub, the one that stays in the file too.
    steels : tuple
        Rows of the members that are exchanged; None for one that stays.
    changes : mapping
        The edit of the file that makes this choice.
    found : Found
        What its check says.
    pairing : Pairing
        How the hardness of the pair is shared out.
    notes : mapping
        By member that is exchanged.
    dominated_by : str
        Letter and names of a choice that dominates it; empty if none does.
    letter : str
        In the table and the plot: a capital if nothing dominates it; empty where the letters are used up.
    """

    external: str
    internal: str
    steels: tuple[Steel | None, Steel | None]
    changes: Mapping[str, Any]
    found: Found
    pairing: Pairing
    notes: Mapping[str, MemberNotes]
    dominated_by: tuple[str, str] | None = None
    letter: str = ""

    @property
    def name(self) -> str:
        """The steels that are exchanged."""
        both = [one.id for one in self.steels if one is not None]
        return both[0] if len(set(both)) == 1 else " / ".join(both)

    @property
    def costs(self) -> tuple[float | None, float | None]:
        """Cost index of shaft and hub; None for one that stays, or whose cost is not known."""
        external, internal = (None if one is None else one.notes.cost_index for one in self.steels)
        return external, internal

    @property
    def cost_index(self) -> float | None:
        """Sum over the members that are exchanged; None if one of them is not known."""
        ordered = [one.notes.cost_index for one in self.steels if one is not None]
        known = [cost for cost in ordered if cost is not None]
        return math.fsum(known) if len(known) == len(ordered) else None

    @property
    def lead_days(self) -> tuple[float | None, float | None]:
        """Working days of the heat treatment, least and most; of the slower member where both are made."""
        ends = []
        for name in ("lead_days_min", "lead_days_max"):
            days = [getattr(one.notes, name) for one in self.steels if one is not None]
            ends.append(None if None in days else max(days))
        return ends[0], ends[1]

    @property
    def vickers(self) -> float:
        """Flank hardness of the softest member that is exchanged, HV."""
        pairs = zip(self.found.vickers, self.steels, strict=True)
        return min(hardness for hardness, one in pairs if one is not None)

    @property
    def scores(self) -> tuple[float | None, ...]:
        """
        What choices are compared by, more is better; None where there is nothing to state.

        Verdict; safety factor over target of the path and of the joint; wear life (p10); fatigue life;
        cost; longest lead.
        """
        found, cost, lead = self.found, self.cost_index, self.lead_days[1]
        return (
            -float(VERDICTS.index(found.verdict)),
            margin(found.weakest),
            margin(found.here),
            None if found.life is None else found.life[0],
            found.fatigue_life,
            None if cost is None else -cost,
            None if lead is None else -lead,
        )

    def to_dict(self) -> dict[str, Any]:
        """Return the choice as plain data for JSON."""
        cost, dominated = self.costs, self.dominated_by
        return {
            "external": self.external,
            "internal": self.internal,
            **_found_entry(self.found),
            "cost_index": self.cost_index,
            "cost": dict(zip(SIDES, cost, strict=True)),
            "lead_days": dict(zip(("min", "max"), self.lead_days, strict=True)),
            "hardness": {
                side: {
                    "flank_HV": self.found.vickers[place],
                    "row": None if one is None else hardness_words(one),
                }
                for place, (side, one) in enumerate(zip(SIDES, self.steels, strict=True))
            },
            "pairing": self.pairing.word,
            "pairing_holds": self.pairing.holds,
            "pairing_why": self.pairing.why,
            "dominated": dominated is not None,
            "dominated_by": None if dominated is None else dict(zip(SIDES, dominated, strict=True)),
            "letter": self.letter or None,
            "notes": {side: notes.to_dict() for side, notes in self.notes.items()},
            "changes": _written(self.changes),
        }


@dataclass(frozen=True, slots=True)
class NotChecked:
    """A choice that the rules of the file or the range of a formula do not allow."""

    external: str
    internal: str
    changes: Mapping[str, Any]
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison(Answered):
    """
    Everything that `compare` found.

    Parameters
    ----------
    joint : str
        The joint whose members are exchanged.
    sides : tuple of str
        Which of them.
    external, internal : str
        What the file has there.
    base : Found
        The check of the file as it is.
    rows : tuple of Choice
        In the order that was asked for.
    not_checked : tuple of NotChecked
        Choices without a check.
    checked : int
        How many were checked.
    hidden : mapping
        How many of them are not among the rows, by reason.
    left_out : mapping
        How many rows of the tables were not taken in, by reason.
    assumed : str
        What was taken because nothing was said.
    changed : str
        What was changed in the file, in words.
    advice : tuple of str
        What to do next.
    sort : str
        What the rows are sorted by.
    """

    joint: str
    sides: tuple[str, ...]
    external: str
    internal: str
    base: Found
    rows: tuple[Choice, ...]
    not_checked: tuple[NotChecked, ...]
    checked: int
    hidden: Mapping[str, int]
    left_out: Mapping[str, int]
    assumed: str
    changed: str
    advice: tuple[str, ...]
    sort: str

    def to_dict(self) -> dict[str, Any]:
        """Return the result as plain data for JSON."""
        return {
            **self.head(),
            "joint": self.joint,
            "exchanged": list(self.sides),
            "as_in_file": {
                "external": self.external,
                "internal": self.internal,
                **_found_entry(self.base),
            },
            "rows": [row.to_dict() for row in self.rows],
            "sorted_by": self.sort,
            "checked": self.checked,
            "not_checked": [
                {
                    "external": entry.external,
                    "internal": entry.internal,
                    "changes": _written(entry.changes),
                    "reason": entry.reason,
                }
                for entry in self.not_checked
            ],
            "hidden": dict(self.hidden),
            "left_out": dict(self.left_out),
            "assumed": self.assumed or None,
            "changed": self.changed,
            "advice": list(self.advice),
            "cost_index_is": COST_IS,
            "pairing_rule": str(PAIRING),
            "changes_are": "by key, what stands there in the edited file; null: the key is taken out",
        }


def margin(link: Link | None) -> float:
    """Safety factor over target; infinite if nothing is loaded."""
    return math.inf if link is None else link.safety_factor / link.target


def _found_entry(found: Found) -> dict[str, Any]:
    """Return what a check says as plain data for JSON."""
    weakest, here = found.weakest, found.here
    fatigue = found.fatigue_life
    return {
        "safety_factor": None if weakest is None else weakest.safety_factor,
        "target": None if weakest is None else weakest.target,
        "interval": None if weakest is None else interval_entry(weakest.interval),
        "safety_factor_over_target": None if weakest is None else margin(weakest),
        "governing": _link(weakest),
        "joint_safety_factor": None if here is None else here.safety_factor,
        "joint_target": None if here is None else here.target,
        "joint_interval": None if here is None else interval_entry(here.interval),
        "joint_safety_factor_over_target": None if here is None else margin(here),
        "joint_governing": _link(here),
        "verdict": found.verdict,
        "joint_verdict": found.joint_verdict,
        "hindered_by": [{"joint": one.joint, "what": one.what, "text": one.text} for one in found.hindered],
        "undecided_by": [missing_entry(entry) for entry in found.missing],
        "life_hours": {
            name: None if found.life is None else found.life[place] / HOUR
            for place, name in enumerate(("p10", "p50"))
        },
        "life_reason": found.life_reason or None,
        "fatigue_life_hours": None if fatigue is None or math.isinf(fatigue) else fatigue / HOUR,
        "fatigue_reason": found.fatigue_reason or None,
        "fatigue_endless": fatigue is not None and math.isinf(fatigue),
    }


def _written(value: Any) -> Any:
    """What is to stand in the file, as JSON can hold it."""
    if isinstance(value, Mapping):
        return {key: _written(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [_written(inner) for inner in value]
    return value.isoformat() if isinstance(value, datetime.date | datetime.time) else value


def _link(link: Link | None) -> dict[str, str] | None:
    if link is None:
        return None
    return {"joint": link.joint, "check": link.check, "method": link.method}
