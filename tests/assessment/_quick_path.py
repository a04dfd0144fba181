"""A path that is quick to check: a seat that cannot rock, straight sides, a driven side that stands still."""

QUICK = (
    ('seat = "flexible"\ntilt = { angle = "0.08 deg" }\nnose_supported = true', 'seat = "fixed"'),
    ('inertia = "2.4 kg*m^2"\n', "held = true\n"),
    (
        'kind = "involute spline"\nstandard = "ansi b92.1"\n'
        'size = { teeth = 26, pitch = "20/40", pressure_angle = "30 deg", root = "flat" }',
        'kind = "straight spline"\nstandard = "iso 14"\nsize = { designation = "6x28x34" }',
    ),
    ("teeth = 26, major_diameter", "teeth = 6, major_diameter"),
    ("1.345 in", "33.9 mm"),
    ("measured = { teeth = 26 }", "measured = { teeth = 6 }"),
)
"""Edits of the base."""
OLD_SHAFT = """steel = "8620_carb_63"
hardness = "60 HRC +/- 1"
reused = true
measured = { teeth = 6, major_diameter = "33.9 mm" }
"""
"""Its shaft, as it stands in the file."""


def new_shaft(name: str) -> str:
    """The block of a new shaft, as a person would write it."""
    return f'steel = "{name}"\nreused = false\n'
