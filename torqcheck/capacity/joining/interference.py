"""Pressure in the seat of an interference fit: thick cylinders, elastic, of one or two materials."""

from torqcheck._types import Numeric
from torqcheck.capacity.joining._fit_symbols import (
    HUB_MODULUS,
    HUB_OUTSIDE,
    HUB_POISSON,
    INTERFERENCE,
    MODULUS,
    PRESSURE,
    SEAT,
    SHAFT_BORE,
    SHAFT_MODULUS,
    SHAFT_POISSON,
    THICK_CYLINDER,
)
from torqcheck.domain import require_not_negative, require_positive, require_tube
from torqcheck.formulas import formula

__all__ = [
    "interference_from_pressure",
    "interference_pressure",
    "same_material_pressure",
]


def _compliance(
    diameter: Numeric,
    outside_diameter: Numeric,
    bore: Numeric,
    hub_modulus: Numeric,
    hub_poisson_ratio: Numeric,
    shaft_modulus: Numeric,
    shaft_poisson_ratio: Numeric,
) -> Numeric:
    """Interference that one pascal takes up, m/Pa."""
    require_tube(outside_diameter, diameter)
    require_tube(diameter, bore)
    require_positive(hub_modulus=hub_modulus, shaft_modulus=shaft_modulus)
    hub = (outside_diameter**2 + diameter**2) / (outside_diameter**2 - diameter**2) + hub_poisson_ratio
    shaft = (diameter**2 + bore**2) / (diameter**2 - bore**2) - shaft_poisson_ratio
    return diameter * (hub / hub_modulus + shaft / shaft_modulus)


@formula(
    "p = U/(d (Ko/Eo + Ki/Ei)),  Ko = (D^2+d^2)/(D^2-d^2) + nuo,  Ki = (d^2+di^2)/(d^2-di^2) - nui",
    result=PRESSURE,
    source=THICK_CYLINDER,
    interference=INTERFERENCE,
    diameter=SEAT,
    outside_diameter=HUB_OUTSIDE,
    bore=SHAFT_BORE,
    hub_modulus=HUB_MODULUS,
    hub_poisson_ratio=HUB_POISSON,
    shaft_modulus=SHAFT_MODULUS,
    shaft_poisson_ratio=SHAFT_POISSON,
)
def interference_pressure(
    interference: Numeric,
    diameter: Numeric,
    outside_diameter: Numeric,
    bore: Numeric = 0.0,
    *,
    hub_modulus: Numeric,
    hub_poisson_ratio: Numeric,
    shaft_modulus: Numeric,
    shaft_poisson_ratio: Numeric,
) -> Numeric:
    """
    Pressure in the seat of an interference fit of a hub and a shaft of two materials.

    ::

        p = U/(d (Ko/Eo + Ki/Ei)),  Ko = (D^2+d^2)/(D^2-d^2) + nuo,  Ki = (d^2+di^2)/(d^2-di^2) - nui

    Parameters
    ----------
    interference : float or array, m
        U, on the diameter: what is left of it after roughness, speed and temperature.
    diameter : float or array, m
        d, of the seat.
    outside_diameter : float or array, m
        D, of the hub.
    bore : float or array, m, optional
        di, of the shaft; 0 if it is solid.
    hub_modulus : float or array, Pa
        Eo.
    hub_poisson_ratio : float or array, -
        nuo.
    shaft_modulus : float or array, Pa
        Ei.
    shaft_poisson_ratio : float or array, -
        nui.

    Returns
    -------
    float or array, Pa
        p.

    Raises
    ------
    DomainError
        If interference is negative, a wall has no thickness, or a modulus is not above zero, anywhere.

    Notes
    -----
    Textbooks print the radial interference, half of U; drawings and micrometers give U. A mix-up
    doubles the torque. Derived again: the hub's bore grows by d p Ko/Eo, the shaft shrinks by
    d p Ki/Ei. Holds while both stay elastic, for hub and shaft of the same length; a shaft that
    sticks out raises the pressure at the edges. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, 8th ed., eq 3-56. Mark: from memory;
       derived again here.

    Examples
    --------
    A steel shaft in an aluminium hub, 0.0648 mm on 100 mm:

    >>> pressure = interference_pressure(
    ...     64.8e-6, 0.100, 0.250, 0.050,
    ...     hub_modulus=70e9, hub_poisson_ratio=0.25, shaft_modulus=210e9, shaft_poisson_ratio=0.3,
    ... )
    >>> print(f"{pressure / 1e6:.1f} MPa")
    21.7 MPa
    """
    require_not_negative(interference=interference)
    return interference / _compliance(
        diameter,
        outside_diameter,
        bore,
        hub_modulus,
        hub_poisson_ratio,
        shaft_modulus,
        shaft_poisson_ratio,
    )


