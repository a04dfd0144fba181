"""Effect of play: each row is what a check of the edited scenario says, and the first tooth stands beside."""

import json
import math
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from builder import BASE, EXAMPLES, assessed, edited, loaded
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck._types import FloatArray
from torqcheck.assessment import Assessment, assess
from torqcheck.assessment.bench.play_result import PlayResult, PlayRow
from torqcheck.geometry import ansi_b92_1
from torqcheck.report.build import sheet_of
from torqcheck.report.formats.as_json import as_json
from torqcheck.report.formats.as_markdown import as_markdown
from torqcheck.report.formats.as_text import as_text

MM = 1e-3
D = 26 * 25.4 / 20 * MM
L = 31.75 * MM
LASH = 'lash = { clearance = "0.05 mm" }'
NEW = ansi_b92_1.spline(26, "20/40").new_clearance.maximum
LIMIT = 0.40 * MM
A30 = math.radians(30.0)
SECOND = """
[[joint]]
name = "axle input"
kind = "straight spline"
standard = "iso 14"
size = { designation = "8x52x60" }
engagement = "60 mm"
seat = "flexible"
nose_supported = true
tilt = { angle = "0.04 deg" }
lash = { clearance = "0.09 mm" }
lubrication = "oil flooded"
after = [[3.0, 0.97]]

[joint.external]
steel = "8620_carb_63"
hardness = "60 HRC +/- 1"
reused = false

[joint.internal]
steel = "8620_carb_63"
reused = false
outside_diameter = "85 mm"
"""


def clearance(value: float) -> str:
    return f'lash = {{ clearance = "{value / MM!r} mm" }}'


def play(result: Assessment, joint: int = 0) -> PlayResult:
    found = result.joints[joint].play
    assert found is not None
    return found


def row(result: Assessment, state: str, joint: int = 0) -> PlayRow:
    return next(entry for entry in play(result, joint).rows if entry.state == state)


def lowest_simulated(result: Assessment, joint: int = 0) -> float:
    checks = result.joints[joint].checks
    return min(c.safety_factor for c in checks if c.method == "guide, simulated" and c.safety_factor)


BASE_RESULT = assessed()


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_present_row_is_the_joint_as_it_is(path: Path) -> None:
    result = assess(path)
    compared = 0
    for index, joint in enumerate(result.joints):
        if joint.play is None:
            assert not joint.kind.endswith("spline")
            continue
        present = joint.play.rows[0]
        assert present.blow_torque == joint.peak_torque
        assert present.lash == joint.lash
        assert present.safety_factor == lowest_simulated(result, index)
        assert joint.play.rows[-1].clearance == joint.lash_limit
        assert [entry.state for entry in joint.play.rows][-2:] == ["as new", "at the lash limit"]
        if result.shock.start == "rest":
            assert present.closing_speed == pytest.approx(result.shock.closing_speed, rel=1e-12)
            assert present.blow_energy == pytest.approx(result.shock.blow_energy, rel=1e-12)
        compared += 1
    assert compared


@pytest.mark.parametrize(
    "extra",
    [
        (),
        (("[driven]\n", '[driven]\nslip = { torque = "500 N*m", inertia_before = "0.3 kg*m^2" }\n'),),
        (("nose_supported = true", "nose_supported = false"),),
        (("nose_supported = true", 'nose_supported = false\nradial_play = "0.043 mm"'),),
        (('\ninertia = "2.4 kg*m^2"', ""), ('\nstiffness = "9000 N*m/rad"', "")),
    ],
    ids=["plain", "slip", "nose free", "nose free, play read", "unknown machine"],
)
def test_each_row_is_what_the_edited_scenario_gives(extra: tuple[tuple[str, str], ...]) -> None:
    result = assessed(*extra)
    # where a radial play was read the edited part has that of its flanks: nothing else stops it
    gone = [('radial_play = "0.043 mm"', "")] if any("radial_play" in new for _, new in extra) else []
    for state, lash in (("as new", 'lash = "as new"'), ("at the lash limit", clearance(LIMIT))):
        other = assessed(*extra, (LASH, lash), *gone)
        found = row(result, state)
        assert found.lash == pytest.approx(other.joints[0].lash, rel=1e-12)
        assert found.blow_torque == pytest.approx(other.joints[0].peak_torque, rel=1e-9)
        # the rocking of a free nose: the bench takes the many-tooth limit, which is within a percent
        tolerance = 2e-3 if gone else 1e-9
        assert found.safety_factor == pytest.approx(lowest_simulated(other), rel=tolerance)
        own = play(other).rows[0]
        assert found.held.share == pytest.approx(own.held.share, rel=1e-9)
        assert found.centred.share == pytest.approx(own.centred.share, rel=1e-9)
        assert found.closing_speed == pytest.approx(own.closing_speed, rel=1e-9)
        assert found.blow_energy == pytest.approx(own.blow_energy, rel=1e-9)


