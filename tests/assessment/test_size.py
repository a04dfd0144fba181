"""One unknown of a joint solved for: the answer holds in the full check, what lies beyond it does not."""

from functools import cache
from math import degrees, log10, pi, radians
from typing import Any

import pytest
from builder import EXAMPLES, loaded
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from torqcheck.assessment import assess
from torqcheck.assessment.assess import assess_without_ranges
from torqcheck.assessment.compare.choices import changes_of
from torqcheck.assessment.size.diameters import unknown_of
from torqcheck.assessment.size.result import Size
from torqcheck.assessment.size.solve import FINDS, size
from torqcheck.assessment.size.steels import steel_changes
from torqcheck.assessment.size.trial import trial_of
from torqcheck.errors import UsageError
from torqcheck.geometry.identifying.series import listed_sizes
from torqcheck.materials import steel, steels
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.edits import edited
from torqcheck.units import read

PATHS = {path.stem: path for path in EXAMPLES}
INPUT = ("works_trolley", "gearbox input")
TUG = ("glasshouse_tug", "input shaft")
CARRIER = ("vineyard_carrier", "gearbox input")
DRIVEN_HARD: dict[str, tuple[str, dict[str, Any]]] = {
    "eight times the torque": ("works_trolley", {"motor.peak_torque": "1200 N*m"}),
    "a soft hub": (
        "works_trolley",
        {"motor.peak_torque": "620 N*m", "joint[2].internal.steel": "1045_HR"},
    ),
}
"""Machines of which strength, and not the proportions of the workshop, ends a bore and a wall."""


@cache
def scenario_of(name: str) -> Scenario:
    if name in DRIVEN_HARD:
        base, changes = DRIVEN_HARD[name]
        return edited(load_scenario(PATHS[base]), changes)
    return load_scenario(PATHS[name])


@cache
def found(name: str, joint: str, find: str, side: Any = None) -> Size:
    return size(scenario_of(name), joint, find, side)


def verdict_of(scenario: Scenario, changes: Any, joint: str) -> str:
    result = assess(edited(scenario, changes))
    return next(one.verdict for one in result.joints if one.name == joint)


def quick_verdict_of(scenario: Scenario, changes: Any, joint: str) -> str:
    result = assess_without_ranges(edited(scenario, changes))
    return next(one.verdict for one in result.joints if one.name == joint)


def at(result: Size, value: float) -> dict[str, Any]:
    """The edits of an answer with another value in their place."""
    kind, unit, factor = {
        "engagement": ("engagement", "mm", 1e3),
        "bore": ("bore", "mm", 1e3),
        "outside-diameter": ("outside_diameter", "mm", 1e3),
        "lash": ("lash", "mm", 1e3),
        "tilt": ("tilt", "rad", 1.0),
        "torque-rise": ("torque_rise", "N*m/s", 1.0),
        "motor-torque": ("peak_torque", "N*m", 1.0),
    }[result.find]
    text = f"{value * factor:.9g} {unit}"
    written: Any = {"lash": {"clearance": text}, "tilt": {"angle": text}}.get(result.find, text)
    return {k: (written if k.endswith(kind) and v is not None else v) for k, v in result.changes.items()}


CASES = [
    ("eight times the torque", "gearbox input", "engagement"),
    ("eight times the torque", "gearbox input", "bore"),
    ("works_trolley", "motor shaft", "bore"),
    ("a soft hub", "gearbox input", "outside-diameter"),
    (*INPUT, "lash"),
    ("orchard_tractor", "input shaft", "tilt"),
    (*INPUT, "motor-torque"),
    (*CARRIER, "torque-rise"),
    (*TUG, "engagement"),
]


