"""What `help` says at each question, and an example of the size that an answer there usually has."""

from collections.abc import Mapping

from torqcheck.interview.question import Question

__all__ = ["example_of", "help_of"]

_PITCH_CIRCLE = (
    "The pitch circle is the circle through the middle of the teeth, about half way between root and tip; "
    "play along it is how far a tooth can move there."
)
_SHARE = "A plain number or a per cent: 0.6 and 60 % are the same."
_TOTAL = "Turn it once around and take the largest reading of the dial less the smallest."
_TIPS = "A tip that was turned, ground or worn reads small; say so in the notes of the file."
_DRILL = "The shank of a drill will do; take two of one size and measure both where they lie on the teeth."
_READ_PINS = "This tells wear of the flanks, which a caliper over the tips cannot see."

_HELP: Mapping[str, str] = {
    "record.title": "It stands at the top of every report; nothing is worked out from it.",
    "record.build": "Number of the machine, frame or order, so that the sheet finds its way back to it.",
    "record.checked_by": "Whoever answers for the readings; nothing is worked out from it.",
    "record.date": 'As year-month-day; "today" is taken too. It stands on the printout, nothing else.',
    "motor.max_speed": (
        "The highest that the shaft can reach, downhill too: fit and bursting are checked there."
    ),
    "motor.regen_torque": (
        "Regeneration: the motor brakes and gives current back. The teeth are then loaded from the other "
        "side, "
        "so the play opens and closes again. At the motor shaft, never more than the controller allows."
    ),
    "motor.rotor": (
        "Inertia says how hard it is to speed the rotor up; it decides how hard the teeth meet when the play "
        "closes. The band is the range in which the true value is likely to lie; with a value of your own it "
        "becomes narrower."
    ),
    "motor.rotor_inertia": "Mind the unit: data sheets say kg m^2, kg cm^2 or lb in^2. Of the rotor alone.",
    "motor.rotor_mass": "With its diameter it gives an estimate of the inertia, marked as assumed.",
    "motor.rotor_diameter": "The round steel part between the windings, not the frame.",
    "motor.motor_mass": "With the frame it gives a rough estimate of the inertia, marked as assumed.",
    "motor.frame_diameter": "The outside of the steel housing, without feet and fins.",
    "reduction.ratio": (
        "A stage that slows down multiplies the torque: with ratio 2.5 the joint turns once for 2.5 "
        "turns of the "
        "motor and gets 2.5 times its torque."
    ),
    "reduction.efficiency": f"A pair of gears keeps about 0.97. {_SHARE}",
    "driven.load": (
        "It sets how much is added to the steady torque for jerks that the data sheet knows nothing of."
    ),
    "driven.form": (
        "What has to be set going decides how hard the blow is when the play closes. The band of an "
        "inertia is "
        "the range in which the true value is likely to lie; several are tried where it is not known."
    ),
    "driven.moved.mass": "Of the whole vehicle with its load, or of the load on the rope.",
    "driven.moved.rolling_radius": (
        "Half the diameter, on the loaded wheel: a tyre that is squeezed is smaller."
    ),
    "driven.moved.ratio": "Of every gear behind the joint together, axle included.",
    "driven.inertia": "Everything that turns behind the joint, reduced to the speed of the joint.",
    "driven.stiffness": (
        "How much torque it takes for one radian (57 deg) of twist. Soft shafts soften the blow."
    ),
    "driven.slip.torque": (
        "What slips cannot carry more: it caps the blow. Wheels slip at grip times load times radius."
    ),
    "targets.safety_factor": "How many times as strong as needed: 1.5 keeps a third in hand.",
    "targets.service_life": "Hours with the motor turning, not years on the calendar.",
    "targets.lash_limit": (
        "Lash is the play in rotation; the lash limit is the play at which you would renew the joint. "
        f"{_PITCH_CIRCLE}"
    ),
    "duty.count": "More spells tell fatigue and wear more about the work; one will do for steady running.",
    "duty[].name": "Only for the reports.",
    "duty[].torque": (
        f"The torque while it runs so, as a part of the peak torque. {_SHARE} Below zero the motor brakes "
        "(regeneration)."
    ),
    "duty[].speed": "Of the motor shaft; 0 rpm for a start against a load that stands. In rpm, RPM or 1/min.",
    "duty[].share": f"Of the time with the motor turning, all spells together 1. {_SHARE}",
    "duty[].events_per_hour": (
        "Each time the torque comes on the play closes with a blow; they are counted for wear."
    ),
    "duty[].reversals": "Yes: the teeth change sides each time, and wear on both flanks.",
    "joint[].kind": (
        "Begin at the motor. Splined shaft and splined hub together are one joint. Those that are filled "
        "in by "
        "hand get a block in the file with comments."
    ),
    "joint[].name": "Each joint has its own name; it stands in every report.",
    "joint[].standard_all_the_same": 'With "own" you give the dimensions of the teeth yourself.',
    "joint[].identify.side": "External: the shaft, with teeth outside. Internal: the hub, with teeth inside.",
    "joint[].identify.teeth": "One tooth more or less is another spline that may still slide on.",
    "joint[].identify.major_diameter": (
        f"{_TIPS} With an odd count no tooth lies opposite a tooth: use a ring."
    ),
    "joint[].identify.minor_diameter": "Not needed, but it helps to tell neighbours apart.",
    "joint[].identify.pins": f"{_DRILL} The reading that tells pitch and angle best.",
    "joint[].identify.pin": f"{_DRILL} An error of the pin counts nearly three times in the result.",
    "joint[].identify.pick": (
        "The list is what agrees with your readings. If two are close, stop, take the reading that is named "
        "there, and go on with --resume."
    ),
    "joint[].engagement": "Only where tooth lies on tooth, without run-out of the cutter and chamfers.",
    "joint[].seat": "A hub that rocks wears its teeth even under low torque; a fixed one does not.",
    "joint[].nose_supported": "The nose is the far end of the shaft, beyond the teeth.",
    "joint[].tilt.rim": _TOTAL,
    "joint[].tilt.face": _TOTAL,
    "joint[].tilt.diameter": "Of the circle that the tip of the dial has drawn on the face.",
    "joint[].tilt.offset": "How far one axis lies beside the other, where they are parallel.",
    "joint[].tilt.span": "The longer the shaft between them, the less it must bend for the offset.",
    "joint[].tilt.angle": "How far the axes are from being in one line: 1 mm in a metre is 0.06 deg.",
    "joint[].tilt.runout": _TOTAL,
    "joint[].tilt.turns_with_shaft": (
        "Yes: a bent shaft or an eccentric bore; the teeth then do not slide with every turn. No: the "
        "housings "
        "are out of line."
    ),
    "joint[].play": (
        "How far one half turns in the other by hand (lash): it decides how hard the teeth meet, and "
        "shows wear. "
        f"{_PITCH_CIRCLE}"
    ),
    "joint[].lash.travel": "The whole travel from stop to stop; the check divides by the radius.",
    "joint[].lash.radius": "A long lever is best: the longer it is, the more the dial shows.",
    "joint[].lash.clearance": _PITCH_CIRCLE,
    "joint[].lash.angle": "The whole angle, from one stop to the other.",
    "joint[].lubrication": "It decides most of all how fast the teeth wear.",
    "hardness": (
        "Hardness gives the strength. HRC is for hard layers, HB for soft steel; a file test is better "
        "than none."
    ),
    "reused": (
        "An old part may be worn, soft or cracked: it gets no pass without a hardness reading of its "
        "own, nor a "
        "spline without its teeth counted."
    ),
    "welded_near": "Heat of a weld takes the hardness away for about 15 mm around it.",
    "joint[].external.bore": "A hole through the shaft under the teeth; it weakens the shaft.",
    "joint[].bore": "A hole along the shaft; it weakens it.",
    "joint[].internal.outside_diameter": "A thin hub can burst, or stretch until the teeth ride up.",
    "joint[].external.measured.teeth": "The check compares it with the hub before anything else.",
    "joint[].internal.measured.teeth": "The check compares it with the shaft before anything else.",
    "joint[].readings": (
        "Yes: you are asked for each, Enter leaves one out. Without them the wear of an old "
        "part is not known."
    ),
    "joint[].external.measured.major_diameter": _TIPS,
    "joint[].external.measured.over_pins": f"{_DRILL} {_READ_PINS}",
    "joint[].external.measured.pin": _DRILL,
    "joint[].internal.measured.minor_diameter": "Tips that were bored out or are worn read large.",
    "joint[].internal.measured.between_pins": f"{_DRILL} {_READ_PINS}",
    "joint[].internal.measured.pin": _DRILL,
    "worn_step": "Where the hub did not reach, the flank is as new: how far the worn part lies below it.",
    "joint[].diameter": "The thinnest place decides. Shoulders and cross holes are written into the file.",
    "joint[].length": "It gives how far the shaft winds up; a long thin one softens the blow.",
    "joint[].more": "No ends the questions about joints; what is missing can be added in the file.",
    "joint[].size.teeth": "One tooth more or less is another spline that may still slide on.",
    "joint[].size.pitch": (
        "Teeth per inch of pitch diameter; the second number belongs to the height of the teeth. The pitch "
        "diameter is that of the circle through the middle of the teeth."
    ),
    "joint[].size.pressure_angle": (
        "How steep the flank leans, at the circle through the middle of the teeth."
    ),
    "joint[].size.module": "Diameter of the circle through the middle of the teeth, in mm, over their count.",
    "joint[].size.reference_diameter": (
        "It stands first in the name of the spline; about the outside diameter."
    ),
    "joint[].size.pitch_diameter": _PITCH_CIRCLE,
    "joint[].size.root_diameter": "Between the bottoms of opposite gaps.",
    "joint[].size.internal_major_diameter": "From groove to opposite groove of the hub.",
    "joint[].size.tooth_thickness": _PITCH_CIRCLE,
    "joint[].size.contact_height": "Along the radius, where flank meets flank.",
    "joint[].size.designation": "Number of teeth, then the small and the large diameter in mm.",
    "joint[].size.major_diameter": _TIPS,
    "joint[].size.minor_diameter": "Between the bottoms of opposite gaps.",
    "joint[].size.tooth_width": "From flank to flank; the flanks are parallel.",
    "joint[].size.fit": (
        "If you do not know: does the hub slide by hand? Under load: C. At rest only: B. Not at all: A."
    ),
}
"""By the name of the question, or by its last word where it is asked of several parts."""

