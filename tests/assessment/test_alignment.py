"""The alignment in the assessment: limits, what aligning would gain, verdict, report and JSON."""

import json
import math

import pytest
from builder import assessed, loaded

from torqcheck.assessment import Assessment, assess
from torqcheck.assessment.bench.alignment_result import AlignmentResult, LimitRow
from torqcheck.assessment.lifetime.life import life
from torqcheck.report.build import sheet_of
from torqcheck.report.formats.as_text import as_text

TILT = 'tilt = { angle = "0.08 deg" }'
OFFSET = 'tilt = { offset = "0.10 +/- 0 mm", span = "60 +/- 0 mm" }'
BOTH = (
    'tilt = {{ rim = {{ {rim} }}, face = {{ {face} }}, diameter = "120 mm", dial_on = "motor", '
    'turned = "both together", to_middle = "0 mm", span = "90 mm"{more} }}'
)
RIM = 'top = "0 mm", right = "0.05 mm", bottom = "-0.10 mm", left = "-0.15 mm"'
FACE = 'top = "0 mm", right = "0.02 mm", bottom = "-0.12 mm", left = "-0.14 mm"'


def swept(more: str = "", rim: str = RIM, face: str = FACE) -> str:
    return BOTH.format(rim=rim, face=face, more=more)


def found(result: Assessment) -> AlignmentResult:
    alignment = result.joints[0].alignment
    assert alignment is not None
    return alignment


def limit(alignment: AlignmentResult, start: str) -> LimitRow:
    (row,) = (row for row in alignment.limits if row.what.startswith(start))
    return row


def report(result: Assessment) -> str:
    return as_text(sheet_of(result, "si", 80), 80)


# limits


@pytest.mark.parametrize(
    ("value", "tolerance", "limit_", "excellent", "verdict"),
    [
        (0.5, 0.1, 1.0, None, "within"),
        (0.5, 0.1, 1.0, 0.6, "excellent"),
        (0.55, 0.1, 1.0, 0.6, "within"),
        (0.95, 0.1, 1.0, 0.6, "too close to tell"),
        (1.05, 0.1, 1.0, None, "too close to tell"),
        (1.2, 0.1, 1.0, None, "beyond"),
    ],
)
def test_the_tolerance_of_the_reading_counts(
    value: float, tolerance: float, limit_: float, excellent: float | None, verdict: str
) -> None:
    source = found(assessed()).limits[0].source
    row = LimitRow(
        what="x", kind="length", value=value, tolerance=tolerance, limit=limit_, excellent=excellent,
        hard=False, measured=True, source=source,
    )  # fmt: skip
    assert row.verdict == verdict


def test_an_offset_is_held_against_speed_and_span() -> None:
    alignment = found(assessed((TILT, OFFSET)))
    # 2000 rev/min at the motor over 2.5 is 800 at the joint: 0.19 at 750, 0.09 at 1500, straight in log-log
    by_hand = 0.19 * (0.09 / 0.19) ** (math.log(800 / 750) / math.log(2.0))
    row = limit(alignment, "offset, short")
    assert row.limit == pytest.approx(by_hand * 1e-3, rel=1e-6)
    assert row.value == pytest.approx(0.1e-3)
    assert row.verdict == "within"
    assert limit(alignment, "offset, two bearings").verdict == "beyond"
    assert limit(alignment, "offset over its span").value == pytest.approx(0.1 / 60.0)
    # slip at 800 rev/min: 16.51 mm x 1.6667 mrad x 83.78 rad/s
    assert limit(alignment, "slip speed").value == pytest.approx(16.51e-3 * 0.1 / 60.0 * 83.776, rel=1e-4)
    assert limit(alignment, "slip speed").limit == pytest.approx(0.012)


def test_run_out_of_the_shaft_is_held_against_its_diameter() -> None:
    alignment = found(assessed((TILT, 'tilt = { angle = "0.08 deg", shaft_runout = "0.10 mm" }')))
    rows = [row for row in alignment.limits if row.what.startswith("run-out")]
    # teeth of 34.3 mm outside: 0.002 in by inch frames, 0.05 mm by metric ones
    assert [row.limit for row in rows] == pytest.approx([0.0508e-3, 0.05e-3])
    assert [row.verdict for row in rows] == ["beyond", "beyond"]
    assert [row.value for row in rows] == pytest.approx([0.1e-3, 0.1e-3])
    assert "turn with the shaft" in " ".join(alignment.notes)


