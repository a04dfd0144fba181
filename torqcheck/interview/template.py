"""The interview of a typical job, answered with invented numbers: what a template is made from."""

from collections.abc import Mapping

from torqcheck.interview.dialogue import Dialogue

__all__ = ["TEMPLATE_ANSWERS", "answered_by", "template"]

TEMPLATE_ANSWERS: Mapping[str, str] = {
    "record.title": "My machine, coupler to the old gearbox",
    "motor.peak_torque": "150 N*m",
    "motor.max_speed": "4500 rpm",
    "motor.ramp": "0.40 s",
    "motor.regen_torque": "45 N*m",
    "motor.rotor": "inertia",
    "motor.rotor_inertia": "0.038 kg*m^2",
    "driven.load": "light shock",
    "driven.form": "moved mass",
    "driven.moved.mass": "1400 kg",
    "driven.moved.rolling_radius": "0.31 m",
    "driven.moved.ratio": "6.2",
    "driven.stiffness": "9000 N*m/rad",
    "targets.safety_factor": "1.5",
    "targets.service_life": "1500 hour",
    "duty.count": "2",
    "duty[1].name": "starts under load",
    "duty[1].torque": "1",
    "duty[1].speed": "600 rpm",
    "duty[1].share": "0.1",
    "duty[1].events_per_hour": "10",
    "duty[2].name": "running along",
    "duty[2].torque": "0.35",
    "duty[2].speed": "2500 rpm",
    "joint[1].kind": "involute spline",
    "joint[1].name": "gearbox input",
    "joint[1].standard": "ansi b92.1",
    "joint[1].size.teeth": "26",
    "joint[1].size.pitch": "20/40",
    "joint[1].size.pressure_angle": "30 deg",
    "joint[1].engagement": "1.75 in",
    "joint[1].seat": "flexible",
    "joint[1].nose_supported": "yes",
    "joint[1].alignment": "angle",
    "joint[1].tilt.angle": "0.03 deg",
    "joint[1].play": "dial",
    "joint[1].lash.travel": "0.35 +/- 0.02 mm",
    "joint[1].lash.radius": "110 mm",
    "joint[1].lubrication": "sealed grease",
    "joint[1].external.steel": "8620_carb_63",
    "joint[1].external.hardness": "59 HRC +/- 1",
    "joint[1].external.reused": "yes",
    "joint[1].external.welded_near": "no",
    "joint[1].external.measured.teeth": "26",
    "joint[1].internal.steel": "8620_carb_63",
    "joint[1].internal.reused": "no",
    "joint[1].internal.outside_diameter": "52 mm",
    "joint[1].internal.measured.teeth": "26",
    "joint[1].readings": "yes",
    "joint[1].external.measured.major_diameter": "1.345 +/- 0.001 in",
}
"""By the name of the question; what is not here is not known."""


def answered_by(answers: Mapping[str, str]) -> Dialogue:
    """
    Return the interview that is answered from a list, "not known" where the list has nothing.

    Raises
    ------
    ValueError
        If an answer is not taken: names the question.
    """
    dialogue = Dialogue()
    while (asked := dialogue.question) is not None:
        reply = dialogue.fed(answers.get(asked.id, "?"))
        if reply.kind != "taken":
            raise ValueError(f"{asked.id}: {'; '.join(reply.lines)}")
        dialogue = reply.dialogue
    return dialogue


def template() -> Dialogue:
    """Return the interview of a typical job: one involute spline."""
    return answered_by(TEMPLATE_ANSWERS)
