"""`map`: any number of bodies in few requests, their results in order, and no more of them at hand than is said."""

import asyncio
import gc
import sys
import threading
import time
import tracemalloc
from collections.abc import AsyncIterator, Callable, Iterable, Iterator
from contextlib import aclosing, contextmanager
from itertools import count, islice
from typing import Any

import httpx
import msgspec
import pytest

from footvalve_client import (
    AsyncFootvalve,
    BadRequest,
    BodyTooLarge,
    ConnectionFailed,
    Footvalve,
    FootvalveError,
    FrictionRequest,
    MapResult,
    MapStopped,
    Pipe,
    PipeSize,
    QuantityError,
    Refused,
    SuctionFeasibilityRequest,
    UnreadableAnswer,
    testing,
)
from footvalve_client._generated.endpoints import ENDPOINTS

URL = "http://footvalve.test"
LINE = [Pipe(length="45 ft", size=PipeSize(product="pe-sidr-15", nominal="1"))]

Answer = Callable[[httpx.Request], httpx.Response]


def _blocking(answer: Answer, endpoint: Any, bodies: Iterable[Any], **options: Any) -> list[MapResult[Any]]:
    with httpx.Client(transport=httpx.MockTransport(answer)) as http_client:
        return list(Footvalve(URL, http_client=http_client, max_retries=0).map(endpoint, bodies, **options))


def _awaited(answer: Answer, endpoint: Any, bodies: Iterable[Any], **options: Any) -> list[MapResult[Any]]:
    async def answered(request: httpx.Request) -> httpx.Response:
        return await asyncio.to_thread(answer, request)

    async def asked() -> list[MapResult[Any]]:
        async with httpx.AsyncClient(transport=httpx.MockTransport(answered)) as http_client:
            service = AsyncFootvalve(URL, http_client=http_client, max_retries=0)
            return [result async for result in service.map(endpoint, bodies, **options)]

    return asyncio.run(asked())


@pytest.fixture(params=[_blocking, _awaited], ids=["blocking", "awaited"])
def mapped(request: pytest.FixtureRequest) -> Callable[..., list[MapResult[Any]]]:
    """Maps bodies over a service that answers by a function, once with each client."""
    ask: Callable[..., list[MapResult[Any]]] = request.param
    return ask


def _flow(number: float) -> dict[str, Any]:
    return {"flow": {"value": number, "unit": "gal/min"}, "line": []}


class Echo:
    """A service that answers each flow with a loss of as many feet, and keeps count of what it was asked."""

    def __init__(self, delays: Iterable[float] = ()) -> None:
        self.sizes: list[int] = []
        self.bytes: list[int] = []
        self.most_at_once = 0
        self._delays = iter(delays)
        self._now = 0
        self._lock = threading.Lock()

    def __call__(self, request: httpx.Request) -> httpx.Response:
        items = msgspec.json.decode(request.content)["items"]
        with self._lock:
            self._now += 1
            self.most_at_once = max(self.most_at_once, self._now)
            self.sizes.append(len(items))
            self.bytes.append(len(request.content))
            delay = next(self._delays, 0.0)
        time.sleep(delay)
        with self._lock:
            self._now -= 1
        return httpx.Response(200, json={"items": [self._answered(item) for item in items], "warnings": []})

    @staticmethod
    def _answered(item: dict[str, Any]) -> dict[str, Any]:
        flow = item["body"]["flow"]
        loss, drop = {"value": flow["value"], "unit": "ft"}, {"value": 1, "unit": "psi"}
        lists: dict[str, list[object]] = {"basis": [], "cautions": [], "warnings": [], "parts": []}
        return {
            "id": item["id"],
            "status": 200,
            "body": {**lists, "flow": flow, "total_head_loss": loss, "total_pressure_drop": drop},
        }


def _losses(results: Iterable[MapResult[Any]]) -> list[float]:
    return [result.unwrap().total_head_loss.value for result in results]


