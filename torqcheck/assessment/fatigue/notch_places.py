"""How strong the steel is at a notch of a shaft, and what one N m of bending or torque does there."""

from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.fatigue.cycles import Cycles
from torqcheck.assessment.fatigue.members import (
    RELIABILITY,
    SOFTEST_NOTCH,
    beyond_range,
    core_strength,
    surface_strength,
)
from torqcheck.assessment.fatigue.shaft_notches import ShaftNotch
from torqcheck.capacity import bending_stress, torsional_shear_stress, von_mises_stress
from torqcheck.fatigue import (
    SURFACE_FINISHES,
    StrengthLine,
    bending_limit,
    boundary_stress_share,
    endurance_limit,
    fatigue_notch_factor,
    goodman_amplitude,
    notch_constant_in_bending,
    notch_constant_in_torsion,
    notch_sensitivity,
    reliability_factor,
    size_factor,
    strength_fraction,
    surface_factor,
)

__all__ = ["NotchPlace", "notch_places", "why_no_places"]


@dataclass(frozen=True, slots=True, kw_only=True)
class NotchPlace:
    """
    One place of a notch: stresses for each N m, the notch factors in them, and the strength line. SI.

    Everything is brought to an equivalent tension by von Mises; amplitude and mean both carry the notch.
    """

    name: str
    bending_per_moment: float
    shear_per_torque: float
    line: StrengthLine
    ultimate_strength: float
    bending_sensitivity: float
    torsion_sensitivity: float
    bending_notch_factor: float
    torsion_notch_factor: float

    def stresses(self, notch: ShaftNotch, cycles: Cycles) -> tuple[FloatArray, FloatArray]:
        """Equivalent amplitude and mean of each kind of cycle, Pa."""
        moments = notch.moments
        amplitude = von_mises_stress(
            self.bending_per_moment * moments.still, self.shear_per_torque * cycles.amplitude
        )
        mean = von_mises_stress(
            self.bending_per_moment * moments.turning, self.shear_per_torque * cycles.mean
        )
        return np.asarray(amplitude), np.asarray(mean)

    def reversed_amplitude(self, notch: ShaftNotch, cycles: Cycles) -> FloatArray:
        """Reversed equivalent amplitude that does the same damage as each kind of cycle, Pa."""
        amplitude, mean = self.stresses(notch, cycles)
        return np.asarray(goodman_amplitude(amplitude, mean, self.line.ultimate))


def why_no_places(notch: ShaftNotch) -> str:
    """Say why the fatigue rules do not hold at a notch, if they do not."""
    return beyond_range(notch.member.steel, notch.diameter)


def notch_places(notch: ShaftNotch) -> tuple[NotchPlace, ...]:
    """The surface of a notch, and the boundary of case and core under it if there is a hard layer."""
    steel = notch.member.steel
    core = core_strength(steel)
    if steel.surface_treatment == "none":
        return (_place(notch, notch.name, core, 1.0, finished=True),)
    hard = max(core, surface_strength(notch.member.vickers))
    depth = steel.case_depth_min or 0.0
    under = float(boundary_stress_share(min(depth, 0.49 * notch.diameter), notch.diameter))
    return (
        _place(notch, f"{notch.name}, surface", hard, 1.0, finished=True),
        # the notch is not taken to fade on the way down: on the safe side
        _place(notch, f"{notch.name}, case-core boundary", core, under, finished=False),
    )


def _place(notch: ShaftNotch, name: str, strength: float, share: float, *, finished: bool) -> NotchPlace:
    """Strength line and notch factors of one place; below the surface no surface finish counts."""
    finish = SURFACE_FINISHES[notch.finish, "9th"]
    ka = surface_factor(strength, finish.coefficient, finish.exponent) if finished else 1.0
    limit = endurance_limit(
        bending_limit(strength),
        ka,
        size_factor(notch.diameter),
        reliability_factor=reliability_factor(RELIABILITY),
    )
    known = max(strength, SOFTEST_NOTCH)
    bending_sensitivity = torsion_sensitivity = 1.0
    if notch.radius is not None:
        bending_sensitivity = float(notch_sensitivity(notch.radius, notch_constant_in_bending(known)))
        torsion_sensitivity = float(notch_sensitivity(notch.radius, notch_constant_in_torsion(known)))
    in_bending = max(
        float(fatigue_notch_factor(notch.bending_concentration, bending_sensitivity)), notch.bending_factor
    )
    in_torsion = max(
        float(fatigue_notch_factor(notch.torsion_concentration, torsion_sensitivity)), notch.torsion_factor
    )
    section = (notch.diameter, notch.bore)
    return NotchPlace(
        name=name,
        bending_per_moment=float(bending_stress(1.0, *section)) * in_bending * share,
        shear_per_torque=float(torsional_shear_stress(1.0, *section)) * in_torsion * share,
        line=StrengthLine(strength, float(strength_fraction(strength)) * strength, float(limit)),
        ultimate_strength=strength,
        bending_sensitivity=bending_sensitivity,
        torsion_sensitivity=torsion_sensitivity,
        bending_notch_factor=in_bending,
        torsion_notch_factor=in_torsion,
    )
