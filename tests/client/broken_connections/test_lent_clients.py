"""A caller may lend a client of httpx or of httpx2; neither makes a difference, and it stays the caller's."""

import asyncio
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import httpx
import httpx2
import pytest

import footvalve_client
from broken_connections.asking import Ask, friction, live
from broken_connections.faulty_service import FaultyService, answers, drips, half, hangs_up, problem, resets, stalls
from footvalve_client import AsyncFootvalve, ConnectionFailed, Footvalve, FrictionAnswer, Pipe, Refused, Timeout

Asked = Callable[..., Any]


def _blocking(library: Any) -> Asked:
    def asked(url: str, *asks: Ask, settings: Any = None, **options: Any) -> Any:
        with library.Client(**settings or {}) as http_client:
            with Footvalve(url, http_client=http_client, **options) as service:
                result = [ask(service) for ask in asks][-1]
            assert not http_client.is_closed, "it is its owner's to close"
        return result

    return asked


def _awaited(library: Any) -> Asked:
    def asked(url: str, *asks: Ask, settings: Any = None, **options: Any) -> Any:
        async def run() -> Any:
            async with library.AsyncClient(**settings or {}) as http_client:
                async with AsyncFootvalve(url, http_client=http_client, **options) as service:
                    result = [await ask(service) for ask in asks][-1]
                assert not http_client.is_closed, "it is its owner's to close"
            return result

        return asyncio.run(run())

    return asked


by_all = pytest.mark.parametrize(
    "asked",
    [_blocking(httpx), _awaited(httpx), _blocking(httpx2), _awaited(httpx2)],
    ids=["httpx.Client", "httpx.AsyncClient", "httpx2.Client", "httpx2.AsyncClient"],
)


@by_all
def test_the_real_service_answers_and_refuses(asked: Asked, base_url: str) -> None:
    assert isinstance(asked(base_url, friction), FrictionAnswer)
    with pytest.raises(Refused, match=r"/line/0 = "):
        asked(base_url, lambda service: service.friction(flow="5 gal/min", line=[Pipe(length="45 ft")]))


@by_all
@pytest.mark.usefixtures("quick")
def test_what_passes_is_tried_again(asked: Asked) -> None:
    with FaultyService(resets, problem(503), half("body", hangs_up), answers()) as service:
        assert asked(service.url, live, max_retries=3).status == "live"
    assert len(service.heard) == 4


@by_all
def test_nothing_listening_is_a_failed_connection(asked: Asked) -> None:
    with FaultyService(listening=False) as service, pytest.raises(ConnectionFailed, match="ConnectError"):
        asked(service.url, live, max_retries=0)


@by_all
def test_a_stall_is_a_timeout(asked: Asked) -> None:
    with FaultyService(stalls) as service, pytest.raises(Timeout, match=r"no answer in time .*ReadTimeout"):
        asked(service.url, live, timeout=0.2, max_retries=0)


@by_all
@pytest.mark.parametrize("fault", [half("body", stalls), drips("body", 0.1)])
def test_the_deadline_cuts_what_is_slow(asked: Asked, fault: Any) -> None:
    begun = time.monotonic()
    with FaultyService(fault) as service, pytest.raises(Timeout, match=r"within the deadline of 0\.3 s"):
        asked(service.url, live, deadline=0.3)
    assert time.monotonic() - begun < 5


@by_all
def test_a_timeout_of_the_client_itself_holds(asked: Asked) -> None:
    with FaultyService(stalls) as service, pytest.raises(Timeout, match="no answer in time"):
        asked(service.url, live, settings={"timeout": 0.2}, max_retries=0)


@by_all
@pytest.mark.parametrize("library", [httpx, httpx2])
def test_a_timeout_of_either_library_is_understood(asked: Asked, library: Any) -> None:
    with FaultyService(stalls) as service, pytest.raises(Timeout, match="no answer in time"):
        asked(service.url, live, timeout=library.Timeout(9, read=0.2), max_retries=0)


@by_all
def test_it_keeps_its_own_settings(asked: Asked) -> None:
    with FaultyService(answers()) as service:
        asked(service.url, live, settings={"headers": {"user-agent": "shop/1", "authorization": "Bearer token"}})
    head = service.heard[0].head.lower()
    assert "user-agent: shop/1" in head
    assert "authorization: bearer token" in head
    assert head.count("accept: ") == 1


@pytest.mark.parametrize(
    ("client", "lent"),
    [
        (Footvalve, httpx.AsyncClient),
        (Footvalve, httpx2.AsyncClient),
        (Footvalve, object),
        (AsyncFootvalve, httpx.Client),
        (AsyncFootvalve, httpx2.Client),
        (AsyncFootvalve, object),
    ],
)
def test_a_client_of_another_kind_is_refused_at_once(client: Any, lent: Any) -> None:
    with pytest.raises(TypeError, match=r"http_client must be of httpx\.\w+ or httpx2\.\w+, not .*\."):
        client("http://footvalve.test", http_client=lent())


@pytest.mark.parametrize("library", [httpx, httpx2])
def test_a_client_of_a_class_of_the_callers_own_will_do(library: Any) -> None:
    class Client(library.Client):  # type: ignore[misc]
        pass

    with FaultyService(answers()) as service, Client() as http_client:
        assert Footvalve(service.url, http_client=http_client).live().status == "live"


def test_the_other_library_is_not_imported_for_a_lent_client() -> None:
    script = f"""
import sys
sys.path[:0] = {[str(Path(footvalve_client.__file__).parents[1])]}
import httpx2, footvalve_client
failing = httpx2.MockTransport(lambda _: httpx2.Response(503))
with httpx2.Client(transport=failing) as http_client:
    try:
        footvalve_client.Footvalve("http://footvalve.test", http_client=http_client).live()
    except footvalve_client.ServiceUnavailable as error:
        print(error.tries, "httpx" in sys.modules)
"""
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert ran.stdout.strip() == "3 False", ran.stderr
