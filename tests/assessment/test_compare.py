"""Steels side by side: every row is the check of the edited file, to the last digit; what is said of it."""

import math
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from assessment._quick_path import OLD_SHAFT, QUICK, new_shaft
from builder import EXAMPLES, edited, loaded

from torqcheck.assessment import assess
from torqcheck.assessment.compare.advice import advice_on, cheapest_that_passes
from torqcheck.assessment.compare.choices import Question, Wanted, holds_for, question_of
from torqcheck.assessment.compare.notes import NOT_HELD, member_notes
from torqcheck.assessment.compare.result import Comparison, margin
from torqcheck.assessment.compare.side_by_side import SORTS, compare
from torqcheck.assessment.prepared import prepared_of
from torqcheck.errors import UsageError
from torqcheck.materials import Steel, steels
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.edits import edited as edited_by_key

FERRY = next(path for path in EXAMPLES if path.stem == "ferry_capstan")
SHUNTER = next(path for path in EXAMPLES if path.stem == "brickyard_shunter")
USABLE = tuple(key for key, row in steels().items() if not row.reference_only)
OLD_HUB = """steel = "8620_carb_63"
reused = false
outside_diameter = "52 mm"
measured = { teeth = 26 }
"""


@pytest.fixture(scope="module")
def every_steel() -> Comparison:
    """All steels that may be designed with, for the shaft of the quick scenario."""
    return compare(loaded(*QUICK), Wanted(external=USABLE), workers=2)


def test_every_row_is_the_check_of_the_file_edited_by_hand(every_steel: Comparison, tmp_path: Path) -> None:
    text = edited(*QUICK)
    assert text.count(OLD_SHAFT) == 1
    assert len(every_steel.rows) == every_steel.checked == len(USABLE) == len(steels()) - 1
    assert {row.external for row in every_steel.rows} == set(USABLE)
    for row in every_steel.rows:
        path = tmp_path / f"{row.external}.toml"
        path.write_text(text.replace(OLD_SHAFT, new_shaft(row.external)))
        alone = assess(load_scenario(path))
        assert row.found.weakest == alone.weakest
        assert row.found.verdict == alone.verdict
        assert row.found.joint_verdict == alone.joints[0].verdict
        assert row.found.missing == alone.undecided_by
        fatigue = alone.joints[0].fatigue.life
        assert row.found.fatigue_life == (math.inf if fatigue is None else fatigue)
        wear = alone.joints[0].wear
        assert wear is not None
        assert (row.found.life, row.found.life_reason) == (None, wear.reason)


def test_the_changes_of_a_row_repeat_it(every_steel: Comparison) -> None:
    row = next(row for row in every_steel.rows if row.external == "4140_PH28_32")
    assert row.changes == {
        "joint[1].external.steel": "4140_PH28_32",
        "joint[1].external.reused": False,
        "joint[1].external.hardness": None,
        "joint[1].external.measured": None,
    }
    assert assess(edited_by_key(loaded(*QUICK), row.changes)).weakest == row.found.weakest


def test_rows_are_sorted_by_margin_and_equal_ones_stay_in_the_order_of_the_list(
    every_steel: Comparison,
) -> None:
    keys = [(SORTS["safety"](row), USABLE.index(row.external)) for row in every_steel.rows]
    assert keys == sorted(keys)
    assert len({key for key, _ in keys}) < len(keys)
    margins = [margin(row.found.weakest) for row in every_steel.rows]
    assert margins == sorted(margins, reverse=True)


def test_letters_say_what_is_dominated(every_steel: Comparison) -> None:
    rows = {(row.external, row.internal): row for row in every_steel.rows}
    best = [row for row in every_steel.rows if row.dominated_by is None]
    assert 0 < len(best) < len(rows)
    for row in rows.values():
        assert row.letter == "" or row.letter.isupper() is (row.dominated_by is None)
        if row.dominated_by is not None:
            over = rows[row.dominated_by]
            assert over.dominated_by is None
            pairs = list(zip(over.scores, row.scores, strict=True))
            assert all((a is None) is (b is None) for a, b in pairs)
            assert all(a >= b for a, b in pairs if a is not None and b is not None)
            assert over.scores != row.scores
    letters = [row.letter for row in rows.values() if row.letter]
    assert len(letters) == len(set(letters))


