"""One step of a path with a slip element or a torque in two stages, to the next event."""

from torqcheck.shock.arithmetic import SMALLEST, Arithmetic, Number, Truth
from torqcheck.shock.course import LAST_STAGE, Course, Here, Standing, here, next_stage, stage_end
from torqcheck.shock.flight import flight
from torqcheck.shock.pieces import GOES_ON, GRIPS, LETS_GO, OPENS, Pressed, follow_contact
from torqcheck.shock.segments import FEWEST_BLOWS, HORIZON, LATER, MOST_BLOWS, NO_TORQUE
from torqcheck.shock.states import CUT, DRIVE, ENDLESS, GAP, LIVE, SETTLED, Case, Stretch

__all__ = ["cross_gap", "hold_contact", "pressed"]

FEWEST_GRIPS = 12.0
"""Without damping sliding and gripping in turn die down ever more slowly: followed for so many turns."""
MOST_QUIET = 600.0
"""Segments on the plateau without an event after which sliding that hardly slows down is cut off."""


def pressed(use: Arithmetic, course: Course, standing: Standing, now: Here) -> tuple[Here, Pressed]:
    """Sign load and state of a contact towards its flank, in the unit of time of the segment."""
    side = standing.mode
    now = now._replace(load=side * now.load, slope=side * now.slope)
    speed = standing.speed / now.quicker
    torque = standing.place + 2.0 * now.zeta * speed
    torque = use.where(course.locked > 0.5, torque, use.maximum(torque, 0.0))
    return now, Pressed(
        torque=torque,
        rate=speed + 2.0 * now.zeta * (now.load - torque),
        speed=speed,
        across=standing.across,
        sliding=side * standing.sliding,
        locked=course.locked,
        grip=course.grip,
    )


def hold_contact(use: Arithmetic, course: Course, standing: Standing, creeping: bool) -> Standing:
    """Step through a contact, on either flank."""
    now, start = pressed(use, course, standing, here(use, course, standing))
    found = follow_contact(use, now, start, creeping)
    side, driving = standing.mode, standing.mode > 0.0
    opens, nothing_new = found.event == OPENS, found.event == GOES_ON
    ended = nothing_new & (found.duration >= now.length)
    time = use.where(
        ended, stage_end(use, course, standing.stage), standing.time + found.duration / now.quicker
    )

    speed = found.rate - 2.0 * now.zeta * (now.load + now.slope * found.duration - found.torque)
    speed = use.where(opens, use.minimum(speed, 0.0), speed)
    twist = use.where(opens, 0.0, found.torque) - 2.0 * now.zeta * speed
    twist = use.where(opens, use.where(driving, course.lash + twist, -twist), twist)
    speed = now.quicker * use.where(opens, side * speed, speed)

    after = _recorded(use, standing, found.highest, found.lowest, found.highest_at / now.quicker)
    seen = driving & (standing.first_blow < 0.0) & found.crested & (standing.closed_at >= 0.0)
    lost = use.where(opens & driving, 1.0, 0.0)
    plateau = standing.stage == LAST_STAGE
    after = after._replace(
        mode=use.where(opens, GAP, side),
        stage=next_stage(use, course, standing.stage, time),
        time=time,
        place=twist,
        speed=speed,
        first_blow=use.where(seen, found.crest, after.first_blow),
        losses=standing.losses + lost,
        blows=standing.blows + use.where(plateau, lost, 0.0),
        grips=standing.grips + use.where(plateau & (found.event == GRIPS), 1.0, 0.0),
        quiet=use.where(plateau & nothing_new, standing.quiet + 1.0, 0.0),
    )
    across = use.where(nothing_new | opens, use.maximum(found.across, 0.0), 0.0)
    across = use.where(standing.sliding == 0.0, 0.0, across)
    lets_go = found.event == LETS_GO
    grips = found.event == GRIPS
    after = _element(use, course, after, found.torque, across, lets_go, grips)
    return after._replace(end=_end(use, course, after, plateau, now, start, found.duration))


def _recorded(
    use: Arithmetic, standing: Standing, highest: Number, lowest: Number, highest_at: Number
) -> Standing:
    """Note the largest torque on the drive flank and the least on the coast flank."""
    driving = standing.mode > 0.0
    higher = driving & (highest > LATER * standing.peak)
    least = use.where(driving, use.minimum(lowest, 0.0), -highest)
    return standing._replace(
        peak=use.where(higher, highest, standing.peak),
        peak_at=use.where(higher, standing.time + highest_at, standing.peak_at),
        least=use.minimum(standing.least, use.where(driving & (least > -NO_TORQUE), 0.0, least)),
    )


