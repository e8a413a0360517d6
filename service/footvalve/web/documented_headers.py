"""How the contract document tells of headers, and of the answers that carry them."""

from typing import Final

from footvalve.web.component_schemas import Schema

HEADERS: Final[dict[str, Schema]] = {
    "Accept": {"description": "The media types that a body may have.", "schema": {"type": "string"}},
    "Accept-Encoding": {"description": "The codings that a body may have.", "schema": {"type": "string"}},
    "Access-Control-Allow-Origin": {
        "description": "The origin of the page that may read the answer, or `*`. It is there where the operator has "
        "allowed pages of other origins, at the paths under /v1 and /embed and at /openapi.json.",
        "schema": {"type": "string"},
    },
    "Cache-Control": {
        "description": "Whether the answer may be kept, by whom, and for how many seconds.",
        "schema": {"type": "string"},
    },
    "ETag": {
        "description": "A strong tag of the answer's bytes: as long as a question's tag is the same, so is its answer, "
        "however the question is spelled. It may be sent back in If-None-Match where something is read by GET.",
        "schema": {"type": "string", "pattern": '^"[0-9a-f]{32}"$', "maxLength": 34},
    },
    "Content-Security-Policy": {
        "description": "What the page may load: nothing from elsewhere.",
        "schema": {"type": "string"},
    },
    "Cross-Origin-Resource-Policy": {
        "description": "That pages of any origin may embed it.",
        "schema": {"type": "string", "const": "cross-origin"},
    },
    "Referrer-Policy": {
        "description": "That a link on the page does not tell where it was followed.",
        "schema": {"type": "string", "const": "no-referrer"},
    },
    "RateLimit": {
        "description": "How many requests are left in this time, and the seconds until there are new ones, by the name "
        "of the allowance (draft-ietf-httpapi-ratelimit-headers).",
        "schema": {"type": "string"},
    },
    "RateLimit-Policy": {
        "description": "How many requests are allowed in how many seconds, by the name of the allowance.",
        "schema": {"type": "string"},
    },
    "Retry-After": {
        "description": "The seconds after which to ask again.",
        "schema": {"type": "string", "pattern": "^[0-9]{1,6}$", "maxLength": 6},
    },
    "Vary": {
        "description": "The headers of the request that the answer rests on: Accept where it comes in several media "
        "types, and Origin where the operator has allowed pages of other origins.",
        "schema": {"type": "string"},
    },
    "WWW-Authenticate": {
        "description": "How to send a key.",
        "schema": {"type": "string"},
    },
    "X-Request-Id": {
        "description": "The request's id: the caller's own where it is made of 1 to 64 letters, digits and hyphens, "
        "or else a new one.",
        "schema": {"type": "string", "pattern": "^[0-9A-Za-z-]{1,64}$", "maxLength": 64},
    },
}
"""The headers of answers, by name."""

RATE: Final = ("RateLimit", "RateLimit-Policy")
"""The headers of what an allowance is spent on, where the caller has one."""

_OF_EVERY_ANSWER: Final = ("Access-Control-Allow-Origin", "X-Request-Id")


def headers(*names: str) -> Schema:
    """References to headers; those of every answer among them."""
    return {name: {"$ref": f"#/components/headers/{name}"} for name in sorted({*_OF_EVERY_ANSWER, *names})}


def answer_response(description: str, content: Schema, *more_headers: str) -> Schema:
    """The response that brings an answer."""
    return {"description": description, "headers": headers(*more_headers), "content": content}
