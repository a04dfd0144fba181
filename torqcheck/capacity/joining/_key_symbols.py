"""Letters that the formulas of keys, pins and set screws share."""

from torqcheck.formulas import Symbol

__all__ = [
    "ALLOWABLE",
    "CARRYING",
    "HUB_OUTSIDE",
    "KEYS",
    "KEY_HEIGHT",
    "PIN",
    "SAFETY",
    "SEAT",
    "SHAFT",
    "SHAFT_DEPTH",
    "SHEAR_YIELD",
    "WIDTH",
]

SHAFT = Symbol("d", "m", "diameter of the shaft in the joint")
WIDTH = Symbol("w", "m", "width of the key")
KEY_HEIGHT = Symbol("h", "m", "height of the key")
SHAFT_DEPTH = Symbol("t1", "m", "depth of the keyway in the shaft")
SEAT = Symbol("hb", "m", "height over which the side of the key bears")
CARRYING = Symbol("l", "m", "length that carries")
KEYS = Symbol("i", "-", "keys or pins that carry, as many of them as count")
SHEAR_YIELD = Symbol("tau_y", "Pa", "yield strength in shear")
ALLOWABLE = Symbol("p", "Pa", "pressure that the weaker side bears")
SAFETY = Symbol("n", "-", "safety factor that is wanted")
PIN = Symbol("dp", "m", "diameter of the pin through or beside the shaft")
HUB_OUTSIDE = Symbol("Do", "m", "outside diameter of the hub")
