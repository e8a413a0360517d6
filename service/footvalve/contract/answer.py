"""What every answer holds: where its method comes from, what to watch, and what is doubtful about the input."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, Struct, UnsetType


class BasisStep(Struct, frozen=True):
    """One step of the reckoning and where its method comes from."""

    step: Annotated[str, Meta(description="What was worked out.")]
    method: Annotated[str, Meta(description="How it was worked out.")]
    source: Annotated[str, Meta(description="Author, edition, table or equation.")]
    valid_for: Annotated[str, Meta(description="The range in which the method may be trusted.")]
    within_range: Annotated[
        bool,
        Meta(
            description="Whether every input of this step lies within `valid_for`; where one does not, a warning "
            "points at where it comes from."
        ),
    ]


class Caution(Struct, frozen=True):
    """A danger or a duty that this job brings with it."""

    code: Annotated[str, Meta(description="A stable name, as in the table of cautions.")]
    severity: Annotated[Literal["note", "warning", "danger"], Meta(description="How bad it can get.")]
    text: Annotated[str, Meta(description="What can happen, and what to do.")]


class Warning(Struct, frozen=True):
    """A doubt about the input: it lies outside a method's valid range, or two inputs disagree."""

    pointer: Annotated[str, Meta(description="JSON Pointer (RFC 6901) to the field in the request.")]
    detail: Annotated[str, Meta(description="What is doubtful, and what it does to the answer.")]


class Share(Struct, frozen=True, kw_only=True):
    """What one uncertain input has to do with the uncertainty of a quantity of the answer."""

    pointer: Annotated[
        str, Meta(description="JSON Pointer to the input in the request; to the list, for the scatter of readings.")
    ]
    kind: Annotated[
        Literal["stated", "scatter"],
        Meta(
            description="`stated` by the caller (JCGM 100, as a rule type B), or from the `scatter` of repeated "
            "readings (type A)."
        ),
    ]
    effect: Annotated[
        Literal["raises", "lowers"], Meta(description="What more of the input does to the quantity of the answer.")
    ]
    variance_fraction: Annotated[
        float, Meta(ge=0, le=1, description="Its part of the quantity's variance; the parts of all inputs add up to 1.")
    ]


class Contribution(Struct, frozen=True, kw_only=True):
    """Where the uncertainty of one quantity of the answer comes from."""

    quantity: Annotated[str, Meta(description="JSON Pointer to the quantity in the answer.")]
    inputs: Annotated[list[Share], Meta(description="The input that matters most first.")]


class Answer(Struct, frozen=True, kw_only=True):
    """What every answer holds."""

    basis: Annotated[list[BasisStep], Meta(description="The steps that led to the answer.")]
    cautions: Annotated[list[Caution], Meta(description="Only those that this input calls for.")]
    warnings: Annotated[list[Warning], Meta(description="Doubts about the input.")]
    contributions: Annotated[
        list[Contribution] | UnsetType,
        Meta(
            description="With `contributions` in the request: one for each quantity of the answer that has an "
            "uncertainty. Empty where no input is uncertain."
        ),
    ] = UNSET
