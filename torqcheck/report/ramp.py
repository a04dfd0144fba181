"""The answer on the ramp for people."""

import math
from collections.abc import Iterator
from typing import Any

from torqcheck.assessment.ramp.controller import rounded_down, rounded_up
from torqcheck.assessment.ramp.result import Mend, Point, Ramp
from torqcheck.report.build import CAUTION, assumption_lines, file_line, systems_of
from torqcheck.report.numbers import both, significant
from torqcheck.report.ramp_words import SHOWN, answer, said
from torqcheck.report.sheet import Column, Note, Sheet, Table
from torqcheck.units import System, in_unit

__all__ = ["curve_rows", "ramp_sheet"]

ROWS_OF_CURVE = 10
PHASE = (
    "do not rely on it: it hangs on the natural frequency, which nobody knows to 10 percent, and the torque "
    "passes through the slower rises on its way"
)


def ramp_sheet(ramp: Ramp, units: str, plots: tuple[Table, ...] = ()) -> Sheet:
    """
    Arrange the answer: in one sentence, then what else to set, the curve, and everything around it.

    Parameters
    ----------
    ramp : Ramp
        The result.
    units : str
        ``si``, ``inch`` or ``both``; tables show one system, sentences both.
    plots : tuple of Table
        Plots that are already drawn, put behind the table of the curve.
    """
    systems = systems_of(units)
    assumed = assumption_lines(ramp.assumptions, systems)
    parts = [
        Note.of("Why no ramp holds, and what would", _why_not(ramp, systems)),
        Note.of("In two stages", _two_stage(ramp, systems)),
        Note.of("Into regeneration", _regeneration(ramp, systems)),
        _curve(ramp, systems[0]),
        *plots,
        Note.of("How sure", _how_sure(ramp, systems)),
        Note.of("Assumptions", assumed),
        Note.of("Cautions", (caution.text for caution in ramp.cautions)),
    ]
    files = file_line(ramp)
    return Sheet(
        title=f"torqcheck {ramp.version}: torque ramp, {ramp.title}",
        about=(*answer(ramp, systems), "", files),
        verdict=None,
        words=(),
        parts=tuple(part for part in parts if part is not None),
        closing=(CAUTION,),
    )


def curve_rows(ramp: Ramp) -> list[dict[str, Any]]:
    """The curve as plain rows for CSV, SI."""
    return [
        {
            "torque_rise_Nm_s": f"{point.rise:.6g}",
            "rise_time_s": f"{ramp.said(point.rise).rise_time:.6g}",
            "percent_per_10ms": f"{ramp.said(point.rise).percent_per_10ms:.6g}",
            "peak_torque_Nm": f"{point.peak:.6g}",
            "peak_torque_p5_Nm": f"{point.low:.6g}",
            "peak_torque_p50_Nm": f"{point.middle:.6g}",
            "peak_torque_p95_Nm": f"{point.high:.6g}",
            "safety_factor": f"{point.factor:.6g}",
            "safety_factor_p95": f"{point.factor_high:.6g}",
            "target": f"{point.weakest.target:g}",
            "holds": str(point.holds).lower(),
            "setting": _name(ramp, point),
        }
        for point in ramp.curve
        if math.isfinite(point.rise)
    ]


def _name(ramp: Ramp, point: Point) -> str:
    """What the report calls a rise."""
    best = ramp.recommended
    names = [
        *(["recommended"] if best is not None and point.rise == best.rise else []),
        *(["as set now"] if point.rise == ramp.as_set.rise else []),
        *(["slowest"] if point.rise == ramp.slowest.rise else []),
    ]
    return ", ".join(names)


