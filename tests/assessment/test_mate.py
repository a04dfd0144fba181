"""Pins, play and counts of a scenario on their way into mate, lash and strength."""

import pytest
from builder import assessed

from torqcheck.assessment.result import Assessment, MateResult
from torqcheck.geometry import ansi_b92_1, between_pins, over_pins

SPLINE = ansi_b92_1.spline(26, "20/40")
PIN, HUB_PIN = 0.096 * 0.0254, 0.0864 * 0.0254
SOUND = (
    ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"'),
    ('torque_rise = "4800 N*m/s"', 'rise_time = "0.5 s"'),
    ('tilt = { angle = "0.08 deg" }', 'tilt = { angle = "0.05 deg" }'),
)
LASH = 'lash = { clearance = "0.05 mm" }'


def shaft(thickness: float) -> tuple[str, str]:
    reading = float(over_pins(26, SPLINE.module, SPLINE.pressure_angle, thickness, PIN)) * 1e3
    pins = f'over_pins = "{reading:.4f} +/- 0.004 mm", pin = "0.0960 +/- 0.0001 in"'
    return '{ teeth = 26, major_diameter = "1.345 in" }', f"{{ teeth = 26, {pins} }}"


def hub(space: float) -> tuple[str, str]:
    reading = float(between_pins(26, SPLINE.module, SPLINE.pressure_angle, space, HUB_PIN)) * 1e3
    pins = f'between_pins = "{reading:.4f} +/- 0.004 mm", pin = "0.0864 +/- 0.0001 in"'
    new = 'reused = false\noutside_diameter = "52 mm"\nmeasured = { teeth = 26 }'
    old = 'reused = true\nhardness = "60 HRC"\noutside_diameter = "52 mm"\n'
    return new, f"{old}measured = {{ teeth = 26, {pins} }}"


def mate_of(result: Assessment) -> MateResult:
    mate = result.joints[0].mate
    assert mate is not None
    return mate


BASIC = SPLINE.tooth_thickness


def test_pins_stand_in_for_a_lash_that_was_not_read() -> None:
    result = assessed(*SOUND, shaft(BASIC - 0.05e-3), hub(BASIC + 0.05e-3), (LASH, 'lash = "not measured"'))
    assert result.joints[0].lash == pytest.approx(2 * 0.10e-3 / SPLINE.pitch_diameter, rel=0.01)
    assert not any(entry.reading == "lash" for entry in result.undecided_by)


def test_pins_that_contradict_the_stated_play_are_no_ground_for_a_pass() -> None:
    result = assessed(*SOUND, shaft(BASIC - 0.40e-3), hub(BASIC + 0.40e-3))
    assert result.verdict != "pass"
    mate = mate_of(result)
    assert mate.verdict in {"not measured", "worn mate"}


def test_a_tooth_thicker_than_the_standard_allows_is_no_true_mate() -> None:
    result = assessed(*SOUND, shaft(BASIC + 0.20e-3))
    mate = mate_of(result)
    assert mate.verdict in {"false fit", "not measured"}
    assert result.verdict in {"fail", "undecided"}


def test_a_worn_mate_is_marginal_at_best_and_its_width_enters_the_strength() -> None:
    worn = assessed(*SOUND, shaft(BASIC - 0.17e-3), (LASH, 'lash = { clearance = "0.20 mm" }'))
    mate = mate_of(worn)
    assert mate.verdict == "worn mate"
    assert mate.external_wear is not None
    assert mate.external_wear > 0.05e-3
    assert worn.verdict == "marginal"
    sound = assessed(*SOUND)
    stresses = [
        next(c.value for c in r.joints[0].checks if c.name == "pitch-line tooth shear" and "tab" in c.method)
        for r in (worn, sound)
    ]
    assert stresses[0] / stresses[1] == pytest.approx(BASIC / (BASIC - 0.17e-3), rel=1e-3)


def test_a_part_of_a_neighbouring_pitch_is_unmasked_by_its_own_diameters() -> None:
    # 26 teeth of module 1.25 have an outside diameter of 33.75 mm, those of 20/40 of 34.29 mm
    shown = 'measured = { teeth = 26, major_diameter = "33.75 +/- 0.01 mm", '
    pins = 'over_pins = "36.30 +/- 0.004 mm", pin = "2.4384 +/- 0.001 mm" }'
    result = assessed(*SOUND, ('measured = { teeth = 26, major_diameter = "1.345 in" }', shown + pins))
    assert mate_of(result).verdict in {"false fit", "not measured"}
    assert result.verdict != "pass"


def test_off_centre_assembly_is_told_for_a_false_fit() -> None:
    result = assessed(*SOUND, ("measured = { teeth = 26 }", "measured = { teeth = 27 }"))
    data = mate_of(result).to_dict()["assembly"]
    # the table for 24/48 carried to 20/40 in proportion to the module [derived]: 0.0102 in at 0.662/P
    assert data["off_centre"]["clearance_mm"] == pytest.approx(0.01022 * 25.4 * 24 / 20, abs=0.01)
    assert data["off_centre"]["offset_mm"] == pytest.approx(0.662 * 25.4 / 20, abs=0.02)
