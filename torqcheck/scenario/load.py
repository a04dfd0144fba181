"""Read a scenario file; report every fault of it at once."""

import hashlib
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Any, get_args, get_origin, get_type_hints

from pydantic import BaseModel, TypeAdapter, ValidationError

from torqcheck.errors import Fault, ScenarioError
from torqcheck.scenario.across import faults_across
from torqcheck.scenario.duty_record import DutyRecord, beyond_motor, read_record
from torqcheck.scenario.estimates import peak_torque
from torqcheck.scenario.faults import fault_from_error, key_text, nearest, printable, written_text
from torqcheck.scenario.inspections import inspection_faults
from torqcheck.scenario.kinds import KINDS
from torqcheck.scenario.marked import marked_lines
from torqcheck.scenario.rules import presence_faults, value_faults
from torqcheck.scenario.schema import MOST_JOINTS, Materials, Scenario
from torqcheck.scenario.sizes import size_faults
from torqcheck.scenario.sleeve_links import sleeve_faults
from torqcheck.scenario.stack_engagement import long_engagements
from torqcheck.scenario.stack_rules import stack_faults
from torqcheck.scenario.steel_library import own_tables, steel_faults
from torqcheck.scenario.tilt_reading import tilt_faults

__all__ = ["LARGEST_FILE", "load_scenario", "scenario_from_document", "scenario_from_text"]

READ = "name a scenario file that you may read"
LARGEST_FILE = 200_000
"""Bytes; a scenario has some three thousand."""
LONGEST_LINE = 2000
"""Letters; the parser takes quadratic time over a dotted key."""


def load_scenario(path: str | Path) -> Scenario:
    """
    Read a scenario file.

    Parameters
    ----------
    path : str or Path
        The TOML file.

    Returns
    -------
    Scenario
        Frozen, SI inside, each quantity with its tolerance and its text.

    Raises
    ------
    ScenarioError
        With every fault of the file: missing file, not TOML, unknown keys, wrong units, ...
    """
    path = Path(path)
    return scenario_from_text(_content(path), path)


def scenario_from_text(content: bytes, path: Path) -> Scenario:
    """
    Read a scenario from the bytes of a file; `path` only names it.

    Parameters
    ----------
    content : bytes
        What the file holds.
    path : Path
        Names it in messages; its own tables stand beside it.
    """
    document = _toml(content, printable(path.name))
    examples = marked_lines(content.decode("utf-8-sig"))
    return scenario_from_document(document, path, hashlib.sha256(content).hexdigest(), examples)


def scenario_from_document(
    raw: Mapping[str, Any], path: Path, sha256: str = "", examples: int = 0
) -> Scenario:
    """
    Give meaning to what a scenario file says.

    Parameters
    ----------
    raw : mapping
        The file as the TOML parser returns it; never changed.
    path : Path
        Names the file; its own tables and torque records stand beside it.
    sha256 : str, optional
        Hash of the file.
    examples : int, optional
        Lines of the file that are still marked as examples.
    """
    name = printable(path.name)
    faults: list[Fault] = []
    blocks: dict[str, Any] = {}
    joints: list[tuple[int, BaseModel]] = []
    faults += _unknown_blocks(raw, name)
    hints = get_type_hints(Scenario, include_extras=True)
    for key, field in Scenario.model_fields.items():
        if key not in raw:
            if field.is_required():
                mend = f"add a [{key}] block" if key not in {"format", "joint"} else f"add {_FIRST[key]}"
                faults.append(Fault(name, key, "", f"is missing ({field.description})", mend))
        elif key == "joint":
            joints = _joints(raw[key], name, faults)
            blocks[key] = tuple(joint for _, joint in joints)
        else:
            blocks[key] = _block(key, hints[key], raw[key], name, faults)
    library = own_tables(blocks.get("materials") or Materials(), path, faults)
    if library is not None:
        faults += steel_faults(raw.get("joint"), library, name)
    faults += sleeve_faults(raw.get("joint"), joints, name)
    faults += faults_across(blocks, raw.get("joint"), joints, name)
    faults += stack_faults(blocks.get("stack"), raw.get("stack"), raw.get("joint"), library, name)
    faults += long_engagements(blocks.get("stack"), raw.get("joint"), joints, name)
    faults += inspection_faults(blocks.get("inspection") or (), raw.get("joint"), joints, name)
    record = _record(raw, blocks, path, faults)
    if faults:
        raise ScenarioError(faults)
    # every block has been validated by itself; building the validator of the whole would cost more
    # than all of them together
    scenario = Scenario.model_construct(**blocks)
    scenario._library = library or ()
    scenario._duty_record = record
    scenario._path = path
    scenario._file_sha256 = sha256
    scenario._example_lines = examples
    scenario._document = raw
    return scenario


