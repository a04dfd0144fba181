"""How each uncertain value moves the torques, the path of the blow, and every check, each on its own."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TypeAlias

import numpy as np

from torqcheck._types import BoolArray, FloatArray
from torqcheck.assessment.prepared import Prepared, changed, checks_at
from torqcheck.assessment.ranges.uncertain import Uncertain, moved
from torqcheck.assessment.torque.path_rows import PathRows, path_rows
from torqcheck.checks import Check
from torqcheck.errors import DomainError
from torqcheck.scenario.bands import FARTHEST, share_below
from torqcheck.scenario.sleeve_links import tied_joints

__all__ = [
    "Key",
    "Response",
    "Responses",
    "along",
    "checks_under",
    "logarithms",
    "path_responses_of",
    "responses_of",
]

Key: TypeAlias = tuple[int, str, str, str]
"""A check: index of its joint, name, method, member."""

END = 1.6
"""Standard deviations at which a value is tried on both sides."""
FURTHER = ((0.01, (-2.8, -0.8, 0.8, 2.8)), (0.05, (-2.2, -1.2, -0.4, 0.4, 1.2, 2.2)))
"""Deviations that are tried as well where the slopes on both sides differ by more than this."""
HALVINGS_INTO_RANGE = 3
STEP_NODES = (-FARTHEST, -1.5, 0.0, 1.5, FARTHEST)
STEP, STEP_HALVINGS = 0.03, 5
"""A change of the logarithm between two nodes that is looked at for a step, and how closely it is found."""
NOTHING = 1e-9
"""Of a logarithm: less is rounding."""


@dataclass(frozen=True, slots=True)
class Response:
    """
    Changes against the values as stated, at some deviations of one uncertain value.

    Parameters
    ----------
    nodes : array
        Deviations, ascending.
    even : bool
        Between the nodes it goes straight in the share of the draws that lie below, not in deviations.
    path : array
        Change of the logarithm of each value of the path: one row for each node.
    lash : array
        Change of the lash, rad, or of its logarithm.
    checks : array
        Change of the logarithm of each safety factor under the torques as stated.
    """

    nodes: FloatArray
    path: FloatArray
    lash: FloatArray
    checks: FloatArray
    even: bool = False

    @property
    def moves_blow(self) -> bool:
        """Whether torques or blow depend on it."""
        return bool(np.any(np.abs(self.path) > NOTHING) or np.any(np.abs(self.lash) > 0.0))

    @property
    def moves(self) -> bool:
        """Whether anything depends on it."""
        return self.moves_blow or bool(np.any(np.abs(self.checks) > NOTHING))


@dataclass(frozen=True, slots=True)
class Responses:
    """The uncertain values that move anything, and what they move."""

    prepared: Prepared
    quiet: Prepared
    keys: tuple[Key, ...]
    stated: FloatArray
    steady: tuple[float, ...]
    peaks: tuple[float, ...]
    path: PathRows
    uncertain: tuple[Uncertain, ...]
    each: tuple[Response, ...]

    @property
    def in_blow(self) -> BoolArray:
        """Which of the uncertain values move torques or blow."""
        return np.array([response.moves_blow for response in self.each], dtype=np.bool_)

    def path_at(self, deviations: FloatArray) -> PathRows:
        """The path in many draws: one row of deviations for each uncertain value, one column per draw."""
        count = deviations.shape[1]
        logs, added, stretched = np.zeros((self.path.rows.size, count)), np.zeros(count), np.zeros(count)
        for uncertain, response, z in zip(self.uncertain, self.each, deviations, strict=True):
            if not response.moves_blow:
                continue
            logs += along(response, response.path, z).T
            change = along(response, response.lash[:, None], z)[:, 0]
            if _adds_to_lash(uncertain, self.path):
                added += change
            else:
                stretched += change
        lash = np.maximum((self.path.lash + added) * np.exp(stretched), 0.0)
        return replace(self.path, rows=self.path.rows * np.exp(logs), lash=lash)


def along(response: Response, values: FloatArray, z: FloatArray) -> FloatArray:
    """Broken line through the nodes, carried on straight beyond them: one row for each draw."""
    nodes, z = (share_below(x) if response.even else x for x in (response.nodes, z))
    after = np.clip(np.searchsorted(nodes, z), 1, nodes.size - 1)
    left, right = nodes[after - 1], nodes[after]
    share = ((z - left) / (right - left))[:, None]
    return np.asarray(values[after - 1] * (1.0 - share) + values[after] * share)


def checks_under(prepared: Prepared, index: int, steady: float, peak: float) -> tuple[Check, ...]:
    """Checks of one joint under given torques, whatever its path would bring there."""
    load = prepared.loads[index]
    given = replace(load, torque=steady, regen_torque=min(load.regen_torque, steady))
    loads = (*prepared.loads[:index], given, *prepared.loads[index + 1 :])
    return checks_at(replace(prepared, loads=loads), index, peak)


def logarithms(checks: Sequence[Check], keys: Sequence[Key]) -> FloatArray:
    """
    Logarithm of the safety factor of each check that is asked for; NaN where nothing loads the part.

    A check is found by name and method: the member that governs it may change with a reading. NaN
    where it is not made any more.
    """
    found: dict[tuple[str, str], list[float]] = {}
    for check in checks:
        factor = check.safety_factor
        found.setdefault((check.name, check.method), []).append(math.log(factor) if factor else math.nan)
    rows = []
    for _, name, method, _ in keys:
        left = found.get((name, method))
        rows.append(left.pop(0) if left else math.nan)
    return np.array(rows)


@dataclass(frozen=True, slots=True)
class _Stated:
    """The path as stated, against which everything is compared."""

    prepared: Prepared
    steady: tuple[float, ...]
    peaks: tuple[float, ...]
    path: PathRows
    keys: tuple[tuple[Key, ...], ...]
    checks: tuple[FloatArray, ...]

    def at(self, uncertain: Uncertain, deviation: float, *, checked: bool = True) -> Response:
        """Evaluate the path with one value moved, and the checks unless they do not know of it."""
        deviations: dict[str, float] = {}
        scenario = moved(self.prepared.scenario, uncertain, deviation, deviations)
        prepared = changed(self.prepared, scenario, deviations, uncertain.joint)
        here = path_rows(prepared)
        parts = []
        tied = None if uncertain.joint is None else tied_joints(scenario.joint, uncertain.joint)
        for index, stated in enumerate(self.checks):
            if checked and (tied is None or index in tied):
                found = checks_under(prepared, index, self.steady[index], self.peaks[index])
                parts.append(logarithms(found, self.keys[index]) - stated)
            else:
                parts.append(np.zeros(stated.size))
        return Response(
            np.array([deviation]),
            _log_ratio(here.rows, self.path.rows).T,
            self._lash(uncertain, here.lash),
            np.nan_to_num(np.concatenate((*parts, np.zeros(0))))[None],
        )

    def _lash(self, uncertain: Uncertain, lash: FloatArray) -> FloatArray:
        if _adds_to_lash(uncertain, self.path):
            return lash - self.path.lash
        return _log_ratio(lash, self.path.lash)


def _adds_to_lash(uncertain: Uncertain, path: PathRows) -> bool:
    """Whether an uncertain value moves the lash in equal steps, or in equal ratios."""
    return uncertain.adds or float(path.lash[0]) <= 0.0


def _log_ratio(new: FloatArray, old: FloatArray) -> FloatArray:
    """Logarithm of the ratio; 0 where there is nothing, or no end to it."""
    sound = (new > 0.0) & (old > 0.0) & np.isfinite(new) & np.isfinite(old)
    return np.asarray(np.log(np.where(sound, new, 1.0) / np.where(sound, old, 1.0)))


def responses_of(prepared: Prepared, peaks: Sequence[float], uncertain: Sequence[Uncertain]) -> Responses:
    """
    Try every uncertain value on both sides, one at a time, through the same code as the check itself.

    Parameters
    ----------
    prepared : Prepared
        The path as stated.
    peaks : sequence of float, N m
        Simulated peak torque at each joint, as stated.
    uncertain : sequence of Uncertain
        What is not known exactly.
    """
    steady = tuple(max(load.torque, load.regen_torque) for load in prepared.loads)
    quiet = changed(prepared, prepared.scenario, {}, None)
    checks = [checks_under(quiet, i, steady[i], peaks[i]) for i in range(len(prepared.joints))]
    keys = tuple(
        tuple((index, check.name, check.method, check.member) for check in found)
        for index, found in enumerate(checks)
    )
    factors = tuple(logarithms(found, here) for found, here in zip(checks, keys, strict=True))
    stated = _Stated(prepared, steady, tuple(peaks), path_rows(prepared), keys, factors)
    return _all_responses(stated, quiet, uncertain)


def path_responses_of(prepared: Prepared, uncertain: Sequence[Uncertain]) -> Responses:
    """Try every uncertain value on both sides, for what it does to the path alone."""
    return _all_responses(_Stated(prepared, (), (), path_rows(prepared), (), ()), prepared, uncertain)


def _all_responses(stated: _Stated, quiet: Prepared, uncertain: Sequence[Uncertain]) -> Responses:
    """Keep the values that move anything."""
    pairs = [(entry, _response(stated, entry)) for entry in uncertain]
    kept = [(entry, response) for entry, response in pairs if response is not None and response.moves]
    return Responses(
        prepared=stated.prepared,
        quiet=quiet,
        keys=tuple(key for here in stated.keys for key in here),
        stated=np.concatenate((*stated.checks, np.zeros(0))),
        steady=stated.steady,
        peaks=stated.peaks,
        path=stated.path,
        uncertain=tuple(entry for entry, _ in kept),
        each=tuple(response for _, response in kept),
    )


def _response(stated: _Stated, uncertain: Uncertain) -> Response | None:
    """Response of one value; None if it moves nothing."""
    if uncertain.scale:
        return _stepped(stated, uncertain)
    end = FARTHEST if uncertain.even else END
    upper = _within_range(stated, uncertain, end)
    if upper is None or not upper.moves:
        # a reading that counts in one direction only may still move things on the other side
        lower = _within_range(stated, uncertain, -end)
        if lower is None or not lower.moves:
            return None
        upper = upper or _nothing(stated, end)
    else:
        known = uncertain.joint is not None or bool(np.any(upper.checks))
        lower = _within_range(stated, uncertain, -end, checked=known) or _nothing(stated, -end)
    # a value that is stated at an end of its band, or of its tolerance, is not the middle of its draws
    at_an_end = uncertain.band is not None or uncertain.written
    middle = stated.at(uncertain, 0.0) if at_an_end else _nothing(stated, 0.0)
    parts = [lower, middle, upper]
    bend = float(np.max(np.abs(lower.checks + upper.checks - 2.0 * middle.checks), initial=0.0))
    for least, nodes in FURTHER:
        if bend > least:
            # an end that had to come nearer may stand at such a node already
            free = set(nodes) - {float(part.nodes[0]) for part in parts}
            more = [_within_range(stated, uncertain, node) for node in sorted(free)]
            parts += [part for part in more if part is not None and part.nodes[0] in free]
    joined = _joined(sorted(parts, key=lambda part: float(part.nodes[0])))
    return replace(joined, even=uncertain.even)


def _within_range(
    stated: _Stated, uncertain: Uncertain, deviation: float, *, checked: bool = True
) -> Response | None:
    """Evaluate, nearer to the middle where the formulas end before."""
    for halving in range(HALVINGS_INTO_RANGE + 1):
        try:
            return stated.at(uncertain, deviation / 2.0**halving, checked=checked)
        except DomainError:
            continue
    return None


def _stepped(stated: _Stated, uncertain: Uncertain) -> Response | None:
    """Response of a hardness: it moves smoothly within a class and in steps between them."""
    ends = [stated.at(uncertain, node) for node in (STEP_NODES[0], STEP_NODES[-1])]
    if not any(end.moves for end in ends):
        return None
    parts = [ends[0], *(stated.at(uncertain, node) for node in STEP_NODES[1:-1]), ends[1]]
    found = parts[:1]
    for lower, upper in pairwise(parts):
        for _ in range(STEP_HALVINGS):
            if np.max(np.abs(upper.checks - lower.checks)) < STEP:
                break
            middle = stated.at(uncertain, 0.5 * float(lower.nodes[0] + upper.nodes[0]))
            jumps = [float(np.max(np.abs(end.checks - middle.checks))) for end in (lower, upper)]
            found.append(middle)
            lower, upper = (lower, middle) if jumps[0] > jumps[1] else (middle, upper)
    found = sorted((*found, *parts[1:]), key=lambda part: float(part.nodes[0]))
    return _joined(found)


def _nothing(stated: _Stated, deviation: float) -> Response:
    size = sum(part.size for part in stated.checks)
    return Response(
        np.array([deviation]), np.zeros((1, stated.path.rows.size)), np.zeros(1), np.zeros((1, size))
    )


def _joined(parts: Sequence[Response]) -> Response:
    """Put nodes together."""
    return Response(
        np.concatenate([part.nodes for part in parts]),
        np.concatenate([part.path for part in parts]),
        np.concatenate([part.lash for part in parts]),
        np.concatenate([part.checks for part in parts]),
    )
