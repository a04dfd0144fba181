"""The arguments of a blow: checked, broadcast, and made dimensionless."""

from dataclasses import dataclass
from math import inf

import numpy as np

from torqcheck._types import Numeric
from torqcheck.errors import DomainError
from torqcheck.shock.arithmetic import ARRAYS, FLOATS, Arithmetic, Number, Truth
from torqcheck.shock.states import Case

__all__ = ["Path", "cases_of", "path_of"]

NEAR_CRITICAL = 1e-9
"""Within this of 1 the damping ratio is taken as 1 - 1e-9: results move by about as much."""
SHAPES = "the arguments have shapes that do not fit together: give single numbers or arrays that broadcast"


@dataclass(frozen=True, slots=True)
class Path:
    """One case in floats, or many in flat arrays, in SI, with what follows directly from them."""

    use: Arithmetic
    shape: tuple[int, ...] | None  # None for one case in floats
    torque_rise: Number
    peak_torque: Number
    start_torque: Number
    stiffness: Number
    damping_ratio: Number
    lash: Number
    reduced_inertia: Number
    steady_torque: Number
    circular_frequency: Number

    @property
    def twist(self) -> Number:
        """Twist of the path under the steady torque, rad: the unit of the dimensionless twist."""
        return self.steady_torque / self.stiffness


def _refuse(bad: Truth, message: str) -> None:
    """Raise if the condition holds anywhere."""
    if bad is not False and np.any(bad):
        raise DomainError(message)


def _broadcast(given: tuple[Numeric, ...]) -> tuple[Arithmetic, tuple[int, ...] | None, list[Number]]:
    """Floats if every argument is a single number, else flat arrays and the shape to give back."""
    if all(type(value) in (float, int) for value in given):
        return FLOATS, None, [float(value) for value in given]
    try:
        arrays = np.broadcast_arrays(*(np.asarray(value, dtype=float) for value in given))
    except ValueError as error:
        raise DomainError(SHAPES) from error
    if arrays[0].shape == ():
        return FLOATS, None, [float(value) for value in arrays]
    return ARRAYS, arrays[0].shape, [np.ravel(values) for values in arrays]


def path_of(
    *,
    torque_rise: Numeric,
    peak_torque: Numeric,
    driving_inertia: Numeric,
    driven_inertia: Numeric,
    stiffness: Numeric,
    damping_ratio: Numeric,
    lash: Numeric,
    start_torque: Numeric,
) -> Path:
    """Check and broadcast. NaN passes: it becomes NaN in the result."""
    masses = (driving_inertia, driven_inertia)
    given = (torque_rise, peak_torque, *masses, stiffness, damping_ratio, lash, start_torque)
    use, shape, values = _broadcast(given)
    S, Tm, J1, J2, k, zeta, b, T0 = values
    _refuse(S <= 0.0, "torque_rise must be above 0 N m/s; inf means that the torque is there at once")
    _refuse((Tm <= 0.0) | (Tm == inf), "peak_torque must be above 0 N m and finite")
    _refuse(Tm <= T0, "start_torque must be below peak_torque")
    _refuse(-inf == T0, "start_torque must be finite")
    _refuse((J1 <= 0.0) | (inf == J1), "driving_inertia must be above 0 kg m^2 and finite")
    _refuse(J2 <= 0.0, "driven_inertia must be above 0 kg m^2; inf means that the driven side is held")
    _refuse((k <= 0.0) | (k == inf), "stiffness must be above 0 N m/rad and finite")
    _refuse((zeta < 0.0) | (zeta == inf), "damping_ratio must be 0 or more and finite")
    _refuse((b < 0.0) | (b == inf), "lash must be 0 rad or more and finite")
    s = 1.0 / (1.0 + J1 / J2)
    mu = s * J1
    return Path(use, shape, S, Tm, T0, k, zeta, b, mu, s * Tm, use.sqrt(k / mu))


def cases_of(path: Path) -> Case:
    """Make the cases dimensionless."""
    use = path.use
    zeta = path.damping_ratio
    zeta = use.where(abs(zeta - 1.0) < NEAR_CRITICAL, 1.0 - NEAR_CRITICAL, zeta)
    start = path.start_torque / path.peak_torque
    instant = path.torque_rise == inf
    finite_rise = use.where(instant, 1.0, path.torque_rise)
    slope = finite_rise / path.peak_torque / path.circular_frequency
    light = use.where(zeta < 1.0, zeta, 0.0)
    return Case(
        zeta=zeta,
        omega=use.sqrt((1.0 - light) * (1.0 + light)),
        lag=use.arcsin(light),
        lash=path.lash / path.twist,
        slope=use.where(instant, 0.0, slope),
        start=start,
        ramp_end=use.where(instant, 0.0, (1.0 - start) / slope),
        locked=use.where((path.lash == 0.0) | (path.start_torque > 0.0), 1.0, 0.0),
    )
