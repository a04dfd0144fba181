"""The arguments of a blow: checked, broadcast, and made dimensionless."""

from dataclasses import dataclass
from math import inf

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import refuse
from torqcheck.errors import DomainError
from torqcheck.shock.arithmetic import ARRAYS, FLOATS, Arithmetic, Number
from torqcheck.shock.course import Course
from torqcheck.shock.states import ENDLESS, Case

__all__ = ["Extras", "Path", "cases_of", "course_of", "path_of"]

NEAR_CRITICAL = 1e-9
"""Within this of 1 the damping ratio is taken as 1 - 1e-9: results move by about as much."""
LEAST, MOST = 1e-30, 1e30
MAGNITUDE = (
    "every magnitude must lie between 1e-30 and 1e30 in SI: beyond that floating point gives no number"
)
SHAPES = "the arguments have shapes that do not fit together: give single numbers or arrays that broadcast"


@dataclass(frozen=True, slots=True)
class Extras:
    """What goes beyond two inertias and one rise, in SI; neutral where a case has nothing of it."""

    slip_torque: Number
    inertia_before_slip: Number
    closing_torque: Number  # peak torque where there is no rest
    closing_time: Number


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
    driving_inertia: Number
    driven_inertia: Number
    extras: Extras | None

    @property
    def twist(self) -> Number:
        """Twist of the path under the steady torque, rad: the unit of the dimensionless twist."""
        return self.steady_torque / self.stiffness


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
    slip_torque: Numeric = inf,
    inertia_before_slip: Numeric | None = None,
    closing_torque: Numeric | None = None,
    closing_time: Numeric = 0.0,
) -> Path:
    """
    Check the arguments of a blow, and broadcast them.

    Parameters
    ----------
    torque_rise, peak_torque : float or array, N m/s and N m
        Of the motor torque; a rise of inf is there at once.
    driving_inertia, driven_inertia : float or array, kg m^2
        Of both sides; a driven one of inf is held.
    stiffness, damping_ratio, lash : float or array, N m/rad, - and rad
        Of the path.
    start_torque : float or array, N m
        Motor torque before the rise.
    slip_torque, inertia_before_slip : float or array, N m and kg m^2, optional
        Of a slip element in the driven side.
    closing_torque, closing_time : float or array, N m and s, optional
        Of a rest of the motor torque that closes the lash.

    Raises
    ------
    DomainError
        If an argument is out of its range anywhere, or the shapes do not fit together. NaN passes and
        becomes NaN in the result.
    """
    masses = (driving_inertia, driven_inertia)
    given: tuple[Numeric, ...]
    given = (torque_rise, peak_torque, *masses, stiffness, damping_ratio, lash, start_torque)
    slips = not (isinstance(slip_torque, float) and slip_torque == inf)
    if slips or closing_torque is not None:
        if inertia_before_slip is None:
            refuse(np.not_equal(slip_torque, inf), "a slip_torque needs inertia_before_slip beside it")
        # any finite value will do where nothing slips
        before = driving_inertia if inertia_before_slip is None else inertia_before_slip
        rest = peak_torque if closing_torque is None else closing_torque
        given = (*given, slip_torque, before, rest, closing_time)
    use, shape, values = _broadcast(given)
    S, Tm, J1, J2, k, zeta, b, T0 = values[:8]
    refuse(S <= 0.0, "torque_rise must be above 0 N m/s; inf means that the torque is there at once")
    refuse((Tm <= 0.0) | (Tm == inf), "peak_torque must be above 0 N m and finite")
    refuse(Tm <= T0, "start_torque must be below peak_torque")
    refuse(-inf == T0, "start_torque must be finite")
    refuse((J1 <= 0.0) | (inf == J1), "driving_inertia must be above 0 kg m^2 and finite")
    refuse(J2 <= 0.0, "driven_inertia must be above 0 kg m^2; inf means that the driven side is held")
    refuse((k <= 0.0) | (k == inf), "stiffness must be above 0 N m/rad and finite")
    refuse((zeta < 0.0) | (zeta == inf), "damping_ratio must be 0 or more and finite")
    refuse((b < 0.0) | (b == inf), "lash must be 0 rad or more and finite")
    _check_magnitudes((S, Tm, J1, J2, k), (zeta, b, abs(T0)))
    s = 1.0 / (1.0 + J1 / J2)
    mu = s * J1
    extras = Extras(*values[8:]) if len(values) > 8 else None
    path = Path(use, shape, S, Tm, T0, k, zeta, b, mu, s * Tm, use.sqrt(k / mu), J1, J2, extras)
    if extras is not None:
        _check_extras(path, extras)
    return path


