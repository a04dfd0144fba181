"""The axial stack as evaluated: ranges, growth, verdicts, shims, collars, and what it gives to the joints."""

import json
import math
from dataclasses import replace

import numpy as np
import pytest
from builder import BASE, edited, loaded
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.assessment import assess
from torqcheck.assessment.bench.mating import mates_of_scenario
from torqcheck.assessment.lifetime.life import life
from torqcheck.assessment.prepared import prepared_of
from torqcheck.assessment.ramp.advise import ramp
from torqcheck.assessment.ranges.influence import influence
from torqcheck.assessment.stack.judge import LEAST_GAP, stack, stack_check
from torqcheck.assessment.stack.result import StackCheck, SumResult
from torqcheck.assessment.stack.sums import Pack, SignedSum, Term
from torqcheck.errors import ScenarioError
from torqcheck.scenario.ledger import Ledger

NO_ENGAGEMENT = BASE.replace('engagement = "1.25 in"\n', "")
GENTLE = NO_ENGAGEMENT.replace('"240 N*m"', '"120 N*m"')
STACK = """
[stack]
shims = ["0.1 +/- 0 mm", "0.5 +/- 0 mm"]
assembled_at = "20 degC"
running_at = "50 degC"

[[stack.distance]]
name = "housing"
length = "150 +/- 0.1 mm"
material = "aluminium"

[[stack.distance]]
name = "sleeve"
length = "90 +/- 0.05 mm"
material = "steel"
running_at = "80 degC"

[[stack.distance]]
name = "nose"
length = "94 +/- 0.2 mm"
material = "steel"
running_at = "100 degC"

[[stack.distance]]
name = "plug depth"
length = "35.5 +/- 0.05 mm"
material = "steel"
running_at = "80 degC"

[[stack.result]]
name = "mesh"
kind = "engagement"
joint = "gearbox input"
plus = ["sleeve", "nose"]
minus = ["housing"]
less = ["1 +/- 0.1 mm"]

[[stack.result]]
name = "nose to plug"
kind = "gap"
plus = ["plug depth", "housing"]
minus = ["sleeve", "nose"]
least = "0.5 mm"
"""
SHIM = '\n[stack.shim]\nin = "housing"\nresult = "nose to plug"\ntarget = "1.5 mm"\n'


def checked(*changes: tuple[str, str], base: str = BASE, more: str = "") -> StackCheck:
    found = stack_check(loaded(base=base + edited(*changes, base=STACK) + more), Ledger())
    assert found is not None
    return found


def one(found: StackCheck, name: str) -> SumResult:
    return next(result for result in found.results if result.name == name)


# ranges


def test_cold_and_hot_by_hand() -> None:
    """90 + 94 - 150 - 1 = 33; tolerances 0.05 + 0.2 + 0.1 + 0.1; growth 11.3e-6 and 23e-6 per kelvin."""
    mesh = one(checked(), "mesh")
    assert mesh.assembled.nominal == pytest.approx(33.0e-3)
    assert (mesh.assembled.least, mesh.assembled.greatest) == pytest.approx((32.55e-3, 33.45e-3))
    squares = math.sqrt(0.05**2 + 0.2**2 + 0.1**2 + 0.1**2) * 1e-3
    assert mesh.assembled.statistical == pytest.approx((33.0e-3 - squares, 33.0e-3 + squares))
    assert mesh.assembled.widened[0] == pytest.approx(33.0e-3 - 1.5 * squares)
    growth = (11.3e-6 * 90 * 60 + 11.3e-6 * 94 * 80 - 23.0e-6 * 150 * 30) * 1e-3
    assert mesh.growth == pytest.approx(growth)
    assert mesh.running.least == pytest.approx(32.55e-3 + growth)
    assert mesh.worst == pytest.approx(32.55e-3)
    gap = one(checked(), "nose to plug")
    hot = (11.3e-6 * 35.5 * 60) * 1e-3 - growth
    assert gap.running.nominal == pytest.approx(1.5e-3 + hot)
    assert gap.worst == pytest.approx(1.1e-3 + hot)
    assert gap.worse.state == "running"


