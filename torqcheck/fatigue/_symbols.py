"""Letters that several formulas of this folder share."""

from torqcheck.formulas import Symbol

__all__ = [
    "ALTERNATING",
    "AMPLITUDE",
    "BENDING_CONCENTRATION",
    "BENDING_NOTCH",
    "BORE",
    "BORE_SHARE",
    "COEFFICIENT",
    "CONCENTRATION",
    "ENDURANCE",
    "EXPONENT",
    "FILLET",
    "HOLE",
    "LARGER",
    "LEAST",
    "LOW_CYCLE",
    "MEAN",
    "MEAN_LOAD",
    "NOTCH_RADIUS",
    "REVERSED",
    "SAFETY",
    "SECTION",
    "SMALLER",
    "STRENGTH",
    "STRENGTH_SIZE",
    "TENSILE_YIELD",
    "TORSION_NOTCH",
    "ULTIMATE",
    "WANTED",
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
BENDING_CONCENTRATION = Symbol("Kt", "-", "elastic stress concentration in bending")
LARGER = Symbol("D", "m", "diameter of the thicker length")
SMALLER = Symbol("d", "m", "diameter of the thinner length")
NOTCH_RADIUS = Symbol("r", "m", "radius of the notch")
SECTION = Symbol("d", "m", "diameter of the section")
BORE = Symbol("di", "m", "diameter of the concentric hole")
BORE_SHARE = Symbol("q", "-", "bore over diameter")
HOLE = Symbol("2 r", "m", "diameter of the hole across the shaft")
ALTERNATING = Symbol("A", "N m", "combined load, alternating")
MEAN_LOAD = Symbol("B", "N m", "combined load, mean")
SAFETY = Symbol("n", "-", "safety factor for endless life")
WANTED = Symbol("n", "-", "safety factor that is wanted")
LEAST = Symbol("d", "m", "least diameter")
TENSILE_YIELD = Symbol("Sy", "Pa", "yield strength in tension")
BENDING_NOTCH = Symbol("Kf", "-", "fatigue notch factor in bending")
TORSION_NOTCH = Symbol("Kfs", "-", "fatigue notch factor in torsion")