@pytest.mark.parametrize("endpoint", list(ENDPOINTS))
def test_each_endpoint_answers_as_it_does_alone(service: Footvalve, endpoint: Any) -> None:
    examples = testing.examples(endpoint)
    alone = getattr(service, endpoint.replace("-", "_"))
    results = list(service.map(endpoint, [example.request for example in examples], batch_size=2))
    assert [result.answer for result in results] == [alone(example.request) for example in examples]
    assert [result.index for result in results] == list(range(len(examples)))


def test_the_awaited_client_answers_alike(service: Footvalve) -> None:
    requests = [example.request for example in testing.examples("sounding")]

    async def asked() -> list[MapResult[Any]]:
        async with testing.offline_async("service") as client:
            return [result async for result in client.map("sounding", requests, batch_size=2)]

    assert asyncio.run(asked()) == list(service.map("sounding", requests))


def test_structs_and_mappings_with_texts_are_bodies_alike(service: Footvalve) -> None:
    struct = FrictionRequest(flow="5 gpm", line=LINE)
    mapping: dict[str, object] = {"flow": "5 gpm", "line": LINE, "method": None}
    written: dict[str, object] = {"flow": {"value": 5, "unit": "gal/min"}, "line": LINE}
    bodies: list[FrictionRequest | dict[str, object]] = [struct, mapping, written]
    results = list(service.map("friction", bodies))
    assert [result.answer for result in results] == [service.friction(struct)] * 3
    assert [result.body for result in results] == bodies


def test_what_is_refused_is_a_result_with_the_error_of_a_single_call_and_spoils_no_other(service: Footvalve) -> None:
    sound = FrictionRequest(flow="5 gpm", line=LINE)
    bodies: list[Any] = [
        sound,
        {"flow": {"value": "5"}, "line": LINE},
        {"flow": "5 fet", "line": LINE},
        {"line": []},
        sound,
    ]
    high = msgspec.structs.replace(sound, site={"altitude": {"value": 20_000, "unit": "m"}})
    first, broken, no_quantity, empty, last, refused = service.map("friction", [*bodies, high])
    assert first.error is last.error is None
    assert first.answer == last.answer == service.friction(sound)
    assert [type(result.error) for result in (broken, no_quantity, empty, refused)] == [
        BadRequest,
        QuantityError,
        BadRequest,
        Refused,
    ]
    assert '/flow/value = "5": expected a number' in str(broken.error)
    assert str(no_quantity.error).startswith("/flow: '5 fet' is no Flow")
    assert "/site/altitude = 20000 m" in str(refused.error)
    assert isinstance(refused.error, Refused)
    assert refused.error.request_id
    with pytest.raises(Refused):
        refused.unwrap()


@pytest.mark.parametrize("concurrency", [1, 3])
def test_results_keep_the_order_of_the_bodies_whichever_request_is_answered_first(
    mapped: Any, concurrency: int
) -> None:
    echo = Echo(delays=[0.12, 0.01, 0.06, 0.0, 0.03, 0.0, 0.02])
    results = mapped(echo, "friction", map(_flow, range(68)), concurrency=concurrency, batch_size=10)
    assert _losses(results) == list(range(68))
    assert [result.index for result in results] == list(range(68))
    assert sorted(echo.sizes) == [8, 10, 10, 10, 10, 10, 10]
    assert echo.most_at_once == concurrency


def test_no_request_holds_more_bodies_than_the_service_takes(mapped: Any) -> None:
    echo = Echo()
    assert len(mapped(echo, "friction", map(_flow, range(2_500)), batch_size=1_000)) == 2_500
    assert sorted(echo.sizes) == [500, 1_000, 1_000]


def test_no_request_is_longer_than_the_service_takes(mapped: Any) -> None:
    echo = Echo()
    bodies = [{**_flow(number), "note": "x" * 1_500_000} for number in range(5)]
    assert _losses(mapped(echo, "friction", bodies)) == [0, 1, 2, 3, 4]
    assert sorted(echo.sizes) == [1, 2, 2]
    assert max(echo.bytes) <= 4_000_000


