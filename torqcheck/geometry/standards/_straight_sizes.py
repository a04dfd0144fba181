"""Size tables of straight-sided splines, and the few ISO limits that their widths need. In mm."""

from torqcheck.provenance import Source

__all__ = [
    "DEVIATIONS",
    "ISO_14",
    "ISO_14_SIZES",
    "SAE_J499",
    "SAE_PROPORTIONS",
    "STRAIGHT_CHAMFER",
    "TOLERANCE_GRADES",
]

ISO_14 = (
    Source(
        "ISO 14:1982 (BS 5686:1986), Straight-sided splines for cylindrical shafts", "size table", "published"
    ),
    Source(
        "ISO 14:1982, Straight-sided splines for cylindrical shafts", "chamfers; size 8x56x65", "from memory"
    ),
)
SAE_J499 = (
    Source(
        "SAE J499a, Parallel side splines for soft broached holes in fittings", "six-spline row", "published"
    ),
    Source(
        "SAE J499a, Parallel side splines for soft broached holes in fittings",
        "proportions of 4, 10 and 16 splines",
        "from memory",
    ),
)

# (teeth N, minor diameter d, major diameter D, tooth width B)
ISO_14_SIZES: dict[str, tuple[tuple[int, int, int, float], ...]] = {
    "light": (
        (6, 23, 26, 6.0),
        (6, 26, 30, 6.0),
        (6, 28, 32, 7.0),
        (8, 32, 36, 6.0),
        (8, 36, 40, 7.0),
        (8, 42, 46, 8.0),
        (8, 46, 50, 9.0),
        (8, 52, 58, 10.0),
        (8, 56, 62, 10.0),
        (8, 62, 68, 12.0),
        (10, 72, 78, 12.0),
        (10, 82, 88, 12.0),
        (10, 92, 98, 14.0),
        (10, 102, 108, 16.0),
        (10, 112, 120, 18.0),
    ),
    "medium": (
        (6, 11, 14, 3.0),
        (6, 13, 16, 3.5),
        (6, 16, 20, 4.0),
        (6, 18, 22, 5.0),
        (6, 21, 25, 5.0),
        (6, 23, 28, 6.0),
        (6, 26, 32, 6.0),
        (6, 28, 34, 7.0),
        (8, 32, 38, 6.0),
        (8, 36, 42, 7.0),
        (8, 42, 48, 8.0),
        (8, 46, 54, 9.0),
        (8, 52, 60, 10.0),
        (8, 56, 65, 10.0),
        (8, 62, 72, 12.0),
        (10, 72, 82, 12.0),
        (10, 82, 92, 12.0),
        (10, 92, 102, 14.0),
        (10, 102, 112, 16.0),
        (10, 112, 125, 18.0),
    ),
}

# up to this minor diameter: chamfer along the radius (mark: from memory; the larger where unsure)
STRAIGHT_CHAMFER: dict[str, tuple[tuple[float, float], ...]] = {
    "light": ((28.0, 0.3), (46.0, 0.4), (float("inf"), 0.5)),
    "medium": ((23.0, 0.3), (42.0, 0.4), (float("inf"), 0.5)),
}

# up to this width: limits in micrometre (mark: from memory of ISO 286-2)
TOLERANCE_GRADES: tuple[tuple[float, dict[str, float]], ...] = (
    (3.0, {"IT9": 25.0, "IT10": 40.0}),
    (6.0, {"IT9": 30.0, "IT10": 48.0}),
    (10.0, {"IT9": 36.0, "IT10": 58.0}),
    (18.0, {"IT9": 43.0, "IT10": 70.0}),
)
DEVIATIONS: tuple[tuple[float, dict[str, float]], ...] = (
    (3.0, {"d": 20.0, "f": 6.0, "h": 0.0}),
    (6.0, {"d": 30.0, "f": 10.0, "h": 0.0}),
    (10.0, {"d": 40.0, "f": 13.0, "h": 0.0}),
    (18.0, {"d": 50.0, "f": 16.0, "h": 0.0}),
)

# teeth: width over D, and minor diameter over D by fit
SAE_PROPORTIONS: dict[int, tuple[float, dict[str, float]]] = {
    4: (0.241, {"A": 0.850, "B": 0.750}),
    6: (0.250, {"A": 0.900, "B": 0.850, "C": 0.800}),
    10: (0.156, {"A": 0.910, "B": 0.860, "C": 0.810}),
    16: (0.098, {"A": 0.910, "B": 0.860, "C": 0.810}),
}