def test_the_widest_comes_first_among_what_widens() -> None:
    names = [each.name for each in one(checked(), "mesh").contributors]
    assert names[0] == "nose"
    assert names[-1] == "sleeve"
    shares = [each.share_of_worst for each in one(checked(), "mesh").contributors]
    assert sum(shares) == pytest.approx(1.0)
    assert shares[0] == pytest.approx(0.2 / 0.45)
    assert one(checked(), "mesh").contributors[0].share_of_variance == pytest.approx(0.04 / 0.0625)


def test_a_million_draws_of_the_whole_stack() -> None:
    """Normal lengths, an even one and an end float together; four standard errors."""
    more = '\n[[stack.distance]]\nname = "float"\nlength = "0.6 +/- 0 mm"\nkind = "end float"\n'
    found = checked(
        ('name = "plug depth"\n', 'name = "plug depth"\nspread = "even"\n'),
        ('length = "35.5 +/- 0.05 mm"', 'length = "34.7 +/- 0.5 mm"'),
        ('minus = ["sleeve", "nose"]', 'minus = ["sleeve", "nose", "float"]'),
        ("\n[[stack.result]]", f"{more}\n[[stack.result]]"),
    )
    gap = one(found, "nose to plug").running
    draws, random = 1_000_000, np.random.default_rng(7)
    hot = np.array([23.0e-6 * 30, 11.3e-6 * 60, 11.3e-6 * 80, 11.3e-6 * 60])
    nominal = np.array([150.0, 90.0, 94.0, 34.7]) * (1.0 + hot)
    sums = nominal[0] - nominal[1] - nominal[2] + nominal[3] + random.uniform(-0.5, 0.5, draws)
    for tolerance in (0.1, 0.05, 0.2):
        sums += random.normal(0.0, tolerance / 2.0, draws)
    sums -= random.uniform(-0.6, 0.6, draws)
    counted = float(np.mean(sums < 0.0))
    assert 0.01 < counted < 0.3
    assert gap.nominal * 1e3 == pytest.approx(float(np.mean(sums)), abs=4.0 * float(np.std(sums)) / 1e3)
    assert gap.chance == pytest.approx(counted, abs=4.0 * math.sqrt(counted / draws))
    assert gap.normal_chance == pytest.approx(counted, abs=0.02)
    assert gap.normal_chance != pytest.approx(counted, abs=1e-4)


terms = st.lists(
    st.tuples(st.sampled_from((1.0, -1.0)), st.floats(1e-3, 0.2), st.floats(0.0, 1e-3), st.booleans()),
    min_size=1,
    max_size=6,
)


@settings(max_examples=50)
@given(written=terms, seed=st.integers(0, 10_000))
def test_the_worst_case_holds_every_draw(written: list[tuple[float, float, float, bool]], seed: int) -> None:
    signed = SignedSum(
        terms=tuple(
            (sign, Term(name=str(i), middle=middle, half=half, even=even))
            for i, (sign, middle, half, even) in enumerate(written)
        )
    )
    random = np.random.default_rng(seed)
    drawn = sum(sign * (middle + random.uniform(-half, half, 200)) for sign, middle, half, _ in written)
    found = signed.range("assembled")
    assert found.least - 1e-12 <= np.min(drawn)
    assert np.max(drawn) <= found.greatest + 1e-12
    assert found.least - 1e-12 <= found.statistical[0] <= found.nominal <= found.statistical[1]


@settings(max_examples=50)
@given(written=terms, thickness=st.floats(0.0, 5e-3), sign=st.sampled_from((1.0, -1.0)))
def test_a_shim_moves_a_sum_by_its_thickness(
    written: list[tuple[float, float, float, bool]], thickness: float, sign: float
) -> None:
    signed = SignedSum(
        terms=tuple(
            (s, Term(name=str(i), middle=m, half=h, even=e)) for i, (s, m, h, e) in enumerate(written)
        )
    )
    before, after = signed.range("assembled"), signed.range("assembled", Pack(thickness), sign)
    for name in ("nominal", "least", "greatest"):
        assert getattr(after, name) - getattr(before, name) == pytest.approx(sign * thickness, abs=1e-12)


def test_the_cut_of_either_part_ends_the_engagement() -> None:
    found = one(checked(('less = ["1 +/- 0.1 mm"]', 'internal_cut = "30 +/- 0.2 mm"')), "mesh")
    assert (found.worst, found.assembled.nominal, found.greatest) == pytest.approx((29.8e-3, 30e-3, 30.2e-3))
    found = one(checked(('less = ["1 +/- 0.1 mm"]', 'external_cut = "40 +/- 0.2 mm"')), "mesh")
    assert found.assembled.nominal == pytest.approx(34e-3)


