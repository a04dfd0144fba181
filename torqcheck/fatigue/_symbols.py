"""Letters that several formulas of this folder share."""

from torqcheck.formulas import Symbol

__all__ = [
    "AMPLITUDE",
    "COEFFICIENT",
    "CONCENTRATION",
    "ENDURANCE",
    "EXPONENT",
    "FILLET",
    "LOW_CYCLE",
    "MEAN",
    "REVERSED",
    "STRENGTH",
    "STRENGTH_SIZE",
    "ULTIMATE",
    "YIELD",
]

ULTIMATE = Symbol("Sut", "Pa", "ultimate strength in tension")
YIELD = Symbol("Sy", "Pa", "yield strength of the same kind, Sy or Ssy")
ENDURANCE = Symbol("Se", "Pa", "endurance limit of the part, reversed stress")
LOW_CYCLE = Symbol("S3", "Pa", "amplitude that is borne for 1000 cycles, f Sut or f Ssu")
COEFFICIENT = Symbol("a", "Pa", "coefficient of the strength line S = a N^b")
EXPONENT = Symbol("b", "-", "exponent of the strength line S = a N^b, negative")
AMPLITUDE = Symbol("sa", "Pa", "amplitude of the stress, half its range")
MEAN = Symbol("sm", "Pa", "mean of the stress")
STRENGTH = Symbol("S", "Pa", "strength that the mean stress is held against, ultimate or yield")
REVERSED = Symbol("sr", "Pa", "fully reversed amplitude that does the same damage")
FILLET = Symbol("r", "m", "smallest radius of the root fillet")
CONCENTRATION = Symbol("Kts", "-", "elastic stress concentration in torsion")
STRENGTH_SIZE = Symbol("K1", "-", "size factor of the strength, heat treatment of thick sections")