def _too_large() -> httpx.Response:
    problem = {
        "type": "t",
        "title": "Too large",
        "status": 413,
        "detail": "too long",
        "instance": "i",
        "request_id": "r",
    }
    return httpx.Response(413, json=problem, headers={"content-type": "application/problem+json"})


def test_where_the_service_takes_less_than_usual_the_request_is_halved(mapped: Any) -> None:
    echo = Echo()

    def strict(request: httpx.Request) -> httpx.Response:
        return _too_large() if len(request.content) > 700 else echo(request)

    long = {**_flow(3), "note": "x" * 700}
    results = mapped(strict, "friction", [*map(_flow, range(3)), long, {"flow": "none"}, *map(_flow, range(5, 17))])
    assert [type(result.error) for result in results[3:5]] == [BodyTooLarge, QuantityError]
    assert _losses([*results[:3], *results[5:]]) == [0, 1, 2, *range(5, 17)]
    assert max(echo.bytes) <= 700


def test_endless_bodies_are_pulled_no_further_ahead_than_the_window(mapped: Any) -> None:
    pulled: list[int] = []

    def bodies() -> Iterator[dict[str, Any]]:
        for number in count():
            pulled.append(number)
            yield _flow(number)

    with httpx.Client(transport=httpx.MockTransport(Echo())) as http_client:
        results = Footvalve(URL, http_client=http_client).map("friction", bodies(), concurrency=2, batch_size=5)
        ahead = [len(pulled) - 1 - result.index for result in islice(results, 200)]
        results.close()
    assert max(ahead) <= 2 * 2 * 5
    assert mapped(Echo(), "friction", []) == []


def _quick(request: httpx.Request) -> httpx.Response:
    """As Echo with a flow of 1, without reading the question."""
    item = msgspec.json.encode(Echo._answered({"id": "0", "body": _flow(1)}))
    items = b",".join([item] * request.content.count(b'"endpoint":'))
    return httpx.Response(200, headers={"content-type": "application/json"}, content=b'{"items":[' + items + b"]}")


@pytest.fixture
def _only_new_garbage() -> Iterator[None]:
    """Lets collections look at nothing that was there before, so that they are quick and find what is new."""
    gc.collect()
    gc.freeze()
    yield
    gc.unfreeze()


def _peak(number: int) -> float:
    """The most memory that was in use at once, in bytes, while so many bodies streamed.

    Requests and responses of httpx lie in cycles: they are collected now and then, so that none counts for long.
    """
    with httpx.Client(transport=httpx.MockTransport(_quick)) as http_client:
        bodies = map(_flow, range(number))
        results = Footvalve(URL, http_client=http_client).map("friction", bodies, concurrency=2, batch_size=50)
        next(results)
        tracemalloc.start()
        for result in results:
            if result.index % 200 == 0:
                gc.collect()
        _, peak = tracemalloc.get_traced_memory()
        tracemalloc.stop()
    assert result.index == number - 1
    return peak


@pytest.mark.usefixtures("_only_new_garbage")
def test_ten_times_as_many_bodies_take_no_more_memory() -> None:
    """A body with its answer takes more than 2 kB, so that kept results would show at once."""
    assert _peak(6_000) < _peak(600) + 1e6


def test_a_hundred_thousand_sites_stream() -> None:
    ahead, pulled = 0, 0

    def bodies() -> Iterator[dict[str, Any]]:
        nonlocal pulled
        while pulled < 100_000:
            pulled += 1
            yield _flow(1)

    with httpx.Client(transport=httpx.MockTransport(_quick)) as http_client:
        for result in Footvalve(URL, http_client=http_client).map("friction", bodies(), batch_size=500):
            ahead = max(ahead, pulled - result.index)
    assert (result.index, pulled) == (99_999, 100_000)
    assert ahead <= 2 * 4 * 500 + 1


