"""The axial stack in the file: what is taken, and what every slip is told."""

import pytest
from builder import BASE, loaded

from torqcheck.errors import ScenarioError

STACK = """
[stack]
shims = ["0.1 mm", "0.5 mm"]
assembled_at = "20 degC"
running_at = "60 degC"

[stack.shim]
in = "spacer"
result = "nose gap"
target = "1 mm"

[[stack.distance]]
name = "spacer"
length = "80 +/- 0.1 mm"
material = "aluminium"

[[stack.distance]]
name = "shaft"
length = "70 +/- 0.1 mm"
steel = "8620_carb_63"
running_at = "90 degC"

[[stack.distance]]
name = "float"
length = "0.3 mm"
kind = "end float"
from_stop = true

[[stack.result]]
name = "mesh"
kind = "engagement"
joint = "gearbox input"
plus = ["shaft"]
minus = ["spacer", "float"]
less = ["1 mm"]

[[stack.result]]
name = "nose gap"
kind = "gap"
plus = ["spacer"]
minus = ["shaft", "float"]
against = "the plug"

[[stack.result]]
name = "ring"
kind = "stop collar"
plus = ["shaft"]
engagement = "mesh"
gap = "nose gap"

[[stack.part]]
name = "shaft"
from = {}
to = { plus = ["shaft"] }
outside_diameter = "30 mm"
"""
NEW = 'kind = "gap"'
WRONG = {
    "unknown distance": (
        ('plus = ["spacer"]', 'plus = ["spacr"]'),
        'distance "spacr"; did you mean "spacer"?',
    ),
    "unknown distance of a part": (
        ('to = { plus = ["shaft"] }', 'to = { plus = ["shaf"] }'),
        'stack.part[1].to: names an unknown distance "shaf"',
    ),
    "named twice": (
        ('minus = ["shaft", "float"]', 'minus = ["shaft", "spacer", "float"]'),
        'stack.result[2]: names "spacer" twice',
    ),
    "distance twice": (('name = "float"', 'name = "shaft"'), 'stack.distance[3].name: "shaft" is used twice'),
    "result twice": (('name = "ring"', 'name = "mesh"'), 'stack.result[3].name: "mesh" is used twice'),
    "unused distance": (
        (
            '[[stack.result]]\nname = "mesh"',
            '[[stack.distance]]\nname = "cap"\nlength = "3 mm"\n\n[[stack.result]]\nname = "mesh"',
        ),
        'stack.distance[4]: "cap" is used by no result; use it or leave it out',
    ),
    "no sum": (('plus = ["spacer"]', "plus = []"), "stack.result[2].plus: is empty"),
    "two materials": (
        ('steel = "8620_carb_63"\nrunning_at', 'steel = "8620_carb_63"\nmaterial = "steel"\nrunning_at'),
        'stack.distance[2].material: "steel" contradicts steel',
    ),
    "unknown material": (
        ('material = "aluminium"', 'material = "cheese"'),
        'stack.distance[1].material: "cheese" cannot be used',
    ),
    "unknown steel": (
        ('steel = "8620_carb_63"\nrunning_at', 'steel = "8620_carb_36"\nrunning_at'),
        'stack.distance[2].steel: "8620_carb_36" cannot be used',
    ),
    "from stop of a length": (
        ('kind = "end float"\n', ""),
        "stack.distance[3].from_stop: true only goes with an end float",
    ),
    "hot": (
        ('running_at = "60 degC"', 'running_at = "900 degC"'),
        'stack.running_at: "900 degC" is beyond what seals',
    ),
    "cold": (
        ('assembled_at = "20 degC"', 'assembled_at = "-90 degC"'),
        'stack.assembled_at: "-90 degC" is beyond what seals',
    ),
    "hot part": (
        ('running_at = "90 degC"', 'running_at = "900 degC"'),
        'stack.distance[2].running_at: "900 degC" is beyond',
    ),
    "no temperature": (('running_at = "60 degC"', 'running_at = "60 mm"'), "is a length, not a temperature"),
    "unknown joint": (
        ('joint = "gearbox input"', 'joint = "gearbox inputt"'),
        'stack.result[1].joint: "gearbox inputt" is not the name of a joint; did you mean "gearbox input"?',
    ),
    "cut of a gap": (
        ('against = "the plug"', 'internal_cut = "30 mm"'),
        'stack.result[2].internal_cut: "30 mm" only goes with kind = "engagement"',
    ),
    "plug of an engagement": (
        ('less = ["1 mm"]', 'against = "the plug"'),
        'stack.result[1].against: "the plug" only goes with kind = "gap"',
    ),
    "collar without its gap": (('gap = "nose gap"\n', ""), "stack.result[3].gap: is missing"),
    "collar with another gap": (
        ('gap = "nose gap"', 'gap = "nose gop"'),
        'stack.result[3].gap: "nose gop" is no result of kind gap',
    ),
    "collar with an engagement without a name": (
        ('engagement = "mesh"', 'engagement = ""'),
        'stack.result[3].engagement: "" is no result of kind',
    ),
    "collar with a gap for an engagement": (
        ('engagement = "mesh"', 'engagement = "nose gap"'),
        'stack.result[3].engagement: "nose gap" is no result of kind',
    ),
    "shim nowhere": (
        ('in = "spacer"', 'in = "spacre"'),
        'stack.shim.in: "spacre" is no distance; did you mean',
    ),
    "shim for nothing": (
        ('result = "nose gap"', 'result = "ring"'),
        'stack.shim.result: "ring" is no engagement and no gap',
    ),
    "shim beside the sum": (
        ('plus = ["spacer"]\nminus = ["shaft", "float"]', 'plus = ["float"]\nminus = ["shaft"]'),
        'stack.shim.in: "spacer" does not stand in the sum of "nose gap": a pack there changes nothing',
    ),
    "shim without stock": (('shims = ["0.1 mm", "0.5 mm"]\n', ""), "stack.shim.stock: is missing"),
    "shim of nothing": (('shims = ["0.1 mm"', 'shims = ["0 mm"'), 'stack.shims[1]: "0 mm" is no shim'),
    "too many pieces": (('target = "1 mm"', "pieces = 20"), "stack.shim.pieces: 20 must be at most 8"),
    "too many shims": (
        ('shims = ["0.1 mm", "0.5 mm"]', f"shims = {['0.1 mm'] * 31}"),
        "stack.shims: has more than 30 entries; leave some out",
    ),
    "unknown key of the shim": (
        ('target = "1 mm"', 'taget = "1 mm"'),
        'stack.shim.taget: is not a known key; did you mean "target"? known here: in, result',
    ),
    "part without an end": (
        ('to = { plus = ["shaft"] }\n', ""),
        "stack.part[1].to: is missing (where it ends)",
    ),
    "part without a start": (("from = {}\n", ""), "stack.part[1].from: is missing (where it begins)"),
    "no length": (
        ('length = "70 +/- 0.1 mm"', 'length = "70"'),
        'stack.distance[2].length: "70" has no unit',
    ),
    "negative length": (('length = "70 +/- 0.1 mm"', 'length = "-7 mm"'), '"-7 mm" must not be negative'),
    "no cut": (
        ('less = ["1 mm"]', 'less = ["1 mm"]\ninternal_cut = "0.09 mm"'),
        'stack.result[1].internal_cut: "0.09 mm" is no longer than its tolerance of 0.1 mm',
    ),
    "not a kind": ((NEW, 'kind = "gapp"'), 'stack.result[2].kind: "gapp" is not one of the words known here'),
}


