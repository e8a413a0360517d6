"""What all Structs of a request have in common."""

from collections.abc import Mapping
from typing import Any, TypeVar

from msgspec import Struct
from msgspec.structs import force_setattr

from footvalve_client._answer import AnswerPart
from footvalve_client._coercion import coercions


class RequestPart(Struct, frozen=True, omit_defaults=True, repr_omit_defaults=True):
    """A part of a request. None leaves a field out, and the service takes its default.

    Each quantity may be given as a Struct, a text such as "14 ft", or a quantity of pint; it is held as a Struct.
    Numbers may be those of numpy, and a list anything that gives its items one by one.
    """

    def __post_init__(self) -> None:
        for name, wire_name, coerce in coercions(type(self), getattr(self, "endpoint", None)):
            given = getattr(self, name)
            if given is not None:
                taken = coerce(given, f"/{wire_name}")
                if taken is not given:
                    force_setattr(self, name, taken)


RequestT = TypeVar("RequestT", bound=RequestPart)


def built(kind: type[RequestT], request: RequestT | None, fields: Mapping[str, Any]) -> RequestT:
    """The request that was given, or the one that the fields make. Raises TypeError for both, or for another kind."""
    given = {name: value for name, value in fields.items() if value is not None}
    if request is None:
        return kind(**given)
    if given:
        raise TypeError(f"give a {kind.__name__} or its fields, not both")
    if not isinstance(request, kind):
        raise TypeError(f"expected a {kind.__name__}, got {type(request).__name__}")
    return request


def kind_of(name: str, kinds: Mapping[str, type[AnswerPart]]) -> type[AnswerPart]:
    """What is answered under a name of a closed list. Raises ValueError for another."""
    if name not in kinds:
        raise ValueError(f"there is no {name!r}, only {', '.join(kinds)}")
    return kinds[name]
