"""Reference results for the blow in a path with lash, and published parameter sets.

The numbered cases, factor tables and closed forms were worked out from the two-inertia torsional
model and checked by independent integration of its equations of motion (two degrees of freedom,
DOP853, relative tolerance 1e-11); they agree to the digits printed here. The ramp factor is the curve
of Jacobsen and Ayre's chart, reprinted in Harris' Shock and Vibration Handbook, ch. 8; only the
wording of that chapter was at hand, not the chart, so its values are derived as well. The parameter
sets C1 and C2 were read in public code; the results for them were computed.
"""

import math

import pytest
from published._case import Case

from torqcheck.provenance import Mark
from torqcheck.shock import (
    Blow,
    closing_speed,
    closing_time,
    closing_torque_from_blow,
    first_blow_on_ramp,
    natural_frequency,
    peak,
    ramp_factor,
    step_factor,
    step_peak_with_lash,
    torque_share,
    trace,
)

MODEL = "Two-inertia torsional model, closed form and independent integration"
CHART = "Jacobsen and Ayre, ramp-step maximum, in Harris' Shock and Vibration Handbook ch. 8 (formula)"
BENCHMARK = "Powertrain-with-backlash benchmark of hybrid-systems verification, parameter set"
TRUCK = "Heavy-truck driveline, university control exercise, parameter set"
DERIVED: Mark = "derived"
PUBLISHED: Mark = "published"
HELD = STEP = math.inf
MS = 1e-3

COMMON = {
    "torque_rise": 4000.0,
    "peak_torque": 240.0,
    "driving_inertia": 0.05,
    "driven_inertia": 1.2,
    "stiffness": 12000.0,
    "damping_ratio": 0.0,
    "lash": 0.02,
    "start_torque": 0.0,
}


def given(
    J2: float = 1.2, zeta: float = 0.0, b: float = 0.02, S: float = 4000.0, **other: float
) -> dict[str, float]:
    """Arguments of a numbered case: J1 0.05, Tm 240, k 12000 unless said."""
    return COMMON | {"driven_inertia": J2, "damping_ratio": zeta, "lash": b, "torque_rise": S} | other


SMALL = given(J2=0.01, zeta=0.05, b=0.05, S=8000.0, stiffness=9000.0)
EARLY = given(b=0.06, S=20000.0, peak_torque=100.0)

