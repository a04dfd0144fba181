"""From four readings of a dial to two axes in space: against known axes, and against draws."""

import math
from collections.abc import Mapping

import numpy as np
import pytest
from builder import loaded
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.errors import ScenarioError
from torqcheck.geometry import InvoluteSpline
from torqcheck.scenario.bench import lash_of
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.ledger import Ledger, Outlook
from torqcheck.scenario.sizes import spline_of
from torqcheck.scenario.tilt_reading import AlignmentReading, TiltReading, tilt_of

MM, MRAD = 1e-3, 1e-3
TILT = 'tilt = { angle = "0.08 deg" }'
PLACES = ("top", "right", "bottom", "left")


def clock(values: Mapping[str, float] | tuple[float, ...], tolerance: float | None = None) -> str:
    """Four readings in mm as they stand in a file."""
    numbers = tuple(values.values()) if isinstance(values, Mapping) else values
    more = "" if tolerance is None else f" +/- {tolerance!r}"
    parts = [f'{place} = "{number!r}{more} mm"' for place, number in zip(PLACES, numbers, strict=True)]
    return "{ " + ", ".join(parts) + " }"


def read(
    written: str, *changes: tuple[str, str], outlook: Outlook = "as stated"
) -> tuple[TiltReading, Ledger]:
    scenario = loaded((TILT, f"tilt = {{ {written} }}"), *changes)
    joint, ledger = scenario.joint[0], Ledger(outlook)
    assert isinstance(joint, SplineJoint)
    spline = spline_of(joint)
    assert isinstance(spline, InvoluteSpline)
    lash = lash_of(joint, "joint[1]", "x", spline, spline.pitch_diameter, ledger)
    return tilt_of(joint, "joint[1]", "x", lash, spline, ledger), ledger


def alignment(written: str, *changes: tuple[str, str]) -> AlignmentReading:
    found = read(written, *changes)[0].alignment
    assert found is not None
    return found


def swept(
    offset: tuple[float, float], slope: tuple[float, float], dial_on: str, plane: float
) -> tuple[float, ...]:
    """What a dial shows on the rim of the other part, mm; zeroed at the top. The axes stand in space."""
    centre = [offset[i] + slope[i] * plane for i in (0, 1)]  # driven axis against the motor's, mm
    sign = 1.0 if dial_on == "motor" else -1.0
    pushed = [sign * centre[0], sign * centre[1], -sign * centre[0], -sign * centre[1]]
    return tuple(value - pushed[0] for value in pushed)


def faced(slope: tuple[float, float], diameter: float) -> tuple[float, ...]:
    """What a dial shows on the near face, mm; zeroed at the top."""
    up, right = (0.5 * part * diameter for part in slope)
    pushed = [up, right, -up, -right]
    return tuple(value - pushed[0] for value in pushed)


lengths = st.floats(-0.3, 0.3)
slopes = st.floats(-2e-3, 2e-3)


