"""How well a workshop knows what it reads: tolerances taken where none is written."""

from collections.abc import Mapping
from dataclasses import dataclass

from torqcheck.geometry.identifying.readings import CALIPER, OVER_PINS, PIN
from torqcheck.scenario.quantity import Reading

__all__ = [
    "ARM",
    "CALIPER",
    "COMPUTED_STIFFNESS",
    "DAMPING",
    "DEPTH",
    "DIAL",
    "DRIVEN",
    "LASH_ANGLE",
    "OVER_PINS",
    "PIN",
    "ROTOR",
    "TORQUE",
    "Usual",
    "has_tolerance",
    "in_words",
    "tolerance_of",
    "usual_hardness",
    "usual_of",
]

DIAL, THICKNESS = 0.02e-3, 0.02e-3
ARM, LEG, FOOT = 1.0e-3, 0.5e-3, 2.0e-3
"""Lengths, m: two standard deviations of a workshop reading."""
DEPTH, SHIM = 0.1e-3, 0.01e-3
"""m: a caliper's depth rod over a straight edge; rolled shim stock."""
TILT_ANGLE = 1.7e-4
"""rad: a dial that is good to 0.02 mm, swept over a little more than 100 mm."""
LASH_ANGLE = 0.05
ROTOR, DRIVEN, COMPUTED_STIFFNESS, DAMPING = 0.05, 0.10, 0.20, 0.30
"""Two standard deviations, as a share of the value.

A stiffness that is good to a fifth gives a natural frequency that is good to a tenth.
"""
ROUGHNESS, WARMTH = 0.20, 0.02
PLUS_MINUS = ("+/-", "\u00b1")
CLOCK = ("top", "right", "bottom", "left")
WARMING = 0.15
TORQUE, SETTING, SCALE, MOVED_MASS, ROLLING, GRIP, TAPE = 0.05, 0.05, 0.02, 0.08, 0.03, 0.15, 0.01
RADIUS = 0.20


@dataclass(frozen=True, slots=True)
class Usual:
    """What is usual for one kind of reading: a tolerance, absolute or a share, and how to do better."""

    better: str
    tolerance: float = 0.0
    share: float = 0.0


_SHEET = "the motor maker's test sheet, or a torque arm and a scale at stall"
_LOG = "log the torque of the controller during a start and read the slope"
_ROTOR = "the rotor inertia from the motor maker, or a run-down test with a known flywheel"
_WEIGH = "weigh it"
_MICROMETER = "a micrometer or a bore gauge in place of the caliper, several places, the mean"
_PINS = "a micrometer over certified pins, three places around"
_DIAL = "a dial indicator that reads 0.002 mm, the same point five times, the mean"
_TAPE = "measure the arm from the centre of the shaft to the tip of the indicator to half a millimetre"
_DEPTH = "a depth micrometer from one machined face, four places around, the mean"
_ALIGN = "sweep rim and face with a dial indicator over a large diameter, again after half a turn"
_SAG = "clamp the bracket to a stiff bar, zero the dial at the top, turn the bar and read it below"
_WARM = "a contact thermometer on the feet and the frame, after an hour of work"
_TWIST = "hold the far end, twist with a torque arm and read the angle: stiffness is torque over angle"
_TRACE = "a roughness gauge along the axis, three places, the mean"
_TOUCH = "a contact thermometer on the part right after a hard run"
_CIRCLE = "measure over two opposite bolts or dowels and take off one of their diameters"
_STRETCH = "measure the length of a few bolts before and after they are tightened"
_SLIP = "slip a test piece of the same finish with a torque arm"
_SEAT = "micrometer and bore gauge at one temperature, three places and two directions each, the mean"
_STRETCH = "measure the length of the screws before and after tightening"
_FILLET = "a fillet gauge at eight places around, the smallest counts"
_ROLL = "roll the loaded wheel ten turns and measure the way"
_PULL = "pull the machine, wheels locked, with a load cell until it slides"
_COAST = "a run-down test: torque over the rate at which the speed falls"
_RING = "log the speed after a torque step and take the damping from the decay of the ringing"

_RADIUS = "a radius gauge, or a cast of the corner under a glass"
_PUSH = "push the shaft end with a spring scale and read the dial: stiffness is force over travel"

