"""One closed contact followed to its end, whichever way it is damped: when it opens, how high it goes.

Both solvers give the same record. ``rising`` says whether the load changes along the stretch; on
the plateau the stationary points are known without a search.
"""

from typing import NamedTuple

from torqcheck.shock import creep, swing
from torqcheck.shock.arithmetic import Arithmetic, Number, Truth
from torqcheck.shock.states import NEVER, Case, Stretch

__all__ = ["Contact", "creeping_contact", "swinging_contact"]

ANOTHER_MAXIMUM = 4.0
"""Time after a maximum within which there is no other: somewhat more than half a period."""


class Contact(NamedTuple):
    """How a contact ends, and its torque on the way."""

    duration: Number  # until it opens, or the stretch ends, or the solver halts in between
    opens: Truth
    torque: Number  # at the end
    rate: Number  # at the end
    first: Number  # height of the first maximum; of the jump at the start if the torque falls from there
    first_at: Number
    highest: Number
    highest_at: Number


def swinging_contact(
    use: Arithmetic, case: Case, stretch: Stretch, torque: Number, rate: Number, rising: bool
) -> Contact:
    """Contact damped below critical."""
    motion = swing.swing(use, case, stretch, torque, rate)
    stop = _latest_check(use, motion, stretch, rate, rising)
    lowest, _, _ = swing.torque_at(use, motion, stop)
    opens = (case.locked < 0.5) & (lowest < 0.0)

    def opening(*columns: Number) -> tuple[Number, ...]:
        *coefficients, high = columns
        return (swing.crossing(use, swing.Swing(*coefficients), high),)

    (opened_at,) = use.only(opens, opening, (stop,), *motion, stop)
    halt = use.where(stretch.slope < 0.0, stop, stretch.length)
    limit = use.where(opens, opened_at, halt)
    # on the plateau a contact that stays closed has no end; any finite time does
    duration = limit if rising else use.minimum(limit, stop)
    end_torque, end_rate, _ = swing.torque_at(use, motion, duration)

    first_at, exists = swing.first_maximum(use, motion, rate, rising)
    reached = exists & (first_at <= limit)
    first_at = use.where(reached, first_at, 0.0)
    first, _, _ = swing.torque_at(use, motion, first_at)
    jump = torque > first
    highest, highest_at = use.where(jump, torque, first), use.where(jump, 0.0, first_at)
    if rising:
        several = (stretch.slope > 0.0) & use.negation(opens) & (limit - first_at > ANOTHER_MAXIMUM)

        def later(*columns: Number) -> tuple[Number, ...]:
            *coefficients, end, rate_at_end = columns
            return swing.last_maximum(use, swing.Swing(*coefficients), end, rate_at_end)

        last, last_at = use.only(several, later, (highest, highest_at), *motion, limit, end_rate)
        higher = last > highest
        highest, highest_at = use.where(higher, last, highest), use.where(higher, last_at, highest_at)
    jump = rate <= 0.0
    first_at = use.where(jump, 0.0, use.where(reached, first_at, NEVER))
    first = use.where(jump, torque, first)
    return Contact(duration, opens, end_torque, end_rate, first, first_at, highest, highest_at)


def _latest_check(
    use: Arithmetic, motion: swing.Swing, stretch: Stretch, rate: Number, rising: bool
) -> Number:
    """
    Time at which the torque is negative if the contact opens before, and is not if it does not.

    The minima rise along a load that does not fall, so only the first one can open the contact.
    Under a falling load this is the latest time before which the contact cannot open, or else the
    first minimum; the caller goes on from there.
    """
    load, slope, length = stretch
    low_at, exists = swing.first_minimum(use, motion, rate, rising)
    stop = use.minimum(use.where(exists, low_at, length), length)
    if not rising:
        return stop
    falling = slope < 0.0
    steep = use.where(falling, -slope, 1.0)
    # beyond this the torque is negative whatever the swing does; the margin keeps it so in rounding
    surely_open = use.minimum((1.0 + 1e-9) * (load + motion.amplitude) / steep + 1e-6, length)
    stop = use.where(falling & use.negation(exists), surely_open, stop)
    surely_closed = use.minimum((load - motion.amplitude) / steep, length)
    return use.where(falling & (surely_closed > 1.0), surely_closed, stop)


def creeping_contact(use: Arithmetic, case: Case, stretch: Stretch, torque: Number, rate: Number) -> Contact:
    """Contact damped above critical: at most one maximum and one minimum, in either order."""
    motion = creep.creep(use, case, stretch, torque, rate)
    one_at, one, two_at, two, end_at = creep.stationary(use, motion, stretch.length)
    one_torque, _, one_bend = creep.torque_at(use, motion, one_at)
    two_torque, _, two_bend = creep.torque_at(use, motion, two_at)
    end_torque, _, _ = creep.torque_at(use, motion, end_at)

    # the torque is monotone from the start to one_at, to two_at, to end_at
    at_one, at_two = one & (one_torque < 0.0), two & (two_torque < 0.0)
    opens = (case.locked < 0.5) & (at_one | at_two | (end_torque < 0.0))
    high = use.where(at_one, one_at, use.where(at_two, two_at, end_at))
    before_two = use.where(one, one_at, 0.0)
    low = use.where(at_one, 0.0, use.where(two & use.negation(at_two), two_at, before_two))

    def opening(*columns: Number) -> tuple[Number, ...]:
        *coefficients, early, late = columns
        return (creep.crossing(use, creep.Creep(*coefficients), early, late),)

    (duration,) = use.only(opens, opening, (end_at,), *motion, low, high)
    last_torque, last_rate, _ = creep.torque_at(use, motion, duration)

    one_counts = one & (one_bend < 0.0) & (one_at <= duration)
    two_counts = two & (two_bend < 0.0) & (two_at <= duration)
    first_at = use.where(one_counts, one_at, use.where(two_counts, two_at, 0.0))
    first = use.where(one_counts, one_torque, use.where(two_counts, two_torque, torque))
    jump = torque > first
    highest, highest_at = use.where(jump, torque, first), use.where(jump, 0.0, first_at)
    # an overshoot below rounding leaves no maximum: the end is then the highest point
    jump = last_torque > highest
    highest, highest_at = use.where(jump, last_torque, highest), use.where(jump, duration, highest_at)
    jump = rate <= 0.0
    first_at = use.where(jump, 0.0, use.where(one_counts | two_counts, first_at, NEVER))
    first = use.where(jump, torque, first)
    return Contact(duration, opens, last_torque, last_rate, first, first_at, highest, highest_at)
