"""What may have passed by the next try is tried again; what was refused for its content never is."""

import subprocess
import sys
import threading
import time
from email.utils import formatdate
from pathlib import Path
from typing import Any

import msgspec
import pytest
import tenacity

import footvalve_client
from broken_connections.asking import blocking, by_both, friction, live
from broken_connections.faulty_service import (
    Behaviour,
    FaultyService,
    answers,
    garbage,
    half,
    hangs_up,
    problem,
    resets,
    stalls,
    wrong_type,
)
from footvalve.answers.endpoints import ENDPOINT
from footvalve.contract.examples import examples
from footvalve_client import (
    ConnectionFailed,
    FootvalveError,
    FrictionAnswer,
    ServiceUnavailable,
    Timeout,
    TooManyRequests,
    UnreadableAnswer,
    _retry,
)

LONG_S = 30
"""Longer than anything here may take, and shorter than a reader's patience."""


pytestmark = pytest.mark.usefixtures("quick")

PASSING: dict[str, tuple[Behaviour, type[FootvalveError]]] = {
    "hangs up": (hangs_up, ConnectionFailed),
    "reset": (resets, ConnectionFailed),
    "garbage": (garbage, ConnectionFailed),
    "half a head": (half("head", hangs_up), ConnectionFailed),
    "half a head, then a reset": (half("head", resets), ConnectionFailed),
    "half a body": (half("body", hangs_up), ConnectionFailed),
    "half a body, then a reset": (half("body", resets), ConnectionFailed),
    "stall": (stalls, Timeout),
    "429": (problem(429), TooManyRequests),
    "503": (problem(503), ServiceUnavailable),
    "503 of a gateway": (answers(503, b"<html>down</html>", "text/html"), ServiceUnavailable),
    "502 of a gateway": (answers(502, b"<html>down</html>", "text/html"), ServiceUnavailable),
    "504 of a gateway": (answers(504, b"", "text/plain"), ServiceUnavailable),
}


@by_both
@pytest.mark.parametrize("fault", [fault for fault, _ in PASSING.values()], ids=PASSING)
def test_what_may_pass_is_tried_again(asked: Any, fault: Behaviour) -> None:
    with FaultyService(fault, answers()) as service:
        assert asked(service.url, live, timeout=0.5).status == "live"
    assert len(service.heard) == 2
    assert len({heard.request_id for heard in service.heard}) == 1, "the tries of a call go by one id"
    assert all(heard.request_id for heard in service.heard)


@by_both
@pytest.mark.parametrize("fault", [resets, half("body", hangs_up), problem(503)])
def test_a_question_with_a_body_is_sent_again_whole(asked: Any, fault: Behaviour) -> None:
    endpoint = ENDPOINT["friction"]
    answer = endpoint(msgspec.convert(examples("friction")[0].request, endpoint.request))
    with FaultyService(fault, fault, answers(body=msgspec.json.encode(answer))) as service:
        assert isinstance(asked(service.url, friction), FrictionAnswer)
    assert [heard.head.split(" HTTP")[0] for heard in service.heard] == ["POST /v1/friction"] * 3
    assert len({heard.body for heard in service.heard}) == 1
    assert service.heard[0].body


@by_both
def test_faults_of_different_kinds_count_together(asked: Any) -> None:
    with FaultyService(resets, problem(429), answers()) as service:
        assert asked(service.url, live).status == "live"
    script = (resets, problem(429), problem(503), answers())
    with FaultyService(*script) as service, pytest.raises(ServiceUnavailable) as raised:
        asked(service.url, live)
    assert raised.value.tries == len(service.heard) == 3


@by_both
def test_a_connection_that_is_reset_at_its_second_use_is_made_anew(asked: Any) -> None:
    """As a service behind a balancer does that has been idle for long."""
    with FaultyService(answers(), resets, answers()) as service:
        assert asked(service.url, live, live).status == "live"
    assert [heard.connection for heard in service.heard] == [1, 1, 2]


