"""Scenarios for tests: one sound base text, edited piece by piece."""

from pathlib import Path

import pytest

from torqcheck.assessment import Assessment, assess
from torqcheck.errors import ScenarioError
from torqcheck.scenario import Scenario, scenario_from_text

EXAMPLES = sorted((Path(__file__).parent.parent / "scenarios").glob("*.toml"))

BASE = """\
format = 1

[record]
title = "Test bench"
build = "T-1"
date = 2026-03-14

[motor]
peak_torque = "240 N*m"
torque_rise = "4800 N*m/s"
regen_torque = "90 N*m"
max_speed = "4000 rpm"
rotor_inertia = "0.05 kg*m^2"

[reduction]
ratio = 2.5
efficiency = 0.97
inertia = "0.004 kg*m^2"

[driven]
load = "light shock"
inertia = "2.4 kg*m^2"
stiffness = "9000 N*m/rad"
damping_ratio = 0.03

[targets]
safety_factor = 1.5
service_life = "400 hour"
reliability = 0.9
lash_limit = "0.40 mm"

[[duty]]
name = "starting"
torque = 1.0
speed = "600 rpm"
share = 0.1
events_per_hour = 20

[[duty]]
name = "running"
torque = 0.3
speed = "2000 rpm"
share = 0.9

[[joint]]
name = "gearbox input"
kind = "involute spline"
standard = "ansi b92.1"
size = { teeth = 26, pitch = "20/40", pressure_angle = "30 deg", root = "flat" }
engagement = "1.25 in"
seat = "flexible"
tilt = { angle = "0.08 deg" }
nose_supported = true
lash = { clearance = "0.05 mm" }
lubrication = "oil flooded"
after = []

[joint.external]
steel = "8620_carb_63"
hardness = "60 HRC +/- 1"
reused = true
measured = { teeth = 26, major_diameter = "1.345 in" }

[joint.internal]
steel = "8620_carb_63"
reused = false
outside_diameter = "52 mm"
measured = { teeth = 26 }
"""


def edited(*changes: tuple[str, str], base: str = BASE) -> str:
    """The base with pieces replaced; a piece that is not there is a mistake of the test."""
    for old, new in changes:
        assert base.count(old) >= 1, f"not in the base: {old}"
        base = base.replace(old, new, 1)
    return base


def refusal(block: str, *changes: tuple[str, str]) -> str:
    """Why the base with an edited block more is refused."""
    with pytest.raises(ScenarioError) as caught:
        loaded(base=BASE + edited(*changes, base=block))
    return str(caught.value)


def loaded(*changes: tuple[str, str], base: str = BASE) -> Scenario:
    """The edited base as a scenario."""
    return scenario_from_text(edited(*changes, base=base).encode(), Path("test.toml"))


def assessed(*changes: tuple[str, str], base: str = BASE) -> Assessment:
    """The edited base, assessed."""
    return assess(loaded(*changes, base=base))
