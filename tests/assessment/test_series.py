"""Splines in series: play adds up, and one offset tilts both meshes of the sleeve between them."""

from math import atan, degrees, hypot, pi, radians
from pathlib import Path

import numpy as np
import pytest
from assessment._sleeve_path import path_with
from builder import BASE
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.assessment import assess
from torqcheck.assessment.prepared import Prepared, changed, prepared_of
from torqcheck.assessment.ranges.responses import responses_of
from torqcheck.assessment.ranges.uncertain import uncertain_of
from torqcheck.assessment.teeth.series import linked_joint, mesh_tilts
from torqcheck.scenario import Scenario, scenario_from_text
from torqcheck.scenario.kinds.sleeve import SleeveJoint
from torqcheck.scenario.sleeve_links import tied_joints

ANGLED = 'floats = { offset = "0.10 mm", span = "80 mm", angle = "0.05 deg", read_at = "drum" }\n'
FIRST, DRUM = 25.4 / 20 * 26, 36.0  # pitch diameters, mm


def scenario_of(text: str) -> Scenario:
    return scenario_from_text(text.encode(), Path("test.toml"))


def prepared(*changes: tuple[str, str], floats: str | None = None) -> Prepared:
    text = path_with(*changes) if floats is None else path_with(*changes, floats=floats)
    return prepared_of(scenario_of(text))


def tilts(path: Prepared) -> tuple[float, float]:
    first, second = (path.joints[i].spline for i in (0, 2))
    assert first is not None
    assert second is not None
    return first.tilt.angle, second.tilt.angle


def test_the_play_of_both_meshes_adds_up_at_one_speed() -> None:
    lash = prepared().path.lash
    assert lash == pytest.approx(2 * 0.05 / FIRST + 2 * 0.08 / DRUM, rel=1e-12)


def test_play_behind_a_reduction_comes_in_multiplied_by_its_ratio() -> None:
    # a second spline of its own, without a sleeve, behind a stage of 3
    second = path_with().split("[[joint]]\n")[-1]
    second = second.replace("nose_supported", "after = [[3.0, 0.96]]\nnose_supported")
    second = second.replace("lubrication", 'tilt = { angle = "0.05 deg" }\nlubrication')
    lash = prepared_of(scenario_of(BASE + "\n[[joint]]\n" + second)).path.lash
    assert lash == pytest.approx(2 * 0.05 / FIRST + 3.0 * 2 * 0.08 / DRUM, rel=1e-12)


@settings(max_examples=20, deadline=None)
@given(st.floats(min_value=0.0, max_value=0.3), st.floats(min_value=0.0, max_value=0.3))
def test_play_adds_up_whatever_each_is(first: float, second: float) -> None:
    changes = ('clearance = "0.05 mm"', f'clearance = "{first:.6f} mm"'), ("0.08 mm", f"{second:.6f} mm")
    expected = 2 * round(first, 6) / FIRST + 2 * round(second, 6) / DRUM
    assert prepared(*changes).path.lash == pytest.approx(expected, rel=1e-9, abs=1e-15)


def test_an_offset_tilts_both_meshes_by_offset_over_span() -> None:
    assert tilts(prepared()) == pytest.approx((atan(0.10 / 80), atan(0.10 / 80)), rel=1e-12)


def test_half_the_span_doubles_the_tilt_of_both() -> None:
    half = tilts(prepared(('span = "80 mm"', 'span = "40 mm"')))
    assert half == pytest.approx((atan(0.10 / 40), atan(0.10 / 40)), rel=1e-12)


def test_a_runout_counts_half() -> None:
    floats = 'floats = { runout = "0.20 mm", span = "80 mm" }\n'
    assert tilts(prepared(floats=floats)) == pytest.approx(tilts(prepared()), rel=1e-12)
    sleeve = scenario_of(path_with(floats=floats.replace("0.20 mm", "0.20 +/- 0.04 mm"))).joint[1]
    assert isinstance(sleeve, SleeveJoint)
    assert [tilt.tolerance for tilt in mesh_tilts(sleeve)] == pytest.approx([0.02 / 80] * 2, rel=1e-9)


def test_the_angle_adds_where_the_offset_was_read_and_there_alone() -> None:
    at_drum = tilts(prepared(floats=ANGLED))
    assert at_drum == pytest.approx((atan(0.10 / 80), atan(0.10 / 80) + radians(0.05)), rel=1e-12)
    at_first = tilts(prepared(floats=ANGLED.replace('"drum"', '"gearbox input"')))
    assert at_first == pytest.approx(at_drum[::-1], rel=1e-12)


