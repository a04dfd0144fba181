"""Machines for whole-path laws: the shipped examples, and invented ones with every other kind of joint."""

from functools import cache
from pathlib import Path

from builder import BASE, EXAMPLES

from torqcheck.scenario import Scenario, load_scenario, scenario_from_text

__all__ = ["INVENTED", "MACHINES", "machine"]

INVENTED = {
    "keyed": """
[[joint]]
name = "output key"
kind = "key"
standard = "din 6885"
shaft_diameter = "40 mm"
length = "50 mm"
ends = "square"
fit = "normal"
chamfer = "0.5 mm"
lash = { clearance = "0.04 mm" }
shaft = { steel = "1045_CD", reused = false }
hub = { steel = "4140_PH28_32", reused = false, outside_diameter = "70 mm" }
key = { steel = "1018_CD", reused = false }
""",
    "pinned": """
[[joint]]
name = "cross pin"
kind = "pin"
lash = { clearance = "0.02 mm" }
place = "across"
form = "plain"
shaft_diameter = "40 mm"
diameter = "10 mm"
shaft = { steel = "1045_CD", reused = false }
hub = { steel = "1045_HR", reused = false, outside_diameter = "64 mm" }
pin = { steel = "1018_CD", reused = false }

[[joint]]
name = "pin in the joint"
kind = "pin"
lash = { clearance = "0.02 mm" }
place = "along"
form = "plain"
shaft_diameter = "40 mm"
diameter = "8 mm"
length = "40 mm"
shaft = { steel = "1045_CD", reused = false }
hub = { steel = "1045_HR", reused = false, outside_diameter = "64 mm" }
pin = { steel = "1018_CD", reused = false }

[[joint]]
name = "fuse"
kind = "pin"
lash = { clearance = "0.02 mm" }
place = "across"
form = "plain"
fuse = true
shaft_diameter = "40 mm"
diameter = "8 mm"
hole_diameter = "10 mm"
shaft = { steel = "1045_CD", reused = false }
hub = { steel = "1045_HR", reused = false, outside_diameter = "64 mm" }
pin = { steel = "1018_CD", reused = false }

[[joint]]
name = "screws"
kind = "set screws"
shaft_diameter = "40 mm"
size = "3/8"
shaft = { steel = "1045_CD", reused = false }
""",
    "pressed": """
[[joint]]
name = "coupler hub"
kind = "interference fit"
diameter = "50 mm"
length = "60 mm"
interference = "0.060 +/- 0.010 mm"
joining = "shrunk"
axial_force = "6 kN"
shaft = { steel = "4140_QT540", reused = false, bore = "14 mm", roughness = "4 um" }
hub = { steel = "1045_HR", reused = false, outside_diameter = "85 mm", roughness = "6 um" }

[[joint]]
name = "pulley"
kind = "interference fit"
diameter = "50 mm"
length = "60 mm"
interference = "0.045 +/- 0.005 mm"
joining = "shrunk"
shaft = { steel = "4140_QT540", reused = false, roughness = "5 um", temperature = "50 degC" }
hub = { material = "cast iron", strength = "200 MPa", outside_diameter = "110 mm", roughness = "10 um", \
temperature = "60 degC" }

[[joint]]
name = "rear clamp"
kind = "clamp"
form = "one slit"
diameter = "50 mm"
length = "60 mm"
screw = { size = "M8", strength = "12.9" }
tightening = { torque = "35 N*m", lubrication = "plain" }
screws = 4
seat = "dry"
shaft = { steel = "4140_QT540", reused = false }

[[joint]]
name = "collar"
kind = "clamp"
form = "locking collar"
axial_force = "1 kN"
diameter = "50 mm"
length = "20 mm"
screws = 1
screw_preload = "10 kN"
seat = "dry"
shaft = { steel = "4140_QT540", reused = false }
""",
    "flanged": """
[[joint]]
name = "flange"
kind = "bolted flange"
bolts = { size = "M12", strength = "10.9", count = 8, circle_diameter = "120 mm", \
threads_in_shear_plane = true, reused = false }
tightening = { torque = "100 N*m", lubrication = "lubricated" }
dowels = { size = "8 mm", count = 4, circle_diameter = "110 mm" }
face = { outer_diameter = "160 mm", inner_diameter = "60 mm", condition = "oily" }
driving_flange = { steel = "1045_CD", thickness = "16 mm", reused = false }
driven_flange = { steel = "1045_HR", thickness = "18 mm", reused = false }

[[joint]]
name = "yoke weld"
kind = "weld"
diameter = "60 mm"
leg = "5 mm"
electrode = "E70"
wall = "6 mm"
shaft = { steel = "1020_HR", reused = false }
hub = { steel = "1018_HR", reused = false }

[[joint]]
name = "stub"
kind = "shaft"
diameter = "30 mm"
length = "120 mm"
steel = "4140_QT540"
reused = false
finish = "machined"
notches = [
  { kind = "keyseat", width = "8 mm", depth = "4 mm", root_radius = "0.6 mm", from_load = "20 mm" },
  { kind = "shoulder fillet", larger_diameter = "36 mm", radius = "1.5 mm" },
  { kind = "cross hole", hole = "5 mm" },
  { kind = "spline run-out", diameter = "26 mm", larger_diameter = "30 mm", radius = "2 mm" },
  { kind = "ring groove", diameter = "28 mm", width = "1.6 mm", radius = "0.2 mm" },
  { kind = "press fit edge" },
]
bending = { side_load = "1.8 kN", overhang = "70 mm" }
""",
    "sleeved": """
[[joint]]
name = "keyed sleeve"
kind = "sleeve"
outside_diameter = "60 mm"
length = "80 mm"
keyway = { bore = "38 mm", width = "10 mm", depth = "3.3 mm" }
steel = "1020_CD"
reused = false

[[joint]]
name = "offset shaft"
kind = "shaft"
diameter = "30 mm"
length = "120 mm"
steel = "4140_QT540"
reused = false
notches = [{ kind = "press fit edge" }]
forced_offset = { offset = "0.05 mm", overhang = "60 mm", bearing_spacing = "150 mm", \
stiffness_of_other_side = "15 kN/mm" }
""",
}
"""Each stands behind the spline of the base."""

MACHINES = (*(path.stem for path in EXAMPLES), *INVENTED)


@cache
def machine(name: str) -> Scenario:
    """One of the machines, as it is written."""
    if name in INVENTED:
        return scenario_from_text((BASE + INVENTED[name]).encode(), Path(f"{name}.toml"))
    (path,) = (path for path in EXAMPLES if path.stem == name)
    return load_scenario(path)