@formula(
    "U = p d (Ko/Eo + Ki/Ei)",
    result=INTERFERENCE,
    source=THICK_CYLINDER,
    pressure=PRESSURE,
    diameter=SEAT,
    outside_diameter=HUB_OUTSIDE,
    bore=SHAFT_BORE,
    hub_modulus=HUB_MODULUS,
    hub_poisson_ratio=HUB_POISSON,
    shaft_modulus=SHAFT_MODULUS,
    shaft_poisson_ratio=SHAFT_POISSON,
)
def interference_from_pressure(
    pressure: Numeric,
    diameter: Numeric,
    outside_diameter: Numeric,
    bore: Numeric = 0.0,
    *,
    hub_modulus: Numeric,
    hub_poisson_ratio: Numeric,
    shaft_modulus: Numeric,
    shaft_poisson_ratio: Numeric,
) -> Numeric:
    """
    Interference on the diameter that gives a pressure in the seat.

    ::

        U = p d (Ko/Eo + Ki/Ei)

    Parameters
    ----------
    pressure : float or array, Pa
        p.
    diameter : float or array, m
        d, of the seat.
    outside_diameter : float or array, m
        D, of the hub.
    bore : float or array, m, optional
        di, of the shaft; 0 if it is solid.
    hub_modulus : float or array, Pa
        Eo.
    hub_poisson_ratio : float or array, -
        nuo.
    shaft_modulus : float or array, Pa
        Ei.
    shaft_poisson_ratio : float or array, -
        nui.

    Returns
    -------
    float or array, m
        U, on the diameter.

    Raises
    ------
    DomainError
        If pressure is negative, a wall has no thickness, or a modulus is not above zero, anywhere.

    Notes
    -----
    The inverse of ``interference_pressure``, whose Ko and Ki it takes.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, 8th ed., eq 3-56. Mark: from memory;
       derived again here.

    Examples
    --------
    >>> steel = dict(hub_modulus=207e9, hub_poisson_ratio=0.3, shaft_modulus=207e9, shaft_poisson_ratio=0.3)
    >>> print(f"{interference_from_pressure(114.5e6, 0.040, 0.080, **steel) * 1e3:.3f} mm")
    0.059 mm
    """
    require_not_negative(pressure=pressure)
    return pressure * _compliance(
        diameter,
        outside_diameter,
        bore,
        hub_modulus,
        hub_poisson_ratio,
        shaft_modulus,
        shaft_poisson_ratio,
    )


@formula(
    "p = E U (D^2 - d^2) (d^2 - di^2) / (2 d^3 (D^2 - di^2))",
    result=PRESSURE,
    source=THICK_CYLINDER,
    interference=INTERFERENCE,
    diameter=SEAT,
    outside_diameter=HUB_OUTSIDE,
    bore=SHAFT_BORE,
    elastic_modulus=MODULUS,
)
def same_material_pressure(
    interference: Numeric,
    diameter: Numeric,
    outside_diameter: Numeric,
    bore: Numeric = 0.0,
    *,
    elastic_modulus: Numeric,
) -> Numeric:
    """
    Pressure in the seat of an interference fit whose hub and shaft are of one material.

    ::

        p = E U (D^2 - d^2) (d^2 - di^2) / (2 d^3 (D^2 - di^2))

    Parameters
    ----------
    interference : float or array, m
        U, on the diameter.
    diameter : float or array, m
        d, of the seat.
    outside_diameter : float or array, m
        D, of the hub.
    bore : float or array, m, optional
        di, of the shaft; 0 if it is solid.
    elastic_modulus : float or array, Pa
        E, of both.

    Returns
    -------
    float or array, Pa
        p. With a solid shaft it is E U (1 - (d/D)^2) / (2 d).

    Raises
    ------
    DomainError
        If interference is negative, a wall has no thickness, or the modulus is not above zero, anywhere.

    Notes
    -----
    ``interference_pressure`` with both materials alike; Poisson's ratio drops out. The page prints
    it in radii and radial interference. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Instructor's solutions to Budynas and Nisbett, Mechanical Engineering Design, 8th ed.,
       problems 3-64 to 3-67, eq 3-57. Mark: published.

    Examples
    --------
    A 40 mm shaft 0.059 mm over the bore of an 80 mm hub; [1]_ gives 114.5 MPa:

    >>> print(f"{same_material_pressure(59e-6, 0.040, 0.080, elastic_modulus=207e9) / 1e6:.1f} MPa")
    114.5 MPa
    """
    require_not_negative(interference=interference)
    require_tube(outside_diameter, diameter)
    require_tube(diameter, bore)
    require_positive(elastic_modulus=elastic_modulus)
    D, d, di = outside_diameter, diameter, bore
    return elastic_modulus * interference * (D**2 - d**2) * (d**2 - di**2) / (2.0 * d**3 * (D**2 - di**2))
