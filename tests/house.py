"""Counts of the house: sizes, docstrings, unused names, lists of public names; as a script it prints them."""

import ast
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parent.parent
Definition = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef
REACHED_OTHERWISE = "torqcheck.cli"
"""Commands are reached through their decorators, choices of an option through its annotation."""
FUNCTION = (ast.FunctionDef, ast.AsyncFunctionDef)


@dataclass(frozen=True)
class Module:
    """One file of Python, read once."""

    path: Path

    @cached_property
    def text(self) -> str:
        return self.path.read_text("utf-8")

    @cached_property
    def tree(self) -> ast.Module:
        return ast.parse(self.text)

    @property
    def name(self) -> str:
        """The name that an import knows it by."""
        parts = self.path.relative_to(ROOT).with_suffix("").parts
        return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)

    @property
    def lines(self) -> int:
        return len(self.text.splitlines())

    @cached_property
    def code_lines(self) -> int:
        """Lines that hold code: no blank line, no comment, no docstring."""
        said: set[int] = set()
        for node in ast.walk(self.tree):
            if isinstance(node, Definition | ast.Module) and ast.get_docstring(node) is not None:
                said |= set(range(node.body[0].lineno, (node.body[0].end_lineno or 0) + 1))
        lines = enumerate(map(str.strip, self.text.splitlines()), start=1)
        return sum(number not in said and bool(line) and not line.startswith("#") for number, line in lines)

    @cached_property
    def offered(self) -> list[str] | None:
        """What ``__all__`` lists, if there is one."""
        for node in self.tree.body:
            if isinstance(node, ast.Assign) and "__all__" in names_of(node):
                return list(ast.literal_eval(node.value))
        return None


def modules(folder: str) -> list[Module]:
    """Return every module of a folder of the repository, by name."""
    return [Module(path) for path in sorted((ROOT / folder).rglob("*.py"))]


def names_of(node: ast.stmt) -> list[str]:
    """Return what a statement of a module defines: a function, a class, a constant."""
    if isinstance(node, Definition):
        return [node.name]
    targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
    flat = [part for target in targets for part in getattr(target, "elts", [target])]
    return [part.id for part in flat if isinstance(part, ast.Name) and isinstance(part.ctx, ast.Store)]


def imported_names(tree: ast.Module) -> set[str]:
    """Return what a module takes from others by name."""
    found = [alias for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) for alias in node.names]
    return {alias.asname or alias.name for alias in found}


def body_lines(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Return the lines of a function below its signature and its docstring."""
    first, last = function.body[0], function.body[-1]
    above = first.end_lineno if ast.get_docstring(function) is not None else first.lineno - 1
    return (last.end_lineno or 0) - (above or 0)


def bodies(found: list[Module]) -> dict[str, int]:
    """Return the lines of every function body, nested ones too."""
    return {
        f"{module.name}.{node.name}:{node.lineno}": body_lines(node)
        for module in found
        for node in ast.walk(module.tree)
        if isinstance(node, FUNCTION)
    }


def public_definitions(module: Module) -> Iterator[tuple[str, ast.AST]]:
    """Give the module, its public functions and classes, and the public methods of these."""
    yield module.name, module.tree
    for node in module.tree.body:
        if isinstance(node, Definition) and not node.name.startswith("_"):
            yield f"{module.name}.{node.name}", node
            inner = node.body if isinstance(node, ast.ClassDef) else []
            for method in inner:
                if isinstance(method, Definition) and not method.name.startswith("_"):
                    yield f"{module.name}.{node.name}.{method.name}", method


def without_docstring(found: list[Module]) -> list[str]:
    """Return every public module, class, function and method that says nothing of itself."""
    places = [place for module in found for place in public_definitions(module)]
    return [name for name, node in places if not ast.get_docstring(node)]  # type: ignore[arg-type]


class Uses:
    """Who uses which name: in its own module, through an import, or behind a dot."""

    def __init__(self, found: list[Module]) -> None:
        self.behind_a_dot: set[str] = set()
        self.imported: set[str] = set()
        self.own: dict[str, dict[str, int]] = {}
        for module in found:
            loads: dict[str, int] = {}
            for node in ast.walk(module.tree):
                if isinstance(node, ast.Attribute):
                    self.behind_a_dot.add(node.attr)
                elif isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
                    loads[node.id] = loads.get(node.id, 0) + 1
            self.own[module.name] = loads
            self.imported |= imported_names(module.tree) & set(loads)
        self.from_outside = self.behind_a_dot | self.imported

    def unused(self, module: Module) -> Iterator[str]:
        """Give the names of a module that nobody uses; a call of itself is no use."""
        for node in module.tree.body:
            for name in names_of(node):
                if name in self.from_outside:
                    continue
                itself = [part for part in ast.walk(node) if isinstance(part, ast.Name) and part.id == name]
                within = len(itself) if isinstance(node, Definition) else 0
                if self.own[module.name].get(name, 0) <= within:
                    yield f"{module.name}.{name}"


def unused_names(found: list[Module], readers: list[Module]) -> list[str]:
    """Return the functions, classes and constants of `found` that no reader uses."""
    uses = Uses(readers)
    names = [name for module in found for name in uses.unused(module)]
    return [name for name in names if not name.rpartition(".")[2].startswith("__")]


def in_order(names: list[str]) -> list[str]:
    """Return names in the order of the house: constants, classes, the rest."""
    return sorted(names, key=lambda name: (not name.isupper(), not name[:1].isupper(), name))


def false_lists(found: list[Module]) -> list[str]:
    """Return what is wrong with the ``__all__`` of each module: false, incomplete or out of order."""
    faults = []
    for module in found:
        if module.offered is None:
            continue
        held = {
            name for node in ast.walk(module.tree) if isinstance(node, ast.stmt) for name in names_of(node)
        }
        held |= imported_names(module.tree)
        own = [node.name for node in module.tree.body if isinstance(node, Definition)]
        missing = [name for name in own if not name.startswith("_") and name not in module.offered]
        if module.name.startswith(REACHED_OTHERWISE):
            missing = []
        faults += [f"{module.name}: {name} is not there" for name in module.offered if name not in held]
        faults += [f"{module.name}: {name} is not listed" for name in missing]
        if module.offered != in_order(module.offered):
            faults.append(f"{module.name}: not sorted")
        if len(set(module.offered)) < len(module.offered):
            faults.append(f"{module.name}: a name stands twice")
    return faults


def table(found: list[Module], tests: list[Module]) -> str:
    """Return the counts of the house in a few lines."""
    sizes, lengths = [module.lines for module in found], list(bodies(found).values())
    code, tested = sum(module.code_lines for module in found), sum(module.code_lines for module in tests)
    rows = {
        "modules": f"{len(found)}, {len(tests)} of tests",
        "lines of a module": f"median {median(sizes):.0f}, most {max(sizes)}",
        "lines of code of a module": f"median {median(module.code_lines for module in found):.0f}",
        "lines of a function body": f"median {median(lengths):.0f}, most {max(lengths)}",
        "public names without docstring": len(without_docstring(found)),
        "names that nobody uses": len(unused_names(found, found + tests)),
        "names that only tests use": len(unused_names(found, found)),
        "false lists of public names": len(false_lists(found)),
        "lines of code, tests": f"{code}, {tested}; {tested / code:.2f} of tests for one of code",
    }
    return "\n".join(f"{what:<32}{count}" for what, count in rows.items())


if __name__ == "__main__":
    sys.stdout.write(table(modules("torqcheck"), modules("tests")) + "\n")