def test_what_was_not_measured_is_said_and_decides_nothing() -> None:
    alignment = found(assessed((TILT, 'tilt = "not measured"')))
    assert {row.verdict for row in alignment.limits} == {"not measured"}
    assert alignment.rows[0].state == "as assumed"
    assert alignment.reading.measured is False


# the limit of the teeth


@pytest.mark.parametrize(
    ("written", "crown", "verdict"),
    [
        ("0.99 +/- 0 deg", "", None),
        ("1.02 +/- 0 deg", "", "fail"),
        ("1.02 +/- 0.05 deg", "", None),
        ("1.02 +/- 0 deg", '\ncrown_height = "0.3 mm"', None),
        ("5.1 +/- 0 deg", '\ncrown_height = "0.3 mm"', "fail"),
    ],
)
def test_beyond_the_handbook_a_joint_fails(written: str, crown: str, verdict: str | None) -> None:
    result = assessed((TILT, f'tilt = {{ angle = "{written}" }}{crown}'))
    alignment = found(result)
    assert alignment.verdict == verdict
    if verdict == "fail":
        assert result.verdict == "fail"
        assert alignment.beyond is not None
        words = f"{written[:4].strip()} deg is beyond the {5 if crown else 1} deg that it is meant for"
        assert words in " ".join(report(result).split())
        assert "BEYOND" in report(result)


def test_it_is_the_alignment_that_fails_and_no_other_check() -> None:
    # so little torque and so short a life that nothing else can fail
    gentle = (
        ('peak_torque = "240 N*m"', 'peak_torque = "0.5 N*m"'),
        ('regen_torque = "90 N*m"\n', ""),
        ('torque_rise = "4800 N*m/s"', 'torque_rise = "0.5 N*m/s"'),
        ('service_life = "400 hour"', 'service_life = "1 hour"'),
    )
    fine = assessed(*gentle, (TILT, 'tilt = { angle = "0.99 +/- 0 deg" }'))
    beyond = assessed(*gentle, (TILT, 'tilt = { angle = "1.01 +/- 0 deg" }'))
    assert "fail" not in {check.verdict for check in beyond.joints[0].checks}
    assert fine.verdict != "fail"
    assert beyond.verdict == "fail"


def test_an_error_that_turns_is_not_held_against_a_limit_of_wear() -> None:
    result = assessed((TILT, 'tilt = { angle = "1.5 +/- 0 deg", turns_with_shaft = true }'))
    assert found(result).verdict is None
    assert not any(row.what.startswith("slip speed") for row in found(result).limits)
    assert all(row.wear_rate in {None, 0.0} for row in found(result).rows)


def test_life_says_the_same() -> None:
    scenario = loaded((TILT, 'tilt = { angle = "1.2 +/- 0 deg" }'))
    assert life(scenario).verdict == "fail"


# what aligning would gain


def test_rows_are_what_the_whole_check_says_of_the_edited_file() -> None:
    alignment = found(assessed((TILT, swept())))
    states = [row.state for row in alignment.rows]
    assert states == ["as read", "without offset", "without tilt", "aligned"]
    # 0.12 and 0.16 mm over the face circle of 120 mm; 0.05 and 0.10 mm over the span of 90 mm
    assert math.tan(alignment.rows[1].tilt) == pytest.approx(math.hypot(0.12, 0.16) / 120.0, rel=1e-6)
    assert math.tan(alignment.rows[2].tilt) == pytest.approx(math.hypot(0.05, 0.10) / 90.0, rel=1e-6)
    for row in alignment.rows[:3]:
        same = assessed((TILT, f'tilt = {{ angle = "{row.tilt!r} rad" }}'))
        other = found(same).rows[0]
        assert other.peak == pytest.approx(row.peak, rel=1e-9)
        assert other.first == pytest.approx(row.first, rel=1e-9)
        assert other.load_factor == pytest.approx(row.load_factor, rel=1e-9)
        assert other.wear_rate == pytest.approx(row.wear_rate, rel=1e-6)
        check = next(c for c in same.joints[0].checks if c.name == "flank pressure")
        assert check.factors["Km"] == pytest.approx(row.load_factor, rel=1e-9)
        distribution = same.joints[0].load_distribution
        assert distribution is not None
        assert distribution.peak == pytest.approx(row.peak, rel=1e-9)


