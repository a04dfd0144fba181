"""Set screws that alone hold a hub: what they hold, by lists that disagree, and why they should not."""

from torqcheck.assessment.kinds.spoken import torque_in_words
from torqcheck.assessment.members import MemberState, member_state
from torqcheck.assessment.resolved import Requirement, Resolved
from torqcheck.assessment.torque.design_load import larger_load
from torqcheck.capacity.joining import HARDER_BY, SOFT_SCREW, set_screw_torque
from torqcheck.checks import Check
from torqcheck.formulas import FORMULAS
from torqcheck.materials import hv_from_hrc, lists_apart, set_screw, set_screw_point
from torqcheck.provenance import Source
from torqcheck.scenario.kinds.set_screws import SetScrewsJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.steel_library import Library

__all__ = ["DYNAMIC_FACTORS", "resolve_set_screws"]

DYNAMIC_FACTORS = (4.0, 8.0)
"""Least factors under a torque that varies, and under one that reverses: the range of a list, published."""
FURTHER_SCREW = 0.3
"""What each further screw around the shaft adds to the first; from memory."""
SCREW_HARDNESS = 45.0
"""HRC of a socket set screw, at least; from memory."""
HALF, FAR_OFF = 0.5, 0.2
"""Screw over shaft as lists have it, and what is worth a word."""


def resolve_set_screws(
    joint: SetScrewsJoint, key: str, name: str, library: Library, ledger: Ledger
) -> Resolved:
    """Resolve a hub that only set screws hold."""
    diameter = joint.shaft_diameter.value
    shaft = member_state("shaft", f"{key}.shaft", name, joint.shaft, diameter, library, ledger)
    force, force_source = _holding_power(joint, key, ledger)
    point, point_source = set_screw_point(joint.point)
    soft = _soft(joint, shaft, key, ledger)
    counted = _counted(joint, key, ledger)
    holds = float(set_screw_torque(force * soft, diameter, counted, point))
    factors = {"point": point, "screws counted": counted, "soft screw": soft}
    sources = (FORMULAS[set_screw_torque].source, force_source, point_source, shaft.steel.source)
    _warn(joint, key, name, ledger)

    def check(asked: Requirement) -> tuple[Check, ...]:
        load = larger_load(asked.lines)
        dynamic = DYNAMIC_FACTORS[1 if asked.life.reversed_torque else 0]
        return (
            load.check(
                joint=name,
                name="holding power",
                member="screws",
                value=load.torque,
                # below the factor of the lists nothing holds for long: it is no margin that may be used up
                allowable=holds / dynamic,
                target=max(1.0, asked.target / dynamic),
                sources=sources,
                quantity="torque",
                factors={"for loads that vary": dynamic, **factors},
            ),
        )

    return Resolved(
        key=key,
        name=name,
        kind=joint.kind,
        description=_described(joint, shaft),
        spline=None,
        steel=shaft.steel,
        diameter=diameter,
        check=check,
        notes=_notes(joint, holds),
    )


def _holding_power(joint: SetScrewsJoint, key: str, ledger: Ledger) -> tuple[float, Source]:
    """Force that one screw holds: as stated, or the lower of two lists."""
    if joint.holding_power is not None:
        return joint.holding_power.value, Source("Holding power as stated", "", "measured")
    screw, apart = set_screw(needed(joint.size)), lists_apart()
    least = screw.holding_power / apart.factor
    taken = ledger.assume(
        f"{key}.holding_power",
        least,
        "force",
        f"size {screw.size} at its seating torque of {torque_in_words(screw.seating_torque)}; lists disagree "
        f"by {apart.factor:.2g} on size {apart.size}, the lower is taken for all",
        band=(least, screw.holding_power),
        favourable=screw.holding_power,
        mark=screw.source.mark,
    )
    return taken, screw.source


def _soft(joint: SetScrewsJoint, shaft: MemberState, key: str, ledger: Ledger) -> float:
    """What is left where the screw is not clearly harder than the shaft."""
    if joint.screw_hardness is not None:
        screw = joint.screw_hardness.lowest.hrc or 0.0
    else:
        why = "not stated; usual for socket set screws"
        ledger.assume_word(f"{key}.screw_hardness", f"{SCREW_HARDNESS:g} HRC", why, mark="from memory")
        screw = SCREW_HARDNESS
    return SOFT_SCREW if shaft.vickers > hv_from_hrc(max(screw - HARDER_BY, 0.0)) else 1.0


def _counted(joint: SetScrewsJoint, key: str, ledger: Ledger) -> float:
    """Screws that are counted: around the shaft each further one adds less than the first."""
    count = float(joint.screws)
    if count == 1.0 or joint.in_line:
        return count
    least = 1.0 + FURTHER_SCREW * (count - 1.0)
    return ledger.assume(
        f"{key}.screws_counted",
        least,
        None,
        "opposite screws add 0.3 of the first each, screws close together nearly a whole one",
        band=(least, count),
        favourable=count,
        mark="from memory",
    )


def _warn(joint: SetScrewsJoint, key: str, name: str, ledger: Ledger) -> None:
    """The caution that always stands, and odd proportions."""
    ledger.warn(
        f"{key} set screws",
        f"{name}: set screws locate a hub, they are no torque path for a traction coupler. They loosen under "
        "vibration and reversal, let go without a warning and score the shaft. Give the torque to a key, a "
        "spline, a clamp or a press fit.",
    )
    diameter = joint.screw_diameter.value if joint.screw_diameter is not None else None
    if joint.size is not None:
        diameter = set_screw(joint.size).diameter
    share = None if diameter is None else diameter / joint.shaft_diameter.value
    if share is not None and abs(share - HALF) > FAR_OFF:
        ledger.warn(
            f"{key} proportion",
            f"{name}: the screw is {share:.2f} of the shaft; about half is usual, and the lists hold for "
            "that.",
        )


def _described(joint: SetScrewsJoint, shaft: MemberState) -> str:
    """The joint in one line."""
    size = joint.size.strip() if joint.size is not None else "own size"
    plural = "s" if joint.screws > 1 else ""
    line = " in line" if joint.in_line and joint.screws > 1 else ""
    return (
        f"{joint.screws} set screw{plural}{line} {size}, {joint.point} point, shaft "
        f"{joint.shaft_diameter.value * 1e3:.1f} mm, {shaft.steel.id}"
    )


def _notes(joint: SetScrewsJoint, holds: float) -> tuple[str, ...]:
    """Sentences for the report."""
    notes = [
        f"Begins to slip at {torque_in_words(holds)}, which is a slip of 0.25 mm (0.010 in) in the tests. "
        "Lists ask for 4 to 8 times a torque that varies: the check allows a quarter of it, an eighth where "
        "the torque reverses."
    ]
    if joint.size is not None:
        seating = set_screw(joint.size).seating_torque
        notes.append(f"It counts on screws that were seated with {torque_in_words(seating)}, and stay so.")
    return tuple(notes)
