"""Works that several kernels of this folder rest on."""

from torqcheck.provenance import Source

__all__ = ["DERIVED", "DIN_743", "HANDBOOK", "HANDBOOK_MEMORY", "LECTURES", "MEMORY", "SPLINE_STANDARD"]

_WORK = "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., 2011"

HANDBOOK = Source(_WORK, "chapter 6", "published")
HANDBOOK_MEMORY = Source(_WORK, "chapter 6, formula behind a chart", "from memory")
MEMORY = Source("Textbooks on fatigue", "", "from memory")
LECTURES = Source("Miner, Haibach; textbooks on fatigue", "damage sum", "from memory")
DIN_743 = Source("DIN 743, load capacity of shafts and axles", "outline", "from memory")
SPLINE_STANDARD = Source("DIN 5466 and GB/T 17855, load capacity of splines", "torsion", "from memory")
DERIVED = Source("Derived; the derivation stands in the notes of the function", "", "derived")
