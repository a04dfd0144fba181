"""Strength of steel from its hardness, by table; indicative, as the lists say themselves."""

from functools import cache

from torqcheck.formulas import Symbol, formula
from torqcheck.materials._curve import Curve
from torqcheck.materials.hardness import SOFTEST_BRINELL
from torqcheck.materials.tables import number, source, table
from torqcheck.provenance import Source

__all__ = [
    "listed_yield_source",
    "tabulated_strength_from_hb",
    "ultimate_strength_from_hb",
    "yield_strength_from_hb",
    "yield_strength_of_unknown_state",
]

_KSI = 6.894757293168e6  # Pa
_LOW_LINE = 3.29e6  # Pa per HB: lowest ratio of strength to hardness of the list, at 34 HRC
_LOW_LINE_ENDS = 400.0  # HB


def tabulated_strength_from_hb(hardness: float) -> float:
    """
    Ultimate strength that the conversion list prints beside a Brinell hardness.

    Parameters
    ----------
    hardness : float, HB
        111 to 615.

    Returns
    -------
    float, Pa
        Ultimate strength.

    Raises
    ------
    DomainError
        If hardness lies outside 111 to 615 HB.

    Notes
    -----
    Where the two parts of the list overlap (237 HB: 114 and 115 ksi) the lower value is taken.

    Examples
    --------
    >>> print(f"{tabulated_strength_from_hb(286.0) / 1e6:.1f} MPa")
    951.5 MPa
    """
    return _KSI * _strength_curve().at(hardness, "Brinell hardness")


@formula(
    "Sut = min(table(HB), 3.29 MPa x HB)   up to 400 HB, the table above",
    result=Symbol("Sut", "Pa", "ultimate strength that the hardness proves"),
    source=Source("Conversion list of the ASTM E140 kind, stockholder's reprint", "lowest ratio", "derived"),
    hardness=Symbol("HB", "HB", "Brinell hardness"),
)
def ultimate_strength_from_hb(hardness: float) -> float:
    """
    Ultimate strength that a Brinell hardness of steel proves: the low side of the scatter.

    ::

        Sut = min(table(HB), 3.29 MPa x HB)   up to 400 HB, the table above

    Parameters
    ----------
    hardness : float, HB
        80 to 615. Below 111 HB, where the table ends, the straight line alone.

    Returns
    -------
    float, Pa
        Ultimate strength.

    Raises
    ------
    DomainError
        If hardness lies outside 80 to 615 HB.

    Notes
    -----
    The textbook rule, 0.5 ksi or 3.4 MPa x HB [1]_, is up to 5 % high against the list between 131
    and 371 HB. Not for iron, nor for plain carbon steel quenched in water, whose skin is harder than
    its core.

    References
    ----------
    .. [1] Shigley, Mechanical Engineering Design, Eq. (2-21). Mark: from memory.

    Examples
    --------
    >>> print(f"{ultimate_strength_from_hb(300.0) / 1e6:.0f} MPa")
    987 MPa
    """
    line = _LOW_LINE * hardness
    if SOFTEST_BRINELL <= hardness < _strength_curve().x[0]:
        return line
    tabulated = tabulated_strength_from_hb(hardness)
    return min(tabulated, line) if hardness <= _LOW_LINE_ENDS else tabulated


def yield_strength_from_hb(hardness: float) -> float:
    """
    Yield strength of quenched and tempered steel of a Brinell hardness.

    Parameters
    ----------
    hardness : float, HB
        150 to 514.

    Returns
    -------
    float, Pa
        Yield strength.

    Raises
    ------
    DomainError
        If hardness lies outside 150 to 514 HB.

    Notes
    -----
    By the list of strengths after SAE J413. Its row of 30 HRC prints a yield of 941 MPa, which
    contradicts its own torsional yield, 503 MPa, and the factor 0.6 of all other rows; 838 MPa is
    taken. Not for rolled, annealed or normalised steel, which yields much earlier: see
    `yield_strength_of_unknown_state`.

    Examples
    --------
    >>> print(f"{yield_strength_from_hb(286.0) / 1e6:.0f} MPa")
    838 MPa
    """
    return 1e6 * _listed_yield().at(hardness, "Brinell hardness")


@formula(
    "Sy = min(r(HB) Sut(HB), list(HB))",
    result=Symbol("Sy", "Pa", "yield strength that the hardness proves"),
    source=Source("Own choice of this project", "lowest ratios of the steel tables", "assumed"),
    hardness=Symbol("HB", "HB", "Brinell hardness"),
)
def yield_strength_of_unknown_state(hardness: float) -> float:
    """
    Yield strength of a steel of which nothing but the hardness is known.

    ::

        Sy = min(r(HB) Sut(HB), list(HB))

    Parameters
    ----------
    hardness : float, HB
        80 to 514.

    Returns
    -------
    float, Pa
        Yield strength.

    Raises
    ------
    DomainError
        If hardness lies outside 80 to 514 HB.

    Notes
    -----
    Hardness proves an ultimate strength, not how the steel came by it. Rolled or normalised carbon
    steel yields at 0.52 of it or more, and is met up to about 200 HB; normalised alloy steel at 0.64,
    up to about 300 HB; from 371 HB on only quenched and tempered steel is that hard all through, at
    0.90. r is 0.52 up to the first, 0.90 from the last, straight between; list is that of
    `yield_strength_from_hb`, from where it begins. Annealed spring steel
    yields earlier still (5160 at 0.38) and is not covered: it is no state to put into service.

    References
    ----------
    .. [1] EN 10083-2:2006, C45E normalised; ASM values of AISI 4140, normalised. Mark: derived.

    Examples
    --------
    >>> print(f"{yield_strength_of_unknown_state(160.0) / 1e6:.0f} MPa")
    274 MPa
    """
    rows = table("yield_ratio_floor")
    ratio = Curve(
        tuple(number(row, "hardness_HB") for row in rows),
        tuple(number(row, "yield_to_ultimate") for row in rows),
    )
    inside = min(max(hardness, ratio.x[0]), ratio.x[-1])
    lowest = ratio.at(inside, "Brinell hardness") * ultimate_strength_from_hb(hardness)
    return lowest if hardness < _listed_yield().x[0] else min(lowest, yield_strength_from_hb(hardness))


def listed_yield_source() -> Source:
    """Return the source of the list of yield strengths at its hard end."""
    return source(table("hardness_yield")[-1])


@cache
def _listed_yield() -> Curve:
    """Return the list of yield strength (MPa) of quenched and tempered steel against hardness."""
    rows = table("hardness_yield")
    return Curve(
        tuple(number(row, "hardness_HB") for row in rows), tuple(number(row, "yield_MPa") for row in rows)
    )


@cache
def _strength_curve() -> Curve:
    """Return strength (ksi) against Brinell hardness: both parts of the list, the lower at one hardness."""
    points: dict[float, float] = {}
    for row in table("hardness_conversion"):
        if row["hardness_HB"] and row["ultimate_ksi"]:
            hardness, strength = number(row, "hardness_HB"), number(row, "ultimate_ksi")
            points[hardness] = min(strength, points.get(hardness, strength))
    return Curve(*zip(*sorted(points.items()), strict=True))
