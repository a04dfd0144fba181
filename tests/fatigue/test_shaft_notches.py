"""What must hold for every notch of a shaft: sharper is worse, fatigue feels a part of it, load costs."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.fatigue import (
    combined_load,
    de_elliptic_factor,
    de_gerber_factor,
    de_goodman_factor,
    de_soderberg_factor,
    fatigue_notch_factor,
    first_cycle_yield_factor,
    keyseat_bending_concentration,
    keyseat_torsion_concentration,
    loaded_keyseat_torsion_concentration,
    notch_constant_in_bending,
    notch_constant_in_torsion,
    notch_sensitivity,
    shoulder_bending_by_polynomial,
    shoulder_bending_by_power,
    shoulder_bending_concentration,
    shoulder_torsion_by_polynomial,
    shoulder_torsion_by_power,
    shoulder_torsion_concentration,
)

STEPS = st.floats(1.005, 5.0)
STRENGTHS = st.floats(350e6, 1500e6)


def radii(low: float, high: float):  # type: ignore[no-untyped-def]
    return st.tuples(st.floats(low, high), st.floats(low, high)).map(sorted)


@pytest.mark.parametrize("concentration", [shoulder_bending_concentration, shoulder_torsion_concentration])
@given(step=STEPS, pair=radii(0.002, 0.9))
def test_a_rounder_fillet_never_raises_the_concentration(concentration, step, pair) -> None:  # type: ignore[no-untyped-def]
    sharp, blunt = (float(concentration(0.04 * step, 0.04, 0.04 * r)) for r in pair)
    assert sharp >= blunt * (1.0 - 1e-12)
    assert blunt >= 1.0


@pytest.mark.parametrize(
    "concentration",
    [
        keyseat_bending_concentration,
        keyseat_torsion_concentration,
        loaded_keyseat_torsion_concentration,
    ],
)
@given(pair=radii(0.005, 0.07))
def test_a_rounder_keyseat_never_raises_the_concentration(concentration, pair) -> None:  # type: ignore[no-untyped-def]
    sharp, blunt = (float(concentration(0.04 * r, 0.04)) for r in pair)
    assert sharp >= blunt > 1.0


@given(step=st.floats(1.1, 2.9), sharpness=st.floats(0.002, 0.3))
def test_a_shoulder_takes_the_larger_of_two_formulas(step: float, sharpness: float) -> None:
    place = (0.04 * step, 0.04, 0.04 * sharpness)
    for both, kernels in (
        (shoulder_bending_concentration, (shoulder_bending_by_polynomial, shoulder_bending_by_power)),
        (shoulder_torsion_concentration, (shoulder_torsion_by_polynomial, shoulder_torsion_by_power)),
    ):
        found = float(both(*place))
        for kernel in kernels:
            try:
                assert found >= float(kernel(*place)) * (1.0 - 1e-12)
            except DomainError:
                assert kernel in {shoulder_bending_by_polynomial, shoulder_torsion_by_polynomial}


@given(step=st.floats(1.005, 1.049), sharpness=st.floats(0.002, 0.3))
def test_a_small_step_goes_by_the_polynomial_and_is_no_better_than_it_may(
    step: float, sharpness: float
) -> None:
    height = 0.5 * (step - 1.0)
    for both, polynomial, (blunt, sharp), row in (
        (shoulder_bending_concentration, shoulder_bending_by_polynomial, (0.1, 20.0), (0.98137, -0.19653)),
        (shoulder_torsion_concentration, shoulder_torsion_by_polynomial, (0.25, 4.0), (0.90337, -0.12692)),
    ):
        found = float(both(0.04 * step, 0.04, 0.04 * sharpness))
        nearest = min(max(sharpness, height / sharp), height / blunt)
        assert found == pytest.approx(float(polynomial(0.04 * step, 0.04, 0.04 * nearest)), rel=1e-9)
        if sharpness < height / sharp:  # beyond the polynomial it is above the first row of the fits
            assert found > row[0] * sharpness ** row[1]


@given(strength=STRENGTHS, radius=st.floats(0.05e-3, 10e-3), elastic=st.floats(1.0, 6.0))
def test_fatigue_feels_part_of_the_notch(strength: float, radius: float, elastic: float) -> None:
    factors = [
        float(fatigue_notch_factor(elastic, notch_sensitivity(radius, constant(strength))))
        for constant in (notch_constant_in_bending, notch_constant_in_torsion)
    ]
    bending, torsion = factors
    assert 1.0 <= bending <= torsion <= elastic * (1.0 + 1e-12)


@pytest.mark.parametrize(
    ("factor", "strength"),
    [
        (de_goodman_factor, 700e6),
        (de_gerber_factor, 700e6),
        (de_soderberg_factor, 500e6),
        (de_elliptic_factor, 500e6),
    ],
)
@given(moments=radii(0.0, 500.0), torque=st.floats(1.0, 900.0))
def test_factor_falls_with_the_moment(factor, strength, moments, torque) -> None:  # type: ignore[no-untyped-def]
    mean = combined_load(0.0, torque, 1.8, 1.5)
    less, more = (
        float(factor(combined_load(moment, 0.2 * torque, 1.8, 1.5), mean, 0.03, 200e6, strength))
        for moment in moments
    )
    assert more <= less * (1.0 + 1e-12)
    little, much = (float(first_cycle_yield_factor(moment, torque, 0.03, 500e6)) for moment in moments)
    assert much <= little * (1.0 + 1e-12)


@given(amplitude=st.floats(1.0, 400.0), mean=st.floats(0.0, 900.0))
def test_gerber_and_ellipse_are_kinder_than_the_straight_lines(amplitude: float, mean: float) -> None:
    shared = (amplitude, mean, 0.03, 200e6)
    # both lie above a straight line to the strength that they end at, until the mean alone takes it
    assert de_elliptic_factor(*shared, 500e6) >= de_soderberg_factor(*shared, 500e6)
    if float(de_goodman_factor(*shared, 700e6)) >= 1.0:
        assert de_gerber_factor(*shared, 700e6) >= de_goodman_factor(*shared, 700e6) * (1.0 - 1e-12)


def test_without_load_there_is_no_end() -> None:
    assert de_goodman_factor(0.0, 0.0, 0.03, 200e6, 700e6) == float("inf")
    assert first_cycle_yield_factor(0.0, 0.0, 0.03, 500e6) == float("inf")
