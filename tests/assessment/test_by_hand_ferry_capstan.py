"""The ferry capstan with bare arithmetic: the weakest link, the tilt of both meshes, the wall of the sleeve.

Inch and metric end of one sleeve; lengths in mm, torque 95 x 3 x 0.97 = 276.45 N m at both of them.
"""

from functools import cache
from math import atan, log2, pi, radians, sqrt, tan
from pathlib import Path

import pytest

from torqcheck.assessment import Assessment, assess
from torqcheck.scenario import scenario_from_text

SCENARIO = Path(__file__).parents[2] / "scenarios" / "ferry_capstan.toml"
TORQUE = 95.0 * 3.0 * 0.97
KA = 1.2  # uniform motor, light shock


@cache
def found(span: str = "105 mm") -> Assessment:
    text = SCENARIO.read_text(encoding="utf-8")
    assert text.count('"105 mm"') == 1
    return assess(scenario_from_text(text.replace('"105 mm"', f'"{span}"').encode(), SCENARIO))


def value(joint: int, name: str, method: str = "guide, tabulated") -> float:
    (check,) = (c for c in found().joints[joint].checks if (c.name, c.method) == (name, method))
    return check.value / 1e6


def test_the_weakest_link_is_the_flank_of_the_inch_end() -> None:
    # 2 T Ka Km / (D N L h): 27/16 in, 27 teeth, 1.5 in, 0.9/16 in less (1.750 - 1.749)/2 in
    diameter, height = 42.8625, 1.42875 - 0.0127
    pressure = 2.0 * 276.45e3 * 1.2 / (diameter * 27.0 * 38.1 * height)
    assert pressure == pytest.approx(10.6263, abs=1e-4)
    assert value(0, "flank pressure") == pytest.approx(pressure, rel=1e-9)
    # 2000 psi of a hub of 230 to 260 HB, for 2.94e7 turns: (0.8 x 900 + 0.2 x 1300)/3 rev/min, 1500 h
    turns = 980.0 / 3.0 * 60.0 * 1500.0
    assert turns == pytest.approx(2.94e7)
    allowed = 2000.0 * 6.894757e-3 * 2.0 ** ((8.0 - 7.468347) / 2.0)
    weakest = found().weakest
    assert weakest is not None
    assert (weakest.joint, weakest.check) == ("gearbox shaft", "flank pressure")
    assert weakest.safety_factor == pytest.approx(allowed / pressure, rel=1e-6)
    assert weakest.safety_factor == pytest.approx(1.560, abs=5e-4)


def test_the_offset_tilts_both_ends_and_the_angle_one() -> None:
    first, sleeve, second = found().joints
    assert first.tilt == pytest.approx(atan(0.10 / 105.0))  # 0.952 mrad
    assert sleeve.tilt is None
    assert second.tilt == pytest.approx(atan(0.10 / 105.0) + radians(0.02))  # 1.301 mrad


def test_the_metric_end_pays_for_the_angle_in_load_distribution() -> None:
    # end gap 42 tan(1.3014e-3) = 0.05466 against the 0.002 in that costs nothing
    factor = 1.0 + 0.5 * log2(42.0 * tan(1.3014465e-3) / 0.0508)
    assert factor == pytest.approx(1.0528, abs=1e-4)
    height = 0.9 * 2.0 - (46.0 - 45.95) / 2.0
    pressure = 2.0 * 276.45e3 * 1.2 * factor / (44.0 * 22.0 * 42.0 * height)
    assert value(2, "flank pressure") == pytest.approx(pressure, rel=1e-6)


def test_the_play_of_both_ends_adds_up() -> None:
    # 0.06 mm at a radius of 21.43125 mm, 0.30 mm of dial at 90 mm
    assert found().shock.lash == pytest.approx(0.06 / 21.43125 + 0.30 / 90.0)  # 6.133 mrad


def test_the_wall_twists_most_over_its_free_bore_and_bursts_most_over_the_metric_end() -> None:
    torque = 276.45e3 * 1.2  # 331,740 N mm

    def shear(inside: float) -> float:
        return 16.0 * torque * 72.0 / (pi * (72.0**4 - inside**4))

    # 48 mm between the ends; grooves of 47 mm, and of 28.35/16 in = 45.005625 mm
    assert shear(48.0) == pytest.approx(5.6408, abs=1e-4)
    assert value(1, "torsional yield of the wall", "larger load") == pytest.approx(shear(48.0), rel=1e-9)

    # hoop: T tan 30/(pi D tw L) of the teeth, (rho w^2/16)(3.3 Do^2 + 0.7 Di^2) of 500 rev/min
    def together(inside: float, pitch: float, length: float) -> float:
        wall = (72.0 - inside) / 2.0
        teeth = torque * 0.577350269 / (pi * pitch * wall * length)
        turning = 7850.0 / 16.0 * 52.35988**2 * (3.3 * 0.072**2 + 0.7 * (1e-3 * inside) ** 2) / 1e6
        return sqrt((teeth + turning) ** 2 + 3.0 * shear(inside) ** 2)

    metric, inch = together(47.0, 44.0, 42.0), together(45.005625, 42.8625, 38.1)
    assert metric == pytest.approx(9.943, abs=1e-3)
    assert metric > inch
    assert value(1, "bursting with torsion", "larger load") == pytest.approx(metric, rel=1e-6)


def test_half_the_span_doubles_the_tilt_and_costs_the_pass() -> None:
    assert found().verdict == "pass"
    half = found("52.5 mm")
    assert half.joints[0].tilt == pytest.approx(2.0 * 0.10 / 105.0, rel=1e-5)
    assert half.verdict == "marginal"
    wear = [
        (wide.wear.life[1], narrow.wear.life[1])
        for wide, narrow in zip(found().joints, half.joints, strict=True)
        if wide.wear and narrow.wear and wide.wear.life and narrow.wear.life
    ]
    assert len(wear) == 2
    assert all(narrow < 0.7 * wide for wide, narrow in wear)
