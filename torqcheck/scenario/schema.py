"""The scenario file, block by block: names, types and what each field means.

Frozen models. The joints stand in joint_schema.py; rules that tie fields together in rules.py.
"""

import datetime
from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, PrivateAttr
from pydantic_core import PydanticCustomError

from torqcheck.materials import Steel
from torqcheck.scenario.duty_record import DutyRecord, FileHash
from torqcheck.scenario.joint_schema import LEAST_EFFICIENCY, LEAST_RATIO, MOST_RATIO, Block, Lash, ListOf
from torqcheck.scenario.kinds import Joint
from torqcheck.scenario.quantity import (
    Force,
    Inertia,
    Length,
    Line,
    Mass,
    Period,
    Prose,
    RunningTime,
    SmallLength,
    Speed,
    Stiffness,
    Time,
    Title,
    TopSpeed,
    Torque,
    TorqueOrNone,
    TorqueRise,
)
from torqcheck.scenario.stack_schema import Stack, StackDistance, StackResult

__all__ = [
    "MOST_JOINTS",
    "Driven",
    "Duty",
    "DutyFile",
    "InspectionEntry",
    "Materials",
    "Motor",
    "Moved",
    "Record",
    "Reduction",
    "Scenario",
    "Slip",
    "Stack",
    "StackDistance",
    "StackResult",
    "Targets",
]

MOST_JOINTS, MOST_INSPECTIONS, MOST_SPELLS, MOST_TABLES = 40, 200, 200, 20
"""More than any machine has, and no more than is answered within half a minute."""


class Record(Block):
    """What the printout says about the job."""

    title: Title = Field(default="Untitled check", max_length=200, description="title of the job")
    build: Line = Field(default="", max_length=80, description="number of the build or machine")
    checked_by: Line = Field(default="", max_length=120, description="who made the check")
    date: datetime.date | None = Field(default=None, description="date of the check, 2026-03-14")
    notes: Prose = Field(default="", max_length=4000, description="anything to keep with the record")


class Motor(Block):
    """The electric motor and the limits set in its controller."""

    peak_torque: Torque = Field(description="peak torque of the data sheet, at the motor shaft")
    torque_rise: TorqueRise | None = Field(
        default=None, description="slope of the motor torque as set in the controller"
    )
    rise_time: Time | None = Field(default=None, description="time from zero to peak torque")
    percent_per_10ms: float | None = Field(
        default=None, ge=1e-3, le=100.0, description="slope in percent of peak torque per 10 ms"
    )
    boost: float = Field(
        default=1.0, ge=0.01, le=5.0, description="factor by which the controller can exceed the peak"
    )
    regen_torque: TorqueOrNone | None = Field(default=None, description="largest braking torque")
    regen_rise: TorqueRise | None = Field(default=None, description="slope in regeneration")
    max_speed: TopSpeed = Field(description="highest speed of the motor shaft")
    rotor_inertia: Inertia | None = Field(default=None, description="inertia of the rotor")
    rotor_mass: Mass | None = Field(default=None, description="mass of the rotor, if its inertia is unknown")
    rotor_diameter: Length | None = Field(default=None, description="outside diameter of the rotor")
    motor_mass: Mass | None = Field(
        default=None, description="mass of the whole motor, if nothing else is known"
    )
    frame_diameter: Length | None = Field(default=None, description="outside diameter of the motor frame")
    character: Literal["uniform", "light shock", "medium shock"] = Field(
        default="uniform", description="row of the application-factor table; an electric motor is uniform"
    )


class Reduction(Block):
    """Gear stage between the motor and the first joint."""

    ratio: float = Field(
        default=1.0, ge=LEAST_RATIO, le=MOST_RATIO, description="motor speed over output speed"
    )
    efficiency: float | None = Field(
        default=None, ge=LEAST_EFFICIENCY, le=1.0, description="power out over power in; 0.97 if not given"
    )
    inertia: Inertia | None = Field(default=None, description="inertia at the output of the stage")