def test_a_new_hub_and_its_wear_life(tmp_path: Path) -> None:
    names = ("1045_norm", "4140_nit")
    found = compare(loaded(), Wanted(internal=names), sort="life", workers=1)
    for row in found.rows:
        hub = OLD_HUB.replace("8620_carb_63", row.internal).replace("measured = { teeth = 26 }\n", "")
        path = tmp_path / "hand.toml"
        path.write_text(edited((OLD_HUB, hub)))
        joint = assess(path).joints[0]
        assert joint.wear is not None
        assert joint.wear.life is not None
        assert row.found.life == joint.wear.life[:2]
        assert row.external == "8620_carb_63"
    lives = [row.found.life[0] for row in found.rows if row.found.life is not None]
    assert lives == sorted(lives, reverse=True)
    assert len(lives) == 2


def test_by_hand_the_flank_of_a_softer_hub() -> None:
    """
    2 T Ka Km / (D N h L) against the guide's table, 2000 psi for 230 to 260 HB (dudley-1957, Table I).

    240 N m x 2.5 x 0.97 = 582 N m; Ka 1.2, light shock (spline-factor-page); Km 1 for 0.0014 mm/mm and
    1.25 in (its row 0.001); D = 26/20 in; h = 1/20 in less the worn tips, 34.29 to 34.163 mm across;
    1860 rpm / 2.5 for 400 h are 1.7856e7 turns: 2^(log10(1e8 / n) / 2) = 1.296 (machinery-handbook,
    Table 10: 1.4 at 1e7, 1.0 at 1e8).
    """
    found = compare(
        loaded(('root = "flat"', 'root = "fillet"')), Wanted(internal=("4140_PH28_32",)), workers=1
    )
    torque = 240.0 * 2.5 * 0.97
    diameter, height = 26.0 / 20.0 * 25.4e-3, 25.4e-3 / 20.0 - (34.29e-3 - 1.345 * 25.4e-3) / 2.0
    pressure = 2.0 * torque * 1.2 * 1.0 / (diameter * 26.0 * height * 31.75e-3)
    turns = (0.1 * 600.0 + 0.9 * 2000.0) / 2.5 * 60.0 * 400.0
    allowed = 2000.0 * 6894.757 * 2.0 ** (0.5 * math.log10(1e8 / turns))
    weakest = found.rows[0].found.weakest
    assert weakest is not None
    assert (weakest.check, weakest.method) == ("flank pressure", "guide, tabulated")
    assert weakest.safety_factor == pytest.approx(allowed / pressure, rel=1e-6)
    assert weakest.safety_factor == pytest.approx(0.4208, abs=5e-5)


def test_a_sleeve_is_one_piece_with_both_hubs(tmp_path: Path) -> None:
    text = FERRY.read_text()
    assert text.count('"4140_QT540"') == 3
    hand = text.replace('"4140_QT540"', '"42CrMo4_QT_100"')
    for teeth in (27, 22):
        block = f"reused = false\nmeasured = {{ teeth = {teeth} }}\n"
        assert hand.count(block) == 1
        hand = hand.replace(block, "reused = false\n")
    path = tmp_path / "hand.toml"
    path.write_text(hand)
    found = compare(FERRY, Wanted(joint="CAPSTAN shaft", internal=("42crmo4 qt-100",)), workers=1)
    (row,) = found.rows
    alone = assess(path)
    assert found.joint == "capstan shaft"
    assert row.found.weakest == alone.weakest
    assert row.found.verdict == alone.verdict
    assert [key for key in row.changes if key.endswith("steel")] == [
        "joint[1].internal.steel", "joint[2].steel", "joint[3].internal.steel",
    ]  # fmt: skip


def test_inspections_of_the_old_pair_go_with_it(tmp_path: Path) -> None:
    text = SHUNTER.read_text()
    hand = text[: text.index("\n[[inspection]]")]
    old = 'reused = true\nhardness = "60 HRC +/- 1"\nmeasured = { teeth = 26, major_diameter = "34.19 mm" }\n'
    assert hand.count(old) == 1
    for path in (SHUNTER, SHUNTER.with_name("brickyard_shunter_round.csv")):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    path = tmp_path / "hand.toml"
    path.write_text(hand.replace(old, "reused = false\n"))
    found = compare(SHUNTER, Wanted(external=("8620_carb_63",)), workers=1)
    (row,) = found.rows
    assert row.changes["inspection"] is None
    assert "inspection" in found.changed
    wear = assess(path).joints[0].wear
    assert wear is not None
    assert wear.life is not None
    assert row.found.life == wear.life[:2]


