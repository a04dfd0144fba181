"""Which readings of the alignment go together, and what no alignment can be."""

import math
from collections.abc import Mapping
from typing import Any

from torqcheck.materials import expansion_materials
from torqcheck.scenario.faults import nearest
from torqcheck.scenario.forms import Rule, below, one_form, together
from torqcheck.scenario.tilt_schema import ClockReadings, Feet, Tilt

__all__ = ["steep_faults", "tilt_presence", "tilt_values"]

PLAIN = (("angle",), ("offset", "span"), ("runout",))
RIM_AND_FACE = ("rim", "face", "diameter")
TWO_RIMS = ("rim", "reverse_rim", "rims_apart")
HALF_TURN = ("rim_after_half_turn", "face_after_half_turn")
AROUND = ("dial_on", "to_middle", "sag", "turned", *HALF_TURN)
"""Keys that only mean something where the readings have a direction."""
NOT_TOGETHER = 0.35
"""rad; 20 deg, at which not even a crowned joint goes together."""
STEEPEST = 0.2
"""Largest reading on a face or between two rims, over the length that it belongs to."""
_CLOCK = "{ top = ..., right = ..., bottom = ..., left = ... }"


def tilt_presence(written: Mapping[str, Any]) -> list[Rule]:
    """Return the faults of a tilt that its keys alone give away."""
    two_rims = "reverse_rim" in written or "rims_apart" in written
    forms = (*PLAIN, TWO_RIMS if two_rims else RIM_AND_FACE)
    faults = one_form(written, forms, (*PLAIN, RIM_AND_FACE, TWO_RIMS), shared=("span",))
    if two_rims and "face" in written:
        faults.append(("face", "contradicts reverse_rim", "read rim and face, or two rims"))
    around = isinstance(written.get("rim"), list | Mapping)
    return faults + (_around(written, two_rims) if around else _total(written, two_rims))


def _total(written: Mapping[str, Any], two_rims: bool) -> list[Rule]:
    """Readings without a direction."""
    faults = []
    if two_rims and "rim" in written:
        faults.append(("rim", "is a total reading, which has no direction", f"write rim = {_CLOCK}"))
    if isinstance(written.get("face"), list | Mapping):
        faults.append(("face", "is not read as rim is", "give both as one total, or both at four places"))
    faults += [
        (key, "only goes with four readings around the clock", f"write rim = {_CLOCK}")
        for key in AROUND
        if key in written
    ]
    if written.get("turns_with_shaft") is True:
        faults += [
            (key, "contradicts turns_with_shaft", "warm feet move an axis in space")
            for key in ("feet", "driven_feet")
            if key in written
        ]
    return faults


def _around(written: Mapping[str, Any], two_rims: bool) -> list[Rule]:
    """Readings at four places of the clock."""
    faults = []
    if "face" in written and not isinstance(written["face"], list | Mapping):
        faults.append(("face", "is not read as rim is", "give both as one total, or both at four places"))
    if "dial_on" not in written:
        faults.append(
            ("dial_on", "is missing", 'write the shaft that carried the dial, dial_on = "motor" or "driven"')
        )
    if written.get("turns_with_shaft") is True:
        mend = "leave it out: what a dial on the other shaft shows at four places stands still in space"
        faults.append(("turns_with_shaft", "contradicts rim", mend))
    if two_rims:
        faults += [
            (key, "does not go with reverse_rim", "leave it out, or read rim and face in place of two rims")
            for key in HALF_TURN
            if key in written
        ]
        return faults
    faults += together(written, HALF_TURN)
    if HALF_TURN[0] in written and written.get("turned") == "both together":
        mend = 'turned together the run-out drops out by itself; write turned = "dial only"'
        faults.append(("turned", f"contradicts {HALF_TURN[0]}", mend))
    return faults


def tilt_values(tilt: Tilt) -> list[Rule]:
    """Return the faults of a tilt whose fields are sound one by one."""
    faults = []
    for key in ("feet", "driven_feet"):
        feet = getattr(tilt, key)
        if feet is not None:
            faults += below(key, _feet(feet))
    for key, length, over in (
        ("face", tilt.diameter, "diameter"),
        ("face_after_half_turn", tilt.diameter, "diameter"),
        ("rim", tilt.rims_apart, "rims_apart"),
        ("reverse_rim", tilt.rims_apart, "rims_apart"),
    ):
        reading = getattr(tilt, key)
        if reading is None or length is None:
            continue
        if _extent(reading) > STEEPEST * length.value:
            faults.append((key, f"is more than a fifth of {over}", "check the numbers and the units"))
    return faults


def _extent(reading: Any) -> float:
    """Largest less smallest reading, m."""
    if not isinstance(reading, ClockReadings):
        return float(reading.value)
    values = [place.value for place in (reading.top, reading.right, reading.bottom, reading.left)]
    return max(values) - min(values)


def _feet(feet: Feet) -> list[Rule]:
    """The material of the feet is one whose expansion is known."""
    known = expansion_materials()
    if feet.material is None or feet.material.strip().lower() in known:
        return []
    return [
        (
            "material",
            "has no expansion in the table",
            f"{nearest(feet.material, known)}known: {'; '.join(known)}",
        )
    ]


def steep_faults(key: str, angle: float) -> list[tuple[str, str, str]]:
    """Refuse an angle at which no hand could put the joint together: key, problem, mend."""
    if angle < NOT_TOGETHER:
        return []
    says = f"means {math.degrees(angle):.2g} deg or more between shaft and hub"
    return [(key, says, "check every reading of it, and its unit")]
