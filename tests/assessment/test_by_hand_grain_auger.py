"""The grain auger recomputed with bare arithmetic, from what its file and the tables say."""

from functools import cache
from math import pi, sqrt
from pathlib import Path

import pytest

from torqcheck.assessment import Assessment, assess
from torqcheck.checks import Check
from torqcheck.scenario import load_scenario, scenario_from_text

FILE = Path(__file__).parent.parent.parent / "scenarios" / "grain_auger.toml"

TORQUE = 240.0 * 1.5  # N m: peak torque of the motor; electric motor on intermittent shock
D = 28.0  # mm, shaft
W, H, T1, CHAMFER = 8.0, 7.0, 4.0, 0.40  # mm, key 8 x 7 by DIN 6885
LENGTH = 40.0 - 8.0  # mm, round ends off; below 1.5 D = 42
FORCE = 2.0 * TORQUE / (D * 1e-3)  # N at the surface of the shaft
KEY, SHAFT, HUB = 370.0, 530.0, 793.0 * 0.9  # MPa: 1018 and 1045 cold drawn, 4140 of 28 to 32 HRC


@cache
def auger() -> Assessment:
    return assess(load_scenario(FILE))


def check(name: str) -> Check:
    (found,) = (c for c in auger().joints[0].checks if c.name == name)
    return found


def test_the_steady_torque_with_its_factor_is_the_larger_load() -> None:
    # 25 714 N at the surface; the blow stays below the steady torque times its factor
    assert pytest.approx(25714.3, abs=0.05) == FORCE
    assert auger().joints[0].peak_torque < TORQUE
    for name in ("key shear", "side bearing, hub", "side bearing, shaft", "side bearing, key"):
        assert check(name).torque == pytest.approx(TORQUE)
        assert check(name).factors == {"Ka": 1.5}
        assert check(name).target == 1.5  # the auger never turns back


def test_side_of_the_key_in_the_hub_is_the_weakest_link() -> None:
    seat = H - T1 - CHAMFER  # 2.6 mm
    pressure = FORCE / (seat * LENGTH)  # 309.07 MPa
    assert pressure == pytest.approx(309.066, abs=5e-4)
    found = check("side bearing, key")
    assert found.value == pytest.approx(pressure * 1e6, rel=1e-9)
    assert found.allowable == pytest.approx(KEY * 1e6)
    assert found.safety_factor == pytest.approx(1.19716, abs=5e-6)
    assert found.verdict == "marginal"
    weakest = auger().weakest
    assert weakest is not None
    assert (weakest.joint, weakest.check) == ("motor key", "side bearing, key")
    assert weakest.safety_factor == pytest.approx(KEY / pressure)
    assert check("side bearing, hub").value == pytest.approx(pressure * 1e6, rel=1e-9)
    assert check("side bearing, hub").allowable == pytest.approx(HUB * 1e6)


def test_side_in_the_shaft_and_shear() -> None:
    in_shaft = check("side bearing, shaft")
    assert in_shaft.value == pytest.approx(FORCE / ((T1 - CHAMFER) * LENGTH) * 1e6, rel=1e-9)  # 223.21 MPa
    assert in_shaft.allowable == pytest.approx(SHAFT * 1e6)
    shear = check("key shear")
    assert shear.value == pytest.approx(FORCE / (W * LENGTH) * 1e6, rel=1e-9)  # 100.45 MPa
    assert shear.allowable == pytest.approx(0.577 * KEY * 1e6)
    assert shear.safety_factor == pytest.approx(2.12541, abs=5e-6)


def test_shaft_under_the_key() -> None:
    left = 1.0 - 0.2 * W / D - 1.1 * T1 / D  # 0.7857
    stress = sqrt(3.0) * 16.0 * TORQUE / (pi * (D * 1e-3) ** 3) / left
    found = check("yield, keyseat")
    assert found.factors["section"] == pytest.approx(0.785714, abs=1e-6)
    assert found.value == pytest.approx(stress, rel=1e-9)  # 184.1 MPa
    assert found.safety_factor == pytest.approx(2.87860, abs=5e-6)


def test_wall_of_the_sleeve_over_the_corners_of_its_keyway() -> None:
    # a keyway 8 mm wide, 3.3 mm deep in a bore of 28 mm: its corners lie at 17.756 mm
    corner = sqrt((14.0 + 3.3) ** 2 + 4.0**2) * 1e-3
    shear = 16.0 * TORQUE * 0.050 / (pi * (0.050**4 - (2.0 * corner) ** 4))  # 19.67 MPa
    (found,) = (c for c in auger().joints[1].checks if c.name.startswith("torsional yield"))
    assert found.value == pytest.approx(shear, rel=1e-9)
    assert found.allowable == pytest.approx(0.577 * HUB * 1e6)


def test_a_second_key_counts_for_half() -> None:
    text = FILE.read_text(encoding="utf-8").replace("keys = 1", "keys = 2")
    two = assess(scenario_from_text(text.encode(), FILE))
    (side,) = (c for c in two.joints[0].checks if c.name == "side bearing, key")
    first = check("side bearing, key").safety_factor
    assert first is not None
    assert side.safety_factor == pytest.approx(1.5 * first)
    # 1.80: above the target; twice would be 2.39
    assert side.safety_factor == pytest.approx(1.79573, abs=5e-6)
    # and the shaft has lost twice as much
    (section,) = (c for c in two.joints[0].checks if c.name == "yield, keyseat")
    assert section.factors["section"] == pytest.approx(1.0 - 2.0 * (1.0 - 0.785714), abs=2e-6)
    assert two.verdict == "pass"


def test_the_spline_holds_five_times_as_much() -> None:
    key = check("side bearing, key").safety_factor
    spline = min(c.safety_factor for c in auger().joints[1].checks if not c.local and c.safety_factor)
    assert key is not None
    assert spline / key > 5.0
