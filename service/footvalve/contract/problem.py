"""What the service answers when it cannot answer: RFC 9457 problem details."""

from typing import Annotated

from msgspec import UNSET, Meta, Struct, UnsetType


class Fault(Struct, frozen=True):
    """One thing that is wrong with a request."""

    pointer: Annotated[
        str, Meta(description="JSON Pointer (RFC 6901) to the field in the body; empty for the whole body.")
    ]
    detail: Annotated[str, Meta(description="What is wrong there, and what was expected.")]


class Problem(Struct, frozen=True):
    """Problem details as in RFC 9457."""

    type: Annotated[
        str,
        Meta(
            description="A URI reference that names the kind of problem; the service answers it with a page.",
            extra_json_schema={"format": "uri-reference"},
        ),
    ]
    title: Annotated[str, Meta(description="The kind of problem in a few words; the same at every occurrence.")]
    status: Annotated[int, Meta(ge=400, le=599, description="The HTTP status.", extra_json_schema={"format": "int32"})]
    detail: Annotated[str, Meta(description="What went wrong this time.")]
    instance: Annotated[
        str,
        Meta(
            description="A URI reference that names this occurrence.",
            extra_json_schema={"format": "uri-reference"},
        ),
    ]
    request_id: Annotated[str, Meta(description="The request's id, as in the header X-Request-Id.")]
    errors: Annotated[
        list[Fault] | UnsetType, Meta(description="Every fault of the body that could be told apart.")
    ] = UNSET


class Refused(Exception):
    """The schema allows the request, but physics or the trade does not. It carries every fault found."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__("; ".join(f"{fault.pointer}: {fault.detail}" for fault in faults))
        self.faults = faults
