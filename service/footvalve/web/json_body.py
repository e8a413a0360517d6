"""The bytes of a request's body, once its headers say that it is JSON of a size that is allowed."""

from typing import Any

from litestar.types import Receive

from footvalve.contract.fault_wording import cleaned
from footvalve.web import problem_types as kinds
from footvalve.web.negotiation import JSON
from footvalve.web.problems import Declined
from footvalve.web.request_headers import HeaderTable
from footvalve.web.whole_number import whole_number

_PLAIN = JSON.encode()


async def json_body(receive: Receive, headers: HeaderTable, limit: int) -> bytes:
    """The whole body. Raises Declined for another type or coding, for more than `limit` bytes, and for none."""
    _refuse_other_types(headers.get(b"content-type", b""))
    _refuse_codings(headers.get(b"content-encoding", b"identity"))
    _refuse_announced_length(headers.get(b"content-length", b"0"), limit)
    body = await _read(receive, limit)
    if not body:
        raise Declined(kinds.NOT_JSON, "The body is empty; a JSON object is expected.")
    return body


def _refuse_other_types(content_type: bytes) -> None:
    if content_type == _PLAIN:
        return
    text = content_type.decode("latin-1")
    media_type, *parameters = (part.strip().lower() for part in text.split(";"))
    charsets = [value.strip('" ') for name, _, value in (p.partition("=") for p in parameters) if name == "charset"]
    if media_type != JSON or any(charset != "utf-8" for charset in charsets):
        raise Declined(
            kinds.UNSUPPORTED_MEDIA_TYPE,
            f'Content-Type must be {JSON}, in UTF-8, but is "{cleaned(text)}".',
            ((b"accept", _PLAIN),),
        )


def _refuse_codings(content_encoding: bytes) -> None:
    if content_encoding.strip().lower() != b"identity":
        raise Declined(
            kinds.UNSUPPORTED_MEDIA_TYPE,
            f'A body with Content-Encoding "{cleaned(content_encoding.decode("latin-1"))}" is not read; send it plain.',
            ((b"accept-encoding", b"identity"),),
        )


def _refuse_announced_length(content_length: bytes, limit: int) -> None:
    digits = content_length.decode("latin-1")
    if digits.isdigit() and whole_number(digits, range(limit + 1)) is None:
        raise too_large(limit)


async def _read(receive: Receive, limit: int) -> bytes:
    chunks, size, more = [], 0, True
    while more:
        message: Any = await receive()
        if message["type"] == "http.disconnect":
            raise Declined(kinds.BAD_REQUEST, "The connection ended before the body did.")
        chunks.append(message.get("body", b""))
        size += len(chunks[-1])
        if size > limit:
            raise too_large(limit)
        more = message.get("more_body", False)
    return b"".join(chunks)


def too_large(limit: int) -> Declined:
    """What is said to a body of more bytes than the limit."""
    return Declined(kinds.BODY_TOO_LARGE, f"The body may hold at most {limit} bytes.")
