"""Units in which the tables and formulas of standards give their lengths, in m."""

__all__ = ["INCH", "MICROMETRE", "MILLIMETRE"]

INCH = 0.0254
MILLIMETRE = 1e-3
MICROMETRE = 1e-6