def test_a_free_nose_rocks_in_the_play_of_each_row() -> None:
    # the factor at the limit falls by more than the torque rises: the load is spread less well as well
    free = assessed(("nose_supported = true", "nose_supported = false"))
    held = BASE_RESULT
    lost = [
        row(result, "as new").safety_factor / row(result, "at the lash limit").safety_factor  # type: ignore[operator]
        for result in (free, held)
    ]
    assert lost[0] > 1.2 * lost[1]


def test_a_second_spline_behind_a_ratio_changes_by_itself() -> None:
    text = edited() + SECOND
    result = assess(loaded(base=text))
    assert len(play(result, 0).rows) == len(play(result, 1).rows) == 3
    for joint, old in ((0, LASH), (1, 'lash = { clearance = "0.09 mm" }')):
        found = row(result, "at the lash limit", joint)
        other = assess(loaded((old, clearance(LIMIT)), base=text))
        assert found.blow_torque == pytest.approx(other.joints[joint].peak_torque, rel=1e-9)
        assert found.safety_factor == pytest.approx(lowest_simulated(other, joint), rel=1e-9)
        # the whole path's lash, seen from the first spline: the angle behind the ratio counts threefold
        diameter, ratio = ((D, 1.0), (56 * MM, 3.0))[joint]
        present = play(result, joint).rows[0]
        more = 2.0 * ratio * (LIMIT - present.clearance) / diameter
        assert other.shock.lash - result.shock.lash == pytest.approx(more, rel=1e-9)


def test_closing_speed_by_the_closed_form_of_a_rising_ramp() -> None:
    # from rest, still rising: vc = 1.65096 (S b^2/J1)^(1/3) (derived; shock reference, exact prefactor)
    slope, inertia = 4800 * 2.5 * 0.97, 0.05 * 2.5**2 + 0.004
    for entry in play(BASE_RESULT).rows:
        b = 2.0 * entry.clearance / D
        wanted = 6 ** (2 / 3) / 2 * (slope * b**2 / inertia) ** (1 / 3)
        assert entry.closing_speed == pytest.approx(wanted, rel=1e-9)
        reduced = inertia * 2.4 / (inertia + 2.4)
        assert entry.blow_energy == pytest.approx(0.5 * reduced * wanted**2, rel=1e-9)


@settings(max_examples=25, deadline=None)
@given(
    rise=st.floats(100.0, 50_000.0),
    lash=st.floats(0.001, 0.8),
    inertia=st.floats(0.005, 0.5),
    regen=st.booleans(),
)
def test_speed_and_energy_from_rest_never_fall_with_more_play(
    rise: float, lash: float, inertia: float, regen: bool
) -> None:
    changes = [
        ('torque_rise = "4800 N*m/s"', f'torque_rise = "{rise} N*m/s"'),
        (LASH, clearance(lash * MM)),
        ('rotor_inertia = "0.05', f'rotor_inertia = "{inertia}'),
    ]
    if not regen:
        changes.append(('regen_torque = "90 N*m"\n', ""))
    rows = sorted(play(assessed(*changes)).rows, key=lambda entry: entry.clearance)
    for less, more in pairwise(rows):
        assert more.closing_speed >= less.closing_speed * (1 - 1e-12)  # type: ignore[operator]
        assert more.blow_energy >= less.blow_energy * (1 - 1e-12)  # type: ignore[operator]


@pytest.mark.parametrize("rise", [300, 500])
def test_a_peak_that_falls_with_more_play_is_said_and_not_hidden(rise: int) -> None:
    remark = "At the lash limit the peak is lower than"
    result = assessed(
        ('torque_rise = "4800 N*m/s"', f'torque_rise = "{rise} N*m/s"'),
        (LASH, 'lash = { clearance = "0.20 mm" }'),
    )
    present, _, limit = play(result).rows
    assert limit.clearance > present.clearance
    assert limit.blow_torque < present.blow_torque
    assert limit.closing_speed > present.closing_speed  # type: ignore[operator]
    assert any(note.startswith(remark) for note in play(result).notes)
    assert remark in " ".join(as_text(sheet_of(result, "si", 80)).split())