@pytest.mark.parametrize(("name", "joint", "find"), CASES)
def test_the_answer_holds_in_the_full_check_and_what_lies_beyond_does_not(
    name: str, joint: str, find: str
) -> None:
    result, scenario = found(name, joint, find), scenario_of(name)
    assert result.value is not None
    assert result.exact is not None
    assert result.beyond is not None
    assert result.passes
    assert verdict_of(scenario, result.changes, joint) == "pass"
    value = result.value.si
    assert isinstance(value, float)
    sign = 1.0 if result.wanted == "smallest" else -1.0
    assert sign * (value - result.exact) >= -1e-9
    assert quick_verdict_of(scenario, at(result, result.exact), joint) == "pass"
    assert quick_verdict_of(scenario, at(result, result.exact * (1.0 - sign * 2e-4)), joint) != "pass"
    assert result.gaps == ()
    if result.holds_to is None:
        assert all(point.holds for point in result.curve if sign * (point.value - result.exact) >= 0.0)


@pytest.mark.parametrize(
    ("find", "end", "practice"),
    [
        # a wall of 0.2 of the diameter inside it; a quarter of the pitch diameter: common practice, no source
        ("outside-diameter", 1.4 * 40.2e-3, "thinner walls are not made"),
        ("bore", 35.4e-3 / 1.4, "thinner walls are not made"),
        ("engagement", 0.25 * 36e-3, "shorter teeth hold no axis in line"),
    ],
)
def test_nothing_slighter_is_advised_than_workshops_make(find: str, end: float, practice: str) -> None:
    """The stresses of this trolley would allow walls of a millimetre and teeth of 3 mm."""
    result = found(*INPUT, find)
    assert result.beyond is None
    assert result.exact == pytest.approx(end, rel=1e-9)
    assert practice in result.reason
    assert "(common practice, no source)" in result.reason


def test_flank_pressure_turned_round_gives_the_engagement() -> None:
    # Machinery's Handbook, Involute Splines, eq 4, solved for the length: L = 2 T Ka n / (D N h p Lw)
    # 140 N m; uniform motor, light shock: Ka 1.2; n 1.5; 26 teeth 20/40: D = 26 x 25.4/20 mm;
    # h = 1/20 in less half of what the tips have lost: 27/20 in - 34.19 mm
    diameter = 26.0 * 25.4 / 20.0
    height = 25.4 / 20.0 - 0.5 * (27.0 * 25.4 / 20.0 - 34.19)
    # 5000 psi of the band 58 to 63 HRC, for (0.2 x 600 + 0.8 x 2200) x 60 x 2000 turns
    turns = 1880.0 * 60.0 * 2000.0
    allowed = 5000.0 * 0.006894757293168 * 2.0 ** ((8.0 - log10(turns)) / 2.0)
    length = 2.0 * 140e3 * 1.2 * 1.5 / (diameter * 26.0 * height * allowed)
    assert length == pytest.approx(15.777, abs=1e-3)
    # the gap of the tilt at its end stays below the 0.002 in that costs nothing, so that Km is 1
    assert length * radians(0.05) < 0.0508
    result = found(*TUG, "engagement")
    assert result.exact == pytest.approx(length * 1e-3, rel=1e-4)
    assert result.value is not None
    assert result.value.text == "16 mm"
    assert result.value_inch is not None
    assert result.value_inch.text == "5/8 in"
    assert result.beyond is not None
    assert result.beyond.governing == "flank pressure (steady torque)"


def test_a_stack_that_gives_the_engagement_is_named_with_what_is_missing() -> None:
    result = found(*TUG, "engagement")
    least = result.now
    assert least == pytest.approx(32.64e-3, abs=1e-5)
    assert result.extra["stack"] == {
        "result": "teeth in mesh",
        "least_mm": pytest.approx(32.64, abs=0.01),
        "longer_by_mm": 0.0,
    }
    assert "more than is needed" in result.notes[-1]
    heavy = edited(
        scenario_of(TUG[0]), {"targets.safety_factor": 3.2, "stack.result": shorter(scenario_of(TUG[0]))}
    )
    more = size(heavy, TUG[1], "engagement")
    assert more.extra["stack"]["longer_by_mm"] > 0.0
    assert "too little for" in more.notes[-1]
    assert '"coupler length"' in more.notes[-1]


def shorter(scenario: Scenario) -> list[Any]:
    """The results of the stack with less of the teeth in mesh."""
    results = [dict(one) for one in scenario.document["stack"]["result"]]
    results[0]["less"] = ["9 +/- 0.1 mm"]
    return results


# lists