_BY_FIELD: Mapping[str, Usual] = {
    "motor.peak_torque": Usual(_SHEET, share=TORQUE),
    "motor.regen_torque": Usual(_SHEET, share=TORQUE),
    "motor.torque_rise": Usual(_LOG, share=SETTING),
    "motor.regen_rise": Usual(_LOG, share=SETTING),
    "motor.rise_time": Usual(_LOG, share=SETTING),
    "motor.percent_per_10ms": Usual(_LOG, share=SETTING),
    "motor.rotor_inertia": Usual(_ROTOR, share=ROTOR),
    "motor.rotor_mass": Usual(_WEIGH, share=SCALE),
    "motor.rotor_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "motor.motor_mass": Usual(_WEIGH, share=SCALE),
    "motor.frame_diameter": Usual(_MICROMETER, share=TAPE),
    "reduction.inertia": Usual(_COAST, share=ROTOR),
    "driven.inertia": Usual(_COAST, share=DRIVEN),
    "driven.moved.mass": Usual(_WEIGH, share=MOVED_MASS),
    "driven.moved.rolling_radius": Usual(_ROLL, share=ROLLING),
    "driven.stiffness": Usual(_TWIST, share=COMPUTED_STIFFNESS),
    "driven.damping_ratio": Usual(_RING, share=DAMPING),
    "driven.slip.torque": Usual(_PULL, share=DRIVEN),
    "driven.slip.coefficient": Usual(_PULL, share=GRIP),
    "driven.slip.normal_force": Usual("weigh each axle, loaded", share=TORQUE),
    "driven.slip.rolling_radius": Usual(_ROLL, share=ROLLING),
    "driven.slip.inertia_before": Usual(_COAST, share=DRIVEN),
    "joint.engagement": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.tilt.angle": Usual(_ALIGN, tolerance=TILT_ANGLE),
    "joint.tilt.offset": Usual(_ALIGN, tolerance=DIAL),
    "joint.tilt.runout": Usual(_ALIGN, tolerance=DIAL),
    "joint.tilt.rim": Usual(_ALIGN, tolerance=DIAL),
    "joint.tilt.face": Usual(_ALIGN, tolerance=DIAL),
    "joint.tilt.span": Usual(_ALIGN, tolerance=ARM),
    "joint.tilt.diameter": Usual(_ALIGN, tolerance=ARM),
    "joint.tilt.rims_apart": Usual(_ALIGN, tolerance=ARM),
    "joint.tilt.to_middle": Usual(_ALIGN, tolerance=ARM),
    "joint.tilt.sag": Usual(_SAG, tolerance=DIAL),
    "joint.tilt.shaft_runout": Usual(_ALIGN, tolerance=DIAL),
    "feet.height": Usual(_ALIGN, tolerance=FOOT),
    "feet.warmer_by": Usual(_WARM, share=WARMING),
    "driven_feet.height": Usual(_ALIGN, tolerance=FOOT),
    "driven_feet.warmer_by": Usual(_WARM, share=WARMING),
    **{
        f"{sweep}.{place}": Usual(_ALIGN, tolerance=DIAL)
        for sweep in ("rim", "face", "reverse_rim", "rim_after_half_turn", "face_after_half_turn")
        for place in CLOCK
    },
    "joint.lash.travel": Usual(_DIAL, tolerance=DIAL),
    "joint.lash.radius": Usual(_TAPE, tolerance=ARM),
    "joint.lash.clearance": Usual(_DIAL, tolerance=DIAL),
    "joint.lash.angle": Usual(_DIAL, share=LASH_ANGLE),
    "joint.radial_play": Usual(_DIAL, tolerance=DIAL),
    "joint.crown_height": Usual("trace the flank, or blue it and measure the patch", share=DRIVEN),
    "joint.external.bore": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.internal.outside_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "measured.major_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "measured.minor_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "measured.over_pins": Usual(_PINS, tolerance=OVER_PINS),
    "measured.between_pins": Usual(_PINS, tolerance=OVER_PINS),
    "measured.pin": Usual(_PINS, tolerance=PIN),
    "measured.worn_step": Usual(_DIAL, tolerance=CALIPER),
    "joint.diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.bore": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.shaft_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.width": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.height": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.shaft_depth": Usual("a depth gauge on the side of the keyway", tolerance=CALIPER),
    "joint.chamfer": Usual("a magnifier with a scale", tolerance=CALIPER),
    "joint.hole_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.screw_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.holding_power": Usual("turn the hub on its shaft with a torque arm until it slips", share=GRIP),
    "joint.length": Usual(_MICROMETER, tolerance=ARM),
    "steps.diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "steps.length": Usual(_MICROMETER, tolerance=ARM),
    "steps.bore": Usual(_MICROMETER, tolerance=CALIPER),
    "shaft.bore": Usual(_MICROMETER, tolerance=CALIPER),
    "shaft.roughness": Usual(_TRACE, share=ROUGHNESS),
    "hub.roughness": Usual(_TRACE, share=ROUGHNESS),
    "shaft.temperature": Usual(_TOUCH, share=WARMTH),
    "hub.temperature": Usual(_TOUCH, share=WARMTH),
    "hub.outside_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "hub.weakest_outside": Usual(_MICROMETER, tolerance=CALIPER),
    "hub.feature_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.interference": Usual(_SEAT),
    "shaft.measured_diameter": Usual(_SEAT),
    "hub.measured_bore": Usual(_SEAT),
    "joint.screw_preload": Usual(_STRETCH),
    "joint.friction": Usual(_SLIP, share=GRIP),
    "joint.axial_force": Usual(_SLIP, share=DRIVEN),
    "joint.closing_force": Usual(_SLIP, share=DRIVEN),
    "notches.larger_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "notches.diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "notches.radius": Usual(_RADIUS, share=RADIUS),
    "notches.root_radius": Usual(_RADIUS, share=RADIUS),
    "notches.width": Usual(_MICROMETER, tolerance=CALIPER),
    "notches.depth": Usual(_MICROMETER, tolerance=CALIPER),
    "notches.hole": Usual(_MICROMETER, tolerance=CALIPER),
    "notches.from_load": Usual(_MICROMETER, tolerance=ARM),
    "bending.side_load": Usual("a load cell or a spring scale at the hub", share=DRIVEN),
    "bending.overhang": Usual(_MICROMETER, tolerance=ARM),
    "forced_offset.offset": Usual(_ALIGN, tolerance=DIAL),
    "forced_offset.overhang": Usual(_MICROMETER, tolerance=ARM),
    "forced_offset.bearing_spacing": Usual(_MICROMETER, tolerance=ARM),
    "forced_offset.stiffness_of_other_side": Usual(_PUSH, share=COMPUTED_STIFFNESS),
    "distance.length": Usual(_DEPTH, tolerance=DEPTH),
    "stack.shims": Usual("a micrometer, three places", tolerance=SHIM),
    "result.less": Usual(_DEPTH, tolerance=CALIPER),
    "result.external_cut": Usual(_DEPTH, tolerance=DEPTH),
    "result.internal_cut": Usual(_DEPTH, tolerance=DEPTH),
    "joint.outside_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.inside_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "keyway.bore": Usual(_MICROMETER, tolerance=CALIPER),
    "keyway.width": Usual(_MICROMETER, tolerance=CALIPER),
    "keyway.depth": Usual(_MICROMETER, tolerance=CALIPER),
    "floats.offset": Usual(_ALIGN, tolerance=DIAL),
    "floats.runout": Usual(_ALIGN, tolerance=DIAL),
    "floats.span": Usual(_ALIGN, tolerance=ARM),
    "floats.angle": Usual(_ALIGN, tolerance=TILT_ANGLE),
    "joint.leg": Usual(_FILLET, tolerance=LEG),
    "joint.wall": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.bending_moment": Usual(_PULL, share=DRIVEN),
    "bolts.circle_diameter": Usual(_CIRCLE, tolerance=CALIPER),
    "dowels.circle_diameter": Usual(_CIRCLE, tolerance=CALIPER),
    "dowels.engagement": Usual(_MICROMETER, tolerance=CALIPER),
    "face.outer_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "face.inner_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "face.friction": Usual(_SLIP, share=GRIP),
    "driving_flange.thickness": Usual(_MICROMETER, tolerance=CALIPER),
    "driven_flange.thickness": Usual(_MICROMETER, tolerance=CALIPER),
    "joint.edge_distance": Usual(_MICROMETER, tolerance=CALIPER),
    "tightening.nut_factor": Usual(_STRETCH, share=GRIP),
    "size.pitch_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "size.root_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "size.internal_major_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "size.tooth_thickness": Usual(_PINS, tolerance=THICKNESS),
    "size.contact_height": Usual(_MICROMETER, tolerance=CALIPER),
    "size.major_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "size.minor_diameter": Usual(_MICROMETER, tolerance=CALIPER),
    "size.tooth_width": Usual(_MICROMETER, tolerance=CALIPER),
    "size.chamfer": Usual(_MICROMETER, tolerance=CALIPER),
}
"""By the last words of the key; what is not here (settings, wishes, sizes of a standard) counts as exact."""

