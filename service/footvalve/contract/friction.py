"""The wire of `friction`: what a line costs at a flow."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, Struct, UnsetType

from footvalve.contract.answer import Answer
from footvalve.contract.line import Line, LineFlow
from footvalve.contract.quantities import Flow, Length, Pressure, Velocity
from footvalve.contract.request import Request

FrictionMethod = Literal["darcy-weisbach", "hazen-williams"]
Regime = Literal["laminar", "transitional", "turbulent"]


class FrictionRequest(Request, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A line, and the flow or flows that it is to carry. At least one of `flow` and `flows` is given."""

    flow: Annotated[LineFlow | UnsetType, Meta(description="The flow that the parts are reckoned at.")] = UNSET
    flows: Annotated[
        Annotated[list[LineFlow], Meta(min_length=1, max_length=200)] | UnsetType,
        Meta(
            description="Flows for a curve of head against flow; without `flow` the parts are reckoned at the "
            "greatest of them."
        ),
    ] = UNSET
    line: Line
    method: Annotated[FrictionMethod, Meta(description="How friction in the pipes is reckoned.")] = "darcy-weisbach"


class PartLoss(Struct, frozen=True, kw_only=True):
    """What one part costs. Velocity and Reynolds number are there where the part's bore is known, the friction
    factor where the part is a pipe under Darcy-Weisbach."""

    index: Annotated[
        int,
        Meta(ge=0, description="Place in the request's line, from 0.", extra_json_schema={"format": "int32"}),
    ]
    name: Annotated[str, Meta(description="The caller's label, or else what the part is.")]
    velocity: Annotated[Velocity | UnsetType, Meta(description="Mean velocity in the part's bore.")] = UNSET
    reynolds: Annotated[float | UnsetType, Meta(description="Reynolds number in the part's bore.")] = UNSET
    regime: Annotated[Regime | UnsetType, Meta(description="Regime of the flow there.")] = UNSET
    friction_factor: Annotated[
        float | UnsetType, Meta(description="Darcy friction factor (four times the Fanning factor).")
    ] = UNSET
    head_loss: Annotated[Length, Meta(description="Head lost in this part.")]


class CurvePoint(Struct, frozen=True, kw_only=True):
    """One point of the line's curve."""

    flow: Annotated[Flow, Meta(description="The flow.")]
    head_loss: Annotated[Length, Meta(description="Head lost in the whole line at that flow.")]


class GreatestVelocity(Struct, frozen=True, kw_only=True):
    """Where the water runs fastest."""

    velocity: Annotated[Velocity, Meta(description="Mean velocity there.")]
    index: Annotated[
        int,
        Meta(ge=0, description="Place in the request's line, from 0.", extra_json_schema={"format": "int32"}),
    ]
    name: Annotated[str, Meta(description="The part's name.")]


class FrictionAnswer(Answer, frozen=True, kw_only=True):
    """What the line costs."""

    flow: Annotated[Flow, Meta(description="The flow that the parts are reckoned at.")]
    total_head_loss: Annotated[Length, Meta(description="Head lost in the whole line, in height of its water.")]
    total_pressure_drop: Annotated[Pressure, Meta(description="The same as a pressure.")]
    parts: Annotated[list[PartLoss], Meta(description="Each part in the request's order.")]
    greatest_velocity: Annotated[
        GreatestVelocity | UnsetType, Meta(description="Where the water runs fastest; absent where no bore is known.")
    ] = UNSET
    curve: Annotated[
        list[CurvePoint] | UnsetType, Meta(description="One point for each of `flows`, in their order.")
    ] = UNSET
