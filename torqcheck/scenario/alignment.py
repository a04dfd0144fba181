"""From the readings of a dial to two axes in space: offset and tilt at the middle of the engagement."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.geometry import thermal_growth
from torqcheck.materials import thermal_expansion
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Reading
from torqcheck.scenario.tilt_schema import ClockReadings, Feet, Tilt
from torqcheck.scenario.usual import CLOCK, tolerance_of
from torqcheck.wear import (
    closing_error,
    fixed_part,
    offset_along,
    offset_component,
    tilt_between_planes,
    tilt_component,
    tilt_of_mesh,
    total_offset,
    total_tilt,
    turning_part,
)

Pair: TypeAlias = tuple[FloatArray, FloatArray]

__all__ = ["Across", "Axes", "Closing", "Input", "axes_of", "inputs_of", "rises_of"]


@dataclass(frozen=True, slots=True)
class Across:
    """A length or an angle across the axis; upwards and to the right (seen from the motor) if known."""

    total: float
    tolerance: float
    vertical: float | None = None
    horizontal: float | None = None
    vertical_tolerance: float | None = None
    horizontal_tolerance: float | None = None


@dataclass(frozen=True, slots=True)
class Closing:
    """By how much the four readings of one sweep miss closing, and by how much they may."""

    sweep: str
    error: float
    tolerance: float


@dataclass(frozen=True, slots=True)
class Input:
    """One number that goes in, and its tolerance (two standard deviations)."""

    value: float
    tolerance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Axes:
    """
    The driven axis against that of the motor, at the middle of the engagement.

    Parameters
    ----------
    offset, tilt : Across
        As it runs, feet warm.
    cold_offset : Across
        As it was read.
    turning_offset, turning_tilt : Across or None
        What turns with the part that was read, where half a turn has told it apart.
    closings : tuple of Closing
        One for each sweep.
    mesh : callable
        Tilt of the mesh if the offset (the cold one, if so asked) is taken up over a span.
    """

    offset: Across
    tilt: Across
    cold_offset: Across
    turning_offset: Across | None
    turning_tilt: Across | None
    closings: tuple[Closing, ...]
    mesh: Callable[[float, bool], Across]


def inputs_of(tilt: Tilt, key: str, ledger: Ledger) -> dict[str, Input]:
    """List every number that the four readings of each sweep are reduced with."""
    inputs: dict[str, Input] = {}
    for sweep in ("rim", "face", "reverse_rim", "rim_after_half_turn", "face_after_half_turn"):
        readings = getattr(tilt, sweep)
        if isinstance(readings, ClockReadings):
            for place in CLOCK:
                inputs[f"{sweep}.{place}"] = _input(getattr(readings, place), f"{sweep}.{place}")
    for name in ("diameter", "rims_apart", "to_middle", "sag"):
        reading = getattr(tilt, name)
        if reading is not None:
            inputs[name] = _input(reading, f"joint.tilt.{name}")
    if tilt.to_middle is None:
        ledger.assume(
            f"{key}.tilt.to_middle",
            0.0,
            "length",
            "not given: the offset counts as it is in the plane of the rim dial",
        )
    inputs.setdefault("to_middle", Input(0.0, 0.0))
    inputs.setdefault("sag", Input(0.0, 0.0))
    left_in = 0.0
    if _run_out_left(tilt) and tilt.shaft_runout is not None:
        left_in = 0.5 * tilt.shaft_runout.value
    inputs["run-out upwards"] = inputs["run-out to the right"] = Input(0.0, left_in)
    return inputs


def _run_out_left(tilt: Tilt) -> bool:
    """Whether the run-out of the part that was read is still in the readings."""
    return tilt.turned == "dial only" and tilt.rim_after_half_turn is None


def _input(reading: Reading, field: str) -> Input:
    return Input(reading.value, tolerance_of(reading, field))


def rises_of(tilt: Tilt, key: str, ledger: Ledger) -> tuple[Input, Input] | None:
    """Rise of the motor's axis and of the driven one by their warm feet; None if nothing is said of it."""
    if tilt.feet is None and tilt.driven_feet is None:
        return None
    return (
        _rise(tilt.feet, f"{key}.tilt.feet", "feet", ledger),
        _rise(tilt.driven_feet, f"{key}.tilt.driven_feet", "driven_feet", ledger),
    )


