"""Readings of the lash in service: their joint, their order, their numbers, their doubts."""

import datetime

import pytest
from builder import BASE, assessed, edited, loaded
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import ScenarioError
from torqcheck.scenario import Inspection, inspections_of
from torqcheck.scenario.inspections import warn_of_inspections, with_possible_readings
from torqcheck.scenario.ledger import Ledger

DIAMETER = 33.02e-3
SHAFT = '\n[[joint]]\nname = "stub"\nkind = "shaft"\ndiameter = "40 mm"\nsteel = "4340_QT650"\n'
SECOND = "\n[[joint]]\n" + BASE.split("[[joint]]\n")[1].replace("gearbox input", "drum")


def inspection(hours: str = "120 hour", lash: str = '{ clearance = "0.08 mm" }', *more: str) -> str:
    return "\n".join(["", "[[inspection]]", f'hours = "{hours}"', f"lash = {lash}", *more, ""])


def found(*entries: str) -> tuple[Inspection, ...]:
    return inspections_of(loaded(base=BASE + "".join(entries)), 0, DIAMETER)


def faults(*entries: str, base: str = BASE) -> str:
    with pytest.raises(ScenarioError) as caught:
        loaded(base=base + "".join(entries))
    return str(caught.value)


def cautions(*entries: str, change: tuple[str, str] = ("", "")) -> list[str]:
    ledger = Ledger()
    warn_of_inspections(loaded(base=edited(change) + "".join(entries)), ledger)
    return [caution.text for caution in ledger.cautions]


def test_an_inspection_is_in_si_and_keeps_what_is_written() -> None:
    lash = '{ clearance = "0.08 +/- 0.01 mm" }'
    (one,) = found(inspection("120 hour", lash, "regreased = true", "date = 2026-03-14", 'notes = "dark"'))
    assert one.running_time == pytest.approx(120 * 3600.0)
    assert (one.clearance, one.tolerance) == pytest.approx((0.08e-3, 0.01e-3))
    assert one.regreased
    assert one.date == datetime.date(2026, 3, 14)


@pytest.mark.parametrize(
    ("lash", "clearance", "tolerance"),
    [
        # what a workshop reads where nothing is written: 0.02 mm, 1 mm of arm, 5 % of an angle
        ('{ clearance = "0.08 mm" }', 0.08e-3, 0.02e-3),
        ('{ angle = "0.2 deg" }', 0.2 * 3.141592653589793 / 180 * DIAMETER / 2, None),
        (
            '{ travel = "0.60 +/- 0.03 mm", radius = "110 +/- 2 mm" }',
            0.6e-3 / 0.110 * DIAMETER / 2,
            DIAMETER / 0.220 * ((0.03e-3) ** 2 + (0.6e-3 * 2 / 110) ** 2) ** 0.5,
        ),
        (
            '{ travel = "0.60 mm", radius = "110 mm" }',
            0.6e-3 / 0.110 * DIAMETER / 2,
            DIAMETER / 0.220 * ((0.02e-3) ** 2 + (0.6e-3 / 110) ** 2) ** 0.5,
        ),
    ],
)
def test_every_form_of_the_reading(lash: str, clearance: float, tolerance: float | None) -> None:
    (one,) = found(inspection(lash=lash))
    assert one.clearance == pytest.approx(clearance, rel=1e-9)
    assert one.tolerance == pytest.approx(0.05 * clearance if tolerance is None else tolerance, rel=1e-9)


@given(st.floats(0.0, 3.0), st.floats(20.0, 400.0))
def test_inch_and_millimetre_say_the_same(travel: float, radius: float) -> None:
    forms = (
        f'{{ travel = "{travel!r} mm", radius = "{radius!r} mm" }}',
        f'{{ travel = "{travel / 25.4!r} in", radius = "{radius / 25.4!r} in" }}',
    )
    (metric,), (inch,) = (found(inspection(lash=form)) for form in forms)
    assert inch.clearance == pytest.approx(metric.clearance, rel=1e-9)


def test_each_joint_has_its_own() -> None:
    entries = (
        inspection("120 hour", '{ clearance = "0.06 mm" }', 'joint = "drum"'),
        inspection("100 hour", '{ clearance = "0.07 mm" }', 'joint = "gearbox input"'),
        inspection("300 hour", '{ clearance = "0.08 mm" }', 'joint = "drum"'),
    )
    scenario = loaded(base=BASE + SHAFT + SECOND + "".join(entries))
    hours = [[i.running_time / 3600 for i in inspections_of(scenario, k, DIAMETER)] for k in range(3)]
    assert [[round(h) for h in joint] for joint in hours] == [[100], [], [120, 300]]