def test_inspections_of_other_joints_stay() -> None:
    scenario = load_scenario(SHUNTER)
    document = dict(scenario.document)
    other = {**document["joint"][0], "name": "other"}
    more = [{**document["inspection"][0], "joint": "other"}, *document["inspection"]]
    changed = edited_by_key(scenario, {"joint": [document["joint"][0], other], "inspection": more})
    from torqcheck.assessment.compare.choices import changes_of

    kept = changes_of(changed, 0, (steels()["4140_ind"], None))["inspection"]
    assert kept == more[:1]


def test_one_process_and_two_find_the_same() -> None:
    names = ("4140_ind", "1045_CD", "8620_carb_30", "4140_PH28_32")
    one, two = (compare(loaded(*QUICK), Wanted(external=names), workers=n).to_dict() for n in (1, 2))
    assert one == two


def test_hidden_rows_are_counted_and_advice_knows_all() -> None:
    names, scenario = ("4140_ind", "1045_CD", "4140_PH28_32", "4140_PH_min28", "4340_PH"), loaded(*QUICK)
    whole = compare(scenario, Wanted(external=names), workers=1)
    factors = {row.name: row.found.weakest.safety_factor for row in whole.rows if row.found.weakest}
    least = sorted(factors.values())[2]
    safe = compare(scenario, Wanted(external=names, min_safety=least), workers=1)
    assert {row.name for row in safe.rows} == {name for name in names if factors[name] >= least}
    assert safe.hidden == {f"below a safety factor of {least:g}": len(names) - len(safe.rows)}
    cheap = compare(scenario, Wanted(external=names, max_cost=1.8), pareto=True, workers=1)
    front = {row.name for row in whole.rows if row.dominated_by is None}
    assert front < set(names)
    assert {row.name for row in cheap.rows} == front - {"4140_ind", "4340_PH"}
    assert sum(cheap.hidden.values()) == len(names) - len(cheap.rows)
    assert safe.advice == cheap.advice == whole.advice


@pytest.mark.parametrize("sort", list(SORTS))
def test_each_order_is_what_it_says(sort: Any) -> None:
    names = ("1045_CD", "4140_ind", "8620_carb_30", "4140_PH28_32", "8620_carb_11", "8620_carb_63")
    rows = compare(loaded(*QUICK), Wanted(external=names), sort=sort, workers=2).rows
    keys = [(SORTS[sort](row), names.index(row.external)) for row in rows]
    assert keys == sorted(keys)
    if sort == "cost":
        assert [row.cost_index for row in rows] == [1.2, 1.8, 2.2, 2.2, 2.2, 2.4]
    if sort == "hardness":
        assert [row.vickers for row in rows] == sorted((row.vickers for row in rows), reverse=True)


# what is chosen


def asked(scenario: Scenario, wanted: Wanted) -> Question:
    """The question alone, without its checks."""
    splined = [index for index, joint in enumerate(scenario.joint) if "spline" in joint.kind]
    return question_of(scenario, prepared_of(scenario, "as stated"), wanted, splined)


def taken(wanted: Wanted, side: int = 0, scenario: Scenario | None = None) -> set[str]:
    pairs = asked(scenario or loaded(), wanted).pairs
    return {pair[side].id for pair in pairs}  # type: ignore[union-attr]


def fits(row: Steel, size: float) -> bool:
    """The section of a row, written out: above its low end, up to its high end; one size is a limit."""
    if row.section_max is None:
        return True
    low = 0.0 if row.section_min in {None, row.section_max} else row.section_min or 0.0
    return low < size <= row.section_max


def test_all_takes_what_suits_a_shaft_and_counts_the_rest() -> None:
    question = asked(loaded(), Wanted(external=("all",)))
    size = 1.35 * 25.4e-3  # over the teeth of 26 teeth 20/40: 27/20 in
    wanted = {
        key for key, row in steels().items() if not row.reference_only and not row.is_iron and fits(row, size)
    }
    assert taken(Wanted(external=("ALL ",))) == wanted
    assert sum(question.left_out.values()) + len(wanted) == len(steels())
    assert question.left_out["iron, no material for a shaft"] == 2
    assert question.left_out["for reference only, not to design with"] == 1
    assert question.sides == ("external",)
    assert {pair[1] for pair in question.pairs} == {None}