_FIRST = {"format": "format = 1 as the first line", "joint": "at least one [[joint]]"}


def _content(path: Path) -> bytes:
    """Read the bytes of the file, or say why not."""
    try:
        if path.is_dir():
            raise ScenarioError([Fault(str(path), "", "", "is a folder", "name a scenario file")])
        if path.exists() and not path.is_file():
            raise ScenarioError([Fault(str(path), "", "", "is not a file", "name a scenario file")])
        with path.open("rb") as file:
            content = file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        near = ""
        if path.parent.is_dir():
            near = nearest(path.name, sorted(p.name for p in path.parent.glob("*.toml")))
        mend = f"{near}name an existing scenario file"
        raise ScenarioError([Fault(str(path), "", "", "does not exist", mend)]) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "the name cannot be used"
        raise ScenarioError([Fault(str(path)[:200], "", "", f"cannot be read: {reason}", READ)]) from None
    if len(content) > LARGEST_FILE:
        raise ScenarioError([Fault(str(path), "", "", f"is larger than {LARGEST_FILE} bytes", "shorten it")])
    return content


def _toml(content: bytes, name: str) -> dict[str, Any]:
    """Parse the bytes as TOML."""
    try:
        text = content.decode("utf-8-sig")
        for number, line in enumerate(text.splitlines(), start=1):
            if len(line) > LONGEST_LINE:
                problem = f"has {len(line)} letters"
                mend = f"keep lines below {LONGEST_LINE}"
                raise ScenarioError([Fault(name, f"line {number}", "", problem, mend)])
        return tomllib.loads(text)
    except UnicodeDecodeError:
        fault = Fault(name, "", "", "is not a text file", "save it as UTF-8 text")
    except ValueError as error:
        fault = Fault(
            name, "", "", f"is not TOML: {error}", "mend the line; texts and quantities stand in quotes"
        )
    except RecursionError:
        fault = Fault(name, "", "", "is nested too deeply", "write plain blocks")
    raise ScenarioError([fault])


def _unknown_blocks(raw: Mapping[str, Any], name: str) -> list[Fault]:
    known = list(Scenario.model_fields)
    return [
        Fault(
            name,
            key_text([key]),
            "",
            "is not a known block",
            f"{nearest(key, known)}known: {', '.join(known)}",
        )
        for key in raw
        if key not in known
    ]


def _block(key: str, annotation: Any, written: Any, name: str, faults: list[Fault]) -> Any:
    """Validate one block; append its faults."""
    places = [(key, written)]
    if isinstance(written, list):
        places = [(key_text([key, index]), item) for index, item in enumerate(written)]
    for place, table in places:
        if isinstance(table, Mapping):
            faults += _rule_faults(name, place, table, presence_faults(key, table))
    try:
        model = _validated(annotation, written)
    except ValidationError as error:
        faults += [fault_from_error(name, (key,), _owner(annotation), line) for line in _lines(error)]
        return None
    faults += _rule_faults(name, key, written, value_faults(key, model))
    return model


def _validated(annotation: Any, written: Any) -> Any:
    """Validate one block: by its own model where it is one, else by its annotation."""
    owner = _owner(annotation)
    is_list = get_origin(annotation) is Annotated
    if owner is not Scenario and not is_list and isinstance(written, Mapping):
        return owner.model_validate(written)
    return TypeAdapter(annotation).validate_python(written)


