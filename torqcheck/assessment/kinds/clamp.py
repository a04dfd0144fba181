"""A clamp hub or a locking collar: what its screws hold, by the form that holds less."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.fatigue.notched import notched_fatigue
from torqcheck.assessment.kinds.bolt_preload import bolt_of, preload_of, stretch_check
from torqcheck.assessment.kinds.interference import SLIP_TARGET
from torqcheck.assessment.kinds.shaft_notches import edge_of_hub
from torqcheck.assessment.kinds.spoken import three_digits
from torqcheck.assessment.members import MemberState, member_state
from torqcheck.assessment.resolved import Requirement, Resolved
from torqcheck.assessment.torque.design_load import DesignLoad, larger_load
from torqcheck.capacity.joining import (
    collar_axial_hold,
    grip_force_needed,
    one_slit_belt_torque,
    one_slit_stiff_torque,
    shaft_equivalent_stress,
    torque_beside_thrust,
    two_piece_pressure,
    two_piece_stiff_torque,
    two_piece_torque,
)
from torqcheck.checks import Check
from torqcheck.formulas import FORMULAS
from torqcheck.materials import seat_friction
from torqcheck.provenance import Source
from torqcheck.scenario.joint_schema import bore_of
from torqcheck.scenario.kinds.clamp import ClampJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Reading, needed
from torqcheck.scenario.steel_library import Library
from torqcheck.scenario.usual import has_tolerance

__all__ = ["resolve_clamp"]

WRENCH_SCATTER = 0.25
"""Of the preload, either way, with a torque wrench."""
SCATTER_SOURCE = Source("Handbook figures for methods of applying preload", "torque wrench", "published")
LARGEST_CLEARANCE = 0.05e-3
SHORT = 1.0
"""Length over diameter below which a clamp is short; common practice is 1 to 1.5."""
COLLAR = "locking collar"

_FORMS: dict[str, tuple[tuple[str, Callable[..., Any]], tuple[str, Callable[..., Any]]]] = {
    "two-piece": (
        ("stiff halves that touch at one line each", two_piece_stiff_torque),
        ("a bore that lies on the shaft all around", two_piece_torque),
    ),
    "one slit": (
        ("stiff jaws hinged opposite the slit", one_slit_stiff_torque),
        ("a thin hub that wraps the shaft like a belt", one_slit_belt_torque),
    ),
}
"""By form: two models of its grip, between which it lies."""


@dataclass(frozen=True, slots=True)
class _Clamp:
    """A resolved clamp. SI."""

    name: str
    form: str
    diameter: float
    length: float
    bore: float
    screws: float
    force: float  # of one screw, at its least
    most_force: float
    friction: float
    axial_force: float
    sources: tuple[Source, ...]
    stretch: tuple[Check, ...] = ()

    @property
    def holds(self) -> tuple[tuple[str, float, Source], ...]:
        """Torque of each model of the form, the weaker first."""
        found = [
            (
                words,
                float(model(self.force, self.screws, self.diameter, self.friction)),
                FORMULAS[model].source,
            )
            for words, model in _FORMS[self.form]
        ]
        return tuple(sorted(found, key=lambda entry: entry[1]))

    def grip(self, load: DesignLoad, target: float) -> Check:
        """Torque, with the thrust beside it, against the weaker model."""
        _, torque, formula = self.holds[0]
        return load.check(
            joint=self.name,
            name="grip",
            member="both",
            value=float(torque_beside_thrust(load.torque, self.axial_force, self.diameter)),
            allowable=torque,
            target=max(target, SLIP_TARGET),
            quantity="torque",
            factors={"friction": self.friction},
            sources=(formula, *self.sources),
        )

    def axial_hold(self, target: float) -> Check:
        """Axial force against what a collar holds; no torque loads it."""
        return Check(
            joint=self.name,
            name="axial hold",
            method="larger load",
            member="both",
            value=float(grip_force_needed(0.0, self.axial_force, self.diameter)),
            allowable=float(collar_axial_hold(self.force, self.screws, self.friction)),
            target=max(target, SLIP_TARGET),
            torque=0.0,
            factors={"friction": self.friction},
            sources=(FORMULAS[collar_axial_hold].source, *self.sources),
            quantity="force",
        )

    def shaft_yield(self, member: MemberState, target: float) -> Check:
        """Compression of the shaft at the greatest preload."""
        # one slit: the screws pull on both ends of the band, as two on either side would
        screws = self.screws if self.form == "two-piece" else 2.0 * self.screws
        pressure = two_piece_pressure(self.most_force, screws, self.diameter, self.length)
        return Check(
            joint=self.name,
            name="shaft yield",
            method="larger load",
            member="shaft",
            value=float(shaft_equivalent_stress(pressure, self.diameter, self.bore)),
            allowable=member.yield_strength,
            target=target,
            torque=0.0,
            sources=(
                FORMULAS[two_piece_pressure].source,
                FORMULAS[shaft_equivalent_stress].source,
                member.steel.source,
            ),
        )


def resolve_clamp(joint: ClampJoint, key: str, name: str, library: Library, ledger: Ledger) -> Resolved:
    """Resolve a clamp hub or a locking collar."""
    diameter = joint.diameter.value
    member = member_state("shaft", f"{key}.shaft", name, joint.shaft, diameter, library, ledger)
    clamp = _clamp(joint, key, name, ledger)
    _warn(joint, key, name, ledger)

    bore = bore_of(joint.shaft)
    edge = () if joint.form == COLLAR else (edge_of_hub(member, diameter, bore, ledger),)

    def check(asked: Requirement) -> tuple[Check, ...]:
        holds = (
            clamp.axial_hold(asked.target)
            if joint.form == COLLAR
            else clamp.grip(larger_load(asked.lines), asked.target)
        )
        return holds, clamp.shaft_yield(member, asked.target), *clamp.stretch

    return Resolved(
        key=key,
        name=name,
        kind=joint.kind,
        description=_described(joint),
        spline=None,
        steel=member.steel,
        diameter=diameter,
        check=check,
        fatigue=notched_fatigue(edge, key=key, name=name) if edge else None,
        notes=_notes(clamp),
    )


def _described(joint: ClampJoint) -> str:
    """The clamp in one line."""
    form = joint.form if joint.form == COLLAR else f"{joint.form} clamp"
    screws = f"{joint.screws} {'screw' if joint.screws == 1 else 'screws'}"
    if joint.screw is not None:
        of = f"{joint.screw.size} {joint.screw.strength}"
    else:
        of = f"of {needed(joint.screw_preload).value / 1e3:.3g} kN"
    return f"{form} on {joint.diameter.value * 1e3:.1f} x {joint.length.value * 1e3:.1f} mm, {screws} {of}"


def _clamp(joint: ClampJoint, key: str, name: str, ledger: Ledger) -> _Clamp:
    stretch: tuple[Check, ...] = ()
    if joint.screw is not None:
        screw = bolt_of(joint.screw)
        found = preload_of(joint.tightening, screw, key, name, ledger)
        least, most, preload = found.least, found.greatest, found.sources
        stretch = (stretch_check(name, "screws", screw, found),)
    else:
        least, most, preload = _preload(needed(joint.screw_preload), key, ledger)
    closing = joint.closing_force.value if joint.closing_force is not None else 0.0
    friction, friction_source = _friction(joint, key, ledger)
    return _Clamp(
        name=name,
        form=joint.form,
        diameter=joint.diameter.value,
        length=joint.length.value,
        bore=bore_of(joint.shaft),
        screws=float(joint.screws),
        force=max(least - closing, 0.0),
        most_force=most,
        friction=friction,
        axial_force=joint.axial_force.value if joint.axial_force is not None else 0.0,
        sources=(friction_source, *preload),
        stretch=stretch,
    )


def _preload(reading: Reading, key: str, ledger: Ledger) -> tuple[float, float, tuple[Source, ...]]:
    """Least and greatest preload of a screw, N: by its own tolerance, or by what a wrench scatters."""
    if has_tolerance(reading.text):
        low, high = max(reading.value - reading.tolerance, 0.0), reading.value + reading.tolerance
        return low, high, (Source("Preload as stated", "", "measured"),)
    name, low, high = f"{key}.preload", 1.0 - WRENCH_SCATTER, 1.0 + WRENCH_SCATTER
    share = ledger.assume(
        name,
        low,
        None,
        "share of the preload that a torque wrench may leave; the grip counts on the least",
        band=(low, high),
        favourable=1.0,
        mark=SCATTER_SOURCE.mark,
    )
    most = share if name in ledger.deviations else high
    return share * reading.value, most * reading.value, (SCATTER_SOURCE,)


def _friction(joint: ClampJoint, key: str, ledger: Ledger) -> tuple[float, Source]:
    """Friction as measured, or by the state of the seat."""
    if joint.friction is not None:
        return joint.friction, Source("Friction of the seat as stated", "", "measured")
    seat = joint.seat
    if seat is None:
        seat = "oiled"
        ledger.assume_word(f"{key}.seat", seat, "not stated; a seat that nobody degreased is oily")
    table = seat_friction(f"clamped {seat}")
    friction = ledger.assume(
        f"{key}.friction",
        table.friction,
        None,
        f"clamped {seat}: {table.note}",
        band=(table.least, table.most),
        favourable=table.most,
        mark=table.source.mark,
    )
    return friction, table.source


def _notes(clamp: _Clamp) -> tuple[str, ...]:
    """What the other model of the same clamp would say."""
    if clamp.form == COLLAR:
        return ("The collar is an axial stop and no torque path: let something else turn the hub.",)
    (weak, torque, _), (strong, more, _) = clamp.holds
    return (
        f"Counted as {weak}, the clamp holds {three_digits(torque)} N m at the least preload; as {strong}, "
        f"{three_digits(more)} N m. It lies between the two; the check takes the lower.",
        f"Each screw is counted with {clamp.force / 1e3:.3g} kN.",
        "A key in the same seat does not add to the grip: count on the stronger of the two alone.",
    )


def _warn(joint: ClampJoint, key: str, name: str, ledger: Ledger) -> None:
    """Cautions of clamps."""
    if joint.clearance is not None and joint.clearance.value > LARGEST_CLEARANCE:
        ledger.warn(
            f"{key} clearance",
            f"{name}: {joint.clearance.value * 1e3:.3g} mm between bore and shaft is more than "
            f"{LARGEST_CLEARANCE * 1e3:g} mm and cuts the grip; bore to H7 on a shaft of h6 to k6, and give "
            "the force that closes the empty clamp as closing_force.",
        )
        if joint.closing_force is None and joint.form != COLLAR:
            ledger.miss(
                name,
                "force that closes the empty clamp",
                "tighten it on the shaft until the bore touches all around, read the wrench, and turn that "
                "torque into a force; or bore a hub that fits",
            )
    if joint.keyed:
        ledger.warn(
            f"{key} keyway",
            f"{name}: a slit hub is weakest where its wall is thin over a keyway; look for cracks there.",
        )
    if joint.form != COLLAR and joint.length.value < SHORT * joint.diameter.value:
        ledger.warn(
            f"{key} short",
            f"{name}: the clamp is shorter than its shaft is thick; 1 to 1.5 times the diameter is usual.",
        )
    if joint.form == COLLAR:
        ledger.warn(
            f"{key} collar",
            f"{name}: a locking collar stops a hub along the axis; it must not be counted on for torque.",
        )