def test_end_float_goes_one_way_from_a_stop_and_either_way_otherwise() -> None:
    more = '\n[[stack.distance]]\nname = "float"\nlength = "0.3 +/- 0.02 mm"\nkind = "end float"\n'
    changes = (
        ('minus = ["sleeve", "nose"]', 'minus = ["sleeve", "nose", "float"]'),
        ("\n[[stack.result]]", f"{more}\n[[stack.result]]"),
    )
    plain = one(checked(), "nose to plug").assembled
    either = one(checked(*changes), "nose to plug").assembled
    assert (either.least, either.greatest) == pytest.approx((plain.least - 0.32e-3, plain.greatest + 0.32e-3))
    assert either.nominal == pytest.approx(plain.nominal)
    one_way = (('kind = "end float"\n', 'kind = "end float"\nfrom_stop = true\n'),)
    stopped = one(checked(*changes, *one_way), "nose to plug").assembled
    assert (stopped.least, stopped.greatest) == pytest.approx((plain.least - 0.32e-3, plain.greatest))


def test_a_tolerance_that_is_not_written_is_the_usual_one_and_said() -> None:
    ledger = Ledger()
    found = stack_check(loaded(base=BASE + STACK.replace("94 +/- 0.2 mm", "94 mm")), ledger)
    assert found is not None
    assert one(found, "mesh").contributors[0].tolerance == pytest.approx(0.1e-3)
    assert any(entry.key == "stack.distance.length" for entry in ledger.assumptions)
    exact = checked(("94 +/- 0.2 mm", "94 +/- 0 mm"))
    assert one(exact, "mesh").assembled.least == pytest.approx(32.75e-3)


# verdicts


def test_verdicts_of_a_gap() -> None:
    assert one(checked(), "nose to plug").verdict == "pass"
    assert one(checked(('least = "0.5 mm"', 'least = "1.2 mm"')), "nose to plug").verdict == "fail"
    touching = one(checked(("35.5 +/- 0.05", "34.3 +/- 0.05")), "nose to plug")
    assert touching.verdict == "fail"
    assert touching.assembled.nominal > 0.0 > touching.worst


def test_room_below_the_assumed_millimetre_is_marginal() -> None:
    found = one(checked(('least = "0.5 mm"\n', ""), ("35.5 +/- 0.05", "35.2 +/- 0.05")), "nose to plug")
    assert found.least == LEAST_GAP
    assert found.least_assumed
    assert 0.0 < found.worst < LEAST_GAP
    assert found.verdict == "marginal"


def test_an_engagement_fails_below_its_least_and_when_it_comes_apart() -> None:
    least = ('less = ["1 +/- 0.1 mm"]', 'less = ["1 +/- 0.1 mm"]\nleast = "{} mm"')
    assert one(checked((least[0], least[1].format("32.5"))), "mesh").verdict == "pass"
    assert one(checked((least[0], least[1].format("32.6"))), "mesh").verdict == "fail"
    assert one(checked(("94 +/- 0.2 mm", "61 +/- 0.2 mm")), "mesh").verdict == "fail"


@pytest.mark.parametrize(
    "change",
    [
        ('running_at = "50 degC"\n', ""),
        ('material = "aluminium"\n', ""),
    ],
)
def test_what_is_not_known_can_leave_it_undecided(change: tuple[str, str]) -> None:
    near = ('least = "0.5 mm"', 'least = "1.08 mm"')
    found = checked(change, near)
    gap = one(found, "nose to plug")
    assert gap.verdict == found.verdict == "undecided"
    (entry,) = found.missing
    assert "housing" in entry.reading
    far = checked(change, ('least = "0.5 mm"', 'least = "0.3 mm"'))
    assert one(far, "nose to plug").verdict == "pass"
    assert far.missing == ()
    hopeless = checked(change, ("35.5 +/- 0.05", "33.5 +/- 0.05"))
    assert one(hopeless, "nose to plug").verdict == "fail"


def test_steel_is_taken_where_no_material_is_written() -> None:
    bare, named = checked(('material = "aluminium"\n', "")), checked(("aluminium", "steel"))
    assert one(bare, "mesh").growth == pytest.approx(one(named, "mesh").growth)
    by_row = checked(('material = "aluminium"', 'steel = "4140_QT425"'))
    assert one(by_row, "mesh").growth == pytest.approx(one(named, "mesh").growth)