@settings(max_examples=40, deadline=None)
@given(
    offset=st.tuples(lengths, lengths),
    slope=st.tuples(slopes, slopes),
    dial_on=st.sampled_from(["motor", "driven"]),
    to_middle=st.floats(-80.0, 80.0),
)
def test_rim_and_face_give_back_the_axes_that_they_were_drawn_from(
    offset: tuple[float, float], slope: tuple[float, float], dial_on: str, to_middle: float
) -> None:
    # the middle of the engagement lies at 0 along the axis, the rim dial at -to_middle
    rim, face = swept(offset, slope, dial_on, -to_middle), faced(slope, 120.0)
    found = alignment(
        f'rim = {clock(rim)}, face = {clock(face)}, diameter = "120 mm", dial_on = "{dial_on}", '
        f'to_middle = "{to_middle!r} mm"'
    )
    assert found.offset is not None
    assert found.tilt is not None
    assert (found.offset.vertical, found.offset.horizontal) == pytest.approx(
        (offset[0] * MM, offset[1] * MM), abs=1e-9
    )
    assert (found.tilt.vertical, found.tilt.horizontal) == pytest.approx(slope, abs=1e-8)
    assert found.offset.total == pytest.approx(math.hypot(*offset) * MM, abs=2e-9)
    # the engagement takes the offset up, the harder of both ways
    ends = [
        math.hypot(*(s + sign * e / 31.75 for s, e in zip(slope, offset, strict=True))) for sign in (1, -1)
    ]
    assert math.tan(found.mesh.total) == pytest.approx(max(ends), abs=1e-7)
    for closing in found.closings:
        assert closing.error == pytest.approx(0.0, abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(
    offset=st.tuples(lengths, lengths),
    slope=st.tuples(slopes, slopes),
    dial_on=st.sampled_from(["motor", "driven"]),
    to_middle=st.floats(-80.0, 80.0),
    sag=st.floats(0.0, 0.2),
)
def test_two_rims_give_the_same_axes(
    offset: tuple[float, float], slope: tuple[float, float], dial_on: str, to_middle: float, sag: float
) -> None:
    other = "driven" if dial_on == "motor" else "motor"
    # the driven part lies 160 mm nearer to the driven machine than the part on the motor shaft
    step = -160.0 if dial_on == "motor" else 160.0
    planes = -to_middle, -to_middle + step
    hung = (0.0, -0.5 * sag, -sag, -0.5 * sag)
    first, second = (
        tuple(a + b for a, b in zip(swept(offset, slope, carrier, plane), hung, strict=True))
        for carrier, plane in zip((dial_on, other), planes, strict=True)
    )
    found = alignment(
        f'rim = {clock(first)}, reverse_rim = {clock(second)}, rims_apart = "160 mm", sag = "{sag!r} mm", '
        f'dial_on = "{dial_on}", to_middle = "{to_middle!r} mm"'
    )
    assert found.offset is not None
    assert found.tilt is not None
    assert (found.offset.vertical, found.offset.horizontal) == pytest.approx(
        (offset[0] * MM, offset[1] * MM), abs=2e-9
    )
    assert (found.tilt.vertical, found.tilt.horizontal) == pytest.approx(slope, abs=1e-8)


def test_turning_the_clock_by_90_degrees_turns_the_result() -> None:
    rim, face = (0.0, 0.07, -0.10, -0.17), (0.0, -0.05, -0.02, 0.03)
    text = 'diameter = "120 mm", dial_on = "motor", to_middle = "25 mm"'
    here = alignment(f"rim = {clock(rim)}, face = {clock(face)}, {text}")
    turned = alignment(f"rim = {clock((*rim[3:], *rim[:3]))}, face = {clock((*face[3:], *face[:3]))}, {text}")
    for ours, theirs in ((here.offset, turned.offset), (here.tilt, turned.tilt)):
        assert ours is not None
        assert theirs is not None
        # what was up now lies to the right, what lay to the right is now below
        assert theirs.horizontal == pytest.approx(ours.vertical, abs=1e-15)
        assert ours.horizontal is not None
        assert theirs.vertical == pytest.approx(-ours.horizontal, abs=1e-15)
        assert theirs.total == pytest.approx(ours.total, rel=1e-12)
        assert theirs.tolerance == pytest.approx(ours.tolerance, rel=1e-12)
    assert turned.mesh.total == pytest.approx(here.mesh.total, rel=1e-12)


RIM, FACE = (0.0, 0.14, 0.22, 0.08), (0.0, -0.10, -0.16, -0.06)
BOTH = f'rim = {clock(RIM)}, face = {clock(FACE)}, diameter = "120 mm", dial_on = "motor"'


def test_by_hand_with_the_sag_and_the_way_to_the_middle() -> None:
    found = alignment(f'{BOTH}, to_middle = "-30 mm", sag = "0.04 mm", span = "90 mm"')
    # up (0 - 0.22 - 0.04)/2 = -0.13 mm at the rim; faces closer at the top by 0.16 mm in 120 mm;
    # 30 mm back to the motor -0.13 - 0.03 * 1.333 = -0.17 mm; to the right (0.14 - 0.08)/2 = 0.03 mm, face
    # -0.04 mm in 120 mm, at the middle 0.03 + 0.01 = 0.04 mm
    assert found.offset is not None
    assert found.tilt is not None
    assert found.tilt.vertical == pytest.approx(0.16 / 120, rel=1e-5)
    assert found.tilt.horizontal == pytest.approx(-0.04 / 120, rel=1e-5)
    assert found.offset.vertical == pytest.approx(-0.17 * MM, rel=1e-5)
    assert found.offset.horizontal == pytest.approx(0.04 * MM, rel=1e-5)
    assert found.offset.total == pytest.approx(0.174642 * MM, rel=1e-5)
    # against each other: 1.3333 + 1.8889 and -0.3333 - 0.4444 mrad
    assert found.mesh.total == pytest.approx(math.hypot(3.2222, 0.7778) * MRAD, rel=1e-4)
    assert found.without_offset == pytest.approx(math.hypot(1.3333, 0.3333) * MRAD, rel=1e-4)
    assert found.without_tilt == pytest.approx(0.174642 / 90, rel=1e-5)


def test_a_list_is_top_right_bottom_left() -> None:
    rim, face = (str([f"{value} mm" for value in values]).replace("'", '"') for values in (RIM, FACE))
    row = f'rim = {rim}, face = {face}, diameter = "120 mm", dial_on = "motor"'
    assert alignment(row) == alignment(BOTH)


def test_half_a_turn_takes_the_run_out_out_and_shows_it() -> None:
    fixed, turning = (0.0, 0.14, 0.22, 0.08), (0.03, 0.01, -0.03, -0.01)
    first, second = (tuple(f + sign * w for f, w in zip(fixed, turning, strict=True)) for sign in (1.0, -1.0))
    text = (
        f"rim = {clock(first)}, rim_after_half_turn = {clock(second)}, face = {clock(FACE)}, "
        f'face_after_half_turn = {clock(FACE)}, diameter = "120 mm", dial_on = "motor", turned = "dial only"'
    )
    found, plain = alignment(text), alignment(BOTH)
    assert found.offset is not None
    assert plain.offset is not None
    assert found.offset.vertical == pytest.approx(plain.offset.vertical, rel=1e-9)
    assert found.offset.horizontal == pytest.approx(plain.offset.horizontal, rel=1e-9)
    # twice as many readings: the tolerance falls by the root of two
    assert found.offset.vertical_tolerance == pytest.approx(0.02 * MM / 2.0, rel=0.01)
    assert plain.offset.vertical_tolerance == pytest.approx(0.02 * MM / math.sqrt(2.0), rel=0.01)
    assert found.turning_offset is not None
    assert found.turning_offset.total == pytest.approx(math.hypot(0.03, 0.01) * MM, rel=1e-6)
    assert found.turning_tilt is not None
    assert found.turning_tilt.total == pytest.approx(0.0, abs=1e-12)


def test_run_out_left_in_the_reading_widens_it_or_is_warned_of() -> None:
    sharp = alignment(f'{BOTH}, turned = "both together", shaft_runout = "0.06 mm"')
    wide, ledger = read(f'{BOTH}, turned = "dial only", shaft_runout = "0.06 mm"')
    assert sharp.offset is not None
    assert wide.alignment is not None
    assert wide.alignment.offset is not None
    assert sharp.offset.vertical_tolerance is not None
    assert wide.alignment.offset.vertical_tolerance == pytest.approx(
        math.hypot(sharp.offset.vertical_tolerance, 0.03 * MM), rel=1e-9
    )
    assert sharp.turning_offset is not None
    assert sharp.turning_offset.total == pytest.approx(0.03 * MM)
    assert not any("half a turn" in entry.text for entry in ledger.cautions)
    _, ledger = read(f'{BOTH}, turned = "dial only"')
    assert any("half a turn" in entry.text for entry in ledger.cautions)
    _, ledger = read(BOTH)
    assert "joint[1].tilt.turned" in {entry.key for entry in ledger.assumptions}


def test_a_dial_on_the_housing_shows_what_turns_and_changes_no_tilt() -> None:
    plain = read('angle = "0.08 deg"')[0]
    with_it = read('angle = "0.08 deg", shaft_runout = "0.10 mm"')[0]
    assert with_it.angle == plain.angle
    assert with_it.alignment is not None
    assert with_it.alignment.turning_offset is not None
    assert with_it.alignment.turning_offset.total == pytest.approx(0.05 * MM)


# readings that do not close


def test_readings_that_close_within_the_dial_are_not_warned_of() -> None:
    _, ledger = read(BOTH.replace('bottom = "0.22', 'bottom = "0.25'))
    assert ledger.cautions == []
    assert not ledger.missing


def test_readings_that_do_not_close_are_told_and_count_as_worse() -> None:
    fine = read(BOTH)[0]
    poor, ledger = read(BOTH.replace('bottom = "0.22', 'bottom = "0.27'))
    (caution,) = ledger.cautions
    assert "do not close" in caution.text
    assert "0.050 mm, where 0.040 mm would do" in caution.text
    assert not ledger.missing
    assert poor.tolerance > 1.1 * fine.tolerance


def test_readings_that_are_far_from_closing_decide_nothing() -> None:
    # the four readings of a warped face, as a manual prints them
    warped = BOTH.replace(clock(FACE), clock((0.0, 0.08, -0.05, 0.08)))
    found, ledger = read(warped)
    assert [entry.reading for entry in ledger.missing] == ["alignment, once more"]
    assert found.alignment is not None
    assert found.alignment.closings[1].error == pytest.approx(-0.21 * MM)
    # it is hoped for as much as without a reading: 0.025 mm over 60 mm
    hoped, _ = read(warped, outlook="favourable")
    assert hoped.angle == pytest.approx(math.atan(0.025 / 60.0), rel=1e-9)


# tolerances


def test_tolerances_by_hand() -> None:
    found = alignment(f'{BOTH.replace("120 mm", "120 +/- 0 mm")}, to_middle = "60 +/- 0 mm"')
    # two readings of 0.02 mm each, halved; the same over 120 mm; 60 mm away half of the second adds
    assert found.offset is not None
    assert found.tilt is not None
    rim, face = 0.02 * MM / math.sqrt(2.0), 0.02 * math.sqrt(2.0) / 120
    assert found.tilt.vertical_tolerance == pytest.approx(face, rel=1e-5)
    assert found.offset.vertical_tolerance == pytest.approx(math.hypot(rim, 60 * MM * face), rel=1e-5)
    assert found.offset.tolerance == pytest.approx(found.offset.vertical_tolerance, rel=1e-9)
    for closing in found.closings:
        assert closing.tolerance == pytest.approx(0.04 * MM, rel=1e-9)


def test_an_error_of_the_sag_turns_its_sign_with_the_dial() -> None:
    # the middle between two rims: what the sag adds to the one it takes from the other
    level = clock((0.0, 0.0, 0.0, 0.0), 0.0)
    text = (
        f'rim = {level}, reverse_rim = {level}, rims_apart = "160 +/- 0 mm", sag = "0.10 +/- 0.03 mm", '
        'dial_on = "motor", to_middle = "WAY +/- 0 mm"'
    )
    middle, at_rim = (alignment(text.replace("WAY", way)) for way in ("-80", "0"))
    assert middle.offset is not None
    assert at_rim.offset is not None
    assert middle.offset.vertical_tolerance == pytest.approx(0.0, abs=1e-12)
    assert at_rim.offset.vertical_tolerance == pytest.approx(0.015 * MM, rel=1e-9)


@pytest.mark.parametrize("method", ["rim and face", "two rims"])
def test_linear_tolerances_against_draws(method: str) -> None:
    rng = np.random.default_rng(5)
    tolerance, sag, length, count = 0.015, 0.02, 1.0, 1500
    slope, offset = (1.1e-3, -0.7e-3), (0.16, 0.12)
    if method == "rim and face":
        first, second = swept(offset, slope, "motor", 25.0), faced(slope, 140.0)
        other, name, size = "face", "diameter", 140.0
    else:
        first, second = swept(offset, slope, "motor", 25.0), swept(offset, slope, "driven", -115.0)
        other, name, size = "reverse_rim", "rims_apart", 140.0

    def written(rim: tuple[float, ...], more: tuple[float, ...], d: float, x: float, s: float) -> str:
        return (
            f"rim = {clock(rim, tolerance)}, {other} = {clock(more, tolerance)}, "
            f'{name} = "{d!r} +/- {length} mm", to_middle = "{x!r} +/- {length} mm", '
            f'sag = "{s!r} +/- {sag} mm", dial_on = "motor", span = "90 +/- 0 mm"'
        )

    hung = np.array([0.0, -0.04, -0.08, -0.04])
    first = tuple((np.array(first) + hung).tolist())
    second = tuple((np.array(second) + hung).tolist()) if method == "two rims" else second
    found = alignment(written(first, second, size, -25.0, 0.08))
    drawn = []
    for _ in range(count):
        noise = rng.normal(0.0, 0.5 * tolerance, (2, 4))
        rim, more = (tuple(np.add(a, b).tolist()) for a, b in zip((first, second), noise, strict=True))
        d, x = rng.normal((size, -25.0), 0.5 * length).tolist()
        one = alignment(written(rim, more, d, x, abs(rng.normal(0.08, 0.5 * sag))))
        assert one.offset is not None
        assert one.tilt is not None
        drawn.append(
            [one.offset.vertical, one.offset.horizontal, one.offset.total, one.tilt.total, one.mesh.total]
        )
    assert found.offset is not None
    assert found.tilt is not None
    ours = [
        found.offset.vertical_tolerance,
        found.offset.horizontal_tolerance,
        found.offset.tolerance,
        found.tilt.tolerance,
        found.mesh.tolerance,
    ]
    # the spread of 1500 draws is known to 1.8 percent
    assert 2.0 * np.std(drawn, axis=0) == pytest.approx(ours, rel=0.07)
    assert np.mean(drawn, axis=0)[3:] == pytest.approx([found.tilt.total, found.mesh.total], rel=0.03)


# warm feet

FEET = 'feet = { height = "160 mm", warmer_by = "40 K", material = "cast iron" }'


def test_a_motor_that_rises_lowers_the_driven_axis_against_it() -> None:
    cold = alignment(f'{BOTH}, to_middle = "0 mm"')
    warm = alignment(f'{BOTH}, to_middle = "0 mm", {FEET}')
    rise = 10.6e-6 * 160 * 40 * MM
    assert warm.offset is not None
    assert warm.cold_offset is not None
    assert cold.offset is not None
    assert cold.offset.vertical is not None
    assert warm.cold_offset == cold.offset
    assert warm.offset.vertical == pytest.approx(cold.offset.vertical - rise, rel=1e-12)
    assert warm.offset.horizontal == cold.offset.horizontal
    assert warm.tilt == cold.tilt
    assert warm.cold_mesh == pytest.approx(cold.mesh.total, rel=1e-12)
    both = alignment(f'{BOTH}, to_middle = "0 mm", {FEET}, driven_{FEET}')
    assert both.offset is not None
    assert both.offset.vertical == pytest.approx(cold.offset.vertical, rel=1e-9)


def test_warm_feet_add_to_a_reading_without_direction() -> None:
    found = alignment(f'offset = "0.05 mm", span = "60 mm", {FEET}')
    rise = 10.6e-6 * 160 * 40 * MM
    assert found.offset is not None
    assert found.cold_offset is not None
    assert found.offset.total == pytest.approx(0.05 * MM + rise, rel=1e-12)
    assert found.cold_offset.total == pytest.approx(0.05 * MM)
    assert found.mesh.total == pytest.approx(math.atan((0.05 * MM + rise) / 0.06), rel=1e-12)
    angle = alignment(f'angle = "0.05 deg", {FEET}')
    assert angle.mesh.total == pytest.approx(math.radians(0.05) + math.atan(rise / 31.75e-3), rel=1e-12)


def test_works_disagree_on_steel_feet() -> None:
    found, ledger = read(f'{BOTH}, feet = {{ height = "160 mm", warmer_by = "72 degF" }}')
    (entry,) = (e for e in ledger.assumptions if e.key == "joint[1].tilt.feet.expansion")
    assert entry.value == pytest.approx(11.3e-6)
    assert "no material is given; works print 10.8e-6 to 11.7e-6" in entry.why
    assert found.alignment is not None
    assert found.alignment.offset is not None
    assert found.alignment.cold_offset is not None
    fall = found.alignment.cold_offset.vertical, found.alignment.offset.vertical
    assert fall[0] is not None
    assert fall[1] is not None
    assert fall[0] - fall[1] == pytest.approx(11.3e-6 * 0.16 * 40, rel=1e-9)


def test_a_fixed_seat_slips_nowhere_and_keeps_what_was_read() -> None:
    found, ledger = read(BOTH, ('seat = "flexible"', 'seat = "fixed"'))
    assert found.angle == 0.0
    assert found.alignment is not None
    assert found.alignment.mesh.total > 1e-3
    assert {entry.key for entry in ledger.assumptions} == {"joint[1].seat"}


# files that cannot be right

BAD = [
    (BOTH.replace(', dial_on = "motor"', ""), "tilt.dial_on: is missing"),
    (BOTH.replace('"motor"', '"gearbox"'), 'tilt.dial_on: "gearbox" is not one of the words'),
    (BOTH.replace(clock(FACE), '"0.16 mm"'), 'tilt.face: "0.16 mm" is not read as rim is'),
    (BOTH.replace(clock(RIM), '"0.22 mm"'), "tilt.face: is not read as rim is"),
    (BOTH.replace(clock(RIM), '["0 mm", "0.1 mm", "0.2 mm"]'), "tilt.rim: has 3 readings, not four"),
    (BOTH.replace("left =", "port ="), "tilt.rim.port: is not a known key"),
    (BOTH.replace('"0.14 mm"', '"0.14"'), 'tilt.rim.right: "0.14" has no unit'),
    (BOTH.replace('"0.14 mm"', '"-3 km"'), 'tilt.rim.right: "-3 km" is beyond anything'),
    (BOTH.replace('"120 mm"', '"0.5 mm"'), "tilt.face: is more than a fifth of diameter"),
    (BOTH.replace('diameter = "120 mm", ', ""), "tilt.diameter: is missing beside rim"),
    (f'{BOTH}, sag = "-0.04 mm"', 'tilt.sag: "-0.04 mm" must not be negative'),
    (f"{BOTH}, rim_after_half_turn = {clock(RIM)}", "tilt.face_after_half_turn: is missing"),
    (
        f'{BOTH}, turned = "both together", rim_after_half_turn = {clock(RIM)}, '
        f"face_after_half_turn = {clock(FACE)}",
        'tilt.turned: "both together" contradicts rim_after_half_turn',
    ),
    (f"{BOTH}, turns_with_shaft = true", "tilt.turns_with_shaft: true contradicts rim"),
    (f"{BOTH}, reverse_rim = {clock(RIM)}", "tilt.face: contradicts reverse_rim"),
    (f'rim = {clock(RIM)}, reverse_rim = {clock(RIM)}, dial_on = "motor"', "tilt.rims_apart: is missing"),
    (
        f'rim = "0.1 mm", reverse_rim = {clock(RIM)}, rims_apart = "100 mm"',
        'tilt.rim: "0.1 mm" is a total reading, which has no direction',
    ),
    ('angle = "0.1 deg", sag = "0.04 mm"', 'tilt.sag: "0.04 mm" only goes with four readings'),
    ('angle = "0.1 deg", to_middle = "10 mm"', 'tilt.to_middle: "10 mm" only goes with four readings'),
    (
        'angle = "0.1 deg", feet = { height = "160 mm", warmer_by = "40 mm" }',
        'tilt.feet.warmer_by: "40 mm" is a length, not a temperature difference',
    ),
    (
        'angle = "0.1 deg", feet = { height = "160 mm", warmer_by = "40 K", material = "steal" }',
        'tilt.feet.material: "steal" has no expansion in the table; did you mean "steel"?',
    ),
    (
        'angle = "0.1 deg", turns_with_shaft = true, feet = { height = "160 mm", warmer_by = "40 K" }',
        "tilt.feet: contradicts turns_with_shaft",
    ),
]


@pytest.mark.parametrize(("written", "told"), BAD, ids=[told for _, told in BAD])
def test_a_mistake_is_named_with_its_place(written: str, told: str) -> None:
    with pytest.raises(ScenarioError) as caught:
        loaded((TILT, f"tilt = {{ {written} }}"))
    assert f"joint[1].{told}" in str(caught.value)
