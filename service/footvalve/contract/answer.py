"""What every answer holds: where its method comes from, what to watch, and what is doubtful about the input."""

from typing import Annotated, Literal

from msgspec import Meta, Struct


class BasisStep(Struct, frozen=True):
    """One step of the reckoning and where its method comes from."""

    step: Annotated[str, Meta(description="What was worked out.")]
    method: Annotated[str, Meta(description="How it was worked out.")]
    source: Annotated[str, Meta(description="Author, edition, table or equation.")]
    valid_for: Annotated[str, Meta(description="The range in which the method may be trusted.")]


class Caution(Struct, frozen=True):
    """A danger or a duty that this job brings with it."""

    code: Annotated[str, Meta(description="A stable name, as in the table of cautions.")]
    severity: Annotated[Literal["note", "warning", "danger"], Meta(description="How bad it can get.")]
    text: Annotated[str, Meta(description="What can happen, and what to do.")]


class Warning(Struct, frozen=True):
    """A doubt about the input: it lies outside a method's valid range, or two inputs disagree."""

    pointer: Annotated[str, Meta(description="JSON Pointer (RFC 6901) to the field in the request.")]
    detail: Annotated[str, Meta(description="What is doubtful, and what it does to the answer.")]


class Answer(Struct, frozen=True, kw_only=True):
    """What every answer holds."""

    basis: Annotated[list[BasisStep], Meta(description="The steps that led to the answer.")]
    cautions: Annotated[list[Caution], Meta(description="Only those that this input calls for.")]
    warnings: Annotated[list[Warning], Meta(description="Doubts about the input.")]
