"""Sharing of the load between teeth whose clearances differ.

None of these numbers could be read in a publication: the mechanism was (opening part of K. W.
Chase, C. D. Sorensen and B. DeCaires, Gear Technology, June 2010), its worked numbers were not.
They were derived from the mechanism by a separate program, the scattered ones by 200,000 draws.
Order statistics of the normal distribution: H. L. Harter's table, re-computed.
"""

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from published._case import Case

from torqcheck._types import FloatArray
from torqcheck.capacity import (
    TOOTH_STIFFNESS,
    drawn_clearances,
    effective_teeth,
    engaged_pairs,
    engaging_forces,
    expected_maximum,
    first_tooth_share,
    full_engagement_share,
    load_parameter,
    pair_clearance_sigma,
)
from torqcheck.geometry.standards.iso_4156_tolerances import index_variation

MECHANISM = "Derived from the mechanism of Chase, Sorensen and DeCaires, 2010"
HARTER = "Harter, order statistics of the normal distribution, 1961, re-computed"
THEIRS = 200_000  # draws behind the printed numbers
OURS = 40_000
SURE = 4.0  # standard errors; some 300 numbers are held against theirs

E_N = (
    (4, "1.02938"),
    (6, "1.26721"),
    (8, "1.42360"),
    (10, "1.53875"),
    (12, "1.62923"),
    (14, "1.70338"),
    (16, "1.76599"),
    (18, "1.82003"),
    (20, "1.86748"),
    (24, "1.94767"),
    (30, "2.04276"),
    (36, "2.11812"),
    (40, "2.16078"),
)
ORDER_OF_TEN = ("1.53875", "1.00136", "0.65606", "0.37576", "0.12267")
THRESHOLDS_OF_TEN = (
    "0.5374",
    "1.2280",
    "2.0689",
    "3.0813",
    "4.3079",
    "5.8265",
    "7.7886",
    "10.551",
    "15.388",
)

# load parameter, then for each number of teeth: mean engaged, mean share, 95th percentile, Neff/N
TEETH = (6, 10, 16, 20, 30, 40)
TABLE = {
    0.10: "1.74 .831 1.00 .200|2.46 .705 1.00 .142|3.55 .566 .910 .110|4.28 .499 .792 .100|"
    "6.12 .387 .601 .086|7.95 .319 .485 .078",
    0.25: "2.69 .655 1.00 .254|4.15 .492 .758 .203|6.34 .361 .542 .173|7.79 .308 .456 .162|"
    "11.44 .228 .328 .146|15.09 .183 .257 .137",
    0.50: "3.83 .497 .742 .335|6.12 .350 .507 .286|9.57 .246 .347 .254|11.87 .207 .287 .242|"
    "17.62 .149 .202 .223|23.35 .118 .157 .212",
    1.0: "5.12 .364 .506 .458|8.37 .245 .331 .408|13.28 .167 .221 .374|16.54 .139 .181 .360|"
    "24.70 .098 .126 .340|32.86 .077 .097 .326",
    2.0: "5.92 .272 .347 .613|9.82 .177 .222 .566|15.68 .118 .145 .532|19.59 .0965 .118 .518|"
    "29.36 .0672 .0812 .496|39.13 .0519 .0621 .482",
    5.0: "6.00 .209 .239 .798|10.0 .131 .149 .765|16.0 .0846 .0956 .739|20.0 .0687 .0773 .728|"
    "30.0 .0470 .0525 .710|40.0 .0358 .0399 .698",
}
CELLS = [
    (load, teeth, cell.split())
    for load, row in TABLE.items()
    for teeth, cell in zip(TEETH, row.split("|"), strict=True)
]


@cache
def standard_clearances(teeth: int) -> FloatArray:
    """Clearances with a standard deviation of 1, one row for each draw."""
    return drawn_clearances(teeth, 1.0, 0.0, draws=OURS, seed=7)


def check_mean(case: Case, sample: FloatArray) -> None:
    """Hold a mean against one from other draws; the scatter of both sets the slack."""
    slack = SURE * float(np.std(sample)) * math.sqrt(1.0 / sample.size + 1.0 / THEIRS)
    because = "both numbers are means of random draws" if slack else ""
    replace(case, slack=slack / case.unit, because=because).check(float(np.mean(sample)))


def check_quantile(case: Case, sample: FloatArray, share: float) -> None:
    """Hold a percentile against one from other draws: it must lie between our neighbouring ones."""
    doubt = SURE * math.sqrt(share * (1.0 - share) * (1.0 / sample.size + 1.0 / THEIRS))
    low, high = np.quantile(sample, (share - doubt, min(share + doubt, 1.0)))
    printed = float(case.printed) * case.unit
    assert low - case.tolerance <= printed <= high + case.tolerance, (
        f"{case} prints {case.printed}, we get {np.quantile(sample, share):.4g} (mark: {case.mark})"
    )


@pytest.mark.parametrize(("teeth", "printed"), E_N)
def test_expected_maximum_of_normal_values(teeth: int, printed: str) -> None:
    Case(HARTER, f"N = {teeth}", "derived", {"teeth": teeth}, printed).check(float(expected_maximum(teeth)))


def test_order_statistics_of_ten_clearances() -> None:
    ordered = np.sort(standard_clearances(10), axis=-1)
    for rank, printed in enumerate(ORDER_OF_TEN):
        case = Case(HARTER, f"N = 10, rank {rank + 1}", "derived", {}, printed)
        check_mean(case, ordered[:, 9 - rank])
        check_mean(case, -ordered[:, rank])


