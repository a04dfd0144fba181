"""The house is in order: sizes, docstrings, nothing unused, lists of public names that are true."""

import ast
import importlib
import inspect
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import house
import pytest
from numpydoc.validate import validate

from torqcheck.formulas import FORMULAS

CODE, TESTS = house.modules("torqcheck"), house.modules("tests")
LEAST_SHARE_OF_TESTS = 0.55
"""Lines of tests for a line of code: it may grow, and not sink."""

FORM = {
    "PR01": "a parameter is missing",
    "PR02": "a parameter is not in the signature",
    "PR03": "the parameters stand in another order",
    "PR04": "a parameter has no type or unit",
    "PR05": "the type of a parameter ends with a full stop",
    "PR07": "a parameter is not described",
    "PR10": "a parameter lacks the space before its colon",
    "RT03": "what is returned is not described",
    "GL03": "blank lines too many",
    "GL05": "tabs",
    "GL06": "a section that nobody knows",
    "GL07": "sections in another order",
    "GL08": "no docstring",
    "SS01": "no summary",
    "SS02": "the summary does not start with a capital letter",
    "SS03": "the summary does not end with a full stop",
    "SS04": "the summary is indented",
    "SS06": "the summary is longer than a line",
}


def public_objects() -> list[Any]:
    """Return every public function and class of the package."""
    found = []
    for module in CODE:
        if module.path.name != "__main__.py":
            held = vars(importlib.import_module(module.name)).items()
            named = [
                thing
                for name, thing in held
                if inspect.isfunction(thing) or inspect.isclass(thing)
                if not name.startswith("_")
            ]
            found += [thing for thing in named if thing.__module__ == module.name]
    return found


def handed_out() -> list[Any]:
    """Return the functions that packages and single modules offer: what a user of the library meets first."""
    homes = [module for module in CODE if module.path.name == "__init__.py" or module.name.count(".") == 1]
    homes = [module for module in homes if not module.name.startswith(house.REACHED_OTHERWISE)]
    pairs = [(importlib.import_module(module.name), module.offered or []) for module in homes]
    things = [getattr(home, name) for home, names in pairs for name in names]
    return list(dict.fromkeys(thing for thing in things if inspect.isfunction(thing)))


def faults_of_form(thing: Callable[..., Any]) -> list[str]:
    """Return what the docstring of a function or class lacks."""
    place = f"{thing.__module__}.{thing.__qualname__}"
    faults = []
    for code, said in validate(place)["errors"]:
        named = set(re.findall(r"'([^']+)'", said))
        if code in {"PR01", "PR02"} and named <= excused(thing):
            continue
        if code == "PR03" and inspect.isclass(thing):
            continue  # fields are given by name, and stand together as they belong together
        if code in FORM:
            faults.append(f"{place}: {code} {said}")
    return faults


def excused(thing: Callable[..., Any]) -> set[str]:
    """Return the parameters that a class has from another, or that a formula names without their star."""
    above: set[str] = set()
    for base in inspect.getmro(thing)[1:] if inspect.isclass(thing) else ():
        above |= set(vars(base).get("__dataclass_fields__", ()))
    several = [one for one in inspect.signature(thing).parameters.values() if one.kind is one.VAR_POSITIONAL]
    starred = {name for one in several if thing in FORMULAS for name in (one.name, f"*{one.name}")}
    return above | starred


def has_section(thing: Any, title: str) -> bool:
    return f"\n{title}\n{'-' * len(title)}\n" in (inspect.getdoc(thing) or "")


def test_the_table_of_counts_is_printed() -> None:
    said = house.table(CODE, TESTS)
    sys.stdout.write(f"\n{said}\n")
    assert len(CODE) > 500
    assert "names that nobody uses          0" in said


def test_no_module_is_longer_than_400_lines() -> None:
    assert [module.name for module in CODE if module.lines > 400] == []


def test_no_function_body_is_longer_than_50_lines() -> None:
    assert {name: lines for name, lines in house.bodies(CODE).items() if lines > 50} == {}


def test_everything_public_has_a_docstring() -> None:
    assert house.without_docstring(CODE) == []


def test_no_name_is_unused() -> None:
    assert house.unused_names(CODE, CODE + TESTS) == []


def test_every_list_of_public_names_is_true_complete_and_sorted() -> None:
    assert house.false_lists(CODE) == []


def test_tests_keep_up_with_the_code() -> None:
    tested, code = (sum(module.code_lines for module in part) for part in (TESTS, CODE))
    assert tested / code >= LEAST_SHARE_OF_TESTS


def test_what_the_packages_hand_out_documents_its_parameters() -> None:
    functions = handed_out()
    assert len(functions) > 300
    taking = [function for function in functions if inspect.signature(function).parameters]
    assert [f"{f.__module__}.{f.__name__}" for f in taking if not has_section(f, "Parameters")] == []


def test_docstrings_that_list_parameters_list_them_as_the_signature_does() -> None:
    listing = [thing for thing in public_objects() if has_section(thing, "Parameters")]
    assert len(listing) > 500
    assert [fault for thing in listing for fault in faults_of_form(thing)] == []


SAMPLE = '''
"""A module."""

__all__ = ["used", "gone"]

LIMIT = 3
_TWICE, _SPARE = 2, 4


def used(width: int) -> int:
    """Return it."""
    # a comment

    return width * _TWICE


def again(depth: int) -> int:
    return again(depth - 1)
'''


@pytest.fixture
def sample(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[house.Module]:
    monkeypatch.setattr(house, "ROOT", tmp_path)
    (tmp_path / "sample.py").write_text(SAMPLE.lstrip())
    (tmp_path / "reader.py").write_text("from sample import used\n\nprint(used(1))\n")
    return [house.Module(tmp_path / "sample.py"), house.Module(tmp_path / "reader.py")]


def test_the_counts_see_what_is_wrong(sample: list[house.Module]) -> None:
    first = sample[0]
    assert (first.name, first.lines, first.code_lines) == ("sample", 17, 7)
    assert house.bodies(sample[:1]) == {"sample.used:9": 3, "sample.again:16": 1}
    assert house.without_docstring(sample[:1]) == ["sample.again"]
    assert house.unused_names(sample[:1], sample) == ["sample.LIMIT", "sample._SPARE", "sample.again"]
    assert house.unused_names(sample[:1], sample[:1]) == [
        "sample.LIMIT",
        "sample._SPARE",
        "sample.used",
        "sample.again",
    ]
    assert house.false_lists(sample) == [
        "sample: gone is not there",
        "sample: again is not listed",
        "sample: not sorted",
    ]


def test_every_room_is_described_where_contributors_read() -> None:
    rooms = [module for module in CODE if module.path.name == "__init__.py" and module.name.count(".") == 2]
    rows = [
        f"| `{module.name.split('.', 1)[1].replace('.', '/')}/` | "
        f"{(ast.get_docstring(module.tree) or '').splitlines()[0].rstrip('.')} |"
        for module in rooms
    ]
    written = (house.ROOT / "DEVELOPERS.md").read_text("utf-8").splitlines()
    assert len(rooms) > 20
    assert [row for row in rows if row not in written] == []
