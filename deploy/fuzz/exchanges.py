"""Target: whole requests with any method, path, query, headers and body, through the application in this process."""

import asyncio
import re
from typing import Any

import atheris
from hostile_json import HostileJson
from target import fuzz

with atheris.instrument_imports(include=["footvalve"]):
    import msgspec

    from footvalve.answers.endpoints import ENDPOINTS
    from footvalve.contract.examples import examples
    from footvalve.contract.problem import Problem
    from footvalve.web.application import create_app
    from footvalve.web.problem_types import PROBLEM_TYPES
    from footvalve.web.settings import Settings

SERVICE = create_app(Settings(allowed_origins=frozenset({"https://shop.test"})))
LOOP = asyncio.new_event_loop()
HOSTILE = HostileJson([examples(endpoint.name)[0].request for endpoint in ENDPOINTS])
KINDS = {kind.uri: kind.status for kind in PROBLEM_TYPES}

METHODS = ["GET", "HEAD", "POST", "OPTIONS", "PUT", "PATCH", "DELETE", "TRACE", "QUERY", "get", "P\u00d6ST"]
PATHS = sorted(
    {route.path for route in SERVICE.routes} | {"/v1/", "/v1//friction", "/problems/none", "/embed/v1/../v1"}
)
NAMES = [
    *(b"accept", b"accept-encoding", b"authorization", b"content-type", b"content-encoding", b"content-length"),
    *(
        b"host",
        b"if-none-match",
        b"origin",
        b"range",
        b"x-request-id",
        b"x-forwarded-for",
        b"traceparent",
        b"forwarded",
    ),
    *(b"access-control-request-method", b"x-http-method-override", b"cookie", b"expect", b"prefer", b"te"),
]
VALUES = [
    *(b"application/json", b"application/json; charset=utf-8", b"text/html", b"image/svg+xml;q=0.5, */*;q=0.1", b"*/*"),
    *(b"application/json;q=0", b"gzip", b"identity", b"Bearer x", b"Basic Og==", b"https://shop.test", b"null", b"*"),
    *(b"127.0.0.1", b"::1", b"a, b", b"POST", b"0", b"-1", b"9" * 400, b"bytes=0-1", b'"', b"W/*", b"x" * 9000, b""),
]
PLAIN_VALUE = re.compile(rb"[\x20-\x7e\x80-\xff]*")
TELLING = re.compile(rb"Traceback|site-packages|\.py\b|litestar|msgspec")


def check(raw: bytes) -> None:
    """One answer comes, which is no internal error, breaks no header and tells nothing of the inside."""
    data = atheris.FuzzedDataProvider(raw)
    scope = _scope(data)
    body = HOSTILE.body(data) if data.ConsumeBool() else data.ConsumeBytes(2_000)
    started, sent = LOOP.run_until_complete(_exchanged(scope, body))
    headers = dict(started["headers"])
    status = started["status"]
    assert status < 500, f"{status} to {scope['method']} {scope['path']}: {sent[:500]!r}"
    assert all(PLAIN_VALUE.fullmatch(value) for value in headers.values()), headers
    assert headers[b"x-content-type-options"] == b"nosniff", headers
    if status >= 400:
        problem = msgspec.json.decode(sent, type=Problem) if scope["method"] != "HEAD" else None
        assert problem is None or KINDS[problem.type] == problem.status == status, problem
        assert not TELLING.search(sent), sent


def _scope(data: atheris.FuzzedDataProvider) -> dict[str, Any]:
    path = data.PickValueInList(PATHS) + (data.ConsumeUnicode(12) if data.ConsumeIntInRange(0, 3) == 0 else "")
    query = data.ConsumeBytes(12) if data.ConsumeIntInRange(0, 3) == 0 else b""
    headers = [(b"content-type", b"application/json")] if data.ConsumeBool() else []
    headers += (_header(data) for _ in range(data.ConsumeIntInRange(0, 4)))
    return {
        "type": "http",
        "asgi": {"version": "3.0", "spec_version": "2.3"},
        "http_version": "1.1",
        "method": data.PickValueInList(METHODS),
        "scheme": "http",
        "path": path,
        "raw_path": path.encode("utf-8", "surrogatepass"),
        "query_string": query,
        "root_path": "",
        "headers": headers,
        "client": ("127.0.0.1", 1),
        "server": ("127.0.0.1", 80),
        "extensions": {},
    }


def _header(data: atheris.FuzzedDataProvider) -> tuple[bytes, bytes]:
    """As a server lets it through: no control character but the tab."""
    value = data.PickValueInList(VALUES) if data.ConsumeBool() else data.ConsumeBytes(20)
    return data.PickValueInList(NAMES), re.sub(rb"[\x00-\x08\x0a-\x1f\x7f]", b"?", value)


async def _exchanged(scope: dict[str, Any], body: bytes) -> tuple[Any, bytes]:
    messages: list[Any] = []
    left = [{"type": "http.request", "body": body[:7], "more_body": True}, {"type": "http.request", "body": body[7:]}]

    async def receive() -> Any:
        return left.pop(0) if left else await asyncio.Event().wait()

    async def send(message: Any) -> None:
        messages.append(message)

    await SERVICE(scope, receive, send)
    started, *pieces = messages
    assert started["type"] == "http.response.start", messages
    assert all(piece["type"] == "http.response.body" for piece in pieces), messages
    assert not pieces[-1].get("more_body", False), "the answer does not end"
    return started, b"".join(piece["body"] for piece in pieces)


if __name__ == "__main__":
    fuzz(check, (bytes([place]) * 64 for place in range(64)))
