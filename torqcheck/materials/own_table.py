"""A shop's own table of steels: the columns of steels.csv, few of them required."""

from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType

from torqcheck.errors import DomainError, Fault, TableError
from torqcheck.materials.allowables import BELOW_TABLE, hardness_class
from torqcheck.materials.columns import own_steel_layout
from torqcheck.materials.hardness_strength import ultimate_strength_from_hb
from torqcheck.materials.steels import Steel, SteelNotes, plain_name, steel_from_row, steels
from torqcheck.materials.tables import Row, mark, parse, table, table_error
from torqcheck.provenance import Source

__all__ = ["load_own_table"]

_LARGEST = 1_000_000  # bytes
_RATIO = (2.9, 3.95)  # MPa per HB that steel keeps to
_STRENGTH_OFF, _SOFTEST, _HARDEST = 1.5, 80.0, 615.0
"""Strength over what the hardness proves beyond which a row is refused; HB between which that is known."""
_PAIRS = (
    ("section_min_mm", "section_max_mm"),
    ("yield_MPa", "ultimate_MPa"),
    ("core_hardness_min_HB", "core_hardness_max_HB"),
    ("surface_hardness_min_HRC", "surface_hardness_max_HRC"),
    ("surface_hardness_min_HV", "surface_hardness_max_HV"),
    ("case_depth_min_mm", "case_depth_max_mm"),
)
_DEFAULTS = {
    "surface_treatment": "none",
    "elastic_modulus_GPa": "205",
    "shear_modulus_GPa": "80",
    "density_kg_m3": "7850",
    "strength_factor": "0.9",
    "mark": "assumed",
    "constants_mark": "assumed",
}


def load_own_table(path: str | Path) -> Mapping[str, Steel]:
    """
    Return the steels of a user's own table, by id.

    The columns are those of steels.csv. Required are id, grade, condition, ultimate_MPa, yield_MPa,
    core_hardness_min_HB and source (a text in the user's own words); what else is left out is
    filled in: no section stated, no surface treatment, E 205 GPa, G 80 GPa, 7850 kg/m3, strength
    factor 0.9, mark "assumed", hardness class by the rule of the shipped table.

    Parameters
    ----------
    path : str or Path
        The CSV file.

    Raises
    ------
    TableError
        If the file cannot be read, or any cell is not usable; carries all faults with their lines.
    """
    file = Path(path).name
    rows = parse(_text(Path(path)), file, own_steel_layout())
    shipped = {plain_name(key): key for key in steels()}
    faults = [fault for line, row in rows for fault in _row_faults(row, file, line, shipped)]
    faults.extend(_repeated_names(rows, file))
    if faults:
        raise table_error(faults)
    return MappingProxyType({row["id"]: _steel(row, file, line) for line, row in rows})


def _text(path: Path) -> str:
    """Text of the file, if it is one of sensible size."""
    if not path.is_file():
        what = "is a folder" if path.is_dir() else "is not there"
        raise TableError(f"{path.name}: {what}; name a table of steels, columns as in steels.csv")
    try:
        with path.open("rb") as stream:
            content = stream.read(_LARGEST + 1)
    except OSError as reason:
        raise TableError(f"{path.name}: cannot be read ({reason.strerror})") from reason
    if len(content) > _LARGEST:
        raise TableError(f"{path.name}: is larger than 1 MB; keep to the steels that you use")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as reason:
        line = content[: reason.start].count(b"\n") + 1
        raise TableError(f"{path.name}: line {line} is not UTF-8 text; save the table as UTF-8") from reason


def _row_faults(row: Row, file: str, line: int, shipped: Mapping[str, str]) -> list[Fault]:
    """List what is wrong between the cells of one row."""

    def fault(column: str, problem: str, mend: str) -> Fault:
        return Fault(file, f"line {line}, {column}", f'"{row[column][:60]}"', problem, mend)

    faults = []
    plain = plain_name(row["id"])
    if not plain or plain == "unknown":
        faults.append(fault("id", "names no steel", "give it a name of its own"))
    if plain in shipped:
        mend = "give it another id"
        faults.append(fault("id", f"is {shipped[plain]} of the shipped table already", mend))
    faults.extend(
        fault(low, f"is above {high}, {row[high]}", "swap or correct them")
        for low, high in _PAIRS
        if row[low] and row[high] and float(row[low]) > float(row[high])
    )
    if row["surface_treatment"] not in ("", "none") and not row["surface_hardness_min_HRC"]:
        mend = "give the least hardness of the surface"
        faults.append(fault("surface_hardness_min_HRC", "is needed with a surface treatment", mend))
    classes = [BELOW_TABLE, *(known["hardness_class"] for known in table("allowables"))]
    if row["hardness_class"] and row["hardness_class"] not in classes:
        mend = f"leave it empty or write one of: {'; '.join(classes)}"
        faults.append(fault("hardness_class", "is no class of the guide", mend))
    elif row["hardness_class"]:
        faults += _class_faults(row, fault)
    faults += _strength_faults(row, fault)
    if row["strength_factor"] and float(row["strength_factor"]) == 0.0 and not row["data_flag"]:
        faults.append(fault("data_flag", "must say why the row is for reference only", "fill it in"))
    return faults