_ASSUMED: Mapping[str, tuple[str, str]] = {
    "motor.rotor_inertia": ("inertia of the rotor, estimated", _ROTOR),
    "driven.damping_ratio": ("damping ratio of the torque path, assumed", _RING),
    "stiffness as computed": ("stiffness of teeth and shafts, computed", _TWIST),
    "tilt": ("angle between the axes, not measured", _ALIGN),
    "lash": ("rotational play, not measured", _DIAL),
    "index_error": (
        "index error of the teeth, by tolerance class",
        "have the index error of both parts measured",
    ),
    "chamfer": (
        "edges of the key, not measured",
        "measure the edges of the key and the corner of the keyway",
    ),
    "breaking_torque": (
        "torque that breaks the pin, predicted",
        "break a few pins of the same bar in a vice",
    ),
    "holding_power": ("holding power of the set screws, by disagreeing lists", "a trial with a torque arm"),
    "screws_counted": ("what more than one set screw adds", "a trial with a torque arm"),
    "wear_coefficient": ("wear coefficient", "log the play at each inspection: two readings narrow it most"),
    "friction": ("friction of the seat, by the way of joining", _SLIP),
    "shaft.roughness": ("roughness of the shaft, not measured", _TRACE),
    "hub.roughness": ("roughness of the bore, not measured", _TRACE),
    "interference": (
        "interference, anywhere within its fit",
        "measure shaft and bore before they are joined",
    ),
    "hub.strength": ("strength of the hub, alloy not known", "the alloy and temper, or a hardness test"),
    "temperature": ("temperature when running, not measured", _TOUCH),
    "preload": ("preload of the screws over what the wrench says", _STRETCH),
    "forced_offset.share": ("share of the stiffness of a shaft end that the other side leaves", _PUSH),
    "face.friction": ("friction of the faces, by their condition", _SLIP),
    "nut_factor": ("nut factor, lubrication not known", "say how thread and head are lubricated"),
    "settling": ("settling of threads, heads and faces", "tighten once more after the first run"),
    "bolts.bearing": ("share of the bolts that bear in their holes", "blue the holes and look"),
    "dowels.bearing": ("share of the dowels that bear", "match-drill and ream them together"),
    "grease_life": ("time for which the grease works", "open the joint once and look at the grease"),
}
"""What an assumed value is and how to know it better, by its key without the joint."""

