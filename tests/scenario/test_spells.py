"""Spells from a torque record: sums over them are sums over the record; cycles are counted as told."""

from collections.abc import Sequence
from math import pi
from pathlib import Path

import numpy as np
import pytest
from builder import BASE
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.assessment import Assessment, assess
from torqcheck.scenario import load_scenario
from torqcheck.scenario.duty_record import DutyRecord
from torqcheck.scenario.estimates import duty_spells
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.spells import Spell, recorded_spells, torque_cycles

PEAK = 240.0


def record(
    time: Sequence[float], torque: Sequence[float], speed: Sequence[float] | None = None, repeats: float = 0.0
) -> DutyRecord:
    return DutyRecord(
        time=np.array(time, dtype=float),
        torque=np.array(torque, dtype=float),
        speed=None if speed is None else np.array(speed, dtype=float),
        file="day.csv",
        sha256="",
        repeats_every=repeats or float(time[-1] - time[0]),
        lines=np.arange(len(time)) + 2,
    )


def steps(*torques: float, seconds: float = 10.0) -> DutyRecord:
    """A record that holds each torque for some time, with flanks of a millisecond."""
    times, values = [0.0], [torques[0]]
    for number, torque in enumerate(torques):
        times += [number * seconds + 1e-3, (number + 1) * seconds]
        values += [torque, torque]
    return record(times, values)


@st.composite
def records(draw: st.DrawFn) -> DutyRecord:
    gaps = draw(st.lists(st.floats(0.01, 100.0), min_size=1, max_size=15))
    size = len(gaps) + 1
    torque = draw(st.lists(st.floats(-PEAK, PEAK), min_size=size, max_size=size))
    speed = draw(st.lists(st.floats(-400.0, 400.0), min_size=size, max_size=size))
    time = np.concatenate([[0.0], np.cumsum(gaps)])
    torque[0] = torque[0] or 1.0
    return record(time.tolist(), torque, np.abs(speed).tolist(), float(time[-1]) * draw(st.floats(1.0, 50.0)))


def fine_sums(of: DutyRecord) -> tuple[float, float]:
    """Turns and torque times turns by brute force, 20000 rows to each row."""
    assert of.speed is not None
    turns = work = 0.0
    for i in range(of.time.size - 1):
        part = (np.arange(20_000) + 0.5) / 20_000
        torque = of.torque[i] + part * (of.torque[i + 1] - of.torque[i])
        speed = of.speed[i] + part * (of.speed[i + 1] - of.speed[i])
        seconds = of.time[i + 1] - of.time[i]
        turns += float(np.mean(speed)) * seconds
        work += float(np.mean(np.abs(torque) * speed)) * seconds
    return turns, work


@settings(deadline=None, max_examples=60)
@given(records())
def test_time_turns_and_torque_times_turns_are_those_of_the_record(of: DutyRecord) -> None:
    spells = recorded_spells(of, PEAK, 0.0)
    assert sum(spell.share for spell in spells) == pytest.approx(1.0, rel=1e-9)
    turns, work = fine_sums(of)
    assert sum(s.share * s.speed for s in spells) * of.repeats_every == pytest.approx(
        turns, rel=1e-6, abs=1e-9
    )
    summed = sum(abs(s.torque) * PEAK * s.share * s.speed for s in spells) * of.repeats_every
    assert summed == pytest.approx(work, rel=1e-6, abs=1e-6)
    assert all(abs(spell.torque) <= 1.0 + 1e-9 for spell in spells)
    assert len(spells) <= 10


@settings(deadline=None, max_examples=60)
@given(records(), st.floats(0.1, 10.0))
def test_torque_and_peak_scale_together(of: DutyRecord, scale: float) -> None:
    larger = record(of.time.tolist(), (of.torque * scale).tolist(), None, of.repeats_every)
    plain = record(of.time.tolist(), of.torque.tolist(), None, of.repeats_every)
    ours, theirs = recorded_spells(larger, PEAK * scale, 100.0), recorded_spells(plain, PEAK, 100.0)
    assert sum(s.share * abs(s.torque) for s in ours) == pytest.approx(
        sum(s.share * abs(s.torque) for s in theirs), rel=1e-9
    )


