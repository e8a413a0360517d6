"""The key of a caller: it goes out with every request, and is shown nowhere else."""

import asyncio
import logging
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import httpx
import pytest

from footvalve.web.application import create_app
from footvalve.web.key_making import entry_of, made_key
from footvalve.web.settings import Settings
from footvalve_client import (
    AsyncFootvalve,
    Footvalve,
    FrictionRequest,
    KeyNeeded,
    KeyRefused,
    Pipe,
    PipeSize,
    TooManyRequests,
)
from footvalve_client.check.command import main
from footvalve_client.check.exit_codes import ExitCode

URL = "http://footvalve.test"
KEY = "footvalve_nobody-may-see-this"
LINE = [Pipe(size=PipeSize(product="pe-sidr-15", nominal="1"), length="45 ft")]


def live(request: httpx.Request) -> httpx.Response:
    """What the service says to who asks whether it lives."""
    return httpx.Response(200, json={"status": "live"}, headers={"x-request-id": request.headers["x-request-id"]})


@pytest.fixture
def seen() -> list[str | None]:
    return []


@pytest.fixture
def lent(seen: list[str | None]) -> Iterator[httpx.Client]:
    def noted(request: httpx.Request) -> httpx.Response:
        seen.append(request.headers.get("authorization"))
        return live(request)

    with httpx.Client(transport=httpx.MockTransport(noted)) as http_client:
        yield http_client


def test_a_key_is_sent_and_may_be_changed_and_left_out(lent: httpx.Client, seen: list[str | None]) -> None:
    service = Footvalve(URL, http_client=lent, key=KEY)
    for each in (service, service.with_options(max_retries=0), service.with_options(key="other")):
        each.live()
    service.with_options(key=None).live()
    Footvalve(URL, http_client=lent).live()
    assert seen == [f"Bearer {KEY}", f"Bearer {KEY}", "Bearer other", None, None]


def test_a_lent_client_may_send_its_own_where_there_is_no_key(seen: list[str | None]) -> None:
    def noted(request: httpx.Request) -> httpx.Response:
        seen.append(request.headers.get("authorization"))
        return live(request)

    with httpx.Client(transport=httpx.MockTransport(noted), headers={"authorization": "Basic eA=="}) as lent:
        Footvalve(URL, http_client=lent).live()
        Footvalve(URL, http_client=lent, key=KEY).live()
    assert seen == ["Basic eA==", f"Bearer {KEY}"]


def test_an_awaited_client_sends_it_too(seen: list[str | None]) -> None:
    async def ask() -> None:
        def noted(request: httpx.Request) -> httpx.Response:
            seen.append(request.headers.get("authorization"))
            return live(request)

        async with httpx.AsyncClient(transport=httpx.MockTransport(noted)) as http_client:
            await AsyncFootvalve(URL, http_client=http_client, key=KEY).live()

    asyncio.run(ask())
    assert seen == [f"Bearer {KEY}"]


@pytest.mark.parametrize(
    "key", ["", " ", f"{KEY} ", f" {KEY}", f"{KEY}\n", f"{KEY}\r\nX-Other: 1", "caf\u00e9", "k" * 600]
)
def test_what_is_no_key_is_refused_and_not_shown(lent: httpx.Client, key: str) -> None:
    service = Footvalve(URL, http_client=lent)
    for make in (lambda: Footvalve(URL, http_client=lent, key=key), lambda: service.with_options(key=key)):
        with pytest.raises(ValueError, match=r"^key must be as the operator") as raised:
            make()
        assert KEY not in str(raised.value)


def test_what_is_no_text_is_a_mistake_and_not_shown() -> None:
    given: Any = KEY.encode()
    with pytest.raises(TypeError, match="key must be a text, not bytes") as raised:
        Footvalve(URL, key=given)
    assert KEY not in str(raised.value)


@pytest.mark.parametrize("answer", ["refused", "broken off", "odd"])
def test_no_message_shows_the_key(answer: str, caplog: pytest.LogCaptureFixture) -> None:
    def failing(request: httpx.Request) -> httpx.Response:
        if answer == "broken off":
            raise httpx.ConnectError("no route", request=request)
        media_type = "application/problem+json" if answer == "refused" else "text/html"
        problem = dict.fromkeys(("type", "title", "detail", "instance", "request_id"), "x") | {"status": 401}
        return httpx.Response(401, json=problem, headers={"content-type": media_type})

    caplog.set_level(logging.DEBUG)
    with httpx.Client(transport=httpx.MockTransport(failing)) as lent:
        service = Footvalve(URL, http_client=lent, key=KEY, max_retries=0)
        with pytest.raises(Exception, match=r".") as raised:
            service.friction(flow="5 gal/min", line=LINE)
    shown = "".join(traceback.TracebackException.from_exception(raised.value, capture_locals=True).format())
    for text in (shown, repr(raised.value), caplog.text, repr(service), repr(vars(service)), str(service._options)):
        assert KEY not in text