def _curve(ramp: Ramp, system: System) -> Table:
    """Peak torque and weakest check against the rise, slow to fast, with the settings named."""
    unit = in_unit(0.0, "torque", system)[1]
    rise_unit = in_unit(0.0, "torque rise", system)[1]
    unnamed = [point for point in ramp.curve if not _name(ramp, point)]
    step = max(1, len(unnamed) // ROWS_OF_CURVE)
    shown = {id(point) for point in unnamed[::step]}
    rows, seen = [], set()
    for point in ramp.curve:
        name = _name(ramp, point)
        if (name and name not in seen) or id(point) in shown:
            seen.add(name)
            rows.append(_row(ramp, point, name, system))
    weakest = ramp.weakest
    return Table(
        "Peak torque and weakest check against the torque rise",
        (
            Column(rise_unit, "right"),
            Column("0-full ms", "right"),
            Column("%/10 ms", "right"),
            Column(f"peak {unit}", "right"),
            Column("5 to 95 %", "right"),
            Column("factor", "right"),
            Column("at 95", "right"),
            Column("holds"),
            Column("setting"),
        ),
        tuple(rows),
        legend=f"Peak: largest torque at {ramp.joint} with the values as stated, then the 5th to 95th "
        "percentile of the draws. Factor: safety factor of the weakest check that feels the blow, as stated; "
        f"at 95: at the 95th percentile of the torque; target {weakest.target:.3g}. Holds: as stated and in "
        "95 of 100 draws.",
    )


def _row(ramp: Ramp, point: Point, name: str, system: System) -> tuple[str, ...]:
    """One rise, rounded to the slower side as a setting is."""
    said_so = ramp.said(point.rise)
    rise = in_unit(point.rise, "torque rise", system)[0]

    def torque(value: float) -> str:
        return significant(in_unit(value, "torque", system)[0])

    instant = math.isinf(point.rise)
    return (
        "at once" if instant else significant(rounded_down(rise, SHOWN)),
        "0" if instant else significant(1e3 * rounded_up(said_so.rise_time, SHOWN)),
        "-" if instant else significant(rounded_down(said_so.percent_per_10ms), 2),
        torque(point.peak),
        f"{torque(point.low)} to {torque(point.high)}",
        significant(point.factor),
        significant(point.factor_high),
        "yes" if point.holds and point.holds_as_stated else "no",
        name,
    )


def _two_stage(ramp: Ramp, systems: tuple[System, ...]) -> Iterator[str]:
    """Closing torque, rest and slope, and what they bring."""
    found = ramp.two_stage
    if found is None:
        yield f"Brings nothing here: {ramp.two_stage_reason}."
        return
    share = 100.0 * found.closing_torque / ramp.motor_torque
    yield (
        f"Rise to {both(found.closing_torque, 'torque', systems, 2)} ({share:.2g} % of the peak), hold it "
        f"there for {significant(1e3 * found.closing_time, 2)} ms more while the lash closes, then rise on; "
        f"both times at {said(ramp, found.rise, systems)}."
    )
    whole, in_one = (
        significant(1e3 * rounded_up(time, SHOWN)) for time in (found.time_to_peak, found.time_in_one_stage)
    )
    yield (
        f"Full torque after {whole} ms instead of {in_one} ms in one stage, {100.0 * found.saved:.0f} % "
        "sooner, at the same targets in the same share of draws. It holds with a longer rest and with a "
        "slower slope too; do not set a shorter rest or a larger closing torque."
    )


def _regeneration(ramp: Ramp, systems: tuple[System, ...]) -> Iterator[str]:
    """The swing into regeneration, where it has a rise of its own."""
    regen = ramp.regeneration
    if regen is None:
        return
    point = regen.as_set
    now = "the whole torque at once" if math.isinf(point.rise) else both(point.rise, "torque rise", systems)
    factor = f"safety factor {significant(point.factor_high)} against {point.weakest.target:.3g}"
    if regen.holds:
        yield f"regen_rise as set, {now}, holds: {point.weakest.joint}, {point.weakest.check}, {factor}."
    else:
        yield (
            f"CHANGE regen_rise: as set, {now}, the swing from drive into regeneration fails: "
            f"{point.weakest.joint}, {point.weakest.check}, {factor}."
        )
    if regen.largest is None:
        yield (
            "Not even the slowest regen_rise holds: the braking torque itself is too much; set less "
            f"regen_torque than {both(regen.regen_torque, 'torque', systems)}."
        )
    else:
        yield f"Largest regen_rise that holds: {both(regen.largest, 'torque rise', systems)}."


def _how_sure(ramp: Ramp, systems: tuple[System, ...]) -> Iterator[str]:
    """Limits as stated and over the draws, the band, windows, and what the search covered."""
    drive, brake = ramp.allowed
    allowed = f"Allowed peak torque at {ramp.joint}: {both(drive, 'torque', systems)}"
    if abs(brake - drive) > 5e-3 * drive:
        allowed += f" driving, {both(brake, 'torque', systems)} braking"
    yield f"{allowed}; steady torque there {both(ramp.steady, 'torque', systems)}."
    best = ramp.recommended
    if best is not None and not ramp.any_rise:
        stated = ramp.limit_as_stated
        assert stated is not None
        assert ramp.limit is not None
        yield (
            f"With the values as stated every rise up to {_rise(stated, systems)} holds; in "
            f"{100 * ramp.percentile:.0f} of 100 draws of what is uncertain every rise up to "
            f"{_rise(ramp.limit, systems)}. The smaller of both, rounded to what one can set, is recommended."
        )
    for window in ramp.windows:
        to = "any faster one" if math.isinf(window.fast) else _rise(window.fast, systems)
        yield (
            f"As stated, rises from {_rise(window.slow, systems)} to {to} hold as well, by their phase: "
            f"{PHASE}."
        )
    yield (
        f"{ramp.draws} draws of inertia, stiffness, damping and lash (seed {ramp.seed}); where a value is "
        "unknown, the worst of several that are tried."
    )
    if best is not None and not ramp.proven:
        slowest = significant(ramp.said(ramp.slowest.rise).rise_time, 2)
        yield f"Ramps slower than {slowest} s from zero to full torque were not looked at."


def _rise(rise: float, systems: tuple[System, ...]) -> str:
    return "at once" if math.isinf(rise) else both(rise, "torque rise", systems)


def _why_not(ramp: Ramp, systems: tuple[System, ...]) -> Iterator[str]:
    """Checks that fail at the slowest ramp, and each change that was tried."""
    for check in ramp.failing:
        factor = check.safety_factor or math.inf
        yield (
            f"{check.joint}, {check.name} ({check.method}): safety factor {significant(factor)} against "
            f"{check.target:.3g} at the slowest ramp, short by a factor of "
            f"{significant(check.target / factor)}."
        )
    for mend in ramp.mends:
        yield _mend(mend, systems, ramp.weakest.target)


def _mend(mend: Mend, systems: tuple[System, ...], target: float) -> str:
    """One change in words."""

    def shown(value: float) -> str:
        return significant(value) if mend.kind is None else both(value, mend.kind, systems)

    now, value, factor = shown(mend.now), shown(mend.value), significant(mend.factor)
    name = mend.key.split(".")[-1]
    if mend.key == "motor.peak_torque":
        return f"Holds: at most {value} of motor torque instead of {now}, driving and braking (peak_torque)."
    if mend.key == "driven.slip.torque":
        word = "Holds" if mend.helps else "Not enough"
        return f"{word}: a clutch that slips at {value} instead of {now} (safety factor {factor})."
    if mend.key == "targets.safety_factor":
        return f"Holds: a target of {value} instead of {now}, if that is enough for you."
    if mend.kind == "stress":
        return f"Holds: a steel or hardness that allows {value} instead of {now} at {mend.key}."
    if name == "engagement":
        if mend.helps:
            return f"Holds: an engagement of {value} instead of {now} ({mend.key}; safety factor {factor})."
        return f"No way out: an engagement of {value} instead of {now} ({mend.key}) leaves {factor}."
    what = "the lash of new parts" if mend.key == "lash" else f"a {name.replace('_', ' ')}"
    if mend.helps:
        word = "Holds" if mend.factor >= target else "Helps"
        return f"{word}: {what} of {value} instead of {now} raises the safety factor to {factor}."
    return f"No help: {what} of {value} instead of {now}; the safety factor stays at {factor}."