def test_a_hub_may_be_iron_and_is_bored_before_it_is_hardened() -> None:
    hub, bar, wall = taken(Wanted(internal=("all",)), 1), 52e-3, 0.5 * (52e-3 - 1.35 * 25.4e-3)
    assert {"DI_80_55_06", "DI_100_70_03"} <= hub
    assert {key for key in USABLE if fits(steels()[key], bar)} <= hub
    for key in hub:
        assert fits(steels()[key], bar) or fits(steels()[key], wall)
    state = prepared_of(loaded(), "as stated").joints[0].spline
    assert state is not None
    assert not holds_for(steels()["1018_CD"], state, "internal")  # 18 to 32 mm, and cold drawn as bar
    assert holds_for(steels()["4140_QT425"], state, "internal") is fits(steels()["4140_QT425"], wall)


def test_a_row_that_does_not_hold_for_the_part_says_so() -> None:
    """The shaft has 34.3 mm over its teeth; the hub is bar of 52 mm with a wall of 8.9 mm."""
    state = prepared_of(loaded(), "as stated").joints[0].spline
    assert state is not None
    said = {
        (key, side): member_notes(steels()[key], state, side).section
        for key, side in (
            ("1018_CD", "external"), ("1018_CD", "internal"), ("4130_QT370", "internal"),
            ("8620_carb_63", "external"), ("8620_carb_63", "internal"), ("1541_CD", "external"),
        )
    }  # fmt: skip
    assert (
        said["1018_CD", "external"]
        == f"{NOT_HELD}: it is for up to 32 mm, the shaft has 34 mm over its teeth"
    )
    assert said["1018_CD", "internal"] == f"{NOT_HELD}: it is for up to 32 mm, bar for this hub has 52 mm"
    assert said["4130_QT370", "internal"] == (
        "the row is for up to 13 mm, bar for this hub has 52 mm: bore it before it is hardened (wall 9 mm)"
    )
    assert said["8620_carb_63", "external"] == said["8620_carb_63", "internal"] == ""
    assert said["1541_CD", "external"] == "the row states no section: ask for the strength in yours"
    unknown = prepared_of(loaded(('outside_diameter = "52 mm"\n', "")), "as stated").joints[0].spline
    assert unknown is not None
    assert "not in the file" in member_notes(steels()["8620_carb_63"], unknown, "internal").section


def test_nothing_named_takes_the_one_new_member() -> None:
    question = asked(loaded(), Wanted())
    assert question.sides == ("internal",)
    assert "internal" in question.assumed
    for other in ("reused = true", ""):
        scenario = loaded(("reused = false", other or "reused = true"))
        with pytest.raises(UsageError, match="no member is stated as new"):
            asked(scenario, Wanted())
    with pytest.raises(UsageError, match="both members are stated as new"):
        asked(loaded(("reused = true", "reused = false")), Wanted())


@pytest.mark.parametrize("scale", ["HB", "HRC", "HV"])
def test_limits_of_hardness_include_their_ends(scale: str) -> None:
    """8620_carb_63 has 58 to 62 HRC (653 to 746 HV), 4140_PH28_32 has 271 to 315 HB."""
    cases: Mapping[str, tuple[str, float, float, str]] = {
        "HB": ("4140_PH28_32", 271.0, 315.0, "HB"),
        "HRC": ("8620_carb_63", 58.0, 62.0, "HRC"),
        "HV": ("8620_carb_63", 653.0, 746.0, "HV"),
    }
    key, low, high, unit = cases[scale]
    for above, inside in ((low, True), (low + 0.5, False)):
        assert (key in taken(Wanted(external=("all",), above=f"{above:g}{unit}"))) is inside
    for below, inside in ((high, True), (high - 0.5, False)):
        assert (key in taken(Wanted(external=("all",), below=f"{below:g} {unit}"))) is inside


def test_the_surface_counts_and_not_the_core() -> None:
    hard = taken(Wanted(external=("all",), above="50HRC"))
    assert "8620_carb_63" in hard
    assert "4140_PH28_32" not in hard
    soft = taken(Wanted(external=("all",), below="300HB"))
    assert "8620_carb_63" not in soft
    assert not hard & soft