@pytest.fixture
def guarded(tmp_path: Path) -> Iterator[tuple[httpx.Client, str]]:
    """The real service, which wants a key and lets it ask twice for one endpoint; and that key."""
    with _guarded(tmp_path, 'limit = "2/hour"\nendpoints = ["friction"]\n') as found:
        yield found


@contextmanager
def _guarded(folder: Path, more: str) -> Iterator[tuple[httpx.Client, str]]:
    key, file = made_key(), folder / "keys.toml"
    file.write_text(entry_of("shop", key) + more, encoding="utf-8")
    with httpx.Client(transport=_transport_of(create_app(Settings(keys_file=file)))) as lent:
        yield lent, key


def _transport_of(app: Any) -> httpx.MockTransport:
    def answered(request: httpx.Request) -> httpx.Response:
        async def ask() -> httpx.Response:
            transport = httpx.ASGITransport(app)
            async with httpx.AsyncClient(transport=transport) as client:
                headers = dict(request.headers)
                return await client.request(request.method, request.url, content=request.content, headers=headers)

        answer = asyncio.run(ask())
        return httpx.Response(answer.status_code, headers=answer.headers, content=answer.content)

    return httpx.MockTransport(answered)


def test_the_service_tells_the_client_what_is_wrong_with_its_key(guarded: tuple[httpx.Client, str]) -> None:
    lent, key = guarded
    service = Footvalve(URL, http_client=lent, max_retries=0)
    with pytest.raises(KeyNeeded, match="A key is needed"):
        service.friction(flow="5 gal/min", line=LINE)
    with pytest.raises(KeyNeeded):
        service.with_options(key=made_key()).friction(flow="5 gal/min", line=LINE)
    known = service.with_options(key=key)
    with pytest.raises(KeyRefused, match="not for sounding"):
        known.sounding(measurement={"method": "direct", "depths": ["17 ft"]})
    for _ in range(2):
        known.friction(flow="5 gal/min", line=LINE)
    with pytest.raises(TooManyRequests) as raised:
        known.friction(flow="5 gal/min", line=LINE)
    assert raised.value.retry_after is not None
    assert 0 < raised.value.retry_after <= 3601


def test_map_sends_fewer_together_where_a_batch_is_more_than_the_allowance(tmp_path: Path) -> None:
    with _guarded(tmp_path, 'limit = "4/second"\n') as (lent, key):
        service = Footvalve(URL, http_client=lent, max_retries=5, key=key)
        bodies = [FrictionRequest(flow=f"{number} gal/min", line=LINE) for number in range(1, 7)]
        losses = [result.unwrap().total_head_loss.value for result in service.map("friction", bodies, batch_size=6)]
    assert len(losses) == 6
    assert losses == sorted(losses)


SITE = """
depth_to_water = "15 ft"
flow = "3 gpm"
pump = { style = "rotary", inlet_elevation = "-4 ft", npsh_required = "7 ft" }
line = [{ part = "pipe", size = { product = "pe-sidr-15", nominal = "1" }, length = "60 ft", end_elevation = "-4 ft" }]
"""


@pytest.fixture
def site(tmp_path: Path) -> str:
    file = tmp_path / "site.toml"
    file.write_text(SITE, encoding="utf-8")
    return str(file)


@pytest.fixture
def carried(monkeypatch: pytest.MonkeyPatch, guarded: tuple[httpx.Client, str]) -> list[str | None]:
    """What the command sends as Authorization; it is refused, as the key is for another endpoint."""
    sent: list[str | None] = []
    transport = guarded[0]._transport
    made = httpx.Client

    def noted(request: httpx.Request) -> httpx.Response:
        sent.append(request.headers.get("authorization"))
        return transport.handle_request(request)

    def client(**options: Any) -> httpx.Client:
        return made(**{"transport": httpx.MockTransport(noted)} | options)

    monkeypatch.setattr("footvalve_client.check.command.httpx.Client", client)
    return sent


def test_the_command_takes_the_key_of_the_environment(
    site: str, carried: list[str | None], guarded: tuple[httpx.Client, str], capsys: Any, monkeypatch: Any
) -> None:
    monkeypatch.setenv("FOOTVALVE_KEY", guarded[1])
    assert main(["--url", URL, site]) == ExitCode.NO_SERVICE
    told = capsys.readouterr().err
    assert "The key is not for suction-feasibility" in told
    assert guarded[1] not in told
    assert carried == [f"Bearer {guarded[1]}"]


def test_the_command_says_what_to_do_without_a_key(
    site: str, carried: list[str | None], capsys: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("FOOTVALVE_KEY", raising=False)
    assert main(["--url", URL, site]) == ExitCode.NO_SERVICE
    assert "Set FOOTVALVE_KEY to the key" in capsys.readouterr().err
    assert carried == [None]


def test_the_command_shows_no_key_that_is_none(site: str, capsys: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FOOTVALVE_KEY", f"{KEY} {KEY}")
    assert main(["--url", URL, site]) == ExitCode.WRONG_USE
    told = capsys.readouterr().err
    assert "FOOTVALVE_KEY: key must be" in told
    assert KEY not in told
