"""The glasshouse tug with bare arithmetic: what its lengths, materials and temperatures come to.

Lengths in mm, expansions per kelvin as tabulated (steel 11.3e-6, cast iron 10.6e-6, aluminium 23.0e-6),
everything from 20 degC: motor face 50, adapter and gearbox 45, motor shaft and coupler 120, input shaft 95.
"""

from pathlib import Path

import pytest

from torqcheck.assessment import assess
from torqcheck.assessment.stack.judge import stack

SCENARIO = Path(__file__).parents[2] / "scenarios" / "glasshouse_tug.toml"


def test_the_nose_bottoms_hot_and_half_a_millimetre_mends_it() -> None:
    stops = 34.0 + 0.0 + 112.0 + 86.0 - 74.6 - 36.0 - 121.0  # 0.4, motor shaft pulled back
    tolerances = 0.03 + 0.03 + 0.05 + 0.05 + 0.03 + 0.05  # 0.24
    cold = stops - 0.1 - tolerances  # the motor shaft moves on by its float
    assert cold == pytest.approx(0.06)
    housings = (
        23.0e-6 * 34.0 * 30.0 + 10.6e-6 * 112.0 * 25.0 + 10.6e-6 * 86.0 * 25.0
    )  # 0.02346 + 0.02968 + 0.02279
    shafts = 11.3e-6 * (74.6 + 36.0) * 100.0 + 11.3e-6 * 121.0 * 75.0  # 0.12498 + 0.10255
    hot = cold + housings - shafts
    assert hot == pytest.approx(-0.0916, abs=5e-5)
    found = stack(SCENARIO).check
    gap = next(one for one in found.results if one.name == "nose to plug")
    assert gap.assembled.least * 1e3 == pytest.approx(cold)
    assert gap.running.least * 1e3 == pytest.approx(hot)
    assert gap.verdict == "fail"
    # 0.3 wanted, 0.3916 short; a shim is good to 0.01: 0.2 + 0.2 are sure of 0.38 only, 0.5 is one piece
    assert found.shim is not None
    assert found.shim.wanted * 1e3 == pytest.approx(0.3 - hot)
    assert found.shim.pack == (0.5e-3,)
    mended = next(one for one in found.shim.after if one.name == "nose to plug")
    assert mended.worst * 1e3 == pytest.approx(hot + 0.5 - 0.01)
    assert {one.verdict for one in found.shim.after} == {"pass"}


def test_the_stop_ring_must_go_back_by_as_much_as_is_short() -> None:
    (ring,) = stack(SCENARIO).check.collars
    assert ring.high * 1e3 == pytest.approx(74.6 - 0.0916 - 0.05, abs=5e-5)


def test_the_least_engagement_carries_the_flank_pressure() -> None:
    """2 T Ka Km / (D N h L): 140 N m, 1.2, 1, 26 teeth of 20/40, h = 1/20 in less the worn tips."""
    nominal = 74.6 + 72.0 + 0.05 + 121.0 - (34.0 + 112.0 + 86.0) - 1.0 - 1.5
    least = nominal - (0.05 + 0.05 + 0.05 + 0.05 + 0.03 + 0.03 + 0.05 + 0.1 + 0.1)
    assert least == pytest.approx(32.64)
    joint = assess(SCENARIO).joints[0]
    values = {check.name: check.value / 1e6 for check in joint.checks if check.method == "guide, tabulated"}
    diameter, height = 26.0 / 20.0 * 25.4, 25.4 / 20.0 - (34.29 - 34.19) / 2.0  # 33.02 and 1.22
    pressure = 2.0 * 140e3 * 1.2 / (diameter * 26.0 * height * least)  # 9.83
    assert values["flank pressure"] == pytest.approx(pressure, rel=1e-6)
    root = 24.0 / 20.0 * 25.4  # 30.48
    shear = 16.0 * 140e3 * 1.2 / (3.141592653589793 * root**3)  # 30.2
    assert values["root shear, external member"] == pytest.approx(shear, rel=1e-6)
    assert joint.verdict == "pass"
