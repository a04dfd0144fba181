"""Letters and works that the formulas of interference fits, clamps and bushes share."""

from torqcheck.formulas import Symbol
from torqcheck.provenance import Source

__all__ = [
    "AXIAL",
    "DENSITY",
    "DIN_7190",
    "FRICTION",
    "HUB_DENSITY",
    "HUB_EXPANSION",
    "HUB_MODULUS",
    "HUB_OUTSIDE",
    "HUB_POISSON",
    "INTERFERENCE",
    "MODULUS",
    "POISSON",
    "PRESSURE",
    "SCREWS",
    "SCREW_FORCE",
    "SEAT",
    "SEAT_LENGTH",
    "SHAFT_BORE",
    "SHAFT_DENSITY",
    "SHAFT_EXPANSION",
    "SHAFT_MODULUS",
    "SHAFT_POISSON",
    "SPEED",
    "THICK_CYLINDER",
    "YIELD",
]

THICK_CYLINDER = Source("Thick cylinders after Lame, in plane stress", "derived again", "derived")
DIN_7190 = Source("DIN 7190, Interference fits", "elastic design", "from memory")

INTERFERENCE = Symbol("U", "m", "interference on the diameter: shaft minus bore, before joining")
SEAT = Symbol("d", "m", "diameter of the seat")
SEAT_LENGTH = Symbol("L", "m", "length of the seat")
HUB_OUTSIDE = Symbol("D", "m", "outside diameter of the hub")
SHAFT_BORE = Symbol("di", "m", "bore of the shaft; 0 if it is solid")
PRESSURE = Symbol("p", "Pa", "pressure in the seat")
FRICTION = Symbol("mu", "-", "coefficient of friction")
AXIAL = Symbol("Fa", "N", "axial force that the joint passes on")
MODULUS = Symbol("E", "Pa", "modulus of elasticity")
POISSON = Symbol("nu", "-", "Poisson's ratio")
DENSITY = Symbol("rho", "kg/m3", "density")
HUB_MODULUS = Symbol("Eo", "Pa", "modulus of elasticity of the hub")
HUB_POISSON = Symbol("nuo", "-", "Poisson's ratio of the hub")
HUB_DENSITY = Symbol("rhoo", "kg/m3", "density of the hub")
HUB_EXPANSION = Symbol("ao", "1/K", "thermal expansion of the hub")
SHAFT_MODULUS = Symbol("Ei", "Pa", "modulus of elasticity of the shaft")
SHAFT_POISSON = Symbol("nui", "-", "Poisson's ratio of the shaft")
SHAFT_DENSITY = Symbol("rhoi", "kg/m3", "density of the shaft")
SHAFT_EXPANSION = Symbol("ai", "1/K", "thermal expansion of the shaft")
SPEED = Symbol("w", "rad/s", "speed of the joint")
YIELD = Symbol("Re", "Pa", "yield strength in tension")
SCREW_FORCE = Symbol("F", "N", "preload of one screw")
SCREWS = Symbol("n", "-", "number of screws")
