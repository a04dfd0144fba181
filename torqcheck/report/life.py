"""How long the joints last and when to open them, for people."""

import math
from collections.abc import Iterator
from typing import Any

from torqcheck.assessment.fatigue.result import FatigueResult
from torqcheck.assessment.lifetime.inspection_plan import CHANCE
from torqcheck.assessment.lifetime.life_result import JointLife, Life, LifePoint
from torqcheck.assessment.verdict.beside import percent_beside
from torqcheck.report.build import CAUTION, assumption_lines, file_line, systems_of
from torqcheck.report.guide_hours import guide_hours
from torqcheck.report.numbers import about, both, or_dash, significant
from torqcheck.report.sheet import VERDICT, Column, Note, Sheet, Table
from torqcheck.report.verdict_words import whole_words
from torqcheck.units import System, in_unit

__all__ = ["growth_rows", "growth_table", "life_sheet"]

TWO_MODELS = (
    "The guide's wear-life factor lets turns fall with the 6.6th power of pressure and knows no slip and no "
    "lubricant; the range above follows slip, lubricant and hardness, and falls with the first power of "
    "pressure. Two models, not blended: where they differ widely, believe the inspection."
)
RUNNING = "Hours are running hours from where the lash in the scenario was read."
LEAST_DAMAGE = 1e-3
RANKING_ONLY = 1.5
"""Spread of the logarithm above which a life serves to rank choices, not to plan."""
NO_LAW = (
    "Open it after 10, 50 and 200 h all the same and look for red-brown dust, play and cracks [common "
    "practice, no source]."
)

OPENED = (
    "Worn at opposite ends of shaft and hub: the axes are out of line. Worn on one arc only: the hub runs "
    "out. On both flanks alike: the torque reverses. A step where the hub ends: the overlap is short.",
    "Dry, or the grease flung out: find out why it left, then seal or renew it. Red-brown dust: the flanks "
    "fret.",
    "Go over mounts and the bolts of housing and adapter as well: what is loose there puts the axes out of "
    "line.",
    "A buzz, knock or wobble once in each turn is the coupler's own: stop, and read its run-out before it "
    "runs again.",
)


def life_sheet(life: Life, units: str, plots: tuple[Table, ...] = ()) -> Sheet:
    """
    Arrange the lives: joint by joint the answer in sentences, then growth, limits and all around it.

    Parameters
    ----------
    life : Life
        The result.
    units : str
        ``si``, ``inch`` or ``both``; tables show one system, sentences both.
    plots : tuple of Table
        Plots that are already drawn, put behind the tables of growth.
    """
    systems = systems_of(units)
    whole = [whole_words(life.whole)] if life.whole.worse_than(life.verdict) else []
    parts: list[Table | Note | None] = []
    for joint in life.joints:
        parts.append(Note(joint.name, tuple(_answer(life, joint, systems))))
        parts.append(growth_table(life, joint, systems[0]))
    parts += [Note.of(other.name, _fatigue(life, other.fatigue)) for other in life.others]
    parts += plots
    for joint in life.joints:
        parts.append(_limits(joint))
    parts += [
        Note.of("What an open joint tells, common practice, no source", OPENED if life.joints else ()),
        Note("How sure", tuple(_how_sure(life))),
        Note.of("Assumptions", assumption_lines(life.assumptions, systems)),
        Note.of("Cautions", (caution.text for caution in life.cautions)),
    ]
    return Sheet(
        title=f"torqcheck {life.version}: wear life, {life.title}",
        about=(file_line(life),),
        verdict=life.verdict,
        verdict_title=f"{VERDICT} of the life",
        words=(*whole, *_words(life)),
        parts=tuple(part for part in parts if part is not None),
        closing=(CAUTION,),
    )


def growth_rows(life: Life) -> list[dict[str, Any]]:
    """Growth of every joint as plain rows for CSV."""
    return [
        {
            "joint": joint.name,
            "hours": f"{point.hours:.6g}",
            **{
                f"lash_{name}_mm": "" if value is None else f"{1e3 * value:.6g}"
                for name, value in zip(("p10", "p50", "p90"), point.lash, strict=True)
            },
            "blow_Nm": f"{point.blow:.6g}",
            "safety_factor": "" if point.safety_factor is None else f"{point.safety_factor:.6g}",
            "check": point.check,
            "fatigue_damage": "" if point.damage is None else f"{point.damage:.6g}",
        }
        for joint in life.joints
        for point in joint.growth
    ]