def test_shares_are_differences_of_the_rows() -> None:
    alignment = found(assessed((TILT, swept())))
    present, offset, tilt, aligned = alignment.rows
    assert present.wear_rate
    assert offset.wear_rate is not None
    assert alignment.wear_share("without offset") == pytest.approx(1 - offset.wear_rate / present.wear_rate)
    assert alignment.load_share("without tilt") == pytest.approx(1 - tilt.peak[0] / present.peak[0])
    assert alignment.wear_share("aligned") == 1.0
    assert aligned.tilt == 0.0
    assert aligned.load_factor == 1.0
    # wear goes with the tangent of the tilt
    assert offset.wear_rate / present.wear_rate == pytest.approx(
        math.tan(offset.tilt) / math.tan(present.tilt), rel=1e-9
    )
    both = alignment.load_share("aligned")
    assert both is not None
    assert 0.0 < both < 1.0


def test_one_reading_has_two_rows() -> None:
    assert [row.state for row in found(assessed()).rows] == ["as read", "aligned"]
    assert [row.state for row in found(assessed((TILT, OFFSET))).rows] == ["as read", "aligned"]


def test_an_unsupported_nose_rocks_on_when_aligned() -> None:
    alignment = found(assessed(("nose_supported = true", 'nose_supported = false\nradial_play = "0.04 mm"')))
    assert alignment.rows[-1].tilt == pytest.approx(math.atan(0.04 / 31.75), rel=1e-9)
    assert alignment.rows[0].tilt == pytest.approx(math.radians(0.08) + math.atan(0.04 / 31.75), rel=1e-9)
    assert "support it first" in " ".join(alignment.notes)


def test_warm_feet_move_the_checks_and_the_cold_row_shows_what_they_cost() -> None:
    feet = ', feet = { height = "200 mm", warmer_by = "60 K", material = "cast iron" }'
    rim = RIM.replace('"-0.10 mm"', '"0.10 mm"').replace('"0.05 mm"', '"0.13 mm"').replace('"-0.15', '"-0.03')
    cold, warm = assessed((TILT, swept(rim=rim))), assessed((TILT, swept(feet, rim=rim)))
    assert found(warm).tilt > found(cold).tilt
    row = found(warm).row("feet cold")
    assert row is not None
    assert row.tilt == pytest.approx(found(cold).tilt, rel=1e-9)
    assert row.peak == pytest.approx(found(cold).rows[0].peak, rel=1e-9)
    (note,) = (note for note in found(warm).notes if note.startswith("Warm"))
    assert "the motor rises by 0.127 mm" in note
    assert "0.127 mm above that of the motor" in note


def test_the_tilt_of_a_set_is_drawn_as_one() -> None:
    result = assessed((TILT, swept()))
    check = next(c for c in result.joints[0].checks if c.name == "flank pressure")
    same = assessed(
        (TILT, f'tilt = {{ angle = "{found(result).tilt!r} +/- {found(result).tolerance!r} rad" }}')
    )
    other = next(c for c in same.joints[0].checks if c.name == "flank pressure")
    assert check.interval == pytest.approx(other.interval, rel=0.01)
    assert check.interval is not None
    assert check.safety_factor is not None
    assert check.interval[0] < check.safety_factor < check.interval[1]


# a joint that cannot rock


def test_a_rigid_joint_forces_its_offset_upon_the_shafts() -> None:
    result = assessed((TILT, swept()), ('seat = "flexible"', 'seat = "fixed"'))
    alignment = found(result)
    assert alignment.rows == ()
    assert alignment.verdict is None
    assert {row.what for row in alignment.limits} == {
        "offset, two bearings on each side",
        "tilt of axes, ball bearings",
        "tilt of axes, roller bearings",
    }
    (caution,) = (c for c in result.cautions if c.key == "joint[1] forced offset")
    assert "is forced upon shafts and bearings" in caution.text
    assert "no tolerance" in report(result)
    assert "makes some 800 N" in caution.text
    nothing = assessed((TILT, 'tilt = "not measured"'), ('seat = "flexible"', 'seat = "fixed"'))
    assert nothing.joints[0].alignment is None


