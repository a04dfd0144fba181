"""Lengths of plain data: millimetres, without the last digits, which are rounding of the arithmetic."""

from torqcheck.geometry.standards.limits import Band

__all__ = ["band_mm", "rounded_mm"]


def rounded_mm(length: float | None) -> float | None:
    """Return a length, m, in mm to a millionth; None stays None."""
    return None if length is None else round(length * 1e3, 6)


def band_mm(band: Band | None) -> list[float | None] | None:
    """Return both ends of a band, m, in mm; None for no band at all."""
    return None if band is None else [rounded_mm(band.minimum), rounded_mm(band.maximum)]
