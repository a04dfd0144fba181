"""What goes to the shop with an order: lines for the drawing, steps of inspection, what must be settled."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from torqcheck.assessment.rounded import band_mm, rounded_mm
from torqcheck.assessment.verdict.answered import Answered
from torqcheck.assessment.verdict.whole import WholeCheck
from torqcheck.geometry.drawing.data_block import DataBlock, MeasuredWidth, MemberName
from torqcheck.geometry.standards.limits import Band
from torqcheck.materials import Steel
from torqcheck.provenance import Mark, Source

__all__ = ["Lacking", "MateFit", "Order", "OrderLine", "OrderSide", "OrderState", "Step"]

OrderState = Literal["ready", "settle first", "do not make"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """One line of the drawing: a dimension in m, words, or both."""

    name: str
    words: str = ""
    band: Band | None = None
    mark: Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing that the shop measures: when, what, with what, what is accepted; `pin` is a diameter, m."""

    stage: Literal["before heat treatment", "after heat treatment", "finished", "with the mate"]
    what: str
    tool: str
    accept: str = ""
    band: Band | None = None
    pin: float | None = None
    mark: Mark


@dataclass(frozen=True, slots=True)
class Lacking:
    """Something that must be settled before the part is made; `wrong` if the data would make scrap."""

    text: str
    wrong: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class MateFit:
    """For which mate the data are, and the play with the mate as measured, m along the pitch circle.

    `clearance` is None where the mate was not measured with pins, or the new part has no limits.
    """

    words: tuple[str, ...]
    measured: MeasuredWidth | None = None
    clearance: Band | None = None
    new_clearance: Band | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderSide:
    """One part that is to be made; `steel` is None where it is unknown."""

    side: MemberName
    steel: Steel | None
    drawing_note: str
    material: tuple[OrderLine, ...]
    making: tuple[OrderLine, ...]
    inspection: tuple[Step, ...]
    mate: MateFit

    def to_dict(self) -> dict[str, Any]:
        """Return the side as plain data, lengths in mm."""
        return {
            "side": self.side,
            "steel": None if self.steel is None else self.steel.id,
            "drawing_note": self.drawing_note,
            "material": _lines(self.material),
            "making": _lines(self.making),
            "inspection": [
                {
                    "stage": step.stage,
                    "what": step.what,
                    "tool": step.tool,
                    "accept": step.accept,
                    **_band(step.band),
                    "pin_mm": rounded_mm(step.pin),
                    "mark": step.mark,
                }
                for step in self.inspection
            ],
            "mate": {
                "words": list(self.mate.words),
                "measured_width_mm": None
                if self.mate.measured is None
                else rounded_mm(self.mate.measured.width),
                "clearance_mm": band_mm(self.mate.clearance),
                "new_clearance_mm": band_mm(self.mate.new_clearance),
            },
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Order(Answered):
    """Everything that is ordered at one joint; `whole` is None where no whole check can be made."""

    whole: WholeCheck | None
    joint: str
    block: DataBlock
    fit_words: str
    lacking: tuple[Lacking, ...]
    sides: tuple[OrderSide, ...]
    sources: tuple[Source, ...]

    @property
    def state(self) -> OrderState:
        """Whether the shop can begin."""
        if any(entry.wrong for entry in self.lacking):
            return "do not make"
        return "settle first" if self.lacking else "ready"

    def to_dict(self) -> dict[str, Any]:
        """Return the order without the dimensions of the spline, which have a form of their own."""
        return {
            **self.head(),
            "joint": self.joint,
            "state": self.state,
            "whole_check": None if self.whole is None else self.whole.to_dict(),
            "lacking": [entry.text for entry in self.lacking],
            "fit": self.fit_words,
            "sides": [side.to_dict() for side in self.sides],
            "sources": [str(source) for source in self.sources],
        }


def _band(band: Band | None) -> dict[str, float | None]:
    least, most = (None, None) if band is None else (band.minimum, band.maximum)
    return {"minimum_mm": rounded_mm(least), "maximum_mm": rounded_mm(most)}


def _lines(lines: Sequence[OrderLine]) -> list[dict[str, Any]]:
    return [{"name": line.name, "words": line.words, **_band(line.band), "mark": line.mark} for line in lines]