def _owner(annotation: Any) -> type[BaseModel]:
    """Return the model of a block for naming its keys; the scenario itself for plain values."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for argument in get_args(annotation):
        found = _owner(argument)
        if found is not Scenario:
            return found
    return Scenario


def _lines(error: ValidationError) -> list[Any]:
    return error.errors(include_url=False)


def _rule_faults(name: str, prefix: str, written: Any, rules: list[tuple[str, str, str]]) -> list[Fault]:
    """Faults of a block from its rules, each with what stands at its key."""
    return [
        Fault(
            name,
            f"{prefix}.{key}" if key else prefix,
            written_text(_value_at(written, key)) if key else "",
            problem,
            mend,
        )
        for key, problem, mend in rules
    ]


def _value_at(written: Any, key: str) -> Any:
    """Value at a key such as internal.measured.pin or notches[2].radius; an empty table for nothing."""
    for part in key.split("."):
        word, _, place = part.partition("[")
        written = written.get(word, {}) if isinstance(written, Mapping) else {}
        if place:
            index = int(place.rstrip("]")) - 1
            written = written[index] if isinstance(written, list) and index < len(written) else {}
    return written


def _joints(written: Any, name: str, faults: list[Fault]) -> list[tuple[int, BaseModel]]:
    """Validate the joints one by one, each by its kind; keep the place of each sound one."""
    if not isinstance(written, list) or not written:
        faults.append(Fault(name, "joint", "", "is not a list of joints", "write each one under [[joint]]"))
        return []
    if len(written) > MOST_JOINTS:
        problem = f"has more than {MOST_JOINTS} entries"
        faults.append(Fault(name, "joint", "", problem, "leave some out, or check the path in two files"))
        return []
    joints = []
    for index, raw in enumerate(written):
        joint = _joint(raw, index, name, faults)
        if joint is not None:
            joints.append((index, joint))
    return joints


def _joint(raw: Any, index: int, name: str, faults: list[Fault]) -> BaseModel | None:
    place = key_text(["joint", index])
    if not isinstance(raw, Mapping):
        faults.append(Fault(name, place, "", "is not a table", "write it under [[joint]]"))
        return None
    kind = raw.get("kind")
    if not isinstance(kind, str) or kind not in KINDS:
        faults.append(_kind_fault(name, place, kind))
        return None
    found = _rule_faults(name, place, raw, presence_faults(kind, raw))
    model: BaseModel | None = None
    try:
        model = KINDS[kind].model_validate(raw)
    except ValidationError as error:
        found += [fault_from_error(name, ("joint", index), KINDS[kind], line) for line in _lines(error)]
    if not found and model is not None:
        found += _rule_faults(name, place, raw, value_faults(kind, model))
        found += _rule_faults(name, place, raw, size_faults(model) or tilt_faults(model))
    faults += found
    return model


def _record(
    raw: Mapping[str, Any], blocks: Mapping[str, Any], path: Path, faults: list[Fault]
) -> DutyRecord | None:
    """Read the torque record that takes the place of the duty list, if one is named."""
    entry, motor = blocks.get("duty_file"), blocks.get("motor")
    name = printable(path.name)
    if "duty_file" in raw and "duty" in raw:
        mend = "keep the [[duty]] spells or the [duty_file], not both"
        faults.append(Fault(name, "duty_file", "", "contradicts duty", mend))
    if entry is None:
        return None
    try:
        record = read_record(path, entry.path, entry.repeats_every.value)
    except ScenarioError as error:
        faults += error.faults
        return None
    if motor is not None:
        faults += beyond_motor(record, peak_torque(motor), motor.max_speed.value)
    return record


def _kind_fault(name: str, place: str, kind: Any) -> Fault:
    known = ", ".join(f'"{word}"' for word in KINDS)
    if kind is None:
        return Fault(name, f"{place}.kind", "", "is missing", f"write kind = one of {known}")
    return Fault(
        name,
        f"{place}.kind",
        written_text(kind),
        "is not a kind of joint",
        f"{nearest(str(kind), KINDS)}supported: {known}",
    )
