"""Paths with a slip element or a torque that rises in two stages: what is followed, and where it stands.

A slip element (a wheel on the ground, a clutch) parts the driven side into Ja before it and Jb behind
it, and holds them together with a friction torque of at most Ts. The sign ``sliding`` says how it is
at the moment: 0 sticking, 1 Ja faster than Jb, -1 slower. Everything stays linear in between: ::

    sticking   mu x'' + y = s T                     s  = J2/(J1 + J2)   mu  = s J1
    sliding    mu' x'' + y = s' T +- (1 - s') Ts    s' = Ja/(J1 + Ja)   mu' = s' J1

    speed across the element  r' = (y -+ Ys)/Ja     Ys = Ts J2/Jb, the path torque at which it lets go

with the same torque y = k x + c x' in the path. Units are those of ``states``; while it slides the
closed forms of a segment work in the time unit sqrt(mu'/k), shorter by ``quicker``, so that the same
forms serve both. What is stored between segments is always in the units of the sticking path.
"""

from typing import NamedTuple

from torqcheck.shock.arithmetic import Arithmetic, Number
from torqcheck.shock.states import COAST, DRIVE, ENDLESS, GAP, LIVE, NEVER

__all__ = ["Course", "Here", "Standing", "first_standing", "here", "motor", "next_stage", "stage_end"]

LAST_STAGE = 3.0


class Course(NamedTuple):
    """What stays the same in one case."""

    zeta: Number  # of the sticking path; the next three belong to it too
    omega: Number
    lag: Number
    sliding_zeta: Number  # of the path that ends at the slip element
    sliding_omega: Number
    sliding_lag: Number
    lash: Number
    locked: Number
    slope: Number  # 0 if the torque is there at once
    start: Number  # motor torque before the rise, at rest between the stages, over Tm
    rest: Number
    first_end: Number  # ends of the first rise, the rest, the second rise
    rest_end: Number
    rise_end: Number
    grip: Number  # path torque at which the element lets go; endless without one
    quicker: Number  # sqrt(mu/mu')
    share: Number  # s'/s
    push: Number  # (1 - s') Ts
    drift: Number  # mu/Ja


class Standing(NamedTuple):
    """Where one case stands, and what has been recorded of it."""

    mode: Number
    sliding: Number
    stage: Number  # of the motor torque: 0 first rise, 1 rest, 2 second rise, 3 plateau
    time: Number
    place: Number  # in contact the twist on that flank; in the gap the twist from the coast flank
    speed: Number  # its rate
    across: Number  # speed across the slip element, unsigned
    quiet: Number  # segments on the plateau since anything happened
    peak: Number
    peak_at: Number
    least: Number
    closed_at: Number
    closing_speed: Number
    closing_energy: Number
    first_blow: Number
    slipped_at: Number
    losses: Number
    blows: Number  # losses of contact since the plateau began
    grips: Number  # and how often the element has gripped again
    end: Number


class Here(NamedTuple):
    """The regime of the moment (sticking or sliding) with the load that the motor gives, not signed."""

    zeta: Number
    omega: Number
    lag: Number
    quicker: Number
    drift: Number
    load: Number
    slope: Number
    length: Number  # of the stage that is left


def motor(use: Arithmetic, course: Course, stage: Number, time: Number) -> tuple[Number, Number]:
    """Motor torque over its peak, and its slope."""
    first, second, rises = stage == 0.0, stage == LAST_STAGE - 1.0, course.slope + 0.0 * time
    torque = use.where(first, course.start + rises * time, course.rest)
    torque = use.where(second, course.rest + rises * (time - course.rest_end), torque)
    torque = use.where(stage == LAST_STAGE, 1.0, torque)
    return torque, use.where(first | second, rises, 0.0)


def stage_end(use: Arithmetic, course: Course, stage: Number) -> Number:
    """When a stage of the motor torque ends."""
    end = use.where(stage == 0.0, course.first_end, course.rest_end)
    end = use.where(stage == LAST_STAGE - 1.0, course.rise_end, end)
    return use.where(stage == LAST_STAGE, ENDLESS, end)


def next_stage(use: Arithmetic, course: Course, stage: Number, time: Number) -> Number:
    """Skip the stages that are over at this time."""
    for number, end in enumerate((course.first_end, course.rest_end, course.rise_end)):
        stage = use.where((stage == number) & (time >= end), number + 1.0, stage)
    return stage


def here(use: Arithmetic, course: Course, standing: Standing) -> Here:
    """Constants and load of the segment that begins here, in its own unit of time."""
    torque, slope = motor(use, course, standing.stage, standing.time)
    end = stage_end(use, course, standing.stage)
    slides = standing.sliding != 0.0
    quicker = use.where(slides, course.quicker, 1.0)
    share = use.where(slides, course.share, 1.0)
    return Here(
        zeta=use.where(slides, course.sliding_zeta, course.zeta),
        omega=use.where(slides, course.sliding_omega, course.omega),
        lag=use.where(slides, course.sliding_lag, course.lag),
        quicker=quicker,
        drift=course.drift / quicker,
        load=share * torque + standing.sliding * course.push,
        slope=share * slope / quicker,
        length=use.maximum(end - standing.time, 0.0) * quicker,
    )


def first_standing(use: Arithmetic, course: Course) -> Standing:
    """Settled on the coast flank, lying on it without load, or (if locked) settled where it is."""
    locked, loaded = course.locked > 0.5, course.start < 0.0
    nothing = 0.0 * course.start
    return Standing(
        mode=use.where(locked, DRIVE, use.where(loaded, COAST, GAP)),
        sliding=nothing,
        stage=next_stage(use, course, nothing, nothing),
        time=nothing,
        place=use.where(locked, course.start, use.where(loaded, -course.start, 0.0)),
        speed=nothing,
        across=nothing,
        quiet=nothing,
        peak=use.where(locked, use.maximum(course.start, 0.0), 0.0),
        peak_at=nothing,
        least=use.minimum(course.start, 0.0),
        closed_at=NEVER + nothing,
        closing_speed=nothing,
        closing_energy=nothing,
        first_blow=NEVER + nothing,
        slipped_at=NEVER + nothing,
        losses=nothing,
        blows=nothing,
        grips=nothing,
        end=LIVE + nothing,
    )
