"""Limits, monotony, scaling and shapes of the blow."""

import math
from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from torqcheck.errors import DomainError, NoSolutionError
from torqcheck.shock import (
    Blow,
    blow_energy,
    closing_speed,
    closing_time,
    first_blow_on_ramp,
    natural_frequency,
    peak,
    ramp_factor,
    ramp_factor_envelope,
    step_factor,
    step_peak_with_lash,
    torque_share,
)
from torqcheck.shock.arguments import cases_of, path_of
from torqcheck.shock.chunks import FEW
from torqcheck.shock.run import follow_one

TROLLEY = {
    "torque_rise": 4000.0,
    "peak_torque": 240.0,
    "driving_inertia": 0.05,
    "driven_inertia": 1.2,
    "stiffness": 12000.0,
    "damping_ratio": 0.03,
    "lash": 0.02,
}
PERIOD = 1.0 / float(natural_frequency(0.05, 1.2, 12000.0))
NUMBERS = [field.name for field in fields(Blow)]

blows = some.fixed_dictionaries(
    {
        "torque_rise": some.floats(300.0, 1e5) | some.just(math.inf),
        "peak_torque": some.floats(20.0, 1000.0),
        "driving_inertia": some.floats(0.01, 1.0),
        "driven_inertia": some.floats(0.01, 10.0) | some.just(math.inf),
        "stiffness": some.floats(1e3, 1e5),
        "damping_ratio": some.floats(0.005, 3.0),
        "lash": some.floats(1e-4, 0.1) | some.just(0.0),
        "start_torque": some.floats(-200.0, -1.0) | some.just(0.0),
    }
)


def rows(count: int) -> dict[str, np.ndarray]:
    """Many cases of every kind."""
    random = np.random.default_rng(7)
    kind = np.arange(count)
    return {
        "torque_rise": np.where(kind % 5 == 0, math.inf, 10 ** random.uniform(2.5, 5, count)),
        "peak_torque": random.uniform(50, 500, count),
        "driving_inertia": 10 ** random.uniform(-2, 0, count),
        "driven_inertia": np.where(kind % 7 == 0, math.inf, 10 ** random.uniform(-1.5, 1, count)),
        "stiffness": 10 ** random.uniform(3, 5, count),
        "damping_ratio": np.where(
            kind % 11 == 0, random.uniform(1, 3, count), random.uniform(0.01, 0.3, count)
        ),
        "lash": np.where(kind % 6 == 0, 0.0, 10 ** random.uniform(-4, -1, count)),
        "start_torque": np.where(kind % 4 == 0, random.uniform(-100, 0, count), 0.0),
    }


# --- limits ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("driven_inertia", [0.02, 1.2, math.inf])
def test_torque_at_once_without_lash_and_damping_doubles(driven_inertia: float) -> None:
    case = TROLLEY | {
        "torque_rise": math.inf,
        "driven_inertia": driven_inertia,
        "damping_ratio": 0.0,
        "lash": 0.0,
    }
    blow = peak(**case)
    assert blow.dynamic_factor == pytest.approx(2.0, rel=1e-14)
    assert blow.steady_torque == pytest.approx(240.0 * torque_share(0.05, driven_inertia), rel=1e-14)


@pytest.mark.parametrize("periods", [1, 2, 3, 7, 40])
@pytest.mark.parametrize("driven_inertia", [1.2, math.inf])
def test_ramp_of_whole_periods_adds_nothing(periods: int, driven_inertia: float) -> None:
    frequency = float(natural_frequency(0.05, driven_inertia, 12000.0))
    case = TROLLEY | {"driven_inertia": driven_inertia, "damping_ratio": 0.0, "lash": 0.0}
    blow = peak(**(case | {"torque_rise": 240.0 * frequency / periods}))
    assert blow.dynamic_factor == pytest.approx(1.0, abs=1e-12)


@pytest.mark.parametrize("zeta", [0.03, 0.5, 1.0, 2.0])
@pytest.mark.parametrize("lash", [0.0, 0.02])
@pytest.mark.parametrize("start_torque", [0.0, -60.0])
def test_slow_ramp_tends_to_the_steady_torque(zeta: float, lash: float, start_torque: float) -> None:
    case = TROLLEY | {"damping_ratio": zeta, "lash": lash, "start_torque": start_torque}
    slow = peak(**(case | {"torque_rise": 240.0 / (2000.0 * PERIOD)}))
    assert 1.0 <= slow.dynamic_factor < 1.001


