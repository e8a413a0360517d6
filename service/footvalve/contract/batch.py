"""The wire of `batch`: many questions in one call, each answered as if it had come alone."""

from typing import Annotated

from msgspec import Meta, Raw, Struct

from footvalve.contract.answer import Warning
from footvalve.contract.request import Name

MOST_ITEMS = 1000


class BatchItem(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One question of a batch."""

    id: Annotated[Name, Meta(description="The caller's own name for this item; it comes back with the answer.")]
    endpoint: Annotated[
        str,
        Meta(
            min_length=1,
            max_length=80,
            description="The name of an endpoint, such as `sounding`, but not `batch`. Another name spoils this item "
            "alone, with the 404 that its path would have had.",
        ),
    ]
    body: Annotated[
        Raw,
        Meta(
            description="The object that the endpoint takes. Whatever is wrong with it spoils this item alone.",
            extra_json_schema={"additionalProperties": True},
        ),
    ]


class BatchRequest(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Questions that are answered one by one, in their order."""

    items: Annotated[list[BatchItem], Meta(min_length=1, max_length=MOST_ITEMS, description="The questions.")]


class BatchItemAnswer(Struct, frozen=True, kw_only=True):
    """What one item comes to."""

    id: Annotated[str, Meta(description="The item's id.")]
    status: Annotated[
        int,
        Meta(
            ge=200,
            le=599,
            description="The HTTP status that the item alone would have had: 200, or that of a problem.",
            extra_json_schema={"format": "int32"},
        ),
    ]
    body: Annotated[
        Raw,
        Meta(
            description="With status 200 the answer of the endpoint; else problem details as in `Problem`, whose "
            "pointers start at the item's body and whose `instance` ends with the item's place, such as `#/items/3`.",
            extra_json_schema={"type": "object", "additionalProperties": True},
        ),
    ]


class BatchAnswer(Struct, frozen=True, kw_only=True):
    """What each item comes to, in the order of the request."""

    items: Annotated[list[BatchItemAnswer], Meta(description="One for each item of the request, in its order.")]
    warnings: Annotated[
        list[Warning], Meta(description="Doubts about the batch as a whole, such as an id given twice.")
    ]
