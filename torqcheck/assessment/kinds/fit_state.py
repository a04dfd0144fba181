"""An interference fit in SI: its sizes, what is left of its interference, and its pressure in every state."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from torqcheck.assessment.kinds.fit_materials import FitMaterial
from torqcheck.capacity.joining import (
    bore_equivalent_stress,
    interference_after_roughness,
    interference_lost_to_heat,
    interference_lost_to_speed,
    interference_pressure,
    separation_speed,
    shaft_equivalent_stress,
    weakest_wall_hoop_stress,
    zero_pressure_hoop_stress,
)
from torqcheck.geometry.standards.press_fits import press_fit
from torqcheck.materials import ROOM_TEMPERATURE
from torqcheck.provenance import Source
from torqcheck.scenario.joint_schema import bore_of
from torqcheck.scenario.kinds.interference import InterferenceFitJoint, measured_interference
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Reading, needed

__all__ = ["FitState", "fit_state"]

TURNED, GROUND, COARSE = 6.3e-6, 1.6e-6, 10.0e-6
"""Roughness depth Rz, m: of a finely turned seat, of a ground one, of a coarse one."""
WARM, HOT = 353.15, 373.15
"""K: temperature that is assumed where unlike metals run warm, and the most that is likely."""
ALIKE = 1e-6
"""Difference of two expansions, 1/K, below which warmth counts for nothing where nobody measured it."""
STEP_OF_SIZE = 0.2e-3
"""A nominal size is taken to this, m, so that its reading does not slip over a limit of the table."""

Pair = tuple[float, float]
"""For the grip, which wants little, and for the stress, which wants much."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitState:
    """
    One interference fit. SI.

    Parameters
    ----------
    diameter, length, outside_diameter, bore : float, m
        Of the seat, of the hub, and of the shaft.
    wall_outside, wall_inside : float, m
        Of the weakest wall of the hub.
    least, greatest : float, m
        Interference on the diameter that the grip and the stresses count on, less the roughness.
    joined : float, m
        Greatest interference over the peaks, for joining.
    hub_rise, shaft_rise : float, K
        How much warmer than room temperature both run.
    hub, shaft : FitMaterial
        What both are made of.
    source : Source
        Where the interference comes from.
    """

    diameter: float
    length: float
    outside_diameter: float
    bore: float
    wall_outside: float
    wall_inside: float
    least: float
    greatest: float
    joined: float
    hub_rise: float
    shaft_rise: float
    hub: FitMaterial
    shaft: FitMaterial
    source: Source

    @property
    def elastic(self) -> dict[str, float]:
        """Elastic constants of both parts, as the kernels take them."""
        return {
            "hub_modulus": self.hub.elastic_modulus,
            "hub_poisson_ratio": self.hub.poisson_ratio,
            "shaft_modulus": self.shaft.elastic_modulus,
            "shaft_poisson_ratio": self.shaft.poisson_ratio,
        }

    @property
    def grip_outside(self) -> float:
        """
        Outside diameter of a whole ring that presses no harder than the weakest wall, m.

        Metal between the keyways or grooves in the bore holds no hoop, so that the ring begins outside of
        them; a ring is as stiff as its outside over its inside.
        """
        return self.wall_outside * self.diameter / self.wall_inside

    @property
    def heavy(self) -> dict[str, float]:
        """Elastic constants and densities of both parts."""
        return self.elastic | {"hub_density": self.hub.density, "shaft_density": self.shaft.density}

    @property
    def lost_to_heat(self) -> float:
        """Interference lost when running warm, m; negative where the fit tightens."""
        return float(
            interference_lost_to_heat(
                self.diameter, self.hub.expansion, self.shaft.expansion, self.hub_rise, self.shaft_rise
            )
        )

    def lost_to_speed(self, speed: float) -> float:
        """Interference lost to rotation, m."""
        lost = interference_lost_to_speed(
            speed, self.diameter, self.outside_diameter, self.bore, **self.heavy
        )
        return float(lost)

    def pressure(self, interference: float, *, weakest: bool = False) -> float:
        """Pressure of an interference, Pa; with the hub as weak as at its weakest wall, or as it is."""
        outside = self.grip_outside if weakest else self.outside_diameter
        left = max(interference, 0.0)
        return float(interference_pressure(left, self.diameter, outside, self.bore, **self.elastic))

    def _states(self, top_speed: float) -> Iterator[tuple[float, float]]:
        """Loss and speed: cold and warm, at rest and at top speed."""
        for heat, speed in product((0.0, self.lost_to_heat), (0.0, top_speed)):
            yield heat + self.lost_to_speed(speed), speed

    def least_pressure(self, top_speed: float) -> float:
        """Least pressure of all states, Pa: what the grip can count on."""
        return min(self.pressure(self.least - lost, weakest=True) for lost, _ in self._states(top_speed))

    def greatest_pressure(self) -> float:
        """Greatest pressure, Pa: at rest, cold or warm."""
        return max(self.pressure(self.greatest - lost) for lost, _ in self._states(0.0))

    def hub_stress(self, top_speed: float) -> float:
        """Largest stress at the bore of the hub, Pa: von Mises, or the hoop stress of what cracks."""
        return max(self._hub_stress(lost, speed) for lost, speed in self._states(top_speed))

    def _hub_stress(self, lost: float, speed: float) -> float:
        pressure = self.pressure(self.greatest - lost)
        pressed = weakest_wall_hoop_stress(pressure, self.diameter, self.wall_outside, self.wall_inside)
        turning = zero_pressure_hoop_stress(
            speed, self.wall_inside, self.outside_diameter, self.hub.density, self.hub.poisson_ratio
        )
        hoop = pressed + turning
        return float(hoop if self.hub.cracks else bore_equivalent_stress(hoop, pressure))

    def shaft_stress(self) -> float:
        """Largest stress of the shaft, Pa, von Mises; rotation relieves it."""
        return float(shaft_equivalent_stress(self.greatest_pressure(), self.diameter, self.bore))

    def loose_at(self) -> float:
        """Speed at which the least interference is gone, cold, rad/s; infinite if never."""
        return float(
            separation_speed(self.least, self.diameter, self.outside_diameter, self.bore, **self.heavy)
        )


