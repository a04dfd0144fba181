"""What cannot be about an axial stack, and which joint an engagement belongs to."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, TypeAlias

from torqcheck.errors import Fault, TableError
from torqcheck.materials import expansion_materials, steel
from torqcheck.scenario.faults import nearest, written_text
from torqcheck.scenario.joint_names import SPLINED, called
from torqcheck.scenario.quantity import Reading
from torqcheck.scenario.stack_schema import Stack, StackResult, StackSum
from torqcheck.scenario.steel_library import Library
from torqcheck.scenario.usual import tolerance_of

__all__ = ["COLDEST", "HOTTEST", "engagement_indices", "stack_faults", "stack_presence", "stack_values"]

Rule: TypeAlias = tuple[str, str, str]
COLDEST, HOTTEST = 213.15, 573.15
"""K; outside of it neither seals and grease nor one figure of expansion hold."""
_RANGE = "write a temperature between -60 degC and 300 degC"
_ONLY = {
    "engagement": ("joint", "less", "external_cut", "internal_cut"),
    "gap": ("against",),
    "stop collar": ("engagement", "gap"),
}


def stack_presence(written: Mapping[str, Any]) -> list[Rule]:
    """Faults that the keys of the block alone give away."""
    faults: list[Rule] = []
    for place, distance in _tables(written, "distance"):
        if "steel" in distance and "material" in distance:
            faults.append((f"{place}.material", "contradicts steel", "keep one of steel, material"))
        if "from_stop" in distance and distance.get("kind") != "end float":
            mend = 'write kind = "end float", or leave it out'
            faults.append((f"{place}.from_stop", "only goes with an end float", mend))
    for place, result in _tables(written, "result"):
        kind = result.get("kind")
        faults += [
            (f"{place}.{key}", f'only goes with kind = "{owner}"', "leave it out")
            for owner, keys in _ONLY.items()
            for key in keys
            if key in result and isinstance(kind, str) and kind in _ONLY and kind != owner
        ]
        if kind == "stop collar":
            faults += [
                (f"{place}.{key}", "is missing", f"name the {key} that the collar must keep")
                for key in ("engagement", "gap")
                if key not in result
            ]
    return faults


def _tables(written: Mapping[str, Any], key: str) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Each table of a list with its place, as far as it is one."""
    items = written.get(key)
    for index, item in enumerate(items if isinstance(items, list) else []):
        if isinstance(item, Mapping):
            yield f"{key}[{index + 1}]", item


def stack_values(stack: Stack) -> list[Rule]:
    """Faults of a block whose fields are sound one by one."""
    faults: list[Rule] = []
    for key in ("distance", "result", "part"):
        faults += _twice(key, [item.name for item in getattr(stack, key)])
    if not stack.result:
        faults.append(("result", "is missing", "add at least one [[stack.result]]"))
    for place, signed in _sums(stack):
        faults += _sum_faults(place, signed, [distance.name for distance in stack.distance])
    return [*faults, *_unused(stack), *_cuts(stack), *_collars(stack), *_shim(stack), *_temperatures(stack)]


def _twice(key: str, names: Sequence[str]) -> list[Rule]:
    return [
        (f"{key}[{index + 1}].name", "is used twice", f"give each {key} its own name")
        for index, name in enumerate(names)
        if name in names[:index]
    ]


def _sums(stack: Stack) -> Iterator[tuple[str, StackResult | StackSum]]:
    """Every signed sum of the block with its place."""
    for index, result in enumerate(stack.result):
        yield f"result[{index + 1}]", result
        if result.at is not None:
            yield f"result[{index + 1}].at", result.at
    for index, part in enumerate(stack.part):
        yield f"part[{index + 1}].from", part.from_
        yield f"part[{index + 1}].to", part.to