def _rise(feet: Feet | None, key: str, block: str, ledger: Ledger) -> Input:
    """Rise of one axis by its warm feet, with its tolerance."""
    if feet is None:
        return Input(0.0, 0.0)
    expansion = thermal_expansion(feet.material or "steel")
    coefficient, doubt = expansion.coefficient, 0.5 * (expansion.most - expansion.least)
    if feet.material is None or doubt > 0.0:
        # no band: the doubt goes into the tolerance of the offset, which is drawn as a whole
        given = "" if feet.material else ", as no material is given"
        ends = f"; works print {expansion.least * 1e6:.1f}e-6 to {expansion.most * 1e6:.1f}e-6"
        ledger.assume(
            f"{key}.expansion",
            coefficient,
            None,
            f"1/K, {expansion.material}{given}{ends if doubt > 0.0 else ''}",
            mark=expansion.source.mark,
        )
    height, warmer = feet.height, feet.warmer_by
    rise = float(thermal_growth(coefficient, height.value, warmer.value))
    parts = (
        doubt * height.value * warmer.value,
        coefficient * tolerance_of(height, f"{block}.height") * warmer.value,
        coefficient * height.value * tolerance_of(warmer, f"{block}.warmer_by"),
    )
    return Input(rise, math.hypot(*parts))


def axes_of(tilt: Tilt, inputs: Mapping[str, Input], rise: tuple[Input, Input] | None) -> Axes:
    """
    Reduce the readings of all sweeps; tolerances by moving each number to both ends of its own.

    Parameters
    ----------
    tilt : Tilt
        The block of the file; its readings are those of `inputs`.
    inputs : mapping of str to Input
        As `inputs_of` lists them.
    rise : tuple of Input or None
        Rise of the motor's axis, and of the driven one, from when it was read to when it runs.
    """
    given = dict(inputs)
    given["motor rise"], given["driven rise"] = rise or (Input(0.0, 0.0), Input(0.0, 0.0))
    numbers = _columns(given)
    cold, slope = _cold_axes(tilt, numbers)
    warm = cold[0] + numbers["driven rise"] - numbers["motor rise"], cold[1]
    turning = tilt.rim_after_half_turn is not None

    def mesh(span: float, when_cold: bool) -> Across:
        up, right = cold if when_cold else warm
        steep = np.tan(slope[0]), np.tan(slope[1])
        ends = [(steep[0] + sign * up / span, steep[1] + sign * right / span) for sign in (1.0, -1.0)]
        # of the two ends that `tilt_of_mesh` compares, the harder one has the tolerance
        harder = max(ends, key=lambda end: math.hypot(end[0][0], end[1][0]))
        found = _across(np.arctan(harder[0]), np.arctan(harder[1]), total_tilt)
        axes = slope[0][0], slope[1][0], up[0], right[0]
        return Across(float(tilt_of_mesh(*axes, span)), found.tolerance)

    return Axes(
        offset=_across(*warm, total_offset),
        tilt=_across(*slope, total_tilt),
        cold_offset=_across(*cold, total_offset),
        turning_offset=_across(*_turning_offset(numbers), total_offset) if turning else None,
        turning_tilt=_across(*_turning_tilt(numbers), total_tilt) if turning else None,
        closings=tuple(_closings(numbers)),
        mesh=mesh,
    )


def _columns(inputs: Mapping[str, Input]) -> dict[str, FloatArray]:
    """Every number as it is, and with each of them in turn at the upper and the lower end."""
    size = 1 + 2 * len(inputs)
    columns = {}
    for index, (name, given) in enumerate(inputs.items()):
        column = np.full(size, given.value)
        column[1 + 2 * index] += given.tolerance
        column[2 + 2 * index] -= given.tolerance
        columns[name] = column
    return columns


def _sweep(tilt: Tilt, numbers: Mapping[str, FloatArray], sweep: str) -> dict[str, FloatArray]:
    """Four readings, without what turns with the part that was read if half a turn tells it."""
    found = {place: numbers[f"{sweep}.{place}"] for place in CLOCK}
    if getattr(tilt, f"{sweep}_after_half_turn", None) is None:
        return found
    again = {place: numbers[f"{sweep}_after_half_turn.{place}"] for place in CLOCK}
    return {place: np.asarray(fixed_part(found[place], again[place])) for place in CLOCK}


