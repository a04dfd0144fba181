"""From the axial stack of a scenario to sums in SI: tolerances, materials, temperatures, what is assumed."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from torqcheck.assessment.stack.sums import SignedSum, Term
from torqcheck.geometry import thermal_growth
from torqcheck.materials import expansion_materials, thermal_expansion
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Reading
from torqcheck.scenario.stack_schema import Stack, StackDistance, StackResult, StackSum
from torqcheck.scenario.usual import Usual, has_tolerance, usual_of

__all__ = ["RUNNING_BAND", "Temperatures", "Terms", "sum_of", "terms_of", "tolerance_of"]

ROOM, RUNNING, RUNNING_BAND = 293.15, 353.15, (293.15, 393.15)
"""K, where none is stated: at assembly, in service, and where the service may lie."""
UNKNOWN_MATERIALS = ("steel", "aluminium")
"""What a part of unknown material is taken for, and what it may be: these two lie farthest apart."""
_FLOAT_NAME = "chamfers, run-out and seal lands"


@dataclass(frozen=True, slots=True)
class Temperatures:
    """Temperatures of the stack, K; whether that in service is known."""

    assembled: float
    running: float
    known: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """Every distance in SI by its name, and what is not known of which."""

    by_name: Mapping[str, Term]
    temperatures: Temperatures
    unknown_material: frozenset[str]
    unknown_temperature: frozenset[str]


def terms_of(stack: Stack, ledger: Ledger) -> Terms:
    """Resolve every distance; write down what was assumed on the way."""
    temperatures = _temperatures(stack, ledger)
    terms: dict[str, Term] = {}
    no_material, no_temperature, bare = set(), set(), False
    for index, distance in enumerate(stack.distance):
        tolerance = tolerance_of(distance.length, ("stack", "distance", index, "length"))
        bare = bare or (tolerance > 0.0 and not has_tolerance(distance.length.text))
        if distance.kind == "end float":
            terms[distance.name] = _end_float(distance, tolerance)
            continue
        material = _material(distance)
        if not material:
            no_material.add(distance.name)
        if distance.running_at is None and not temperatures.known:
            no_temperature.add(distance.name)
        terms[distance.name] = Term(
            name=distance.name,
            middle=distance.length.value,
            half=tolerance,
            even=distance.spread == "even",
            growth=_growth(distance, material, temperatures),
        )
    _say_what_was_taken(sorted(no_material), bare, ledger)
    return Terms(
        by_name=terms,
        temperatures=temperatures,
        unknown_material=frozenset(no_material),
        unknown_temperature=frozenset(no_temperature),
    )


def _say_what_was_taken(no_material: list[str], bare: bool, ledger: Ledger) -> None:
    if no_material:
        ledger.assume_word(
            "stack.distance.material",
            "steel",
            f"no material is written for {', '.join(no_material)}; aluminium grows twice as much",
        )
    if bare:
        ledger.assume_word(
            "stack.distance.length",
            "+/- 0.1 mm where none is written",
            "a depth rod over a straight edge; write the tolerance of the reading or of the drawing behind "
            'the length, "+/- 0 mm" if it is exact',
            mark="common practice, no source",
        )


def tolerance_of(reading: Reading, place: tuple[str | int, ...]) -> float:
    """Tolerance as written, or the usual one of such a reading, m."""
    if has_tolerance(reading.text):
        return reading.tolerance
    usual = usual_of(place) or Usual("")
    # what is not there needs no measuring: a place for shims, a float of nothing
    return usual.tolerance if reading.value > 0.0 else 0.0


def _temperatures(stack: Stack, ledger: Ledger) -> Temperatures:
    """Temperatures as stated, or what is usual."""
    if stack.assembled_at is not None:
        assembled = stack.assembled_at.value
    else:
        assembled = ledger.assume("stack.assembled_at", ROOM, "temperature", "not stated: a warm workshop")
    if stack.running_at is not None:
        return Temperatures(assembled, stack.running_at.value, True)
    if all(d.running_at is not None for d in stack.distance if d.kind == "dimension"):
        return Temperatures(assembled, assembled, True)
    running = ledger.assume(
        "stack.running_at",
        RUNNING,
        "temperature",
        "not stated; each part may lie anywhere from 20 to 120 degC, the shafts above the housing",
    )
    return Temperatures(assembled, running, False)


def _material(distance: StackDistance) -> str:
    """Word of the table of expansions; empty where it is not known. Every steel grows alike."""
    text = (distance.material or distance.steel).strip().lower()
    if not text or text == "unknown":
        return ""
    return text if distance.material and text in expansion_materials() else "steel"


def _growth(distance: StackDistance, material: str, temperatures: Temperatures) -> tuple[float, float, float]:
    """Growth in service as stated, and the least and the most it can be, m."""
    own = distance.running_at
    stated = own.value if own is not None else temperatures.running
    ends = RUNNING_BAND if own is None and not temperatures.known else (stated,)
    choices = (material,) if material else UNKNOWN_MATERIALS

    def growth(word: str, temperature: float) -> float:
        coefficient = thermal_expansion(word).coefficient
        return float(thermal_growth(coefficient, distance.length.value, temperature - temperatures.assembled))

    every = [growth(word, temperature) for word in choices for temperature in (*ends, stated)]
    return growth(choices[0], stated), min(every), max(every)


def _end_float(distance: StackDistance, tolerance: float) -> Term:
    """Play of a bearing: anywhere from 0 to its length, one way or either way."""
    length = distance.length.value + tolerance
    if distance.from_stop:
        return Term(name=distance.name, middle=0.5 * length, half=0.5 * length, even=True)
    return Term(name=distance.name, middle=0.0, half=length, even=True)


def sum_of(signed: StackResult | StackSum, terms: Terms, index: int = 0) -> SignedSum:
    """Signed sum of a result or of a position; `index` is the place of the result."""
    own = tuple(
        (sign, terms.by_name[name])
        for sign, names in ((1.0, signed.plus), (-1.0, signed.minus))
        for name in names
    )
    if isinstance(signed, StackSum):
        return SignedSum(terms=own)
    lost = tuple(
        Term(
            name=f"{_FLOAT_NAME} ({reading.text})",
            middle=reading.value,
            half=tolerance_of(reading, ("stack", "result", index, "less")),
        )
        for reading in signed.less
    )
    cuts = tuple(
        (math.inf, 0.0) if cut is None else (cut.value, tolerance_of(cut, ("stack", "result", index, key)))
        for key, cut in (("external_cut", signed.external_cut), ("internal_cut", signed.internal_cut))
    )
    return SignedSum(terms=own, lost=lost, cuts=(cuts[0], cuts[1]))
