"""Which sizes each standard lists: what an identification may choose from. Diameters in mm or in."""

from torqcheck.geometry.spline import Root
from torqcheck.provenance import Source

__all__ = [
    "ANSI_FORMS",
    "DIN_5480_DIAMETERS",
    "DIN_5480_LIST",
    "ISO_FORMS",
    "LEAST_TEETH_LISTED",
    "MOST_TEETH_LISTED",
    "SAE_DIAMETERS",
    "SAE_LIST",
]

# pressure angle in deg, root: coarsest and finest diametral pitch, most teeth (limits of teeth from memory)
ANSI_FORMS: dict[tuple[float, Root], tuple[float, float, int]] = {
    (30.0, "flat"): (2.5, 32.0, 60),
    (30.0, "fillet"): (2.5, 48.0, 60),
    (37.5, "fillet"): (2.5, 48.0, 60),
    (45.0, "fillet"): (10.0, 128.0, 100),
}
ISO_FORMS: tuple[tuple[float, Root], ...] = (
    (30.0, "flat"),
    (30.0, "fillet"),
    (37.5, "fillet"),
    (45.0, "fillet"),
)
LEAST_TEETH_LISTED, MOST_TEETH_LISTED = 6, 100

DIN_5480_LIST = Source(
    "DIN 5480-1:2006, Involute splines based on reference diameters", "reference diameters", "from memory"
)
DIN_5480_DIAMETERS = (
    6, 7, 8, 9, 10, 12, 14, 15, 16, 17, 18, 20, 22, 25, 28, 30, 32, 35, 37, 38, 40, 42, 45, 47, 48, 50, 52,
    55, 58, 60, 62, 65, 68, 70, 72, 75, 78, 80, 82, 85, 88, 90, 92, 95, 98, 100, 105, 110, 120, 130, 140,
    150, 160, 170, 180, 190, 200, 210, 220, 240, 250, 260, 280, 300, 320, 340, 360, 380, 400, 420, 440, 450,
    460, 480, 500,
)  # fmt: skip

SAE_LIST = Source(
    "SAE J499a, Parallel side splines for soft broached holes in fittings", "nominal diameters", "from memory"
)
SAE_DIAMETERS: dict[int, tuple[float, ...]] = {
    4: (0.75, 0.875, 1, 1.125, 1.25, 1.375, 1.5, 1.625, 1.75, 2, 2.25, 2.5, 3),
    6: (0.75, 0.875, 1, 1.125, 1.25, 1.375, 1.5, 1.625, 1.75, 2, 2.25, 2.5, 3),
    10: (
        0.75, 0.875, 1, 1.125, 1.25, 1.375, 1.5, 1.625, 1.75, 2, 2.25, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6,
    ),
    16: (2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6),
}  # fmt: skip
