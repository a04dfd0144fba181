"""Reading a hardness as it is written on a sheet: "32 HRC", "300 HB +/- 10"."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, cast

from torqcheck.errors import DomainError, QuantityError
from torqcheck.materials.hardness import (
    hb_from_hrb,
    hb_from_hrc,
    hb_from_hv,
    hrc_from_hb,
    hrc_from_hv,
    hv_from_hb,
    hv_from_hrc,
)

__all__ = ["Hardness", "Scale", "at_value", "read_hardness"]

Scale = Literal["HB", "HRB", "HRC", "HV"]

_LONGEST = 60
_EXAMPLE = 'write for example "32 HRC", "300 HB" or "310 HV +/- 10"'
_LIMITS: dict[Scale, tuple[float, float]] = {
    "HB": (80.0, 615.0),
    "HRB": (65.7, 99.0),
    "HRC": (0.0, 68.0),
    "HV": (85.0, 940.0),
}
_OTHER_SCALE = {
    "HB": "above 615 HB give the reading in HRC or HV",
    "HRB": "below 65.7 or above 99 HRB give it in HB",
    "HRC": "below 0 HRC give it in HB; above 68 HRC check the reading",
    "HV": "check the reading",
}
_FIGURE = r"(\d+(?:\.\d*)?)"
_TOLERANCE = rf"(?:\s*(?:\+/-|\u00b1)\s*{_FIGURE})?"
_READING = re.compile(
    rf"{_FIGURE}{_TOLERANCE}\s*(HBW|HB|HRB|HRC|HV)(?:\s?10/3000|\d{{1,2}})?{_TOLERANCE}", re.ASCII | re.I
)
_BAND = re.compile(rf"{_FIGURE}\s*(?:-|to)\s*{_FIGURE}\s*(HBW|HB|HRB|HRC|HV)", re.ASCII | re.I)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardness:
    """A hardness reading, on its own scale and converted to the others.

    A converted value is None where that scale does not reach: Brinell ends at 615 HB (58 HRC),
    Rockwell C begins at 150 HB.
    """

    text: str
    scale: Scale
    value: float
    tolerance: float
    hb: float | None
    hb_tolerance: float | None
    hrc: float | None
    hv: float | None

    @property
    def lowest(self) -> "Hardness":
        """The reading less its tolerance: what may be relied on."""
        return self if not self.tolerance else _hardness(self.text, self.scale, self.value - self.tolerance)


def read_hardness(text: str) -> Hardness:
    """
    Return the reading that `text` gives, the plus-minus before or after the scale.

    Parameters
    ----------
    text : str
        As in the file: 32 HRC, 300 +/- 10 HB.

    Raises
    ------
    QuantityError
        If the text is no hardness; says what is wrong with it and how to mend it.
    """
    written = " ".join(text.split())
    match = _READING.fullmatch(written) if len(written) <= _LONGEST else None
    if match is None:
        raise QuantityError(_what_is_wrong(written), _mend(written))
    value, before, scale_text, after = match.groups()
    if before and after:
        raise QuantityError("has two tolerances", "keep one of them")
    scale = cast(Scale, scale_text.upper().replace("HBW", "HB"))
    reading, tolerance = float(value), float(before or after or 0.0)
    least, most = _LIMITS[scale]
    if not least <= reading <= most:
        raise QuantityError(f"is outside {least:g} to {most:g} {scale}", _OTHER_SCALE[scale])
    if reading - tolerance < least:
        raise QuantityError(
            f"has a tolerance that reaches below {least:g} {scale}", "give a smaller tolerance"
        )
    return _hardness(written, scale, reading, tolerance)


def at_value(reading: Hardness, value: float) -> Hardness:
    """
    Return a reading at another value of its own scale, inside the scale's ends; taken as exact.

    Parameters
    ----------
    reading : Hardness
        Whose scale and text are kept.
    value : float
        On that scale.
    """
    low, high = _LIMITS[reading.scale]
    return _hardness(reading.text, reading.scale, min(max(value, low), high))


def _hardness(text: str, scale: Scale, value: float, tolerance: float = 0.0) -> Hardness:
    """Build a reading from its number; converts what can be converted."""
    hb, hrc, hv = _converted(scale, value)
    low = _converted(scale, value - tolerance)[0] if tolerance else hb
    return Hardness(
        text=text,
        scale=scale,
        value=value,
        tolerance=tolerance,
        hb=hb,
        hb_tolerance=None if hb is None or low is None else hb - low,
        hrc=hrc,
        hv=hv,
    )


def _converted(scale: Scale, value: float) -> tuple[float | None, float | None, float | None]:
    """Brinell, Rockwell C and Vickers; None where a scale does not reach."""
    if scale == "HRC":
        return _reached(hb_from_hrc, value), value, _reached(hv_from_hrc, value)
    if scale == "HV":
        return _reached(hb_from_hv, value), _reached(hrc_from_hv, value), value
    brinell = hb_from_hrb(value) if scale == "HRB" else value
    return brinell, _reached(hrc_from_hb, brinell), _reached(hv_from_hb, brinell)


def _reached(convert: Callable[[float], float], value: float) -> float | None:
    """Convert, or None outside the scale."""
    try:
        return convert(value)
    except DomainError:
        return None


def _what_is_wrong(text: str) -> str:
    """Say what keeps a text from being a hardness."""
    if not text:
        return "is empty"
    if len(text) > _LONGEST:
        return f"is longer than {_LONGEST} characters"
    if re.fullmatch(_FIGURE, text, re.ASCII):
        return "has no scale"
    if "," in text:
        return "has a comma"
    if _BAND.fullmatch(text):
        return "is a band"
    return "is no hardness reading"


def _mend(text: str) -> str:
    """Say how a text would become a hardness."""
    if len(text) <= _LONGEST and re.fullmatch(r"\d+,\d+\D.*", text, re.ASCII):
        return f'write "{text.replace(",", ".")}"'
    band = _BAND.fullmatch(text) if len(text) <= _LONGEST else None
    if band:
        low, high = sorted((float(band[1]), float(band[2])))
        return f'write "{(low + high) / 2:g} {band[3]} +/- {(high - low) / 2:g}"'
    return _EXAMPLE
