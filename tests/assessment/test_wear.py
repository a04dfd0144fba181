"""The wear life of a joint against the linear law worked out by hand, and its limits."""

import math

import pytest
from builder import BASE, assessed

from torqcheck.assessment.result import Assessment, WearResult

TILT = 'tilt = { angle = "0.08 deg" }'
QUIET = (
    ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"'),
    ('regen_torque = "90 N*m"\n', ""),
)


def wear_of(result: Assessment) -> WearResult:
    wear = result.joints[0].wear
    assert wear is not None
    return wear


def life_of(result: Assessment) -> tuple[float, float, float]:
    life = wear_of(result).life
    assert life is not None
    return life


def test_median_is_the_linear_law() -> None:
    # a tight lash limit, so that no other limit ends any of the lives
    result = assessed(*QUIET, ('lash_limit = "0.40 mm"', 'lash_limit = "0.15 mm"'))
    r = 26 * 25.4 / 20 / 2  # mm
    alpha, tilt = math.radians(30), math.radians(0.08)
    height = 0.9 * 25.4 / 20 - (1.35 - 1.345) * 25.4 / 2
    torque = 60e3 * 2.5 * 0.97  # N mm
    per_turn = 4 * r * math.tan(tilt)
    hourly = sum(
        # normal pressure on an involute: 2 T/(D N L h) with the radial height, no cosine
        share * rpm / 2.5 * 60 * part * torque / (r * 26 * 31.75 * height)
        for part, rpm, share in ((1.0, 600, 0.1), (0.3, 2000, 0.9))
    )
    hardness = {"external": 674.0, "internal": 653.0}  # HV of 59 and 58 HRC, the low ends
    rates = {side: 1e-7 * 1e-3 * 697 / hv * hourly * per_turn for side, hv in hardness.items()}  # mm/h
    room = (0.15 - 0.05) * math.cos(alpha)
    # the pressure rises as the edge of the worn band gives way: integral of 1 - H/h over the depth
    hours = room * (1.0 - 0.5 * room / height) / sum(rates.values())
    assert life_of(result)[1] / 3600 == pytest.approx(hours, rel=1e-3)
    assert wear_of(result).limit == "lash limit"


def test_spread_is_that_of_the_class_the_slip_the_load_and_the_limit() -> None:
    wear = wear_of(assessed(*QUIET))
    assert wear.spread == pytest.approx(math.sqrt(1.8**2 + 0.5**2 + 0.4**2 + 0.2**2), rel=0.03)


def test_unmeasured_alignment_spreads_the_life_further() -> None:
    measured, assumed = (wear_of(assessed(*QUIET, *change)).spread for change in ((), ((TILT + "\n", ""),)))
    assert measured is not None
    assert assumed is not None
    assert assumed > measured


def test_twice_the_tilt_is_half_the_life() -> None:
    once = life_of(assessed(*QUIET))
    twice = life_of(assessed(*QUIET, (TILT, 'tilt = { angle = "0.16 deg" }')))
    assert once[1] / twice[1] == pytest.approx(2.0, rel=1e-4)


def test_play_adds_up_whichever_flank_wears() -> None:
    # the duty list says how much is braked; a braking torque that no spell uses wears nothing
    driven_only = life_of(assessed(*QUIET))
    brake = ('rotor_inertia = "0.05', 'regen_torque = "1 N*m"\nrotor_inertia = "0.05')
    assert life_of(assessed(*QUIET, brake)) == pytest.approx(driven_only, rel=1e-12)
    reversing = ("events_per_hour = 20", "events_per_hour = 20\nreversals = true")
    assert life_of(assessed(*QUIET, reversing)) == pytest.approx(driven_only, rel=1e-12)


def test_wear_that_is_there_already_is_charged() -> None:
    fresh = life_of(assessed(*QUIET, ('lash_limit = "0.40 mm"', 'lash_limit = "2 mm"')))
    step = ('{ teeth = 26, major_diameter = "1.345 in" }', '{ teeth = 26, worn_step = "0.10 mm" }')
    worn = life_of(assessed(*QUIET, step, ('lash_limit = "0.40 mm"', 'lash_limit = "2 mm"')))
    # a tenth of 1.995 mm may go; 0.10 mm on the flank are 0.115 mm of it on the pitch circle
    assert worn[1] < 0.6 * fresh[1]
    deep = ('{ teeth = 26, major_diameter = "1.345 in" }', '{ teeth = 26, worn_step = "0.20 mm" }')
    gone = assessed(*QUIET, deep)
    assert gone.verdict == "fail"
    assert "are gone, 10 % may be: renew it" in wear_of(gone).reason


def test_a_band_worn_through_the_case_counts_as_core() -> None:
    step = ('{ teeth = 26, major_diameter = "1.345 in" }', '{ teeth = 26, worn_step = "0.62 mm" }')
    result = assessed(*QUIET, step)
    check = next(c for c in result.joints[0].checks if c.name == "flank pressure")
    # core of 205 HB: the band of 160 to 200 HB, 1500 psi
    assert check.allowable / check.factors["life"] == pytest.approx(1500 * 6894.757, rel=1e-6)
    assert result.verdict == "fail"