@pytest.mark.parametrize(
    "floats", [ANGLED, ANGLED.replace("offset", "runout"), ANGLED.replace('"drum"', '"gearbox input"')]
)
def test_each_mesh_gets_what_the_split_says(floats: str) -> None:
    path = prepared(floats=floats)
    sleeve = path.scenario.joint[1]
    assert isinstance(sleeve, SleeveJoint)
    assert tilts(path) == pytest.approx([tilt.angle for tilt in mesh_tilts(sleeve)], rel=1e-12)


def test_offset_and_angle_stay_apart_in_the_alignment() -> None:
    path = prepared(floats=ANGLED)
    first, drum = (path.joints[i].spline.tilt.alignment for i in (0, 2) if path.joints[i].spline is not None)
    assert first is not None
    assert drum is not None
    assert first.tilt is None
    assert (first.offset.total, drum.offset.total) == pytest.approx((0.1e-3, 0.1e-3), rel=1e-12)
    assert drum.tilt.total == pytest.approx(radians(0.05), rel=1e-12)
    assert drum.tilt.tolerance == pytest.approx(1.7e-4, rel=1e-9)


def test_two_aligned_shafts_tilt_nothing_and_miss_nothing() -> None:
    path = prepared(floats='floats = { offset = "0 mm", span = "80 mm" }\n')
    assert tilts(path) == (0.0, 0.0)
    assert not [entry for entry in path.ledger.missing if "tilt" in entry.reading]


def test_a_sleeve_that_states_no_float_leaves_the_tilt_to_each_spline() -> None:
    path = prepared(floats="")
    assert [entry.joint for entry in path.ledger.missing if "tilt" in entry.reading] == [
        "gearbox input",
        "drum",
    ]


def test_tolerances_of_offset_span_and_angle_go_into_the_tilt() -> None:
    floats = (
        'floats = { offset = "0.10 +/- 0.03 mm", span = "80 +/- 2 mm", angle = "0.05 +/- 0.01 deg", '
        'read_at = "drum" }\n'
    )
    sleeve = scenario_of(path_with(floats=floats)).joint[1]
    assert isinstance(sleeve, SleeveJoint)
    there, here = mesh_tilts(sleeve)
    by_offset = hypot(0.03 / 80, 0.10 * 2 / 80**2)
    assert there.tolerance == pytest.approx(by_offset, rel=1e-9)
    assert here.tolerance == pytest.approx(hypot(by_offset, radians(0.01)), rel=1e-9)


def test_everything_downstream_sees_the_tilt_as_if_it_had_been_written_there() -> None:
    shared = assess(scenario_of(path_with())).to_dict()
    angle = f'tilt = {{ angle = "{degrees(atan(0.10 / 80)):.15f} +/- 0 deg" }}\nnose_supported'
    alone = path_with(floats="").replace("nose_supported", angle)
    written = assess(scenario_of(alone)).to_dict()
    for index in (0, 2):
        one, other = shared["joints"][index], written["joints"][index]
        assert one["tilt_rad"] == pytest.approx(other["tilt_rad"], rel=1e-12)
        # the blow differs: without a span the sleeve twists over its whole length
        factors, expected = (
            [check["safety_factor"] for check in joint["checks"] if check["method"] == "guide, tabulated"]
            for joint in (one, other)
        )
        assert len(factors) == 4
        assert factors == pytest.approx(expected, rel=1e-12)


def test_a_held_spline_gets_the_outside_of_its_sleeve_and_gives_its_torque_off_at_the_far_end() -> None:
    joints = scenario_of(path_with()).joint
    assert joints[0].internal.outside_diameter is None
    held = linked_joint(joints, 0)
    assert held.internal.outside_diameter.value == pytest.approx(58e-3)
    assert held.take_off == "opposite side"


def test_what_a_spline_states_itself_stands() -> None:
    changes = (
        ("nose_supported", 'take_off = "same side"\nnose_supported'),
        (
            "[joint.internal]\n",
            '[joint.internal]\noutside_diameter = "57 mm"\n',
        ),
    )
    held = linked_joint(scenario_of(path_with(*changes)).joint, 0)
    assert held.internal.outside_diameter.value == pytest.approx(57e-3)
    assert held.take_off == "same side"