def test_without_a_name_it_is_the_only_splined_joint() -> None:
    scenario = loaded(base=BASE + SHAFT + inspection())
    assert len(inspections_of(scenario, 0, DIAMETER)) == 1
    nameless = BASE.replace('name = "gearbox input"\n', "")
    named = loaded(base=nameless + inspection(lash='{ clearance = "0.08 mm" }\njoint = "joint 1"'))
    assert len(inspections_of(named, 0, DIAMETER)) == 1


@pytest.mark.parametrize(
    ("entry", "message"),
    [
        (
            inspection(lash='{ clearance = "0.08 mm" }\njoint = "gearbx input"'),
            'inspection[1].joint: "gearbx input" is not the name of a joint; did you mean "gearbox input"? '
            'known: "gearbox input"',
        ),
        (
            inspection(lash='{ clearance = "0.08 mm" }\njoint = "stub"'),
            'inspection[1].joint: "stub" is not a splined joint and has no lash; known: "gearbox input"',
        ),
        (
            inspection("120 hour") + inspection("120 hour"),
            'inspection[2].hours: "120 hour" is not above the "120 hour" of the inspection before it',
        ),
        (
            inspection("120 hour", '{ clearance = "0.08 mm" }\ndate = 2026-03-14')
            + inspection("130 hour", '{ clearance = "0.08 mm" }\ndate = 2026-03-13'),
            "inspection[2].date: 2026-03-13 is before 2026-03-14",
        ),
        (inspection(lash='"as new"'), 'inspection[1].lash: "as new" is no reading'),
        (inspection(lash='"not measured"'), 'inspection[1].lash: "not measured" is no reading'),
        (inspection(lash="{ }"), "inspection[1].lash.clearance: is missing; give one of"),
        (
            inspection(lash='{ travel = "0.3 mm" }'),
            "inspection[1].lash.radius: is missing beside travel",
        ),
        (
            inspection(lash='{ clearance = "0.1 mm", angle = "0.2 deg" }'),
            'inspection[1].lash.angle: "0.2 deg" contradicts clearance',
        ),
        (
            inspection(lash='{ clearance = "50 mm" }'),
            "inspection[1].lash.clearance: is 50 mm along the pitch circle, a whole pitch (3.99 mm) or more",
        ),
        (inspection("0 hour"), 'inspection[1].hours: "0 hour" must be above zero'),
        (inspection("-3 hour"), 'inspection[1].hours: "-3 hour" must be above zero'),
        (inspection("120"), 'inspection[1].hours: "120" has no unit'),
        (inspection("120 mm"), 'inspection[1].hours: "120 mm" is a length, not a time'),
        (inspection("1e15 hour"), "is beyond anything that can be built"),
        (
            inspection(lash='{ clearance = "0.1 mm" }\nregreased = "yes"'),
            'inspection[1].regreased: "yes" is neither true nor false',
        ),
        (
            inspection(lash='{ clearance = "0.1 mm" }\nregresed = true'),
            'inspection[1].regresed: is not a known key; did you mean "regreased"?',
        ),
        ('\n[[inspection]]\nlash = { clearance = "0.1 mm" }\n', "inspection[1].hours: is missing"),
        ('\n[[inspection]]\nhours = "3 hour"\n', "inspection[1].lash: is missing"),
        ('\n[inspection]\nhours = "3 hour"\n', "inspection"),
        ("\n[[inspection]]\nlash = 3\n", "inspection[1].lash"),
    ],
)
def test_faults_of_an_inspection(entry: str, message: str) -> None:
    assert message in faults(entry, base=BASE + SHAFT)


def test_a_joint_must_be_named_where_several_are_splined() -> None:
    said = faults(inspection(), base=BASE + SECOND)
    assert "inspection[1].joint: is missing; several joints are splined" in said
    assert '"gearbox input", "drum"' in said


def test_a_file_without_a_spline_has_nothing_to_inspect() -> None:
    base = BASE.split("[[joint]]")[0] + SHAFT
    assert "inspection[1].joint: has no splined joint to belong to" in faults(inspection(), base=base)


def test_a_fault_of_the_joint_does_not_hide_those_of_its_inspections() -> None:
    broken = BASE.replace('engagement = "1.25 in"', 'engagement = "1.25"')
    said = faults(inspection(lash='{ clearance = "0.1 mm" }\njoint = "gearbo"'), base=broken)
    assert "joint[1].engagement" in said
    assert "inspection[1].joint" in said