def test_a_size_is_one_of_the_standard_and_the_smallest_that_holds() -> None:
    result, scenario = found(*INPUT, "teeth"), scenario_of("works_trolley")
    names = {one.designation for one in listed_sizes() if one.standard == "din 5480"}
    assert {point.label for point in result.curve} <= names
    # reference diameters of DIN 5480 as tests/published has them
    assert result.extra["size"]["reference_diameter_mm"] == 22.0
    assert result.extra["size"]["module_mm"] == 2.0
    assert result.value is not None
    assert result.value.text == "22 x 2 x 9"
    assert verdict_of(scenario, result.changes, "gearbox input") == "pass"
    size_key = "joint[2].size"
    smaller = {**result.changes, size_key: {"reference_diameter": "20 mm", "module": "2 mm", "teeth": 8}}
    assert verdict_of(scenario, smaller, "gearbox input") != "pass"
    assert result.changes["joint[2].external.measured"] is None
    assert result.changes["joint[2].lash"] == "as new"
    assert "readings of the old teeth" in result.notes[0]
    assert result.curve[-1].refused
    assert "leaves no wall" in result.curve[-1].governing


def test_other_pitches_keep_the_pitch_diameter() -> None:
    result = found("hop_elevator", "drive shaft", "pitch")
    assert result.value is not None
    assert len(result.curve) >= 6
    pitches = {one.pitch for one in listed_sizes() if one.standard == "ansi b92.1"}
    assert result.value.si in pitches
    assert result.extra["size"]["pitch_diameter_mm"] == pytest.approx(27.0 / 24.0 * 25.4, rel=0.06)
    assert result.passes
    assert max(p.margin or 0.0 for p in result.curve) == pytest.approx(
        next(p.margin for p in result.curve if p.label == result.value.text)
    )


def test_the_softest_band_and_its_cheapest_row() -> None:
    result, scenario = found(*TUG, "hardness", "internal"), scenario_of(TUG[0])
    assert result.value is not None
    assert result.passes
    bands = result.extra["bands"]
    place = next(i for i, band in enumerate(bands) if band["band"] == result.value.si)
    assert all(band["hold"] == 0 for band in bands[:place])
    here = bands[place]
    assert result.extra["steel"] == here["steel"] in here["holding"]
    cost = steels()[here["steel"]].notes.cost_index
    assert cost is not None
    assert all((steels()[other].notes.cost_index or 99.0) >= cost for other in here["holding"])
    assert {steels()[name].hardness_class for name in here["holding"]} == {result.value.si}
    assert verdict_of(scenario, result.changes, TUG[1]) == "pass"
    softer = {**result.changes, "joint[1].internal.steel": bands[place - 1]["steel"]}
    assert place > 0
    assert verdict_of(scenario, softer, TUG[1]) != "pass"
    assert "with the steels of the tables that lie in it" in result.notes[0]


def test_straight_splines_choose_from_their_series() -> None:
    result = found("timber_winch", "drum hub", "teeth")
    assert result.value is None
    assert [p.label for p in result.curve][-2:] == ["10x102x112", "10x112x125"]
    assert "8x42x48" in {p.label for p in result.curve}
    assert "8x42x46" not in {p.label for p in result.curve}  # of the light series
    assert [d.sort for d in result.stopped_by] == ["reading"]


# where a pass is stopped


def test_what_no_engagement_mends_is_named_with_what_would() -> None:
    result = found(*CARRIER, "engagement")
    assert result.value is None
    assert not result.passes
    # all three are of the shaft, which teeth of any length leave as it is
    limit, *fatigue = result.out_of_reach
    assert limit.name == "root shear, external member (blow)"
    assert limit.factor == pytest.approx(1.18, abs=0.005)
    assert [demand.name for demand in fatigue] == ["torsional fatigue, external member", "fatigue life"]
    assert "the shaft itself" in result.no_more
    mended = {remedy.what: remedy for remedy in result.remedies}
    ramp = mended["the slowest ramp"]
    assert ramp.mends
    assert ramp.command == "torqcheck ramp SCENARIO"
    assert result.best is not None
    base = {"joint[1].engagement": f"{result.best.value * 1e3:.9g} mm"}
    again = assess_without_ranges(edited(scenario_of(CARRIER[0]), {**base, **ramp.changes}))
    (check,) = (
        c
        for c in again.joints[0].checks
        if (c.name, c.method) == ("root shear, external member", "guide, simulated")
    )
    assert check.safety_factor == pytest.approx(ramp.factor)
    assert check.verdict == "pass"


