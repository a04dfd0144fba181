"""`torqcheck order`: its forms, its outline, its exit codes, its refusals."""

import csv
import io
import json
from pathlib import Path

import ezdxf
import pytest
from builder import edited
from commands._run import torqcheck

from torqcheck.cli import run as run_here

ROOT = Path(__file__).parent.parent.parent
TROLLEY = ROOT / "scenarios" / "works_trolley.toml"
HUB = 'steel = "8620_carb_63"\nreused = false'


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    path = tmp_path / "bench.toml"
    path.write_text(edited())
    return path


def test_everything_that_a_shop_needs_stands_on_the_sheet() -> None:
    run = torqcheck("order", TROLLEY, "--format", "text")
    assert run.returncode == 0
    assert run.stderr == ""
    assert max(len(line) for line in run.stdout.splitlines()) <= 80
    text = " ".join(run.stdout.split())
    for wanted in (
        "READY TO ORDER", "DIN 5480, 40 x 2 x 18", "The fit and the class are assumed", "Between pins",
        "16MnCr5, case hardened", "inspection certificate 3.1 to EN 10204", "0.6 to 0.841 mm",
        "adds 5 to 15 working days", "Root fillet", "Ra 1.6 micrometre", "Runout, total", "count the teeth,",
        "of its 18 positions,", "no indication", "4.500 mm",
        "Estimate, not a certificate", "licensed practice",
    ):  # fmt: skip
        assert wanted in text, wanted
    assert "External member" not in text


def test_a_whole_check_that_fails_is_said_and_hinders_nothing(bench: Path, tmp_path: Path) -> None:
    quiet = tmp_path / "quiet.toml"
    weak = ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"')
    quiet.write_text(edited(weak, ('regen_torque = "90 N*m"\n', "")))
    sound, failing = (torqcheck("order", path, "--format", "text") for path in (quiet, bench))
    assert sound.returncode == failing.returncode
    assert "WHOLE CHECK" not in sound.stdout
    assert "SAYS FAIL: gearbox input: " in " ".join(failing.stdout.split())


def test_units_of_the_sheet() -> None:
    metric = torqcheck("order", TROLLEY, "--format", "text", "--units", "si").stdout
    inch = torqcheck("order", TROLLEY, "--format", "text", "--units", "inch").stdout
    assert " in)" not in metric
    assert "29.646" in metric
    assert "29.646" not in inch
    assert "1.1672" in inch


def test_forms_say_the_same() -> None:
    data = json.loads(torqcheck("order", TROLLEY, "--format", "json").stdout)
    assert (data["format"], data["joint"], data["state"], data["dxf"]) == (1, "gearbox input", "ready", None)
    (side,) = data["sides"]
    low, high = data["spline"]["internal"]["between_pins_mm"]
    step = next(s for s in side["inspection"] if "two pins" in s["what"])
    assert (step["minimum_mm"], step["maximum_mm"]) == (low, high)
    rows = list(csv.DictReader(io.StringIO(torqcheck("order", TROLLEY, "--format", "csv").stdout)))
    pins = next(row for row in rows if row["item"] == "between pins")
    assert (float(pins["minimum_mm"]), float(pins["maximum_mm"])) == (low, high)
    assert {row["member"] for row in rows} == {"internal"}
    assert {row["section"] for row in rows} == {"dimension", "material", "making", "inspection"}
    assert all(row["mark"] for row in rows)
    markdown = torqcheck("order", TROLLEY, "--format", "markdown").stdout
    assert markdown.startswith("# torqcheck")
    assert "| ---: |" in markdown


def test_outline_holds_the_new_part_only(tmp_path: Path) -> None:
    target, sheet = tmp_path / "hub.dxf", tmp_path / "order.md"
    run = torqcheck("order", TROLLEY, "--dxf", target, "--format", "markdown", "--out", sheet)
    assert run.returncode == 0
    assert run.stdout == ""
    assert f"ready: written to {target}" in run.stderr
    assert "INTERNAL_TOOTH_SPACE" in sheet.read_text().replace("\\", "")
    drawing = ezdxf.readfile(target)
    assert drawing.audit().errors == []
    layers = {layer.dxf.name for layer in drawing.layers}
    assert "INTERNAL_OUTLINE" in layers
    assert not any(name.startswith("EXTERNAL") for name in layers)
    text = [e.dxf.text for e in drawing.modelspace() if e.dxftype() == "TEXT"]
    assert text[0] == "Works trolley, new coupler to the old gearbox: gearbox input"
    for seed in range(1, 7):  # the order of sets must not show
        torqcheck("order", TROLLEY, "--dxf", tmp_path / "again.dxf", PYTHONHASHSEED=str(seed))
        assert (tmp_path / "again.dxf").read_bytes() == target.read_bytes()