# shims and collars


def test_the_fewest_shims_reach_the_target_cold_and_hot() -> None:
    found = checked(more=SHIM).shim
    assert found is not None
    gap = one(checked(), "nose to plug")
    assert found.wanted == pytest.approx(1.5e-3 - gap.worst)
    assert found.pack == (0.5e-3,)
    after = {result.name: result for result in found.after}
    assert after["nose to plug"].worst == pytest.approx(gap.worst + 0.5e-3)
    assert after["mesh"].worst == pytest.approx(one(checked(), "mesh").worst - 0.5e-3)


def test_a_shim_that_is_not_needed_or_cannot_be() -> None:
    none = checked(more=SHIM.replace("1.5 mm", "0.5 mm")).shim
    assert none is not None
    assert none.pack == ()
    assert none.thickness == 0.0
    far = checked(more=SHIM.replace("1.5 mm", "9 mm")).shim
    assert far is not None
    assert far.pack is None
    assert far.thickness is None
    assert "no pack of up to 4 shims" in far.reason
    wrong = checked(more=SHIM.replace('"housing"', '"nose"')).shim
    assert wrong is not None
    assert "makes nose to plug smaller" in wrong.reason
    kept = checked(('less = ["1 +/- 0.1 mm"]', 'least = "33.4 mm"'), more=SHIM).shim
    assert kept is not None
    assert kept.pack is None
    assert "mesh allows only" in kept.reason


def test_shims_take_up_what_is_too_much() -> None:
    """A pack behind the nose makes the gap smaller, down to its target and not below."""
    found = checked(more=SHIM.replace('"housing"', '"nose"').replace("1.5 mm", "0.3 mm")).shim
    assert found is not None
    gap = next(result for result in found.after if result.name == "nose to plug")
    assert 0.3e-3 <= gap.worst < 0.4e-3


def test_a_stop_collar_moved_to_the_ends_of_its_window_keeps_both_leasts() -> None:
    """Moving the ring by the room that is left brings the gap to its least, cold or hot, and no farther."""
    ring = (
        '\n[[stack.result]]\nname = "ring"\nkind = "stop collar"\nplus = ["sleeve"]\n'
        'engagement = "mesh"\ngap = "nose to plug"\n'
    )
    keep = ('less = ["1 +/- 0.1 mm"]', 'less = ["1 +/- 0.1 mm"]\nleast = "30 mm"')
    (collar,) = checked(keep, more=ring).collars
    assert collar.verdict == "pass"
    assert collar.move == 0.0
    for end, name, least in ((collar.high, "nose to plug", 0.5e-3), (collar.low, "mesh", 30e-3)):
        moved = checked(keep, ("90 +/- 0.05 mm", f"{end * 1e3:.9f} +/- 0.05 mm"), more=ring)
        # the longer sleeve grows a little more
        assert one(moved, name).worst == pytest.approx(least, abs=3e-6)
    (collar,) = checked(keep, ("90 +/- 0.05 mm", "91.5 +/- 0.05 mm"), more=ring).collars
    assert collar.verdict == "fail"
    assert collar.position + collar.move == pytest.approx(collar.high)
    (collar,) = checked(("less =", 'least = "34 mm"\nless ='), more=ring).collars
    assert collar.low > collar.high
    assert collar.verdict == "fail"
    assert collar.move == 0.0


def test_an_end_float_scatters_evenly() -> None:
    """Standard deviation 0.3 / sqrt(3) beside 0.2 / 2, 0.1 / 2 and 0.05 / 2 twice."""
    more = '\n[[stack.distance]]\nname = "float"\nlength = "0.3 +/- 0 mm"\nkind = "end float"\n'
    gap = one(
        checked(
            ('minus = ["sleeve", "nose"]', 'minus = ["sleeve", "nose", "float"]'),
            ("\n[[stack.result]]", f"{more}\n[[stack.result]]"),
        ),
        "nose to plug",
    )
    assert gap.contributors[0].name == "float"
    rest = 0.1**2 + 0.05**2 + 2 * 0.025**2
    assert gap.contributors[0].share_of_variance == pytest.approx(0.03 / (0.03 + rest))


