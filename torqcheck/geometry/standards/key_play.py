"""Play of a key in its keyways, by the tolerance zones of its width."""

from torqcheck.errors import DomainError
from torqcheck.geometry.standards.iso_286 import ISO_286, grade_tolerance, shaft_deviation
from torqcheck.provenance import Source

__all__ = ["KEY_PLAY_SOURCE", "key_play"]

KEY_PLAY_SOURCE: Source = ISO_286


def key_play(width: float, fit: str) -> tuple[float, float]:
    """
    Least and greatest play of a key across its width, in shaft and hub together.

    Parameters
    ----------
    width : float, m
        Nominal width; the key itself lies in h9.
    fit : str
        ``tight`` (P9 in both, fitted by hand), ``normal`` (N9 in the shaft, JS9 in the hub) or ``sliding``
        (H9, D10).

    Returns
    -------
    tuple of float, m
        What the sides can be apart when they are new.

    Raises
    ------
    DomainError
        If the width lies beyond the table of grades, or the fit is none of the three.

    Notes
    -----
    A zone that is above the key in its tolerance counts as no play, not as negative play that another
    gap could use up. A key that is narrower than P9 by its tolerance can be loose as well; whoever fits it
    by hand takes the next one.

    Examples
    --------
    >>> least, most = key_play(0.008, "normal")
    >>> print(f"{least * 1e6:.0f} to {most * 1e6:.0f} um")
    0 to 90 um
    """
    grade = grade_tolerance(width, 9)
    if fit == "tight":
        return 0.0, 0.0
    if fit == "normal":
        # the shaft: up to nominal, less a key that is a grade below; the hub: half a grade wider
        return 0.0, grade + 1.5 * grade
    if fit == "sliding":
        gap = shaft_deviation(width, "d")
        return gap, 2.0 * grade + gap + grade_tolerance(width, 10) + grade
    raise DomainError(f"{fit!r} is no fit of a key; they are tight, normal, sliding")