# id, arguments, {field: printed}; times in ms, the rest in SI
TABLE: list[tuple[str, dict[str, float], dict[str, str]]] = [
    ("B1", given(HELD, 0, 0, STEP), {"peak_torque": "480.00000", "time_of_peak": "6.4127"}),
    ("B2", given(1.2, 0, 0, STEP), {"peak_torque": "460.80000", "time_of_peak": "6.2832"}),
    ("B3", given(1.2, 0, 0, 4000), {"peak_torque": "240.38842"}),
    ("B4", given(1.2, 0.03, 0, 4000), {"peak_torque": "238.00822", "time_of_peak": "62.276"}),
    (
        "B5",
        given(1.2, 0, 0.02, STEP),
        {
            "closing_time": "2.886751",
            "closing_speed": "13.856406",
            "blow_energy": "4.608000",
            "peak_torque": "634.96910",
            "time_of_peak": "7.2401",
        },
    ),
    (
        "B6",
        given(HELD, 0, 0.02, STEP),
        {
            "closing_time": "2.886751",
            "closing_speed": "13.856406",
            "blow_energy": "4.800000",
            "peak_torque": "655.69219",
        },
    ),
    (
        "B7",
        given(1.2, 0.03, 0.02, STEP),
        {
            "closing_time": "2.886751",
            "closing_speed": "13.856406",
            "blow_energy": "4.608000",
            "peak_torque": "604.92543",
            "time_of_peak": "7.0813",
        },
    ),
    (
        "B8",
        given(1.2, 0, 0.02, 4000),
        {
            "closing_time": "11.447142",
            "closing_speed": "5.241483",
            "blow_energy": "0.659355",
            "first_blow_torque": "185.02079",
            "peak_torque": "359.97828",
        },
    ),
    (
        "B9",
        given(1.2, 0.03, 0.02, 4000),
        {
            "closing_time": "11.447142",
            "closing_speed": "5.241483",
            "blow_energy": "0.659355",
            "peak_torque": "289.32978",
            "time_of_peak": "65.7515",
        },
    ),
    (
        "B10",
        given(HELD, 0.03, 0.02, 4000),
        {
            "closing_time": "11.447142",
            "closing_speed": "5.241483",
            "blow_energy": "0.686829",
            "peak_torque": "296.60663",
            "time_of_peak": "66.774",
        },
    ),
    (
        "B11",
        given(1.2, 0.03, 0.02, 800),
        {
            "closing_time": "19.574338",
            "closing_speed": "3.065238",
            "blow_energy": "0.225496",
            "peak_torque": "232.05128",
            "time_of_peak": "304.934",
        },
    ),
    (
        "B12",
        given(1.2, 0.03, 0.02, 20000),
        {
            "closing_time": "6.694330",
            "closing_speed": "8.962809",
            "blow_energy": "1.927967",
            "peak_torque": "414.24496",
            "time_of_peak": "11.305",
        },
    ),
    (
        "B13",
        given(1.2, 0, 0.02, 20000),
        {
            "closing_time": "6.694330",
            "closing_speed": "8.962809",
            "blow_energy": "1.927967",
            "first_blow_torque": "434.88881",
            "peak_torque": "435.02882",
            "time_of_peak": "23.999",
        },
    ),
    (
        "B14",
        given(1.2, 0, 0.005, 4000),
        {
            "closing_time": "7.211248",
            "closing_speed": "2.080084",
            "blow_energy": "0.103842",
            "first_blow_torque": "95.30560",
            "peak_torque": "287.08120",
        },
    ),
    (
        "B15",
        given(1.2, 0.03, 0.005, 4000),
        {
            "closing_time": "7.211248",
            "closing_speed": "2.080084",
            "blow_energy": "0.103842",
            "peak_torque": "258.20517",
            "time_of_peak": "61.985",
        },
    ),
    (
        "B16",
        given(1.2, 0, 0.001, 4000),
        {
            "closing_time": "4.217163",
            "closing_speed": "0.711379",
            "blow_energy": "0.012145",
            "peak_torque": "249.59795",
        },
    ),
    (
        "B17",
        given(1.2, 0.03, 0.05, 4000),
        {
            "closing_time": "15.536163",
            "closing_speed": "9.654894",
            "blow_energy": "2.237207",
            "peak_torque": "369.62981",
            "time_of_peak": "59.960",
        },
    ),
    (
        "B18",
        SMALL,
        {
            "natural_frequency": "165.39867",
            "closing_time": "12.331060",
            "closing_speed": "12.164404",
            "blow_energy": "0.616553",
            "peak_torque": "119.60832",
            "time_of_peak": "24.108",
        },
    ),
    (
        "B19",
        given(1.2, 0.10, 0.02, 4000),
        {
            "closing_time": "11.447142",
            "closing_speed": "5.241483",
            "blow_energy": "0.659355",
            "peak_torque": "242.98726",
            "time_of_peak": "64.305",
        },
    ),
    (
        "B20",
        given(1.2, 0.10, 0.05, 4000),
        {
            "closing_time": "15.536163",
            "closing_speed": "9.654894",
            "blow_energy": "2.237207",
            "first_blow_torque": "265.20932",
            "peak_torque": "265.20932",
            "time_of_peak": "18.690",
        },
    ),
    (
        "B21",
        EARLY,
        {"closing_time": "10.1103000", "closing_speed": "15.2206001", "first_blow_torque": "473.69829"},
    ),
    ("B23", given(start_torque=-60.0), {"closing_time": "25.80824", "closing_speed": "5.029514"}),
    (
        "B24",
        given(start_torque=-60.0, S=20000.0),
        {"closing_time": "8.57257", "closing_speed": "8.366178", "peak_torque": "392.45244"},
    ),
    (
        "B25",
        given(start_torque=-60.0, zeta=0.03),
        {
            "closing_time": "25.86306",
            "closing_speed": "5.038926",
            "peak_torque": "288.89846",
            "time_of_peak": "80.128",
        },
    ),
    (
        "B26",
        given(start_torque=-60.0, zeta=0.03, S=20000.0),
        {
            "closing_time": "8.63922",
            "closing_speed": "8.413740",
            "peak_torque": "372.33196",
            "time_of_peak": "13.201",
        },
    ),
    (
        "B27",
        given(start_torque=-60.0, zeta=0.03, S=1000.0),
        {
            "closing_time": "77.69699",
            "closing_speed": "3.214802",
            "peak_torque": "234.66384",
            "time_of_peak": "301.245",
        },
    ),
    (
        "B28",
        given(start_torque=-60.0, S=STEP),
        {"closing_speed": "15.615377", "peak_torque": "670.32727"},
    ),
]
# The list prints 61.985 ms; integration with events and a matrix exponential both give 61.98446.
LAST_DIGIT = {("B15", "time_of_peak"): (1e-4, "last digit not confirmed: two other methods give 61.98446")}
NUMBERS = [
    (
        Case(
            MODEL,
            f"case {name}",
            DERIVED,
            inputs,
            printed,
            MS if "time" in field else 1.0,
            *LAST_DIGIT.get((name, field), ()),
        ),
        field,
    )
    for name, inputs, fields in TABLE
    for field, printed in fields.items()
]


