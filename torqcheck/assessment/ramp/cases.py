"""Every blow that one ramp setting can cause: all starts, all driven sides that are tried, all draws."""

from dataclasses import dataclass
from typing import Any, NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt

from torqcheck._types import BoolArray, FloatArray, IntArray
from torqcheck.assessment.ramp.envelope import envelope
from torqcheck.assessment.ramp.limits import Limits
from torqcheck.assessment.torque.blow import Path
from torqcheck.assessment.torque.slip_element import SlipElement, blow_arguments, peaks_of
from torqcheck.assessment.torque.starts import Start
from torqcheck.shock import peak, sliding_torque, slip_onset_torque, torque_share

__all__ = ["Cases", "Members", "Sample", "TwoStage", "members_of", "nominal_sample"]

MOST_AT_ONCE = 150_000
"""Cases that are handed to the kernel at once: bounds the memory."""
LEADING = 0.8
"""Members whose peak with the values as stated comes so near the largest one are drawn."""
FEW_MEMBERS = 3
"""So many are always drawn."""
ONE = np.zeros(1, np.int64)
"""Index of the only draw."""


Names: TypeAlias = npt.NDArray[np.str_]


@dataclass(frozen=True, slots=True)
class Sample:
    """Values of the path in one or many draws; the factors go with every value that is tried. SI."""

    driving_inertia: FloatArray
    driven_factor: FloatArray
    stiffness_factor: FloatArray
    damping_ratio: FloatArray
    lash: FloatArray

    @property
    def size(self) -> int:
        """Number of draws."""
        return self.lash.size

    @property
    def columns(self) -> tuple[FloatArray, ...]:
        """All values, in the order of the fields."""
        return self.driving_inertia, self.driven_factor, self.stiffness_factor, self.damping_ratio, self.lash

    def first(self, count: int) -> "Sample":
        """The first draws only; those of a quasi-random sequence lie evenly too."""
        return Sample(*(column[:count] for column in self.columns))

    def after(self, other: "Sample") -> "Sample":
        """These draws behind others."""
        pairs = zip(other.columns, self.columns, strict=True)
        return Sample(*(np.concatenate(pair) for pair in pairs))


def nominal_sample(path: Path) -> Sample:
    """The values as stated, as one draw."""
    one = np.ones(1)
    return Sample(path.driving_inertia * one, one, one, path.damping_ratio * one, path.lash * one)


@dataclass(frozen=True, slots=True)
class TwoStage:
    """A small motor torque that closes the lash, N m, and how long it rests, s: one time for each rise."""

    closing_torque: float
    closing_time: FloatArray


@dataclass(frozen=True, slots=True)
class Members:
    """Starts times driven sides, flat: torques in N m at the reference joint.

    `rise` is the slope there for 1 N m/s at the motor shaft, `transfer` the torque there for 1 N m.
    """

    name: Names
    start_torque: FloatArray
    peak_torque: FloatArray
    rise: FloatArray
    transfer: FloatArray
    braking: BoolArray
    driven_inertia: FloatArray
    stiffness: FloatArray

    @property
    def size(self) -> int:
        """Number of members."""
        return self.rise.size


def members_of(path: Path, starts: tuple[Start, ...]) -> Members:
    """Combine starts, given for 1 N m/s at the motor shaft, with every driven side that is tried."""
    rows = [
        (
            start.name,
            start.start_torque,
            start.peak_torque,
            start.torque_rise,
            start.braking,
            inertia,
            stiffness,
        )
        for start in starts
        for inertia in path.driven_inertias
        for stiffness in path.stiffnesses
    ]
    name, start_torque, peak_torque, rise, braking, inertia, stiffness = (
        np.array(column) for column in zip(*rows, strict=True)
    )
    return Members(name, start_torque, peak_torque, rise, rise, braking, inertia, stiffness)