def test_very_steep_ramp_tends_to_torque_at_once() -> None:
    steep, instant = peak(**(TROLLEY | {"torque_rise": 1e12})), peak(**(TROLLEY | {"torque_rise": math.inf}))
    for name in ("peak_torque", "closing_time", "closing_speed", "first_blow_torque"):
        assert getattr(steep, name) == pytest.approx(getattr(instant, name), rel=1e-6)
    assert steep.contact_losses == instant.contact_losses == 3


def test_very_heavy_driven_side_tends_to_held() -> None:
    heavy, held = (
        peak(**(TROLLEY | {"driven_inertia": 1e12})),
        peak(**(TROLLEY | {"driven_inertia": math.inf})),
    )
    assert heavy.peak_torque == pytest.approx(held.peak_torque, rel=1e-9)


def test_vanishing_lash_tends_to_no_lash() -> None:
    tiny, none = peak(**(TROLLEY | {"lash": 1e-12})), peak(**(TROLLEY | {"lash": 0.0}))
    assert tiny.peak_torque == pytest.approx(none.peak_torque, rel=1e-5)
    assert tiny.contact_losses == none.contact_losses == 0


@pytest.mark.parametrize("start_torque", [0.0, -60.0])
@pytest.mark.parametrize("torque_rise", [4000.0, math.inf])
@pytest.mark.parametrize("lash", [0.0, 0.02])
def test_critical_damping_lies_between_its_neighbours(
    start_torque: float, torque_rise: float, lash: float
) -> None:
    """Below critical the torque is solved as a swing, above as a creep: both must meet at 1."""
    case = TROLLEY | {"start_torque": start_torque, "torque_rise": torque_rise, "lash": lash}
    below, at, above = (peak(**(case | {"damping_ratio": zeta})) for zeta in (1.0 - 1e-6, 1.0, 1.0 + 1e-6))
    assert below.peak_torque == pytest.approx(at.peak_torque, rel=1e-5)
    assert above.peak_torque == pytest.approx(at.peak_torque, rel=1e-5)
    low, high = sorted([below.peak_torque, above.peak_torque])
    assert low < at.peak_torque < high


def test_step_factor_continues_above_critical_damping() -> None:
    # overshoot of (2 zeta p + 1)/(p^2 + 2 zeta p + 1), limit e^-2 at critical damping
    blow = peak(**(TROLLEY | {"torque_rise": math.inf, "lash": 0.0, "damping_ratio": 1.0}))
    assert blow.dynamic_factor == pytest.approx(1.0 + math.exp(-2.0), rel=1e-8)


# --- against the closed forms, which share no code with the solver ----------------------------------


@given(blows)
@settings(max_examples=150, deadline=None)
def test_closing_agrees_with_newtons_law(case: dict[str, float]) -> None:
    case = case | {"start_torque": 0.0}
    blow = peak(**case)
    if case["lash"] == 0.0:
        assert math.isnan(blow.closing_time)
        assert math.isnan(blow.closing_speed)
        assert math.isnan(blow.blow_energy)
        assert math.isnan(blow.first_blow_torque)
        return
    arguments = [case[name] for name in ("torque_rise", "peak_torque", "driving_inertia", "lash")]
    assert blow.closing_time == pytest.approx(closing_time(*arguments), rel=1e-10)
    assert blow.closing_speed == pytest.approx(closing_speed(*arguments), rel=1e-10)
    energy = blow_energy(blow.closing_speed, case["driving_inertia"], case["driven_inertia"])
    assert blow.blow_energy == pytest.approx(energy, rel=1e-12)


@given(blows)
@settings(max_examples=100, deadline=None)
def test_undamped_factors(case: dict[str, float]) -> None:
    case = case | {"start_torque": 0.0, "damping_ratio": 0.0}
    J = [case["driving_inertia"], case["driven_inertia"]]
    frequency = natural_frequency(*J, case["stiffness"])
    rise_time = case["peak_torque"] / case["torque_rise"]
    tight = peak(**(case | {"lash": 0.0}))
    assert tight.dynamic_factor == pytest.approx(ramp_factor(rise_time, frequency), rel=1e-10)
    assert tight.dynamic_factor <= ramp_factor_envelope(rise_time, frequency) * (1.0 + 1e-12)
    if case["lash"] > 0.0:
        step = peak(**(case | {"torque_rise": math.inf}))
        expected = step_peak_with_lash(case["peak_torque"], *J, case["stiffness"], case["lash"])
        assert step.peak_torque == pytest.approx(expected, rel=1e-10)
        assert not step.settled