def test_no_such_remark_where_the_peak_rises_with_the_play() -> None:
    rows = sorted(play(BASE_RESULT).rows, key=lambda entry: entry.clearance)
    assert all(b.blow_torque > a.blow_torque for a, b in pairwise(rows))
    assert not any("the peak is lower than" in note for note in play(BASE_RESULT).notes)


def first_shares(force: float, sigma: float, amplitude: float, draws: int) -> FloatArray:
    """Share of the first tooth with own draws and a bisection on the approach: another way to the same."""
    generator = np.random.default_rng(99)
    errors = generator.normal(0.0, sigma, (draws, 26))
    errors += amplitude * np.cos(generator.uniform(0, 7, (draws, 1)) * 9.0 + 2 * np.pi / 26 * np.arange(26))
    stiffness = 15e9 * L
    low = errors.min(axis=1)
    high = low + force / stiffness
    for _ in range(60):
        middle = 0.5 * (low + high)
        carried = stiffness * np.maximum(middle[:, None] - errors, 0.0).sum(axis=1)
        low, high = np.where(carried < force, middle, low), np.where(carried < force, high, middle)
    return np.asarray(stiffness * (high - errors.min(axis=1)) / force)


@pytest.mark.parametrize("state", ["as measured", "as new", "at the lash limit"])
def test_first_tooth_against_draws_and_bisection_of_our_own(state: str) -> None:
    entry = row(BASE_RESULT, state)
    # class 5: Fp = 3.55 sqrt(pi m N/2) + 9 in um and mm (published), six sigma of each member (assumed)
    sigma = math.sqrt(2) / 6 * (3.55 * math.sqrt(math.pi * D / MM / 2) + 9.0) * 1e-6
    assert play(BASE_RESULT).index_sigma == pytest.approx(sigma, rel=1e-12)
    force = 2.0 * entry.blow_torque / D
    for tooth, amplitude in ((entry.held, 0.5 * entry.radial_play / math.cos(A30)), (entry.centred, 0.0)):
        theirs = first_shares(force, sigma, amplitude, 20_000)
        for ours, percent in zip(tooth.share, (0.50, 0.95), strict=True):
            doubt = 4.0 * math.sqrt(percent * (1 - percent) * (1 / 2000 + 1 / 20_000))
            low, high = np.quantile(theirs, (percent - doubt, percent + doubt))
            assert low <= ours <= high
        assert tooth.load == pytest.approx([force * share for share in tooth.share], rel=1e-12)
        height = 0.9 * 25.4 / 20 * MM - (27 / 20 - 1.345) * 25.4 / 2 * MM
        assert tooth.pressure is not None
        assert tooth.pressure == pytest.approx([load / (L * height) for load in tooth.load], rel=1e-9)


def test_without_play_held_is_centred() -> None:
    entry = play(assessed((LASH, 'lash = { clearance = "0 mm" }'))).rows[0]
    assert entry.radial_play == 0.0
    assert entry.held == entry.centred
    assert entry.closing_speed is None
    assert entry.blow_energy is None


def test_more_play_off_centre_loads_the_first_tooth_more() -> None:
    small, large = (assessed((LASH, f'{LASH}\nradial_play = "{value} mm"')) for value in ("0.005", "0.043"))
    assert row(large, "as measured").held.load[0] > row(small, "as measured").held.load[0]
    assert row(large, "as measured").centred == row(small, "as measured").centred
    # beside, never blended: the guide's checks and the torques are the same
    by_guide = [
        [
            replace(check, interval=None, chance_below_one=None)
            for check in result.joints[0].checks
            if check.method != "material"
        ]
        for result in (small, large)
    ]
    assert by_guide[0] == by_guide[1]
    assert large.joints[0].peak_torque == small.joints[0].peak_torque


def test_radial_play_not_read_is_what_the_clearance_allows() -> None:
    for entry in play(BASE_RESULT).rows:
        # many-tooth limit; 26 teeth are within half a percent of it
        assert entry.radial_play == pytest.approx(entry.clearance * math.cos(A30), rel=0.005)
    assert "was not read" in play(BASE_RESULT).notes[0]
    assert "pilot or bearings may hold it better" in play(BASE_RESULT).notes[0]