_EXAMPLES: Mapping[str, str] = {
    "record.title": "Works trolley, coupler to the gearbox",
    "record.build": "WT-014",
    "motor.regen_torque": "90 N*m or 66 lbf*ft",
    "motor.max_speed": "4500 rpm",
    "motor.rotor_mass": "14 kg or 31 lb",
    "motor.rotor_diameter": "130 mm or 5.1 in",
    "motor.motor_mass": "60 kg or 130 lb",
    "motor.frame_diameter": "220 mm or 8.7 in",
    "reduction.ratio": "2.5",
    "reduction.efficiency": "0.97 or 97 %",
    "driven.moved.rolling_radius": "310 mm or 12.2 in",
    "driven.moved.ratio": "6.2",
    "driven.inertia": "2.4 kg*m^2 or 8200 lb*in^2",
    "driven.stiffness": "9000 N*m/rad",
    "driven.slip.torque": "400 N*m or 295 lbf*ft",
    "targets.safety_factor": "1.5",
    "targets.service_life": "2000 h",
    "targets.lash_limit": "0.3 mm or 0.012 in",
    "duty[].torque": "0.6 or 60 %",
    "duty[].share": "0.2 or 20 %",
    "duty[].events_per_hour": "12",
    "joint[].identify.teeth": "26",
    "joint[].identify.major_diameter": "29.6 mm or 1.165 in",
    "joint[].identify.minor_diameter": "27.2 mm or 1.07 in",
    "joint[].identify.pins": "31.6 mm or 1.244 in",
    "joint[].identify.pin": "2.03 mm or 0.08 in",
    "joint[].engagement": "32 mm or 1.25 in",
    "joint[].tilt.rim": "0.08 mm or 0.003 in",
    "joint[].tilt.face": "0.05 mm or 0.002 in",
    "joint[].tilt.diameter": "160 mm or 6.3 in",
    "joint[].tilt.offset": "0.05 mm or 0.002 in",
    "joint[].tilt.span": "120 mm or 4.7 in",
    "joint[].tilt.angle": "0.08 deg or 1.4 mrad",
    "joint[].tilt.runout": "0.08 mm or 0.003 in",
    "joint[].lash.travel": "0.35 mm or 0.014 in",
    "joint[].lash.radius": "110 mm or 4.3 in",
    "joint[].lash.clearance": "0.15 mm or 0.006 in",
    "joint[].lash.angle": "0.4 deg or 7 mrad",
    "joint[].external.hardness": "58 HRC or 300 HB",
    "joint[].internal.hardness": "58 HRC or 300 HB",
    "joint[].hardness": "32 HRC or 300 HB",
    "joint[].external.bore": "12 mm or 0.5 in",
    "joint[].internal.outside_diameter": "52 mm or 2.05 in",
    "joint[].external.measured.teeth": "26",
    "joint[].internal.measured.teeth": "26",
    "joint[].external.measured.major_diameter": "34.2 mm or 1.345 in",
    "joint[].external.measured.over_pins": "36.4 mm or 1.435 in",
    "joint[].external.measured.pin": "2.44 mm or 0.096 in",
    "joint[].external.measured.worn_step": "0.06 mm or 0.0024 in",
    "joint[].internal.measured.minor_diameter": "31.8 mm or 1.25 in",
    "joint[].internal.measured.between_pins": "29.6 mm or 1.165 in",
    "joint[].internal.measured.pin": "2.2 mm or 0.0864 in",
    "joint[].internal.measured.worn_step": "0.06 mm or 0.0024 in",
    "joint[].diameter": "38 mm or 1.5 in",
    "joint[].length": "400 mm or 16 in",
    "joint[].bore": "12 mm or 0.5 in",
    "joint[].size.teeth": "26",
    "joint[].size.pitch": "20/40",
    "joint[].size.pressure_angle": "30 deg",
    "joint[].size.module": "2 mm",
    "joint[].size.reference_diameter": "40 mm",
    "joint[].size.pitch_diameter": "33.02 mm or 1.3 in",
    "joint[].size.root_diameter": "31.2 mm or 1.23 in",
    "joint[].size.internal_major_diameter": "34.9 mm or 1.375 in",
    "joint[].size.tooth_thickness": "1.95 mm or 0.077 in",
    "joint[].size.contact_height": "1.2 mm or 0.047 in",
    "joint[].size.designation": "8x52x60",
    "joint[].size.fit": "B",
    "joint[].size.major_diameter": "60 mm or 2.36 in",
    "joint[].size.minor_diameter": "52 mm or 2.05 in",
    "joint[].size.tooth_width": "10 mm or 0.39 in",
}
"""By the name of the question; of what is asked often: a usual job, in both systems."""


def help_of(question: Question) -> str:
    """Return what `help` says: what the answer is for, and words that not everybody knows."""
    return question.more or _HELP.get(question.key) or _HELP.get(question.key.rpartition(".")[2], "")


def example_of(question: Question) -> str:
    """Return examples of the usual size, as one types them; empty where the schema's own will do."""
    return _EXAMPLES.get(question.key, "")