def test_the_tolerance_of_a_collar_that_stands_in_no_sum_narrows_its_window() -> None:
    own = '\n[[stack.distance]]\nname = "groove"\nlength = "90 +/- 0.15 mm"\nmaterial = "steel"\n'
    ring = (
        '\n[[stack.result]]\nname = "ring"\nkind = "stop collar"\nplus = ["{}"]\n'
        'engagement = "mesh"\ngap = "nose to plug"\n'
    )
    (within,) = checked(more=ring.format("sleeve")).collars
    (apart,) = checked(more=own + ring.format("groove")).collars
    assert apart.high == pytest.approx(within.high - 0.15e-3)
    assert apart.low == pytest.approx(within.low + 0.15e-3)


def test_no_collar_makes_up_for_teeth_that_are_cut_too_short() -> None:
    ring = (
        '\n[[stack.result]]\nname = "ring"\nkind = "stop collar"\nplus = ["sleeve"]\n'
        'engagement = "mesh"\ngap = "nose to plug"\n'
    )
    short = ("less =", 'least = "30 mm"\ninternal_cut = "25 +/- 0 mm"\nless =')
    (collar,) = checked(short, more=ring).collars
    assert collar.low - collar.high == pytest.approx(5e-3)
    assert collar.verdict == "fail"


def test_the_tolerance_of_the_pack_counts_in_the_verdict_then() -> None:
    """0.15 mm are left; 0.9 more bring 1.05, but the shim may be 0.1 thinner: below the assumed 1 mm."""
    changes = (('least = "0.5 mm"\n', ""), ("35.5 +/- 0.05", "34.55 +/- 0.05"), ('"50 degC"', '"20 degC"'))
    cold = tuple((f'running_at = "{t} degC"\n', "") for t in (80, 100, 80))
    more = SHIM.replace("1.5 mm", "0.3 mm")
    for stock, verdict in (("0.9 +/- 0.1 mm", "marginal"), ("0.9 +/- 0 mm", "pass")):
        found = checked(*changes, *cold, ('"0.1 +/- 0 mm", "0.5 +/- 0 mm"', f'"{stock}"'), more=more)
        assert one(found, "nose to plug").worst == pytest.approx(0.15e-3)
        assert found.shim is not None
        gap = next(result for result in found.shim.after if result.name == "nose to plug")
        assert gap.verdict == verdict


# what the joints get


def test_the_least_worst_case_is_what_the_joint_engages() -> None:
    scenario = loaded(base=NO_ENGAGEMENT + STACK)
    prepared = prepared_of(scenario)
    for held in (prepared.scenario, prepared.written):
        assert held.joint[0].engagement.value == pytest.approx(32.55e-3)  # type: ignore[union-attr]
    state = prepared.joints[0].spline
    assert state is not None
    assert state.engagement == pytest.approx(32.55e-3)
    written = loaded(('engagement = "1.25 in"', 'engagement = "32.55 +/- 0 mm"'))
    ours, plain = assess(scenario), assess(written)
    assert [check.value for check in ours.joints[0].checks] == pytest.approx(
        [check.value for check in plain.joints[0].checks]
    )
    entry = next(entry for entry in ours.assumptions if entry.key == "joint[1].engagement")
    assert entry.mark == "derived"


def test_every_command_takes_it_from_there(tmp_path) -> None:  # type: ignore[no-untyped-def]
    scenario = loaded(base=NO_ENGAGEMENT + STACK)
    written = loaded(('engagement = "1.25 in"', 'engagement = "32.55 +/- 0 mm"'))
    assert life(scenario).joints[0].life == pytest.approx(life(written).joints[0].life)
    ours, plain = ramp(scenario).weakest, ramp(written).weakest
    assert ours.safety_factor == pytest.approx(plain.safety_factor)
    file = tmp_path / "job.toml"
    file.write_text(NO_ENGAGEMENT + STACK)
    assert mates_of_scenario(file).pairs[0].mate.verdict == mates_of_scenario(file).worst.mate.verdict
    keys = {row.uncertain.key for row in influence(scenario).rows}
    assert "joint[1].engagement" not in keys
    assert "joint[1].tilt.angle" in keys