def _class_faults(row: Row, fault: Callable[[str, str, str], Fault]) -> list[Fault]:
    """A class that the hardness of the row does not reach, or passes by, takes another steel's allowables."""
    full = {column: text or _DEFAULTS.get(column, "") for column, text in row.items()}
    holds = []
    for aircraft in (False, True):
        try:
            holds.append(_by_rule(full, aircraft))
        except DomainError:  # told of the hardness itself
            return []
    if row["hardness_class"] in holds:
        return []
    problem = "does not hold the hardness of its own row"
    return [fault("hardness_class", problem, f"leave it empty, or write {holds[0]}")]


def _strength_faults(row: Row, fault: Callable[[str, str, str], Fault]) -> list[Fault]:
    """Strength and hardness of one steel go together; where they do not, one is of something else."""
    if row["strength_factor"] and float(row["strength_factor"]) == 0.0:
        return []
    ultimate, softest = float(row["ultimate_MPa"]), row["core_hardness_min_HB"]
    least, most = (_likely(float(text)) for text in (softest, row["core_hardness_max_HB"] or softest))
    if least / _STRENGTH_OFF <= ultimate <= most * _STRENGTH_OFF:
        return []
    likely = f"{least:.0f}" if least == most else f"{least:.0f} to {most:.0f}"
    problem = f"is more than {_STRENGTH_OFF:g} times off what {softest} HB and its row have, {likely} MPa"
    return [fault("ultimate_MPa", problem, "check both; one is of another steel or another unit")]


def _likely(hardness: float) -> float:
    """Ultimate strength beside a hardness, MPa; at its ends where the conversion list has no more."""
    return ultimate_strength_from_hb(min(max(hardness, _SOFTEST), _HARDEST)) / 1e6


def _repeated_names(rows: tuple[tuple[int, Row], ...], file: str) -> list[Fault]:
    """Ids that differ in case and separators alone."""
    first: dict[str, int] = {}
    faults = []
    for line, row in rows:
        plain = plain_name(row["id"])
        if plain in first:
            problem = f"is the same name as on line {first[plain]}"
            faults.append(Fault(file, f"line {line}, id", f'"{row["id"]}"', problem, "rename one"))
        first.setdefault(plain, line)
    return faults


def _steel(row: Row, file: str, line: int) -> Steel:
    """Steel of one row, what was left out filled in."""
    full = {column: text or _DEFAULTS.get(column, "") for column, text in row.items()}
    treated = full["surface_treatment"] != "none"
    full["core_hardness_max_HB"] = full["core_hardness_max_HB"] or full["core_hardness_min_HB"]
    full["strength_of"] = full["strength_of"] or ("core" if treated else "whole section")
    full["surface_mark"] = full["surface_mark"] or (full["mark"] if treated else "")
    full["hardness_class"] = full["hardness_class"] or _class(full, file, line)
    ratio = float(full["ultimate_MPa"]) / float(full["core_hardness_min_HB"])
    if not _RATIO[0] <= ratio <= _RATIO[1]:
        flag = f"ultimate strength over hardness is {ratio:.2f}, outside 2.9 to 3.95: one of them is doubtful"
        full["data_flag"] = "; ".join(text for text in (full["data_flag"], flag) if text)
    where = full["where"] or f"{file}, line {line}"
    origin = Source(full["source"], where, mark(full["mark"]))
    return steel_from_row(full, origin, SteelNotes(), own_table=True)


def _class(row: Row, file: str, line: int) -> str:
    """Hardness class of a row by the rule of the shipped table."""
    try:
        return _by_rule(row)
    except DomainError as reason:
        raise TableError(f"{file}: line {line}: {reason}") from reason


def _by_rule(row: Row, aircraft: bool = False) -> str:
    surface = row["surface_hardness_min_HRC"]
    return hardness_class(
        float(row["core_hardness_min_HB"]),
        row["surface_treatment"],
        float(surface) if surface else None,
        aircraft,
    )