def test_lists_make_all_pairs_and_together_makes_equal_ones() -> None:
    lists = Wanted(external=("4140_ind", "4140 IND", "1045_CD"), internal=("8620_carb_63", "4140-nit"))
    names = [(a.id, b.id) for a, b in asked(loaded(), lists).pairs if a is not None and b is not None]
    assert names == [
        ("4140_ind", "8620_carb_63"), ("4140_ind", "4140_nit"),
        ("1045_CD", "8620_carb_63"), ("1045_CD", "4140_nit"),
    ]  # fmt: skip
    both = Wanted(external=("4140_ind",), internal=("8620_carb_63", "4140_ind"), together=True)
    assert [(a.id, b.id) for a, b in asked(loaded(), both).pairs if a and b] == [
        ("4140_ind", "4140_ind"), ("8620_carb_63", "8620_carb_63"),
    ]  # fmt: skip
    every = asked(loaded(), Wanted(together=True))
    assert every.sides == ("external", "internal")
    names_of_both = {a.id for a, _ in every.pairs if a is not None}
    assert names_of_both == taken(Wanted(external=("all",))) & taken(Wanted(internal=("all",)), 1)
    assert len(every.pairs) + sum(every.left_out.values()) == len(steels())


@pytest.mark.parametrize(
    ("wanted", "words"),
    [
        (Wanted(external=("8620 carb",)), '--external: there is no steel "8620 carb" .* 8620_carb_'),
        (Wanted(external=("all", "4140_ind")), "contradict each other"),
        (Wanted(internal=("4140_ind", "")), "--internal: a name is empty"),
        (Wanted(external=("all",), above="300"), '--above: "300" has no scale'),
        (Wanted(external=("all",), above="700HB"), "--above: .* outside 80 to 615 HB"),
        (Wanted(external=("all",), above="300 HB +/- 5"), "no plain limit"),
        (Wanted(external=("all",), above="68HRC"), "no steel of the tables suits: .*softer than 68HRC"),
        (Wanted(external=("all",), above="400HB", below="30HRC"), "exchange them"),
        (Wanted(external=("4140_ind",), above="300HB"), "limit what all takes in"),
        (Wanted(joint="gearbox imput"), 'no joint "gearbox imput"; did you mean "gearbox input"'),
        (Wanted(joint="0"), 'no joint "0"'),
        (Wanted(min_safety=-1.0), "--min-safety: -1 must be"),
        (Wanted(max_cost=math.inf), "--max-cost: inf must be"),
        (Wanted(external=("all",), internal=("all",)), "pairs, and each is a whole check"),
        (Wanted(external=(next(k for k, v in steels().items() if v.reference_only),)), "reference only"),
    ],
)
def test_what_cannot_be_made_out_is_said(wanted: Wanted, words: str) -> None:
    with pytest.raises(UsageError, match=words):
        asked(loaded(), wanted)


def test_all_mistakes_are_said_at_once() -> None:
    wanted = Wanted(joint="x", external=("nope", "all"), internal=("nix",), above="3", max_cost=-1.0)
    with pytest.raises(UsageError) as error:
        asked(loaded(), wanted)
    lines = str(error.value).splitlines()
    assert [line.split(":")[0] for line in lines] == [
        "--above", "--max-cost", "--joint", "--external", "--internal",
    ]  # fmt: skip


def test_a_joint_without_two_members_is_refused() -> None:
    auger = load_scenario(next(path for path in EXAMPLES if path.stem == "grain_auger"))
    with pytest.raises(UsageError, match=r'"motor key" is of the kind key; .*"gearbox input"'):
        asked(auger, Wanted(joint="motor key", external=("4140_ind",)))
    assert asked(auger, Wanted(joint="3", external=("4140_ind",))).joint == "gearbox input"
    with pytest.raises(UsageError, match="no splined joint"):
        question_of(auger, prepared_of(auger, "as stated"), Wanted(), [])


def test_own_steels_are_taken_in_and_an_unknown_cost_is_neither_more_nor_less(tmp_path: Path) -> None:
    header = "id,grade,condition,ultimate_MPa,yield_MPa,core_hardness_min_HB,source"
    (tmp_path / "shop.csv").write_text(f'{header}\nSHOP-7,AISI 4140,"quenched, tempered",950,800,285,mill\n')
    path = tmp_path / "own.toml"
    path.write_text(edited(*QUICK) + '\n[materials]\ntables = ["shop.csv"]\n')
    scenario = load_scenario(path)
    assert "SHOP-7" in taken(Wanted(external=("all",)), scenario=scenario)
    names = ("shop 7", "4140_PH28_32", "4140_ind")
    found = compare(scenario, Wanted(external=names), sort="cost", workers=1)
    assert found.rows[-1].external == "SHOP-7"
    assert found.rows[-1].cost_index is None
    assert found.rows[-1].dominated_by is None
    pair = compare(scenario, Wanted(external=("shop 7",), internal=("4140_ind",)), workers=1).rows[0]
    assert (pair.costs, pair.cost_index) == ((None, 2.4), None)
    assert pair.lead_days == (None, None)
    alone = edited(*QUICK).replace(OLD_SHAFT, new_shaft("SHOP-7")) + '\n[materials]\ntables = ["shop.csv"]\n'
    path.write_text(alone)
    assert found.rows[-1].found.weakest == assess(path).weakest


