"""Interference fits: pressure, stresses, rotation, joining.

Read: fragments of instructor's solutions to a textbook of machine design; slides and homework hints of
courses; statements and printed answers of problems on rotating discs and on heated rings. Sizes that a
copy does not show were worked back from its results, and the case says so.
"""

from math import pi

import pytest
from published._case import Case

from torqcheck.capacity.joining import (
    bore_equivalent_stress,
    grip_force,
    grip_torque,
    hub_bore_hoop_stress,
    hub_pressure_limit,
    interference_after_roughness,
    interference_from_pressure,
    interference_lost_to_heat,
    interference_lost_to_speed,
    interference_pressure,
    joining_temperature_rise,
    same_material_pressure,
    same_material_pressure_lost,
    separation_speed,
    shaft_pressure_limit,
    zero_pressure_hoop_stress,
)

SOLUTIONS = "Instructor's solutions to Budynas and Nisbett, Mechanical Engineering Design, 8th ed."
SLIDES = "Course slides on press and shrink fits"
HINTS = "Homework hints of a course on machine design, set 8"
DISC = "Problem on a disc shrunk on a shaft, with its answers"
RING = "Hearn, Mechanics of Materials, ring shrunk on a solid disc"
OWN = "Worked out for this project"

INCH, PSI = 0.0254, 6894.757293168
RPM = pi / 30.0
STEEL = {"hub_modulus": 207e9, "hub_poisson_ratio": 0.3, "shaft_modulus": 207e9, "shaft_poisson_ratio": 0.3}

# problem, radial interference, pressure as printed; all with R, ro and E worked back
METRIC = (("3-64", 0.0295e-3, "114.5"), ("3-64", 0.009e-3, "34.9"), ("3-66", 0.038e-3, "147.5"))
METRIC += (("3-66", 0.0175e-3, "67.9"),)
IMPERIAL = (("3-65", 0.00115, "17250"), ("3-65", 0.00035, "5250"), ("3-67", 0.0015, "22500"))
IMPERIAL += (("3-67", 0.0007, "10500"),)


@pytest.mark.parametrize(("problem", "radial", "printed"), METRIC)
def test_pressure_in_a_seat_of_40_millimetre(problem: str, radial: float, printed: str) -> None:
    inputs = {"interference": 2.0 * radial, "diameter": 0.040, "outside_diameter": 0.080}
    case = Case(SOLUTIONS, f"problem {problem}, sizes worked back", "published", inputs, printed, unit=1e6)
    case.check(float(same_material_pressure(**case.inputs, elastic_modulus=207e9)))
    case.check(float(interference_pressure(**case.inputs, **STEEL)))


@pytest.mark.parametrize(("problem", "radial", "printed"), IMPERIAL)
def test_pressure_in_a_seat_of_one_and_a_half_inch(problem: str, radial: float, printed: str) -> None:
    inputs = {"interference": 2.0 * radial * INCH, "diameter": 1.5 * INCH, "outside_diameter": 3.0 * INCH}
    case = Case(SOLUTIONS, f"problem {problem}, sizes worked back", "published", inputs, printed, unit=PSI)
    case.check(float(same_material_pressure(**case.inputs, elastic_modulus=30e6 * PSI)))


def test_pressure_and_hoop_stress_of_a_hub_on_one_inch() -> None:
    inputs = {"interference": 0.002 * INCH, "diameter": INCH, "outside_diameter": 2.0 * INCH}
    case = Case(SOLUTIONS, "problem 3-68", "published", inputs, "22500", unit=PSI)
    pressure = float(same_material_pressure(**case.inputs, elastic_modulus=30e6 * PSI))
    case.check(pressure)
    hoop = Case(SOLUTIONS, "problem 3-68, hoop stress of the hub", "published", {}, "37500", unit=PSI)
    hoop.check(float(hub_bore_hoop_stress(pressure, INCH, 2.0 * INCH)))


def test_press_fit_that_holds_a_brake_drum() -> None:
    """Normal force 4.8 MN on 35 343 mm2; the outside of the hub, 300 mm in radius, worked back."""
    friction, force, diameter, length = 0.25, 1.2e6, 0.150, 0.075
    pressure = force / float(grip_force(1.0, diameter, length, friction))
    case = Case(HINTS, "pressure", "published", {"force": force}, "135.8", unit=1e6)
    case.check(pressure)
    inputs = {"pressure": pressure, "diameter": diameter, "outside_diameter": 0.600}
    radial = Case(HINTS, "interference, outside worked back", "published", inputs, "0.105", unit=1e-3)
    radial.check(float(interference_from_pressure(**radial.inputs, **STEEL)) / 2.0)