def test_thresholds_of_ten_teeth_at_their_expected_clearances() -> None:
    upper = np.array([float(printed) for printed in ORDER_OF_TEN])
    forces = engaging_forces(np.concatenate((-upper, upper)), 1.0)
    assert forces[0] == 0.0
    for rank, printed in enumerate(THRESHOLDS_OF_TEN, start=1):
        Case(MECHANISM, f"tooth {rank + 1} of 10 touches", "derived", {}, printed).check(float(forces[rank]))


@pytest.mark.parametrize(
    ("load", "teeth", "cell"), CELLS, ids=[f"Lambda {load:g}, {teeth} teeth" for load, teeth, _ in CELLS]
)
def test_sharing_of_random_clearances(load: float, teeth: int, cell: list[str]) -> None:
    engaged, mean, high, effective = (
        Case(MECHANISM, f"Lambda {load:g}, N {teeth}", "derived", {"load": load, "teeth": teeth}, printed)
        for printed in cell
    )
    clearances, force = standard_clearances(teeth), load * teeth  # K = 1 and sigma = 1
    share = np.asarray(first_tooth_share(force, clearances, 1.0))
    check_mean(engaged, np.asarray(engaged_pairs(force, clearances, 1.0), dtype=np.float64))
    check_mean(mean, share)
    check_quantile(high, share, 0.95)
    # Neff/N = 1/(N mean): the scatter of the mean, carried on
    factor = 1.0 / (teeth * float(np.mean(share)))
    check_mean(effective, factor * (2.0 - share / float(np.mean(share))))


SPLINE = {"teeth": 18, "force": 33_333.0, "length": 0.030, "clearance_sigma": 10e-6}
STIFFNESS = TOOTH_STIFFNESS * SPLINE["length"]


def spline_case(where: str, printed: str, unit: float = 1.0) -> Case:
    return Case(MECHANISM, f"spline of 18 teeth, {where}", "derived", SPLINE, printed, unit=unit)


def spline_shares() -> tuple[FloatArray, FloatArray]:
    clearances = drawn_clearances(18, SPLINE["clearance_sigma"], 0.0, draws=OURS, seed=11)
    shares = first_tooth_share(SPLINE["force"], clearances, STIFFNESS)
    return clearances, np.asarray(shares)


def test_a_spline_of_18_teeth_its_load_parameter() -> None:
    spline_case("K", "450", unit=1e6).check(STIFFNESS)
    load = load_parameter(SPLINE["force"], 18, STIFFNESS, SPLINE["clearance_sigma"])
    spline_case("Lambda", ".41152").check(float(load))
    lower = 1.0 / (18.0 * full_engagement_share(18, load))
    spline_case("lower value of Neff/N", ".1844").check(float(lower))


def test_a_spline_of_18_teeth_its_engaged_teeth() -> None:
    clearances, _ = spline_shares()
    engaged = np.asarray(engaged_pairs(SPLINE["force"], clearances, STIFFNESS), dtype=np.float64)
    check_mean(spline_case("mean engaged", "9.593"), engaged)
    assert float(np.std(engaged)) == pytest.approx(1.63, rel=0.02)


def test_a_spline_of_18_teeth_its_first_tooth() -> None:
    _, shares = spline_shares()
    check_mean(spline_case("mean share", ".2510"), shares)
    check_mean(spline_case("mean F_1", "8367"), SPLINE["force"] * shares)
    for share, printed in ((0.05, ".172"), (0.50, ".243"), (0.95, ".357"), (0.99, ".418")):
        check_quantile(spline_case(f"{share:g} percentile", printed), shares, share)
    mean = float(np.mean(shares))
    check_mean(spline_case("Neff", "3.984"), (2.0 - shares / mean) / mean)
    check_mean(spline_case("Neff/N", ".2213"), (2.0 - shares / mean) / mean / 18.0)


def test_no_scatter_lets_all_teeth_share_evenly() -> None:
    # the limit sigma -> 0 (derived)
    assert float(effective_teeth(1.0, np.zeros(18), 450e6)) == pytest.approx(18.0, rel=1e-12)


@pytest.mark.parametrize(
    ("fit_class", "variation", "sigma"),
    [(4, "28.5", "6.7"), (5, "40.5", "9.5"), (6, "56.8", "13.4"), (7, "80.9", "19.1")],
)
def test_scatter_of_the_clearance_by_tolerance_class(fit_class: int, variation: str, sigma: str) -> None:
    inputs = {"teeth": 20, "module": 2.5e-3}
    total = index_variation(20, 2.5e-3, fit_class)
    where = f"total index variation, class {fit_class}"
    Case("ISO 4156-1:2005", where, "from memory", inputs, variation, unit=1e-6).check(total)
    Case("Both members alike, Fp as six sigma", where, "assumed", inputs, sigma, unit=1e-6).check(
        float(pair_clearance_sigma(total))
    )


@pytest.mark.parametrize(("load", "teeth", "share"), [(1.5, 10, "0.5"), (2.0, 20, "0.5"), (2.0, 30, "0.5")])
def test_half_the_teeth_of_the_guide(load: float, teeth: int, share: str) -> None:
    # the guide's "half the teeth" is a load parameter of about 1.5 (10 teeth) to 2 (20 to 30 teeth)
    shares = np.asarray(first_tooth_share(load * teeth, standard_clearances(teeth), 1.0))
    case = Case(MECHANISM, "half the teeth", "derived", {"load": load, "teeth": teeth}, share)
    case.check(1.0 / (teeth * float(np.mean(shares))))
