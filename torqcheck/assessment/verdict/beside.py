"""Numbers beside the bar that they are held against, with as many digits as show which side they are on."""

import math

from torqcheck.assessment.size.rounding import plain_number

__all__ = ["factor_beside", "percent_beside"]

MOST_DIGITS = 12


def percent_beside(share: float, bar: float) -> str:
    """
    Write a share in percent, without decimals unless it would then read as the bar that it misses.

    Parameters
    ----------
    share : float
        What was found, 1 for all.
    bar : float
        What it is held against.

    Examples
    --------
    >>> percent_beside(0.47, 0.9), percent_beside(0.89595, 0.9), percent_beside(0.89996, 0.9)
    ('47', '89.6', '89.996')
    >>> percent_beside(0.9, 0.9), percent_beside(0.904, 0.9)
    ('90', '90')
    """
    found, wanted = 100.0 * share, 100.0 * bar
    for digits in range(MOST_DIGITS):
        text = f"{found:.{digits}f}"
        if found >= wanted or float(text) < wanted:
            return text
    return text


def factor_beside(factor: float, *bars: float) -> str:
    """
    Write a safety factor with three digits, and with more where it would read as a bar that it misses.

    Examples
    --------
    >>> factor_beside(0.8284, 1.0), factor_beside(1.4987, 1.5), factor_beside(0.99997, 1.0)
    ('0.828', '1.499', '0.99997')
    """
    for digits in range(3, MOST_DIGITS):
        text = plain_number(factor, digits)
        if all(factor >= bar or float(text) < bar for bar in bars):
            break
    size = math.floor(math.log10(float(text))) if factor > 0.0 and math.isfinite(factor) else 0
    return f"{float(text):.{max(0, digits - 1 - size)}f}" if math.isfinite(factor) else text
