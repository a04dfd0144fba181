"""`torqcheck why` from the terminal."""

import json

import pytest
from builder import EXAMPLES
from commands._run import torqcheck

(TROLLEY,) = (path for path in EXAMPLES if path.stem == "works_trolley")


def test_a_number_is_taken_apart_on_80_columns() -> None:
    run = torqcheck("why", TROLLEY, "flank", "pressure", "S", "--units", "si")
    assert run.returncode == 0, run.stderr
    assert "Sc = 2 T / (D N L h)" in run.stdout
    assert 'joint[2].engagement = "45 mm" [measured]' in " ".join(run.stdout.split())
    assert all(len(line) <= 80 for line in run.stdout.splitlines())


def test_json_is_that_of_the_contract() -> None:
    run = torqcheck("why", TROLLEY, "bursting T", "--format", "json")
    data = json.loads(run.stdout)
    assert {"name", "formula", "symbols", "value", "unit", "source"} <= set(data)
    limit, value = data["symbols"]
    assert {"symbol", "meaning", "value", "unit", "from", "mark"} <= set(limit)
    assert data["value"] == pytest.approx(limit["value"] / value["value"])
    result = json.loads(torqcheck("assess", TROLLEY, "--format", "json").stdout)
    checks = {c["name"]: c for c in result["joints"][1]["checks"] if c["method"] == "guide, tabulated"}
    assert data["value"] == checks["bursting, internal member"]["safety_factor"]


def test_without_a_name_all_names_are_listed() -> None:
    run = torqcheck("why", TROLLEY)
    assert run.returncode == 0
    assert "shock.peak_torque_Nm" in run.stdout
    names = json.loads(torqcheck("why", TROLLEY, "--format", "json").stdout)["names"]
    assert len(names) > 200


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["flank pressur"], "no number of the result is called"),
        (["root shear"], "can mean"),
        (["flank pressure S", "--format", "csv"], "use json"),
    ],
)
def test_bad_input_gives_one_line(arguments: list[str], said: str) -> None:
    run = torqcheck("why", TROLLEY, *arguments)
    assert run.returncode == 2
    assert said in run.stderr
    assert len(run.stderr.splitlines()) == 1


def test_what_the_report_calls_a_number_is_understood() -> None:
    """Every line of the block about the blow that holds a number, by its printed words."""
    report = torqcheck("assess", TROLLEY, "--plain").stdout
    block = report.split("The blow when play closes")[1].split("\n\n")[0].splitlines()[1:]
    labels = [line.split("  ")[0] for line in block if "  " in line]
    labels = [label for label in labels if label and label != "softest part"]
    assert len(labels) >= 8
    for label in (*labels, "weakest link"):
        run = torqcheck("why", TROLLEY, *label.split(), "--format", "json")
        assert run.returncode == 0, (label, run.stderr)
        name = json.loads(run.stdout)["name"]
        assert name.startswith(("shock.", "weakest.")), (label, name)


def test_the_verdict_is_no_number() -> None:
    run = torqcheck("why", TROLLEY, "verdict")
    assert run.returncode == 2
    assert "follows from all of them" in run.stderr
