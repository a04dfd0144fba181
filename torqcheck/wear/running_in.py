"""Wear that is not in proportion to the path: bedding in at first, growth that feeds on itself later."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = ["depth_with_feedback", "running_in_depth"]

_BEDDING = Source("Derived: a rate of wear that dies away as the flanks bed in", "", "derived")
_FEEDBACK = Source("Derived: solution of dh/dt = v + b h, new at the start", "", "derived")


@formula(
    "h = hr (1 - exp(-n / Nr))",
    result=Symbol("h", "m", "depth worn from each flank while bedding in"),
    source=_BEDDING,
    revolutions=Symbol("n", "-", "revolutions since the flanks were new"),
    depth=Symbol("hr", "m", "depth worn from each flank when they have bedded in"),
    revolutions_scale=Symbol("Nr", "-", "revolutions after which all but 37 percent of it is worn"),
)
def running_in_depth(revolutions: Numeric, depth: Numeric, revolutions_scale: Numeric) -> Numeric:
    """
    Depth that bedding in has taken from each flank after some revolutions.

    ::

        h = hr (1 - exp(-n / Nr))

    Parameters
    ----------
    revolutions : float or array, -
        n, since the flanks were new; may be infinite.
    depth : float or array, m
        hr, depth worn from each flank, normal to it, when the flanks have bedded in.
    revolutions_scale : float or array, -
        Nr, revolutions over which it happens: after one Nr 63 percent is worn, after three 95.

    Returns
    -------
    float or array, m
        h, to be added to what the linear law wears: h = hr (1 - exp(-n / Nr)) + k p s1 n.

    Raises
    ------
    DomainError
        If revolutions or depth is negative, or revolutions_scale is not above zero, anywhere.

    Notes
    -----
    That the rate falls to a constant one is published (Archard's law holds after a transient); the
    exponential form is ours. Neither hr nor Nr can be told beforehand: they are read from a joint of
    the same kind. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: a rate hr/Nr at the start that dies away with e^(-n/Nr). Mark: derived.

    Examples
    --------
    4 um over a million revolutions, seen after the first million:

    >>> print(f"{running_in_depth(1e6, 4e-6, 1e6) * 1e6:.2f} um")
    2.53 um
    """
    require_not_negative(revolutions=revolutions, depth=depth)
    require_positive(revolutions_scale=revolutions_scale)
    return -depth * np.expm1(-np.asarray(revolutions, dtype=np.float64) / revolutions_scale)


@formula(
    "h = (v / b) (exp(b t) - 1)",
    result=Symbol("h", "m", "worn depth"),
    source=_FEEDBACK,
    rate=Symbol("v", "m/h", "depth per hour of the unworn joint"),
    feedback=Symbol("b", "1/h", "growth of the rate for each metre worn"),
    hours=Symbol("t", "h", "running hours since the joint was new"),
)
def depth_with_feedback(rate: Numeric, feedback: Numeric, hours: Numeric) -> Numeric:
    """
    Worn depth when wear makes the joint wear faster.

    ::

        h = (v / b) (exp(b t) - 1)

    Parameters
    ----------
    rate : float or array, m/h
        v, depth per hour of the unworn joint.
    feedback : float or array, 1/h
        b, by how much the rate grows for each metre worn: dh/dt = v + b h. 0: no feedback.
    hours : float or array, h
        t, running hours.

    Returns
    -------
    float or array, m
        h; v t where b is 0.

    Raises
    ------
    DomainError
        If an argument is negative anywhere.

    Notes
    -----
    First order: lash that grows makes harder blows, worn flanks carry more pressure. No value of b
    has been published, so it is never assumed; a course of wear is held against this closed form.
    Beyond the range of a float the depth is infinite. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: a linear differential equation. Mark: derived.

    Examples
    --------
    >>> fed, plain = (depth_with_feedback(0.25e-6, b, 1000.0) for b in (1e-3, 0.0))
    >>> print(f"{fed * 1e6:.2f} um with feedback, {plain * 1e6:.0f} um without")
    429.57 um with feedback, 250 um without
    """
    require_not_negative(rate=rate, feedback=feedback, hours=hours)
    exponent = np.asarray(feedback, dtype=np.float64) * hours
    plain = np.asarray(rate, dtype=np.float64) * hours
    still = (exponent == 0.0) | (plain == 0.0)
    divisor = np.where(still, 1.0, exponent)
    with np.errstate(over="ignore"):
        return np.where(still, plain, plain * (np.expm1(divisor) / divisor))[()]