def test_the_force_is_told_by_the_sizes_of_the_shaft_beside_it() -> None:
    # 25 mm, 60 mm overhang, bearings 150 mm apart: 15.75 N/um; against its like half of that for 0.1 mm
    shaft = (
        '[[joint]]\nname = "stub"\nkind = "shaft"\ndiameter = "25 mm"\nsteel = "4140_QT425"\nreused = false\n'
        'forced_offset = { offset = "0 mm", overhang = "60 mm", bearing_spacing = "150 mm"OTHER }\n\n'
        '[[joint]]\nname = "gearbox input"'
    )
    fixed = ('seat = "flexible"', 'seat = "fixed"')
    for other, force in (("", 1560.0), (', stiffness_of_other_side = "15.6 kN/mm"', 780.0)):
        text = ('[[joint]]\nname = "gearbox input"', shaft.replace("OTHER", other))
        result = assessed((TILT, swept()), fixed, text)
        (caution,) = (c for c in result.cautions if c.key == "joint[2] forced offset")
        told = float(caution.text.split("newton: ")[1].split(" N for each 0.1 mm at stub")[0])
        assert told == pytest.approx(force, rel=0.02)


# readings that decide nothing


def test_readings_that_do_not_close_leave_it_undecided() -> None:
    gentle = (('load = "light shock"', 'load = "uniform"'),)
    sound = assessed(*gentle, (TILT, swept()))
    warped = assessed(*gentle, (TILT, swept(face=FACE.replace('"-0.12', '"0.12'))))
    assert not sound.undecided_by
    assert [entry.reading for entry in warped.undecided_by] == ["alignment, once more"]
    assert any("do not close" in caution.text for caution in warped.cautions)


# report and JSON


def test_report_fits_and_names_everything() -> None:
    text = report(assessed((TILT, swept(', shaft_runout = "0.03 mm"'))))
    assert max(len(line) for line in text.splitlines()) <= 80
    for words in (
        "Alignment at gearbox input, by rim and face, four places",
        "offset that turns",
        "What is permitted at gearbox input",
        "tilt of mesh, straight teeth",
        "What aligning would gain at gearbox input",
        "without offset",
        "What goes: without the offset",
    ):
        assert words in text, words


def test_json_holds_offset_tilt_limits_and_shares() -> None:
    result = assessed((TILT, swept()))
    data = json.loads(json.dumps(result.to_dict(), allow_nan=False))["joints"][0]["alignment"]
    # up (0 + 0.10)/2 = 0.05, right (0.05 + 0.15)/2 = 0.10 mm; 0.12/120 up, 0.16/120 to the right
    assert data["offset_mm"]["vertical"] == pytest.approx(0.05)
    assert data["offset_mm"]["horizontal"] == pytest.approx(0.10)
    assert data["offset_mm"]["total"] == pytest.approx(math.hypot(0.05, 0.10))
    assert data["tilt_rad"]["vertical"] == pytest.approx(1.0e-3, rel=1e-5)
    assert data["tilt_rad"]["horizontal"] == pytest.approx(1.3333e-3, rel=1e-4)
    assert data["span_mm"] == 90.0
    assert data["joint_tilt_rad"] == result.joints[0].tilt
    assert [entry["sweep"] for entry in data["closing"]] == ["rim", "face"]
    assert {entry["unit"] for entry in data["limits"]} == {"mm", "mm/s", "rad"}
    assert set(data["shares"]["wear"]) == {"offset", "tilt", "both"}
    assert data["shares"]["load"]["both"] == pytest.approx(found(result).load_share("aligned"))
    assert data["rows"][0]["state"] == "as read"


def test_a_loaded_scenario_gives_the_same_as_its_text() -> None:
    assert found(assess(loaded((TILT, swept())))).to_dict() == found(assessed((TILT, swept()))).to_dict()
