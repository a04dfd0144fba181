"""Whether answers are sound, by the rules of the file itself, though much of it is not written yet."""

import copy
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from torqcheck.errors import Fault, ScenarioError
from torqcheck.interview.plan import spells_of
from torqcheck.scenario import Scenario
from torqcheck.scenario.faults import written_text
from torqcheck.scenario.load import scenario_from_document

__all__ = ["faults_of", "probe"]

NAME = Path("scenario.toml")
LEAST_LEFT = 1e-6
"""Share of the running time below which nothing is left for a spell."""
_PART = {"steel": "unknown"}
_MOTOR = {"peak_torque": "100 N*m", "max_speed": "3000 rpm"}
_RAMPS = ("torque_rise", "rise_time", "percent_per_10ms")
_SPELL = {"torque": 1.0, "speed": "0 rpm"}
_SPLINE = {"seat": "flexible", "external": _PART, "internal": _PART}
_SHAFT = {"kind": "shaft", "diameter": "500 mm", **_PART}
_SIZES: Mapping[tuple[str, str], dict[str, Any]] = {
    ("involute spline", "ansi b92.1"): {"teeth": 20, "pitch": "16/32"},
    ("involute spline", "iso 4156"): {"teeth": 20, "module": "2 mm"},
    ("involute spline", "din 5480"): {"reference_diameter": "40 mm", "module": "2 mm", "teeth": 18},
    ("straight spline", "iso 14"): {"designation": "8x42x48"},
}
"""What stands in for a size that is not known yet, where only the assumptions are looked at."""


def faults_of(document: Mapping[str, Any], answers: Mapping[str, str]) -> tuple[Fault, ...]:
    """
    Return what the rules of the file have against what is written so far.

    What is still missing is no fault: it is filled in where other rules wait for it, and left out of
    the list where it is not.
    """
    left = 1.0 - sum(spell.get("share", 0.0) for spell in document.get("duty", ()) if _has_share(spell))
    if spells_of(answers) > len(document.get("duty", ())) > 0 and left < LEAST_LEFT:
        number = len(document["duty"])
        written = written_text(document["duty"][-1]["share"])
        return (
            Fault(
                NAME.name,
                f"duty[{number}].share",
                written,
                "leaves no time for the next spell",
                "write a smaller share",
            ),
        )
    try:
        scenario_from_document(_filled(document), NAME)
    except ScenarioError as error:
        return tuple(fault for fault in error.faults if not fault.problem.startswith("is missing"))
    return ()


def probe(document: Mapping[str, Any]) -> Scenario | None:
    """
    Return a whole scenario that says what is written so far, and something usual for the rest.

    It serves to hear what the check would assume. None where what is written is no scenario yet.
    """
    filled = _filled(document)
    for joint in filled["joint"]:
        kind = joint.get("kind", "")
        if kind == "straight spline":
            joint.setdefault("standard", "iso 14")
        elif kind == "involute spline":
            joint.setdefault("standard", "ansi b92.1")
        if "engagement" not in joint and kind != "shaft":
            joint["engagement"] = "30 mm"
        usual = _SIZES.get((kind, joint.get("standard", "")), {})
        if usual and set(usual) - set(joint.get("size", {})):
            joint["size"] = dict(usual)
    try:
        return scenario_from_document(filled, NAME)
    except ScenarioError:
        return None


def _has_share(spell: Mapping[str, Any]) -> bool:
    return isinstance(spell.get("share"), float)


def _filled(document: Mapping[str, Any]) -> dict[str, Any]:
    """Fill in what rules would wait for; never a value that could be at fault with another."""
    filled: dict[str, Any] = copy.deepcopy(dict(document))
    motor = filled["motor"] = _MOTOR | filled.get("motor", {})
    if not any(key in motor for key in _RAMPS):
        motor["torque_rise"] = "instant"
    filled.setdefault("driven", {}).setdefault("load", "uniform")
    duty = filled.get("duty", [])
    for spell in duty:
        for key, value in _SPELL.items():
            spell.setdefault(key, value)
    total = sum(spell["share"] for spell in duty if _has_share(spell))
    unshared = [spell for spell in duty if "share" not in spell]
    if duty and not unshared and total < 1.0 - LEAST_LEFT:
        duty.append(_SPELL | {"share": 1.0 - total})
    for spell in unshared:
        spell["share"] = (1.0 - total) / len(unshared)
    filled["joint"] = [_filled_joint(joint) for joint in filled.get("joint", [])] or [dict(_SHAFT)]
    return filled


def _filled_joint(joint: dict[str, Any]) -> dict[str, Any]:
    """A joint with the parts that every one of its kind needs."""
    if joint.get("kind") == "shaft":
        return _SHAFT | joint
    filled = _SPLINE | joint
    for side in ("external", "internal"):
        filled[side] = _PART | joint.get(side, {})
    return filled
