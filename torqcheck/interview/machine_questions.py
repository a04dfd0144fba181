"""What is asked about the machine: motor, gear, what is driven, targets, spells of work."""

from torqcheck.interview.question import NOT_KNOWN, Choice, Question, When, yes_or_no

__all__ = ["DUTY_QUESTIONS", "MACHINE_QUESTIONS", "MOST_SPELLS", "RECORD_QUESTIONS"]

MOST_SPELLS = 3

_MOTOR = (
    Question(
        key="record.title",
        words="What machine is it?",
        how="A few words for the head of the printout.",
    ),
    Question(
        key="motor.peak_torque",
        words="What is the peak torque of the motor?",
        how="Data sheet, at the motor shaft: the peak, not what it gives all day.",
        more="It is what the controller lets through for seconds. A gearbox on the motor comes later.",
        needed=True,
    ),
    Question(
        key="motor.max_speed",
        words="What is the highest speed of the motor shaft?",
        how="Data sheet, or the limit that is set in the controller.",
        needed=True,
    ),
    Question(
        key="motor.ramp",
        words="How fast does the controller let the torque rise?",
        how='As its menu says it: "50 ms" to peak, "4800 N*m/s", "3 % per 10 ms"; "instant" if it has none.',
        more="Look for ramp, slew rate or throttle response, in the direction of drive. A time runs from "
        "zero to peak torque. Nothing is assumed here, for it decides how hard the blow is.",
        form="ramp",
        needed=True,
    ),
    Question(
        key="motor.regen_torque",
        words="What is the largest torque with which the motor brakes (regeneration)?",
        how="Controller menu, at the motor shaft.",
        nothing="no braking by the motor, unless a spell of work brakes",
    ),
    Question(
        key="motor.rotor",
        words="What is known of the rotor?",
        how="Inertia on the data sheet is best; else weigh it and take its diameter.",
        form="choice",
        choices=(
            Choice("inertia", "the data sheet gives the inertia of the rotor"),
            Choice("rotor mass", "mass and outside diameter of the rotor"),
            Choice("motor mass", "mass of the whole motor and diameter of its frame"),
        ),
        assumed="motor.rotor_inertia",
    ),
    Question(
        key="motor.rotor_inertia",
        words="What is the inertia of the rotor?",
        how="Data sheet, often called J.",
        when=(When("motor.rotor", ("inertia",)),),
        needed=True,
    ),
    Question(
        key="motor.rotor_mass",
        words="What does the rotor weigh?",
        how="A scale, without bearings and fan if you can.",
        when=(When("motor.rotor", ("rotor mass",)),),
        needed=True,
    ),
    Question(
        key="motor.rotor_diameter",
        words="What is the outside diameter of the rotor?",
        how="A caliper over the stack of sheets.",
        when=(When("motor.rotor", ("rotor mass",)),),
        needed=True,
    ),
    Question(
        key="motor.motor_mass",
        words="What does the whole motor weigh?",
        how="Data sheet, or a scale.",
        when=(When("motor.rotor", ("motor mass",)),),
        needed=True,
    ),
    Question(
        key="motor.frame_diameter",
        words="What is the outside diameter of the motor frame?",
        how="A tape around it, divided by 3.14.",
        when=(When("motor.rotor", ("motor mass",)),),
        needed=True,
    ),
)
_DRIVEN = (
    Question(
        key="reduction.ratio",
        words="What is the ratio of the gear or belt between the motor and the first joint?",
        how="Turns of the motor for one turn of the first joint; 1 if there is none.",
        silent=("1",),
    ),
    Question(
        key="reduction.efficiency",
        words="What is the efficiency of that stage?",
        how="Power out over power in, from its data sheet.",
        share=True,
        when=(When("reduction.ratio", none_of=("1", NOT_KNOWN)),),
    ),
    Question(
        key="driven.load",
        words="How does the machine load the shaft?",
        how="By what it does.",
        form="choice",
        choices=(
            Choice("uniform", "evenly: a fan, a generator", (("driven.load", "uniform"),)),
            Choice("light shock", "a little unevenly: a vehicle, a pump", (("driven.load", "light shock"),)),
            Choice(
                "intermittent shock",
                "in jerks: a winch, a loader",
                (("driven.load", "intermittent shock"),),
            ),
            Choice("heavy shock", "in blows: a press, shears", (("driven.load", "heavy shock"),)),
        ),
        needed=True,
    ),
    Question(
        key="driven.form",
        words="What must the motor set going behind the last joint?",
        how="What you know of it; a mass can be weighed, an inertia seldom is.",
        form="choice",
        choices=(
            Choice("moved mass", "a vehicle, or a load on a rope: its mass is known"),
            Choice("inertia", "the inertia at the last joint is known"),
            Choice("held", "the driven side cannot turn", (("driven.held", True),)),
        ),
        assumed="driven.inertia",
    ),
    Question(
        key="driven.moved.mass",
        words="What is the moved mass?",
        how="A weighbridge, with its usual load.",
        when=(When("driven.form", ("moved mass",)),),
        needed=True,
    ),
    Question(
        key="driven.moved.rolling_radius",
        words="What is the radius of the wheel or drum?",
        how="Axle height over ground, loaded; of a drum, to the middle of the rope.",
        when=(When("driven.form", ("moved mass",)),),
        needed=True,
    ),
    Question(
        key="driven.moved.ratio",
        words="How many turns does the last joint make for one turn of wheel or drum?",
        how="Chalk marks, turn it by hand, count.",
        when=(When("driven.form", ("moved mass",)),),
        needed=True,
    ),
    Question(
        key="driven.inertia",
        words="What is the inertia of the driven side, at the last joint?",
        how="From its maker, or a run-down test.",
        when=(When("driven.form", ("inertia",)),),
        needed=True,
    ),
    Question(
        key="driven.stiffness",
        words="How stiff against twist is what lies behind the last joint?",
        how='Hold the far end, twist with an arm: torque over angle; "rigid" if short and stout.',
        assumed="nowhere",
        nothing="several are tried and the worst is used",
    ),
    Question(
        key="driven.slip.torque",
        words="If wheels or a clutch slip: at what torque, at the last joint?",
        how="Set torque of the clutch, or pull the locked machine with a load cell.",
        nothing="nothing slips",
    ),
)
_TARGETS = (
    Question(
        key="targets.safety_factor",
        words="What safety factor do you want?",
        how="A plain number of 1 or more.",
    ),
    Question(
        key="targets.service_life",
        words="How many running hours must the joints last?",
        how="All that it is to run before the joints are renewed.",
    ),
    Question(
        key="targets.lash_limit",
        words="At what play is a joint worn out (lash limit)?",
        how="Manual of the machine; measured at half the height of the teeth (pitch circle).",
    ),
    Question(
        key="duty.count",
        words="How many spells of work do you want to describe?",
        how="A spell is a kind of work: starting, running along, braking.",
        form="choice",
        choices=tuple(Choice(str(count)) for count in range(1, MOST_SPELLS + 1)),
        assumed="duty",
    ),
)
MACHINE_QUESTIONS = (*_MOTOR, *_DRIVEN, *_TARGETS)
"""Asked once."""

