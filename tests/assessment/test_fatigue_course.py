"""Fatigue with growing blows, and torque records counted: against duty lists and plain sums."""

import math

import numpy as np
import pytest
from builder import loaded

from torqcheck.assessment.fatigue.cycles import recorded_duty, torque_cycles
from torqcheck.assessment.fatigue.judge import PathBlow, damage_per_hour, fatigue_members, torque_duty_of
from torqcheck.assessment.lifetime.fatigue_course import SCATTER_SIGMA, FatigueCourse, fatigue_course
from torqcheck.assessment.lifetime.growth import JointGrowth, growth_of
from torqcheck.assessment.prepared import prepared_of
from torqcheck.assessment.torque.blow import worst_blow
from torqcheck.scenario.duty_record import DutyRecord
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.spells import Spell
from torqcheck.wear import drawn_runs


def record(torque: list[float], every: float = 3600.0) -> DutyRecord:
    series = np.array(torque)
    lines = np.arange(series.size) + 2
    return DutyRecord(
        time=np.arange(series.size, dtype=float),
        torque=series,
        speed=None,
        file="day.csv",
        sha256="",
        repeats_every=every,
        lines=lines,
    )


def test_damage_that_stays_is_one_over_the_rate() -> None:
    course = FatigueCourse("fatigue", np.array([0.0, 50.0, 100.0]), np.full(3, 2e-3))
    runs = drawn_runs(sigma=1.0, limits=(), seed=1)
    hours = course.hours(runs, 7)
    assert np.median(hours) == pytest.approx(500.0, rel=0.01)
    assert np.std(np.log(hours)) == pytest.approx(SCATTER_SIGMA, rel=0.01)
    assert course.damage_at(runs, 250.0) == pytest.approx(0.5)
    # the scatter has nothing to do with how fast the joint wears
    assert abs(np.corrcoef(np.log(hours), np.log(runs.speed))[0, 1]) < 0.02


def test_damage_that_grows_in_step_with_the_wear_is_its_integral() -> None:
    # d = a + b t at unit speed: a t + b t^2 / 2 = scatter
    exposure = np.linspace(0.0, 4000.0, 401)
    start, growth = 1e-4, 1e-6
    course = FatigueCourse("fatigue", exposure, start + growth * exposure)
    runs = drawn_runs(sigma=0.0, limits=(), seed=1)
    exact = (-start + math.sqrt(start**2 + 2.0 * growth)) / growth
    assert np.median(course.hours(runs, 7)) == pytest.approx(exact, rel=0.01)
    assert course.damage_at(runs, exact) == pytest.approx(1.0, rel=1e-3)


def test_growing_blows_shorten_the_fatigue_life() -> None:
    scenario = loaded(
        ('steel = "8620_carb_63"\nhardness = "60 HRC +/- 1"', 'steel = "1045_norm"'),
        ("0.08 deg", "0.3 deg"),
        ('lash_limit = "0.40 mm"', 'lash_limit = "1 mm"'),
    )
    prepared = prepared_of(scenario)
    shock = worst_blow(scenario, prepared.path, prepared.loads, prepared.ledger)
    growth = growth_of(prepared)[0]
    assert isinstance(growth, JointGrowth)
    course = fatigue_course(prepared, 0, shock, growth)
    assert course is not None
    assert course.name.startswith("torsional fatigue, ")
    # now it is the damage of the joint as it is
    state, load = prepared.joints[0].spline, prepared.loads[0]
    assert state is not None
    blow = PathBlow(
        drive_peak=shock.drive_peak_torque,
        brake_peak=shock.brake_peak_torque,
        share=2.4 / (2.4 + shock.driving_inertia),
        damping_ratio=0.03,
    )
    duty = torque_duty_of(load, load, prepared.spells, blow, Ledger())
    now = max(
        float(damage_per_hour(member, duty, shock.drive_peak_torque, shock.brake_peak_torque))
        for member in fatigue_members(state, Ledger())
    )
    assert course.per_hour[0] == pytest.approx(now, rel=1e-6)
    assert course.per_hour[-1] > 1.1 * course.per_hour[0]
    steady = FatigueCourse("steady", course.exposure, np.full(course.exposure.size, now))
    assert np.median(course.hours(growth.runs, 7)) < np.median(steady.hours(growth.runs, 7))