def test_the_joints_that_share_a_reading_are_tied_and_no_others() -> None:
    shaft = '\n[[joint]]\nname = "stub"\nkind = "shaft"\ndiameter = "40 mm"\nsteel = "4340_QT650"\n'
    joints = scenario_of(path_with() + shaft).joint
    assert [tied_joints(joints, i) for i in range(4)] == [frozenset({0, 1, 2})] * 3 + [frozenset({3})]


def test_a_changed_offset_moves_both_meshes_and_the_outside_diameter_both_hubs() -> None:
    path = prepared()
    other = scenario_of(path_with(('offset = "0.10 mm"', 'offset = "0.20 mm"')))
    assert tilts(changed(path, other, {}, 1)) == pytest.approx((atan(0.2 / 80), atan(0.2 / 80)), rel=1e-12)
    wider = changed(path, scenario_of(path_with(('"58 mm"', '"60 mm"'))), {}, 1)
    assert [j.spline.outside_diameter for j in wider.joints if j.spline is not None] == pytest.approx(
        [60e-3] * 2
    )


def test_the_offset_is_a_reading_that_moves_checks_of_both_splines() -> None:
    path = prepared(('offset = "0.10 mm"', 'offset = "0.15 mm"'))
    uncertain = [one for one in uncertain_of(path) if one.key.endswith("floats.offset")]
    assert [one.key for one in uncertain] == ["joint[2].floats.offset"]
    found = responses_of(path, [250.0, 250.0, 250.0], uncertain)
    (response,) = found.each
    moved = {
        key[0]
        for key, change in zip(found.keys, abs(response.checks).max(axis=0), strict=True)
        if change > 1e-6
    }
    assert {0, 2} <= moved


def test_the_report_says_how_it_floats() -> None:
    joint = assess(scenario_of(path_with(floats=ANGLED))).to_dict()["joints"][1]
    (note,) = joint["notes"]
    assert "gearbox input 0.072 deg, drum 0.122 deg" in note
    assert "the angle adds at drum, where the offset was read" in note


def test_wear_follows_the_shared_tilt() -> None:
    def rate(span: str) -> list[float]:
        result = assess(
            scenario_of(path_with(('"0.10 mm", span = "80 mm"', f'"0.30 mm", span = "{span}"')))
        ).to_dict()
        return [j["wear"]["life_hours"]["p50"] for j in result["joints"] if j["wear"]]

    wide, narrow = rate("100 mm"), rate("50 mm")
    assert len(wide) == 2
    assert all(n < w for n, w in zip(narrow, wide, strict=True))


def test_three_splines_in_a_row_add_all_their_play() -> None:
    third = path_with().split("[[joint]]\n")[-1].replace('name = "drum"', 'name = "third"')
    third = third.replace("lubrication", 'tilt = { angle = "0.05 deg" }\nlubrication')
    lash = prepared_of(scenario_of(path_with() + "\n[[joint]]\n" + third)).path.lash
    assert lash == pytest.approx(2 * 0.05 / FIRST + 2 * 2 * 0.08 / DRUM, rel=1e-12)
    assert lash * 180 / pi < 1.0


@pytest.mark.parametrize(
    ("span", "off"),
    [("80 +/- 2 mm", 0.01), ("80 +/- 24 mm", 0.25)],  # the second is no reading: it shows where the line ends
)
def test_tolerances_of_the_tilts_are_those_of_a_hundred_thousand_draws(span: str, off: float) -> None:
    """Each reading drawn evenly over its tolerance, the tilts from the geometry of the sleeve alone."""
    floats = (
        f'floats = {{ offset = "0.10 +/- 0.03 mm", span = "{span}", angle = "0.05 +/- 0.01 deg", '
        'read_at = "drum" }\n'
    )
    sleeve = scenario_of(path_with(floats=floats)).joint[1]
    assert isinstance(sleeve, SleeveJoint)
    there, here = mesh_tilts(sleeve)
    even = np.random.default_rng(11).uniform(-1.0, 1.0, (3, 100_000))
    middle, width = (float(part) for part in span.removesuffix(" mm").split(" +/- "))
    by_offset = np.arctan((0.10 + 0.03 * even[0]) / (middle + width * even[1]))
    at_drum = by_offset + np.radians(0.05 + 0.01 * even[2])
    for tilt, drawn in ((there, by_offset), (here, at_drum)):
        # an even draw has its half width over the root of 3 as standard deviation
        assert tilt.tolerance == pytest.approx(np.std(drawn) * np.sqrt(3.0), rel=off)
    if off > 0.1:
        assert there.tolerance < 0.95 * np.std(by_offset) * np.sqrt(3.0)
