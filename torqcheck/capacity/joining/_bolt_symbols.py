"""Symbols and sources that the kernels of bolts and flanges share."""

from torqcheck.formulas import Symbol
from torqcheck.provenance import Source

__all__ = [
    "BEARING_LENGTH",
    "BOLTS",
    "BOLT_DIAMETER",
    "BOLT_FORCE",
    "CIRCLE",
    "COUPLINGS",
    "FACE_SLIP",
    "INCH_THREAD",
    "METRIC_THREAD",
    "NUT",
    "NUT_FACTOR",
    "PITCH",
    "PRELOAD",
    "PROOF",
    "SCREW_STRETCH",
    "SHEAR_AREA",
    "TENSILE_AREA",
    "TIGHTENING",
    "TORQUE",
]

BOLT_DIAMETER = Symbol("d", "m", "nominal diameter of bolt or dowel")
PITCH = Symbol("p", "m", "pitch of the thread")
TENSILE_AREA = Symbol("At", "m2", "tensile stress area of the thread")
SHEAR_AREA = Symbol("A", "m2", "section of bolt or dowel in the shear plane")
PROOF = Symbol("Sp", "Pa", "proof strength of the bolt")
PRELOAD = Symbol("Fi", "N", "preload of one bolt")
TIGHTENING = Symbol("Tw", "N m", "tightening torque of one bolt")
NUT_FACTOR = Symbol("K", "-", "nut factor, by lubrication")
BOLTS = Symbol("n", "-", "number of bolts or dowels that count")
CIRCLE = Symbol("D", "m", "diameter of the circle of bolts or dowels")
TORQUE = Symbol("T", "N m", "torque through the flange")
BOLT_FORCE = Symbol("F", "N", "force across one bolt or dowel")
BEARING_LENGTH = Symbol("t", "m", "length over which bolt or dowel bears: thickness of the flange")

METRIC_THREAD = Source("Tensile area of metric threads, course notes", "", "published")
INCH_THREAD = Source("ASME B1.1, Unified Inch Screw Threads", "areas of the thread", "from memory")
NUT = Source("Budynas and Nisbett, Mechanical Engineering Design, 8th ed.", "solution of 8-29", "published")
SCREW_STRETCH = Source("Budynas and Nisbett, Mechanical Engineering Design", "ch. 8", "from memory")
FACE_SLIP = Source("Bhandari, Design of Machine Elements", "eq. 9.43", "published")
COUPLINGS = Source("Lecture page on flanged bolt couplings", "", "published")