@given(zeta=some.floats(0.0, 0.99))
@settings(max_examples=50, deadline=None)
def test_damped_step_factor(zeta: float) -> None:
    blow = peak(**(TROLLEY | {"torque_rise": math.inf, "lash": 0.0, "damping_ratio": zeta}))
    assert blow.dynamic_factor == pytest.approx(step_factor(zeta), rel=1e-10)


@given(u=some.floats(0.05, 30.0))
@settings(max_examples=60, deadline=None)
def test_first_blow_depends_on_one_number(u: float) -> None:
    w = 2.0 * math.pi / PERIOD
    lash = (u / w) ** 3 * 4000.0 / (6.0 * 0.05)
    case = TROLLEY | {"damping_ratio": 0.0, "lash": lash, "peak_torque": 1e5}
    expected = first_blow_on_ramp(4000.0, 0.05, 1.2, 12000.0, lash)
    assert peak(**case).first_blow_torque == pytest.approx(expected, rel=1e-9)


def test_start_on_the_drive_flank_scales_the_rest_of_the_ramp() -> None:
    T0, rise = 70.0, 9000.0
    blow = peak(**(TROLLEY | {"damping_ratio": 0.0, "start_torque": T0, "torque_rise": rise}))
    s, rise_time = torque_share(0.05, 1.2), (240.0 - T0) / rise
    expected = s * 240.0 + s * (240.0 - T0) * (ramp_factor(rise_time, 1.0 / PERIOD) - 1.0)
    assert blow.peak_torque == pytest.approx(expected, rel=1e-12)
    assert math.isnan(blow.closing_time)
    assert blow.least_torque == 0.0


# --- monotony and scaling ----------------------------------------------------------------------------


@given(blows)
@settings(max_examples=60, deadline=None)
def test_more_lash_never_closes_softer(case: dict[str, float]) -> None:
    # from rest; out of regeneration the motor still brakes at first, and a wider gap may close softer
    lash = np.linspace(1e-4, 0.1, 60)
    blow = peak(**(case | {"lash": lash, "start_torque": 0.0}))
    assert np.all(np.diff(blow.closing_speed) >= -1e-12 * blow.closing_speed[1:])
    assert np.all(np.diff(blow.blow_energy) >= -1e-12 * blow.blow_energy[1:])
    assert np.all(np.diff(blow.closing_time) > 0.0)


@given(blows)
@settings(max_examples=100, deadline=None)
def test_what_always_holds(case: dict[str, float]) -> None:
    blow = peak(**case)
    assert blow.peak_torque >= blow.steady_torque * (1.0 - 1e-12)
    assert blow.least_torque <= 0.0
    assert blow.least_torque <= blow.steady_torque * case["start_torque"] / case["peak_torque"] * (
        1.0 - 1e-12
    )
    assert blow.time_of_peak >= 0.0
    if case["lash"] > 0.0:
        assert blow.first_blow_torque <= blow.peak_torque * (1.0 + 1e-12)
        assert blow.time_of_peak >= blow.closing_time * (1.0 - 1e-12)
    if case["damping_ratio"] > 0.05:
        assert blow.settled


@given(blows, some.floats(0.1, 10.0), some.floats(0.1, 10.0))
@settings(max_examples=60, deadline=None)
def test_scaling_laws(case: dict[str, float], force: float, time: float) -> None:
    """Torques times one number at the same inertia and lash, or a clock that runs slower."""
    blow = peak(**case)
    stronger = peak(
        **(
            case
            | {name: case[name] * force for name in ("peak_torque", "start_torque", "stiffness")}
            | {name: case[name] * force for name in ("driving_inertia", "driven_inertia", "torque_rise")}
        )
    )
    assert stronger.peak_torque == pytest.approx(blow.peak_torque * force, rel=1e-8)
    assert stronger.time_of_peak == pytest.approx(blow.time_of_peak, rel=1e-6)
    slower = peak(
        **(
            case
            | {name: case[name] * time**2 for name in ("driving_inertia", "driven_inertia")}
            | {"torque_rise": case["torque_rise"] / time}
        )
    )
    assert slower.peak_torque == pytest.approx(blow.peak_torque, rel=1e-8)
    assert slower.closing_time == pytest.approx(blow.closing_time * time, rel=1e-8, nan_ok=True)
    assert slower.natural_frequency == pytest.approx(blow.natural_frequency / time, rel=1e-12)


