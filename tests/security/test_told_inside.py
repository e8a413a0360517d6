"""No answer tells of the inside: no path of a file, no name of a class or module, no version of a library."""

import json
import re

import pytest

from footvalve.contract.examples import examples

JSON = {"content-type": "application/json"}
SOUND = json.dumps(examples("friction")[0].request)
INSIDE = re.compile(
    r"Traceback|site-packages|\.py\b|\bFile \"|line \d+, in |"
    r"litestar|msgspec|uvicorn|httptools|rustworkx|ValidationError|DecodeError|Exception|\bStruct\b|"
    r"/root/|/home/|/usr/|/tmp/|0x[0-9a-f]{6,}",
    re.IGNORECASE,
)

REFUSED = {
    "no JSON": ("POST", "/v1/friction", JSON, b"{"),
    "no UTF-8": ("POST", "/v1/friction", JSON, b'{"a": "\xff"}'),
    "half a surrogate pair": ("POST", "/v1/friction", JSON, b'{"a": "\\ud800"}'),
    "too deep": ("POST", "/v1/friction", JSON, b"[" * 100_000),
    "another type": ("POST", "/v1/friction", JSON, b'{"flow": 1, "line": "x", "units": null}'),
    "another tag": ("POST", "/v1/friction", JSON, SOUND.replace('"pipe"', '"__class__"').encode()),
    "a long integer": ("POST", "/v1/friction", JSON, SOUND.replace("5", "9" * 5_000, 1).encode()),
    "beyond reckoning": ("POST", "/v1/friction", JSON, SOUND.replace('"value": 5', '"value": 1e-300', 1).encode()),
    "a batch of nothing": ("POST", "/v1/batch", JSON, b'{"items": [{"id": "a", "endpoint": "__init__", "body": 1}]}'),
    "no endpoint": ("POST", "/v1/__init__", JSON, b"{}"),
    "a file": ("GET", "/etc/passwd", {}, b""),
    "a source": ("GET", "/embed/v1/texts/application", {}, b""),
    "another method": ("TRACE", "/v1/friction", {}, b""),
    "another type of body": ("POST", "/v1/friction", {"content-type": "application/x-python-pickle"}, b"\x80\x04."),
    "a coding": ("POST", "/v1/friction", JSON | {"content-encoding": "gzip"}, b"\x1f\x8b"),
    "no form": ("POST", "/v1/site-plan", JSON | {"accept": "application/xml"}, b"{}"),
}


@pytest.mark.parametrize(("method", "path", "headers", "body"), REFUSED.values(), ids=REFUSED)
def test_a_refusal_tells_nothing_of_the_inside(caller, method, path, headers, body):
    response = caller.request(method, path, headers=headers, content=body)
    told = response.text.replace(path, "")  # what the caller himself said may come back
    assert response.status_code < 500
    assert not INSIDE.search(told), told


@pytest.mark.parametrize("path", ["/", "/live", "/ready", "/docs", "/problems/internal-error"])
def test_nor_does_what_is_told_to_everybody(caller, path):
    assert not INSIDE.search(caller.get(path).text)
