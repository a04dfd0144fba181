"""Works on keys, pins and set screws that several kernels rest on."""

from torqcheck.provenance import Source

__all__ = [
    "DIN_6892",
    "GEOMETRY",
    "HANDBOOK",
    "PIN_STRENGTH",
    "PIN_TEXT",
    "SET_SCREW",
    "STATICS",
    "TEXTBOOK",
]

HANDBOOK = Source(
    "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., 2011", "p 391, keys", "published"
)
STATICS = Source("Force of the torque at the surface over the area that carries it", "", "derived")
GEOMETRY = Source("Geometry of key and keyway", "", "derived")
DIN_6892 = Source("DIN 6892, load capacity of parallel keys", "methods B and C", "from memory")
TEXTBOOK = Source("Textbooks on machine elements", "key seated by half its height", "from memory")
PIN_TEXT = Source("Roloff and Matek, Machine Elements", "9.2, pins", "from memory")
PIN_STRENGTH = Source("Common range of the shear strength of steel pins", "", "from memory")
SET_SCREW = Source("Catalogue pages on set screws", "torsional holding power", "published")
