"""Hardness scales turned into each other, and into strength, by table.

Converted values are indicative, those of strength most of all: the lists say so themselves.
"""

import math
from bisect import bisect_right
from functools import cache
from typing import NamedTuple

from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.materials.tables import number, source, table
from torqcheck.provenance import Source

__all__ = [
    "SOFTEST_BRINELL",
    "conversion_source",
    "hb_from_hrb",
    "hb_from_hrc",
    "hb_from_hv",
    "hrc_from_hb",
    "hrc_from_hv",
    "hv_from_hb",
    "hv_from_hrc",
    "listed_yield_source",
    "tabulated_strength_from_hb",
    "ultimate_strength_from_hb",
    "yield_strength_from_hb",
    "yield_strength_of_unknown_state",
]

SOFTEST_BRINELL = 80.0
"""Softest steel that is spoken of here, HB."""

_KSI = 6.894757293168e6  # Pa
_LOW_LINE = 3.29e6  # Pa per HB: lowest ratio of strength to hardness of the list, at 34 HRC
_LOW_LINE_ENDS = 400.0  # HB
_ROUNDING = 1e-12  # a scale turned there and back must not fall off its end


class _Curve(NamedTuple):
    """Points of a rising curve."""

    x: tuple[float, ...]
    y: tuple[float, ...]

    def at(self, value: float, what: str) -> float:
        """Straight line between the points; NaN at NaN, DomainError outside."""
        x, y = self
        if math.isnan(value):
            return math.nan
        if not x[0] * (1.0 - _ROUNDING) <= value <= x[-1] * (1.0 + _ROUNDING):
            raise DomainError(f"{what} must lie between {x[0]:g} and {x[-1]:g}, not at {value:g}")
        value = min(max(value, x[0]), x[-1])
        i = min(bisect_right(x, value), len(x) - 1)
        return y[i - 1] + (y[i] - y[i - 1]) * (value - x[i - 1]) / (x[i] - x[i - 1])


def hb_from_hrc(hardness: float) -> float:
    """
    Brinell from Rockwell C hardness, by table.

    Parameters
    ----------
    hardness : float, HRC
        0 to 58. Below 20 the Rockwell C scale is out of its proper range, and read all the same.

    Returns
    -------
    float, HB

    Raises
    ------
    DomainError
        If hardness lies outside the table; above 58 HRC the Brinell scale ends.

    Notes
    -----
    20 to 58 HRC by the conversion list, below it by the rows of 0, 10 and 20 HRC of the list of
    strengths; the two agree at 20, 30, 40 and 50 HRC.

    Examples
    --------
    >>> print(f"{hb_from_hrc(39.0):.1f}")
    362.0
    """
    return _rockwell_c_to_brinell().at(hardness, "Rockwell C hardness")


def hrc_from_hb(hardness: float) -> float:
    """Return Rockwell C from Brinell hardness, 150 to 615 HB; the inverse of `hb_from_hrc`."""
    there = _rockwell_c_to_brinell()
    return _Curve(there.y, there.x).at(hardness, "Brinell hardness")


def hv_from_hrc(hardness: float) -> float:
    """Return Vickers from Rockwell C hardness, 0 to 68 HRC; below 20 by way of Brinell."""
    if hardness < 20.0:
        return hv_from_hb(hb_from_hrc(hardness))
    return _curve("hardness_HRC", "hardness_HV").at(hardness, "Rockwell C hardness")


def hrc_from_hv(hardness: float) -> float:
    """Return Rockwell C from Vickers hardness, up to 940 HV; the inverse of `hv_from_hrc`."""
    there = _curve("hardness_HRC", "hardness_HV")
    if hardness < there.y[0]:
        return hrc_from_hb(hb_from_hv(hardness))
    return _Curve(there.y, there.x).at(hardness, "Vickers hardness")