def test_a_record_of_starts_is_the_duty_list_of_starts() -> None:
    prepared = prepared_of(loaded(('regen_torque = "90 N*m"\n', "")))
    load = prepared.loads[0]
    blow = {"share": 0.9, "drive_blow": 700.0, "brake_blow": 0.0, "damping_ratio": 0.03}
    # full torque four times an hour, half of it six times
    found = recorded_duty(record([0, 240, 0, 240, 0, 120, 0, 120, 0, 120, 0], 1800.0), load, **blow)  # type: ignore[arg-type]
    spells = (Spell("full", 1.0, 60.0, 0.5, 4.0, False), Spell("half", 0.5, 60.0, 0.5, 6.0, False))
    path = PathBlow(drive_peak=700.0, brake_peak=0.0, share=0.9, damping_ratio=0.03)
    listed = torque_duty_of(load, load, spells, path, Ledger())
    state = prepared.joints[0].spline
    assert state is not None
    (member, *_) = fatigue_members(state, Ledger())
    ours, theirs = (float(damage_per_hour(member, duty, 700.0)) for duty in (found, listed))
    assert ours == pytest.approx(theirs, rel=1e-6)
    assert found.cycles_per_hour == pytest.approx(10.0)


def test_a_record_pairs_the_largest_with_the_smallest_torque() -> None:
    # drive, minutes later regeneration: one large cycle, as the counting standard has it
    prepared = prepared_of(loaded())
    load = prepared.loads[0]
    blow = {"share": 0.9, "drive_blow": 700.0, "brake_blow": 300.0, "damping_ratio": 0.03}
    found = recorded_duty(record([0, 200, 60, 240, 0, -90, 0]), load, **blow)  # type: ignore[arg-type]
    swing = int(np.argmax(found.drive + found.brake))
    assert found.drive[swing] == pytest.approx(240 * 2.5 * 0.97)
    assert found.brake[swing] == pytest.approx(90 * 2.5 / 0.97, rel=0.11)  # far end of its level
    assert found.brake[swing] >= 90 * 2.5 / 0.97
    # 200 to 60 does not come back to zero: no lash, no blow
    inner = [i for i in range(found.drive.size) if found.brake[i] < 0.0]
    assert len(inner) == 1
    assert found.drive[inner[0]] >= 200 * 2.5 * 0.97
    cycles = torque_cycles(found, 8.0, 700.0, 300.0)
    low, high = -found.brake[inner[0]], found.drive[inner[0]]
    assert cycles.amplitude[inner[0]] == pytest.approx(0.5 * (high - low))
    assert cycles.amplitude[found.drive.size + inner[0]] == 0.0
    assert cycles.amplitude[swing] > 0.5 * (found.drive[swing] + found.brake[swing])


def test_ripple_counts_for_nothing() -> None:
    load = prepared_of(loaded()).loads[0]
    blow = {"share": 0.9, "drive_blow": 700.0, "brake_blow": 300.0, "damping_ratio": 0.03}
    rough = [0.0, *(240.0 + (-1) ** k * 5.0 for k in range(200)), 0.0, *((-1) ** k * 5.0 for k in range(200))]
    found = recorded_duty(record(rough), load, **blow)  # type: ignore[arg-type]
    assert found.cycles_per_hour == pytest.approx(1.0)


def test_a_record_that_stops_before_it_repeats_goes_back_to_nothing() -> None:
    load = prepared_of(loaded()).loads[0]
    blow = {"share": 0.9, "drive_blow": 700.0, "brake_blow": 300.0, "damping_ratio": 0.03}
    stands = recorded_duty(record([100.0, 100.0], 600.0), load, **blow)  # type: ignore[arg-type]
    assert stands.cycles_per_hour == pytest.approx(6.0)
    assert stands.drive[0] == pytest.approx(100 * 2.5 * 0.97)
    runs_on = recorded_duty(record([100.0, 100.0], 1.0), load, **blow)  # type: ignore[arg-type]
    assert runs_on.cycles_per_hour == 0.0
