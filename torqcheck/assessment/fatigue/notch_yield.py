"""Yield of whole sections at the notches of a shaft, in bending and torsion together."""

from collections.abc import Sequence

from torqcheck.assessment.fatigue.shaft_notches import ShaftNotch
from torqcheck.assessment.torque.design_load import DesignLoad
from torqcheck.capacity import bending_stress, torsional_shear_stress, von_mises_stress
from torqcheck.checks import Check
from torqcheck.formulas import FORMULAS

__all__ = ["notch_yield_checks"]


def notch_yield_checks(
    notches: Sequence[ShaftNotch], load: DesignLoad, *, joint: str, target: float
) -> tuple[Check, ...]:
    """
    Compare the von Mises stress of each weakened section with yield.

    Parameters
    ----------
    notches : sequence of ShaftNotch
        Of one joint.
    load : DesignLoad
        The larger of its two design torques; the bending moments stand in the notches.
    joint : str
        Its name.
    target : float
        Wanted safety factor.

    Notes
    -----
    The net section of a hole, the whole section with Moore's factor at a keyseat, the bottom of a
    groove. No stress concentration: a ductile steel yields at the root of a notch without harm to the
    section; the notch counts in fatigue.
    """
    return tuple(_check(notch, load, joint, target) for notch in notches)


def _check(notch: ShaftNotch, load: DesignLoad, joint: str, target: float) -> Check:
    section = (notch.diameter, notch.bore)
    moment = notch.moments.still + notch.moments.turning
    bending = float(bending_stress(moment, *section)) / notch.bending_section
    shear = float(torsional_shear_stress(load.torque, *section)) / notch.torsion_section
    weakened = {} if notch.torsion_section == 1.0 else {"section": notch.torsion_section}
    return load.check(
        joint=joint,
        name=f"yield, {notch.name}",
        member=notch.member.side,
        value=float(von_mises_stress(bending, shear)),
        allowable=notch.member.yield_strength,
        target=target,
        sources=(
            FORMULAS[von_mises_stress].source,
            FORMULAS[torsional_shear_stress].source,
            *(notch.sources if weakened else ()),
            notch.member.steel.source,
        ),
        factors=weakened,
    )