@pytest.mark.parametrize(("case", "field"), NUMBERS, ids=[f"{case.where} {field}" for case, field in NUMBERS])
def test_numbered_case(case: Case, field: str) -> None:
    case.check(getattr(peak(**case.inputs), field))


LOSSES = {
    "B1": 0, "B2": 0, "B3": 0, "B4": 0, "B7": 3, "B8": 1, "B9": 1, "B10": 1, "B11": 3, "B12": 0,
    "B13": 0, "B14": 0, "B15": 0, "B16": 0, "B17": 2, "B18": 4, "B19": 0, "B20": 1,
}  # fmt: skip


@pytest.mark.parametrize("name", LOSSES)
def test_contact_losses(name: str) -> None:
    # same source and mark as the numbered cases; whole numbers, so no tolerance
    inputs = next(inputs for number, inputs, _ in TABLE if number == name)
    blow = peak(**inputs)
    assert blow.contact_losses == LOSSES[name]
    assert blow.settled


@pytest.mark.parametrize("name", ["B5", "B6", "B28"])
def test_undamped_hammering_under_constant_torque_has_no_end(name: str) -> None:
    inputs = next(inputs for number, inputs, _ in TABLE if number == name)
    assert not peak(**inputs).settled


def _blows(inputs: dict[str, float]) -> tuple[list[float], list[float]]:
    """Closing times, and the highest torque of each contact, read from the trace."""
    result = trace(**inputs)
    closings, heights = [], []
    for before, mode, time, torque in zip(
        [0, *result.mode[:-1]], result.mode, result.times, result.torque, strict=True
    ):
        if mode == 1 and before != 1:
            closings.append(float(time))
            heights.append(0.0)
        if mode == 1:
            heights[-1] = max(heights[-1], float(torque))
    return closings, heights