def test_a_weld_near_the_teeth_makes_all_steels_soft_and_says_so() -> None:
    scenario = loaded(*QUICK, ("reused = true", "reused = true\nwelded_near = true"))
    found = compare(scenario, Wanted(external=("4140_PH28_32", "1144_SR")), workers=1)
    assert "count as annealed" in found.changed
    notes = {row.external: row.notes["external"].welding for row in found.rows}
    # 4140/4142 of the table: 0.41 C, 0.88 Mn, 0.95 Cr, 0.20 Mo: 0.41 + 0.88/6 + 1.15/5 = 0.787
    assert "carbon equivalent 0.79, preheat" in notes["4140_PH28_32"]
    assert "sulphur" in notes["1144_SR"]
    assert len({row.found.vickers for row in found.rows}) == 1


def test_another_joint_that_is_weaker_is_named() -> None:
    auger = next(path for path in EXAMPLES if path.stem == "grain_auger")
    found = compare(auger, Wanted(internal=("4140_PH28_32", "1045_norm")), workers=1)
    text = " ".join(found.advice)
    assert "NO CHOICE PASSES" in text
    assert "None of that is at gearbox input" in text
    assert "cheapest choice with which it does is 1045_norm" in text
    assert "With every choice the weakest check of the path is not at gearbox input but at motor key" in text
    turned = " ".join(compare(loaded(*QUICK), Wanted(external=("1045_CD",)), workers=1).advice)
    assert "NO CHOICE PASSES" in turned
    assert "None of that" not in turned
    assert "not at gearbox input" not in turned
    for row in found.rows:
        assert row.found.here is not None
        assert row.found.weakest is not None
        assert (row.found.here.joint, row.found.weakest.joint) == ("gearbox input", "motor key")


def test_the_cheapest_that_passes_is_named_with_its_order_and_the_rule() -> None:
    scenario = loaded(*QUICK, ("held = true\n", 'inertia = "2.4 kg*m^2"\n'), ('"240 N*m"', '"60 N*m"'))
    found = compare(scenario, Wanted(external=("8620_carb_63", "4140_PH28_32")), workers=1)
    assert {row.found.verdict for row in found.rows} == {"pass"}
    text = " ".join(found.advice)
    assert "CHEAPEST THAT PASSES: 4140_PH28_32" in text
    assert "against the pairing rule (shaft softer); the cheapest that passes and keeps it is 8620" in text
    assert "Order: AISI 4140/4142, pre-hardened" in text
    # cheaper still, and it passes; but its row ends at 32 mm, and the shaft has 34
    (cold,) = compare(scenario, Wanted(external=("1045_CD",)), workers=1).rows
    assert (cold.found.verdict, cold.cost_index) == ("pass", 1.2)
    best = cheapest_that_passes((cold, *found.rows))
    assert best is not None
    assert best.external == "4140_PH28_32"
    assert cheapest_that_passes((cold,)) is cold
    assert "Mind the section: the row does not hold" in " ".join(advice_on((cold,), "gearbox input"))


def test_a_choice_outside_a_formula_is_listed_and_the_others_stand(monkeypatch: pytest.MonkeyPatch) -> None:
    from torqcheck.assessment.compare import row as compare_row
    from torqcheck.errors import DomainError

    real = compare_row.assess

    def sometimes(scenario: Scenario) -> Any:
        if scenario.joint[0].external.steel == "1045_CD":  # type: ignore[union-attr]
            raise DomainError("too far out")
        return real(scenario)

    monkeypatch.setattr(compare_row, "assess", sometimes)
    found = compare(loaded(*QUICK), Wanted(external=("1045_CD", "4140_ind")), workers=1)
    assert [row.external for row in found.rows] == ["4140_ind"]
    assert [(one.external, one.reason) for one in found.not_checked] == [("1045_CD", "too far out")]