def test_sealed_grease_runs_out_and_renewal_keeps_it() -> None:
    grease = ('lubrication = "oil flooded"', 'lubrication = "sealed grease"')
    forgotten = life_of(assessed(*QUIET, grease))
    renewed = life_of(assessed(*QUIET, (grease[0], grease[1] + '\ngrease_renewal = "400 hour"')))
    late = life_of(assessed(*QUIET, (grease[0], grease[1] + '\ngrease_renewal = "5000 hour"')))
    dry = life_of(assessed(*QUIET, ('lubrication = "oil flooded"', 'lubrication = "dry"')))
    for percentile in range(3):
        assert dry[percentile] < forgotten[percentile] <= late[percentile] <= renewed[percentile]


def test_fretting_without_a_lubricant_is_never_a_pass() -> None:
    low = (TILT, 'tilt = { angle = "0.03 deg" }')
    oiled = assessed(*QUIET, low)
    assert oiled.verdict == "pass"
    for word in ("dry", "expired grease"):
        assert assessed(*QUIET, low, ('"oil flooded"', f'"{word}"')).verdict == "marginal"


def test_the_tolerance_of_the_tilt_counts_at_the_edge_of_fretting() -> None:
    sharp = wear_of(assessed(*QUIET, (TILT, 'tilt = { angle = "0.06 deg" }')))
    vague = wear_of(assessed(*QUIET, (TILT, 'tilt = { angle = "0.06 +/- 0.04 deg" }')))
    assert sharp.life is None
    assert vague.life is not None


@pytest.mark.parametrize(
    ("written", "reason"),
    [
        ('tilt = { angle = "0.08 deg", turns_with_shaft = true }', "turns with the shaft"),
        ('tilt = { angle = "0.05 deg" }', "fretting regime"),
        ('tilt = { angle = "0 deg" }', "without a tilt nothing slides"),
    ],
)
def test_no_life_is_stated_where_the_law_does_not_hold(written: str, reason: str) -> None:
    result = assessed(*QUIET, (TILT, written))
    wear = wear_of(result)
    assert wear.life is None
    assert wear.verdict is None
    assert reason in wear.reason


def watched(result: Assessment) -> list[str]:
    """Findings that pass and yet are named."""
    return [reason.text for reason in result.besides if reason.verdict == "pass"]


def test_a_pass_without_a_wear_life_for_too_little_slip_says_what_to_look_for() -> None:
    # 20 um of slip by the fretting maps; 16.51 mm of pitch radius times the tilt
    below, above = 19.9e-6 / 16.51e-3, 20.1e-6 / 16.51e-3
    frets = assessed(*QUIET, (TILT, f'tilt = {{ angle = "{below!r} rad" }}'))
    assert frets.verdict == "pass"
    assert frets.decided_by == ()
    (line,) = watched(frets)
    for words in (
        "fretting regime",
        "no wear life is stated",
        "red-brown dust",
        "cracks",
        "first inspection",
    ):
        assert words in line
    assert frets.to_dict()["joints"][0]["wear"]["fretting"] is True
    wears = assessed(*QUIET, (TILT, f'tilt = {{ angle = "{above!r} rad" }}'))
    assert watched(wears) == []
    assert wears.to_dict()["joints"][0]["wear"]["fretting"] is False


@pytest.mark.parametrize("seat", ["fixed", "flexible"])
def test_where_nothing_slides_nothing_is_said_of_fretting(seat: str) -> None:
    tilt = (TILT + "\n", "" if seat == "fixed" else 'tilt = { angle = "0 deg" }\n')
    result = assessed(*QUIET, tilt, ('seat = "flexible"', f'seat = "{seat}"'))
    assert result.verdict == "pass"
    assert watched(result) == []
    assert "fretting" not in wear_of(result).reason


def test_fretting_that_decides_is_not_named_twice() -> None:
    low = (TILT, 'tilt = { angle = "0.03 deg" }')
    dry = assessed(*QUIET, low, ('"oil flooded"', '"dry"'))
    assert dry.verdict == "marginal"
    (reason,) = dry.decided_by
    assert "red-brown dust" in reason.text
    assert watched(dry) == []


def test_without_tilt_and_lubricant_the_reason_is_the_lubricant() -> None:
    dry = assessed(*QUIET, (TILT, 'tilt = { angle = "0 deg" }'), ('"oil flooded"', '"dry"'))
    assert dry.verdict == "marginal"
    assert "without a lubricant" in dry.decided_by[0].text


def test_the_guide_grants_a_life_by_another_model() -> None:
    result = assessed(*QUIET)
    check = next(c for c in result.joints[0].checks if c.name == "flank pressure" and "tab" in c.method)
    wear = wear_of(result)
    assert wear.guide_revolutions is not None
    assert wear.guide_life is not None
    bare = check.allowable / check.factors["life"] / check.value
    assert wear.guide_revolutions == pytest.approx(1e8 * bare ** (2 / math.log10(2)), rel=1e-3)
    turns_per_hour = (0.1 * 600 + 0.9 * 2000) / 2.5 * 60
    assert wear.guide_life / 3600 == pytest.approx(wear.guide_revolutions / turns_per_hour, rel=1e-9)


def test_softer_member_is_named() -> None:
    soft = ('steel = "8620_carb_63"\nreused = false', 'steel = "4140_PH28_32"\nreused = false')
    assert soft[0] in BASE
    assert wear_of(assessed(*QUIET, soft)).softer_member == "internal"
