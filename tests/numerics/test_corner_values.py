"""No kernel divides by zero, overflows or hands out what is no number, at the corners of its arguments."""

import math
import re
from collections.abc import Callable, Iterator
from itertools import combinations, product
from typing import Any

import numpy as np
import pytest
from capacity import test_every_bolt_kernel as bolts
from capacity import test_every_fit_kernel as fits
from capacity import test_every_kernel as capacity_kernels
from fatigue import test_every_kernel as fatigue_kernels
from wear import test_every_kernel as wear_kernels

from torqcheck.capacity import contact_half_width, crowned_flank_pressure
from torqcheck.errors import DomainError, NoSolutionError
from torqcheck.fatigue import equivalent_full_cycles, first_ringing_share
from torqcheck.shock import peak

TABLES: tuple[Any, ...] = (bolts, fits, capacity_kernels, fatigue_kernels, wear_kernels)
KERNELS = {function: sample for table in TABLES for function, sample in table.SAMPLES.items()}
NAMES = sorted(KERNELS, key=lambda function: (function.__module__, function.__name__))

# exponents: no finish and no weld class has one in the hundreds, and their power is beyond a float
EXPONENTS = {("surface_factor", "finish_exponent"), ("weld_range", "line_slope"), ("weld_life", "line_slope")}


def corners(sample: dict[str, float], name: str) -> Iterator[float]:
    """Nothing, next to nothing, far too much, one, and exactly what another argument is."""
    yield from (0.0, 1e-12, 1.0, 1e12, sample[name] * 1e-9, sample[name] * 1e9)
    yield from (value for other, value in sample.items() if other != name)


def numbers(result: Any) -> Iterator[np.ndarray]:
    """Every number of a result, whatever it comes in."""
    fields = getattr(result, "__dataclass_fields__", None)
    parts = [result] if fields is None else [getattr(result, field) for field in fields]
    for part in parts:
        yield np.asarray(part, dtype=float)


@pytest.mark.parametrize("function", NAMES, ids=lambda function: function.__name__)
def test_corners_give_numbers_or_are_refused(function: Callable[..., Any]) -> None:
    sample = {name: float(value) for name, value in KERNELS[function].items()}
    says_infinite = re.search(r"\binf(inite|inity)?\b", function.__doc__ or "") is not None
    for name in sample:
        if (function.__name__, name) in EXPONENTS:
            continue
        for value in corners(sample, name):
            for as_array in (False, True):
                arguments = sample | {name: value}
                given = {key: np.array([each]) for key, each in arguments.items()} if as_array else arguments
                try:
                    with np.errstate(all="raise", under="ignore"):
                        result = function(**given)
                except DomainError:
                    continue
                for found in numbers(result):
                    assert not np.any(np.isnan(found)), (name, value, "is not a number")
                    assert says_infinite or np.all(np.isfinite(found)), (name, value, "is infinite")


@pytest.mark.parametrize("function", [contact_half_width, crowned_flank_pressure])
@pytest.mark.parametrize("ratio", [-0.1, 0.51, 1.0, 1.8])
def test_no_solid_has_such_a_poisson_ratio(function: Callable[..., Any], ratio: float) -> None:
    sample = KERNELS[function] | {"poisson_ratio": ratio}
    with pytest.raises(DomainError, match=r"poisson_ratio must lie between 0 and 0\.5"):
        function(**sample)


def test_nothing_rings_from_critical_damping_on() -> None:
    ratios = np.array([1.0 - 1e-9, 1.0, 1.5, 2.0])
    assert equivalent_full_cycles(ratios, 5.4) == pytest.approx(1.0)
    assert first_ringing_share(ratios) == pytest.approx(0.0, abs=1e-12)
    assert math.isnan(float(first_ringing_share(math.nan)))


BLOW = {
    "torque_rise": 4000.0,
    "peak_torque": 240.0,
    "driving_inertia": 0.05,
    "driven_inertia": 1.2,
    "stiffness": 12000.0,
    "damping_ratio": 0.03,
    "lash": 0.005,
    "start_torque": 0.0,
}
BLOW_CORNERS = {
    "torque_rise": (1.0, 1e12, math.inf),
    "peak_torque": (1e-9, 1e9),
    "driving_inertia": (1e-9, 1.2, 1e9),
    "driven_inertia": (1e-9, 0.05, 1e9, math.inf),
    "stiffness": (1e-6, 1e15),
    "damping_ratio": (0.0, 1.0 - 1e-12, 1.0, 1.0 + 1e-12, 2.0),
    "lash": (0.0, 1e-300, 1e-15, 0.5),
    "start_torque": (-90.0, 1e-300, -1e-300, 90.0),
}
ALWAYS = ("peak_torque", "steady_torque", "natural_frequency", "time_of_peak", "least_torque")


@pytest.mark.parametrize("names", list(combinations(BLOW_CORNERS, 2)), ids="-".join)
def test_blows_at_the_corners_are_numbers(names: tuple[str, str]) -> None:
    for values in product(*(BLOW_CORNERS[name] for name in names)):
        case = BLOW | dict(zip(names, values, strict=True))
        try:
            with np.errstate(all="raise", under="ignore"):
                blow = peak(**case)
        except (DomainError, NoSolutionError):
            # start above the peak; or the rise is so slow against the swing that the hammering has no end
            continue
        for name in ALWAYS:
            assert np.isfinite(getattr(blow, name)), (values, name)
        assert blow.peak_torque >= blow.least_torque
        assert blow.peak_torque >= 0.999_999 * blow.steady_torque


@pytest.mark.parametrize("name", BLOW)
@pytest.mark.parametrize("value", [1e-300, 1e30, 1e300])
def test_what_no_arithmetic_holds_is_refused_and_the_rest_is_finite(name: str, value: float) -> None:
    for beside in ({}, {"lash": 0.0}):
        for as_array in (False, True):
            case = BLOW | beside | {name: value}
            given = {key: np.array([each]) for key, each in case.items()} if as_array else case
            try:
                with np.errstate(all="raise", under="ignore"):
                    blow = peak(**given)
            except (DomainError, NoSolutionError):
                continue
            assert all(np.all(np.isfinite(getattr(blow, each))) for each in ALWAYS), beside


@pytest.mark.parametrize("peak_torque", [1e300, 1e31, 1e-31])
def test_a_torque_beyond_floating_point_is_named(peak_torque: float) -> None:
    with pytest.raises(DomainError, match="between 1e-30 and 1e30"):
        peak(**BLOW | {"peak_torque": peak_torque, "torque_rise": 1e-6, "start_torque": -1.0})