def fit_state(
    joint: InterferenceFitJoint, key: str, shaft: FitMaterial, hub: FitMaterial, ledger: Ledger
) -> FitState:
    """Resolve sizes, interference, roughness and temperatures."""
    part, diameter = joint.hub, joint.diameter.value
    left, joined, source = _measured(joint, key, ledger) or _of_fit(joint, key, ledger)
    hub_rise, shaft_rise = _rises(joint, key, hub, shaft, ledger)
    outside = part.outside_diameter.value
    return FitState(
        diameter=diameter,
        length=joint.length.value,
        outside_diameter=outside,
        bore=bore_of(joint.shaft),
        wall_outside=part.weakest_outside.value if part.weakest_outside is not None else outside,
        wall_inside=part.feature_diameter.value if part.feature_diameter is not None else diameter,
        least=left[0],
        greatest=left[1],
        joined=joined,
        hub_rise=hub_rise,
        shaft_rise=shaft_rise,
        hub=hub,
        shaft=shaft,
        source=source,
    )


def _measured(joint: InterferenceFitJoint, key: str, ledger: Ledger) -> tuple[Pair, float, Source] | None:
    """What is left of a measured interference, m, the greatest over the peaks, and whose word it is."""
    measured = measured_interference(joint)
    if measured is None:
        return None
    value, tolerance = measured
    ends = max(value - tolerance, 0.0), value + tolerance
    surfaces = [
        _both_ends(name, _drawn_roughness(name, what, ledger), TURNED, GROUND, ledger)
        if reading is None
        else (reading.value, reading.value)
        for name, what, reading in _surfaces(joint, key)
    ]
    return _less_roughness(ends, surfaces), ends[1], Source("Interference as measured", "", "measured")