def _check_magnitudes(above_zero: tuple[Number, ...], zero_or_more: tuple[Number, ...]) -> None:
    """Refuse what would leave the range of floating point on the way, and come out as no number."""
    for value in above_zero:
        refuse((value < LEAST) | ((value > MOST) & (value != inf)), MAGNITUDE)
    for value in zero_or_more:
        refuse(value > MOST, MAGNITUDE)


def _check_extras(path: Path, extras: Extras) -> None:
    """Refuse a slip element or a rest that makes no sense."""
    Ts, Ja, T1, rest = (
        extras.slip_torque,
        extras.inertia_before_slip,
        extras.closing_torque,
        extras.closing_time,
    )
    refuse(Ts <= 0.0, "slip_torque must be above 0 N m; inf means that nothing slips")
    slips, J2 = Ts != inf, path.driven_inertia
    refuse(slips & ((Ja <= 0.0) | (Ja >= J2)), "inertia_before_slip must lie between 0 and driven_inertia")
    refuse(slips & (Ja == inf), "inertia_before_slip must be finite")
    refuse((path.start_torque >= T1) | (T1 <= 0.0), "closing_torque must be above 0 and above start_torque")
    refuse(path.peak_torque < T1, "closing_torque must not be above peak_torque")
    refuse((rest < 0.0) | (rest == inf), "closing_time must be 0 s or more and finite")
    start = abs(path.start_torque) * (path.steady_torque / path.peak_torque)
    refuse(
        slips & (start > (1.0 + 1e-9) * _grip(path, extras)),
        "the slip element does not hold start_torque: the path cannot be settled under it",
    )


def _grip(path: Path, extras: Extras) -> Number:
    """Path torque at which the slip element lets go, N m; inf without one."""
    slips = extras.slip_torque != inf
    behind = 1.0 - path.use.where(slips, extras.inertia_before_slip / path.driven_inertia, 0.0)
    return extras.slip_torque / behind


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


def course_of(path: Path, extras: Extras) -> Course:
    """Make cases with a slip element or a torque in two stages dimensionless."""
    use, plain = path.use, cases_of(path)
    slips = extras.slip_torque != inf
    before = use.where(slips, extras.inertia_before_slip, 1.0)
    share = path.steady_torque / path.peak_torque
    sliding_share = use.where(slips, 1.0 / (1.0 + path.driving_inertia / before), share)
    quicker = use.sqrt(share / sliding_share)
    sliding_zeta = plain.zeta * quicker
    sliding_zeta = use.where(abs(sliding_zeta - 1.0) < NEAR_CRITICAL, 1.0 - NEAR_CRITICAL, sliding_zeta)
    light = use.where(sliding_zeta < 1.0, sliding_zeta, 0.0)
    friction = use.where(slips, extras.slip_torque, 0.0) / path.steady_torque
    grip = use.where(slips, _grip(path, extras) / path.steady_torque, ENDLESS)

    rest = extras.closing_torque / path.peak_torque
    instant = plain.slope == 0.0
    finite = use.where(instant, 1.0, plain.slope)
    first_end = use.where(instant, 0.0, (rest - plain.start) / finite)
    rest_end = first_end + use.where(rest < 1.0, extras.closing_time * path.circular_frequency, 0.0)
    return Course(
        zeta=plain.zeta,
        omega=plain.omega,
        lag=plain.lag,
        sliding_zeta=sliding_zeta,
        sliding_omega=use.sqrt((1.0 - light) * (1.0 + light)),
        sliding_lag=use.arcsin(light),
        lash=plain.lash,
        locked=plain.locked,
        slope=plain.slope,
        start=plain.start,
        rest=rest,
        first_end=first_end,
        rest_end=rest_end,
        rise_end=rest_end + use.where(instant, 0.0, (1.0 - rest) / finite),
        grip=grip,
        quicker=quicker,
        share=sliding_share / share,
        push=(1.0 - sliding_share) * friction,
        drift=use.where(slips, path.reduced_inertia / before, 1.0),
    )