def test_levels_are_named_and_hold_their_time() -> None:
    spells = {s.name: s for s in recorded_spells(steps(0.0, 240.0, 100.0, -30.0, 0.0), PEAK, 100.0)}
    high = spells["recorded, driving at 75 % of the peak or more"]
    assert (high.torque, high.share) == pytest.approx((1.0, 0.2), rel=1e-3)
    middle = spells["recorded, driving at 25 to 50 % of the peak"]
    assert (middle.torque, middle.share) == pytest.approx((100.0 / 240.0, 0.2), rel=1e-3)
    braking = spells["recorded, braking at 2 to 25 % of the peak"]
    assert (braking.torque, braking.share) == pytest.approx((-0.125, 0.2), rel=1e-3)
    idle = spells["recorded, next to no torque"]
    assert (idle.torque, idle.share) == pytest.approx((0.0, 0.4), abs=1e-3)
    assert [spell.speed for spell in spells.values()] == pytest.approx([100.0] * len(spells))


def test_what_is_not_recorded_stands_still() -> None:
    spells = recorded_spells(record([0, 10, 20], [0, 120, 0], None, 80.0), PEAK, 100.0)
    assert spells[-1] == Spell("not recorded, standing still", 0.0, 0.0, 0.75, 0.0, False)
    whole = recorded_spells(record([0, 10, 20], [0, 120, 0]), PEAK, 100.0)
    assert "not recorded, standing still" not in [spell.name for spell in whole]


@pytest.mark.parametrize(
    ("torques", "cycles"),
    [
        ((0, 200, 0, 200, 0), [(200, False), (200, False)]),
        ((200, 0, 200), [(200, False), (200, False)]),  # it starts and ends at rest
        ((0, 200, 100, 200, 0), [(200, False)]),  # never off in between
        ((0, 200, 15, 200, 0), [(200, False)]),  # not clearly off: above a twentieth
        ((0, 200, 9, 200, 0), [(200, False), (200, False)]),
        ((0, 200, 0, 15, 0), [(200, False)]),  # not clearly on: below a tenth
        ((0, 200, -90, 0, 200), [(200, True), (200, False)]),
        ((0, 200, -90, 200, -90), [(200, True), (200, True)]),
        ((0, -90, 0, -240, 0), [(-90, False), (-240, False)]),  # braking alone
        ((0, -90, 200), [(-90, False), (200, False)]),
        ((0, 100, 200, 150, 0), [(200, False)]),
        ((0, 180, 60, 240, 0, -90, 0, 240, -60, 120, 0), [(240, True), (240, True), (120, False)]),
    ],
)
def test_torque_cycles(torques: Sequence[float], cycles: list[tuple[float, bool]]) -> None:
    found = torque_cycles(steps(*torques))
    assert [(cycle.torque, cycle.reverses) for cycle in found] == cycles


def test_noise_makes_no_cycles() -> None:
    chance = np.random.default_rng(1)
    torque = np.concatenate([np.zeros(200), np.full(400, 200.0), np.zeros(200)])
    noisy = record(range(800), (torque + chance.normal(0.0, 2.0, 800)).tolist())  # type: ignore[arg-type]
    assert len(torque_cycles(noisy)) == 1


@settings(deadline=None)
@given(records())
def test_every_record_with_torque_has_a_cycle_and_events_keep_their_number(of: DutyRecord) -> None:
    cycles = torque_cycles(of)
    assert cycles
    events = sum(spell.events_per_hour for spell in recorded_spells(of, PEAK, 1.0))
    assert events * of.repeats_every / 3600.0 == pytest.approx(len(cycles), rel=1e-9)


def test_events_go_with_the_level_of_their_largest_torque() -> None:
    spells = recorded_spells(steps(0, 200, 0, 100, -90, 0), PEAK, 100.0)
    events = {s.name: (s.events_per_hour, s.reversals) for s in spells if s.events_per_hour}
    assert events == {
        "recorded, driving at 75 % of the peak or more": (60.0, False),
        "recorded, driving at 25 to 50 % of the peak": (60.0, True),
    }


HEAD, TAIL = BASE.split("[[duty]]")[0], "[[joint]]" + BASE.split("[[joint]]")[1]
DUTY = """
[[duty]]
torque = 1.0
speed = "600 rpm"
share = 0.25
events_per_hour = 3

[[duty]]
torque = 0.3
speed = "2000 rpm"
share = 0.75
"""