def test_steel_shaft_in_an_aluminium_hub() -> None:
    """The slides give the sizes, 30 MPa of hoop stress and a friction of 0.15; the results are ours."""
    sizes = {"diameter": 0.100, "outside_diameter": 0.250}
    elastic = {"hub_modulus": 70e9, "hub_poisson_ratio": 0.25, "shaft_modulus": 210e9}
    pressure = 30e6 / float(hub_bore_hoop_stress(1.0, **sizes))
    Case(SLIDES, "example, pressure", "derived", sizes, "21.72", unit=1e6).check(pressure)
    radial = float(
        interference_from_pressure(pressure, **sizes, bore=0.050, **elastic, shaft_poisson_ratio=0.3)
    )
    Case(SLIDES, "example, radial interference", "derived", sizes, "0.0324", unit=1e-3).check(radial / 2.0)
    force = float(grip_force(pressure, 0.100, 0.100, 0.15))
    Case(SLIDES, "example, axial force", "derived", sizes, "102.4", unit=1e3).check(force)
    torque = float(grip_torque(pressure, 0.100, 0.100, 0.15))
    Case(SLIDES, "example, torque", "derived", sizes, "5.12", unit=1e3).check(torque)


DISC_SIZES = {"diameter": 0.1, "outside_diameter": 0.5}
DISC_STEEL = {"density": 7810.0, "poisson_ratio": 0.3}


def test_disc_that_is_loose_at_its_speed() -> None:
    speed = 6900.0 * RPM
    running = float(zero_pressure_hoop_stress(speed, **DISC_SIZES, **DISC_STEEL))
    Case(DISC, "largest stress, running", "published", DISC_SIZES, "212", unit=1e6).check(running)
    at_rest = float(
        hub_bore_hoop_stress(same_material_pressure_lost(speed, **DISC_SIZES, **DISC_STEEL), **DISC_SIZES)
    )
    slack, why = 0.1, "the density is not in the statement; 7810 kg/m3 is the nearest that is in use"
    rest = Case(
        DISC, "largest stress, at rest", "published", DISC_SIZES, "109.2", unit=1e6, slack=slack, because=why
    )
    rest.check(at_rest)
    parts = {"hub_modulus": 200e9, "hub_poisson_ratio": 0.3, "hub_density": 7810.0}
    parts |= {"shaft_modulus": 200e9, "shaft_poisson_ratio": 0.3, "shaft_density": 7810.0}
    lost = float(interference_lost_to_speed(speed, **DISC_SIZES, **parts))
    Case(DISC, "allowance on the radius", "published", DISC_SIZES, "5.26", unit=1e-5).check(lost / 2.0)


def test_ring_on_a_solid_disc_that_comes_loose_at_3000() -> None:
    sizes = {"diameter": 0.300, "outside_diameter": 0.450}
    lost = float(same_material_pressure_lost(3000.0 * RPM, **sizes, density=7470.0, poisson_ratio=0.3))
    Case(RING, "pressure", "from memory", sizes, "8.55", unit=1e6).check(lost)
    parts = {"hub_modulus": 207e9, "hub_poisson_ratio": 0.3, "hub_density": 7470.0}
    parts |= {"shaft_modulus": 207e9, "shaft_poisson_ratio": 0.3, "shaft_density": 7470.0}
    difference = float(interference_lost_to_speed(3000.0 * RPM, **sizes, **parts))
    Case(RING, "difference of the diameters", "from memory", sizes, "0.045", unit=1e-3).check(difference)
    speed = float(separation_speed(difference, **sizes, **parts))
    Case(RING, "speed", "from memory", sizes, "3000", unit=RPM).check(speed)


def test_heated_aluminium_ring() -> None:
    inputs = {"interference": 2.5e-3, "clearance": 0.0, "hub_expansion": 23e-6, "diameter": 0.438}
    case = Case("Problem on an aluminium ring of 438 mm", "statement; result ours", "derived", inputs, "248")
    case.check(float(joining_temperature_rise(**case.inputs)))