def _words(life: Life) -> Iterator[str]:
    """One line for each joint under the verdict, and what is missing."""
    for joint in life.joints:
        if joint.mate.verdict in {"false fit", "worn mate"}:
            yield f"{joint.name}: {joint.mate.verdict.upper()}. {joint.mate.reasons[0]}"
    for joint in life.joints:
        if joint.life is None:
            yield f"{joint.name}: no wear life stated; {joint.reason}."
        elif joint.plan is None:
            yield f"{joint.name}: may be worn out at once; no inspection interval is short enough."
        else:
            yield (
                f"{joint.name}: worn out after about {_time(joint.life[1], life)} (median), open it again "
                f"at {_time(joint.plan.next_at, life)}."
            )
    for other in life.others:
        if other.fatigue.verdict in {"marginal", "fail"}:
            doubt = "too short" if other.fatigue.verdict == "fail" else "in doubt"
            yield f"{other.name}: its fatigue life is {doubt}."
    if life.undecided_by:
        yield "Readings to take:"
        for entry in life.undecided_by:
            yield f"  {entry.joint}: {entry.reading}; {entry.how}."


def _time(hours: float, life: Life) -> str:
    """Running hours, and years where the use in a year is stated."""
    if life.hours_per_year is None:
        return f"{about(hours)} h"
    return f"{about(hours)} h ({about(hours / life.hours_per_year)} years)"


def _answer(life: Life, joint: JointLife, systems: tuple[System, ...]) -> Iterator[str]:
    """What to know and to do about one joint."""
    if joint.life is None:
        yield f"No wear life is stated: {joint.reason}."
        yield NO_LAW
        yield from _fatigue(life, joint.fatigue)
        yield from _guide(joint)
        return
    p10, p50, p90 = joint.life
    reach = percent_beside(joint.share_reaching or 0.0, life.reliability)
    yield (
        f"One in ten is worn out after about {_time(p10, life)}, half after {_time(p50, life)}, nine in ten "
        f"after {_time(p90, life)}; {reach} % reach the service life of "
        f"{about(life.service_life / 3600.0)} h ({100.0 * life.reliability:.0f} % wanted). What ends it most "
        f"often: {joint.limit}."
    )
    if joint.plain_median is not None:
        yield (
            f"What if blows wear: these hours take it that the blows of the opened play raise the wear by "
            f"{100.0 * life.blow_wear:.0f} % by the time the lash is at its limit; without, the median is "
            f"{_time(joint.plain_median, life)}. Nothing is published on it."
        )
    yield from _readings(life, joint, systems)
    yield from _plan(life, joint, systems)
    yield from _fatigue(life, joint.fatigue, grows=True)
    yield from _guide(joint)


def _fatigue(life: Life, found: FatigueResult, *, grows: bool = False) -> Iterator[str]:
    """Fatigue as the joint is; with growing blows that of a spline stands among its limits."""
    if found.governing is None or found.governing.damage_per_hour is None:
        if found.reason:
            yield f"Torsional fatigue: no life stated; {found.reason}."
        return
    span, damage = found.life_range, found.service_damage or 0.0
    word = "damage below 0.001" if damage < LEAST_DAMAGE else f"damage {significant(damage, 2)}"
    life_text = "no end in sight"
    if span is not None:
        ends = f"{about(span[0] / 3600)} to {about(span[1] / 3600)} h"
        life_text = f"{ends} (the estimate divided and multiplied by 3)"
    grown = " As the blows grow it counts among the limits below." if grows else ""
    yield (
        f"Torsional fatigue with the play as it is now: {life_text}; "
        f"{word} over {about(life.service_life / 3600.0)} h, up to 0.3 passes.{grown}"
    )


def _readings(life: Life, joint: JointLife, systems: tuple[System, ...]) -> Iterator[str]:
    """Later readings beside what was expected, and what they did to the estimate."""
    for seen in joint.readings:
        low, middle, high = (both(value, "length", systems[:1], 2) for value in seen.expected)
        yield (
            f"Read at {_time(seen.hours, life)}: {both(seen.clearance, 'length', systems)}; expected before "
            f"any reading {middle} ({low} to {high} in eight of ten)."
        )
    if joint.readings and joint.rate_over_median is not None:
        low, middle, high = (significant(value, 2) for value in joint.rate_over_median)
        yield f"By these readings it wears {middle} times as fast as estimated ({low} to {high})."


