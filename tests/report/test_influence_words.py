"""What `influence` says of the checks that it ranks, and of those that it does not."""

import json
from pathlib import Path

import pytest
from assessment.test_deciding import SOFT_SAW
from builder import edited
from commands._run import torqcheck


@pytest.fixture(scope="module")
def saw(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A scenario whose first tooth alone is short."""
    path = tmp_path_factory.mktemp("saw") / "saw.toml"
    path.write_text(edited(*SOFT_SAW))
    return path


@pytest.fixture(scope="module")
def head(saw: Path) -> str:
    """The answer in sentences."""
    shown = torqcheck("influence", saw, "--units", "si").stdout
    return " ".join(shown.split("file saw.toml")[0].split())


def test_a_first_tooth_that_is_short_is_named_apart(head: str) -> None:
    assert "The lowest factor of all checks of the joints as a whole lies between" in head
    assert "JUDGED APART, the first tooth alone: gearbox input, flank yield, first tooth (material)" in head
    assert "all but certain" in head.split("JUDGED APART")[1]


def test_json_holds_them_too(saw: Path) -> None:
    found = json.loads(torqcheck("influence", saw, "--format", "json").stdout)
    judged = json.loads(torqcheck("assess", saw, "--format", "json").stdout)["joints"][0]["checks"]
    apart = found["judged_apart"][0]
    (check,) = (entry for entry in judged if entry["name"] == apart["check"])
    assert apart["check"] == "flank yield, first tooth"
    for name in ("safety_factor", "target", "interval", "chance_below_1"):
        assert apart[name] == check[name]


def test_ends_that_read_the_same_are_said_in_words(head: str) -> None:
    known = head.split("if it were known exactly, ")[1]
    assert known.startswith("the lowest factor of the joints as a whole would lie at 2.37, with less spread")
