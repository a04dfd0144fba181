"""Rules that tie fields of a block together.

`presence_faults` looks only at which keys are written, so it speaks even when a value is wrong;
`value_faults` looks at a block whose fields are all sound.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Any

from torqcheck.scenario.forms import LASH_FORMS, Rule, below, one_form, together
from torqcheck.scenario.joint_schema import InvoluteSize, SplineJoint, StraightSize, Tilt
from torqcheck.scenario.kinds.clamp import clamp_presence
from torqcheck.scenario.kinds.flange import flange_presence
from torqcheck.scenario.kinds.interference import interference_presence, interference_values
from torqcheck.scenario.kinds.key import key_presence
from torqcheck.scenario.kinds.pin import pin_presence
from torqcheck.scenario.kinds.set_screws import set_screws_presence
from torqcheck.scenario.kinds.shaft_notches import notch_keys
from torqcheck.scenario.kinds.sleeve import sleeve_presence
from torqcheck.scenario.kinds.weld import weld_presence
from torqcheck.scenario.schema import Duty, Targets
from torqcheck.scenario.stack_rules import stack_presence, stack_values
from torqcheck.scenario.tilt_rules import tilt_presence, tilt_values

__all__ = ["Rule", "presence_faults", "value_faults"]

INVOLUTE_KEYS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "ansi b92.1": (("teeth", "pitch"), ("pressure_angle", "root")),
    "iso 4156": (("teeth", "module"), ("pressure_angle", "root")),
    "din 5480": (("teeth", "module", "reference_diameter"), ()),
    "own": (
        (
            "teeth",
            "pressure_angle",
            "pitch_diameter",
            "root_diameter",
            "internal_major_diameter",
            "tooth_thickness",
            "contact_height",
        ),
        (),
    ),
}
STRAIGHT_KEYS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "iso 14": (("designation",), ("chamfer",)),
    "sae": (("teeth", "major_diameter", "fit"), ()),
    "own": (("teeth", "major_diameter", "minor_diameter", "tooth_width"), ("chamfer",)),
}
"""By standard: keys that `size` needs, and keys that it may have."""


HOURS_IN_A_YEAR = 8766


def presence_faults(block: str, written: Mapping[str, Any]) -> list[Rule]:
    """Return the faults of a block that its keys alone give away."""
    rules = _PRESENCE.get(block)
    return rules(written) if rules is not None else []


def value_faults(block: str, model: Any) -> list[Rule]:
    """Return the faults of a block whose fields are sound one by one."""
    rules = _VALUE.get(block)
    return rules(model) if rules is not None else []


def _one_of(written: Mapping[str, Any], keys: Sequence[str], *, needed: bool) -> list[Rule]:
    """Exactly one (or at most one) of several keys."""
    present = [key for key in keys if key in written]
    if len(present) > 1:
        return [(present[1], f"contradicts {present[0]}", f"keep one of {', '.join(keys)}")]
    if needed and not present:
        return [(keys[0], "is missing", f"give one of {', '.join(keys)}")]
    return []


def _motor(written: Mapping[str, Any]) -> list[Rule]:
    faults = _one_of(written, ("torque_rise", "rise_time", "percent_per_10ms"), needed=True)
    faults += together(written, ("rotor_mass", "rotor_diameter"))
    faults += together(written, ("motor_mass", "frame_diameter"))
    faults += _one_of(written, ("rotor_inertia", "rotor_mass", "motor_mass"), needed=False)
    if "regen_rise" in written and "regen_torque" not in written:
        faults.append(("regen_torque", "is missing beside regen_rise", "give the largest braking torque"))
    return faults


def _driven(written: Mapping[str, Any]) -> list[Rule]:
    keys = ["inertia", "moved"] + (["held"] if written.get("held") is True else [])
    faults = _one_of(written, keys, needed=False)
    slip = written.get("slip")
    if isinstance(slip, Mapping):
        faults += below("slip", _slip_keys(slip))
    return faults


def _slip_keys(written: Mapping[str, Any]) -> list[Rule]:
    ground = ("coefficient", "normal_force", "rolling_radius", "ratio")
    if "torque" in written:
        return [
            (key, "contradicts torque", "give the slip torque or the ground, not both")
            for key in ground
            if key in written
        ]
    if not any(key in written for key in ground):
        return [("torque", "is missing", f"give torque, or {', '.join(ground)}")]
    return together(written, ground)


def _spline_joint(written: Mapping[str, Any]) -> list[Rule]:
    faults = _size_keys(written)
    for key, rules in (("tilt", tilt_presence), ("lash", _lash_form)):
        value = written.get(key)
        if isinstance(value, Mapping):
            faults += below(key, rules(value))
    if written.get("seat") == "fixed" and written.get("nose_supported") is False:
        faults.append(
            (
                "nose_supported",
                "contradicts seat",
                'a spline that carries the shaft end is flexible: write seat = "flexible"',
            )
        )
    for side, reading in (("external", "over_pins"), ("internal", "between_pins")):
        faults += _measured_keys(written.get(side), side, reading)
    return faults


def _lash_form(written: Mapping[str, Any]) -> list[Rule]:
    return one_form(written, LASH_FORMS)


def _inspection(written: Mapping[str, Any]) -> list[Rule]:
    lash = written.get("lash")
    return below("lash", one_form(lash, LASH_FORMS)) if isinstance(lash, Mapping) else []


def _measured_keys(member: Any, side: str, reading: str) -> list[Rule]:
    """Pins go with their diameter, and each side has its own reading."""
    measured = member.get("measured") if isinstance(member, Mapping) else None
    if not isinstance(measured, Mapping):
        return []
    other = "between_pins" if reading == "over_pins" else "over_pins"
    place = f"{side}.measured"
    faults = below(place, together(measured, (reading, "pin")))
    if other in measured:
        faults.append((f"{place}.{other}", f"does not exist on the {side} member", f"write {reading}"))
    return faults


def _size_keys(written: Mapping[str, Any]) -> list[Rule]:
    """Keys of `size` by the standard."""
    table: Mapping[str, tuple[Collection[str], Collection[str]]]
    table = INVOLUTE_KEYS if written.get("kind") == "involute spline" else STRAIGHT_KEYS
    standard, size = written.get("standard"), written.get("size")
    if not isinstance(standard, str) or standard not in table or not isinstance(size, Mapping):
        return []
    model = InvoluteSize if written.get("kind") == "involute spline" else StraightSize
    needed, allowed = table[standard]
    faults: list[Rule] = [
        (f"size.{key}", f"is missing for {standard}", f"{standard} needs {', '.join(needed)}")
        for key in needed
        if key not in size
    ]
    faults += [
        (f"size.{key}", f"does not belong to {standard}", f"allowed: {', '.join((*needed, *allowed))}")
        for key in size
        if key in model.model_fields and key not in needed and key not in allowed
    ]
    return faults


def _targets(targets: Targets) -> list[Rule]:
    limit = targets.lash_limit
    faults: list[Rule] = []
    if limit is not None and limit.value <= 0.0:
        mend = "teeth that slide together have some play, and wear adds to it: give what is accepted at most"
        faults.append(("lash_limit", "must be above zero", mend))
    running = targets.running_per_year
    if running is not None and running.value > HOURS_IN_A_YEAR * 3600.0 * (1.0 + 1e-9):
        mend = f"a year has {HOURS_IN_A_YEAR} hours"
        faults.append(("running_per_year", "is more than a year has", mend))
    return faults


def _duty(spells: Sequence[Duty]) -> list[Rule]:
    total = sum(spell.share for spell in spells)
    if spells and abs(total - 1.0) > 1e-3:
        return [("", f"has shares that add to {total:g}, not 1", "mend the shares of the duty spells")]
    return []


def _spline_values(joint: SplineJoint) -> list[Rule]:
    faults: list[Rule] = []
    if joint.grease_renewal is not None and joint.lubrication != "sealed grease":
        faults.append(
            ("grease_renewal", "only goes with sealed grease", 'write lubrication = "sealed grease"')
        )
    if isinstance(joint.tilt, Tilt):
        faults += below("tilt", tilt_values(joint.tilt))
    return faults


_PRESENCE: dict[str, Callable[[Mapping[str, Any]], list[Rule]]] = {
    "motor": _motor,
    "driven": _driven,
    "inspection": _inspection,
    "stack": stack_presence,
    "involute spline": _spline_joint,
    "straight spline": _spline_joint,
    "interference fit": interference_presence,
    "clamp": clamp_presence,
    "shaft": notch_keys,
    "sleeve": sleeve_presence,
    "weld": weld_presence,
    "key": key_presence,
    "pin": pin_presence,
    "set screws": set_screws_presence,
    "bolted flange": flange_presence,
}
_VALUE: dict[str, Callable[[Any], list[Rule]]] = {
    "targets": _targets,
    "duty": _duty,
    "stack": stack_values,
    "involute spline": _spline_values,
    "straight spline": _spline_values,
    "interference fit": interference_values,
}
