"""The grammar of quantities, and the factors against pint."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import QuantityError
from torqcheck.units import EXAMPLES, KINDS, factor_by_pint, in_unit, read, units_of


@pytest.mark.parametrize("kind", KINDS)
def test_every_factor_is_what_pint_has(kind: str) -> None:
    for spelling, unit in units_of(kind).items():
        assert unit.factor == pytest.approx(factor_by_pint(unit), rel=1e-14), spelling


def test_temperatures_against_fixed_points() -> None:
    # water freezes at 0 degC = 32 degF = 273.15 K, by definition of the scales
    for text in ("0 degC", "32 degF", "273.15 K"):
        assert read(text, "temperature")[0] == pytest.approx(273.15, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "value", "tolerance"),
    [
        ("22.35 +/- 0.02 mm", "length", 22.35e-3, 0.02e-3),
        ("22.35 ± 0.02 mm", "length", 22.35e-3, 0.02e-3),
        ("22.35±0.02mm", "length", 22.35e-3, 0.02e-3),
        ("1 1/4 in", "length", 1.25 * 0.0254, 0.0),
        ("1-1/4 in", "length", 1.25 * 0.0254, 0.0),
        ('7/8"', "length", 0.875 * 0.0254, 0.0),
        ("1 1/4 +/- 0.005 in", "length", 1.25 * 0.0254, 0.005 * 0.0254),
        ("5 thou", "length", 0.005 * 0.0254, 0.0),
        ("120 Nm", "torque", 120.0, 0.0),
        ("120 N m", "torque", 120.0, 0.0),
        ("120 N·m", "torque", 120.0, 0.0),
        ("88 ft-lb", "torque", 88 * 1.3558179483314004, 0.0),
        ("88 lb.ft", "torque", 88 * 1.3558179483314004, 0.0),
        ("0.08 deg", "angle", math.radians(0.08), 0.0),
        ("0.08°", "angle", math.radians(0.08), 0.0),
        ("600 rpm", "speed", 20 * math.pi, 0.0),
        ("0.038 kg m²", "inertia", 0.038, 0.0),
        ("-90 N*m", "torque", -90.0, 0.0),
        ("1e3 N*m/s", "torque rise", 1000.0, 0.0),
        ("4000 hour", "time", 4000 * 3600.0, 0.0),
    ],
)
def test_what_people_write_is_understood(text: str, kind, value: float, tolerance: float) -> None:  # type: ignore[no-untyped-def]
    assert read(text, kind) == pytest.approx((value, tolerance), rel=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "problem"),
    [
        ("1.25", "length", "has no unit"),
        ("", "length", "is empty"),
        ("1,25 mm", "length", "not a plain decimal number"),
        ("1/0 in", "length", "divides by zero"),
        ("nan mm", "length", "not a number with a unit"),
        ("inf mm", "length", "not a number with a unit"),
        ("1e400 mm", "length", "not a finite number"),
        ("9**9**9 mm", "length", "not known"),
        ("1 mm**9**9**9", "length", "not known"),
        ("(" * 50, "length", "not a number with a unit"),
        ("x" * 1_000_000, "length", "longer than 60 characters"),
        ("50 Hz", "speed", "not known for a speed"),
        ("12 J", "torque", "not known for a torque"),
        ("12 mm", "torque", "is a length, not a torque"),
        ("0.08", "angle", "has no unit"),
        ("1 MM", "length", "not known"),
        ("150 N*m +/- 10 %", "torque", "tolerance that cannot be read; write it between number and unit"),
        ("150 +/- 10 % N*m", "torque", "tolerance that cannot be read"),
        ("150 N*m ± 5 N*m", "torque", "tolerance that cannot be read"),
        ("150 +/- -5 N*m", "torque", "tolerance that cannot be read"),
        ("150 %", "torque", "not known for a torque"),
        ("__import__('os')", "length", "not a number with a unit"),
    ],
)
def test_what_is_no_quantity_is_refused(text: str, kind, problem: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(QuantityError, match=problem.replace("(", r"\(")):
        read(text, kind)


def test_every_example_can_be_read() -> None:
    for kind, examples in EXAMPLES.items():
        for example in examples.split(" or "):
            assert math.isfinite(read(example.strip('"'), kind)[0])  # type: ignore[arg-type]


@given(st.text(max_size=80))
def test_no_text_breaks_the_reader(text: str) -> None:
    try:
        value, tolerance = read(text, "length")
    except QuantityError:
        return
    assert math.isfinite(value)
    assert math.isfinite(tolerance)


@given(st.floats(1e-6, 1e6), st.sampled_from(KINDS), st.sampled_from(["si", "inch"]))
def test_shown_and_read_back(value: float, kind, system) -> None:  # type: ignore[no-untyped-def]
    number, label = in_unit(value, kind, system)
    assert read(f"{number!r} {label}", kind)[0] == pytest.approx(value, rel=1e-12, abs=1e-12)