def test_heated_ring_of_50_millimetre() -> None:
    inputs = {"interference": 0.060e-3, "clearance": 0.0, "hub_expansion": 14e-6, "diameter": 0.049945}
    case = Case("Problem on a ring of 49.945 mm", "statement; result ours", "derived", inputs, "85.8")
    case.check(float(joining_temperature_rise(**case.inputs)))


# examples of our own


FIT = {"diameter": 0.040, "outside_diameter": 0.080}


def test_joining_temperature_of_a_medium_fit() -> None:
    inputs = {"interference": 59e-6, "clearance": 40e-6, "hub_expansion": 11.7e-6, "diameter": 0.040}
    Case(OWN, "40 H7/s6", "derived", inputs, "212").check(float(joining_temperature_rise(**inputs)))


@pytest.mark.parametrize(("interference", "left"), [(18e-6, "7.9"), (59e-6, "48.9")])
def test_roughness_takes_its_bite(interference: float, left: str) -> None:
    inputs = {"interference": interference, "hub_roughness": 6.3e-6, "shaft_roughness": 6.3e-6}
    case = Case(OWN, "40 H7/s6 at Rz 6.3", "derived", inputs, left, unit=1e-6)
    case.check(float(interference_after_roughness(**inputs)))


@pytest.mark.parametrize(
    ("interference", "pressure", "torque"), [(18e-6, "15.4", "185"), (59e-6, "94.9", "1.15e3")]
)
def test_grip_at_both_ends_of_a_medium_fit(interference: float, pressure: str, torque: str) -> None:
    left = interference_after_roughness(interference, 6.3e-6, 6.3e-6)
    found = float(same_material_pressure(left, **FIT, elastic_modulus=207e9))
    Case(OWN, "40 H7/s6", "derived", FIT, pressure, unit=1e6).check(found)
    grip = float(grip_torque(found, 0.040, 0.040, 0.12))
    Case(OWN, "40 H7/s6, mu 0.12, 40 mm long", "derived", FIT, torque).check(grip)


def test_loss_at_6000_revolutions_is_negligible() -> None:
    steel = {"hub_modulus": 207e9, "hub_poisson_ratio": 0.3, "hub_density": 7850.0}
    steel |= {"shaft_modulus": 207e9, "shaft_poisson_ratio": 0.3, "shaft_density": 7850.0}
    radial = float(interference_lost_to_speed(6000.0 * RPM, **FIT, **steel)) / 2.0
    Case(OWN, "hub of 80 mm on 40 mm", "derived", FIT, "0.40", unit=1e-6).check(radial)
    lost = float(same_material_pressure_lost(6000.0 * RPM, **FIT, density=7850.0, poisson_ratio=0.3))
    Case(OWN, "hub of 80 mm on 40 mm", "derived", FIT, "1.53", unit=1e6).check(lost)


def test_aluminium_hub_that_warms_up_by_80_kelvin() -> None:
    inputs = {"diameter": 0.040, "hub_expansion": 23.0e-6, "shaft_expansion": 11.7e-6}
    case = Case(OWN, "aluminium hub on a steel shaft", "derived", inputs, "0.036", unit=1e-3)
    case.check(float(interference_lost_to_heat(**inputs, hub_rise=80.0, shaft_rise=80.0)))


def test_limits_of_the_standard() -> None:
    """DIN 7190 as remembered: hub (1 - QA^2)/sqrt(3) Re; shaft 2/sqrt(3) Re solid, as the hub if hollow."""
    work, where = "DIN 7190, Interference fits", "elastic design"
    hub = float(hub_pressure_limit(1.0, 0.5, 1.0))
    Case(work, where, "from memory", {"QA": 0.5}, "0.433").check(hub)
    Case(work, where, "from memory", {}, "1.155").check(float(shaft_pressure_limit(1.0, 0.5)))
    Case(work, where, "from memory", {"QI": 0.5}, "0.433").check(float(shaft_pressure_limit(1.0, 1.0, 0.5)))
    exact = 1.0 / float(bore_equivalent_stress(hub_bore_hoop_stress(1.0, 0.5, 1.0), 1.0))
    Case(OWN, "von Mises in plane stress", "derived", {"QA": 0.5}, "0.429").check(exact)
