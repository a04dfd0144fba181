"""Peak torque in a path with lash, after the motor torque has risen."""

from dataclasses import dataclass, fields
from math import inf, nan, pi
from typing import Any

import numpy as np

from torqcheck._types import BoolArray, IntArray, Numeric
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source
from torqcheck.shock.arguments import Path, path_of
from torqcheck.shock.chunks import is_handful, is_large, parts_of, single_cases
from torqcheck.shock.record import Record, record_of

__all__ = ["ARGUMENTS", "MODEL", "Blow", "peak"]

MODEL = Source(
    "Two-inertia torsional model with one lash, closed form and independent integration", "", "derived"
)
ARGUMENTS = {
    "torque_rise": Symbol("S", "N m/s", "rise of the motor torque; inf for a torque that is there at once"),
    "peak_torque": Symbol("Tm", "N m", "motor torque after the rise"),
    "driving_inertia": Symbol("J1", "kg m^2", "inertia of the driving side"),
    "driven_inertia": Symbol("J2", "kg m^2", "inertia of the driven side; inf if it is held"),
    "stiffness": Symbol("k", "N m/rad", "torsional stiffness of the path in contact"),
    "damping_ratio": Symbol("zeta", "-", "damping ratio of the path in contact"),
    "lash": Symbol("b", "rad", "whole lash, from coast flank to drive flank"),
    "start_torque": Symbol("T0", "N m", "motor torque before the rise"),
    "slip_torque": Symbol("Ts", "N m", "friction torque of a slip element in the driven side; inf without"),
    "inertia_before_slip": Symbol("Ja", "kg m^2", "part of the driven inertia before the slip element"),
    "closing_torque": Symbol("T1", "N m", "motor torque at which the rise rests while the lash closes"),
    "closing_time": Symbol("t1", "s", "how long it rests there"),
}
"""The arguments of a blow as filed data, shared by all functions that take them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blow:
    """
    What a rise of motor torque does to the path; scalars or equally shaped arrays, SI.

    Attributes
    ----------
    peak_torque : float or array, N m
        Largest torque in the path over all time.
    steady_torque : float or array, N m
        Torque in the path after the swing has died away: Tm J2/(J1 + J2); Tm if J2 is held. Where
        the slip element then slides on for good: (Tm Ja + Ts J1)/(J1 + Ja).
    natural_frequency : float or array, Hz
        Of the two inertias against each other, contact closed, undamped.
    closing_time, closing_speed, blow_energy : float or array; s, rad/s, J
        First closing of the drive flanks. NaN where no gap is crossed: lash 0 or start torque above 0.
        The energy is that of the relative motion, of the inertia before the slip element if it slides.
    contact_losses : int or array
        How often the drive flanks part again after they had closed.
    time_of_peak : float or array, s
        First time of the peak, from the beginning of the rise.
    first_blow_torque : float or array, N m
        First maximum of the path torque after the first closing (with strong damping the jump at
        closing itself). NaN where no gap is crossed.
    least_torque : float or array, N m
        Most negative torque in the path (coast flank), 0 if the coast flank is never loaded.
    slipped : bool or array
        The slip element let go at some time.
    slip_time : float or array, s
        When it first let go, from the beginning of the rise. NaN where it never does.
    settled : bool or array
        The contact is certain to stay closed at the end. False where hammering has no end (no
        damping) or hardly one; contact_losses is then the number up to the horizon.
    """

    peak_torque: Numeric
    steady_torque: Numeric
    natural_frequency: Numeric
    closing_time: Numeric
    closing_speed: Numeric
    blow_energy: Numeric
    contact_losses: int | IntArray
    time_of_peak: Numeric
    first_blow_torque: Numeric
    least_torque: Numeric
    slipped: bool | BoolArray
    slip_time: Numeric
    settled: bool | BoolArray

    @property
    def dynamic_factor(self) -> Numeric:
        """Peak torque over the steady torque in the path."""
        return self.peak_torque / self.steady_torque


def _blow(path: Path, record: Record) -> dict[str, Any]:
    """Turn what was recorded back into SI."""
    use, frequency, torque_unit = path.use, path.circular_frequency, path.steady_torque
    crossed, slipped = record.closed_at >= 0.0, record.slipped_at >= 0.0
    first_blow = use.where(record.first_blow >= 0.0, record.first_blow, record.peak)  # none: it only rises
    return {
        "peak_torque": record.peak * torque_unit,
        "steady_torque": use.where(record.steady >= 0.0, record.steady, 1.0) * torque_unit,
        "natural_frequency": frequency / (2.0 * pi),
        "closing_time": use.where(crossed, record.closed_at / frequency, nan),
        "closing_speed": use.where(crossed, record.closing_speed * (path.twist * frequency), nan),
        "blow_energy": use.where(crossed, record.closing_energy * (path.twist * torque_unit), nan),
        "contact_losses": use.where(record.losses >= 0.0, record.losses, 0.0),
        "time_of_peak": record.peak_at / frequency,
        "first_blow_torque": use.where(crossed, first_blow * torque_unit, nan),
        "least_torque": record.least * torque_unit,
        "slipped": slipped,
        "slip_time": use.where(slipped, record.slipped_at / frequency, nan),
        "settled": record.settled == 1.0,
    }


@formula(
    "J1 th1'' = T - y,  J2 th2'' = y,  y = k x + c x'",
    result=Symbol("y", "N m", "torque in the path; its largest value over all time is the peak torque"),
    source=MODEL,
    **ARGUMENTS,
)
def peak(
    *,
    torque_rise: Numeric,
    peak_torque: Numeric,
    driving_inertia: Numeric,
    driven_inertia: Numeric,
    stiffness: Numeric,
    damping_ratio: Numeric = 0.0,
    lash: Numeric = 0.0,
    start_torque: Numeric = 0.0,
    slip_torque: Numeric = inf,
    inertia_before_slip: Numeric | None = None,
    closing_torque: Numeric | None = None,
    closing_time: Numeric = 0.0,
) -> Blow:
    """
    Peak torque, blow and contact losses when the motor torque rises and the lash is taken up.

    ::

        J1 th1'' = T - y,  J2 th2'' = y,  y = k x + c x'

        T = min(T0 + S t, Tm)            x = th1 - th2 - b on the drive flank, th1 - th2 on the coast flank
        c = 2 zeta sqrt(k J1 J2/(J1 + J2))                y = 0 between the flanks; a flank never pulls

    Parameters
    ----------
    torque_rise : float or array, N m/s
        S, rise of the motor torque; inf if the whole torque is there at once.
    peak_torque : float or array, N m
        Tm, motor torque after the rise; it then stays.
    driving_inertia : float or array, kg m^2
        J1, everything on the motor's side of the lash, referred to this shaft.
    driven_inertia : float or array, kg m^2
        J2, everything behind the lash, referred to this shaft; inf if it is held.
    stiffness : float or array, N m/rad
        k, torsional stiffness of the path while the flanks touch.
    damping_ratio : float or array, -, optional
        zeta, of the path while the flanks touch; any value from 0.
    lash : float or array, rad, optional
        b, whole gap from the coast flank to the drive flank. With 0 the path is one piece and its
        torque may take either sign.
    start_torque : float or array, N m, optional
        T0, motor torque before the rise. 0: at rest, lying on the coast flank without load.
        Negative (regeneration): settled on the coast flank under T0. Positive: lash already closed,
        settled on the drive flank.
    slip_torque : float or array, N m, optional
        Ts, the friction torque at which a wheel on the ground or a clutch in the driven side slips,
        referred to this shaft; inf without one.
    inertia_before_slip : float or array, kg m^2, optional
        Ja, the part of J2 between the lash and the slip element. Needed with a finite slip_torque.
    closing_torque : float or array, N m, optional
        T1, two-stage rise: the torque rises to T1, rests there for closing_time, then rises on.
    closing_time : float or array, s, optional
        t1, length of the rest at closing_torque.

    Returns
    -------
    Blow
        Scalars if every argument is one, otherwise arrays of the broadcast shape.

    Raises
    ------
    DomainError
        If an inertia, the stiffness, the rise or the peak torque is not above 0, if lash or damping
        ratio is negative, or if start_torque is not below peak_torque, anywhere; if a magnitude (zero
        and the infinities above apart) lies outside 1e-30 to 1e30; with a slip element
        if Ja is not between 0 and J2 or if it does not hold start_torque; in two stages if T1 is not
        above 0 and start_torque and at most peak_torque, or t1 is negative.
    NoSolutionError
        If a case with next to no damping hammers thousands of times before the ramp ends.

    Notes
    -----
    Every stretch between two switching events is linear and solved in closed form; the events are
    roots of these closed forms, each in a bracket in which the function is monotone. There is no
    time step. The driven side is not loaded from outside. A damped contact opens where its torque
    falls to 0; its twist then relaxes without torque.

    With damping a case is followed until its contact is certain to stay closed. Without damping
    hammering under constant torque repeats for ever: the peak is then that of the first blows, and
    contact_losses counts to 12 natural periods after the ramp and at least 3 blows. Slightly damped
    hammering is counted up to 300 blows after the ramp. In both cases ``settled`` is False.

    A slip element has three more modes, each linear too: while it slides, Ja alone swings against
    J1 under the constant friction torque. It lets go where the path torque reaches Ts J2/Jb, with
    Jb = J2 - Ja, and grips again where the speeds of Ja and Jb meet. It bounds the steady torque and
    hardly the blow: Ja still has to be stopped. Sliding that slows down next to not at all is cut
    off after some hundred swings.

    A damping ratio within 1e-9 of 1 is taken as 1 - 1e-9. Batches are followed in chunks, so memory
    is bounded; a dozen cases or fewer are followed one by one, which is quicker and may differ from the
    same cases in a batch in the last bits. NaN in any argument gives NaN in the same place (0 contact
    losses, not settled).

    References
    ----------
    .. [1] Two-inertia torsional model with one lash; closed form and independent integration of the
       equations of motion. Mark: derived.

    Examples
    --------
    A 240 N m motor (0.05 kg m^2) on a vehicle (1.2 kg m^2 at this shaft) takes up 0.02 rad of lash
    while the torque rises by 4000 N m/s; independent integration gives 289.33 N m:

    >>> blow = peak(torque_rise=4000.0, peak_torque=240.0, driving_inertia=0.05, driven_inertia=1.2,
    ...             stiffness=12000.0, damping_ratio=0.03, lash=0.02)
    >>> print(f"{blow.peak_torque:.2f} N m, contact lost {blow.contact_losses} time(s)")
    289.33 N m, contact lost 1 time(s)
    """
    arguments: dict[str, Numeric | None] = {
        "torque_rise": torque_rise,
        "peak_torque": peak_torque,
        "driving_inertia": driving_inertia,
        "driven_inertia": driven_inertia,
        "stiffness": stiffness,
        "damping_ratio": damping_ratio,
        "lash": lash,
        "start_torque": start_torque,
        "slip_torque": slip_torque,
        "inertia_before_slip": inertia_before_slip,
        "closing_torque": closing_torque,
        "closing_time": closing_time,
    }
    if is_large(arguments):
        return _large_batch(arguments)
    return _one_by_one(arguments) if is_handful(arguments) else _solved(arguments)


def _solved(arguments: dict[str, Any]) -> Blow:
    """Solve one case, or a batch in one go."""
    path = path_of(**arguments)
    values = _blow(path, record_of(path))
    if path.shape is None:
        values["contact_losses"] = int(values["contact_losses"])
        return Blow(**values)
    values["contact_losses"] = values["contact_losses"].astype(np.int64)
    return Blow(**{name: array.reshape(path.shape) for name, array in values.items()})


def _one_by_one(arguments: dict[str, Numeric | None]) -> Blow:
    """Solve a handful of cases, each on its own."""
    shape, cases = single_cases(arguments)
    blows = [_solved(case) for case in cases]
    return Blow(
        **{
            field.name: np.array([getattr(blow, field.name) for blow in blows]).reshape(shape)
            for field in fields(Blow)
        }
    )


def _large_batch(arguments: dict[str, Numeric | None]) -> Blow:
    """Solve a batch part by part; only the results are held for all of it."""
    shape, parts = parts_of(arguments)
    whole: dict[str, Any] = {}
    done = 0
    for part in parts:
        blow = _solved(part)
        count = np.size(blow.peak_torque)
        for field in fields(Blow):
            values = np.asarray(getattr(blow, field.name))
            if field.name not in whole:
                whole[field.name] = np.empty(int(np.prod(shape)), dtype=values.dtype)
            whole[field.name][done : done + count] = values
        done += count
    return Blow(**{name: values.reshape(shape) for name, values in whole.items()})