@by_both
def test_a_service_that_begins_to_listen_later_is_found(asked: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(_retry, "_FIRST_WAIT_SECONDS", 0.2)
    with FaultyService(answers(), listening=False) as service:
        threading.Timer(0.1, service.listen).start()
        assert asked(service.url, live, max_retries=9).status == "live"


@by_both
@pytest.mark.parametrize(("fault", "kind"), PASSING.values(), ids=PASSING)
def test_it_gives_up_after_the_last_try_and_says_how_many_there_were(
    asked: Any, fault: Behaviour, kind: type[FootvalveError]
) -> None:
    with FaultyService(fault) as service, pytest.raises(kind, match=r", 2 tries\)") as raised:
        asked(service.url, live, timeout=0.2, max_retries=1)
    assert raised.value.tries == len(service.heard) == 2
    assert raised.value.request_id == service.heard[0].request_id


@by_both
@pytest.mark.parametrize(("fault", "kind"), PASSING.values(), ids=PASSING)
def test_nothing_is_tried_again_where_that_is_turned_off(
    asked: Any, fault: Behaviour, kind: type[FootvalveError]
) -> None:
    with FaultyService(fault) as service, pytest.raises(kind) as raised:
        asked(service.url, live, timeout=0.2, max_retries=0)
    assert raised.value.tries == len(service.heard) == 1
    assert "tries" not in str(raised.value)


@by_both
@pytest.mark.parametrize("status", [400, 404, 405, 406, 413, 415, 418, 422, 500])
def test_what_would_come_back_the_same_is_not_tried_again(asked: Any, status: int) -> None:
    with FaultyService(problem(status, retry_after="0")) as service, pytest.raises(FootvalveError) as raised:
        asked(service.url, friction)
    assert raised.value.tries == len(service.heard) == 1


@by_both
def test_what_is_no_footvalve_service_is_not_asked_again(asked: Any) -> None:
    with FaultyService(wrong_type) as service, pytest.raises(UnreadableAnswer):
        asked(service.url, live)
    assert len(service.heard) == 1


@by_both
def test_a_port_on_which_nothing_listens_is_tried_as_often(asked: Any) -> None:
    with FaultyService(listening=False) as service, pytest.raises(ConnectionFailed, match="3 tries") as raised:
        asked(service.url, live)
    assert raised.value.tries == 3


def _busy_for_a_second(now: float) -> Behaviour:
    """Asks to be asked again in a second, by a date."""
    return problem(429, retry_after=formatdate(now + 1, usegmt=True), date=formatdate(now, usegmt=True))


@by_both
@pytest.mark.parametrize(
    "busy",
    [
        problem(503, retry_after="1"),
        answers(503, b"busy", "text/plain", retry_after="1"),
        _busy_for_a_second(time.time()),
        _busy_for_a_second(time.time() + 86_400),
    ],
    ids=["seconds", "seconds of a gateway", "a date", "a date by a clock that is wrong"],
)
def test_it_waits_as_long_as_the_service_asks(asked: Any, busy: Behaviour) -> None:
    begun = time.monotonic()
    with FaultyService(busy, answers()) as service:
        assert asked(service.url, live).status == "live"
    assert 1 <= time.monotonic() - begun < LONG_S


@by_both
def test_a_wait_that_the_deadline_would_cut_is_not_begun(asked: Any) -> None:
    begun = time.monotonic()
    with FaultyService(problem(429, retry_after="3600")) as service, pytest.raises(TooManyRequests) as raised:
        asked(service.url, live, deadline=600)
    assert time.monotonic() - begun < LONG_S
    assert raised.value.tries == len(service.heard) == 1
    assert raised.value.retry_after == 3600, "so that the caller may come back then"


NOON = formatdate(1_800_000_000, usegmt=True)
A_MINUTE_LATER = formatdate(1_800_000_060, usegmt=True)


@pytest.mark.parametrize(
    ("headers", "seconds"),
    [
        ({}, None),
        ({"retry-after": "0"}, 0),
        ({"retry-after": " 120 "}, 120),
        ({"retry-after": A_MINUTE_LATER, "date": NOON}, 60),
        ({"retry-after": NOON, "date": A_MINUTE_LATER}, 0),
        (
            {"retry-after": "Fri, 01 Jan 2100 00:00:00 +0000", "date": "some day"},
            pytest.approx(4.1e9 - time.time(), rel=0.1),
        ),
        ({"retry-after": "soon", "date": NOON}, None),
        ({"retry-after": "-5"}, None),
        ({"retry-after": "1.5"}, None),
        ({"retry-after": "\u00b2"}, None),
        ({"retry-after": "Fri, 99 Jan 2100 00:00:00 GMT"}, None),
    ],
)
def test_retry_after_is_read_in_both_its_forms(headers: dict[str, str], seconds: Any) -> None:
    assert _retry.retry_after(headers) == seconds


def test_the_waits_grow_and_no_two_calls_keep_step(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.undo()
    waits: list[float] = []
    monkeypatch.setattr(tenacity.nap.time, "sleep", waits.append)
    with FaultyService(problem(503)) as service:
        for _ in range(5):
            with pytest.raises(ServiceUnavailable):
                blocking(service.url, live, max_retries=7)
    for place, least in enumerate([0.2, 0.4, 0.8, 1.6, 3.2]):
        among = waits[place::7]
        assert all(least <= wait <= least + 0.2 for wait in among)
        assert len(set(among)) == 5
    assert set(waits[5::7] + waits[6::7]) == {5.0}


def test_what_tries_again_is_imported_when_something_fails() -> None:
    script = f"""
import sys
sys.path[:0] = {[str(Path(footvalve_client.__file__).parents[1])]}
import httpx, footvalve_client
sound = httpx.MockTransport(lambda _: httpx.Response(200, json={{"status": "live"}}))
with httpx.Client(transport=sound) as http_client:
    footvalve_client.Footvalve("http://footvalve.test", http_client=http_client).live()
print("tenacity" in sys.modules)
"""
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert ran.stdout.strip() == "False", ran.stderr