def test_a_stack_is_taken_as_written() -> None:
    stack = loaded(base=BASE + STACK).stack
    assert stack is not None
    assert stack.shim is not None
    assert stack.shim.in_ == "spacer"
    assert stack.part[0].from_.plus == ()
    assert stack.distance[2].from_stop


@pytest.mark.parametrize("name", WRONG)
def test_every_slip_is_told_where_it_is(name: str) -> None:
    (old, new), said = WRONG[name]
    assert STACK.count(old) >= 1
    with pytest.raises(ScenarioError) as caught:
        loaded(base=BASE + STACK.replace(old, new, 1))
    assert said in str(caught.value)


def test_a_joint_needs_an_engagement_of_its_own_or_by_the_stack() -> None:
    bare = BASE.replace('engagement = "1.25 in"\n', "")
    assert loaded(base=bare + STACK).joint[0].engagement is None  # type: ignore[union-attr]
    for text in (bare, bare + STACK.replace('joint = "gearbox input"\n', "")):
        with pytest.raises(
            ScenarioError, match=r"joint\[1\]\.engagement: is missing .* \[\[stack.result\]\]"
        ):
            loaded(base=text)


LONG = (
    (
        "spline of its size",
        "1.2 m",
        '"gearbox input" an engagement of 1119 mm',
        "at most 660 mm (20 pitch diameters of the teeth) is taken;",
    ),
    ("wide spline", "1.2 m", '"gearbox input" an engagement of 1119 mm', "at most 1000 mm is taken;"),
)


