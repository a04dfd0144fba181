"""Signature, docstring and filed data of every formula say the same."""

import importlib
import inspect
import pkgutil
import re

import pytest

import torqcheck
from torqcheck.formulas import FORMULAS

SECTION = re.compile(r"^(\w[\w ]*)\n-+\n(.*?)(?=^\w[\w ]*\n-+\n|\Z)", re.M | re.S)
ENTRY = re.compile(r"^(\w+) : (?:.*?, )?([^,\n]+?)(?:, optional)?$", re.M)
REQUIRED = ("Parameters", "Returns", "Raises", "Notes", "References", "Examples")

for module in pkgutil.walk_packages(torqcheck.__path__, "torqcheck."):
    if module.name.split(".")[1] in {"capacity", "fatigue", "shock", "wear", "geometry", "materials"}:
        importlib.import_module(module.name)


def test_the_register_is_filled() -> None:
    assert len(FORMULAS) >= 20


@pytest.mark.parametrize("function", FORMULAS, ids=lambda f: f"{f.__module__}.{f.__name__}")
def test_said_three_times_the_same(function) -> None:  # type: ignore[no-untyped-def]
    formula, docstring = FORMULAS[function], inspect.getdoc(function) or ""
    sections = dict(SECTION.findall(docstring))
    assert [name for name in REQUIRED if name not in sections] == []
    documented = dict(ENTRY.findall(sections["Parameters"]))
    assert list(documented) == list(formula.symbols) == list(inspect.signature(function).parameters)
    assert documented == {name: symbol.unit for name, symbol in formula.symbols.items()}
    assert formula.text in docstring
