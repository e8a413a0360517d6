"""From a request to the bytes of its answer: the one way that single requests and a batch's items go."""

from collections.abc import Callable
from typing import Any

import msgspec

from footvalve.answers.endpoints import Endpoint
from footvalve.contract.answer import Answer
from footvalve.web.strict_decoding import strict_decoder

_encode = msgspec.json.Encoder().encode


def answering(endpoint: Endpoint) -> Callable[[bytes], bytes]:
    """The function from body to answer, without limits. It raises whatever an endpoint's request can end in."""
    decode = strict_decoder(endpoint.request)
    return lambda body: encoded(endpoint(decode(body)))


def encoded(answer: Answer) -> bytes:
    """An answer on its way out. Raises ArithmeticError where a number in it is not finite."""
    body = _encode(answer)
    if b"null" in body and _holds_null(msgspec.json.decode(body)):
        raise ArithmeticError("the answer holds a number that is not finite")
    return body


def _holds_null(value: Any) -> bool:
    """Whether there is a null: the encoder writes one for NaN and infinity, and an answer has no other."""
    match value:
        case dict():
            return any(map(_holds_null, value.values()))
        case list():
            return any(map(_holds_null, value))
    return value is None
