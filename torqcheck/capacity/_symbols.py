"""Letters that several formulas of this folder share."""

from torqcheck.formulas import Symbol

__all__ = ["BORE", "HEIGHT", "LENGTH", "MAJOR", "MINOR", "OUTER", "PITCH", "SHARE", "TEETH", "TORQUE"]

TORQUE = Symbol("T", "N m", "torque in the joint")
OUTER = Symbol("D", "m", "outer (or root) diameter")
BORE = Symbol("d", "m", "diameter of the concentric hole")
PITCH = Symbol("D", "m", "pitch diameter")
TEETH = Symbol("N", "-", "number of teeth")
LENGTH = Symbol("L", "m", "effective length of engagement")
HEIGHT = Symbol("h", "m", "radial depth of engagement")
SHARE = Symbol("kz", "-", "share of the teeth that carry load")
MAJOR = Symbol("D", "m", "major diameter of the straight-sided spline")
MINOR = Symbol("d", "m", "minor diameter of the straight-sided spline")
