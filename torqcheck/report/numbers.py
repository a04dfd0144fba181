"""Numbers for people: few significant digits, never more than the reader can use."""

import math

from torqcheck.units import Kind, System, in_unit

__all__ = ["about", "band_text", "both", "chance_words", "or_dash", "significant"]


def significant(value: float, digits: int = 3) -> str:
    """
    Round to a number of significant digits and write without an exponent where that reads well.

    Examples
    --------
    >>> significant(1234.5), significant(0.012345), significant(27.0), significant(2.5e9)
    ('1230', '0.0123', '27.0', '2.50e9')
    """
    if math.isnan(value):
        return "?"
    if math.isinf(value):
        return "no limit"
    if value == 0.0:
        return "0"
    exponent = math.floor(math.log10(abs(value)))
    rounded = round(value, digits - 1 - exponent)
    if rounded and math.floor(math.log10(abs(rounded))) > exponent:
        exponent += 1
    if not -4 <= exponent < 6:
        mantissa, power = f"{rounded:.{digits - 1}e}".split("e")
        return f"{mantissa}e{int(power)}"
    return f"{rounded:.{max(0, digits - 1 - exponent)}f}"


def or_dash(value: float | None, digits: int = 3) -> str:
    """Write a value with a number of significant digits; a dash where there is none."""
    return "-" if value is None else significant(value, digits)


def about(hours: float) -> str:
    """Write a life in hours with the two digits that it deserves."""
    return significant(hours, 2)


def both(value: float, kind: Kind, systems: tuple[System, ...], digits: int = 3) -> str:
    """Write a value in one or both unit systems, the second in brackets."""
    texts = []
    for system in systems:
        number, unit = in_unit(value, kind, system)
        texts.append(f"{significant(number, digits)} {unit}")
    if len(set(texts)) == 1:
        return texts[0]
    return f"{texts[0]} ({texts[1]})"


def band_text(ends: tuple[float, float], kind: Kind | None, systems: tuple[System, ...]) -> str:
    """
    Write a band from one end to the other, both ends in one notation.

    Examples
    --------
    >>> band_text((2e-6, 2e-4), None, ("si",)), band_text((5.0, 30.0), None, ("si",))
    ('2.0e-6 to 2.0e-4', '5.0 to 30')
    >>> band_text((0.0, 2.7e-5), "length", ("si",))
    '0 mm to 0.027 mm'
    """
    if kind is not None:
        low, high = (both(end, kind, systems, 2) for end in ends)
    else:
        low, high = (significant(end, 2) for end in ends)
        if "e" in low + high:
            low, high = (f"{end:.1e}".replace("e-0", "e-").replace("e+0", "e") for end in ends)
    return f"{low} to {high}"


def chance_words(chance: float, draws: int) -> str:
    """
    Say a chance that was counted in so many draws, with no more digits than they allow.

    Examples
    --------
    >>> chance_words(0.0, 512), chance_words(0.024, 512), chance_words(0.3, 512), chance_words(1.0, 512)
    ('less than 1 in 100', 'about 1 in 40', 'about 3 in 10', 'all but certain')
    """
    least = 10 ** math.floor(math.log10(max(10.0, draws / 3.0)))  # none in so many draws proves no less
    if chance < 1.0 / least:
        return f"less than 1 in {least}"
    if chance > 1.0 - 1.0 / least:
        return "all but certain"
    if chance > 0.95:
        return "more than 19 in 20"
    if chance >= 0.15:
        return f"about {round(10.0 * chance)} in 10"
    one_in = 1.0 / chance
    if one_in < 10.0:
        return f"about 1 in {round(one_in)}"
    return (
        f"about 1 in {5 * round(one_in / 5.0)}" if one_in < 50.0 else f"about 1 in {significant(one_in, 1)}"
    )