def assessed_with(folder: Path, csv: str, repeats: str = "20 min") -> Assessment:
    (folder / "day.csv").write_text(csv)
    scenario = folder / "job.toml"
    entry = f'[duty_file]\npath = "day.csv"\nrepeats_every = "{repeats}"\n\n'
    scenario.write_text(HEAD + entry + TAIL)
    return assess(scenario)


BLOCKS = "time_s,torque_Nm,speed_rpm\n0,240,600\n300,240,600\n300.0001,72,2000\n1200,72,2000\n"  # one start


def test_a_record_of_two_blocks_wears_like_the_duty_list_that_says_the_same(tmp_path: Path) -> None:
    listed = tmp_path / "list.toml"
    listed.write_text(HEAD + DUTY + TAIL)
    by_list, by_record = assess(listed), assessed_with(tmp_path, BLOCKS)
    for ours, theirs in zip(by_record.joints, by_list.joints, strict=True):
        assert ours.wear is not None
        assert theirs.wear is not None
        assert ours.wear.life == pytest.approx(theirs.wear.life, rel=1e-5)
        assert ours.wear.guide_life == pytest.approx(theirs.wear.guide_life, rel=1e-5)
        for check, other in zip(ours.checks, theirs.checks, strict=True):
            if "fatigue" in check.name:
                continue  # the record is counted by rainflow, the list says how often it starts
            assert check.safety_factor == pytest.approx(other.safety_factor, rel=1e-6)


def test_the_record_stands_in_the_result(tmp_path: Path) -> None:
    result = assessed_with(tmp_path, BLOCKS)
    assert result.duty_file is not None
    assert result.to_dict()["scenario"]["duty_file"] == {
        "file": "day.csv",
        "sha256": result.duty_file.sha256,
    }
    assert len(result.duty_file.sha256) == 64
    listed = tmp_path / "list.toml"
    listed.write_text(HEAD + DUTY + TAIL)
    assert assess(listed).to_dict()["scenario"]["duty_file"] is None


def test_another_record_has_another_hash(tmp_path: Path) -> None:
    first, second = (
        assessed_with(tmp_path, BLOCKS),
        assessed_with(tmp_path, BLOCKS + "1200.0005,0,0\n", "21 min"),
    )
    assert first.duty_file != second.duty_file


def test_a_record_without_speed_says_what_is_assumed(tmp_path: Path) -> None:
    result = assessed_with(tmp_path, "time_s,torque_Nm\n0,0\n600,200\n1200,0\n")
    (entry,) = (e for e in result.assumptions if e.key == "duty_file.speed")
    assert entry.value == pytest.approx(0.5 * 4000 * pi / 30)
    assert "duty_file.speed" not in [e.key for e in assessed_with(tmp_path, BLOCKS).assumptions]


def test_a_record_shorter_than_its_period_is_a_caution(tmp_path: Path) -> None:
    short = assessed_with(tmp_path, BLOCKS, "8 hour")
    assert any("covers 4.2 % of the running time" in c.text for c in short.cautions)
    assert not any("covers" in c.text for c in assessed_with(tmp_path, BLOCKS).cautions)


def test_braking_beyond_the_motor_block_is_taken_from_the_record(tmp_path: Path) -> None:
    csv = "time_s,torque_Nm\n0,0\n300,200\n600,-150\n1200,0\n"
    result = assessed_with(tmp_path, csv)
    (entry,) = (e for e in result.assumptions if e.key == "motor.regen_torque")
    assert entry.value == pytest.approx(150.0)
    assert "the duty record brakes harder" in entry.why
    gentle = assessed_with(tmp_path, csv.replace("-150", "-80"))
    assert "motor.regen_torque" not in [e.key for e in gentle.assumptions]


def test_a_record_far_below_the_peak_has_events_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "day.csv").write_text("time_s,torque_Nm\n0,0\n600,3\n1200,0\n")
    scenario = tmp_path / "job.toml"
    scenario.write_text(HEAD + '[duty_file]\npath = "day.csv"\nrepeats_every = "20 min"\n\n' + TAIL)
    ledger = Ledger()
    spells = duty_spells(load_scenario(scenario), ledger)
    assert sum(spell.events_per_hour for spell in spells) == pytest.approx(3.0)
    assert "duty.events_per_hour" not in [entry.key for entry in ledger.assumptions]