def test_a_tilt_is_tried_no_closer_than_axes_can_be_held_and_fretting_is_no_mend() -> None:
    # the closest that the printed table asks of any coupling: 0.2 mrad, excellent at 6000 rev/min
    result = found("orchard_tractor", "input shaft", "engagement")
    (tilt,) = (remedy for remedy in result.remedies if remedy.command.endswith("--find tilt"))
    assert (tilt.mends, tilt.unjudged, tilt.factor) == (False, True, None)
    assert "0.2 mrad" in tilt.what
    assert "fretting regime" in tilt.words
    ((key, written),) = tilt.changes.items()
    assert key == "joint[1].tilt"
    assert float(written["angle"].removesuffix(" deg")) == pytest.approx(degrees(0.2e-3))
    # slip of half the pitch diameter of 26 teeth 20/40 turned by it, far below the 20 um of the law
    assert 16.51e-3 * 0.2e-3 < 20e-6
    assert found("orchard_tractor", "input shaft", "tilt").range_low == pytest.approx(0.2e-3)


def test_missing_readings_are_set_aside_and_named() -> None:
    scenario = edited(scenario_of("works_trolley"), {"joint[2].internal.steel": "unknown"})
    result = size(scenario, "gearbox input", "engagement")
    assert result.stopped_by
    assert {demand.sort for demand in result.stopped_by} == {"reading"}
    assert not result.passes
    assert result.value is not None
    assert "stops a pass: reading missing" in result.reason
    trial = assess(edited(scenario, result.changes)).joints[1]
    assert trial.verdict == "undecided"
    assert all(check.verdict == "pass" for check in trial.checks if check.counts)


def test_a_lash_that_was_not_measured_is_solved_for_all_the_same() -> None:
    scenario = edited(scenario_of("works_trolley"), {"joint[2].lash": "not measured"})
    result = size(scenario, "gearbox input", "lash")
    known = found(*INPUT, "lash")
    assert result.now is None
    assert known.now == pytest.approx(0.35e-3 / 110.0 * 18.0)
    assert result.exact == pytest.approx(known.exact, rel=2e-4)
    assert 'says of the lash "not measured"' in " ".join(result.notes)


def test_later_readings_of_the_lash_leave_the_file_with_it() -> None:
    scenario = scenario_of("brickyard_shunter")
    assert len(scenario.inspection) == 2
    unknown = unknown_of(scenario, 0, "lash")
    assert unknown.fixed == {"inspection": None}
    assert "taken out" in unknown.notes[0]
    asked = edited(scenario, unknown.changes(0.1e-3))
    assert asked.inspection == ()
    assert assess_without_ranges(asked).joints[0].lash == pytest.approx(
        0.1e-3 / (0.5 * unknown.values[-1] / 0.98 / pi * 26.0), rel=1e-6
    )


def test_the_whole_path_asks_more_than_the_joint() -> None:
    scenario = edited(scenario_of("works_trolley"), {"joint[1].steel": "unknown", "joint[1].reused": True})
    one = found(*INPUT, "bore")
    whole = size(scenario, "gearbox input", "bore", whole_path=True)
    assert one.passes
    assert one.stopped_by == ()
    assert not whole.passes
    assert {(demand.joint, demand.sort) for demand in whole.stopped_by} == {("motor shaft", "reading")}
    assert whole.exact == pytest.approx(one.exact, rel=1e-3)


@pytest.mark.parametrize("name", ["harbour_launch", "timber_winch", "quarry_tipper", "glasshouse_tug"])
def test_the_quick_check_decides_as_the_full_one(name: str) -> None:
    full, quick = assess(scenario_of(name)), assess_without_ranges(scenario_of(name))
    assert quick.verdict == full.verdict
    for one, other in zip(full.joints, quick.joints, strict=True):
        assert (one.verdict, one.doubt, one.undecided_by) == (other.verdict, other.doubt, other.undecided_by)
        factors = [(check.name, check.method, check.safety_factor) for check in one.checks]
        assert factors == [(check.name, check.method, check.safety_factor) for check in other.checks]
        for index in range(len(full.joints)):
            assert trial_of(full, index, False).unmet() == trial_of(quick, index, False).unmet()


