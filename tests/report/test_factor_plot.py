"""The bars: whatever misses its target is drawn, the lowest on top, and the words are true."""

from dataclasses import replace
from functools import cache

import pytest
from builder import EXAMPLES

from torqcheck.assessment import assess
from torqcheck.assessment.result import Assessment
from torqcheck.checks import Check
from torqcheck.report.build import sheet_of
from torqcheck.report.check_words import BY
from torqcheck.report.plots.factor_plot import MOST, factor_figure
from torqcheck.report.printout.checks import printed_checks
from torqcheck.report.sheet import Figure, Table
from torqcheck.report.words import VERDICT_WORDS

NAMES = ("glasshouse_tug", "grain_auger", "cider_press")


@cache
def assessed(name: str) -> Assessment:
    return assess(next(path for path in EXAMPLES if path.stem == name))


def drawn(assessment: Assessment) -> tuple[Figure, Table]:
    figure = factor_figure(assessment)
    assert figure is not None
    assert isinstance(figure.words, Table)
    return figure, figure.words


def loaded(assessment: Assessment) -> list[Check]:
    return [
        c for joint in assessment.joints for c in joint.checks if c.counts and c.safety_factor is not None
    ]


def with_checks(assessment: Assessment, checks: tuple[Check, ...]) -> Assessment:
    first, *others = assessment.joints
    return replace(assessment, joints=(replace(first, checks=checks), *others))


@pytest.mark.parametrize("name", NAMES)
def test_what_misses_its_target_is_drawn_and_the_lowest_stands_on_top(name: str) -> None:
    assessment = assessed(name)
    figure, table = drawn(assessment)
    margins = [float(row[4]) for row in table.rows]
    assert margins == sorted(margins)
    names = [row[0] for row in table.rows]
    checks = loaded(assessment)
    for check in checks:
        if check.verdict != "pass":
            assert f"{check.joint}: {check.name} ({check.method})" in names
    assert margins[0] == pytest.approx(min(check.margin for check in checks), rel=0.01)
    joints = len({check.joint for check in checks})
    if len(checks) >= MOST >= joints:
        assert len(table.rows) == MOST
    left = len(checks) - len(table.rows)
    assert (f"{left} checks that pass are left out" in figure.caption) == (left > 1)


def test_more_that_miss_their_target_than_there_is_room_for_are_all_drawn() -> None:
    assessment = assessed("cider_press")
    model = next(check for check in loaded(assessment) if not check.local)
    low = tuple(
        replace(model, name=f"low {i}", value=1.0, allowable=0.9 * model.target) for i in range(MOST + 5)
    )
    high = (*(replace(low[0], name=f"high {i}", allowable=9.0 * model.target) for i in range(2)),)
    figure, table = drawn(with_checks(assessment, (*high, *low)))
    verdict = low[0].verdict
    assert [row[1] for row in table.rows].count(VERDICT_WORDS[verdict]) == MOST + 5
    assert "left out, none of them the lowest of its joint" in figure.caption


def test_the_heading_of_the_checks_says_where_the_first_tooth_stands() -> None:
    assessment = assessed("cider_press")
    plain = with_checks(assessment, tuple(c for c in assessment.joints[0].checks if not c.local))
    plain = replace(plain, joints=plain.joints[:1])
    for found, words in ((assessment, "weakest first, first tooth alone last"), (plain, "weakest first")):
        for table in (printed_checks(found, ("si",)), sheet_of(found, "si", 80).parts[0]):
            assert table.title.split(" (")[0] == f"Checks, {words}"


@pytest.mark.parametrize("name", NAMES)
def test_within_each_group_of_the_checks_the_weakest_stands_first(name: str) -> None:
    checks = {
        (c.joint, c.name, BY[c.method]): c
        for joint in assessed(name).joints
        for c in joint.checks
        if c.counts
    }
    table = printed_checks(assessed(name), ("si",))
    by = [column.title for column in table.columns].index("By")
    rows = [checks[row[0], row[1], row[by]] for row in table.rows if (row[0], row[1], row[by]) in checks]
    order = [(check.local and check.verdict != "fail", check.margin) for check in rows]
    assert len(order) == len(checks)
    assert order == sorted(order)