def test_case_b7_blow_by_blow() -> None:
    closings, heights = _blows(given(zeta=0.03, S=STEP))
    assert len(closings) == len(heights) == 4
    for ours, printed in zip(closings, ("2.8868", "16.2816", "28.9111", "40.8024"), strict=True):
        Case(MODEL, "case B7 in full, closings", DERIVED, {}, printed, MS).check(ours)
    # The trace samples each blow at 48 points per period: a maximum between two points is missed by
    # at most 1 - cos(pi/48) of the swing, 0.8 N m; the first is the peak and is sampled exactly.
    Case(MODEL, "case B7 in full, blow 1", DERIVED, {}, "604.925").check(heights[0])
    for ours, printed in zip(heights[1:], ("547.265", "495.657", "450.341"), strict=True):
        because = "sampled, not the exact maximum"
        Case(MODEL, "case B7 in full", DERIVED, {}, printed, slack=0.8, because=because).check(ours)


def test_case_b8_largest_while_the_ramp_rises() -> None:
    inputs = given()
    times = [0.054269, 0.015423]
    while_rising, first = trace(**inputs, times=times).torque
    Case(MODEL, "case B8, at 54.269 ms", DERIVED, inputs, "339.18392").check(while_rising)
    because = "given at 15.42323 ms, looked up at 15.423 ms"
    Case(MODEL, "case B8", DERIVED, inputs, "185.02079", slack=1e-4, because=because).check(first)


def test_case_b20_later_maximum() -> None:
    inputs = given(zeta=0.1, b=0.05)
    Case(MODEL, "case B20, at 58.075 ms", DERIVED, inputs, "254.691").check(
        float(trace(**inputs, times=[0.058075]).torque[0])
    )


def test_case_b22_two_stage_setting() -> None:
    inputs = given(b=0.02)
    torque = float(closing_torque_from_blow(260.0, 0.05, 1.2, 12000.0, 0.02))
    Case(MODEL, "case B22, closing torque", DERIVED, inputs, "70.416667").check(torque)
    blow = peak(**(inputs | {"torque_rise": STEP, "peak_torque": torque}))
    Case(MODEL, "case B22, closing speed", DERIVED, inputs, "7.505553").check(blow.closing_speed)
    Case(MODEL, "case B22, closing time", DERIVED, inputs, "5.329387", MS).check(blow.closing_time)
    Case(MODEL, "case B22, energy", DERIVED, inputs, "1.352000").check(blow.blow_energy)
    Case(MODEL, "case B22, blow", DERIVED, inputs, "260.0").check(blow.peak_torque)


@pytest.mark.parametrize(
    ("rise", "leaves"),
    [(4000.0, "16.73972"), (20000.0, "4.53434")],
    ids=["B23", "B24"],
)
def test_reversal_leaves_the_coast_flank(rise: float, leaves: str) -> None:
    inputs = given(start_torque=-60.0, S=rise)
    result = trace(**inputs)
    Case(MODEL, "cases B23 and B24, coast flank left", DERIVED, inputs, leaves, MS).check(
        float(result.times[result.mode == 0][0])
    )


# --- closed forms without the solver ---------------------------------------------------------------