class Moved(Block):
    """A mass that the driven side moves: a vehicle, a load on a rope."""

    mass: Mass = Field(description="moved mass")
    rolling_radius: Length = Field(description="radius of the wheel or drum")
    ratio: float = Field(ge=1e-4, le=1e4, description="speed of the joint over speed of the wheel")


class Slip(Block):
    """What the ground or a clutch lets through before it slips."""

    torque: Torque | None = Field(default=None, description="slip torque at the last joint")
    coefficient: float | None = Field(default=None, ge=1e-3, le=2.0, description="adhesion coefficient")
    normal_force: Force | None = Field(default=None, description="load on the driven wheels")
    rolling_radius: Length | None = Field(default=None, description="rolling radius of the wheels")
    ratio: float | None = Field(
        default=None, ge=1e-4, le=1e4, description="speed of the joint over speed of the wheel"
    )
    efficiency: float | None = Field(
        default=None,
        ge=LEAST_EFFICIENCY,
        le=1.0,
        description="between the joint and the wheel; 0.95 if not given",
    )
    inertia_before: Inertia | None = Field(
        default=None, description="inertia between the joint and the slipping element"
    )


class Driven(Block):
    """What hangs behind the last joint."""

    load: Literal["uniform", "light shock", "intermittent shock", "heavy shock"] = Field(
        description="character of the load, column of the application-factor table"
    )
    inertia: Inertia | None = Field(default=None, description="inertia of the driven side at the last joint")
    moved: Moved | None = Field(default=None, description="moved mass, instead of the inertia")
    held: bool = Field(default=False, description="the driven side cannot turn")
    stiffness: Stiffness | None = Field(
        default=None, description="torsional stiffness of the path behind the last joint"
    )
    damping_ratio: float | None = Field(
        default=None, ge=0.0, le=2.0, description="damping ratio of the torque path; 0.03 if not given"
    )
    slip: Slip | None = Field(default=None, description="slip limit of ground or clutch")


class Targets(Block):
    """What the job asks for."""

    safety_factor: float = Field(default=1.5, ge=1.0, le=20.0, description="least safety factor")
    service_life: RunningTime | None = Field(
        default=None, description="running hours that the joints must last"
    )
    reliability: float = Field(
        default=0.9,
        ge=0.5,
        lt=1.0,
        description="share of the life estimates that must reach the service life",
    )
    lash_limit: SmallLength | None = Field(default=None, description="largest lash, along the pitch circle")
    running_per_year: RunningTime | None = Field(
        default=None, description="running hours in a year, so that reports can say years"
    )


class Duty(Block):
    """One spell of the duty list."""

    name: Line = Field(default="", max_length=120, description="what happens in this spell")
    torque: float = Field(ge=-2.0, le=1.0, description="part of the peak torque; negative is regeneration")
    speed: Speed = Field(description="speed of the motor shaft")
    share: float = Field(ge=1e-9, le=1.0, description="share of the running time")
    events_per_hour: float = Field(
        default=0.0,
        ge=0.0,
        le=1e6,
        description="torque cycles (off-on-off) of this spell per hour of running",
    )
    reversals: bool = Field(default=False, description="each torque cycle also reverses")


class DutyFile(Block):
    """A torque record of the motor shaft in place of the duty list."""

    path: Line = Field(
        max_length=200,
        description="CSV file in the folder of the scenario or below it, header time_s,torque_Nm and, if "
        "known, speed_rpm; all at the motor shaft",
    )
    repeats_every: Period = Field(
        description="running time for which one record stands; beyond its end the machine stands still"
    )


def _lash_table(written: object) -> object:
    """Refuse the words that the lash of a joint may be: an inspection without a reading is none."""
    if isinstance(written, str):
        raise PydanticCustomError(
            "fault",
            "{problem}; {mend}",
            {
                "problem": "is no reading",
                "mend": 'an inspection reads the lash: write for example { clearance = "0.12 mm" }',
            },
        )
    return written


