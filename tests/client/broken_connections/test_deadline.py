"""No call outlasts its deadline, whatever the service does meanwhile."""

import asyncio
import time
from typing import Any

import httpx
import pytest

from broken_connections.asking import by_both, live
from broken_connections.faulty_service import Behaviour, FaultyService, answers, drips, half, hangs_up, problem, stalls
from footvalve_client import (
    AsyncFootvalve,
    ConnectionFailed,
    Footvalve,
    ServiceUnavailable,
    Timeout,
)

DEADLINE_S = 0.5
FAR_LESS_THAN_THE_FAULT_S = 5

SLOW: dict[str, Behaviour] = {
    "stall": stalls,
    "half a head, then a stall": half("head", stalls),
    "half a body, then a stall": half("body", stalls),
    "a head that drips": drips("head", 0.2),
    "a body that drips": drips("body", 0.1),
}


@by_both
@pytest.mark.parametrize("fault", SLOW.values(), ids=SLOW)
def test_the_deadline_cuts_what_is_slow(asked: Any, fault: Behaviour) -> None:
    begun = time.monotonic()
    with FaultyService(fault) as service, pytest.raises(Timeout) as raised:
        asked(service.url, live, deadline=DEADLINE_S)
    assert DEADLINE_S <= time.monotonic() - begun < FAR_LESS_THAN_THE_FAULT_S
    assert str(raised.value).startswith(f"no answer within the deadline of 0.5 s to GET {service.url}/live (request ")
    assert raised.value.request_id == service.heard[0].request_id
    assert raised.value.tries == len(service.heard) == 1


@by_both
def test_the_deadline_holds_over_all_tries(asked: Any) -> None:
    begun = time.monotonic()
    with FaultyService(stalls) as service, pytest.raises(Timeout) as raised:
        asked(service.url, live, timeout=0.2, deadline=1, max_retries=100)
    assert time.monotonic() - begun < FAR_LESS_THAN_THE_FAULT_S
    assert raised.value.tries == len(service.heard) > 1


@by_both
@pytest.mark.parametrize(("fault", "kind"), [(problem(503), ServiceUnavailable), (hangs_up, ConnectionFailed)])
def test_the_waits_count_too_and_the_failure_itself_is_told(asked: Any, fault: Behaviour, kind: Any) -> None:
    begun = time.monotonic()
    with FaultyService(fault) as service, pytest.raises(kind) as raised:
        asked(service.url, live, deadline=1, max_retries=100)
    assert time.monotonic() - begun < FAR_LESS_THAN_THE_FAULT_S
    assert 1 < raised.value.tries < 10


@by_both
def test_a_try_that_times_out_before_the_deadline_says_so(asked: Any) -> None:
    with FaultyService(stalls) as service, pytest.raises(Timeout, match=r"^no answer in time to GET .*: ReadTimeout"):
        asked(service.url, live, timeout=0.2, max_retries=0)


@by_both
def test_without_a_deadline_an_answer_may_drip_in(asked: Any) -> None:
    with FaultyService(drips("body", 0.02)) as service:
        assert asked(service.url, live, deadline=None).status == "live"


@by_both
def test_the_next_call_after_a_cut_one_is_answered(asked: Any) -> None:
    async def cut_awaited(service: AsyncFootvalve) -> None:
        with pytest.raises(Timeout):
            await service.with_options(deadline=0.3).live()

    def cut(service: Any) -> Any:
        if isinstance(service, AsyncFootvalve):
            return cut_awaited(service)
        with pytest.raises(Timeout):
            service.with_options(deadline=0.3).live()
        return None

    with FaultyService(half("body", stalls), answers()) as service:
        assert asked(service.url, cut, live).status == "live"


def test_a_call_that_its_caller_cancels_is_cancelled_and_not_tried_again() -> None:
    async def cancelled(url: str) -> None:
        async with AsyncFootvalve(url) as service:
            with pytest.raises(TimeoutError):
                await asyncio.wait_for(service.live(), 0.3)
            assert (await service.live()).status == "live"

    with FaultyService(stalls, answers()) as service:
        asyncio.run(cancelled(service.url))
    assert len(service.heard) == 2