def test_play_that_shrinks_beyond_both_tolerances_is_a_caution() -> None:
    start = ('{ clearance = "0.05 mm" }', '{ clearance = "0.20 +/- 0.03 mm" }')
    within = inspection(lash='{ clearance = "0.16 +/- 0.03 mm" }')
    beyond = inspection(lash='{ clearance = "0.15 +/- 0.03 mm" }')
    assert cautions(within, change=start) == []
    (said,) = cautions(beyond, change=start)
    assert "is smaller than at the start, 0.200 mm" in said
    assert "Play does not shrink" in said


def test_play_that_shrinks_from_one_inspection_to_the_next_is_a_caution() -> None:
    first = inspection("100 hour", '{ clearance = "0.20 +/- 0.01 mm" }')
    second = inspection("200 hour", '{ clearance = "0.10 +/- 0.01 mm" }')
    (said,) = cautions(first, second)
    assert "after 200 h, 0.100 mm, is smaller than after 100 h, 0.200 mm" in said


def test_a_rough_reading_between_hides_no_play_that_has_shrunk() -> None:
    start = ('{ clearance = "0.05 mm" }', '{ clearance = "0.20 +/- 0.01 mm" }')
    rough = inspection("100 hour", '{ clearance = "0.25 +/- 0.40 mm" }')
    small = inspection("200 hour", '{ clearance = "0.15 +/- 0.01 mm" }')
    (said,) = cautions(rough, small, change=start)
    assert "after 200 h, 0.150 mm, is smaller than at the start, 0.200 mm" in said


def test_a_play_that_has_shrunk_is_asked_for_again_and_left_out() -> None:
    first = inspection("100 hour", '{ clearance = "0.20 +/- 0.01 mm" }')
    second = inspection("200 hour", '{ clearance = "0.10 +/- 0.01 mm" }')
    third = inspection("300 hour", '{ clearance = "0.12 +/- 0.01 mm" }')
    for start in ('{ clearance = "0.05 mm" }', '"not measured"', '"as new"'):
        scenario = loaded(base=edited(('{ clearance = "0.05 mm" }', start)) + first + second + third)
        ledger = Ledger()
        warn_of_inspections(scenario, ledger)
        asked = ledger.missing[0]
        assert (asked.joint, asked.reading) == ("gearbox input", "lash, once more")
        assert "after 200 h it read 0.100 mm, less than the 0.200 mm after 100 h" in asked.how
        left = with_possible_readings(scenario, "as stated")
        assert [entry.hours.text for entry in left.inspection] == ["100 hour"]
        assert left.joint == scenario.joint
        hoped = with_possible_readings(scenario, "favourable")
        assert hoped.inspection == ()
        assert hoped.joint[0].lash == scenario.inspection[-1].lash  # type: ignore[union-attr]


def plays(*millimetres: float) -> str:
    """One inspection every hundred hours."""
    return "".join(
        inspection(f"{100 * (place + 1)} hour", f'{{ clearance = "{play} +/- 0.01 mm" }}')
        for place, play in enumerate(millimetres)
    )


@pytest.mark.parametrize(
    ("read", "left", "by"),
    [
        ((0.02, 0.07), [200], "after 200 h it read 0.070 mm"),
        ((0.20, 0.10, 0.19), [100, 300], "after 300 h it read 0.190 mm"),
        ((0.20, 0.10, 0.22, 0.25), [100, 300, 400], "after 300 h it read 0.220 mm"),
        # two that shrink in a row are outweighed by two that do not
        ((0.20, 0.10, 0.12, 0.22, 0.25), [100, 400, 500], "after 500 h it read 0.250 mm"),
    ],
)
def test_later_readings_that_agree_with_the_first_ones_settle_which_was_wrong(
    read: tuple[float, ...], left: list[int], by: str
) -> None:
    """One odd reading between others that grow was read wrongly (common practice, no source)."""
    scenario = loaded(base=BASE + plays(*read))
    ledger = Ledger()
    warn_of_inspections(scenario, ledger)
    assert ledger.missing == []
    assert len(ledger.cautions) == len(read) - len(left)
    for caution in ledger.cautions:
        assert "is left out. Play does not shrink" in caution.text
        assert f"{by}: the smaller one was read wrongly" in caution.text
    for outlook in ("as stated", "favourable"):
        kept = with_possible_readings(scenario, outlook)  # type: ignore[arg-type]
        assert [entry.hours.text for entry in kept.inspection] == [f"{hours} hour" for hours in left]
        assert kept.joint == scenario.joint


@pytest.mark.parametrize(
    "read",
    [
        (0.20, 0.10),
        (0.20, 0.10, 0.12),
        (0.20, 0.10, 0.12, 0.22),
        (0.20, 0.10, 0.22, 0.12),
        (0.30, 0.07, 0.09),
    ],
)
def test_which_reading_was_wrong_stays_open_until_as_many_agree_as_do_not(read: tuple[float, ...]) -> None:
    ledger = Ledger()
    warn_of_inspections(loaded(base=BASE + plays(*read)), ledger)
    assert {entry.reading for entry in ledger.missing} == {"lash, once more"}


