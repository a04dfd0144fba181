"""Hardness scales turned into each other, by table; converted values are indicative: the lists say so."""

from functools import cache

from torqcheck.materials._curve import Curve
from torqcheck.materials.tables import number, table

__all__ = [
    "SOFTEST_BRINELL",
    "hb_from_hrb",
    "hb_from_hrc",
    "hb_from_hv",
    "hrc_from_hb",
    "hrc_from_hv",
    "hv_from_hb",
    "hv_from_hrc",
]

SOFTEST_BRINELL = 80.0
"""Softest steel that is spoken of here, HB."""


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
        Brinell hardness.

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
    """
    Return Rockwell C from Brinell hardness, 150 to 615 HB; the inverse of `hb_from_hrc`.

    Parameters
    ----------
    hardness : float, HB
        150 to 615.
    """
    there = _rockwell_c_to_brinell()
    return Curve(there.y, there.x).at(hardness, "Brinell hardness")


def hv_from_hrc(hardness: float) -> float:
    """
    Return Vickers from Rockwell C hardness, 0 to 68 HRC; below 20 by way of Brinell.

    Parameters
    ----------
    hardness : float, HRC
        0 to 68.
    """
    if hardness < 20.0:
        return hv_from_hb(hb_from_hrc(hardness))
    return _curve("hardness_HRC", "hardness_HV").at(hardness, "Rockwell C hardness")


def hrc_from_hv(hardness: float) -> float:
    """
    Return Rockwell C from Vickers hardness, up to 940 HV; the inverse of `hv_from_hrc`.

    Parameters
    ----------
    hardness : float, HV
        Up to 940.
    """
    there = _curve("hardness_HRC", "hardness_HV")
    if hardness < there.y[0]:
        return hrc_from_hb(hb_from_hv(hardness))
    return Curve(there.y, there.x).at(hardness, "Vickers hardness")


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
        Vickers hardness.

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
    """
    Return Brinell from Vickers hardness, 84.3 to 653 HV; the inverse of `hv_from_hb`.

    Parameters
    ----------
    hardness : float, HV
        84.3 to 653.
    """
    there = _curve("hardness_HB", "hardness_HV")
    soft = there.x[0] / there.y[0]
    if SOFTEST_BRINELL / soft <= hardness < there.y[0]:
        return hardness * soft
    return Curve(there.y, there.x).at(hardness, "Vickers hardness (from 84.3, by proportion)")


def hb_from_hrb(hardness: float) -> float:
    """
    Return Brinell from Rockwell B hardness, 65.7 to 99 HRB.

    Parameters
    ----------
    hardness : float, HRB
        65.7 to 99.
    """
    return _curve("hardness_HRB", "hardness_HB").at(hardness, "Rockwell B hardness")


@cache
def _curve(x: str, y: str) -> Curve:
    """Return the curve through the rows of the conversion list that hold both columns."""
    rows = [row for row in table("hardness_conversion") if row[x] and row[y]]
    if x == "hardness_HB":
        rows = [row for row in rows if row["part"] == "C"]
    return Curve(tuple(number(row, x) for row in rows), tuple(number(row, y) for row in rows))


@cache
def _rockwell_c_to_brinell() -> Curve:
    """Join the conversion list from 20 HRC on and, below it, the list of strengths."""
    upper = _curve("hardness_HRC", "hardness_HB")
    rows = [row for row in table("hardness_yield") if number(row, "hardness_HRC") < upper.x[0]]
    return Curve(
        tuple(number(row, "hardness_HRC") for row in rows) + upper.x,
        tuple(number(row, "hardness_HB") for row in rows) + upper.y,
    )
