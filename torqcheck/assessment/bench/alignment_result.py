"""How the axes of one joint lie, what is permitted, and what aligning would gain, as frozen data."""

from dataclasses import dataclass
from typing import Any, Literal

from torqcheck.assessment.bench.play_result import Spread
from torqcheck.checks import Verdict
from torqcheck.provenance import Source
from torqcheck.scenario.alignment import Across
from torqcheck.scenario.tilt_reading import AlignmentReading
from torqcheck.units import Kind

__all__ = ["AlignmentResult", "AlignmentRow", "LimitRow", "LimitVerdict", "RowState"]

RowState = Literal["as read", "as assumed", "feet cold", "without offset", "without tilt", "aligned"]
LimitVerdict = Literal["excellent", "within", "too close to tell", "beyond", "not measured"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitRow:
    """
    One reading against what is permitted. SI.

    Parameters
    ----------
    what : str
        What is compared.
    kind : str
        Kind of quantity: length, angle, or slip speed (m/s).
    value, tolerance : float
        As it runs.
    limit : float
        What is permitted.
    excellent : float or None
        What the same source calls excellent.
    hard : bool
        A limit of the kind of joint, beyond which it fails; otherwise practice, which decides nothing.
    measured : bool
        The value was read.
    source : Source
        Where the limit stands.
    """

    what: str
    kind: Kind | Literal["slip speed"]
    value: float
    tolerance: float
    limit: float
    excellent: float | None
    hard: bool
    measured: bool
    source: Source

    @property
    def passed(self) -> bool:
        """Surely beyond a limit of the kind of joint."""
        return self.hard and self.value - self.tolerance > self.limit

    @property
    def verdict(self) -> LimitVerdict:
        """In words; the tolerance of the reading counts."""
        if not self.measured:
            return "not measured"
        if self.value - self.tolerance > self.limit:
            return "beyond"
        if self.excellent is not None and self.value + self.tolerance <= self.excellent:
            return "excellent"
        return "within" if self.value + self.tolerance <= self.limit else "too close to tell"

    def to_dict(self) -> dict[str, Any]:
        """Return the comparison as plain data, the unit beside it."""
        scale, unit = {"length": (1e3, "mm"), "slip speed": (1e3, "mm/s")}.get(self.kind, (1.0, "rad"))
        return {
            "what": self.what,
            "value": self.value * scale,
            "tolerance": self.tolerance * scale,
            "limit": self.limit * scale,
            "excellent": None if self.excellent is None else self.excellent * scale,
            "unit": unit,
            "verdict": self.verdict,
            "hard": self.hard,
            "mark": self.source.mark,
            "source": str(self.source),
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class AlignmentRow:
    """
    One state of the alignment and what it does. SI.

    Parameters
    ----------
    state : str
        Which.
    tilt : float, rad
        Of the mesh, the rocking of an unsupported nose included.
    slip_amplitude : float, m
        Of the flanks.
    slip_speed : float, m/s
        Largest, in the fastest spell.
    wear_rate : float or None, m/h
        Of both flanks together, median; None where the wear law does not hold.
    load_factor : float or None
        Load-distribution factor Km of the guide; None where it has none.
    peak, first : tuple of float
        Largest over mean load per length, and share of the first tooth: median and 95th percentile.
    """

    state: RowState
    tilt: float
    slip_amplitude: float
    slip_speed: float
    wear_rate: float | None
    load_factor: float | None
    peak: Spread
    first: Spread

    def to_dict(self) -> dict[str, Any]:
        """Return the row as plain data, the unit in the key."""
        return {
            "state": self.state,
            "tilt_rad": self.tilt,
            "slip_amplitude_mm": self.slip_amplitude * 1e3,
            "slip_speed_mm_s": self.slip_speed * 1e3,
            "wear_mm_1000h": None if self.wear_rate is None else self.wear_rate * 1e6,
            "Km": self.load_factor,
            "peak_over_mean": {"p50": self.peak[0], "p95": self.peak[1]},
            "first_tooth_share": {"p50": self.first[0], "p95": self.first[1]},
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class AlignmentResult:
    """The reading of one joint, its limits, the rows to compare, and remarks; `rows` is empty if rigid."""

    reading: AlignmentReading
    tilt: float
    tolerance: float
    speed: float
    torque: float
    limits: tuple[LimitRow, ...]
    rows: tuple[AlignmentRow, ...]
    notes: tuple[str, ...]

    @property
    def verdict(self) -> Verdict | None:
        """Fail beyond a limit of the kind of joint; None otherwise: practice decides nothing."""
        return "fail" if self.beyond is not None else None

    @property
    def beyond(self) -> LimitRow | None:
        """The limit of the kind of joint that is passed, if one is."""
        return next((row for row in self.limits if row.passed), None)

    def row(self, state: RowState) -> AlignmentRow | None:
        """Return one of the rows."""
        return next((row for row in self.rows if row.state == state), None)

    def wear_share(self, without: RowState) -> float | None:
        """Share of the wear that would go with one thing put right; None where there is none to share."""
        better = self.row(without)
        if better is None or not self.rows[0].wear_rate:
            return None
        return 1.0 - (better.wear_rate or 0.0) / self.rows[0].wear_rate

    def load_share(self, without: RowState) -> float | None:
        """Share of the largest load per length (median) that would go with one thing put right."""
        better = self.row(without)
        return None if better is None else 1.0 - better.peak[0] / self.rows[0].peak[0]

    def to_dict(self) -> dict[str, Any]:
        """Return everything as plain data, the unit in the key."""
        reading = self.reading
        cold = reading.cold_mesh
        return {
            "method": reading.method,
            "measured": reading.measured,
            "offset_mm": _across(reading.offset, 1e3),
            "cold_offset_mm": _across(reading.cold_offset, 1e3),
            "tilt_rad": _across(reading.tilt, 1.0),
            "span_mm": None if reading.span is None else reading.span * 1e3,
            "joint_tilt_rad": self.tilt,
            "joint_tilt_tolerance_rad": self.tolerance,
            "cold_joint_tilt_rad": None if cold is None else cold + reading.rocking,
            "rocking_rad": reading.rocking,
            "turning_offset_mm": _across(reading.turning_offset, 1e3),
            "turning_tilt_rad": _across(reading.turning_tilt, 1.0),
            "closing": [
                {"sweep": c.sweep, "error_mm": c.error * 1e3, "tolerance_mm": c.tolerance * 1e3}
                for c in reading.closings
            ],
            "speed_rad_s": self.speed,
            "torque_Nm": self.torque,
            "limits": [row.to_dict() for row in self.limits],
            "rows": [row.to_dict() for row in self.rows],
            "shares": {
                "wear": {
                    "offset": self.wear_share("without offset"),
                    "tilt": self.wear_share("without tilt"),
                    "both": self.wear_share("aligned"),
                },
                "load": {
                    "offset": self.load_share("without offset"),
                    "tilt": self.load_share("without tilt"),
                    "both": self.load_share("aligned"),
                },
            },
            "verdict": self.verdict,
            "notes": list(self.notes),
        }


def _across(found: Across | None, scale: float) -> dict[str, float | None] | None:
    """Total and components with their tolerances."""
    if found is None:
        return None
    values = {
        "total": found.total,
        "tolerance": found.tolerance,
        "vertical": found.vertical,
        "vertical_tolerance": found.vertical_tolerance,
        "horizontal": found.horizontal,
        "horizontal_tolerance": found.horizontal_tolerance,
    }
    return {name: None if value is None else value * scale for name, value in values.items()}