def test_a_request_without_an_answer_stops_it_and_tells_where_to_go_on(mapped: Any) -> None:
    def failing(request: httpx.Request) -> httpx.Response:
        if b'"id":"25"' in request.content:
            raise httpx.ConnectError("refused")
        return Echo()(request)

    seen: list[float] = []
    with pytest.raises(MapStopped, match="stopped before the result of body 20: no answer to POST") as raised:
        seen += _losses(mapped(failing, "friction", map(_flow, range(60)), batch_size=10, concurrency=2))
    assert raised.value.index == 20
    assert isinstance(raised.value.__cause__, ConnectionFailed)
    assert raised.value.request_id == raised.value.__cause__.request_id


def test_the_results_before_the_stop_are_given() -> None:
    def failing(request: httpx.Request) -> httpx.Response:
        if b'"id":"25"' in request.content:
            raise httpx.ConnectError("refused")
        return Echo()(request)

    seen: list[int] = []
    with httpx.Client(transport=httpx.MockTransport(failing)) as http_client:
        service = Footvalve(URL, http_client=http_client, max_retries=0)
        with pytest.raises(MapStopped):
            seen.extend(result.index for result in service.map("friction", map(_flow, range(60)), batch_size=10))
    assert seen == list(range(20))


def test_a_request_is_tried_again_as_any_other() -> None:
    echo = Echo()
    failed: list[httpx.Request] = []

    def reluctant(request: httpx.Request) -> httpx.Response:
        if not failed:
            failed.append(request)
            raise httpx.ConnectError("refused")
        return echo(request)

    with httpx.Client(transport=httpx.MockTransport(reluctant)) as http_client:
        results = Footvalve(URL, http_client=http_client, max_retries=1).map("friction", [_flow(3)])
        assert _losses(results) == [3]


@pytest.mark.parametrize("items", [[], [{"id": "0", "status": 200, "body": {"flow": 3}}]], ids=["too few", "unlike"])
def test_an_answer_that_does_not_fit_the_question_stops_it(mapped: Any, items: list[Any]) -> None:
    with pytest.raises(MapStopped) as raised:
        mapped(lambda _: httpx.Response(200, json={"items": items}), "friction", [_flow(1)])
    assert isinstance(raised.value.__cause__, UnreadableAnswer)


def test_closing_early_sends_nothing_more() -> None:
    echo = Echo()
    with httpx.Client(transport=httpx.MockTransport(echo)) as http_client:
        results = Footvalve(URL, http_client=http_client).map(
            "friction", map(_flow, count()), concurrency=2, batch_size=3
        )
        assert next(results).index == 0
        results.close()
        time.sleep(0.05)
        sent = len(echo.sizes)
        time.sleep(0.05)
        assert len(echo.sizes) == sent <= 4
        assert list(results) == []


def test_closing_early_cancels_what_is_on_its_way() -> None:
    cancelled: list[str] = []

    async def stall(request: httpx.Request) -> httpx.Response:
        if b'"id":"0"' in request.content:
            return Echo()(request)
        try:
            await asyncio.sleep(30)
        except asyncio.CancelledError:
            cancelled.append("one")
            raise
        raise AssertionError("nobody cancelled it")

    async def asked() -> int:
        async with httpx.AsyncClient(transport=httpx.MockTransport(stall)) as http_client:
            service = AsyncFootvalve(URL, http_client=http_client)
            bodies = map(_flow, count())
            async with aclosing(service.map("friction", bodies, concurrency=2, batch_size=1)) as results:
                async for _ in results:
                    await asyncio.sleep(0.01)
                    break
            return len(asyncio.all_tasks())

    assert asyncio.run(asked()) == 1, "no task is left but the one that asks"
    assert cancelled == ["one", "one"]


def test_the_awaited_client_takes_bodies_as_they_come() -> None:
    async def bodies() -> AsyncIterator[dict[str, Any]]:
        for number in range(7):
            await asyncio.sleep(0)
            yield _flow(number)

    async def answered(request: httpx.Request) -> httpx.Response:
        return Echo()(request)

    async def asked() -> list[float]:
        async with httpx.AsyncClient(transport=httpx.MockTransport(answered)) as http_client:
            service = AsyncFootvalve(URL, http_client=http_client)
            return _losses([result async for result in service.map("friction", bodies(), batch_size=2)])

    assert asyncio.run(asked()) == list(range(7))


