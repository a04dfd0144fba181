"""How the alignment of a splined joint stands in a scenario file."""

from typing import Annotated, Any, Literal, TypeAlias

from pydantic import BaseModel, Discriminator, Field, GetJsonSchemaHandler, Tag, model_validator
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError

from torqcheck.scenario.block import Block, form
from torqcheck.scenario.quantity import (
    Angle,
    DialReading,
    Length,
    Line,
    SignedLength,
    SmallLength,
    TemperatureDifference,
)

__all__ = ["ClockReadings", "Feet", "Tilt", "TiltField"]


def _readings(written: Any) -> str:
    """Tell four readings around the clock from one total reading."""
    return "table" if isinstance(written, dict | list | BaseModel) else "words"


class ClockReadings(Block):
    """A dial read at four places, seen from the motor; more as the plunger goes in."""

    top: DialReading = Field(description="reading at 12 o'clock")
    right: DialReading = Field(description="reading at 3 o'clock, seen from the motor")
    bottom: DialReading = Field(description="reading at 6 o'clock")
    left: DialReading = Field(description="reading at 9 o'clock, seen from the motor")

    @model_validator(mode="before")
    @classmethod
    def _from_list(cls, written: Any) -> Any:
        """Let four readings in a row stand for top, right, bottom, left."""
        if not isinstance(written, list):
            return written
        if len(written) != len(cls.model_fields):
            raise PydanticCustomError(
                "fault",
                "{problem}; {mend}",
                {
                    "problem": f"has {len(written)} readings, not four",
                    "mend": "write them as top, right, bottom, left",
                },
            )
        return dict(zip(cls.model_fields, written, strict=True))

    @classmethod
    def __get_pydantic_json_schema__(
        cls, core_schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Describe the table and the list."""
        table = handler.resolve_ref_schema(handler(core_schema))
        row = {"type": ["object", "array"], "items": {"type": "string"}, "minItems": 4, "maxItems": 4}
        return table | row


class Feet(Block):
    """The feet of a machine that grow warm after the alignment was read."""

    height: Length = Field(description="height of the axis above the base")
    warmer_by: TemperatureDifference = Field(
        description="how much warmer they run than when the alignment was read; negative if colder"
    )
    material: Line | None = Field(
        default=None, max_length=40, description='material of feet and frame, "steel" or "cast iron"'
    )


RimField: TypeAlias = Annotated[
    Annotated[SmallLength, Tag("words")] | Annotated[ClockReadings, Tag("table")], Discriminator(_readings)
]
"""A total indicator reading, or four readings around the clock."""


class Tilt(Block):
    """Angle between the two axes at a joint, in one of the forms in which it is measured."""

    angle: Angle | None = Field(default=None, description="angle between the axes")
    offset: SmallLength | None = Field(default=None, description="parallel offset of the axes")
    span: Length | None = Field(default=None, description="length over which the offset is taken up")
    runout: SmallLength | None = Field(
        default=None, description="total indicator reading at the spline; the offset is half of it"
    )
    rim: RimField | None = Field(
        default=None, description="total indicator reading on the rim, or four readings around the clock"
    )
    face: RimField | None = Field(
        default=None, description="total indicator reading on the face, or four readings around the clock"
    )
    diameter: Length | None = Field(default=None, description="diameter at which the face was read")
    reverse_rim: ClockReadings | None = Field(
        default=None, description="rim of the other shaft, read by a dial on the shaft whose rim is in rim"
    )
    rims_apart: Length | None = Field(
        default=None, description="distance between the planes of rim and reverse_rim"
    )
    dial_on: Literal["motor", "driven"] | None = Field(
        default=None, description="shaft that carried the dial for rim and face"
    )
    to_middle: SignedLength | None = Field(
        default=None,
        description="from the plane of the rim dial to the middle of the engagement, positive towards the "
        "driven machine",
    )
    sag: SmallLength | None = Field(
        default=None,
        description="sag of the bracket: zeroed at the top of a true bar, it reads this less below",
    )
    turned: Literal["both together", "dial only"] | None = Field(
        default=None, description="what was turned during the sweep: both shafts, or that with the dial alone"
    )
    rim_after_half_turn: ClockReadings | None = Field(
        default=None, description="rim once more, after the part that is read was turned half a turn"
    )
    face_after_half_turn: ClockReadings | None = Field(
        default=None, description="face once more, after the part that is read was turned half a turn"
    )
    shaft_runout: SmallLength | None = Field(
        default=None,
        description="total indicator reading on the shaft end or bore, dial on the housing: what turns",
    )
    feet: Feet | None = Field(default=None, description="feet of the motor, if they grow warm")
    driven_feet: Feet | None = Field(
        default=None, description="feet of the driven machine, if they grow warm"
    )
    turns_with_shaft: bool = Field(default=False, description="the error turns with the shaft")


TiltField: TypeAlias = Annotated[
    Annotated[Literal["not measured"], Tag("words")] | Annotated[Tilt, Tag("table")], Discriminator(form)
]