# --- arrays -------------------------------------------------------------------------------------------


def test_batch_equals_single_cases() -> None:
    cases = rows(600)
    batch = peak(**cases)
    for number in range(600):
        single = peak(**{name: float(column[number]) for name, column in cases.items()})
        for name in NUMBERS:
            # the two use different tangents and exponentials, which agree to the last bits only
            expected = getattr(single, name)
            assert getattr(batch, name)[number] == pytest.approx(
                expected, rel=1e-11, abs=1e-11, nan_ok=True
            ), name


def test_a_case_does_not_depend_on_its_neighbours() -> None:
    cases = rows(3000)
    whole = peak(**cases)
    order = np.random.default_rng(3).permutation(3000)[:500]
    part = peak(**{name: column[order] for name, column in cases.items()})
    for name in NUMBERS:
        assert np.array_equal(
            getattr(part, name), getattr(whole, name)[order], equal_nan=name != "settled"
        ), name


@pytest.mark.parametrize("chunk", [1, 7, 500, 100_000])
def test_chunks_do_not_matter(chunk: int, monkeypatch: pytest.MonkeyPatch) -> None:
    cases = rows(500) | {"stiffness": 12000.0}
    whole = peak(**cases)
    monkeypatch.setattr("torqcheck.shock.chunks.CHUNK", chunk)
    ours = peak(**cases)
    for name in NUMBERS:
        assert np.array_equal(getattr(ours, name), getattr(whole, name), equal_nan=name != "settled"), name


def test_chunks_keep_the_shape(monkeypatch: pytest.MonkeyPatch) -> None:
    lash, rise = np.linspace(0.0, 0.05, 5)[:, None], np.array([800.0, 4000.0, math.inf])
    whole = peak(**(TROLLEY | {"lash": lash, "torque_rise": rise}))
    monkeypatch.setattr("torqcheck.shock.chunks.CHUNK", 5)
    ours = peak(**(TROLLEY | {"lash": lash, "torque_rise": rise}))
    assert np.array_equal(ours.peak_torque, whole.peak_torque)


def test_a_handful_is_followed_one_by_one() -> None:
    cases = rows(FEW + 1)
    together = peak(**cases)
    handful = peak(**{name: column[:FEW] for name, column in cases.items()})
    for name in NUMBERS:
        alone = [
            getattr(peak(**{key: float(row[at]) for key, row in cases.items()}), name) for at in range(FEW)
        ]
        assert np.array_equal(getattr(handful, name), alone, equal_nan=name != "settled"), name
        assert getattr(handful, name).dtype == getattr(together, name).dtype, name
        assert getattr(handful, name) == pytest.approx(getattr(together, name)[:FEW], rel=1e-9, nan_ok=True)


def test_shapes_broadcast() -> None:
    lash = np.linspace(0.0, 0.05, 4)[:, None]
    rise = np.array([800.0, 4000.0, math.inf])
    blow = peak(**(TROLLEY | {"lash": lash, "torque_rise": rise}))
    assert {np.shape(getattr(blow, name)) for name in NUMBERS} == {(4, 3)}
    assert blow.dynamic_factor.shape == (4, 3)
    corner = peak(**(TROLLEY | {"lash": float(lash[2, 0]), "torque_rise": 4000.0}))
    assert blow.peak_torque[2, 1] == pytest.approx(corner.peak_torque, rel=1e-12)
    assert blow.contact_losses.dtype == np.int64
    assert blow.settled.dtype == np.bool_


@pytest.mark.parametrize("one", [240, 240.0, np.float64(240.0), np.array(240.0)])
def test_single_numbers_give_single_numbers(one: float) -> None:
    blow = peak(**(TROLLEY | {"peak_torque": one}))
    assert [type(getattr(blow, name)) for name in NUMBERS] == [float] * 6 + [int] + [float] * 3 + [
        bool,
        float,
        bool,
    ]


def test_empty_arrays_stay_empty() -> None:
    assert peak(**(TROLLEY | {"lash": np.array([])})).peak_torque.shape == (0,)


