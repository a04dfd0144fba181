"""Letters that several formulas of this folder share."""

from torqcheck.formulas import Symbol

__all__ = [
    "BENDING_STRESS",
    "BORE",
    "HEIGHT",
    "LENGTH",
    "MAJOR",
    "MINOR",
    "MOMENT",
    "OUTER",
    "OVERHANG",
    "PITCH",
    "SHARE",
    "SHEAR_STRESS",
    "TEETH",
    "TORQUE",
]

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
MOMENT = Symbol("Mb", "N m", "bending moment")
OVERHANG = Symbol("a", "m", "distance of the force from the section or the nearer bearing")
BENDING_STRESS = Symbol("sb", "Pa", "bending stress at the surface")
SHEAR_STRESS = Symbol("tau", "Pa", "shear stress at the surface")
