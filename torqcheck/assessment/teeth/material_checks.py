"""Checks by the strength of the material, beside the guide's and never mixed with its allowables.

Torsional yield of both members and the mean flank pressure are limits of the whole joint. First yield
of one tooth is local: in ductile steel it evens the load and ends nothing.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from torqcheck.assessment.members import MemberState
from torqcheck.assessment.teeth.load_distribution import LoadDistribution
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.assessment.teeth.strength import (
    contact_yield_pressure,
    flank_strength,
    is_brittle,
    root_strength,
    strength_sources,
    tooth_root,
)
from torqcheck.assessment.teeth.under_load import TeethUnderLoad
from torqcheck.capacity import (
    SIX_SIGMA,
    TOOTH_STIFFNESS_SOURCE,
    contact_half_width,
    contact_shift,
    crown_radius,
    crowned_flank_pressure,
    edge_margin,
    flank_pressure,
    flank_yield_pressure,
    layered_root_strength,
    least_crown_height,
    line_contact_yield_pressure,
    plastic_reserve,
    shared_load,
    shear_yield_strength,
    tooth_root_bending_stress,
    torsional_shear_stress,
)
from torqcheck.checks import Check, Member
from torqcheck.formulas import FORMULAS
from torqcheck.provenance import Source
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import needed

__all__ = ["FIRST_YIELD", "material_checks", "torsional_yield"]

FIRST_YIELD = 1.0
"""Target of what sees first yield only: beyond it nothing breaks, below it something gives way."""


@dataclass(frozen=True, slots=True)
class _Context:
    """What the checks of one joint share: teeth, the largest torque and what it rests on."""

    teeth: TeethUnderLoad
    torque: float
    torque_source: Source
    target: float
    ledger: Ledger

    def check(
        self,
        name: str,
        member: Member,
        value: float,
        allowable: float,
        sources: tuple[Source, ...],
        factors: dict[str, float],
        *,
        target: float | None = None,
        local: bool = False,
        cracks: bool = False,
    ) -> Check:
        return Check(
            joint=self.teeth.state.name,
            name=name,
            method="material",
            member=member,
            value=value,
            allowable=allowable,
            target=self.target if target is None else target,
            torque=self.torque,
            factors=factors,
            sources=(*sources, self.torque_source),
            local=local,
            cracks=cracks,
        )

    @property
    def members(self) -> tuple[MemberState, MemberState]:
        """Shaft and hub."""
        return self.teeth.state.external, self.teeth.state.internal


@dataclass(frozen=True, slots=True)
class _Tooth:
    """The most loaded place: pressure there, load per length at the root, and how it came about."""

    pressure: float
    line_load: float
    half_width: float | None
    factors: dict[str, float]


def material_checks(
    teeth: TeethUnderLoad, torque: float, torque_source: Source, target: float, ledger: Ledger
) -> tuple[Check, ...]:
    """
    Compare the largest torque with the yield of the teeth.

    Parameters
    ----------
    teeth : TeethUnderLoad
        The joint, and what the uneven load of its teeth rests on.
    torque : float
        The larger of the steady and the simulated peak torque, N m.
    torque_source : Source
        What it rests on.
    target : float
        Wanted safety factor of what ends the joint.
    ledger : Ledger
        Takes cautions.

    Notes
    -----
    The first tooth is that of one spline in twenty, the 95th percentile of the draws. Its flank and its
    root are held to first yield with a target of 1, and are local: below 1 they are marginal, for the
    tooth beds in and others share. Where it cannot, on teeth with a hard layer or above 45 HRC, bending
    at the root fails below 1.
    """
    context = _Context(teeth, torque, torque_source, target, ledger)
    if torque <= 0.0:
        return ()
    checks = [_all_teeth(context), *_first_tooth(context)]
    _warn(context, checks)
    return tuple(checks)


def torsional_yield(
    state: SplineState, torque: float, torque_source: Source, target: float
) -> Iterator[Check]:
    """Torsional yield of each member at its weakest section; the plastic reserve is stated, not used."""
    sections = [(state.external, state.root_diameter, state.bore)]
    if state.outside_diameter is not None:
        sections.append((state.internal, state.outside_diameter, state.internal_major_diameter))
    for member, outer, inner in sections:
        yield Check(
            joint=state.name,
            name=f"torsional yield, {member.side} member",
            method="material",
            member=member.side,
            value=float(torsional_shear_stress(torque, outer, inner)),
            allowable=float(shear_yield_strength(member.yield_strength)),
            target=target,
            torque=torque,
            factors={"plastic reserve, not used": float(plastic_reserve(outer, inner))},
            sources=(
                FORMULAS[torsional_shear_stress].source,
                FORMULAS[shear_yield_strength].source,
                member.steel.source,
                torque_source,
            ),
        )


def _all_teeth(context: _Context) -> Check:
    """Mean pressure with the load evened out: beyond yield no tooth is left to share, and all give way."""
    state = context.teeth.state
    weaker = min(context.members, key=lambda member: flank_strength(member, state.contact_height))
    mean = flank_pressure(
        context.torque, state.pitch_diameter, state.spline.teeth, state.engagement, state.contact_height
    )
    return context.check(
        "flank yield, all teeth",
        weaker.side,
        float(mean),
        flank_strength(weaker, state.contact_height),
        (FORMULAS[flank_pressure].source, FORMULAS[flank_yield_pressure].source, *strength_sources(weaker)),
        {},
    )


def _first_tooth(context: _Context) -> Iterator[Check]:
    """Flank and root of the most loaded tooth, as if the steel stayed elastic."""
    state, tooth = context.teeth.state, _most_loaded(context)
    basis = (FORMULAS[shared_load].source, SIX_SIGMA, TOOTH_STIFFNESS_SOURCE)
    limits = {
        member: flank_strength(member, state.contact_height)
        if tooth.half_width is None
        else contact_yield_pressure(member, tooth.half_width)
        for member in context.members
    }
    weaker = min(limits, key=lambda member: limits[member])
    formula = flank_yield_pressure if tooth.half_width is None else line_contact_yield_pressure
    yield context.check(
        "flank yield, first tooth",
        weaker.side,
        tooth.pressure,
        limits[weaker],
        (FORMULAS[formula].source, *strength_sources(weaker), *basis),
        tooth.factors,
        target=FIRST_YIELD,
        local=True,
    )
    for member in context.members:
        root = tooth_root(state, member.side)
        if root is None:
            continue
        length = 1.0
        if tooth.half_width is not None:
            # the root spreads the load of a crown by the height of the load to either side
            spread = 2.0 * (tooth.half_width + root.lever)
            length = max(1.0, state.engagement / min(state.engagement, spread))
        yield context.check(
            f"tooth root bending, first tooth, {member.side} member",
            member.side,
            float(tooth_root_bending_stress(tooth.line_load * length, root.lever, root.chord)),
            root_strength(member, root.chord),
            (
                FORMULAS[tooth_root_bending_stress].source,
                FORMULAS[layered_root_strength].source,
                *strength_sources(member),
                *basis,
            ),
            tooth.factors,
            target=FIRST_YIELD,
            local=True,
            cracks=is_brittle(member),
        )


def _most_loaded(context: _Context) -> _Tooth:
    """The first tooth of one spline in twenty: on a crown where it bears, else along a straight flank."""
    crown = _on_the_crown(context)
    if crown is not None:
        return crown
    state, found = context.teeth.state, context.teeth.at(context.torque)
    return _Tooth(found.line_load[1] / state.contact_height, found.line_load[1], None, _factors(found))


def _on_the_crown(context: _Context) -> _Tooth | None:
    """Line contact of the first tooth on its crown, unless it reaches the end of the teeth."""
    state = context.teeth.state
    if state.crown_height is None:
        return None
    found = replace(context.teeth, crowned=True, _known={}).at(context.torque)
    radius = float(crown_radius(state.engagement, needed(state.crown_height)))
    alone = context.torque * found.teeth * found.first[1]  # as if every tooth carried as much
    load = alone, state.pitch_diameter, found.teeth, state.contact_height, radius
    width = float(contact_half_width(*load))
    margin = edge_margin(state.engagement, width, contact_shift(radius, state.tilt.angle))
    if margin < 0.0 or state.crown_height < least_crown_height(state.engagement, state.tilt.angle):
        context.ledger.warn(
            f"{state.key} crown, first tooth",
            f"{state.name}: the contact of the first tooth reaches the end of its crown; its yield is "
            "checked as that of a straight flank.",
        )
        return None
    factors = {"first tooth share": found.first[1], "first tooth share, median": found.first[0]}
    return _Tooth(float(crowned_flank_pressure(*load)), found.line_load[1], width, factors | {"crowned": 1.0})


def _factors(found: LoadDistribution) -> dict[str, float]:
    """What the peak consists of; the parts are shown beside the whole and not multiplied."""
    return {
        "peak over mean": found.peak[1],
        "peak over mean, median": found.peak[0],
        "first tooth share": found.first[1],
        "axial factor, alone": found.axial,
        "tilt factor, alone": found.tilt,
    }


def _warn(context: _Context, checks: list[Check]) -> None:
    """Say what a first tooth beyond yield means, and where it is no matter of bedding in."""
    state = context.teeth.state
    hard = {member.side for member in context.members if is_brittle(member)}
    beyond = [check for check in checks if check.local and check.margin < 1.0]
    names = "; ".join(check.name for check in beyond if check.member not in hard)
    if names:
        context.ledger.warn(
            f"{state.key} first yield",
            f"{state.name}: {names}: the most loaded tooth yields at {context.torque:.0f} N m in one spline "
            "of twenty. That is no collapse: ductile steel beds in until other teeth share. Measure the lash "
            "again after the first hours, and look for cracks at that tooth. Better centring, less tilt or "
            "a slower ramp spare it.",
        )
    names = "; ".join(check.name for check in beyond if check.member in hard)
    if names:
        context.ledger.warn(
            f"{state.key} hard teeth",
            f"{state.name}: {names}: the most loaded tooth is beyond yield at {context.torque:.0f} N m in "
            "one spline of twenty, and it is hard. A hard layer can crack or break through into its core "
            "instead of bedding in: crack-test the teeth. Centre better, tilt less or slow the ramp.",
        )
    if any(check.cracks for check in beyond) and context.teeth.off_centre > 0.0:
        _ask_for_play(context)


def _ask_for_play(context: _Context) -> None:
    """A tooth that fails because its shaft is taken as far off centre as it can be: a reading may turn it."""
    state = context.teeth.state
    if state.joint.radial_play is None:
        context.ledger.miss(
            state.name,
            "radial play",
            "dial indicator across the shaft beside the spline; with what holds the shaft in its play",
        )
