"""What comes of each body that `map` is given."""

from collections.abc import Mapping
from typing import Any, Generic, TypeVar, cast

from msgspec import Struct

from footvalve_client._answer import AnswerPart
from footvalve_client._errors import FootvalveError
from footvalve_client._request import RequestPart

MappedT_co = TypeVar("MappedT_co", bound=AnswerPart, covariant=True)


class MapResult(Struct, Generic[MappedT_co], frozen=True, kw_only=True):
    """What one body came to: an answer, or an error where it was refused."""

    index: int
    """The body's place among all bodies, from 0."""
    body: RequestPart | Mapping[str, object]
    """The body as it was given, whatever it is."""
    answer: MappedT_co | None = None
    """The answer; None where the body was refused."""
    error: FootvalveError | None = None
    """Why it was refused, as a call with this body alone would raise it; None where there is an answer."""

    def unwrap(self) -> MappedT_co:
        """The answer. Raises the error where there is none."""
        if self.error is not None:
            raise self.error
        return cast("MappedT_co", self.answer)


class MapStopped(FootvalveError):
    """`map` got no answer to a request with all its tries. `__cause__` is what such a request raised."""

    def __init__(self, index: int, cause: FootvalveError) -> None:
        super().__init__(f"stopped before the result of body {index}: {cause}", cause.request_id, cause.tries)
        self.args: tuple[Any, ...] = (index, cause)
        self.index = index
        """The first body without a result, from 0: go on from there."""
