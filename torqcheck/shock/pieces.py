"""A closed contact followed through stretches in which its torque is monotone.

Between two neighbouring extremes of the torque every level is crossed at most once, and the speed
across the slip element turns at most once, where the torque passes the grip. So each event (the
flanks part, the element lets go, the element grips again) is isolated before it is searched.
"""

from typing import NamedTuple

from torqcheck.shock import creep, swing
from torqcheck.shock.arithmetic import ARRAYS, FLOATS, Arithmetic, Number, Truth
from torqcheck.shock.course import Here
from torqcheck.shock.states import Case, Stretch

__all__ = ["GOES_ON", "GRIPS", "LETS_GO", "OPENS", "Followed", "Pressed", "along", "follow_contact"]

GOES_ON, OPENS, LETS_GO, GRIPS = 0.0, 1.0, 2.0, 3.0
"""How a contact segment ends."""
SHARP = 1e-9
"""Newton's last step towards an event."""
DEAD = 1e-14
"""A swing of less than this share of the load is no swing."""
STILL = 1e-12
"""The speed across the element must fall below nought by more than rounding before it grips."""


class Pressed(NamedTuple):
    """The contact at its start, signed towards its flank."""

    torque: Number
    rate: Number
    speed: Number
    across: Number
    sliding: Number
    locked: Number
    grip: Number


class Followed(NamedTuple):
    """How far it was followed, what ended it, and what the torque did on the way."""

    duration: Number
    event: Number
    torque: Number
    rate: Number
    across: Number
    highest: Number
    highest_at: Number
    lowest: Number
    crest: Number  # first maximum in the segment, and whether there is one
    crested: Truth


class _Motion(NamedTuple):
    """Closed form of one segment: coefficients for either damping, and what the events need."""

    creeping: bool
    coefficients: tuple[Number, ...]
    here: Here
    start: Pressed


def _torque_at(use: Arithmetic, motion: _Motion, time: Number) -> tuple[Number, Number]:
    """Torque and its rate."""
    if motion.creeping:
        torque, rate, _ = creep.torque_at(use, creep.Creep(*motion.coefficients), time)
    else:
        torque, rate, _ = swing.torque_at(use, swing.Swing(*motion.coefficients), time)
    return torque, rate


def _across_at(use: Arithmetic, motion: _Motion, time: Number) -> tuple[Number, Number]:
    """Speed across the slip element (its sign: that of sliding) and its rate."""
    here, start = motion.here, motion.start
    torque, rate = _torque_at(use, motion, time)
    load = here.load + here.slope * time
    speed = rate - 2.0 * here.zeta * (load - torque)
    # the torque's integral follows from the equation of motion: load less the growth of speed
    impulse = time * (here.load + 0.5 * here.slope * time) - (speed - start.speed)
    gained = start.sliding * impulse - start.grip * time
    return start.across + here.drift * gained, here.drift * (start.sliding * torque - start.grip)


def _columns(motion: _Motion) -> tuple[Number, ...]:
    return (*motion.coefficients, *motion.here, *motion.start)


def _from_columns(motion: _Motion, columns: tuple[Number, ...]) -> _Motion:
    """Rebuild the closed form from picked columns."""
    first, second = len(motion.coefficients), len(motion.coefficients) + len(motion.here)
    return _Motion(motion.creeping, columns[:first], Here(*columns[first:second]), Pressed(*columns[second:]))


def _passage(
    use: Arithmetic, motion: _Motion, wanted: Truth, level: Number, ends: tuple[Number, Number]
) -> Number:
    """Time at which the torque passes a level that lies between its values at both ends, if wanted."""

    def solve(low: Number, high: Number, level: Number, *columns: Number) -> tuple[Number, ...]:
        part = _from_columns(motion, columns)
        before, after = _torque_at(use, part, low)[0], _torque_at(use, part, high)[0]
        sign = use.where(after < before, 1.0, -1.0)

        def falling(time: Number) -> tuple[Number, Number]:
            torque, rate = _torque_at(use, part, time)
            return sign * (torque - level), sign * rate

        share = (before - level) / use.where(before == after, 1.0, before - after)
        return (use.root(falling, low, high, low + share * (high - low), SHARP),)

    low, high = ends
    (time,) = use.only(wanted, solve, (high,), low, high, level + 0.0 * low, *_columns(motion))
    return time


def _standstill(use: Arithmetic, motion: _Motion, low: Number, high: Number, there: Number) -> Number:
    """Time at which the speed across the element is used up, between two times; after both if it is not."""

    def solve(low: Number, high: Number, there: Number, *columns: Number) -> tuple[Number, ...]:
        part = _from_columns(motion, columns)

        def falling(time: Number) -> tuple[Number, Number]:
            return _across_at(use, part, time)

        begin = use.maximum(_across_at(use, part, low)[0], 0.0)
        guess = low + (high - low) * begin / use.maximum(begin - there, STILL)
        return (use.root(falling, low, high, guess, SHARP),)

    (time,) = use.only(there < 0.0, solve, (high,), low, high, there, *_columns(motion))
    return time


