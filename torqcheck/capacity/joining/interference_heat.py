"""Heat and interference fits: what unlike metals lose when warm, and how hot a hub must be to go on."""

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity.joining._fit_symbols import HUB_EXPANSION, INTERFERENCE, SEAT, SHAFT_EXPANSION
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula

__all__ = ["interference_lost_to_heat", "joining_temperature_rise", "shaft_shrinkage"]


@formula(
    "dU = d (ao dTo - ai dTi)",
    result=Symbol("dU", "m", "interference lost to heat, on the diameter"),
    source=DERIVED,
    diameter=SEAT,
    hub_expansion=HUB_EXPANSION,
    shaft_expansion=SHAFT_EXPANSION,
    hub_rise=Symbol("dTo", "K", "temperature of the hub above that at which it was measured"),
    shaft_rise=Symbol("dTi", "K", "temperature of the shaft above that at which it was measured"),
)
def interference_lost_to_heat(
    diameter: Numeric,
    hub_expansion: Numeric,
    shaft_expansion: Numeric,
    hub_rise: Numeric,
    shaft_rise: Numeric,
) -> Numeric:
    """
    Interference that a fit loses when hub and shaft warm up.

    ::

        dU = d (ao dTo - ai dTi)

    Parameters
    ----------
    diameter : float or array, m
        d, of the seat.
    hub_expansion : float or array, 1/K
        ao.
    shaft_expansion : float or array, 1/K
        ai.
    hub_rise : float or array, K
        dTo, above the temperature at which the parts were measured; negative if it is colder.
    shaft_rise : float or array, K
        dTi, likewise.

    Returns
    -------
    float or array, m
        dU, on the diameter. Negative where the fit tightens: a warm shaft in a cool hub, or an
        aluminium hub in the cold.

    Raises
    ------
    DomainError
        If diameter is not above zero or an expansion is negative, anywhere.

    Notes
    -----
    An aluminium hub on a steel shaft loses most of a normal fit at 100 C.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Free expansion of both parts. Mark: derived.

    Examples
    --------
    >>> print(f"{interference_lost_to_heat(0.040, 22.6e-6, 11.3e-6, 80.0, 80.0) * 1e3:.3f} mm")
    0.036 mm
    """
    require_positive(diameter=diameter)
    require_not_negative(hub_expansion=hub_expansion, shaft_expansion=shaft_expansion)
    return diameter * (hub_expansion * hub_rise - shaft_expansion * shaft_rise)


@formula(
    "dT = (U + c) / (ao d)",
    result=Symbol("dT", "K", "how much hotter than the shaft the hub must be to slip on"),
    source=DERIVED,
    interference=INTERFERENCE,
    clearance=Symbol("c", "m", "clearance on the diameter that is wanted while joining"),
    hub_expansion=HUB_EXPANSION,
    diameter=SEAT,
)
def joining_temperature_rise(
    interference: Numeric, clearance: Numeric, hub_expansion: Numeric, diameter: Numeric
) -> Numeric:
    """
    How much hotter than room temperature a hub must be to slip over its shaft.

    ::

        dT = (U + c) / (ao d)

    Parameters
    ----------
    interference : float or array, m
        U, the greatest that may be there, less what the shaft is shrunk by cooling.
    clearance : float or array, m
        c, on the diameter, wanted while joining: about d/1000, at least 0.03 to 0.05 mm.
    hub_expansion : float or array, 1/K
        ao.
    diameter : float or array, m
        d, of the seat.

    Returns
    -------
    float or array, K
        dT.

    Raises
    ------
    DomainError
        If interference or clearance is negative, or hub_expansion or diameter is not above zero, anywhere.

    Notes
    -----
    The hub cools as soon as it touches. Where dT is more than the steel stands, cool the shaft as well
    and take ``shaft_shrinkage`` from U. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Free expansion of the bore. Mark: derived.

    Examples
    --------
    >>> print(f"{joining_temperature_rise(59e-6, 40e-6, 11.7e-6, 0.040):.0f} K")
    212 K
    """
    require_not_negative(interference=interference, clearance=clearance)
    require_positive(hub_expansion=hub_expansion, diameter=diameter)
    return (interference + clearance) / (hub_expansion * diameter)


@formula(
    "dd = ai d dT",
    result=Symbol("dd", "m", "shrinkage of the diameter of the shaft"),
    source=DERIVED,
    diameter=SEAT,
    shaft_expansion=SHAFT_EXPANSION,
    cooling=Symbol("dT", "K", "how much colder than room temperature the shaft is"),
)
def shaft_shrinkage(diameter: Numeric, shaft_expansion: Numeric, cooling: Numeric) -> Numeric:
    """
    Shrinkage of the diameter of a shaft that is cooled for joining.

    ::

        dd = ai d dT

    Parameters
    ----------
    diameter : float or array, m
        d, of the seat.
    shaft_expansion : float or array, 1/K
        ai, below room temperature: less than above it.
    cooling : float or array, K
        dT, below room temperature: 98 K in dry ice, 216 K in liquid nitrogen.

    Returns
    -------
    float or array, m
        dd.

    Raises
    ------
    DomainError
        If diameter is not above zero, or shaft_expansion or cooling is negative, anywhere.

    Notes
    -----
    Cold steel is brittle, ice on it spoils the seat, and the gas drives out the air that one breathes.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Free contraction of the shaft. Mark: derived.

    Examples
    --------
    >>> print(f"{shaft_shrinkage(0.040, 8.5e-6, 216.0) * 1e3:.3f} mm")
    0.073 mm
    """
    require_positive(diameter=diameter)
    require_not_negative(shaft_expansion=shaft_expansion, cooling=cooling)
    return diameter * shaft_expansion * cooling