def _of_fit(joint: InterferenceFitJoint, key: str, ledger: Ledger) -> tuple[Pair, float, Source]:
    """
    What is left of the interference of a named fit, m.

    One assumption holds fit and roughness together: near its least what is left goes to nothing, and
    the two could not be drawn apart.
    """
    size = round(joint.diameter.value / STEP_OF_SIZE) * STEP_OF_SIZE
    fit = press_fit(size, needed(joint.fit))
    surfaces = [
        (TURNED, GROUND) if reading is None else (reading.value, reading.value)
        for _, _, reading in _surfaces(joint, key)
    ]
    for name, what, reading in _surfaces(joint, key):
        if reading is None:
            ledger.assume(name, TURNED, "length", _WHY_ROUGH.format(what))
    least, greatest = _less_roughness((max(fit.least, 0.0), fit.greatest), surfaces)
    name = f"{key}.interference"
    value = ledger.assume(
        name,
        least,
        "length",
        f"what the roughness leaves of {fit.designation}; the grip counts on the least, the stresses on the "
        "greatest",
        band=(least, greatest),
        favourable=greatest,
        mark=fit.source.mark,
    )
    return _both_ends(name, value, least, greatest, ledger), fit.greatest, fit.source


_WHY_ROUGH = "Rz of the {}, not measured: finely turned for the grip, ground (1.6 um) for the stresses"


def _surfaces(joint: InterferenceFitJoint, key: str) -> tuple[tuple[str, str, Reading | None], ...]:
    """Key, name and reading of the roughness of both surfaces."""
    return (
        (f"{key}.hub.roughness", "bore", joint.hub.roughness),
        (f"{key}.shaft.roughness", "shaft", joint.shaft.roughness),
    )


def _drawn_roughness(name: str, what: str, ledger: Ledger) -> float:
    return ledger.assume(
        name, TURNED, "length", _WHY_ROUGH.format(what), band=(GROUND, COARSE), favourable=GROUND
    )


def _less_roughness(ends: Pair, surfaces: list[Pair]) -> Pair:
    """What rough surfaces leave for the grip, and fine ones for the stresses."""
    (rough_bore, fine_bore), (rough_shaft, fine_shaft) = surfaces
    return (
        float(interference_after_roughness(ends[0], rough_bore, rough_shaft)),
        float(interference_after_roughness(ends[1], fine_bore, fine_shaft)),
    )


def _both_ends(name: str, value: float, for_grip: float, for_stress: float, ledger: Ledger) -> Pair:
    """For grip and stress: each its own end, both the good one if hoped for, both alike if drawn."""
    if name in ledger.deviations:
        return value, value
    return (for_stress, for_grip) if ledger.outlook == "favourable" else (for_grip, for_stress)


def _rises(
    joint: InterferenceFitJoint, key: str, hub: FitMaterial, shaft: FitMaterial, ledger: Ledger
) -> Pair:
    """How much warmer than room temperature hub and shaft run, K."""
    given = [part.temperature.value for part in (joint.hub, joint.shaft) if part.temperature is not None]
    if given:
        hub_at = joint.hub.temperature.value if joint.hub.temperature is not None else given[0]
        shaft_at = joint.shaft.temperature.value if joint.shaft.temperature is not None else given[0]
        return hub_at - ROOM_TEMPERATURE, shaft_at - ROOM_TEMPERATURE
    if abs(hub.expansion - shaft.expansion) <= ALIKE:
        return 0.0, 0.0
    both = ledger.assume(
        f"{key}.temperature",
        WARM,
        "temperature",
        f"hub of {hub.name} and shaft of {shaft.family} do not grow alike; both taken as warm as this",
        band=(ROOM_TEMPERATURE, HOT),
        favourable=ROOM_TEMPERATURE,
    )
    return both - ROOM_TEMPERATURE, both - ROOM_TEMPERATURE