@pytest.mark.parametrize(
    ("changes", "arguments", "code"),
    [
        ((), (), 0),
        (((HUB, 'steel = "unknown"\nreused = false'),), (), 3),
        (
            (
                ("measured = { teeth = 26, major_diameter", "measured = { teeth = 25, major_diameter"),
                ('"1.345 in"', '"1.295 in"'),
            ),
            (),
            1,
        ),
    ],
)
def test_exit_codes(
    changes: tuple[tuple[str, str], ...], arguments: tuple[str, ...], code: int, tmp_path: Path
) -> None:
    path = tmp_path / "bench.toml"
    path.write_text(edited(*changes))
    run = torqcheck("order", path, *arguments)
    assert run.returncode == code
    assert "Both members" in run.stdout
    assert ("Before you order" in run.stdout) is (code != 0)


@pytest.mark.parametrize(
    ("arguments", "code", "problem"),
    [
        (("--joint", "axle"), 2, 'is no joint of the scenario; the splined joints are "gearbox input"'),
        (("--joint", "motor shaft"), 2, "--joint 'motor shaft' is a shaft; the splined joints are"),
        (("--joint", "1"), 2, "--joint '1' is a shaft; the splined joints are"),
        (("--joint", "3"), 2, 'is no joint of the scenario; the splined joints are "gearbox input"'),
        (("--side", "left"), 2, "'left' is not one of"),
        (("--fit-class", "9"), 2, "--fit-class 9: "),
        (("--fit", "loose"), 2, "--fit loose: din 5480 has no fit 'loose'; it has H/h, H/f, H/e, H/d"),
        (("--dxf", "hub.dwg"), 2, "--dxf: 'hub.dwg' must end in .dxf"),
        (("--dxf", "x.dxf", "--out", "x.dxf"), 2, "--dxf and --out name the same file"),
        (("--dxf", "no/such/hub.dxf"), 2, "does not exist; make it first"),
        (("--out", "no/such/order.txt"), 2, "does not exist; make it first"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else None,
)  # fmt: skip
def test_refusals_are_one_clear_line(
    arguments: tuple[str, ...], code: int, problem: str, tmp_path: Path
) -> None:
    run = torqcheck("order", TROLLEY, *arguments, folder=tmp_path)
    assert run.returncode == code
    assert problem in run.stderr
    assert len([line for line in run.stderr.splitlines() if not line.startswith("Usage:")]) == 1
    assert run.stdout == ""
    assert list(tmp_path.iterdir()) == []


def test_the_scenario_is_never_written_over(tmp_path: Path) -> None:
    path = tmp_path / "bench.dxf"
    path.write_text(edited())
    run = torqcheck("order", path, "--dxf", path)
    assert run.returncode == 2
    assert "is the file that the result is made from" in run.stderr
    assert path.read_text() == edited()
    plain = tmp_path / "bench.toml"
    plain.write_text(edited())
    assert torqcheck("order", plain, "--dxf", plain).returncode == 2
    assert torqcheck("order", plain, "--out", plain).returncode == 2
    assert plain.read_text() == edited()


def test_several_splines_ask_for_the_name(capfd: pytest.CaptureFixture[str]) -> None:
    capstan = str(ROOT / "scenarios" / "ferry_capstan.toml")
    assert run_here(["order", capstan]) == 2
    assert 'which joint? write --joint with one of the splined joints: "gearbox shaft", "capstan shaft"' in (
        capfd.readouterr().err
    )
    assert run_here(["order", capstan, "--joint", "capstan shaft", "--format", "text"]) == 0
    assert "ISO 4156, 22Z x 2m x 30 deg flat root" in capfd.readouterr().out


def test_a_scenario_without_a_spline_cannot_be_ordered_from(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    text = edited()
    head = text[: text.index("[[joint]]")]
    path = tmp_path / "plain.toml"
    path.write_text(
        head + '[[joint]]\nkind = "shaft"\ndiameter = "40 mm"\nlength = "100 mm"\nsteel = "1045_CD"\n'
    )
    assert run_here(["order", str(path)]) == 2
    assert "plain.toml: has no splined joint" in capfd.readouterr().err