def test_radial_play_that_the_flanks_stop_grows_with_them() -> None:
    result = assessed((LASH, f'{LASH}\nradial_play = "0.042 mm"'))
    present, new, limit = play(result).rows
    assert present.radial_play == pytest.approx(0.042 * MM, rel=1e-12)
    assert new.radial_play == pytest.approx(NEW * math.cos(A30), rel=0.005)
    assert limit.radial_play == pytest.approx(LIMIT * math.cos(A30), rel=0.005)
    assert "grows with their clearance" in play(result).notes[0]


def test_radial_play_that_a_pilot_stops_stays() -> None:
    result = assessed((LASH, f'{LASH}\nradial_play = "0.020 mm"'))
    assert [entry.radial_play for entry in play(result).rows] == pytest.approx([0.02 * MM] * 3, rel=1e-12)
    assert "less than the 0.043 mm" in play(result).notes[0]
    # new flanks that are closer than the pilot stop the shaft first
    tight = assessed(
        (LASH, 'lash = { clearance = "0.30 mm" }\nradial_play = "0.10 mm"'),
    )
    assert row(tight, "as new").radial_play == pytest.approx(NEW * math.cos(A30), rel=0.005)
    assert row(tight, "at the lash limit").radial_play == pytest.approx(0.10 * MM)


def test_radial_play_that_contradicts_the_lash_is_doubted() -> None:
    result = assessed((LASH, f'{LASH}\nradial_play = "0.080 mm"'))
    assert "one of the two readings is wrong" in play(result).notes[0]
    assert row(result, "as measured").radial_play == pytest.approx(0.08 * MM)
    within = assessed((LASH, f'{LASH}\nradial_play = "0.060 +/- 0.02 mm"'))
    assert "wrong" not in play(within).notes[0]


def test_a_fixed_seat_and_straight_sides_say_what_holds_them() -> None:
    fixed = assessed(('seat = "flexible"\ntilt = { angle = "0.08 deg" }', 'seat = "fixed"'))
    assert "What fixes the seat holds it better" in play(fixed).notes[0]
    straight = assess(loaded(base=edited() + SECOND))
    assert "minor or major diameter" in play(straight, 1).notes[0]
    entry = play(straight, 1).rows[0]
    assert entry.radial_play == pytest.approx(0.09 * MM * math.sqrt(1 - (10 / 56) ** 2), rel=1e-9)


@pytest.mark.parametrize(
    ("lash", "states", "mark"),
    [
        (LASH, ["as measured", "as new", "at the lash limit"], "measured"),
        ('lash = "as new"', ["as new", "at the lash limit"], "from memory"),
        ('lash = "not measured"', ["as assumed", "as new", "at the lash limit"], "assumed"),
        (
            'lash = "not measured"\nradial_play = "0.06 mm"',
            ["as inferred", "as new", "at the lash limit"],
            "derived",
        ),
    ],
)
def test_the_present_row_says_how_the_lash_is_known(lash: str, states: list[str], mark: str) -> None:
    result = play(assessed((LASH, lash)))
    assert [entry.state for entry in result.rows] == states
    assert result.rows[0].mark == mark
    assert result.rows[-1].mark == "measured"
    by_manual = play(assessed((LASH, lash), ('lash_limit = "0.40 mm"\n', "")))
    assert by_manual.rows[-1].mark == "assumed"


def test_inferred_lash_closes_on_the_radial_play_that_was_read() -> None:
    entry = play(assessed((LASH, 'lash = "not measured"\nradial_play = "0.06 mm"'))).rows[0]
    assert entry.radial_play == pytest.approx(0.06 * MM)
    assert entry.clearance == pytest.approx(0.06 * MM / math.cos(A30), rel=0.005)


def test_a_lash_beyond_its_limit_is_said() -> None:
    result = assessed((LASH, 'lash = { clearance = "0.55 mm" }'))
    assert any(
        "0.55 mm along the pitch circle, is beyond its limit of 0.40 mm" in n for n in play(result).notes
    )
    assert not any("beyond its limit" in note for note in play(BASE_RESULT).notes)


SOFT = (
    ('steel = "8620_carb_63"\nreused = false', 'steel = "4140_ann"\nreused = false'),
    ('torque_rise = "4800 N*m/s"', 'torque_rise = "100000 N*m/s"'),
    (LASH, 'lash = { clearance = "0.35 mm" }'),
)


def cautions(result: Assessment) -> str:
    return " ".join(entry.text for entry in result.cautions if "first tooth" in entry.key)