def _first_event(
    use: Arithmetic, motion: _Motion, ends: tuple[Number, Number], torques: tuple[Number, Number]
) -> tuple[Number, Number]:
    """Time and kind of the first event in one monotone stretch; its end if there is none."""
    start, (low, high), (before, after) = motion.start, ends, torques
    slides = start.sliding != 0.0
    opens = (start.locked < 0.5) & (after < 0.0)
    lets_go = use.negation(slides) & use.negation(opens) & (abs(after) > start.grip)
    level = use.where(lets_go, use.where(after > 0.0, start.grip, -start.grip), 0.0)
    at = _passage(use, motion, opens | lets_go, level, ends)
    event = use.where(opens, OPENS, use.where(lets_go, LETS_GO, GOES_ON))

    # the element slows down while the torque is below the grip
    excess = start.sliding * before - start.grip, start.sliding * after - start.grip
    turns = slides & (excess[0] * excess[1] < 0.0)
    turn = _passage(use, motion, turns, start.sliding * start.grip, ends)
    from_time = use.where(turns & (excess[0] >= 0.0), turn, low)
    to_time = use.where(turns & (excess[1] >= 0.0), turn, high)
    slows = slides & ((excess[0] < 0.0) | (excess[1] < 0.0))
    left, _ = _across_at(use, motion, to_time)
    grips = slows & (left < -STILL)
    stops = _standstill(use, motion, from_time, to_time, use.where(grips, left, 0.0))
    sooner = grips & (stops < at)
    return use.where(sooner, stops, at), use.where(sooner, GRIPS, event)


def _case(here: Here) -> Case:
    """What the closed forms ask for: the damping; the rest of a case is not theirs."""
    return Case(here.zeta, here.omega, here.lag, 0.0, 0.0, 0.0, 0.0, 0.0)


def _swinging(
    use: Arithmetic, here: Here, start: Pressed
) -> tuple[tuple[Number, ...], Number, Number, Number, Truth]:
    """Coefficients below critical damping; first two extremes in order, first maximum and whether it is."""
    motion = swing.swing(
        use, _case(here), Stretch(here.load, here.slope, here.length), start.torque, start.rate
    )
    alive = motion.amplitude > DEAD * (1.0 + abs(here.load))
    motion = motion._replace(amplitude=use.where(alive, motion.amplitude, 0.0))
    high_at, high = swing.first_maximum(use, motion, start.rate, True)
    low_at, low = swing.first_minimum(use, motion, start.rate, True)
    high, low = high & alive, low & alive
    high_at = use.where(high, high_at, here.length)
    low_at = use.where(low, low_at, here.length)
    return tuple(motion), use.minimum(high_at, low_at), use.maximum(high_at, low_at), high_at, high


def _creeping(
    use: Arithmetic, here: Here, start: Pressed
) -> tuple[tuple[Number, ...], Number, Number, Number, Truth]:
    """Return the same above critical damping."""
    motion = creep.creep(
        use, _case(here), Stretch(here.load, here.slope, here.length), start.torque, start.rate
    )
    # on the plateau the search ends where the torque has crept up to the load
    one_at, one, two_at, two, end = creep.stationary(use, motion, here.length)
    one_at, two_at = use.where(one, one_at, end), use.where(two, two_at, end)
    first_arched = one & (creep.torque_at(use, motion, one_at)[2] < 0.0)
    second_arched = two & (creep.torque_at(use, motion, two_at)[2] < 0.0)
    high_at = use.where(first_arched, one_at, two_at)
    return (
        tuple(motion),
        use.minimum(one_at, two_at),
        use.maximum(one_at, two_at),
        high_at,
        (first_arched | second_arched),
    )


def along(here: Here, start: Pressed, creeping: bool, times: Number) -> tuple[Number, Number, Number]:
    """Torque, speed and speed across the element at times within one contact segment of a single case."""
    coefficients, *_ = (_creeping if creeping else _swinging)(FLOATS, here, start)
    motion = _Motion(creeping, coefficients, here, start)
    torque, rate = _torque_at(ARRAYS, motion, times)
    speed = rate - 2.0 * here.zeta * (here.load + here.slope * times - torque)
    return torque, speed, _across_at(ARRAYS, motion, times)[0]


def follow_contact(use: Arithmetic, here: Here, start: Pressed, creeping: bool) -> Followed:
    """
    Follow a contact over its next two extremes, or to the event or the end of the stage before them.

    Everything is signed towards the flank and in the units of ``here``.
    """
    found = (_creeping if creeping else _swinging)(use, here, start)
    coefficients, middle, end, crest_at, crested = found
    motion = _Motion(creeping, coefficients, here, start)
    middle, end = use.minimum(middle, here.length), use.minimum(end, here.length)
    halfway, _ = _torque_at(use, motion, middle)
    finish, _ = _torque_at(use, motion, end)
    nothing = 0.0 * middle
    time, event = _first_event(use, motion, (nothing, middle), (start.torque, halfway))
    later_time, later_event = _first_event(use, motion, (middle, end), (halfway, finish))
    sooner = event != GOES_ON
    duration = use.where(sooner, time, later_time)
    event = use.where(sooner, event, later_event)

    torque, rate = _torque_at(use, motion, duration)
    passed = middle < duration
    halfway = use.where(passed, halfway, start.torque)
    highest = use.maximum(use.maximum(start.torque, halfway), torque)
    highest_at = use.where(highest == start.torque, 0.0, use.where(highest == torque, duration, middle))
    across, _ = _across_at(use, motion, duration)
    # a torque that falls from the start on has its maximum there
    falls = start.rate <= 0.0
    crested = falls | (crested & (crest_at <= duration))
    crest = use.where(falls, start.torque, use.where(crest_at <= middle, halfway, finish))
    return Followed(
        duration=duration,
        event=event,
        torque=torque,
        rate=rate,
        across=across,
        highest=highest,
        highest_at=highest_at,
        lowest=use.minimum(use.minimum(start.torque, halfway), torque),
        crest=crest,
        crested=crested,
    )