def hv_from_hb(hardness: float) -> float:
    """
    Vickers from Brinell hardness, by table.

    Parameters
    ----------
    hardness : float, HB
        80 to 615.

    Returns
    -------
    float, HV

    Raises
    ------
    DomainError
        If hardness lies outside 80 to 615 HB.

    Notes
    -----
    Below 226 HB, where the list has no Vickers column, the ratio of its softest row, 238/226, is
    continued. From memory, the usual rule there is HB = 0.95 HV, which is the same within 0.1 %.

    Examples
    --------
    >>> print(f"{hv_from_hb(300.0):.0f}")
    317
    """
    there = _curve("hardness_HB", "hardness_HV")
    if SOFTEST_BRINELL <= hardness < there.x[0]:
        return hardness * there.y[0] / there.x[0]
    return there.at(hardness, f"Brinell hardness (from {SOFTEST_BRINELL:g}, by proportion)")


def hb_from_hv(hardness: float) -> float:
    """Return Brinell from Vickers hardness, 84.3 to 653 HV; the inverse of `hv_from_hb`."""
    there = _curve("hardness_HB", "hardness_HV")
    soft = there.x[0] / there.y[0]
    if SOFTEST_BRINELL / soft <= hardness < there.y[0]:
        return hardness * soft
    return _Curve(there.y, there.x).at(hardness, "Vickers hardness (from 84.3, by proportion)")


def hb_from_hrb(hardness: float) -> float:
    """Return Brinell from Rockwell B hardness, 65.7 to 99 HRB."""
    return _curve("hardness_HRB", "hardness_HB").at(hardness, "Rockwell B hardness")


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
    ratio = _Curve(
        tuple(number(row, "hardness_HB") for row in rows),
        tuple(number(row, "yield_to_ultimate") for row in rows),
    )
    inside = min(max(hardness, ratio.x[0]), ratio.x[-1])
    lowest = ratio.at(inside, "Brinell hardness") * ultimate_strength_from_hb(hardness)
    return lowest if hardness < _listed_yield().x[0] else min(lowest, yield_strength_from_hb(hardness))


def conversion_source() -> Source:
    """Return the source of the conversion list."""
    return source(next(row for row in table("hardness_conversion") if row["part"] == "C"))


def listed_yield_source() -> Source:
    """Return the source of the list of yield strengths at its hard end."""
    return source(table("hardness_yield")[-1])


@cache
def _listed_yield() -> _Curve:
    """Return the list of yield strength (MPa) of quenched and tempered steel against hardness."""
    rows = table("hardness_yield")
    return _Curve(
        tuple(number(row, "hardness_HB") for row in rows), tuple(number(row, "yield_MPa") for row in rows)
    )


@cache
def _curve(x: str, y: str) -> _Curve:
    """Return the curve through the rows of the conversion list that hold both columns."""
    rows = [row for row in table("hardness_conversion") if row[x] and row[y]]
    if x == "hardness_HB":
        rows = [row for row in rows if row["part"] == "C"]
    return _Curve(tuple(number(row, x) for row in rows), tuple(number(row, y) for row in rows))


@cache
def _rockwell_c_to_brinell() -> _Curve:
    """Join the conversion list from 20 HRC on and, below it, the list of strengths."""
    upper = _curve("hardness_HRC", "hardness_HB")
    rows = [row for row in table("hardness_yield") if number(row, "hardness_HRC") < upper.x[0]]
    return _Curve(
        tuple(number(row, "hardness_HRC") for row in rows) + upper.x,
        tuple(number(row, "hardness_HB") for row in rows) + upper.y,
    )


@cache
def _strength_curve() -> _Curve:
    """Return strength (ksi) against Brinell hardness: both parts of the list, the lower at one hardness."""
    points: dict[float, float] = {}
    for row in table("hardness_conversion"):
        if row["hardness_HB"] and row["ultimate_ksi"]:
            hardness, strength = number(row, "hardness_HB"), number(row, "ultimate_ksi")
            points[hardness] = min(strength, points.get(hardness, strength))
    return _Curve(*zip(*sorted(points.items()), strict=True))
