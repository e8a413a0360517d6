"""The wire of what is told about the suction check for other people's pages."""

from typing import Annotated

from msgspec import Meta, Struct


class ScriptIntegrity(Struct, frozen=True):
    """Where the script of the suction check stands for good, and the hash that holds it to its bytes."""

    script: Annotated[
        str,
        Meta(
            description="Its address, which holds these bytes alone: relative to the service, or whole where the "
            "service knows its public origin.",
            extra_json_schema={"format": "uri-reference"},
        ),
    ]
    integrity: Annotated[str, Meta(description="The hash for the attribute `integrity`.")]
    tag: Annotated[str, Meta(description="The HTML that loads it. Where `script` is relative, put the origin before.")]


class TextLanguages(Struct, frozen=True):
    """The languages that the suction check speaks."""

    languages: Annotated[
        list[str], Meta(description="Each as in `lang` of HTML. Its texts are at /embed/v1/texts/<language>.json.")
    ]