@pytest.mark.parametrize(("spline", "length", "given", "taken"), LONG, ids=[case[0] for case in LONG])
@pytest.mark.parametrize("own", [True, False], ids=["beside one of its own", "alone"])
def test_an_engagement_by_the_stack_is_no_longer_than_one_that_is_written(
    spline: str, length: str, given: str, taken: str, own: bool
) -> None:
    # 1200 - 80 - 0.3/2 - 1 = 1118.9 mm; 26 teeth of pitch 20 on 33.02 mm, 80 of pitch 20 on 101.6 mm
    base = BASE if own else BASE.replace('engagement = "1.25 in"\n', "")
    if spline == "wide spline":
        base = (
            base.replace("teeth = 26", "teeth = 80")
            .replace('"52 mm"', '"130 mm"')
            .replace('"1.345 in"', '"4.05 in"')
        )
    with pytest.raises(ScenarioError) as caught:
        loaded(base=base + STACK.replace('"70 +/- 0.1 mm"', f'"{length}"'))
    (fault,) = caught.value.faults
    assert str(fault).startswith('test.toml: stack.result[1]: "mesh" gives ')
    assert given in str(fault)
    assert taken in str(fault)
    assert str(fault).endswith(f'check the lengths of its sum, first stack.distance[2].length, "{length}"')


def test_a_cut_of_the_teeth_keeps_a_long_overlap_short() -> None:
    long = STACK.replace('"70 +/- 0.1 mm"', '"1.2 m"')
    assert loaded(base=BASE + long.replace('less = ["1 mm"]', 'internal_cut = "600 mm"')).stack is not None
    with pytest.raises(ScenarioError, match="an engagement of 700 mm"):
        loaded(base=BASE + long.replace('less = ["1 mm"]', 'internal_cut = "700 mm"'))


def test_a_shaft_that_floats_both_ways_has_its_middle_where_it_was_measured() -> None:
    both = (
        STACK.replace('"70 +/- 0.1 mm"', '"1.2 m"')
        .replace("from_stop = true\n", "")
        .replace('"0.3 mm"', '"8 mm"')
    )
    with pytest.raises(ScenarioError, match="an engagement of 1119 mm"):
        loaded(base=BASE + both)
    one_way = both.replace('kind = "end float"', 'kind = "end float"\nfrom_stop = true')
    with pytest.raises(ScenarioError, match="an engagement of 1115 mm"):
        loaded(base=BASE + one_way)


def test_one_joint_has_one_engagement() -> None:
    twice = STACK + '\n[[stack.result]]\nname = "again"\nkind = "engagement"\njoint = "gearbox input"\n'
    with pytest.raises(ScenarioError, match=r'result\[4\]\.joint: "gearbox input" has an engagement already'):
        loaded(base=BASE + twice + 'plus = ["shaft"]\n')


def test_a_plain_shaft_has_no_teeth_to_engage() -> None:
    shaft = '\n[[joint]]\nname = "stub"\nkind = "shaft"\ndiameter = "40 mm"\nsteel = "4340_QT650"\n'
    stack = STACK.replace('joint = "gearbox input"', 'joint = "stub"')
    with pytest.raises(ScenarioError, match=r'stack.result\[1\].joint: "stub" is no splined joint'):
        loaded(base=BASE + shaft + stack)


def test_a_stack_without_results_is_none() -> None:
    with pytest.raises(ScenarioError, match=r"stack.result: is missing"):
        loaded(base=BASE + '\n[stack]\nresult = []\n[[stack.distance]]\nname = "a"\nlength = "3 mm"\n')