def test_a_tilt_so_small_that_no_wear_law_holds_says_so() -> None:
    result = found("orchard_tractor", "input shaft", "tilt")
    assert result.exact == pytest.approx(radians(0.0694), rel=1e-3)
    assert "No wear life is stated and judged at this value" in result.reason
    assert "fretting regime" in result.reason
    assert result.beyond is not None
    assert result.beyond.governing.startswith("wear life")
    # the edge of the law itself: 20 um of slip, less half of the pitch diameter of 26 teeth 20/40
    assert result.edge_of_law
    assert result.exact == pytest.approx(20e-6 / 16.51e-3, rel=1e-3)
    assert "where the wear law begins to hold" in result.reason
    assert result.to_dict()["exact_is_edge_of_wear_law"] is True


def test_an_edge_of_the_wear_itself_is_called_nothing_else() -> None:
    # a life that most estimates reach as soon as the law holds
    short = edited(scenario_of("orchard_tractor"), {"targets.service_life": "60 hour"})
    result = size(short, "input shaft", "tilt")
    assert result.exact is not None
    assert result.exact > 20e-6 / 16.51e-3
    assert not result.edge_of_law
    assert "wear law" not in result.reason


def test_what_changes_nothing_is_given_no_value() -> None:
    result = size(scenario_of("quarry_tipper"), "motor flange", "torque-rise")
    assert result.idle
    assert result.value is None
    assert not result.passes
    assert "there is no value to advise" in result.reason
    assert "grip of motor flange, factor 0.663" in result.reason


# ramp and gaps


def test_the_rise_is_that_of_ramp_where_both_look_at_the_same() -> None:
    result = found(*CARRIER, "torque-rise")
    assert result.exact == pytest.approx(result.extra["ramp"]["limit_as_stated_Nm_s"], rel=1e-4)
    assert "the same edge" in result.notes[-1]
    recommended = result.extra["ramp"]["recommended_Nm_s"]
    assert recommended < result.exact


def ringing(target: float) -> Scenario:
    """A path without play and next to no damping: the peak swings with the phase of the ramp."""
    return loaded(
        ("safety_factor = 1.5", f"safety_factor = {target}"),
        ('load = "light shock"', 'load = "uniform"'),
        ('regen_torque = "90 N*m"\n', ""),
        ("damping_ratio = 0.03", "damping_ratio = 0.01"),
        ('lash = { clearance = "0.05 mm" }', 'lash = { clearance = "0 mm" }'),
        ('service_life = "400 hour"', 'service_life = "100 hour"'),
        ('seat = "flexible"\ntilt = { angle = "0.08 deg" }', 'seat = "fixed"'),
        ('engagement = "1.25 in"', 'engagement = "0.5 in"'),
    )


def test_a_faster_ramp_that_holds_by_its_phase_is_a_gap_and_no_answer() -> None:
    scenario = ringing(2.85)
    result = size(scenario, "gearbox input", "torque-rise")
    assert result.exact is not None
    (gap,) = result.gaps
    assert gap.low == pytest.approx(result.exact, rel=1e-4)
    assert "torsional yield" in gap.because
    faster = at(result, 1.02 * gap.high)
    inside = at(result, (gap.low * gap.high) ** 0.5)
    assert verdict_of(scenario, faster, "gearbox input") == "pass"
    assert quick_verdict_of(scenario, inside, "gearbox input") == "marginal"
    assert quick_verdict_of(scenario, at(result, 0.999 * result.exact), "gearbox input") == "pass"


# bad input


