"""Works that several kernels of this folder rest on."""

from torqcheck.provenance import Source

__all__ = [
    "DERIVED",
    "DIN_743",
    "HANDBOOK",
    "HANDBOOK_MEMORY",
    "HANDBOOK_YIELD",
    "LECTURES",
    "LOADED_KEYSEAT",
    "MEMORY",
    "NORTON",
    "PETERSON",
    "ROARK",
    "SHAFT_DESIGN",
    "SHAFT_STANDARD",
    "SHOULDERS",
    "SPLINE_STANDARD",
]

_WORK = "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., 2011"

HANDBOOK = Source(_WORK, "chapter 6", "published")
HANDBOOK_MEMORY = Source(_WORK, "chapter 6, formula behind a chart", "from memory")
MEMORY = Source("Textbooks on fatigue", "", "from memory")
LECTURES = Source("Miner, Haibach; textbooks on fatigue", "damage sum", "from memory")
DIN_743 = Source("DIN 743, load capacity of shafts and axles", "outline", "from memory")
SPLINE_STANDARD = Source("DIN 5466 and GB/T 17855, load capacity of splines", "torsion", "from memory")
DERIVED = Source("Derived; the derivation stands in the notes of the function", "", "derived")
PETERSON = Source(
    "Pilkey, Peterson's Stress Concentration Factors", "charts 3.10 to 3.12, 5.1, 5.2", "from memory"
)
NORTON = Source("Norton, Machine Design", "appendix C", "from memory")
SHOULDERS = Source(
    "Peterson's Stress Concentration Factors; Norton, Machine Design",
    "shoulder fillet, the larger",
    "from memory",
)
ROARK = Source("Roark's Formulas for Stress and Strain; Peterson", "Table 17.1, cross hole", "from memory")
LOADED_KEYSEAT = Source(f"{_WORK}, Table 7-1; scaled with Peterson's curve", "p 373", "derived")
SHAFT_DESIGN = Source("Budynas and Nisbett, Mechanical Engineering Design, 8th ed.", "chapter 7", "published")
SHAFT_STANDARD = Source("ANSI/ASME B106.1M, transmission shafting, 1985", "withdrawn", "from memory")
HANDBOOK_YIELD = Source(_WORK, "eqs 7-15 and 7-16", "from memory")
