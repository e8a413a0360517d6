"""The service, and what it is held against: the same handlers that reckon nothing, and a bare function."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

import msgspec
from bench.in_process import Case, cases

from footvalve.answers.cost import Cost
from footvalve.answers.endpoints import Endpoint
from footvalve.contract.answer import Answer
from footvalve.web.application import create_app
from footvalve.web.settings import Settings

_OF_NOTHING: Final = Cost(0.0, {})


def path_of(case: Case) -> str:
    """Where a case is asked in what the service is held against: each has its own ready answer there."""
    return f"/v1/{name_of(case)}"


def name_of(case: Case) -> str:
    """The name of a case as part of a path."""
    return case.name.replace(",", "").replace(" ", "-")


@dataclass(frozen=True, slots=True)
class _ReadyEndpoint(Endpoint):
    """An endpoint with the types of another, whose answer is there before it is asked."""

    ready: Answer | None = None

    def work(self, request: Any, *, all_sure: bool = False) -> Cost:  # noqa: ARG002
        return _OF_NOTHING

    def __call__(self, request: Any) -> Any:  # noqa: ARG002
        return self.ready


def service(settings: Settings) -> Any:
    """The application as it is."""
    return create_app(settings)


def ready(settings: Settings) -> Any:
    """The application with the same layers and handlers, that decodes, reckons nothing, and encodes."""
    return create_app(settings, [_ready_endpoint(case) for case in cases()])


def _ready_endpoint(case: Case) -> _ReadyEndpoint:
    of = case.endpoint
    answer = of(msgspec.json.decode(case.raw, type=of.request))
    return _ReadyEndpoint(name_of(case), of.title, of.description, of.request, of.answer, of.compute, ready=answer)


def bare(_settings: Settings) -> Any:
    """A function of ASGI that decodes and encodes the same types, and does nothing else."""
    encode = msgspec.json.Encoder().encode
    known = {path_of(case): _decoder_and_answer(case) for case in cases()}

    async def app(scope: Any, receive: Any, send: Any) -> None:
        decode, answer = known[scope["path"]]
        message = await receive()
        raw = message["body"]
        while message["more_body"]:
            message = await receive()
            raw += message["body"]
        decode(raw)
        body = encode(answer)
        headers = [(b"content-type", b"application/json"), (b"content-length", b"%d" % len(body))]
        await send({"type": "http.response.start", "status": 200, "headers": headers})
        await send({"type": "http.response.body", "body": body})

    return app


def _decoder_and_answer(case: Case) -> tuple[Callable[[bytes], Any], Answer]:
    decode = msgspec.json.Decoder(case.endpoint.request).decode
    return decode, case.endpoint(decode(case.raw))


KINDS: Final[Mapping[str, Callable[[Settings], Any]]] = {"service": service, "ready": ready, "bare": bare}
"""What is served, by name; all by the service's own server."""

AGAINST: Final[Sequence[str]] = [name for name in KINDS if name != "service"]
"""What the service is held against."""