def _plan(life: Life, joint: JointLife, systems: tuple[System, ...]) -> Iterator[str]:
    """When to open it, what to measure, and when to stop."""
    plan = joint.plan
    if plan is None:
        yield (
            "No inspection interval keeps the chance of passing a limit small: do not run it like this. "
            "Better alignment, a supported nose, lubrication or a harder pair first."
        )
        return
    limited = plan.interval >= life.service_life / 3600.0 * (1.0 - 1e-9)
    because = " (the service life)" if limited else ""
    yield (
        f"Open it every {_time(plan.interval, life)}{because}, next at {_time(plan.next_at, life)}: then at "
        f"most {100.0 * plan.chance:.1g} in 100 pass a limit between two inspections "
        f"({100.0 * CHANCE:.0f} allowed)."
    )
    travel = ""
    if joint.stop_travel is not None:
        moved, radius = (both(value, "length", systems) for value in joint.stop_travel)
        travel = f", that is {moved} of dial travel at a radius of {radius}"
    yield (
        "Measure the lash as before, with the same arm and dial; the worn step at the pitch line; look for "
        "red-brown dust, and at the tooth roots for cracks. Wipe marking compound off. Write the reading "
        "into [[inspection]]: the next estimate is narrower."
    )
    stop, limit = (both(value, "length", systems) for value in (plan.stop_reading, joint.lash_limit))
    lower = f"; the limit is {limit}, but from there it may be passed before the joint is opened again"
    yield f"STOP using it at a lash of {stop} along the pitch circle{travel}{lower if stop != limit else ''}."


def _guide(joint: JointLife) -> Iterator[str]:
    if joint.guide_hours is not None:
        yield f"By the guide: {guide_hours(joint.guide_revolutions, joint.guide_hours)} h. {TWO_MODELS}"


def growth_table(life: Life, joint: JointLife, system: System) -> Table | None:
    """Lash, blow and strength against the hours."""
    if not joint.growth:
        return None
    length, unit = in_unit(1.0, "length", system)
    torque, torque_unit = in_unit(1.0, "torque", system)

    def shown(value: float | None) -> str:
        return "beyond" if value is None else significant(length * value)

    damaged = any(point.damage is not None and point.damage >= LEAST_DAMAGE for point in joint.growth)

    def row(point: LifePoint) -> tuple[str, ...]:
        damage = (significant(point.damage or 0.0, 2),) if damaged else ()
        years = () if life.hours_per_year is None else (about(point.hours / life.hours_per_year),)
        over = point.lash[1] is None or point.lash[1] >= joint.lash_limit
        return (
            f"{point.hours:g}",
            *years,
            *(shown(value) for value in point.lash),
            significant(torque * point.blow),
            or_dash(point.safety_factor),
            *damage,
            "worn out" if over else "",
        )

    years = () if life.hours_per_year is None else (Column("years", "right"),)
    followed = next((p.check for p in joint.growth if p.check), "")
    legend = (
        f"Lash along the pitch circle, limit {significant(length * joint.lash_limit)} {unit}; "
        "p10, p50, p90: one, five and nine joints in ten have less. Blow: peak torque with the median lash "
        "of every joint. Factor: lowest safety factor of the checks that wear or the blow bring down "
        f"({followed or 'none'}); flank pressure is left out, for the guide's limit of it is a wear life by "
        "another model. Beyond: more than was followed."
        + (" Damage: torsional fatigue, a crack is expected at 1." if damaged else "")
    )
    return Table(
        f"{joint.name} over time",
        (
            Column("hours", "right"),
            *years,
            *(Column(f"{name} {unit}", "right") for name in ("p10", "p50", "p90")),
            Column(f"blow {torque_unit}", "right"),
            Column("factor", "right"),
            *((Column("damage", "right"),) if damaged else ()),
            Column("median"),
        ),
        tuple(row(point) for point in joint.growth),
        legend=legend,
    )


def _limits(joint: JointLife) -> Table | None:
    """What each limit would allow on its own."""
    shown = [limit for limit in joint.limits if limit.share > 0.0]
    if not shown:
        return None

    def hours(value: float | None) -> str:
        return "not reached" if value is None else about(value)

    return Table(
        f"What ends the life of {joint.name}",
        (
            Column("Limit"),
            Column("ends", "right"),
            Column("p10 h", "right"),
            Column("p50 h", "right"),
            Column("p90 h", "right"),
        ),
        tuple(
            (limit.name, f"{100.0 * limit.share:.0f} %", *(hours(value) for value in limit.hours))
            for limit in shown
        ),
        legend="Ends: share of the estimates in which it comes first; hours as if it were the only limit.",
    )


def _how_sure(life: Life) -> Iterator[str]:
    yield (
        f"{life.draws} evenly spread draws, seed {life.seed}; the percentiles repeat within about 1 % with "
        "another seed. The range holds what was drawn: wear coefficient, slip, load, grease, limits. It does "
        "not hold what the wear law leaves out."
    )
    rough = [joint.name for joint in life.joints if joint.sigma is not None and joint.sigma > RANKING_ONLY]
    if rough:
        yield f"Rough, to rank choices and not to plan: {', '.join(rough)}."
    if any(joint.life is not None for joint in life.joints):
        yield RUNNING
    if any(math.isfinite(joint.now) and joint.now > 0.0 for joint in life.joints):
        yield "After a reading the hours are those of joints that agree with it and still run."
