"""What was once found: each request that a version of the service, or what it is built on, took in a wrong way.

A request is a file of JSON beside this one: `why`, `method`, `path`, `headers`, `body` as pieces, and the `status` that
it may come to. A piece is a `text` or a `hex`, so many `times`; without headers the body says that it is JSON.
"""

import json
from pathlib import Path

import httpx
import pytest
from tests.faults.service_process import serving

FOUND = {
    file.stem: json.loads(file.read_text(encoding="utf-8")) for file in sorted(Path(__file__).parent.glob("*.json"))
}
SECONDS_OF_ONE = 20


@pytest.fixture(scope="module")
def caller():
    with serving() as service, httpx.Client(base_url=service.url, timeout=SECONDS_OF_ONE) as client:
        yield client
        assert client.get("/live").status_code == 200, "the service has not outlived what was once found"


def written(piece):
    """The octets of one piece of a body."""
    octets = bytes.fromhex(piece["hex"]) if "hex" in piece else piece["text"].encode()
    return octets * piece.get("times", 1)


def lines(name, value):
    """The lines of one header: plain, long, given in `lines`, or as so many `headers` of other names."""
    if isinstance(value, str):
        return [(name, value)]
    text = value["text"] * value.get("times", 1)
    if "headers" in value:
        return [(name.format(number), text) for number in range(value["headers"])]
    return [(name, text)] * value.get("lines", 1)


@pytest.mark.parametrize("request_found", FOUND.values(), ids=FOUND)
def test_what_was_once_found_is_told_well(caller, request_found):
    body = b"".join(map(written, request_found["body"])) if "body" in request_found else None
    told = request_found.get("headers", {} if body is None else {"content-type": "application/json"})
    headers = [line for name, value in told.items() for line in lines(name, value)]
    response = caller.request(request_found["method"], request_found["path"], headers=headers, content=body)
    assert response.status_code in request_found["status"], response.text
    assert response.headers["x-request-id"]
    if response.status_code >= 400:
        assert response.headers["content-type"] == "application/problem+json"
        problem = response.json()
        assert problem["status"] == response.status_code
        assert problem["detail"].isprintable()
        assert "Traceback" not in response.text