def _sum_faults(place: str, signed: StackResult | StackSum, names: Sequence[str]) -> list[Rule]:
    """Unknown names, and names that stand twice in one sum."""
    used = (*signed.plus, *signed.minus)
    faults: list[Rule] = [
        (
            place,
            f"names an unknown distance {written_text(name)}",
            f"{nearest(name, names)}known: {', '.join(names)}",
        )
        for name in used
        if name not in names
    ]
    faults += [
        (
            place,
            f"names {written_text(name)} twice",
            "each stands once in a sum; two equal parts are two distances",
        )
        for name in dict.fromkeys(used)
        if used.count(name) > 1
    ]
    if isinstance(signed, StackResult) and not signed.plus:
        faults.append((f"{place}.plus", "is empty", "name at least one distance that adds"))
    return faults


def _unused(stack: Stack) -> list[Rule]:
    """A distance that nothing uses is most often a slip of a name or a forgotten term."""
    used = {name for _, signed in _sums(stack) for name in (*signed.plus, *signed.minus)}
    return [
        (
            f"distance[{index + 1}]",
            f"{written_text(distance.name)} is used by no result",
            "use it or leave it out",
        )
        for index, distance in enumerate(stack.distance)
        if distance.name not in used
    ]


def _cuts(stack: Stack) -> list[Rule]:
    """A cut has to be longer than what it is known to."""
    return [
        (
            f"result[{index + 1}].{key}",
            f"is no longer than its tolerance of {tolerance * 1e3:.3g} mm",
            "write the length of full teeth, or leave it out where they run through",
        )
        for index, result in enumerate(stack.result)
        for key, cut in (("external_cut", result.external_cut), ("internal_cut", result.internal_cut))
        if cut is not None and cut.value <= (tolerance := tolerance_of(cut, f"result.{key}"))
    ]


def _collars(stack: Stack) -> list[Rule]:
    """A stop collar keeps an engagement and a gap that there are."""
    faults = []
    for index, result in enumerate(stack.result):
        if result.kind != "stop collar":
            continue
        for kind, name in (("engagement", result.engagement), ("gap", result.gap)):
            known = [other.name for other in stack.result if other.kind == kind]
            if name not in known:
                mend = f"{nearest(name, known)}known: {', '.join(known) or 'none'}"
                faults.append((f"result[{index + 1}].{kind}", f"is no result of kind {kind}", mend))
    return faults


def _shim(stack: Stack) -> list[Rule]:
    """A pack adds to a distance of the sum that it is to mend, from some stock."""
    shim = stack.shim
    faults: list[Rule] = [
        (f"{place}[{index + 1}]", "is no shim", "write a thickness above zero")
        for place, stock in (("shims", stack.shims), ("shim.stock", shim.stock if shim is not None else ()))
        for index, thickness in enumerate(stock)
        if thickness.value == 0.0
    ]
    if shim is None:
        return faults
    distances = [distance.name for distance in stack.distance]
    results = {result.name: result for result in stack.result if result.kind != "stop collar"}
    result = results.get(shim.result)
    if shim.in_ not in distances:
        mend = f"{nearest(shim.in_, distances)}known: {', '.join(distances)}"
        faults.append(("shim.in", "is no distance", mend))
    if result is None:
        mend = f"{nearest(shim.result, results)}known: {', '.join(results)}"
        faults.append(("shim.result", "is no engagement and no gap", mend))
    elif shim.in_ in distances and shim.in_ not in (*result.plus, *result.minus):
        problem = f"does not stand in the sum of {written_text(shim.result)}: a pack there changes nothing"
        faults.append(("shim.in", problem, f"name one of {', '.join((*result.plus, *result.minus))}"))
    if not (shim.stock or stack.shims):
        faults.append(("shim.stock", "is missing", 'write for example stock = ["0.1 mm", "0.5 mm"]'))
    return faults


def _temperatures(stack: Stack) -> list[Rule]:
    places: list[tuple[str, Reading | None]] = [
        ("assembled_at", stack.assembled_at),
        ("running_at", stack.running_at),
    ]
    places += [(f"distance[{index + 1}].running_at", d.running_at) for index, d in enumerate(stack.distance)]
    return [
        (place, "is beyond what seals, grease and one figure of expansion stand", _RANGE)
        for place, reading in places
        if reading is not None and not COLDEST <= reading.value <= HOTTEST
    ]