@pytest.mark.parametrize(
    ("arguments", "kind", "told"),
    [
        ({"endpoint": "batch"}, ValueError, "there is no 'batch', only battery-runtime"),
        ({"endpoint": "well_recovery"}, ValueError, "there is no 'well_recovery'"),
        ({"concurrency": 0}, ValueError, "concurrency must be 1 or more"),
        ({"batch_size": 0}, ValueError, "batch_size must be from 1 to 1000"),
        ({"batch_size": 1_001}, ValueError, "batch_size must be from 1 to 1000"),
    ],
    ids=str,
)
@pytest.mark.parametrize("client", [Footvalve, AsyncFootvalve])
def test_what_is_out_of_range_is_told_before_the_first_result(
    client: Any, arguments: dict[str, Any], kind: type[Exception], told: str
) -> None:
    with pytest.raises(kind, match=told):
        client(URL).map(**{"endpoint": "friction", "bodies": [], **arguments})


@pytest.mark.parametrize("sized", [True, False])
def test_a_bar_shows_on_the_standard_error_how_far_it_has_come(
    mapped: Any, capfd: pytest.CaptureFixture[str], sized: bool
) -> None:
    bodies = [_flow(number) for number in range(12)]
    assert len(mapped(Echo(), "friction", bodies if sized else iter(bodies), progress=True)) == 12
    out, err = capfd.readouterr()
    assert out == ""
    assert "friction" in err
    assert f"12/{'12' if sized else '?'}" in err


@contextmanager
def _without(name: str) -> Iterator[None]:
    hidden = {key: sys.modules.pop(key) for key in list(sys.modules) if key.partition(".")[0] == name}
    sys.modules[name] = None  # type: ignore[assignment]
    try:
        yield
    finally:
        del sys.modules[name]
        sys.modules.update(hidden)


def test_a_bar_without_rich_is_told_in_a_sentence() -> None:
    with _without("rich"), pytest.raises(ImportError, match=r"needs rich: pip install 'footvalve-client\[terminal\]'"):
        Footvalve(URL).map("friction", [], progress=True)


def test_a_body_that_cannot_be_sent_is_a_result_with_its_error(mapped: Any) -> None:
    unsendable = [None, SuctionFeasibilityRequest, {"flow": "5 gpm", "line": [object()]}]
    results = mapped(Echo(), "friction", [_flow(1), *unsendable, _flow(5)], batch_size=2)
    assert _losses([results[0], results[4]]) == [1, 5]
    assert [type(result.error) for result in results[1:4]] == [FootvalveError] * 3
    assert str(results[1].error) == "expected a FrictionRequest or a mapping, not NoneType"


@pytest.mark.parametrize("client", ["blocking", "awaited"])
def test_where_the_bodies_fail_the_results_before_come_first(client: str) -> None:
    def bodies() -> Iterator[dict[str, Any]]:
        yield from map(_flow, range(7))
        raise LookupError("the caller's own")

    seen: list[int] = []

    async def awaited() -> None:
        async with httpx.AsyncClient(transport=httpx.MockTransport(Echo())) as http_client:
            service = AsyncFootvalve(URL, http_client=http_client)
            async for result in service.map("friction", bodies(), batch_size=3):
                seen.append(result.index)

    def blocking() -> None:
        with httpx.Client(transport=httpx.MockTransport(Echo())) as http_client:
            for result in Footvalve(URL, http_client=http_client).map("friction", bodies(), batch_size=3):
                seen.append(result.index)

    with pytest.raises(LookupError, match="the caller's own"):
        blocking() if client == "blocking" else asyncio.run(awaited())
    assert seen == list(range(7))


def test_the_stop_says_all_that_its_cause_says(mapped: Any) -> None:
    with pytest.raises(MapStopped) as raised:
        mapped(lambda _: httpx.Response(503, text="busy"), "friction", [_flow(1)])
    assert str(raised.value).endswith(str(raised.value.__cause__))
    assert "HTTP 503, request " in str(raised.value)