_HARDNESS: Mapping[str, Usual] = {
    "HRC": Usual("", tolerance=1.0),
    "HRB": Usual("", tolerance=2.0),
    "HB": Usual("", share=0.03),
    "HV": Usual("", share=0.03),
}
_BENCH_TESTER = "five readings with a tester that was checked on a test block that day"


def usual_of(place: tuple[str | int, ...]) -> Usual | None:
    """What is usual for a reading at one place of the scenario; None where it is taken as exact."""
    words = [word for word in place if isinstance(word, str)]
    return _BY_FIELD.get(".".join(words)) or _BY_FIELD.get(".".join(words[-2:]))


def has_tolerance(text: str) -> bool:
    """Whether a tolerance is written behind a quantity; "+/- 0" is one, and says that it is exact."""
    return any(sign in text for sign in PLUS_MINUS)


def tolerance_of(reading: Reading, field: str) -> float:
    """Return the tolerance that is written behind a reading, or the usual one of its field."""
    if has_tolerance(reading.text):
        return reading.tolerance
    usual = _BY_FIELD[field]
    return usual.tolerance or usual.share * abs(reading.value)


def in_words(key: str) -> tuple[str, str]:
    """What an assumed value is, and how to know it better; the key itself where there are no words."""
    return _ASSUMED.get(key.partition("].")[2] or key, (key, ""))


def usual_hardness(scale: str) -> Usual:
    """What a hardness tester is good for, on its own scale."""
    found = _HARDNESS[scale]
    return Usual(_BENCH_TESTER, found.tolerance, found.share)