def _element(
    use: Arithmetic,
    course: Course,
    after: Standing,
    torque: Number,
    across: Number,
    lets_go: Truth,
    grips: Truth,
) -> Standing:
    """Let the slip element go or grip: the torque of the contact (nought in the gap) decides which."""
    pressing = use.where(after.mode == GAP, 0.0, after.mode * torque)
    free = lets_go | grips | (after.sliding == 0.0)
    beyond = (abs(pressing) >= course.grip) | lets_go
    begins = use.where(beyond, use.where(pressing > 0.0, 1.0, -1.0), 0.0)
    sliding = use.where(free, begins, after.sliding)
    first = (sliding != 0.0) & (after.slipped_at < 0.0)
    return after._replace(
        sliding=sliding,
        across=use.where(free, 0.0, across),
        slipped_at=use.where(first, after.time, after.slipped_at),
    )


def _end(
    use: Arithmetic,
    course: Course,
    after: Standing,
    plateau: Truth,
    now: Here,
    start: Pressed,
    duration: Number,
) -> Number:
    """Say whether anything can still happen after a contact segment."""
    sticks = (start.sliding == 0.0) & (after.quiet >= 1.0)
    # sliding on for good: the load holds the torque above the grip, and a whole swing has passed
    runs_on = (start.sliding * now.load >= start.grip) & (after.quiet >= 3.0)
    settled = plateau & (sticks | ((start.sliding != 0.0) & runs_on) | (duration >= ENDLESS))
    undamped = (course.zeta == 0.0) & (after.time > course.rise_end + HORIZON)
    many = (after.blows >= FEWEST_BLOWS) | (after.grips >= FEWEST_GRIPS)
    cut = plateau & ((undamped & many) | (after.blows >= MOST_BLOWS) | (after.grips >= MOST_BLOWS))
    return use.where(settled, SETTLED, use.where(cut | (after.quiet > MOST_QUIET), CUT, LIVE))


def cross_gap(use: Arithmetic, course: Course, standing: Standing) -> Standing:
    """Step through the gap, to a flank, to the end of the stage, or until the element grips."""
    now = here(use, course, standing)
    pulled = now.load < -NO_TORQUE
    hand = use.where(pulled, -1.0, 1.0)
    to_turn = use.where(pulled & (now.slope > 0.0), -now.load / use.maximum(now.slope, SMALLEST), ENDLESS)
    slides = standing.sliding != 0.0
    to_grip = use.where(slides, standing.across / (course.grip * now.drift), ENDLESS)
    length = use.minimum(now.length, use.minimum(to_turn, to_grip))

    stretch = Stretch(use.maximum(hand * now.load, 0.0), hand * now.slope, length)
    position = use.where(pulled, -standing.place, standing.place - course.lash)
    case = Case(now.zeta, now.omega, now.lag, course.lash, 0.0, 0.0, 0.0, 0.0)
    speed = hand * standing.speed / now.quicker
    landing = flight(use, case, stretch, position, speed, True)
    hit = landing.ahead | landing.behind
    ended = use.negation(hit) & (now.length <= length)
    grips = use.negation(hit) & use.negation(ended) & slides & (to_grip <= length)
    time = use.where(
        ended, stage_end(use, course, standing.stage), standing.time + landing.duration / now.quicker
    )

    # on the flank that was met, or still in the gap
    inward = use.where(landing.behind, -1.0, 1.0) * landing.speed
    twist = use.where(landing.ahead, landing.position, 0.0)
    place = use.where(pulled, -landing.position, landing.position + course.lash)
    mode = use.where(landing.ahead, hand, use.where(landing.behind, -hand, GAP))
    first = (mode == DRIVE) & (standing.closed_at < 0.0)
    energy = 0.5 * (inward * inward)  # mu' w'^2 is mu w^2: the same in either unit of time
    after = standing._replace(
        mode=mode,
        stage=next_stage(use, course, standing.stage, time),
        time=time,
        place=use.where(hit, twist, place),
        speed=now.quicker * use.where(hit, inward, hand * landing.speed),
        quiet=0.0 * standing.quiet,
        closed_at=use.where(first, time, standing.closed_at),
        closing_speed=use.where(first, now.quicker * inward, standing.closing_speed),
        closing_energy=use.where(first, energy, standing.closing_energy),
    )
    torque = use.maximum(twist + 2.0 * now.zeta * inward, 0.0)
    across = use.maximum(standing.across - course.grip * now.drift * landing.duration, 0.0)
    across = use.where(slides, across, 0.0)
    return _element(use, course, after, torque, across, False, grips)