def engagement_indices(
    results: Iterable[tuple[str, str]], joints: Sequence[tuple[str, str]]
) -> list[int | None]:
    """
    Place of the joint that each result gives an engagement to; None where it gives none.

    Parameters
    ----------
    results : iterable of (kind, joint)
        As written.
    joints : sequence of (name, kind)
        As written; a joint without a name is "joint 1" and so on.
    """
    names = [called(own, index) for index, (own, _) in enumerate(joints)]
    return [
        names.index(joint) if kind == "engagement" and joint in names else None for kind, joint in results
    ]


def stack_faults(
    stack: Any, raw_stack: Any, raw_joints: Any, library: Library | None, name: str
) -> list[Fault]:
    """
    Return the faults of the stack that need joints or steels, and joints without an engagement.

    Parameters
    ----------
    stack : Stack or None
        The block, if it is sound by itself.
    raw_stack, raw_joints : object
        As written, so that a joint is known even where it has other faults.
    library : Library or None
        The user's own tables; None where they cannot be used.
    name : str
        Name of the file.
    """
    joints = [
        (str(joint.get("name", "")), str(joint.get("kind", ""))) if isinstance(joint, Mapping) else ("", "")
        for joint in (raw_joints if isinstance(raw_joints, list) else [])
    ]
    results = [
        (str(result.get("kind", "")), str(result.get("joint", "")))
        for _, result in _tables(raw_stack if isinstance(raw_stack, Mapping) else {}, "result")
    ]
    given = engagement_indices(results, joints)
    faults = _joint_faults(results, given, joints, name) + _missing(raw_joints, given, joints, name)
    if isinstance(stack, Stack) and library is not None:
        faults += _material_faults(stack, library, name)
    return faults


def _joint_faults(
    results: Sequence[tuple[str, str]],
    given: Sequence[int | None],
    joints: Sequence[tuple[str, str]],
    name: str,
) -> list[Fault]:
    """An engagement belongs to one splined joint, and a joint has one engagement."""
    splined = [called(own, index) for index, (own, kind) in enumerate(joints) if kind in SPLINED]
    faults = []
    for place, ((kind, joint), index) in enumerate(zip(results, given, strict=True)):
        key = f"stack.result[{place + 1}].joint"
        if kind != "engagement" or not joint:
            continue
        known = f"{nearest(joint, splined)}known: {', '.join(splined) or 'none'}"
        if index is None:
            faults.append(Fault(name, key, written_text(joint), "is not the name of a joint", known))
        elif joints[index][1] not in SPLINED:
            faults.append(Fault(name, key, written_text(joint), "is no splined joint", known))
        elif index in given[:place]:
            problem, mend = "has an engagement already", "write one engagement for each joint"
            faults.append(Fault(name, key, written_text(joint), problem, mend))
    return faults


def _missing(
    raw_joints: Any, given: Sequence[int | None], joints: Sequence[tuple[str, str]], name: str
) -> list[Fault]:
    """A splined joint has an engagement of its own, or one by the stack."""
    mend = 'add engagement = ..., or a [[stack.result]] of kind "engagement" that names the joint'
    return [
        Fault(
            name,
            f"joint[{index + 1}].engagement",
            "",
            "is missing (axial length over which the teeth overlap)",
            mend,
        )
        for index, (_, kind) in enumerate(joints)
        if kind in SPLINED and "engagement" not in raw_joints[index] and index not in given
    ]


def _material_faults(stack: Stack, library: Library, name: str) -> list[Fault]:
    """Materials are words of the table of expansions, or steels."""
    faults = []
    for index, distance in enumerate(stack.distance):
        for key in ("steel", "material"):
            text = getattr(distance, key).strip()
            if not text or text.lower() == "unknown":
                continue
            if key == "material" and text.lower() in expansion_materials():
                continue
            try:
                steel(text, library)
            except TableError as error:
                words = ", ".join(f'"{word}"' for word in expansion_materials())
                mend = f"known materials: {words}" if key == "material" else 'or write material = "steel"'
                place = f"stack.distance[{index + 1}].{key}"
                faults.append(Fault(name, place, written_text(text), f"cannot be used: {error}", mend))
    return faults