@pytest.mark.parametrize(
    ("name", "joint", "find", "side", "says"),
    [
        ("works_trolley", "gearbox inptu", "lash", None, 'did you mean "gearbox input"'),
        ("works_trolley", "7", "lash", None, 'no joint is called "7"'),
        ("works_trolley", "gearbox input", "engagment", None, 'did you mean "engagement"'),
        ("works_trolley", "motor shaft", "engagement", None, "is a shaft and has none"),
        ("works_trolley", "motor shaft", "teeth", None, "no list of sizes"),
        ("works_trolley", "motor shaft", "outside-diameter", None, "has no hub"),
        ("works_trolley", "motor shaft", "hardness", "internal", "one part"),
        ("works_trolley", "gearbox input", "bore", "external", "--side goes with --find hardness"),
        ("timber_winch", "drum hub", "pitch", None, "an involute spline of a standard"),
        ("ferry_capstan", "capstan shaft", "tilt", None, "joint\\[2\\].floats.offset"),
        ("ferry_capstan", "capstan shaft", "outside-diameter", None, '--joint "capstan sleeve"'),
        ("quarry_tipper", "motor flange", "bore", None, "no shaft of its own"),
        ("quarry_tipper", "motor flange", "hardness", None, "whose steel is not solved for"),
    ],
)
def test_bad_input_says_what_is_offered(name: str, joint: str, find: str, side: Any, says: str) -> None:
    with pytest.raises(UsageError, match=says):
        size(scenario_of(name), joint, find, side)


def test_every_unknown_is_on_the_list() -> None:
    assert {"engagement", "teeth", "hardness", "bore", "lash", "tilt"} < set(FINDS)


# any scenario


@settings(max_examples=3, deadline=None, phases=[Phase.generate], suppress_health_check=list(HealthCheck))
@given(
    find=st.sampled_from(["engagement", "bore", "lash", "motor-torque", "outside-diameter"]),
    torque=st.integers(40, 150),
    teeth=st.sampled_from([("26", "1.345 in"), ("22", "1.145 in")]),
    seat=st.sampled_from(['seat = "fixed"', 'seat = "flexible"\ntilt = { angle = "0.01 deg" }']),
    hours=st.integers(50, 400),
)
def test_any_scenario_holds_at_its_answer_and_fails_beyond(
    find: str, torque: int, teeth: tuple[str, str], seat: str, hours: int
) -> None:
    count, tips = teeth
    scenario = loaded(
        ("240 N*m", f"{torque} N*m"),
        ("90 N*m", "20 N*m"),
        ("4800 N*m/s", "900 N*m/s"),
        ('seat = "flexible"\ntilt = { angle = "0.08 deg" }', seat),
        ("400 hour", f"{hours} hour"),
        ("teeth = 26, pitch", f"teeth = {count}, pitch"),
        ('teeth = 26, major_diameter = "1.345 in"', f'teeth = {count}, major_diameter = "{tips}"'),
        ("measured = { teeth = 26 }", f"measured = {{ teeth = {count} }}"),
    )
    result = size(scenario, "gearbox input", find)
    if result.value is None:
        assert result.out_of_reach or result.best is not None
        assert all(not point.holds for point in result.curve)
        return
    first = assess_without_ranges(edited(scenario, result.changes)).joints[0]
    assert (first.verdict == "pass") == result.passes
    if result.stopped_by:
        return
    assert result.passes
    if result.beyond is not None:
        past = assess_without_ranges(edited(scenario, at(result, result.beyond.value))).joints[0]
        assert past.verdict != "pass"


def test_lengths_in_the_answer_can_be_read_back() -> None:
    written = found(*TUG, "engagement").changes["joint[1].engagement"]
    assert read(written, "length")[0] == pytest.approx(16e-3)


def test_a_steel_is_asked_for_as_a_new_part() -> None:
    """What was read on the old part stops no pass of the new one: the same edits as in a comparison."""
    scenario = load_scenario(PATHS["vineyard_carrier"])
    new = steel("8620_carb_63")
    assert steel_changes(scenario, 0, ["external"], new) == changes_of(scenario, 0, (new, None))
    found = size(scenario, "gearbox input", "hardness", "external")
    assert not [demand for demand in found.stopped_by if "hardness" in demand.name]
    # what is out of reach stands in the table, with its factor: nothing holds
    assert found.value is None
    assert all(band["hold"] == 0 for band in found.extra["bands"])
