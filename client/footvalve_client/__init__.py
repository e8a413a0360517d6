"""Ask a Footvalve service over HTTP: can this well be drawn on by suction, and how must the rest be sized?

    from footvalve_client import Footvalve

    with Footvalve("http://127.0.0.1:8000") as service:
        answer = service.friction(flow="5 gal/min", line=[...])

Quantities are Structs of a value and a unit, such as `Length(14, "ft")`; wherever a request takes one, a text such as
"14 ft", "5 gpm" or `100' 6"`, or a quantity of pint will do. Those of an answer turn into other units by `.to("m")`,
and into pint by `.quantity`.

Many questions go in one call as a batch; the body of an item is a request Struct, or a mapping in the contract's own
form. Each comes back with its id and its own status:

    asked = {"house-7": FrictionRequest(...), "house-9": FrictionRequest(...)}
    items = [BatchItem(id=name, endpoint="friction", body=body) for name, body in asked.items()]
    for item in service.batch(items=items).items:
        if item.status == 200:
            print(item.id, msgspec.convert(item.body, FrictionAnswer).total_head_loss)

The numbers behind the answers are `service.table("pipes")` and its like.
"""

from footvalve_client._client import AsyncFootvalve, Footvalve
from footvalve_client._errors import (
    BadRequest,
    BodyTooLarge,
    ConnectionFailed,
    FieldFault,
    FootvalveError,
    HeadTooLarge,
    KeyNeeded,
    KeyRefused,
    NotFound,
    ProblemError,
    QuantityError,
    Refused,
    SentTooSlowly,
    ServiceFailed,
    ServiceUnavailable,
    Timeout,
    TooManyRequests,
    UnreadableAnswer,
)
from footvalve_client._generated import exports as _exports
from footvalve_client._generated.exports import *  # noqa: F403  # the names of the contract
from footvalve_client._map_result import MapResult, MapStopped
from footvalve_client._pint import PhysicalQuantity
from footvalve_client._quantity import Quantity
from footvalve_client._rows import to_dicts
from footvalve_client._version import __version__

__all__ = [
    "AsyncFootvalve",
    "BadRequest",
    "BodyTooLarge",
    "ConnectionFailed",
    "FieldFault",
    "Footvalve",
    "FootvalveError",
    "HeadTooLarge",
    "KeyNeeded",
    "KeyRefused",
    "MapResult",
    "MapStopped",
    "NotFound",
    "PhysicalQuantity",
    "ProblemError",
    "Quantity",
    "QuantityError",
    "Refused",
    "SentTooSlowly",
    "ServiceFailed",
    "ServiceUnavailable",
    "Timeout",
    "TooManyRequests",
    "UnreadableAnswer",
    "__version__",
    "to_dicts",
]
__all__ += _exports.__all__

for _name in __all__:
    if isinstance(_exported := globals()[_name], type) and issubclass(
        _exported, Exception | Footvalve | AsyncFootvalve
    ):
        _exported.__module__ = __name__  # a traceback names what its reader imports
