"""Keys.

Read: worked questions on keyed shafts from five collections, one of which takes the force at a diameter
reduced by half the height of the key; the statement of one more. An example of a handbook, and the
answer of that last one, are remembered.
"""

from math import pi

from published._case import Case

from torqcheck.capacity import torsional_shear_stress
from torqcheck.capacity.joining import (
    key_bearing_length,
    key_bearing_torque,
    key_pressure,
    key_shear_length,
    key_shear_stress,
    key_shear_torque,
    key_textbook_seat,
)

INCH, POUND, PSI = 0.0254, 4.4482216152605, 6894.757293168
POUND_INCH = POUND * INCH

SIZES = "Textbook question 7.23 on the size of a key, with a table of metric keys"
SHAFT = "Textbook question 8.6 on the torque of a keyed shaft"
REDUCED = "Course example of a key, with the force at a reduced diameter"
SET = "Collection of worked problems on keys and couplings"
HANDBOOK = "Budynas and Nisbett, Mechanical Engineering Design"
KHURMI = "R. S. Khurmi and J. K. Gupta, A Textbook of Machine Design"


def test_torque_of_a_keyed_shaft_of_65_millimetres() -> None:
    case = Case(
        SIZES, "torque of the shaft", "published", {"outer_diameter": 0.065, "shear": 67e6}, "3612.807"
    )
    case.check(67e6 / float(torsional_shear_stress(1.0, 0.065)))


def test_length_of_a_key_18_by_11() -> None:
    key = {"torque": 3612.807, "shaft_diameter": 0.065}
    shear = Case(SIZES, "length in shear", "published", key | {"key_width": 0.018}, "122.9", unit=1e-3)
    shear.check(float(key_shear_length(**shear.inputs, shear_yield=50.25e6)))
    crush = Case(
        SIZES,
        "length in crushing",
        "published",
        key | {"seated_height": float(key_textbook_seat(0.011))},
        "160.88",
        unit=1e-3,
        slack=0.005,
        because="its own numbers give 160.886; the page cuts the last digit off",
    )
    crush.check(float(key_bearing_length(**crush.inputs, allowable=125.625e6)))


def test_torque_that_shears_a_key() -> None:
    inputs = {"shear_yield": 200e6, "shaft_diameter": 0.050, "key_width": 0.0125, "key_length": 0.0375}
    case = Case(SHAFT, "torque of the key", "published", inputs, "2.344", unit=1e3)
    case.check(float(key_shear_torque(**case.inputs)))


def test_stresses_with_the_force_at_a_reduced_diameter() -> None:
    torque, diameter = 150.0 / 0.3, 0.050 - 0.5 * 0.010  # load factor 1/0.3; shaft less half the key
    inputs = {"torque": torque, "shaft_diameter": diameter, "key_length": 0.050}
    shear = Case(REDUCED, "shear stress", "published", inputs | {"key_width": 0.0125}, "35.556", unit=1e6)
    shear.check(float(key_shear_stress(**shear.inputs)))
    seat = {"seated_height": float(key_textbook_seat(0.010))}
    bearing = Case(REDUCED, "bearing stress", "published", inputs | seat, "88.889", unit=1e6)
    bearing.check(float(key_pressure(**bearing.inputs)))


def test_length_of_a_key_taller_than_wide() -> None:
    inputs = {"torque": 912.4, "shaft_diameter": 0.0635, "key_width": 0.0111125, "shear_yield": 61.2e6}
    case = Case(
        SET,
        "key of a 63.5 mm shaft",
        "published",
        inputs,
        "42.22",
        unit=1e-3,
        slack=0.04,
        because="its own numbers give 42.255; the page rounds on the way",
    )
    case.check(float(key_shear_length(**case.inputs)))
    # shear governs, as the page says: its sides need less
    side = key_bearing_length(912.4, 0.0635, key_textbook_seat(0.015875), 99.8e6)
    assert side < 0.0422


def test_length_of_a_key_for_150_kilowatt() -> None:
    torque = 150e3 / (2.0 * pi * 400.0 / 60.0)
    inputs = {"torque": torque, "shaft_diameter": 0.075, "key_width": 0.015, "shear_yield": 200e6}
    case = Case(SET, "key for 150 kW at 400 rev/min", "published", inputs, "31.83", unit=1e-3)
    case.check(float(key_shear_length(**case.inputs)))


def test_torque_by_the_side_of_an_inch_key() -> None:
    inputs = {
        "allowable": 25e3 * PSI,
        "shaft_diameter": 2.0 * INCH,
        "seated_height": float(key_textbook_seat(7 / 16 * INCH)),
        "key_length": 3.0 * INCH,
    }
    case = Case(SET, "bearing of a 7/16 in key", "published", inputs, "16406.25", unit=POUND_INCH)
    case.check(float(key_bearing_torque(**case.inputs)))


def test_square_key_of_the_handbook() -> None:
    torque = 40 * 33000 * 12 / (2 * pi * 600) * POUND_INCH  # 40 hp at 600 rev/min
    Case(
        HANDBOOK,
        "example 7-6, torque",
        "from memory",
        {},
        "4200",
        unit=POUND_INCH,
        slack=1.7,
        because="63025 hp/n gives 4201.7; the example goes on with 4200",
    ).check(torque)
    diameter, side = 1.4375 * INCH, 0.375 * INCH
    force = Case(
        HANDBOOK,
        "example 7-6, force at the surface",
        "from memory",
        {"torque": torque},
        "5850",
        unit=POUND,
        slack=5.0,
        because="4200 lbf in give 5843; the example rounds to three digits",
    )
    force.check(2.0 * torque / diameter)
    rounded = 5850 * POUND * diameter / 2.0
    shear = Case(HANDBOOK, "example 7-6, length in shear", "from memory", {}, "1.16", unit=INCH)
    shear.check(float(key_shear_length(rounded, diameter, side, 37.5e3 * PSI, 2.8)))
    bearing = Case(HANDBOOK, "example 7-6, length in bearing", "from memory", {}, "1.34", unit=INCH)
    bearing.check(float(key_bearing_length(rounded, diameter, key_textbook_seat(side), 65e3 * PSI, 2.8)))


def test_rectangular_key_of_a_50_millimetre_shaft() -> None:
    torque = 42e6 / float(torsional_shear_stress(1.0, 0.050))
    Case(KHURMI, "example 13.1, torque", "from memory", {}, "1.03", unit=1e3).check(torque)
    shear = Case(KHURMI, "example 13.1, length in shear", "from memory", {}, "61.4", unit=1e-3)
    shear.check(float(key_shear_length(torque, 0.050, 0.016, 42e6)))
    # the example goes on with the rounded torque
    crush = Case(KHURMI, "example 13.1, length in crushing", "from memory", {}, "117.7", unit=1e-3)
    crush.check(float(key_bearing_length(1030.0, 0.050, key_textbook_seat(0.010), 70e6)))
