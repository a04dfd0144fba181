"""What a ramp can do at most, whatever its phase: a bound on the peak torque that falls with the slope.

In the units of the shock folder (time 1/w, torque s Tm, twist s Tm/k) a ramp of slope `sigma` gives ::

    x'' + y = r(t)      r = sigma t up to 1      y = x + 2 zeta x' in contact, 0 in the gap

1. From the coast flank the gap `beta` is first crossed after u = (6 beta/sigma)^(1/3), at the speed
   sigma u^2/2. Starting from regeneration the driving side leaves the coast flank at r = 0 with at most
   2 sigma, so that it is across at the earliest at t with 2 t + t^3/6 = u^3/6.
2. The energy E = x'^2/2 - r x over the gap obeys dE/dt = -sigma x <= sigma E/r, so E/r never rises and no
   closing speed exceeds sqrt(2 beta r). One contact leaves at most the share e, the restitution of the
   damped contact, of a closing speed, and one flight, in which the load rises from r to r', gives back
   at most (r'/r)^(1/3) of the speed with which it began.
3. A contact that closes at r with the speed v swings about the load with the amplitude
   A = sqrt(r^2 - 2 zeta r v + v^2)/omega, and its torque is never above r + A at the end of the swing.
   It opens only if A exp(-zeta t) is larger than the load at its first minimum.
4. The contact that no longer opens swings on with A exp(-zeta t). The end of the ramp adds at most
   sigma/omega to it.

Following the blows one by one through 1 to 3 takes no phase into account. Where they do not end
before the ramp does, the bound is that of the torque which is there at once. A slip element never
raises the peak; where it lets go, the swing goes on about the torque that it bounds, and the kink of
the ramp when it lets go adds sigma/omega once more. (1 to 4 are derived, but for the bound of a
flight that meets the coast flank, and the last sentence: these were held against the kernel.)
"""

from typing import NamedTuple

import numpy as np

from torqcheck._types import BoolArray, FloatArray

__all__ = ["Envelope", "envelope"]

MOST_BLOWS = 1000
SMALLEST = 1e-150
MOST_DAMPING = 0.9
"""Beyond, nothing swings; the bound of this damping holds all the more, but for the jump when it closes."""


class Envelope(NamedTuple):
    """
    Bounds at any phase, over the steady torque s Tm.

    Attributes
    ----------
    blow : array, -
        Of the torque while the contact still opens; 0 where it never does.
    swing : array, -
        Of what the torque rises above its steady value afterwards.
    kick : array, -
        What a kink of the load adds to the swing.
    """

    blow: FloatArray
    swing: FloatArray
    kick: FloatArray

    @property
    def peak(self) -> FloatArray:
        """Bound of the peak torque without a slip element."""
        return np.maximum(self.blow, 1.0 + self.swing)


def envelope(slope: FloatArray, lash: FloatArray, damping_ratio: FloatArray, loaded: BoolArray) -> Envelope:
    """
    Bounds of the torque in the path at one slope; they fall with the slope.

    Parameters
    ----------
    slope : array, -
        sigma, torque rise over (natural circular frequency x peak motor torque).
    lash : array, -
        beta, lash over the twist under the steady torque.
    damping_ratio : array, -
        zeta.
    loaded : array of bool
        The coast flank carries regeneration before the rise.

    Returns
    -------
    Envelope
        Arrays of the broadcast shape of the arguments.
    """
    sigma, beta, damping, pressed = np.broadcast_arrays(slope, lash, damping_ratio, loaded)
    zeta = np.minimum(damping, MOST_DAMPING)
    kick = sigma / np.sqrt(1.0 - zeta**2)
    latest, reach = _first_closing(sigma, beta, pressed)
    blow, swing = _after_the_blows(sigma, reach, zeta, pressed, latest)
    jump = 2.0 * damping * np.sqrt(2.0 * reach)  # of a damped contact when it closes
    at_once = 1.0 + np.maximum(np.sqrt((1.0 + 2.0 * reach) / (1.0 - zeta**2)), jump) + 2.0 * kick
    heavy = damping > MOST_DAMPING
    blow = np.where(heavy, at_once, np.minimum(blow, at_once))
    swing = np.where(heavy, at_once - 1.0, np.minimum(swing, at_once - 1.0))
    crossed = beta > 0.0
    return Envelope(
        np.where(crossed, blow, 0.0),
        np.where(crossed, swing, kick * (1.0 + np.exp(-zeta / sigma))),
        kick,
    )


def _first_closing(sigma: FloatArray, beta: FloatArray, pressed: BoolArray) -> tuple[FloatArray, FloatArray]:
    """Latest time of the first closing, and the largest E/r from then on."""
    latest = np.cbrt(6.0 * beta / sigma)
    half = 0.5 * latest**3
    root = np.cbrt(half + np.sqrt(half**2 + 64.0))
    earliest = np.maximum(root - 4.0 / root, SMALLEST)  # root of t^3 + 12 t = latest^3
    gain = np.where(pressed, 2.0 * sigma / earliest, 0.0)
    return np.where(pressed, latest + np.pi, latest), beta + gain


def _after_the_blows(
    sigma: FloatArray, reach: FloatArray, zeta: FloatArray, pressed: BoolArray, closing: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Largest of all blows, and the swing that is left of the last; inf if the ramp ends before."""
    shape = sigma.shape
    blow, swing = np.full((2, sigma.size), np.inf)
    place = np.arange(sigma.size)
    sigma, reach, zeta, time = (np.ravel(values) for values in (sigma, reach, zeta, closing))
    omega = np.sqrt(1.0 - zeta**2)
    kick = sigma / omega
    restitution = np.exp(-2.0 * zeta * np.arccos(zeta) / omega)
    load = np.maximum(sigma * time, SMALLEST)
    speed = 0.5 * sigma * time**2 + 2.0 * kick * np.ravel(pressed)
    highest = np.zeros_like(load)
    for _ in range(MOST_BLOWS):
        speed = np.minimum(speed, np.sqrt(2.0 * reach * load))
        across = 2.0 * zeta * speed - load
        along = (zeta * load + (1.0 - 2.0 * zeta**2) * speed) / omega
        amplitude = np.hypot(across, along) + kick
        lasting = (np.pi + np.arctan2(along, across)) / omega
        lifted = load + sigma * lasting
        highest = np.maximum(highest, lifted + amplitude)
        opens = lifted < amplitude * np.exp(-zeta * lasting)
        in_time = time <= 1.0 / sigma
        ended = ~(opens & in_time)
        closed = ended & in_time
        left = amplitude * np.exp(np.minimum(zeta * (time - 1.0 / sigma), 0.0))
        blow[place[closed]], swing[place[closed]] = highest[closed], (left + kick)[closed]
        if ended.all():
            break
        flight = 2.0 * restitution * speed / lifted
        risen = lifted + sigma * flight
        speed = restitution * speed * np.cbrt(risen / load)
        time, load = time + lasting + flight, risen
        going = ~ended
        place = place[going]
        sigma, reach, zeta, time, load, speed, highest, omega, kick, restitution = (
            values[going]
            for values in (sigma, reach, zeta, time, load, speed, highest, omega, kick, restitution)
        )
    return blow.reshape(shape), swing.reshape(shape)