STEP_FACTORS = {
    0.01: "1.96926", 0.02: "1.93984", 0.03: "1.91166", 0.05: "1.85876",
    0.08: "1.78719", 0.10: "1.74408", 0.15: "1.64990", 0.20: "1.57174",
}  # fmt: skip
RAMP_FACTORS = {
    0.1: "1.983632", 0.2: "1.935489", 0.25: "1.900316", 0.3: "1.858394", 0.4: "1.756827",
    0.5: "1.636620", 0.6: "1.504551", 0.75: "1.300105", 0.9: "1.109292", 1.0: "1.000000",
    1.1: "1.089421", 1.25: "1.180063", 1.5: "1.212207", 1.75: "1.128617", 2.0: "1.000000",
    2.5: "1.127324", 3.5: "1.090946", 5.5: "1.057875", 10.5: "1.030315",
    1.430297: "1.217234", 2.459024: "1.128375", 3.470890: "1.091325",
}  # fmt: skip
DAMPED_RAMP = {
    0.01: "1.9534 1.8726 1.6171 1.2910 1.0095 1.1694 1.1995 1.0093 1.1162 1.0807 1.0487",
    0.03: "1.8967 1.8208 1.5805 1.2744 1.0261 1.1516 1.1777 1.0239 1.0987 1.0659 1.0374",
    0.05: "1.8447 1.7732 1.5470 1.2599 1.0398 1.1375 1.1597 1.0344 1.0859 1.0561 1.0316",
    0.10: "1.7319 1.6700 1.4748 1.2305 1.0644 1.1138 1.1270 1.0493 1.0662 1.0435 1.0257",
}
PERIODS = (0.1, 0.25, 0.5, 0.75, 1.0, 1.25, 1.5, 2.0, 2.5, 3.5, 5.5)
FIRST_BLOWS = {
    0.5: "6.264684", 1.0: "6.212389", 1.5: "6.410094", 2.0: "7.141593", 3.0: "9.998092",
    4.0: "14.214297", 5.0: "19.560754", 8.0: "41.854590", 12.0: "85.752116", 20.0: "221.675962",
}  # fmt: skip


def _ramp(periods: float, zeta: float) -> Blow:
    """Blow without lash on a ramp that lasts so many natural periods."""
    inputs = given(zeta=zeta, b=0.0)
    frequency = natural_frequency(0.05, 1.2, 12000.0)
    return peak(**(inputs | {"torque_rise": 240.0 * frequency / periods}))


@pytest.mark.parametrize(("zeta", "printed"), STEP_FACTORS.items())
def test_step_factor(zeta: float, printed: str) -> None:
    case = Case(MODEL, "step factor of the whole torque", DERIVED, {"zeta": zeta}, printed)
    case.check(step_factor(zeta))
    case.check(peak(**given(zeta=zeta, b=0.0, S=STEP)).dynamic_factor)


@pytest.mark.parametrize(("periods", "printed"), RAMP_FACTORS.items())
def test_ramp_factor(periods: float, printed: str) -> None:
    case = Case(CHART, "ramp factor, undamped", DERIVED, {"tr/Tn": periods}, printed)
    case.check(ramp_factor(periods, 1.0))
    case.check(_ramp(periods, 0.0).dynamic_factor)


@pytest.mark.parametrize("zeta", DAMPED_RAMP)
def test_damped_ramp_factor(zeta: float) -> None:
    for periods, printed in zip(PERIODS, DAMPED_RAMP[zeta].split(), strict=True):
        case = Case(MODEL, "damped ramp factor", DERIVED, {"zeta": zeta, "tr/Tn": periods}, printed)
        case.check(_ramp(periods, zeta).dynamic_factor)


@pytest.mark.parametrize(("u", "printed"), FIRST_BLOWS.items())
def test_first_blow_by_one_number(u: float, printed: str) -> None:
    # J1 1, J2 held, k 1, S 1 make w and s S/w equal to 1, so that b = u^3/6
    case = Case(MODEL, "first blow on a rising ramp", DERIVED, {"u": u}, printed)
    case.check(first_blow_on_ramp(1.0, 1.0, HELD, 1.0, u**3 / 6.0))
    blow = peak(
        torque_rise=1.0,
        peak_torque=1000.0,
        driving_inertia=1.0,
        driven_inertia=HELD,
        stiffness=1.0,
        lash=u**3 / 6.0,
    )
    case.check(blow.first_blow_torque)


@pytest.mark.parametrize(("u", "opens"), [(4.341417, False), (4.341419, True)])
def test_contact_opens_on_the_ramp_from_the_printed_number_on(u: float, opens: bool) -> None:
    # same source; printed: u 4.341418. The ramp is long, so that only ramp events count.
    blow = peak(
        torque_rise=1.0,
        peak_torque=1000.0,
        driving_inertia=1.0,
        driven_inertia=HELD,
        stiffness=1.0,
        lash=u**3 / 6.0,
    )
    assert (blow.contact_losses > 0) is opens


