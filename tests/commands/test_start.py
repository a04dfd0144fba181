"""No command loads what it does not use: start-up time is part of the pleasure."""

import subprocess
import sys

import pytest
from builder import EXAMPLES

SPLINES_ONLY = next(path for path in EXAMPLES if path.stem == "cider_press")
# pydantic is not watched: the parser of the command line may load it by itself
HEAVY = {"numpy", "scipy", "pandas", "pint", "rich", "matplotlib"}
LOADED = {
    ("--help",): set(),
    ("assess", "--help"): set(),
    ("--version",): set(),
    ("assess", "missing.toml"): {"numpy"},
    ("assess", str(EXAMPLES[0])): {"numpy"},
    ("compare", "--help"): set(),
    ("schema",): {"numpy"},
    ("materials",): set(),
    ("mate", "--help"): set(),
    ("new", "--help"): set(),
    ("new", "no/such/folder.toml"): set(),
    ("geometry", "iso 4156", "--teeth", "20", "--module", "2 mm"): {"numpy"},
}


@pytest.mark.parametrize("arguments", LOADED, ids=" ".join)
def test_only_what_is_used_is_loaded(arguments: tuple[str, ...]) -> None:
    script = (
        "import sys, io, contextlib\n"
        "from torqcheck.cli import run\n"
        "with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):\n"
        f"    run({list(arguments)!r})\n"
        "print(*{name.split('.')[0] for name in sys.modules})\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60
    )
    assert HEAVY & set(run.stdout.split()) <= LOADED[arguments]


def test_kinds_of_joint_that_a_machine_has_not_are_not_loaded() -> None:
    script = (
        "import sys, io, contextlib\n"
        "from torqcheck.cli import run\n"
        "with contextlib.redirect_stdout(io.StringIO()):\n"
        f"    run(['assess', {str(SPLINES_ONLY)!r}])\n"
        "print(*(name for name in sys.modules if name.startswith('torqcheck.assessment.kinds.')))\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60
    )
    # the walls over grooves and round seats are judged alike
    assert run.stdout.split() == ["torqcheck.assessment.kinds.hub_wall"]
