"""Wheel and sdist hold what they should, say what they are, and come out the same each time."""

import os
import re
import shutil
import subprocess
import sys
import tarfile
import tomllib
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from email.message import Message
from email.parser import Parser
from pathlib import Path

import pytest

from torqcheck import __version__

ROOT = Path(__file__).parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
FOLDERS = ("torqcheck", "material_tables", "scenarios", "tests", ".ci")
FILES = ("README.md", "DEVELOPERS.md", "pyproject.toml", ".gitignore")
SHIPPED = ("material_tables", "scenarios")
LEFT = shutil.ignore_patterns("__pycache__", "*.pyc", ".*_cache", ".hypothesis")
WHEEL, SDIST = f"torqcheck-{__version__}-py3-none-any.whl", f"torqcheck-{__version__}.tar.gz"
DATED = 1_700_000_000
"""Seconds since 1970: not the year that the build tool takes where nobody gives one."""
STRAY = (
    "notes.txt",
    "torqcheck/__pycache__/x.pyc",
    "torqcheck/report/build.py.orig",
    ".venv/bin/x.py",
    "scenarios/.hypothesis/x",
    "scenarios/works_trolley.toml~",
    "material_tables/steels.xlsx",
    "tests/results.csv",
    "dist/old.whl",
)


@dataclass(frozen=True, slots=True)
class Built:
    """A copy of the tree, and what was built of it."""

    tree: Path
    wheel: Path
    sdist: Path


def files_of(tree: Path) -> dict[str, bytes]:
    """Return what a clean copy holds: each file by its place."""
    inside = [path for folder in FOLDERS for path in (tree / folder).rglob("*")]
    paths = [*(tree / name for name in FILES), *(path for path in inside if path.is_file())]
    names = {path.relative_to(tree).as_posix(): path for path in paths}
    return {name: path.read_bytes() for name, path in names.items()}


def copied(tree: Path) -> Path:
    """Copy to `tree` what this repository holds, and nothing that running it has left there."""
    for folder in FOLDERS:
        shutil.copytree(ROOT / folder, tree / folder, ignore=LEFT)
    for name in FILES:
        shutil.copy(ROOT / name, tree / name)
    return tree


def pack(tree: Path, *sorts: str) -> Path:
    """Build the sorts of package of a tree, without the network, and return the folder that holds them."""
    out = tree.parent / "packages"
    command = [sys.executable, "-m", "build", "--no-isolation", *sorts, "--outdir", str(out), str(tree)]
    environment = {**os.environ, "SOURCE_DATE_EPOCH": str(DATED)}
    run = subprocess.run(command, capture_output=True, text=True, timeout=120, env=environment, check=False)
    assert run.returncode == 0, run.stdout + run.stderr
    return out


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Built:
    tree = copied(tmp_path_factory.mktemp("one") / "torqcheck")
    out = pack(tree, "--sdist", "--wheel")
    return Built(tree, out / WHEEL, out / SDIST)


@pytest.fixture(scope="module")
def metadata(built: Built) -> Message:
    with zipfile.ZipFile(built.wheel) as wheel:
        return Parser().parsestr(wheel.read(f"torqcheck-{__version__}.dist-info/METADATA").decode("utf-8"))


@pytest.fixture
def strange_umask() -> Iterator[None]:
    before = os.umask(0o027)
    yield
    os.umask(before)


def test_the_wheel_holds_the_package_its_tables_and_its_examples(built: Built) -> None:
    tree = files_of(built.tree)
    wanted = {name: data for name, data in tree.items() if name.startswith("torqcheck/")}
    for folder in SHIPPED:
        inside = {name: data for name, data in tree.items() if name.startswith(f"{folder}/")}
        assert len(inside) > 10
        wanted |= {f"torqcheck/{name}": data for name, data in inside.items()}
    with zipfile.ZipFile(built.wheel) as wheel:
        found = {name: wheel.read(name) for name in wheel.namelist()}
    beside = {name for name in found if ".dist-info/" in name}
    assert {name.partition("/")[2] for name in beside} == {"METADATA", "WHEEL", "RECORD", "entry_points.txt"}
    assert sorted(set(found) - beside) == sorted(wanted)
    assert {name: found[name] for name in wanted} == wanted
    assert "torqcheck/py.typed" in found


