"""Works that several kernels of this folder rest on."""

from torqcheck.provenance import Source

__all__ = [
    "DERIVED",
    "GUIDE",
    "GUIDE_MEMORY",
    "HERTZ",
    "LECTURE",
    "MECHANICS",
    "MOORE",
    "OLD_SHAFT_CODE",
    "PETERSON",
    "PLASTIC",
    "SHIGLEY",
    "STRAIGHT",
]

_HANDBOOK = "Machinery's Handbook, Involute Splines (after D. W. Dudley, 1957)"

GUIDE = Source(_HANDBOOK, "eqs 1 to 3", "published")
GUIDE_MEMORY = Source(_HANDBOOK, "eqs 4 to 8", "from memory")
HERTZ = Source(_HANDBOOK, "crowned splines, unnumbered; constant derived from Hertz", "from memory")
LECTURE = Source("Strength-of-materials lecture, torsion of circular shafts", "module 6", "published")
PLASTIC = Source("Lecture on elastoplastic torsion, 2018", "solid round shaft", "published")
SHIGLEY = Source("Budynas and Nisbett, Mechanical Engineering Design, 9th ed., 2011", "p 347", "published")
STRAIGHT = Source("Lecture slides on splines after Bhandari, Design of Machine Elements", "", "published")
DERIVED = Source("Derived; the derivation stands in the notes of the function", "", "derived")
MECHANICS = Source("Standard mechanics of materials", "beams and round shafts", "derived")
MOORE = Source("H. F. Moore, University of Illinois Bulletin 42, 1910", "shafts with keyways", "from memory")
PETERSON = Source("Peterson's Stress Concentration Factors", "net section of a cross hole", "from memory")
OLD_SHAFT_CODE = Source("ASME code for transmission shafting, 1927", "after handbooks", "from memory")
