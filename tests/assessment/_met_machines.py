"""Machines with a cause of failure built in, and the same machines without it."""

from builder import BASE, edited

Change = tuple[str, str]
STACKED = 'engagement = "1.25 in"\n'
OFFSET, OIL = 'offset = "0.08 mm"', '"oil flooded"'
LASH = 'lash = { clearance = "0.05 mm" }'
HUB = '[joint.internal]\nsteel = "8620_carb_63"'
SHAFT = 'steel = "8620_carb_63"\nhardness = "60 HRC +/- 1"'
SOUND = edited(
    ('"240 N*m"', '"80 N*m"'),
    ('"4800 N*m/s"', '"320 N*m/s"'),
    ('"90 N*m"', '"30 N*m"'),
    ('[reduction]\nratio = 2.5\nefficiency = 0.97\ninertia = "0.004 kg*m^2"\n', ""),
    ('angle = "0.08 deg"', 'offset = "0.08 mm", span = "60 mm"'),
)
"""A small motor straight on the gearbox, in line, on hard teeth in oil: it passes."""

KEY = """
[[joint]]
name = "motor key"
kind = "key"
standard = "din 6885"
shaft_diameter = "30 mm"
length = "40 mm"
ends = "square"
fit = "tight"
chamfer = "0.4 mm"
lash = { clearance = "0.01 mm" }
shaft = { steel = "1045_CD", reused = false }
hub = { steel = "4140_PH28_32", reused = false, outside_diameter = "60 mm" }
key = { steel = "1018_CD", reused = false }
"""
SCREWS = """
[[joint]]
name = "motor key"
kind = "set screws"
shaft_diameter = "30 mm"
size = "1/2"
shaft = { steel = "1045_CD", reused = false }
"""
CLAMP = """
[[joint]]
name = "motor clamp"
kind = "clamp"
form = "one slit"
diameter = "40 mm"
length = "50 mm"
screws = 4
screw_preload = "9 kN"
seat = "dry"
clearance = "0.02 mm"
shaft = { steel = "4140_QT540", reused = false }
"""
PLAIN_SHAFT = """
[[joint]]
name = "motor shaft"
kind = "shaft"
diameter = "15 mm"
length = "40 mm"
steel = "4140_QT540"
reused = false
"""
SLOTTED_SHAFT = """
[[joint]]
name = "motor shaft"
kind = "shaft"
diameter = "28.575 mm"
length = "40 mm"
steel = "1045_CD"
reused = false
notches = [{ kind = "keyseat", width = "6.35 mm", depth = "3.175 mm" }]
"""
FLANGE = """
[[joint]]
name = "motor flange"
kind = "bolted flange"
bolts = { size = "M8", strength = "8.8", count = 6, circle_diameter = "100 mm", reused = false }
tightening = { torque = "22 N*m", lubrication = "lubricated" }
face = { outer_diameter = "130 mm", inner_diameter = "60 mm", condition = "oily" }
driving_flange = { steel = "1045_CD", thickness = "16 mm", reused = false }
driven_flange = { steel = "1045_HR", thickness = "18 mm", reused = false }
"""
STACK = """
[stack]

[[stack.distance]]
name = "housing"
length = "150 +/- 0.1 mm"
material = "steel"

[[stack.distance]]
name = "sleeve"
length = "90 +/- 0.1 mm"
material = "steel"

[[stack.distance]]
name = "nose"
length = "94 +/- 0.1 mm"
material = "steel"

[[stack.result]]
name = "mesh"
kind = "engagement"
joint = "gearbox input"
plus = ["sleeve", "nose"]
minus = ["housing"]
less = ["1 +/- 0.1 mm"]
external_cut = "40 +/- 0.5 mm"
least = "28 mm"
"""
STACKED_BASE = SOUND.replace(STACKED, "")
assert BASE.count(STACKED) == 1