def test_the_sdist_holds_the_whole_repository(built: Built) -> None:
    with tarfile.open(built.sdist) as sdist:
        members = {member.name.partition("/")[2]: member for member in sdist.getmembers()}
        found = {name: sdist.extractfile(member).read() for name, member in members.items()}  # type: ignore[union-attr]
    assert "Name: torqcheck" in found.pop("PKG-INFO").decode("utf-8")
    wanted = files_of(built.tree)
    assert sorted(found) == sorted(wanted)
    assert found == wanted
    assert members[".ci/run"].mode & 0o100


def test_both_come_out_the_same_in_another_folder_with_things_lying_about(
    built: Built, tmp_path: Path, strange_umask: None
) -> None:
    tree = copied(tmp_path / "elsewhere" / "a clone")
    for name in STRAY:
        (tree / name).parent.mkdir(parents=True, exist_ok=True)
        (tree / name).write_text("left behind")
    out = pack(tree, "--sdist", "--wheel")
    assert (out / SDIST).read_bytes() == built.sdist.read_bytes()
    assert (out / WHEEL).read_bytes() == built.wheel.read_bytes()


def test_the_wheel_of_the_sdist_is_the_wheel(built: Built, tmp_path: Path) -> None:
    with tarfile.open(built.sdist) as sdist:
        sdist.extractall(tmp_path, filter="data")
    out = pack(tmp_path / f"torqcheck-{__version__}", "--wheel")
    assert (out / WHEEL).read_bytes() == built.wheel.read_bytes()


def test_every_file_bears_the_date_that_was_given(built: Built) -> None:
    with tarfile.open(built.sdist) as sdist:
        assert {member.mtime for member in sdist.getmembers()} == {DATED}
    with zipfile.ZipFile(built.wheel) as wheel:
        dates = {datetime(*item.date_time, tzinfo=UTC) for item in wheel.infolist()}
    assert dates == {datetime.fromtimestamp(DATED, UTC)}


def test_the_unpacked_wheel_runs_alone(built: Built, tmp_path: Path) -> None:
    with zipfile.ZipFile(built.wheel) as wheel:
        wheel.extractall(tmp_path / "site")
    (tmp_path / "empty").mkdir()
    script = (
        "from torqcheck.resources import shipped_folder as f; print(f('scenarios'), f('material_tables'))"
    )
    environment = {**os.environ, "PYTHONPATH": str(tmp_path / "site"), "PYTHONUTF8": "1"}

    def python(*arguments: str) -> str:
        return subprocess.run(
            [sys.executable, *arguments],
            capture_output=True,
            text=True,
            encoding="utf-8",
            cwd=tmp_path / "empty",
            env=environment,
            timeout=60,
            check=True,
        ).stdout

    inside = tmp_path / "site" / "torqcheck"
    assert python("-c", script).split() == [str(inside / "scenarios"), str(inside / "material_tables")]
    report = python("-m", "torqcheck", "assess", str(inside / "scenarios" / "works_trolley.toml"))
    assert "VERDICT: PASS" in report


def test_the_metadata_say_what_the_project_file_says(metadata: Message) -> None:
    assert metadata["Name"] == "torqcheck"
    assert metadata["Version"] == __version__
    assert metadata["License-Expression"] == PROJECT["license"]
    assert metadata["Requires-Python"] == PROJECT["requires-python"]
    assert metadata["Description-Content-Type"] == "text/markdown"
    assert metadata.get_payload() == (ROOT / "README.md").read_text("utf-8")
    needed = [line for line in metadata.get_all("Requires-Dist", []) if "extra ==" not in line]
    assert sorted(needed) == sorted(PROJECT["dependencies"])
    assert "Typing :: Typed" in metadata.get_all("Classifier", [])
    assert metadata.get_all("Project-URL", []) == []  # the project has no page: none is made up


def test_every_dependency_has_a_lowest_version() -> None:
    extras = PROJECT["optional-dependencies"].values()
    for needed in [*PROJECT["dependencies"], *(line for extra in extras for line in extra)]:
        assert re.fullmatch(r"[\w-]+>=[\d.]+", needed)


def test_the_oldest_python_named_is_the_oldest_allowed() -> None:
    named = re.findall(r"Python :: (3\.\d+)", "\n".join(PROJECT["classifiers"]))
    assert f">={named[0]}" == PROJECT["requires-python"]
    assert named == sorted(named, key=lambda version: int(version.partition(".")[2]))
