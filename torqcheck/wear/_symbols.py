"""Letters and sources that several formulas of this folder share."""

from torqcheck.formulas import Symbol
from torqcheck.provenance import Source

__all__ = [
    "ANGLE",
    "ARCHARD",
    "COEFFICIENT",
    "HEIGHT",
    "KINEMATICS",
    "LENGTH",
    "PRESSURE",
    "RADIUS",
    "TEETH",
    "TILT",
    "TORQUE",
    "WEAR_DERIVED",
]

ANGLE = Symbol("al", "rad", "pressure angle")
COEFFICIENT = Symbol("k", "m2/N", "wear coefficient of one body: volume per load and path")
HEIGHT = Symbol("hc", "m", "height of the contact band, measured along the flank")
LENGTH = Symbol("L", "m", "engaged length")
PRESSURE = Symbol("p", "Pa", "mean pressure on the flank")
RADIUS = Symbol("r", "m", "pitch radius")
TEETH = Symbol("z", "-", "number of teeth")
TILT = Symbol("ga", "rad", "angle between the two axes, fixed in space")
TORQUE = Symbol("T", "N m", "torque in the joint")

ARCHARD = Source(
    "J. F. Archard and W. Hirst, Proceedings of the Royal Society A 236, 1956, 397", "wear law", "from memory"
)
KINEMATICS = Source("Derived from rigid kinematics of two tilted axes", "", "derived")
WEAR_DERIVED = Source("Derived from the linear wear law and rigid kinematics", "", "derived")