class InspectionEntry(Block):
    """The lash as it was read when a joint was opened after some running."""

    joint: Line = Field(
        default="", max_length=60, description="name of the joint; may be left out if only one is splined"
    )
    hours: RunningTime = Field(
        description="running hours since the lash that stands at the joint was true; rising from one "
        "inspection of a joint to the next"
    )
    lash: Annotated[Lash, BeforeValidator(_lash_table)] = Field(
        description="rotational play as read, in one of the forms of the joint's lash"
    )
    regreased: bool = Field(default=False, description="the joint was cleaned and greased again")
    date: datetime.date | None = Field(default=None, description="date of the inspection, 2026-03-14")
    notes: Prose = Field(default="", max_length=4000, description="what was seen: dust, dents, colour")


class Materials(Block):
    """Further tables of steels."""

    tables: ListOf[Line] = Field(
        default=(),
        max_length=MOST_TABLES,
        description="CSV files beside the scenario, columns as in steels.csv",
    )


def _whole_number(written: object) -> object:
    """Refuse every other version, and true and 1.0, which count as 1 for Python."""
    if type(written) is not int or written != 1:
        raise PydanticCustomError(
            "fault",
            "{problem}; {mend}",
            {"problem": "is not a format that this version reads", "mend": "write format = 1"},
        )
    return written


FormatVersion = Annotated[Literal[1], BeforeValidator(_whole_number)]


class Scenario(Block):
    """A whole scenario file."""

    format: FormatVersion = Field(description="version of this file format")
    record: Record = Field(default=Record.model_construct(), description="the job")
    materials: Materials = Field(default=Materials.model_construct(), description="further tables of steels")
    motor: Motor = Field(description="motor and controller")
    reduction: Reduction | None = Field(default=None, description="gear stage before the first joint")
    driven: Driven = Field(description="what is driven")
    targets: Targets = Field(default=Targets.model_construct(), description="what the job asks for")
    duty: Annotated[ListOf[Duty], Field(max_length=MOST_SPELLS)] = Field(
        default=(), description="spells of use; their shares add to 1"
    )
    duty_file: DutyFile | None = Field(default=None, description="a torque record in place of the duty list")
    joint: ListOf[Joint] = Field(
        min_length=1, max_length=MOST_JOINTS, description="joints from the motor to the load, in order"
    )
    inspection: Annotated[ListOf[InspectionEntry], Field(max_length=MOST_INSPECTIONS)] = Field(
        default=(), description="readings of the lash taken in service, each joint's in the order of time"
    )
    stack: Stack | None = Field(default=None, description="axial stack-up")
    _path: Path = PrivateAttr(default=Path("scenario.toml"))
    _file_sha256: str = PrivateAttr(default="")
    _example_lines: int = PrivateAttr(default=0)
    _duty_record: DutyRecord | None = PrivateAttr(default=None)
    _library: tuple[Mapping[str, Steel], ...] = PrivateAttr(default=())
    _document: Mapping[str, Any] = PrivateAttr(default_factory=dict)

    @property
    def document(self) -> Mapping[str, Any]:
        """What the file says, before it was given meaning; not to be changed."""
        return self._document

    @property
    def path(self) -> Path:
        """Where the file was read from."""
        return self._path

    @property
    def file_sha256(self) -> str:
        """Hash of the file as it was read; empty for a scenario that was not read from a file."""
        return self._file_sha256

    @property
    def example_lines(self) -> int:
        """How many lines of the file were still marked as examples when it was read."""
        return self._example_lines

    @property
    def duty_record(self) -> DutyRecord | None:
        """The torque record that the scenario names, read; None for a duty list."""
        return self._duty_record

    @property
    def duty_file_hash(self) -> FileHash | None:
        """Name and hash of that record; None for a duty list."""
        return None if self._duty_record is None else self._duty_record.file_hash

    @property
    def library(self) -> tuple[Mapping[str, Steel], ...]:
        """The user's own tables of steels, loaded."""
        return self._library
