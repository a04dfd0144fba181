"""A path with two splines and the sleeve that is the hub of both, for tests."""

from builder import BASE, edited

SLEEVE = """
[[joint]]
name = "sleeve"
kind = "sleeve"
outside_diameter = "58 mm"
length = "120 mm"
inside_diameter = "36 mm"
holds = ["gearbox input", "drum"]
end_play = "1 mm"
steel = "4140_QT540"
reused = false
"""
FLOATS = 'floats = { offset = "0.10 mm", span = "80 mm" }\n'
DRUM = """
[[joint]]
name = "drum"
kind = "involute spline"
standard = "iso 4156"
size = { teeth = 18, module = "2 mm", pressure_angle = "30 deg", root = "flat" }
engagement = "34 mm"
seat = "flexible"
nose_supported = true
lash = { clearance = "0.08 mm" }
lubrication = "oil flooded"

[joint.external]
steel = "42CrMo4_QT_40"
hardness = "31 HRC"
reused = true
measured = { teeth = 18 }

[joint.internal]
steel = "4140_QT540"
reused = false
measured = { teeth = 18 }
"""
OWN_TILT = ('tilt = { angle = "0.08 deg" }\n', "")
HUB_STEEL = ('[joint.internal]\nsteel = "8620_carb_63"', '[joint.internal]\nsteel = "4140_QT540"')
OWN_OUTSIDE = ('outside_diameter = "52 mm"\n', "")


def path_with(*changes: tuple[str, str], floats: str = FLOATS) -> str:
    """The base with a sleeve and a second spline; the first loses its own tilt and outside diameter."""
    base = edited(OWN_TILT, OWN_OUTSIDE, HUB_STEEL, base=BASE)
    return edited(*changes, base=base + SLEEVE + floats + DRUM)
