"""The modes of the path, and the exact step of each from one switching event to the next.

The model has two inertias and one elastic, damped path with lash b. In the coordinate
x = twist of the path, everything referred to one shaft, ::

    drive flank in contact    mu x'' + c x' + k x = s T(t)         torque  k x + c x'  >= 0
    gap                       J1 x'' = T(t)                        torque  0
    coast flank in contact    the mirror image, with x measured from the coast flank

with s = J2/(J1 + J2), mu = s J1. The driven side is not loaded in the gap, so it moves on evenly and
drops out; T(t) rises along a straight line and then stays. Each mode is linear and solved in closed
form (``swing``, ``creep``, ``flight``); a step follows one case to the event that ends the segment.
A path with further modes needs a step for each: its own share s and inertia mu, hence its own units,
and the event that leads to it.

Contact law. The path never pulls: its torque is k x + c x' where that is positive and x > 0,
otherwise nothing. A damped contact therefore opens at torque zero and falling, a little before its
twist is gone; the twist then relaxes without torque. It closes again where the flanks meet anew
(x = 0, rising), or, if the twist was not yet gone, where k x + c x' rises through zero. With lash
zero there is nothing to open and the torque may take either sign.
"""

from math import pi

from torqcheck.shock.arithmetic import Arithmetic, Number
from torqcheck.shock.contact import creeping_contact, swinging_contact
from torqcheck.shock.flight import flight
from torqcheck.shock.states import (
    COAST,
    CUT,
    DRIVE,
    ENDLESS,
    GAP,
    LIVE,
    NEVER,
    SETTLED,
    Case,
    State,
    Stretch,
)

__all__ = ["first_state", "fly", "press", "stretch_of"]

HORIZON = 24.0 * pi
"""Undamped hammering is followed for twelve natural periods after the ramp ..."""
FEWEST_BLOWS, MOST_BLOWS = 3.0, 300.0
"""... and for at least so many blows; slightly damped hammering for at most so many."""
NO_TORQUE = 1e-13
LATER = 1.0 + 1e-12
"""A later blow is the peak only if it is higher by more than rounding."""


def first_state(use: Arithmetic, case: Case) -> State:
    """Settled on the coast flank, lying on it without load, or (if locked) settled where it is."""
    locked, loaded = case.locked > 0.5, case.start < 0.0
    nothing = 0.0 * case.start
    # a jump of torque accelerates at once; 2 zeta x'' is then the rate of the path torque
    jump = use.where(case.ramp_end > 0.0, 0.0, 2.0 * case.zeta * (1.0 - case.start))
    return State(
        mode=use.where(locked, DRIVE, use.where(loaded, COAST, GAP)),
        time=nothing,
        place=use.where(locked, case.start, use.where(loaded, -case.start, 0.0)),
        rate=use.where(locked, jump, use.where(loaded, -jump, 0.0)),
        peak=use.where(locked, use.maximum(case.start, 0.0), 0.0),
        peak_at=nothing,
        least=use.minimum(case.start, 0.0),
        closed_at=NEVER + nothing,
        closing_speed=nothing,
        first_blow=NEVER + nothing,
        losses=nothing,
        blows=nothing,
        end=LIVE + nothing,
    )


def stretch_of(case: Case, state: State, side: Number, rising: bool) -> Stretch:
    """Motor torque from here on, signed towards a flank, until it stops rising."""
    if rising:
        load = case.start + case.slope * state.time
        return Stretch(side * load, side * case.slope, case.ramp_end - state.time)
    nothing = 0.0 * side
    return Stretch(side, nothing, ENDLESS + nothing)


def fly(use: Arithmetic, case: Case, state: State, rising: bool) -> State:
    """Step through the gap."""
    torque, slope, length = stretch_of(case, state, 1.0 + 0.0 * state.time, rising)
    # a stretch of flight ends where the torque turns; until then it pushes towards the coast flank
    pulled = torque < -NO_TORQUE
    hand = use.where(pulled, -1.0, 1.0)
    if rising:
        length = use.where(pulled, use.minimum(-torque / slope, length), length)
    stretch = Stretch(use.maximum(hand * torque, 0.0), hand * slope, length)
    position = use.where(pulled, -state.place, state.place - case.lash)
    landing = flight(use, case, stretch, position, hand * state.rate, rising)
    hit = landing.ahead | landing.behind
    mode = use.where(landing.ahead, hand, use.where(landing.behind, -hand, GAP))
    time = use.where(hit | pulled, state.time + landing.duration, case.ramp_end)

    # on the flank that was met
    inward = use.where(landing.behind, -1.0, 1.0)
    twist = use.where(landing.ahead, landing.position, 0.0)
    speed = inward * landing.speed
    torque = use.maximum(twist + 2.0 * case.zeta * speed, 0.0)
    push = inward * (stretch.load + stretch.slope * landing.duration)
    rate = speed + 2.0 * case.zeta * (push - torque)
    # or still in the gap
    place = use.where(pulled, -landing.position, landing.position + case.lash)

    first = (mode == DRIVE) & (state.closed_at < 0.0)
    return state._replace(
        mode=mode,
        time=time,
        place=use.where(hit, torque, place),
        rate=use.where(hit, rate, hand * landing.speed),
        closed_at=use.where(first, time, state.closed_at),
        closing_speed=use.where(first, speed, state.closing_speed),
    )


def press(use: Arithmetic, case: Case, state: State, rising: bool, creeping: bool) -> State:
    """Step through a contact, on either flank."""
    side = state.mode
    stretch = stretch_of(case, state, side, rising)
    if creeping:
        found = creeping_contact(use, case, stretch, state.place, state.rate)
    else:
        found = swinging_contact(use, case, stretch, state.place, state.rate, rising)
    driving = side > 0.0
    now = state.time + found.duration
    if rising:
        now = use.where(found.opens | (found.duration < stretch.length), now, case.ramp_end)

    # back in the gap: torque nought, so the twist is -2 zeta times its speed
    push = stretch.load + stretch.slope * found.duration
    speed = use.minimum(found.rate - 2.0 * case.zeta * push, 0.0)
    twist = -2.0 * case.zeta * speed
    twist = use.where(driving, case.lash + twist, -twist)

    higher = driving & (found.highest > LATER * state.peak)
    seen = driving & (state.first_blow < 0.0) & (found.first_at >= 0.0) & (state.closed_at >= 0.0)
    lost = use.where(found.opens & driving, 1.0, 0.0)
    blows = state.blows if rising else state.blows + lost
    end = state.end
    if not rising:
        cut = (case.zeta == 0.0) & (now > case.ramp_end + HORIZON) & (blows >= FEWEST_BLOWS)
        end = use.where(found.opens, use.where(cut | (blows >= MOST_BLOWS), CUT, LIVE), SETTLED)
    return state._replace(
        mode=use.where(found.opens, GAP, side),
        time=now,
        place=use.where(found.opens, twist, found.torque),
        rate=use.where(found.opens, side * speed, found.rate),
        peak=use.where(higher, found.highest, state.peak),
        peak_at=use.where(higher, state.time + found.highest_at, state.peak_at),
        least=use.where(driving, state.least, use.minimum(state.least, -found.highest)),
        first_blow=use.where(seen, found.first, state.first_blow),
        losses=state.losses + lost,
        blows=blows,
        end=end,
    )
