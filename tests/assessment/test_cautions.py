"""Cautions stand where they apply, with the numbers of the scenario, and nowhere else."""

import pytest
from builder import assessed


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