def _cold_axes(tilt: Tilt, numbers: Mapping[str, FloatArray]) -> tuple[Pair, Pair]:
    """Offset at the middle of the engagement, and tilt; upwards and to the right, feet cold."""
    sign = 1.0 if tilt.dial_on == "motor" else -1.0
    rim = _offsets(_sweep(tilt, numbers, "rim"), numbers["sag"], sign)
    rim = rim[0] + numbers["run-out upwards"], rim[1] + numbers["run-out to the right"]
    if tilt.reverse_rim is not None:
        other = _offsets(_sweep(tilt, numbers, "reverse_rim"), numbers["sag"], -sign)
        # the rim that a dial on the motor reads is the one nearer to the driven machine
        near, far = (other, rim) if tilt.dial_on == "motor" else (rim, other)
        slopes = [
            np.asarray(tilt_between_planes(a, b, numbers["rims_apart"]))
            for a, b in zip(near, far, strict=True)
        ]
    else:
        face = _sweep(tilt, numbers, "face")
        slopes = [
            np.asarray(tilt_component(face[first], face[opposite], numbers["diameter"]))
            for first, opposite in (("top", "bottom"), ("right", "left"))
        ]
    up, right = (
        np.asarray(offset_along(at_rim, slope, numbers["to_middle"]))
        for at_rim, slope in zip(rim, slopes, strict=True)
    )
    return (up, right), (slopes[0], slopes[1])


def _offsets(sweep: Mapping[str, FloatArray], sag: FloatArray, sign: float) -> Pair:
    """Offset of the driven axis in the plane of one sweep; `sign` is -1 for a dial on the driven shaft."""
    up = sign * np.asarray(offset_component(sweep["top"], sweep["bottom"], sag))
    right = sign * np.asarray(offset_component(sweep["right"], sweep["left"]))
    return up, right


def _turning_offset(numbers: Mapping[str, FloatArray]) -> Pair:
    """Rim out of centre in its own bearings, as it stood during the first sweep."""
    turning = _turned(numbers, "rim")
    return (
        np.asarray(offset_component(turning["top"], turning["bottom"])),
        np.asarray(offset_component(turning["right"], turning["left"])),
    )


def _turning_tilt(numbers: Mapping[str, FloatArray]) -> Pair:
    """Face out of square in its own bearings, as it stood during the first sweep."""
    turning = _turned(numbers, "face")
    return (
        np.asarray(tilt_component(turning["top"], turning["bottom"], numbers["diameter"])),
        np.asarray(tilt_component(turning["right"], turning["left"], numbers["diameter"])),
    )


def _turned(numbers: Mapping[str, FloatArray], sweep: str) -> dict[str, FloatArray]:
    return {
        place: np.asarray(
            turning_part(numbers[f"{sweep}.{place}"], numbers[f"{sweep}_after_half_turn.{place}"])
        )
        for place in CLOCK
    }


def _closings(numbers: Mapping[str, FloatArray]) -> list[Closing]:
    """How well each sweep closes."""
    found = []
    for sweep in ("rim", "face", "reverse_rim", "rim_after_half_turn", "face_after_half_turn"):
        if f"{sweep}.top" in numbers:
            error = np.asarray(closing_error(*(numbers[f"{sweep}.{place}"] for place in CLOCK)))
            found.append(Closing(sweep, float(error[0]), _tolerance(error)))
    return found


def _tolerance(column: FloatArray) -> float:
    """Root of the squares of half of what each number moves from end to end."""
    return float(np.sqrt(np.sum(_moves(column) ** 2)))


def _moves(column: FloatArray) -> FloatArray:
    return np.asarray(0.5 * (column[1::2] - column[2::2]))


def _across(up: FloatArray, right: FloatArray, total: Callable[..., object]) -> Across:
    """Both directions and the total with their tolerances, to first order."""
    whole = float(np.asarray(total(up[0], right[0])))
    along = math.hypot(up[0], right[0])
    if along > 0.0:
        moves = (up[0] * _moves(up) + right[0] * _moves(right)) / along
        tolerance = float(np.sqrt(np.sum(moves**2)))
    else:
        tolerance = max(_tolerance(up), _tolerance(right))
    return Across(whole, tolerance, float(up[0]), float(right[0]), _tolerance(up), _tolerance(right))