@pytest.mark.parametrize(("name", "printed"), [("B5", "634.96910"), ("B6", "655.69219")])
def test_step_peak_with_lash(name: str, printed: str) -> None:
    J2 = {"B5": 1.2, "B6": HELD}[name]
    Case(MODEL, f"case {name}", DERIVED, given(J2), printed).check(
        step_peak_with_lash(240.0, 0.05, J2, 12000.0, 0.02)
    )


def test_closing_with_the_plateau_reached_in_the_gap() -> None:
    Case(MODEL, "case B21, closing time", DERIVED, EARLY, "10.1103000", MS).check(
        closing_time(20000.0, 100.0, 0.05, 0.06)
    )
    Case(MODEL, "case B21, closing speed", DERIVED, EARLY, "15.2206001").check(
        closing_speed(20000.0, 100.0, 0.05, 0.06)
    )


# --- published parameter sets ------------------------------------------------------------------------

AXLE = {"driving_inertia": 0.3 * 12**2, "driven_inertia": 140.0, "stiffness": 1e4, "lash": 2 * 0.03}
"""Read: half gap 0.03 rad, k 1e4 N m/rad, ratio 12, flywheel 0.3 and vehicle 140 kg m^2."""


def test_backlash_benchmark_referred_to_the_axle() -> None:
    Case(BENCHMARK, "C1, share", DERIVED, AXLE, "0.764192").check(torque_share(43.2, 140.0))
    Case(BENCHMARK, "C1, frequency", DERIVED, AXLE, "2.769982").check(natural_frequency(43.2, 140.0, 1e4))


@pytest.mark.parametrize(
    ("name", "rise", "closes", "speed", "peaks"),
    [
        ("C1a", 12000.0, "109.0480", "1.640222", ("2231.985", "2064.074")),
        ("C1b", 6000.0, "137.3657", "1.310371", ("1974.939", "1828.649")),
        ("C1c", STEP, "65.7267", "1.825742", ("2310.365", "2136.139")),
    ],
)
def test_backlash_benchmark(name: str, rise: float, closes: str, speed: str, peaks: tuple[str, str]) -> None:
    inputs = AXLE | {"torque_rise": rise, "peak_torque": 1200.0}
    for zeta, printed in zip((0.0, 0.05), peaks, strict=True):
        blow = peak(**inputs, damping_ratio=zeta)
        Case(BENCHMARK, f"{name}, closing time", DERIVED, inputs, closes, MS).check(blow.closing_time)
        Case(BENCHMARK, f"{name}, closing speed", DERIVED, inputs, speed).check(blow.closing_speed)
        Case(BENCHMARK, f"{name}, peak at zeta {zeta}", DERIVED, inputs, printed).check(blow.peak_torque)


def test_backlash_benchmark_energy_and_factor() -> None:
    inputs = AXLE | {"torque_rise": 12000.0, "peak_torque": 1200.0}
    for zeta, factor in ((0.0, "2.434"), (0.05, "2.251")):
        blow = peak(**inputs, damping_ratio=zeta)
        Case(BENCHMARK, "C1a, energy", DERIVED, inputs, "44.40805").check(blow.blow_energy)
        Case(BENCHMARK, "C1a, factor", DERIVED, inputs, factor).check(blow.dynamic_factor)


def test_heavy_truck_frequency() -> None:
    inputs = {"chassis": 6250.0, "flywheel": 0.625, "ratio": 57.0, "stiffness": 75000.0}
    Case(TRUCK, "C2, driving inertia", DERIVED, inputs, "2030.625").check(0.625 * 57.0**2)
    Case(TRUCK, "C2, frequency", DERIVED, inputs, "1.113339").check(
        natural_frequency(2030.625, 6250.0, 75000.0)
    )
