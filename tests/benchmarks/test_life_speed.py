"""Time of a life with feedback, error of its tables, and how fast its percentiles settle."""

import sys
import time
from collections.abc import Callable

import numpy as np
import pytest
from builder import loaded
from scipy.stats import qmc

from torqcheck.assessment.lifetime.growth import JointGrowth, growth_of
from torqcheck.assessment.lifetime.strength_course import NODES, strength_course
from torqcheck.assessment.prepared import prepared_of
from torqcheck.draws import evenly_spread, normal_deviates
from torqcheck.wear import LEAST_DRAWS

MOST_SECONDS = 3.0
GREASED = (
    ('lubrication = "oil flooded"', 'lubrication = "sealed grease"\ngrease_renewal = "400 hour"'),
    ("0.08 deg", "0.3 deg"),
)


def fastest(work: Callable[[], object], times: int = 5) -> float:
    found = []
    for _ in range(times):
        begin = time.perf_counter()
        work()
        found.append(time.perf_counter() - begin)
    return min(found)


def test_twenty_thousand_lives_with_feedback(capsys: pytest.CaptureFixture[str]) -> None:
    prepared = prepared_of(loaded(*GREASED))
    seconds = fastest(lambda: growth_of(prepared))
    with capsys.disabled():
        sys.stdout.write(
            f"\n{LEAST_DRAWS} lives, 60 steps of wear, {NODES} blows and checks: {seconds:.3f} s" + "\n"
        )
    assert seconds < MOST_SECONDS


def test_error_of_the_table_of_blows(capsys: pytest.CaptureFixture[str]) -> None:
    prepared = prepared_of(loaded(*GREASED))
    growth = growth_of(prepared)[0]
    assert isinstance(growth, JointGrowth)
    fine = strength_course(prepared, 0, growth.model.course, nodes=16 * (NODES - 1) + 1)
    for name in ("blow", "factor"):
        ours = np.interp(fine.depth, growth.strength.depth, getattr(growth.strength, name))
        error = float(np.max(np.abs(ours / getattr(fine, name) - 1.0)))
        with capsys.disabled():
            sys.stdout.write(
                f"\n{name} between the {NODES} states that are computed: largest error {100 * error:.2f} %"
                + "\n"
            )
        assert error < 0.01


def test_evenly_spread_draws_settle_sooner(capsys: pytest.CaptureFixture[str]) -> None:
    # tenth percentile of a life with two normal causes and grease that ends, against 4 million draws
    def tenth(z: np.ndarray) -> float:  # type: ignore[type-arg]
        exposure = 3000.0 * np.exp(-1.9 * z[0] + 0.2 * z[2])
        working = 500.0 * np.exp(z[1])
        hours = np.minimum(exposure, working) + np.maximum(exposure - working, 0.0) / 40.0
        return float(np.log(np.quantile(hours, 0.1)))

    exact = tenth(np.random.default_rng(0).standard_normal((3, 4_000_000)))
    errors = {"random": [], "shifted Halton": [], "scrambled Sobol": []}  # type: ignore[var-annotated]
    for seed in range(24):
        random = np.random.default_rng(seed).standard_normal((3, LEAST_DRAWS))
        errors["random"].append(tenth(random) - exact)
        errors["shifted Halton"].append(tenth(normal_deviates(evenly_spread(LEAST_DRAWS, 3, seed))) - exact)
        sobol = qmc.Sobol(3, rng=seed).random_base2(14)[:LEAST_DRAWS]
        errors["scrambled Sobol"].append(tenth(normal_deviates(sobol.T)) - exact)
    scatter = {name: float(np.std(found)) for name, found in errors.items()}
    with capsys.disabled():
        sys.stdout.write("\n")
        for name, value in scatter.items():
            sys.stdout.write(f"scatter of ln p10 over 24 seeds, {name}: {100 * value:.2f} %" + "\n")
    assert scatter["shifted Halton"] < 0.5 * scatter["random"]