@pytest.mark.parametrize("name", [*TROLLEY, "start_torque"])
def test_nan_stays_in_its_place(name: str) -> None:
    case = TROLLEY | {"start_torque": -60.0}
    blow = peak(**(case | {name: np.array([case[name], math.nan, case[name]])}))
    for result in ("peak_torque", "closing_time", "time_of_peak", "least_torque", "first_blow_torque"):
        assert np.isnan(getattr(blow, result)).tolist() == [False, True, False], result
    assert blow.contact_losses[1] == 0
    assert not blow.settled[1]
    single = peak(**(case | {name: math.nan}))
    assert math.isnan(single.peak_torque)
    assert math.isnan(single.dynamic_factor)
    assert not single.settled


# --- what is refused ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "value", "message"),
    [
        ("torque_rise", 0.0, "torque_rise must be above 0"),
        ("torque_rise", -1.0, "torque_rise must be above 0"),
        ("peak_torque", 0.0, "peak_torque must be above 0"),
        ("peak_torque", math.inf, "peak_torque must be above 0 N m and finite"),
        ("start_torque", 240.0, "start_torque must be below peak_torque"),
        ("start_torque", -math.inf, "start_torque must be finite"),
        ("driving_inertia", 0.0, "driving_inertia must be above 0"),
        ("driving_inertia", math.inf, r"driving_inertia must be above 0 kg m\^2 and finite"),
        ("driven_inertia", -1.2, "driven_inertia must be above 0"),
        ("stiffness", 0.0, "stiffness must be above 0"),
        ("stiffness", math.inf, "stiffness must be above 0 N m/rad and finite"),
        ("damping_ratio", -0.01, "damping_ratio must be 0 or more"),
        ("damping_ratio", math.inf, "damping_ratio must be 0 or more and finite"),
        ("lash", -1e-9, "lash must be 0 rad or more"),
        ("lash", math.inf, "lash must be 0 rad or more and finite"),
    ],
)
def test_impossible_arguments_are_refused(name: str, value: float, message: str) -> None:
    with pytest.raises(DomainError, match=message):
        peak(**(TROLLEY | {name: value}))
    with pytest.raises(DomainError, match=message):
        peak(**(TROLLEY | {name: np.array([(TROLLEY | {"start_torque": 0.0})[name], value])}))


def test_shapes_that_do_not_fit_are_refused() -> None:
    with pytest.raises(DomainError, match="do not fit together"):
        peak(**(TROLLEY | {"lash": np.zeros(3), "stiffness": np.full(2, 1e4)}))


def test_endless_hammering_on_a_slow_ramp_is_reported() -> None:
    slow = TROLLEY | {"damping_ratio": 0.0, "torque_rise": 1e-3, "lash": 0.1}
    with pytest.raises(NoSolutionError, match="give a damping_ratio"):
        peak(**slow)


def test_lightly_damped_hammering_is_cut_but_its_peak_is_right() -> None:
    case = TROLLEY | {"torque_rise": math.inf, "lash": 0.05}
    light, none = peak(**(case | {"damping_ratio": 1e-7})), peak(**(case | {"damping_ratio": 0.0}))
    assert not light.settled
    assert light.contact_losses == 300
    assert light.peak_torque == pytest.approx(none.peak_torque, rel=1e-6)


@pytest.mark.parametrize("torque_rise", [240.0, 24.0])
def test_torque_that_creeps_up_without_overshoot_still_reaches_the_steady_torque(torque_rise: float) -> None:
    case = TROLLEY | {"damping_ratio": 1.5, "torque_rise": torque_rise, "lash": 1e-4}
    for blow in (peak(**case), peak(**(case | {"lash": np.array([1e-4])}))):
        assert blow.dynamic_factor == pytest.approx(1.0, abs=1e-3)
        assert blow.dynamic_factor >= 1.0 - 1e-15
        assert 0.0 < blow.first_blow_torque <= blow.peak_torque


def test_every_case_starts_where_it_is_said_to() -> None:
    case = cases_of(path_of(**(TROLLEY | {"start_torque": -60.0})))
    seen = []
    follow_one(case, lambda before, after: seen.append(before))
    assert seen[0].mode == -1.0
    assert seen[0].place == pytest.approx(0.25)
    assert seen[0].time == 0.0
