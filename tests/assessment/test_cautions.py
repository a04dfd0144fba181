"""Cautions stand where they apply, with the numbers of the scenario, and nowhere else."""

import pytest
from builder import BASE, assessed, edited, loaded

from torqcheck.assessment.assess import assess_without_ranges


def texts(*changes: tuple[str, str]) -> dict[str, str]:
    return {entry.key: entry.text for entry in assessed(*changes).cautions}


def test_isolation_and_first_spin_with_the_speed_of_the_rim() -> None:
    """52 mm at 4000 rev/min over 2.5: 0.026 m x 167.6 rad/s = 4.36 m/s."""
    text = texts()["first spin"]
    assert "prove it dead" in text
    assert "4.4 m/s" in text


def test_no_rim_is_spoken_of_where_its_diameter_is_not_known() -> None:
    assert "m/s" not in texts(('outside_diameter = "52 mm"\n', ""))["first spin"]


@pytest.mark.parametrize(
    ("motor", "said"),
    [
        ('motor_mass = "38 kg"\nframe_diameter = "200 mm"', "The motor weighs 38 kg"),
        ('rotor_mass = "48 lb"\nrotor_diameter = "120 mm"', "The rotor alone weighs 22 kg"),
        ('motor_mass = "18 kg"\nframe_diameter = "200 mm"', ""),
        ('rotor_inertia = "0.05 kg*m^2"', ""),
    ],
)
def test_a_heavy_motor_is_to_be_slung(motor: str, said: str) -> None:
    """Common practice, no source: 20 kg is what one holds in place by hand."""
    found = texts(('rotor_inertia = "0.05 kg*m^2"', motor)).get("lifting", "")
    assert said in found
    assert bool(found) == bool(said)


@pytest.mark.parametrize(("torque", "governs"), [("90 N*m", False), ("240 N*m", False), ("450 N*m", True)])
def test_braking_harder_than_driving_is_said_and_shown(torque: str, governs: bool) -> None:
    """Ratio 2.5 without losses: 240 N m of the motor drive with 600 N m, 450 N m brake with 1125 N m."""
    found = assessed(
        ('regen_torque = "90 N*m"', f'regen_torque = "{torque}"'), ("efficiency = 0.97", "efficiency = 1.0")
    )
    said = {entry.key: entry.text for entry in found.cautions}.get("braking torque", "")
    rows = {step.name: step.torque for step in found.path}
    assert bool(said) == governs
    assert ("gearbox input, braking" in rows) == governs
    assert rows["gearbox input"] == pytest.approx(600.0, rel=1e-12)
    if governs:
        assert "brakes with up to 450 N m and drives with 240 N m at most" in said
        assert rows["gearbox input, braking"] == pytest.approx(1125.0, rel=1e-12)


KEY = """
[[joint]]
name = "motor key"
kind = "key"
standard = "din 6885"
shaft_diameter = "30 mm"
length = "40 mm"
fit = "tight"
shaft = { steel = "1045_CD", reused = false }
hub = { steel = "1045_CD", reused = false }
key = { steel = "1018_CD", reused = false }
"""


@pytest.mark.parametrize(
    ("written", "metric"),
    [
        ("0.982 in", True),
        ('1.181 +/- 0.001"', True),
        ("1 in", False),
        ("1 1/16 in", False),  # 26.99 mm, and an inch size all the same
        ("1.378 in", False),  # 35.00 mm, and 1 3/8 in within 0.08 mm: nobody can tell
        ("1.15 in", False),  # 29.21 mm is neither
        ("1 7/32 in", False),  # 30.96 mm: a fraction is a size of its own
        ("1.219 in", False),  # the same in decimals
        ("0.9842519685 in", False),  # 25 mm, converted: nobody reads ten digits
        ("25.4 mm", False),
        ("24.94 mm", False),
    ],
)
def test_a_metric_shaft_read_in_inches(written: str, metric: bool) -> None:
    """25 mm are 0.984 in and 30 mm 1.181 in; inch shafts go by 1/16 or 1/32: common practice, no source."""
    text = edited(('"30 mm"', f"'{written}'"), base=KEY)
    found = assess_without_ranges(loaded(base=BASE + text)).cautions
    assert any(entry.key == "metric shaft joint[2].shaft_diameter" for entry in found) == metric


EXTERNAL, INTERNAL = ('[joint.external]\nsteel = "8620_carb_63"', '[joint.internal]\nsteel = "8620_carb_63"')
READ = ('hardness = "60 HRC +/- 1"', "# not read")


@pytest.mark.parametrize(
    ("changes", "softer"),
    [
        ((), False),
        (((INTERNAL, '[joint.internal]\nsteel = "4140_PH28_32"'),), True),
        (((INTERNAL, '[joint.internal]\nsteel = "unknown"\nhardness = "200 HB"'),), True),
        (((INTERNAL, '[joint.internal]\nsteel = "unknown"'),), False),
        (((INTERNAL, '[joint.internal]\nsteel = "4140_PH28_32"'), ('"flexible"', '"fixed"')), False),
        (((INTERNAL, '[joint.internal]\nsteel = "8620_carb_63"\nwelded_near = true'),), True),
    ],
)
def test_the_softer_half_is_named_where_it_is_known_and_wears(
    changes: tuple[tuple[str, str], ...], softer: bool
) -> None:
    """Common practice, no source."""
    said = texts(*changes).get("joint[1] softer half", "")
    assert bool(said) == softer
    assert not softer or "the hub is soft beside the shaft" in said


@pytest.mark.parametrize(
    ("steel", "hard"), [("4340_QT425", True), ("4140_QT425", False), ("Mar250", False), ("4140_ind", False)]
)
def test_steel_that_is_hard_all_through_is_brittle(steel: str, hard: bool) -> None:
    """415 and 370 HB; maraging steel of aircraft quality; a hard layer on a core of 270 HB."""
    found = texts((EXTERNAL, f'[joint.external]\nsteel = "{steel}"'), READ)
    assert ("joint[1].external hard bar" in found) == hard


@pytest.mark.parametrize(
    ("rpm", "runout", "times"),
    [(4000, "", ""), (6100, "", "1 times"), (4000, ', shaft_runout = "0.20 mm"', "1.8")],
)
def test_what_runs_beside_its_axis_pulls_with_the_square_of_the_speed(
    rpm: int, runout: str, times: str
) -> None:
    """0.025 mm at 638.8 rad/s: 1.04 g; 0.1 mm at 418.9 rad/s: 1.79 g."""
    said = texts(
        ("ratio = 2.5", "ratio = 1.0"),
        ('"4000 rpm"', f'"{rpm} rpm"'),
        ('angle = "0.08 deg"', f'angle = "0.08 deg"{runout}'),
    ).get("joint[1] unbalance", "")
    assert bool(said) == bool(times)
    assert times in said