def test_a_first_flank_beyond_yield_is_a_caution_with_numbers() -> None:
    result = assessed(*SOFT, ('engagement = "1.25 in"', 'engagement = "0.5 in"'))
    found = play(result)
    pressure = found.rows[0].held.pressure
    assert pressure is not None
    assert pressure[1] > found.flank_yield
    text = cautions(result)
    for number in (*pressure, found.flank_yield):
        assert f"{number / 1e6:.0f} MPa" in text
    assert "internal member yields" in text
    assert "the most that its clearance allows" in text
    assert cautions(BASE_RESULT) == ""
    base_pressure = play(BASE_RESULT).rows[0].held.pressure
    assert base_pressure is not None
    assert base_pressure[1] < play(BASE_RESULT).flank_yield


def test_crowned_flanks_get_no_pressure() -> None:
    result = assessed(("after = []", 'after = []\ncrown_height = "0.05 mm"'))
    assert all(entry.held.pressure is None for entry in play(result).rows)
    assert any("Crowned" in note for note in play(result).notes)
    assert (
        "flank pressure, MPa"
        not in as_text(sheet_of(result, "si", 80)).split("Effect of play")[1].split("Wear")[0]
    )


def test_assumptions_of_the_first_tooth_are_written_down_once() -> None:
    entries = {entry.key: entry for entry in assess(loaded(base=edited() + SECOND)).assumptions}
    error = entries["joint[1].index_error"]
    assert error.mark == "assumed"
    assert error.value is not None
    assert error.low is not None
    assert error.high is not None
    assert error.low < error.value < error.high
    assert "class 5" in error.why
    assert "class 6" in entries["joint[2].index_error"].why  # no class is known of straight sides
    assert entries["tooth stiffness"].word == "15 N/(mm um), band 5 to 30"


def test_json_of_the_comparison() -> None:
    data = json.loads(as_json(BASE_RESULT.to_dict()))
    found = data["joints"][0]["play"]
    assert {"rows", "note"} <= set(found)
    assert [entry["state"] for entry in found["rows"]] == ["as measured", "as new", "at the lash limit"]
    for entry, ours in zip(found["rows"], play(BASE_RESULT).rows, strict=True):
        assert {
            "state",
            "lash_rad",
            "clearance_mm",
            "radial_play_mm",
            "blow_torque_Nm",
            "closing_speed_rad_s",
            "blow_energy_J",
            "first_tooth_N",
            "first_tooth_share",
            "safety_factor",
        } <= set(entry)
        assert entry["first_tooth_share"] == {"p50": ours.held.share[0], "p95": ours.held.share[1]}
        assert entry["first_tooth_N"] == {"p50": ours.held.load[0], "p95": ours.held.load[1]}
        assert entry["clearance_mm"] == pytest.approx(ours.clearance * 1e3)
        assert entry["lash_rad"] == pytest.approx(2 * ours.clearance / D)
        assert entry["centred"]["first_tooth_share"]["p50"] == ours.centred.share[0]
    assert assessed().to_dict()["joints"][0]["play"] == found  # the seed is fixed


def test_a_plain_shaft_has_no_play() -> None:
    shaft = '\n[[joint]]\nkind = "shaft"\ndiameter = "40 mm"\nsteel = "42CrMo4_QT_40"\nreused = false\n'
    result = assess(loaded(base=BASE + shaft))
    assert result.joints[1].play is None
    assert result.to_dict()["joints"][1]["play"] is None


def test_the_block_is_on_the_sheet_of_every_form() -> None:
    sheet = sheet_of(BASE_RESULT, "si", 80)
    text = as_text(sheet)
    block = text.split("Effect of play at gearbox input")[1].split("Wear life")[0]
    for words in ("as measured", "as new", "at the lash limit", "held off centre", "free to centre"):
        assert words in block
    assert "material method, beside the guide and never blended with it" in " ".join(block.split())
    assert max(len(line) for line in text.splitlines()) <= 80
    assert "Effect of play at gearbox input" in as_markdown(sheet)
    inch = as_text(sheet_of(BASE_RESULT, "inch", 80))
    assert "lash along the pitch circle, in" in inch
    assert "its load, lbf" in inch


def test_parts_that_are_no_mates_are_compared_as_if_they_were() -> None:
    result = assessed(
        (
            'outside_diameter = "52 mm"\nmeasured = { teeth = 26 }',
            'outside_diameter = "52 mm"\nmeasured = { teeth = 27 }',
        )
    )
    assert "Effect of play at gearbox input; as if the parts were mates" in as_text(
        sheet_of(result, "si", 80)
    )