def test_a_hopeful_outlook_takes_the_end_of_what_is_not_known() -> None:
    """Housings that stay cold and shafts that grow: 20 against 80 degC for 150 mm of aluminium."""
    text = STACK.replace('running_at = "50 degC"\n', "").replace("94 +/-", "93 +/-")
    scenario = loaded(base=NO_ENGAGEMENT + text)
    stated, hoped = (
        prepared_of(scenario, outlook).scenario.joint[0].engagement.value  # type: ignore[union-attr]
        for outlook in ("as stated", "favourable")
    )
    assert stated < hoped == pytest.approx(31.55e-3)


def test_of_two_engagements_the_smaller_counts() -> None:
    short = prepared_of(loaded(('"1.25 in"', '"30 mm"'), base=BASE + STACK))
    assert short.scenario.joint[0].engagement.value == pytest.approx(30e-3)  # type: ignore[union-attr]
    assert any("contradict each other" in caution.text for caution in short.ledger.cautions)
    long = prepared_of(loaded(('"1.25 in"', '"33 mm"'), base=BASE + STACK))
    assert long.scenario.joint[0].engagement.value == pytest.approx(32.55e-3)  # type: ignore[union-attr]
    assert not any("contradict" in caution.text for caution in long.ledger.cautions)


def test_teeth_that_come_apart_fail_and_do_not_crash() -> None:
    result = assess(loaded(base=NO_ENGAGEMENT + STACK.replace("94 +/- 0.2 mm", "61 +/- 0.2 mm")))
    assert result.verdict == "fail"
    assert any("mean little: mend the stack first" in caution.text for caution in result.cautions)


def test_assess_counts_the_stack() -> None:
    good = assess(loaded(base=GENTLE + STACK))
    bad = assess(loaded(base=GENTLE + STACK.replace("35.5 +/- 0.05", "34.3 +/- 0.05")))
    assert good.stack is not None
    assert bad.stack is not None
    assert (good.stack.verdict, bad.stack.verdict) == ("pass", "fail")
    assert bad.verdict == "fail"
    assert good.verdict == good.joints[0].verdict == bad.joints[0].verdict == "marginal"
    assert json.loads(json.dumps(bad.to_dict(), allow_nan=False))["stack"]["gaps"][0]["min_mm"] < 0.0
    assert assess(loaded()).stack is None
    assert "not evaluated" not in " ".join(caution.text for caution in good.cautions)


def test_an_undecided_stack_leaves_the_whole_undecided() -> None:
    text = STACK.replace('running_at = "50 degC"\n', "").replace('least = "0.5 mm"', 'least = "1.08 mm"')
    result = assess(loaded(base=GENTLE + text))
    assert result.verdict == "undecided"
    assert [entry.joint for entry in result.undecided_by] == ["axial stack"]


def test_axial_force_of_the_teeth_under_torque() -> None:
    """2 x 0.15 x T / D at 240 x 2.5 x 0.97 N m and 26 teeth of 20/40."""
    (force,) = stack(loaded(base=BASE + STACK)).forces
    assert force.torque == pytest.approx(240.0 * 2.5 * 0.97)
    assert force.force == pytest.approx(2.0 * 0.15 * 582.0 / (26.0 / 20.0 * 0.0254))


def test_a_scenario_without_a_stack_is_told_so() -> None:
    with pytest.raises(ScenarioError, match=r"stack: is missing; add a \[stack\]"):
        stack(loaded())


def test_a_part_without_a_cut_counts_as_cut_through() -> None:
    signed = SignedSum(terms=((1.0, Term(name="a", middle=0.03, half=0.0)),))
    assert signed.cut() == math.inf
    assert replace(signed, cuts=((0.02, 0.001), (math.inf, 0.0))).least("assembled") == pytest.approx(0.019)


@pytest.mark.parametrize(("wanted", "odd"), [("28 mm", False), ("3 m", True)])
def test_an_engagement_as_wanted_is_no_odd_magnitude(wanted: str, odd: bool) -> None:
    mesh = ('less = ["1 +/- 0.1 mm"]', f'less = ["1 +/- 0.1 mm"]\nleast = "{wanted}"')
    shim = SHIM.replace("nose to plug", "mesh").replace("1.5 mm", wanted)
    cautions = assess(loaded(base=BASE + edited(mesh, base=STACK) + shim)).cautions
    told = {
        key for key in ("least", "target") if any(f'{key} = "{wanted}" is far' in c.text for c in cautions)
    }
    assert told == ({"least", "target"} if odd else set())
