"""Hardness turned into other scales and into strength; readings as people write them."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError, QuantityError
from torqcheck.materials import (
    hb_from_hrc,
    hb_from_hv,
    hrc_from_hb,
    hrc_from_hv,
    hv_from_hb,
    hv_from_hrc,
    read_hardness,
    tabulated_strength_from_hb,
    ultimate_strength_from_hb,
    yield_strength_from_hb,
    yield_strength_of_unknown_state,
)

ROUND_TRIPS = [
    (hb_from_hrc, hrc_from_hb, 0.0, 58.0),
    (hv_from_hrc, hrc_from_hv, 0.0, 68.0),
    (hv_from_hb, hb_from_hv, 80.0, 615.0),
]
RISING = [
    *((there, low, high) for there, _, low, high in ROUND_TRIPS),
    (tabulated_strength_from_hb, 111.0, 615.0),
    (ultimate_strength_from_hb, 80.0, 615.0),
    (yield_strength_from_hb, 150.0, 514.0),
    (yield_strength_of_unknown_state, 80.0, 514.0),
]
Converter = Callable[[float], float]


def test_line_between_two_rows() -> None:
    """39 HRC lies half way between the printed rows of 38 and 40 HRC (list as in tests/published)."""
    assert hb_from_hrc(39.0) == pytest.approx((353 + 371) / 2)
    assert hv_from_hrc(39.0) == pytest.approx((372 + 392) / 2)
    assert tabulated_strength_from_hb(362.0) == pytest.approx(1216.9e6, abs=0.05e6)  # 176.5 ksi


def test_reading_by_rebound_less_its_spread() -> None:
    """38 HRC less 3: 35 HRC, 327.5 HB, 156.5 ksi, and nine tenths of it 971 MPa (derived)."""
    low = read_hardness("38 HRC +/- 3").lowest
    assert low.hb == pytest.approx(327.5)
    assert 0.9 * tabulated_strength_from_hb(327.5) == pytest.approx(971e6, abs=0.5e6)


def test_softer_than_20_rockwell_c() -> None:
    """The list after SAE J413 (published) has 226 HB at 20 HRC and 187 HB at 10 HRC."""
    assert hb_from_hrc(15.0) == pytest.approx((226 + 187) / 2)
    assert hb_from_hrc(20.0) == 226.0


def test_vickers_of_soft_steel_is_five_percent_above_brinell() -> None:
    """Fact of the trade, from memory: HB = 0.95 HV for soft steel."""
    for hardness in (100.0, 150.0, 200.0):
        assert hardness / hv_from_hb(hardness) == pytest.approx(0.95, abs=0.001)


@pytest.mark.parametrize(("there", "back", "low", "high"), ROUND_TRIPS)
@given(share=st.floats(0.0, 1.0))
def test_there_and_back(there: Converter, back: Converter, low: float, high: float, share: float) -> None:
    value = low + share * (high - low)
    assert back(there(value)) == pytest.approx(value, abs=1e-9)


@pytest.mark.parametrize(("function", "low", "high"), RISING)
@given(shares=st.tuples(st.floats(0.0, 1.0), st.floats(0.0, 1.0)))
def test_harder_is_never_less(
    function: Converter, low: float, high: float, shares: tuple[float, float]
) -> None:
    softer, harder = (low + share * (high - low) for share in sorted(shares))
    assert function(softer) <= function(harder)


@pytest.mark.parametrize(("function", "low", "high"), RISING)
def test_outside_is_refused_and_nan_passes(function: Converter, low: float, high: float) -> None:
    assert function(low) < function(high)
    for value in (low - 0.1, high + 0.1, math.inf, -1.0):
        with pytest.raises(DomainError, match="must lie between"):
            function(value)
    assert math.isnan(function(math.nan))


@given(st.floats(150.0, 514.0))
def test_unknown_state_never_beats_quenched_and_tempered(hardness: float) -> None:
    assert yield_strength_of_unknown_state(hardness) <= yield_strength_from_hb(hardness)
    assert ultimate_strength_from_hb(hardness) <= tabulated_strength_from_hb(hardness)


# readings


@pytest.mark.parametrize(
    ("text", "scale", "value", "tolerance", "hb"),
    [
        ("32 HRC", "HRC", 32.0, 0.0, 301.0),
        ("300 HB", "HB", 300.0, 0.0, 300.0),
        ("300 HBW", "HB", 300.0, 0.0, 300.0),
        ("300 hbw 10/3000", "HB", 300.0, 0.0, 300.0),
        ("302 HV", "HV", 302.0, 0.0, 286.0),
        ("302 HV10", "HV", 302.0, 0.0, 286.0),
        ("97.8 HRB", "HRB", 97.8, 0.0, 226.0),
        (" 32HRC ", "HRC", 32.0, 0.0, 301.0),
        ("32 +/- 2 HRC", "HRC", 32.0, 2.0, 301.0),
        ("32 HRC +/- 2", "HRC", 32.0, 2.0, 301.0),
        ("32 HRC ± 2", "HRC", 32.0, 2.0, 301.0),
        ("32 HRC+/-2", "HRC", 32.0, 2.0, 301.0),
    ],
)
def test_reading(text: str, scale: str, value: float, tolerance: float, hb: float) -> None:
    ours = read_hardness(text)
    assert (ours.scale, ours.value, ours.tolerance) == (scale, value, tolerance)
    assert ours.hb == pytest.approx(hb)
    assert ours.text == text.strip()


def test_tolerance_is_carried_over_to_brinell() -> None:
    ours = read_hardness("32 HRC +/- 2")
    assert ours.hb_tolerance == pytest.approx(301 - 286)
    assert ours.lowest.hb == pytest.approx(286)
    assert ours.lowest.tolerance == 0.0
    assert read_hardness("32 HRC").lowest == read_hardness("32 HRC")


def test_case_beyond_brinell_keeps_rockwell_and_vickers() -> None:
    ours = read_hardness("60 HRC +/- 3")
    assert (ours.hb, ours.hb_tolerance, ours.hrc, ours.hv) == (None, None, 60.0, 697.0)
    assert ours.lowest.hb == pytest.approx(595.0)


def test_soft_steel_has_no_rockwell_c() -> None:
    ours = read_hardness("120 HB")
    assert (ours.hb, ours.hrc) == (120.0, None)
    assert ours.hv == pytest.approx(126.4, abs=0.05)


@pytest.mark.parametrize(
    ("text", "problem", "mend"),
    [
        ("", "is empty", '"32 HRC"'),
        ("32", "has no scale", '"32 HRC"'),
        ("32,5 HRC", "has a comma", 'write "32.5 HRC"'),
        ("28-32 HRC", "is a band", 'write "30 HRC +/- 2"'),
        ("271 to 315 HB", "is a band", 'write "293 HB +/- 22"'),
        ("32 HRA", "is no hardness reading", '"32 HRC"'),
        ("-5 HRC", "is no hardness reading", '"32 HRC"'),
        ("nan HRC", "is no hardness reading", '"32 HRC"'),
        ("1e2 HB", "is no hardness reading", '"32 HRC"'),
        ("hard", "is no hardness reading", '"32 HRC"'),
        ("70 HRC", "is outside 0 to 68 HRC", "check the reading"),
        ("700 HB", "is outside 80 to 615 HB", "HRC or HV"),
        ("20 HB", "is outside 80 to 615 HB", "HRC or HV"),
        ("110 HRB", "is outside 65.7 to 99 HRB", "give it in HB"),
        ("9" * 50 + " HB", "is outside 80 to 615 HB", "HRC or HV"),
        ("2 HRC +/- 3", "has a tolerance that reaches below 0 HRC", "smaller tolerance"),
        ("32 +/- 2 HRC +/- 2", "has two tolerances", "keep one"),
        ("3" * 100_000, "is longer than 60 characters", '"32 HRC"'),
    ],
)
def test_what_is_no_reading(text: str, problem: str, mend: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read_hardness(text)
    assert caught.value.problem == problem
    assert mend in caught.value.mend


@given(st.text(max_size=70))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        ours = read_hardness(text)
    except QuantityError:
        return
    assert math.isfinite(ours.value)