class _Oscillator(NamedTuple):
    """What swings: circular frequency, stiffness, motor torque, and the steady torque in the path.

    `firm` is the steady torque if nothing slips.
    """

    frequency: FloatArray
    stiffness: FloatArray
    motor: FloatArray
    firm: FloatArray
    steady: FloatArray


@dataclass(frozen=True, slots=True)
class Cases:
    """What a search asks: members of one path, and how high their peaks may be."""

    members: Members
    limits: Limits
    nominal: Sample
    slip: SlipElement | None = None

    @property
    def few(self) -> bool:
        """So few members, quickly followed, that all of them are drawn."""
        return self.slip is None and self.members.size <= FEW_MEMBERS

    @property
    def allowed(self) -> FloatArray:
        """Allowed peak torque of each member, N m."""
        return np.where(self.members.braking, self.limits.brake, self.limits.drive)

    @property
    def periods(self) -> FloatArray:
        """Natural period of each member with the values as stated, s."""
        here = self._oscillator(self.nominal, np.arange(self.members.size), ONE)
        return 2.0 * np.pi / here.frequency

    @property
    def steady(self) -> FloatArray:
        """Torque in the path of each member after the swing with the values as stated, N m."""
        return self._oscillator(self.nominal, np.arange(self.members.size), ONE).steady

    def _oscillator(self, sample: Sample, member: IntArray, draw: IntArray) -> _Oscillator:
        """What swings, for members with draws."""
        driving = sample.driving_inertia[draw]
        driven = self.members.driven_inertia[member] * sample.driven_factor[draw]
        stiffness = self.members.stiffness[member] * sample.stiffness_factor[draw]
        motor = self.members.peak_torque[member]
        share = torque_share(driving, driven)
        firm = share * motor
        steady = firm
        if self.slip is not None:
            element = blow_arguments(self.slip, self.members.braking[member], driving, driven, np.zeros(1))
            friction, before = element["slip_torque"], element["inertia_before_slip"]
            onset = slip_onset_torque(friction, np.where(np.isinf(friction), 0.0, before), driven)
            steady = np.where(firm > onset, sliding_torque(motor, friction, driving, before), firm)
        return _Oscillator(np.sqrt(stiffness / (share * driving)), stiffness, motor, firm, steady)

    def bounds(self, sample: Sample, rises: FloatArray) -> FloatArray:
        """Bound of peak over allowed torque at any phase, for each rise, member and draw."""
        result = np.empty((rises.size, self.members.size, sample.size))
        draw, member = np.arange(sample.size), np.arange(self.members.size)[:, None]
        here = self._oscillator(sample, member, draw)
        beta = sample.lash[draw] * here.stiffness / here.firm
        loaded = self.members.start_torque[member] < 0.0
        allowed = self.allowed[member]
        rows = max(1, MOST_AT_ONCE // here.firm.size)
        for start in range(0, rises.size, rows):
            part = slice(start, start + rows)
            slope = self.members.rise[member] * rises[part, None, None] / (here.frequency * here.motor)
            bound = envelope(slope, beta, sample.damping_ratio[draw], loaded)
            swing = bound.swing + np.where(here.steady < here.firm, bound.kick, 0.0)
            highest = np.maximum(bound.blow * here.firm, here.steady + swing * here.firm)
            result[part] = np.minimum(highest, bound.peak * here.firm) / allowed
        return result

    def peaks(
        self,
        sample: Sample,
        member: IntArray,
        draw: IntArray,
        rise: FloatArray,
        stage: TwoStage | None = None,
    ) -> FloatArray:
        """Peak torque of members with draws at rises of the motor torque; the arguments broadcast."""
        arguments = self.arguments(sample, member, draw, rise, stage)
        if stage is not None:
            return np.asarray(peak(**arguments).peak_torque)
        return peaks_of(arguments)

    def arguments(
        self,
        sample: Sample,
        member: IntArray,
        draw: IntArray,
        rise: FloatArray,
        stage: TwoStage | None = None,
    ) -> dict[str, Any]:
        """What the kernel is given for them."""
        of = self.members
        driving = sample.driving_inertia[draw]
        driven = of.driven_inertia[member] * sample.driven_factor[draw]
        start, braking = of.start_torque[member], of.braking[member]
        further = blow_arguments(self.slip, braking, driving, driven, -abs(start))
        further["start_torque"] = np.copysign(further["start_torque"], start)
        if stage is not None:
            rest = np.minimum(stage.closing_torque * of.transfer[member], of.peak_torque[member])
            further |= {"closing_torque": rest, "closing_time": stage.closing_time}
            further.setdefault("inertia_before_slip", driving)  # none slips: any finite value
        return {
            "torque_rise": of.rise[member] * rise,
            "peak_torque": of.peak_torque[member],
            "driving_inertia": driving,
            "driven_inertia": driven,
            "stiffness": of.stiffness[member] * sample.stiffness_factor[draw],
            "damping_ratio": sample.damping_ratio[draw],
            "lash": sample.lash[draw],
            **further,
        }

    def worst(self, rise: float, stage: TwoStage | None = None) -> tuple[str, dict[str, float]]:
        """The start with the largest peak as stated at one rise, and what the kernel is given for it."""
        members, asked = np.arange(self.members.size), np.full(self.members.size, rise)
        rests = None
        if stage is not None:
            rests = TwoStage(stage.closing_torque, np.full(members.size, stage.closing_time[0]))
        demand = self.peaks(self.nominal, members, ONE, asked, rests) / self.allowed
        worst = np.array([int(np.argmax(demand))])
        arguments = self.arguments(self.nominal, worst, ONE, np.array([rise]), stage)
        return str(self.members.name[worst[0]]), {
            name: float(np.ravel(value)[0]) for name, value in arguments.items()
        }

    def directions(
        self, sample: Sample, rises: FloatArray, stage: TwoStage | None = None
    ) -> tuple[FloatArray, FloatArray]:
        """Largest peak driving and braking, N m: one row for each rise, one column for each draw."""
        row, member = self._leading(sample, rises, stage)
        braking = self.members.braking[member]
        drive, brake = np.zeros((2, rises.size, sample.size))
        step = max(1, MOST_AT_ONCE // sample.size)
        for start in range(0, row.size, step):
            part = slice(start, start + step)
            here = row[part, None]
            rests = None if stage is None else TwoStage(stage.closing_torque, stage.closing_time[here])
            found = self.peaks(sample, member[part, None], np.arange(sample.size), rises[here], rests)
            np.maximum.at(drive, row[part][~braking[part]], found[~braking[part]])
            np.maximum.at(brake, row[part][braking[part]], found[braking[part]])
        return drive, brake

    def _leading(
        self, sample: Sample, rises: FloatArray, stage: TwoStage | None
    ) -> tuple[IntArray, IntArray]:
        """Pairs of row and member to follow: of many members only those whose peak comes near the largest."""
        members = np.arange(self.members.size)
        every = np.repeat(np.arange(rises.size), members.size), np.tile(members, rises.size)
        if self.few or sample.size == 1:
            return every
        row, member = every
        rests = None if stage is None else TwoStage(stage.closing_torque, stage.closing_time[row])
        peak = self.peaks(self.nominal, member, ONE, rises[row], rests) / self.allowed[member]
        table = peak.reshape(rises.size, members.size)
        kept = (table >= LEADING * table.max(axis=1, keepdims=True)).ravel()
        return row[kept], member[kept]

    def demands(self, sample: Sample, rises: FloatArray, stage: TwoStage | None = None) -> FloatArray:
        """Largest peak over what is allowed: one row for each rise, one column for each draw."""
        drive, brake = self.directions(sample, rises, stage)
        return np.maximum(drive / self.limits.drive, brake / self.limits.brake)
