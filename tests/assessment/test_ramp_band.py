"""The draws: as wide as tolerances and bands say, evenly spread, the same for the same seed."""

import math

import numpy as np
import pytest
from builder import loaded

from torqcheck.assessment.prepared import prepared_of
from torqcheck.assessment.ramp.band import drawn
from torqcheck.assessment.ramp.cases import Sample

TWO_SIGMA = 0.9544997
"""Share of a normal distribution within two standard deviations."""


def sample_of(*changes: tuple[str, str], count: int = 4096) -> Sample:
    return drawn(prepared_of(loaded(*changes)), count)


def share_within(values: np.ndarray, low: float, high: float) -> float:
    return float(np.mean((values >= low) & (values <= high)))


def test_a_tolerance_is_two_standard_deviations() -> None:
    sample = sample_of(
        ('rotor_inertia = "0.05 kg*m^2"', 'rotor_inertia = "0.05 +/- 0.01 kg*m^2"'),
        ('inertia = "0.004 kg*m^2"\n', ""),
        ('inertia = "2.4 kg*m^2"', 'inertia = "2.4 +/- 0.6 kg*m^2"'),
        ('clearance = "0.05 mm"', 'clearance = "0.05 +/- 0.01 mm"'),
    )
    driving = 0.05 * 2.5**2
    assert share_within(sample.driving_inertia, driving / 1.2, driving * 1.2) == pytest.approx(
        TWO_SIGMA, abs=0.004
    )
    assert share_within(sample.driven_factor, 1.0 / 1.25, 1.25) == pytest.approx(TWO_SIGMA, abs=0.004)
    # 26 teeth of 20 to the inch: pitch radius 0.65 in
    radius = 0.65 * 0.0254
    low, high = 0.04e-3 / radius, 0.06e-3 / radius
    assert share_within(sample.lash, low, high) == pytest.approx(TWO_SIGMA, abs=0.004)
    assert np.median(sample.lash) == pytest.approx(0.05e-3 / radius, rel=0.002)


def test_an_assumed_value_is_drawn_over_its_band() -> None:
    sample = sample_of(('rotor_inertia = "0.05 kg*m^2"\n', ""), ("damping_ratio = 0.03\n", ""))
    assert share_within(sample.damping_ratio, 0.01, 0.08) == pytest.approx(TWO_SIGMA, abs=0.004)
    assert np.median(sample.damping_ratio) == pytest.approx(0.03, rel=0.005)
    # 2.2e-4 kg m^2 for each N m of peak torque, within a factor of 2; the stage of the base is behind it
    middle = 2.2e-4 * 240.0
    low, high = (part * middle * 2.5**2 + 0.004 for part in (0.5, 2.0))
    assert share_within(sample.driving_inertia, low, high) == pytest.approx(TWO_SIGMA, abs=0.004)


def test_a_stiffness_is_good_to_a_fifth_unless_its_tolerance_is_written() -> None:
    loose = sample_of()
    assert np.std(np.log(loose.stiffness_factor)) == pytest.approx(0.5 * math.log(1.2), rel=0.03)
    tight = sample_of(('"9000 N*m/rad"', '"9000 +/- 300 N*m/rad"'))
    assert np.std(np.log(tight.stiffness_factor)) < 0.25 * np.std(np.log(loose.stiffness_factor))


def test_new_lash_lies_anywhere_between_its_limits() -> None:
    prepared = prepared_of(loaded(('lash = { clearance = "0.05 mm" }', 'lash = "as new"')))
    low, high = prepared.ledger.band("joint[1].lash")
    lash = drawn(prepared, 4096).lash * 0.65 * 0.0254
    assert lash.min() == pytest.approx(low, abs=0.001e-3)
    assert lash.max() == pytest.approx(high, abs=0.001e-3)
    assert lash.mean() == pytest.approx(0.5 * (low + high), rel=0.01)


def test_lash_of_all_joints_adds_at_the_reference_joint() -> None:
    base = loaded()
    text = base.joint[0]
    twice = base.model_copy(
        update={"joint": (text, text.model_copy(update={"name": "second", "after": ((4.0, 0.95),)}))}
    )
    prepared = prepared_of(twice)
    assert prepared.path.lash == pytest.approx(5.0 * 0.05e-3 / (0.65 * 0.0254))
    sample = drawn(prepared, 4096)
    assert np.mean(sample.lash) == pytest.approx(prepared.path.lash, rel=0.01)
    # two standard deviations of a clearance without tolerance: 0.02 mm, four times that from behind
    sigma = 0.5 * 0.02e-3 / (0.65 * 0.0254) * math.hypot(1.0, 4.0)
    assert np.std(sample.lash) == pytest.approx(sigma, rel=0.05)


def test_the_same_seed_gives_the_same_draws_and_any_part_of_them_is_even() -> None:
    prepared = prepared_of(loaded())
    first, again, other = drawn(prepared, 512, 7), drawn(prepared, 512, 7), drawn(prepared, 512, 8)
    for one, two, three in zip(first.columns, again.columns, other.columns, strict=True):
        assert np.array_equal(one, two)
        assert not np.array_equal(one, three)
    assert np.mean(np.log(first.first(64).stiffness_factor)) == pytest.approx(0.0, abs=0.01)


def test_values_are_not_correlated() -> None:
    sample = sample_of()
    table = np.corrcoef([np.log(column) for column in sample.columns])
    assert np.max(np.abs(table - np.eye(len(table)))) < 0.03
