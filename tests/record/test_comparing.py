"""What changed between two entries: every changed key, no other; factors as the results have them."""

import json
from pathlib import Path

import pytest
from builder import edited
from record._writer import ABOUT

from torqcheck.assessment import assess
from torqcheck.record import append, difference
from torqcheck.record.comparing import Difference
from torqcheck.record.folder import RecordError
from torqcheck.report.record import about_entry, difference_sheet, entry_files
from torqcheck.scenario import load_scenario

CHANGES = {
    "wider play": ('lash = { clearance = "0.05 mm" }', 'lash = { clearance = "0.08 mm" }'),
    "other steel": ('steel = "8620_carb_63"\nreused = false', 'steel = "4140_QT425"\nreused = false'),
    "no braking": ('regen_torque = "90 N*m"\n', ""),
}


@pytest.fixture(scope="module")
def record(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Four checks of one build: as it is, and with one more change each time."""
    folder = tmp_path_factory.mktemp("record")
    changes: list[tuple[str, str]] = []
    for number, change in enumerate([None, *CHANGES.values()]):
        changes += [] if change is None else [change]
        file = folder / "job.toml"
        file.write_text(edited(*changes, ("2026-03-14", f"2026-03-{14 + number}")), "utf-8")
        assessment = assess(file)
        about = about_entry(assessment, "T. Fitter", f"2026-03-{14 + number}")
        append(folder / "build", entry_files(assessment, load_scenario(file), {}), about)
    return folder / "build"


def between(record: Path, before: int, after: int) -> Difference:
    return difference(record / f"{before:04d}", record / f"{after:04d}")


@pytest.mark.parametrize(
    ("before", "after", "key", "old", "new"),
    [
        (1, 2, "joint[gearbox input].lash.clearance", '"0.05 mm"', '"0.08 mm"'),
        (2, 3, "joint[gearbox input].internal.steel", '"8620_carb_63"', '"4140_QT425"'),
        (3, 4, "motor.regen_torque", '"90 N*m"', None),
        (4, 3, "motor.regen_torque", None, '"90 N*m"'),
    ],
)
def test_the_key_that_changed_is_named(
    record: Path, before: int, after: int, key: str, old: str | None, new: str | None
) -> None:
    found = {change.key: (change.before, change.after) for change in between(record, before, after).inputs}
    assert found == {
        key: (old, new),
        "record.date": (f"2026-03-{13 + before}", f"2026-03-{13 + after}"),
    }


def test_an_entry_against_itself_shows_nothing(record: Path) -> None:
    found = between(record, 2, 2)
    assert not found.inputs
    assert not found.results
    assert not found.factors


def test_factors_are_those_of_the_results(record: Path) -> None:
    found = between(record, 1, 3)
    results = [json.loads((record / name / "result.json").read_text()) for name in ("0001", "0003")]
    old, new = (
        {(j["name"], c["name"], c["method"]): c["safety_factor"] for j in r["joints"] for c in j["checks"]}
        for r in results
    )
    shown = {(c.joint, c.check, c.method): (c.before, c.after) for c in found.factors}
    assert shown == {key: (old.get(key), new.get(key)) for key in old | new if old.get(key) != new.get(key)}
    today = [c.after for c in found.factors if c.after is not None and c.before is not None]
    assert today == sorted(today)


def test_the_lash_is_followed_over_all_entries_up_to_the_last(record: Path) -> None:
    readings = between(record, 1, 3).lash
    assert [reading.entry for reading in readings] == ["0001", "0002", "0003"]
    assert [reading.date for reading in readings] == ["2026-03-14", "2026-03-15", "2026-03-16"]
    assert [reading.clearance for reading in readings] == pytest.approx([50e-6, 80e-6, 80e-6])
    # along the pitch circle of 26 teeth of 20/40: 1.3 in
    assert readings[1].angle == pytest.approx(80e-6 / (0.5 * 1.3 * 0.0254))


def test_the_sheet_says_what_changed_within_80_columns(record: Path) -> None:
    from torqcheck.report.formats.as_text import as_text

    text = as_text(difference_sheet(between(record, 1, 2)))
    assert "joint[gearbox input].lash.clearance" in text
    assert "+0.030" in text
    assert max(map(len, text.splitlines())) <= 80


def test_an_altered_entry_is_not_compared(record: Path, tmp_path: Path) -> None:
    import shutil

    copy = shutil.copytree(record, tmp_path / "build")
    (copy / "0002" / "result.json").chmod(0o644)
    (copy / "0002" / "result.json").write_text("{}")
    with pytest.raises(RecordError, match=r"0002/result\.json: is not what was recorded"):
        difference(copy / "0001", copy / "0002")
    # the trend leaves it out
    assert [reading.entry for reading in difference(copy / "0001", copy / "0004").lash] == [
        "0001",
        "0003",
        "0004",
    ]


def test_a_result_of_another_version_is_read_as_far_as_it_goes(tmp_path: Path) -> None:
    content = {"scenario.toml": b"format = 1\n", "result.json": b'{"verdict": "pass"}'}
    append(tmp_path / "build", content, ABOUT)
    append(tmp_path / "build", content | {"result.json": b"[]"}, ABOUT | {"verdict": "odd"})
    found = difference(tmp_path / "build" / "0001", tmp_path / "build")
    assert not found.factors
    assert "odd" in difference_sheet(found).words[0]