DUTY_QUESTIONS = (
    Question(
        key="duty[].name",
        words="What happens in this spell?",
        how="A word or two: starts under load.",
        nothing="no name",
    ),
    Question(
        key="duty[].torque",
        words="What part of the peak torque does it take?",
        how="1 is the peak, 0.3 three tenths of it; negative brakes.",
        share=True,
        needed=True,
    ),
    Question(
        key="duty[].speed",
        words="At what speed of the motor shaft?",
        how="The display of the controller shows it, or a tachometer.",
        needed=True,
    ),
    Question(
        key="duty[].share",
        words="What share of the running time is it?",
        how="0.2 is a fifth of the time; the last spell gets what is left.",
        share=True,
        needed=True,
    ),
    Question(
        key="duty[].events_per_hour",
        words="How often in an hour does the torque come on and go off?",
        how="Count for ten minutes of work, times six.",
        assumed="duty.events_per_hour",
    ),
    Question(
        key="duty[].reversals",
        words="Does the torque also reverse each time?",
        how="Forward and back, or drive and motor brake.",
        form="choice",
        choices=yes_or_no("duty[].reversals"),
    ),
)
"""Asked for each spell; the share not for the last."""

RECORD_QUESTIONS = (
    Question(
        key="record.date",
        words="On what day is the check made?",
        how="For the printout. Year, month, day.",
        nothing="left out",
    ),
    Question(
        key="record.build",
        words="What is the number of the machine or build?",
        how="For the printout.",
        nothing="left out",
    ),
    Question(
        key="record.checked_by",
        words="Who makes the check?",
        how="For the printout: a name or initials.",
        nothing="left out",
    ),
)
"""Asked at the end, for the record alone."""
