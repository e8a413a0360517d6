"""The wire of the small resources about the service itself."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, Struct, UnsetType


class Health(Struct, frozen=True):
    """Whether the process lives, or is ready for work."""

    status: Annotated[Literal["live", "ready"], Meta(description="What was asked, answered with yes.")]
    counters: Annotated[
        Literal["together", "alone"] | UnsetType,
        Meta(
            description="Where there are counters for several processes: whether they count together, or each alone as "
            "the store is away."
        ),
    ] = UNSET
    keys: Annotated[
        Literal["current", "outdated"] | UnsetType,
        Meta(
            description="Where there is a file of keys: whether the keys are those of the file, or those from before "
            "as it cannot be used."
        ),
    ] = UNSET


class Index(Struct, frozen=True):
    """Where to find what."""

    name: Annotated[str, Meta(description="The service.")]
    version: Annotated[str, Meta(description="Its version.")]
    contract: Annotated[str, Meta(description="Where the contract document stands.")]
    endpoints: Annotated[list[str], Meta(description="The paths that take a POST.")]
    tables: Annotated[list[str], Meta(description="The paths of the tables.")]
    pages: Annotated[list[str], Meta(description="The paths of the pages for people.")]


class ProblemKind(Struct, frozen=True):
    """A kind of problem, as its type URI answers."""

    type: Annotated[
        str, Meta(description="The type URI, relative to the service.", extra_json_schema={"format": "uri-reference"})
    ]
    title: Annotated[str, Meta(description="The kind in a few words.")]
    status: Annotated[
        int,
        Meta(ge=400, le=599, description="The HTTP status that it comes with.", extra_json_schema={"format": "int32"}),
    ]
    remedy: Annotated[str, Meta(description="What it means, and what to do about it.")]
