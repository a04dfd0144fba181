"""Crossing the gap: nothing touches, the driving side is moved by the motor torque alone.

In the units of this folder (see ``states``) ::

    X'' = load + slope t        load >= 0 and not changing sign within a stretch

X is the twist measured from the flank towards which the torque pushes, negative in the gap; the
opposite flank lies at X = -lash. With the speed never falling, a flight turns round at most once,
and only three things can end it:

- it meets the flank behind while still moving back;
- it has not yet left the twist of the flank ahead (X > 0, possible only with damping) when
  X + 2 zeta X' rises through zero: the contact that had just opened closes again;
- it meets the flank ahead, X = 0 rising.
"""

from typing import NamedTuple

from torqcheck.shock.arithmetic import SMALLEST, Arithmetic, Number, Truth
from torqcheck.shock.states import Case, Stretch

__all__ = ["Landing", "flight"]

SHARP = 1e-9
"""Newton's last step."""
GRAZE = 1e-12
"""A flank behind that is overrun by less than this share of lash and twist is not touched."""


class Landing(NamedTuple):
    """How a flight ends: duration, on which flank (neither: it goes on), and the state reached."""

    duration: Number
    ahead: Truth
    behind: Truth
    position: Number
    speed: Number


class _Turn(NamedTuple):
    """The state at which the flight is slowest, or at the end if it is moving back until then."""

    time: Number
    position: Number
    speed: Number  # not above 0 if the flight began backwards


def _position_at(stretch: Stretch, position: Number, speed: Number, time: Number) -> tuple[Number, Number]:
    """Position and speed in free flight."""
    load, slope, _ = stretch
    return (
        position + time * (speed + time * (0.5 * load + time * (slope / 6.0))),
        speed + time * (load + time * (0.5 * slope)),
    )


def _turn(use: Arithmetic, stretch: Stretch, position: Number, speed: Number) -> _Turn:
    """Find where the flight stands still."""
    load, slope, length = stretch
    back = use.maximum(-speed, 0.0)
    square = load * load + 2.0 * slope * back
    time = 2.0 * back / use.maximum(load + use.sqrt(use.maximum(square, 0.0)), SMALLEST)
    time = use.minimum(use.where((square < 0.0) & (back > 0.0), length, time), length)
    bottom, slowest = _position_at(stretch, position, speed, time)
    return _Turn(time, bottom, use.where(speed < 0.0, use.minimum(slowest, 0.0), speed))


def _forward(use: Arithmetic, stretch: Stretch, turn: _Turn) -> Number:
    """Time to the flank ahead, never too short: exact for a constant push, or from rest without push."""
    load, slope, length = stretch
    distance, speed = use.maximum(-turn.position, 0.0), use.maximum(turn.speed, 0.0)
    push = use.maximum(load + slope * turn.time, 0.0)
    steady = use.sqrt(speed * speed + 2.0 * push * distance)
    steady = 2.0 * distance / use.maximum(speed + steady, SMALLEST)
    growing = use.cbrt(6.0 * distance / use.maximum(slope, SMALLEST))
    sooner = use.where(slope > 0.0, use.minimum(steady, growing), use.where(slope < 0.0, length, steady))
    return use.minimum(turn.time + sooner, length)


def _backward(use: Arithmetic, stretch: Stretch, gap: Number, speed: Number) -> Number:
    """Time to the flank behind, never too long: exact for a constant push, which shortens the way."""
    gap = use.maximum(gap, 0.0)
    arrival = use.sqrt(use.maximum(speed * speed - 2.0 * stretch.load * gap, 0.0))
    return 2.0 * gap / use.maximum(arrival - speed, SMALLEST)


def flight(
    use: Arithmetic, case: Case, stretch: Stretch, position: Number, speed: Number, rising: bool
) -> Landing:
    """Follow a flight to a flank, or to the end of the stretch."""
    load, slope, length = stretch
    turn = _turn(use, stretch, position, speed)
    back = speed < 0.0
    again = back & (turn.position + 2.0 * case.zeta * turn.speed > 0.0)
    behind = back & (-case.lash - turn.position > GRAZE * (1.0 + case.lash))
    reach, _ = _position_at(stretch, position, speed, length)
    ahead = again | ((turn.time < length) & (reach >= 0.0) & use.negation(behind))
    hit = ahead | behind

    # the torque of the contact that closes again: c0 + c1 t + c2 t^2 + .., c0 about 0, c1 negative
    c0, c1, c2 = (
        position + 2.0 * case.zeta * speed,
        speed + 2.0 * case.zeta * load,
        0.5 * load + case.zeta * slope,
    )
    closing = use.sqrt(use.maximum(c1 * c1 - 4.0 * c2 * c0, 0.0)) - c1
    closing = closing / use.maximum(2.0 * c2, SMALLEST)
    backward = _backward(use, stretch, position + case.lash, speed)
    guess = use.where(again, closing, use.where(behind, backward, _forward(use, stretch, turn)))
    if rising:  # else the guesses are exact
        lowest = -c1 / use.maximum(c2 + use.sqrt(use.maximum(c2 * c2 - 0.5 * c1 * slope, 0.0)), SMALLEST)
        low = use.maximum(use.where(behind, 0.0, use.where(again, lowest, turn.time)), 0.0)
        high = use.where(again | behind, turn.time, use.where(hit, length, low))
        # the one root that matters, as a cubic that falls through zero
        sign = use.where(behind, 1.0, -1.0)
        c0 = sign * use.where(again, c0, use.where(behind, position + case.lash, position))
        c1, c2 = sign * use.where(again, c1, speed), sign * use.where(again, c2, 0.5 * load)
        c3 = sign * (slope / 6.0)

        def falling(time: Number) -> tuple[Number, Number]:
            value = c0 + time * (c1 + time * (c2 + time * c3))
            return value, c1 + time * (2.0 * c2 + time * (3.0 * c3))

        guess = use.root(falling, low, high, guess, SHARP)
    duration = use.where(hit, guess, length)
    end, end_speed = _position_at(stretch, position, speed, duration)
    end = use.where(behind, -case.lash, use.where(again | use.negation(hit), end, 0.0))
    return Landing(duration, ahead, behind, end, end_speed)
