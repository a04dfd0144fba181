"""Weakest links of the examples with two joints, with bare arithmetic from the printed formulas.

Allowables and life factors by the guide: Dudley 1957, Tables I and V, and Machinery's Handbook, Tables 9 and
10 (published); flank pressure, eqs 4 to 8 (from memory).
"""

from functools import cache
from math import log10, pi
from pathlib import Path

import pytest

from torqcheck.assessment import Assessment, assess
from torqcheck.checks import Check

SCENARIOS = Path(__file__).parent.parent.parent / "scenarios"
PSI = 6894.757293168  # Pa


@cache
def example(name: str) -> Assessment:
    return assess(SCENARIOS / f"{name}.toml")


def weakest(name: str) -> Check:
    link = example(name).weakest
    assert link is not None
    (check,) = (
        check
        for joint in example(name).joints
        for check in joint.checks
        if (check.joint, check.name, check.method) == (link.joint, link.check, link.method)
    )
    assert check.safety_factor == link.safety_factor
    return check


def reversed_life(cycles: float) -> float:
    """Table 9 between 1e4 (1.0) and 1e5 (0.4), straight in logarithms."""
    return float(0.4 ** (log10(cycles) - 4.0))


def test_works_trolley_twists_its_motor_shaft() -> None:
    """Solid shaft of 38 mm, 298 HB (30 000 psi); uniform motor, light shock: 1.2; it brakes."""
    check = weakest("works_trolley")
    assert (check.joint, check.name, check.method) == ("motor shaft", "torsional shear", "guide, tabulated")
    stress = 1.2 * 16.0 * 150.0 / (pi * 0.038**3)  # 16.707 MPa
    allowable = 30_000 * PSI * reversed_life(3000 * 6)  # 18 000 torque cycles: 163.70 MPa
    assert check.value == pytest.approx(stress, rel=1e-12)
    assert check.allowable == pytest.approx(allowable, rel=1e-9)
    assert check.safety_factor == pytest.approx(9.79863, abs=5e-6)


def test_timber_winch_crushes_the_flanks_of_its_drum_hub() -> None:
    """8x42x48 with chamfers of 0.4 mm, worn by 0.15 mm; unknown hub: 1500 psi; intermittent shock: 1.5."""
    check = weakest("timber_winch")
    assert (check.joint, check.name, check.method) == ("drum hub", "flank pressure", "guide, tabulated")
    torque = 110.0 * 4.0 * 0.96  # 422.4 N m
    height = (48.0 - 42.0) / 2.0 - 2 * 0.4 - 0.15  # 2.05 mm
    pressure = 1.5 * 2.0 * torque / (0.045 * 8 * 0.060 * height * 1e-3)  # 28.618 MPa
    turns = 300 * 60 * (0.7 * 1400 + 0.3 * 2400) / 4.0  # 7.65e6
    life = 4.0 * 2.0 ** (-(log10(turns) - 4.0) / 2.0)  # Table 10: 4.0 at 1e4, half of it two decades on
    assert check.value == pytest.approx(pressure, rel=1e-9)
    assert check.allowable == pytest.approx(1500 * PSI * life, rel=1e-9)  # 15.228 MPa
    assert check.safety_factor == pytest.approx(0.532106, abs=5e-7)


def test_vineyard_carrier_shears_the_roots_of_its_gearbox_input() -> None:
    """DIN 5480 25 x 1.25 x 18; 38 HRC less 1 (40 000 psi); the blow as simulated; it turns both ways."""
    check = weakest("vineyard_carrier")
    assert check.joint == "gearbox input"
    assert (check.name, check.method) == ("root shear, external member", "guide, simulated")
    shift = (25.0 - 1.25 * 18 - 1.1 * 1.25) / 2.0  # 0.5625 mm
    root = 1.25 * 18 + 2.0 * shift - 2.0 * 0.6 * 1.25  # 22.125 mm
    peak = example("vineyard_carrier").joints[0].peak_torque  # 266.17 N m
    assert peak > 195.0
    assert check.value == pytest.approx(16.0 * peak / (pi * (root * 1e-3) ** 3), rel=1e-9)  # 125.16 MPa
    allowable = 40_000 * PSI * reversed_life(1200 * (30 + 10))  # 48 000 torque cycles: 147.74 MPa
    assert check.allowable == pytest.approx(allowable, rel=1e-9)
    assert check.safety_factor == pytest.approx(1.18034, abs=5e-6)