def test_readings_of_other_joints_stay_whatever_one_has_read() -> None:
    entries = (
        inspection("120 hour", '{ clearance = "0.20 mm" }', 'joint = "drum"'),
        inspection("100 hour", '{ clearance = "0.07 mm" }', 'joint = "gearbox input"'),
        inspection("300 hour", '{ clearance = "0.02 mm" }', 'joint = "drum"'),
    )
    scenario = loaded(base=BASE + SECOND + "".join(entries))
    left, hoped = (with_possible_readings(scenario, way) for way in ("as stated", "favourable"))  # type: ignore[arg-type]
    assert [entry.joint for entry in left.inspection] == ["drum", "gearbox input"]
    assert [entry.joint for entry in hoped.inspection] == ["gearbox input"]
    assert hoped.joint[0] == scenario.joint[0]


def test_growth_needs_a_start() -> None:
    (said,) = cautions(inspection(), change=('{ clearance = "0.05 mm" }', '"not measured"'))
    assert "show no growth" in said
    assert cautions(inspection(), change=('{ clearance = "0.05 mm" }', '"as new"')) == []


def test_cautions_and_assumed_tolerances_reach_the_report() -> None:
    result = assessed(base=BASE + inspection(lash='{ clearance = "0.001 mm" }'))
    assert any("Play does not shrink" in caution.text for caution in result.cautions)
    assert "inspection.lash" in [entry.key for entry in result.assumptions]
    written = assessed(base=BASE + inspection(lash='{ clearance = "0.08 +/- 0.01 mm" }'))
    assert "inspection.lash" not in [entry.key for entry in written.assumptions]


def test_odd_hours_are_a_caution() -> None:
    result = assessed(base=BASE + inspection("20 min"))
    assert any('inspection[1].hours = "20 min"' in caution.text for caution in result.cautions)


def test_running_in_and_the_running_of_a_year() -> None:
    scenario = loaded(
        ("after = []", 'running_in = { depth = "4 um", revolutions = 1e6 }'),
        ("reliability = 0.9", 'reliability = 0.9\nrunning_per_year = "400 hour"'),
    )
    running_in = scenario.joint[0].running_in  # type: ignore[union-attr]
    assert running_in is not None
    assert (running_in.depth.value, running_in.revolutions) == pytest.approx((4e-6, 1e6))
    assert scenario.targets.running_per_year is not None
    assert scenario.targets.running_per_year.value == pytest.approx(400 * 3600.0)
    assert loaded().targets.running_per_year is None


def test_the_running_of_a_year_is_in_the_result() -> None:
    result = assessed(("reliability = 0.9", 'reliability = 0.9\nrunning_per_year = "400 hour"'))
    assert result.to_dict()["targets"]["running_per_year_hours"] == pytest.approx(400.0)
    assert assessed().to_dict()["targets"]["running_per_year_hours"] is None


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("after = []", 'running_in = { depth = "0 um", revolutions = 1e6 }', "must be above zero"),
        ("after = []", 'running_in = { depth = "4 um", revolutions = 0 }', "must be at least 1"),
        ("after = []", 'running_in = { depth = "4 um", revolutions = inf }', "is not a finite number"),
        ("after = []", 'running_in = { depth = "4 um" }', "running_in.revolutions: is missing"),
        (
            "after = []",
            'running_in = { depth = "4 mm", revolutions = 1e6 }',
            'running_in.depth: "4 mm" leaves next to nothing of the tooth',
        ),
        (
            "reliability = 0.9",
            'reliability = 0.9\nrunning_per_year = "9000 hour"',
            'targets.running_per_year: "9000 hour" is more than a year has; a year has 8766 hours',
        ),
        ("reliability = 0.9", 'reliability = 0.9\nrunning_per_year = "0 hour"', "must be above zero"),
    ],
)
def test_faults_of_running_in_and_of_the_year(old: str, new: str, message: str) -> None:
    with pytest.raises(ScenarioError) as caught:
        loaded((old, new))
    assert message in str(caught.value)


def test_a_size_that_cannot_be_is_named_once_beside_an_inspection() -> None:
    text = faults(inspection(), base=edited(('pressure_angle = "30 deg"', 'pressure_angle = "22.5 deg"')))
    assert "joint[1].size: is not possible: ansi b92.1 has no pressure angle of 22.5 deg" in text
    assert "inspection" not in text
