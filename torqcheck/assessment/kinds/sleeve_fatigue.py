"""Where a crack can begin in a sleeve: at the corner of its keyway, and in its plain wall."""

from torqcheck.assessment.fatigue.shaft_notches import ShaftNotch, plain_section
from torqcheck.assessment.kinds.shaft_notches import assumed_finish, assumed_keyseat_radius
from torqcheck.assessment.members import MemberState
from torqcheck.fatigue import loaded_keyseat_torsion_concentration
from torqcheck.formulas import FORMULAS
from torqcheck.provenance import Source
from torqcheck.scenario.kinds.sleeve import SleeveJoint
from torqcheck.scenario.ledger import Ledger

__all__ = ["sleeve_notches"]

_AS_SHAFT = Source("A keyway in a bore taken as the keyseat of a shaft as thick as the bore", "", "assumed")


def sleeve_notches(
    joint: SleeveJoint, member: MemberState, outside: float, inside: float, key: str, ledger: Ledger
) -> tuple[ShaftNotch, ...]:
    """
    Return the places of a sleeve at which fatigue is counted; the roots of its teeth stand with the splines.

    Parameters
    ----------
    joint : SleeveJoint
        The sleeve.
    member : MemberState
        Its steel.
    outside, inside : float, m
        Of its weakest section.
    key : str
        Place in the file.
    ledger : Ledger
        Takes what is assumed.
    """
    finish = assumed_finish(None, ledger)
    wall = plain_section("wall", member, outside, bore=inside, finish=finish)
    if joint.keyway is None:
        return (wall,)
    bore = joint.keyway.bore.value
    radius = assumed_keyseat_radius(key, bore, ledger)
    concentration = float(loaded_keyseat_torsion_concentration(radius, bore))
    keyway = ShaftNotch(
        name="keyway",
        member=member,
        diameter=joint.outside_diameter.value,
        bore=joint.keyway.corner_diameter,
        radius=radius,
        torsion_concentration=concentration,
        finish=finish,
        sources=(FORMULAS[loaded_keyseat_torsion_concentration].source, _AS_SHAFT),
    )
    return keyway, wall