def _limits(**options: Any) -> dict[str, float | None]:
    """The seconds that each phase of a try is given."""
    seen: list[dict[str, float | None]] = []

    def show(request: httpx.Request) -> httpx.Response:
        seen.append(request.extensions["timeout"])
        return httpx.Response(200, json={"status": "live"})

    with httpx.Client(transport=httpx.MockTransport(show), timeout=7) as http_client:
        Footvalve("http://footvalve.test", http_client=http_client, **options).live()
    return seen[0]


@pytest.mark.parametrize(
    ("options", "limits"),
    [
        ({}, (7, 7, 7, 7)),
        ({"timeout": 3}, (3, 3, 3, 3)),
        ({"timeout": 300, "deadline": None}, (300, 300, 300, 300)),
        ({"timeout": 300, "deadline": float("inf")}, (300, 300, 300, 300)),
        ({"timeout": httpx.Timeout(None), "deadline": None}, (None, None, None, None)),
        ({"timeout": httpx.Timeout(5, connect=1)}, (1, 5, 5, 5)),
        ({"timeout": httpx.Timeout(5, connect=1), "deadline": 2}, (1, 2, 2, 2)),
        ({"timeout": httpx.Timeout(None), "deadline": 2}, (2, 2, 2, 2)),
    ],
)
def test_each_phase_has_its_limit_and_what_is_left_bounds_it(
    options: dict[str, Any], limits: tuple[float | None, ...]
) -> None:
    given = _limits(**options)
    assert list(given) == ["connect", "read", "write", "pool"]
    assert tuple(given.values()) == pytest.approx(limits, abs=1)


@pytest.mark.parametrize("client", [Footvalve, AsyncFootvalve])
@pytest.mark.parametrize(
    ("options", "kind", "told"),
    [
        ({"timeout": 0}, ValueError, "timeout must be more than 0 s, not 0"),
        ({"timeout": float("nan")}, ValueError, "timeout must be more than 0 s, not nan"),
        ({"timeout": "10 s"}, TypeError, "timeout must be a number of seconds or a Timeout of httpx or httpx2"),
        ({"deadline": -1}, ValueError, "deadline must be more than 0 s, not -1"),
        ({"deadline": "60"}, TypeError, "deadline must be a number of seconds, not '60'"),
        ({"max_retries": -1}, ValueError, "max_retries must be 0 or more, not -1"),
        ({"max_retries": 2.5}, TypeError, "max_retries must be a whole number, not 2.5"),
    ],
)
def test_an_option_that_cannot_be_is_refused_at_once(
    client: Any, options: dict[str, Any], kind: type[Exception], told: str
) -> None:
    with pytest.raises(kind, match=told):
        client("http://footvalve.test", **options)
    with pytest.raises(kind, match=told):
        client("http://footvalve.test").with_options(**options)


@by_both
def test_a_client_with_other_options_shares_the_connections(asked: Any) -> None:
    def other(service: Any) -> Any:
        return service.with_options(deadline=5, max_retries=0, timeout=1).live()

    with FaultyService(answers()) as service:
        asked(service.url, live, other, live)
    assert [heard.connection for heard in service.heard] == [1, 1, 1]


def test_closing_a_client_with_other_options_leaves_the_first_one_open() -> None:
    with FaultyService(answers()) as faulty, Footvalve(faulty.url) as service:
        with service.with_options(max_retries=0) as other:
            assert type(other) is Footvalve
            other.live()
        service.live()


@by_both
def test_options_that_are_not_given_stay_as_they_were(asked: Any) -> None:
    def once(service: Any) -> Any:
        return service.with_options(max_retries=0).with_options(timeout=0.2, deadline=None).live()

    with FaultyService(stalls) as service, pytest.raises(Timeout, match="in time") as raised:
        asked(service.url, once, deadline=0.1)
    assert raised.value.tries == 1
