"""What the client says when there is no answer: each kind of failure by its own error, in words for a person."""

import asyncio
import inspect
import json
import pickle
import re
from collections.abc import Callable
from typing import Any

import httpx
import pytest

import footvalve_client
from footvalve.web.problem_types import PROBLEM_TYPES
from footvalve_client import (
    AsyncFootvalve,
    BadRequest,
    ConnectionFailed,
    FieldFault,
    Footvalve,
    FootvalveError,
    HeadTooLarge,
    KeyNeeded,
    KeyRefused,
    NotFound,
    Pipe,
    Problem,
    ProblemError,
    QuantityError,
    Refused,
    SentTooSlowly,
    ServiceFailed,
    ServiceUnavailable,
    Timeout,
    TooManyRequests,
    UnreadableAnswer,
    _errors,
)

URL = "http://footvalve.test"

Handler = Callable[[httpx.Request], httpx.Response]
Ask = Callable[[Any], Any]


def _blocking(handler: Handler, ask: Ask) -> Any:
    with httpx.Client(transport=httpx.MockTransport(handler)) as http_client:
        return ask(Footvalve(URL, http_client=http_client, max_retries=0))


def _awaited(handler: Handler, ask: Ask) -> Any:
    async def asked() -> Any:
        async with httpx.AsyncClient(transport=httpx.MockTransport(handler)) as http_client:
            return await ask(AsyncFootvalve(URL, http_client=http_client, max_retries=0))

    return asyncio.run(asked())


@pytest.fixture(params=[_blocking, _awaited], ids=["blocking", "awaited"])
def answered_by(request: pytest.FixtureRequest) -> Callable[[Handler, Ask], Any]:
    """Asks a service that answers by a handler, once with each client."""
    ask: Callable[[Handler, Ask], Any] = request.param
    return ask


def _friction(service: Any) -> Any:
    return service.friction(flow="5 gal/min", line=[Pipe(length="45 ft")])


def _problem(status: int, **more: object) -> httpx.Response:
    problem = {
        "type": "/problems/some",
        "title": "Some problem",
        "status": status,
        "detail": "It went wrong.",
        "instance": "urn:uuid:1",
        "request_id": "id-of-the-body",
        **more,
    }
    headers = {"content-type": "application/problem+json", "x-request-id": "id-of-the-service"}
    return httpx.Response(status, content=json.dumps(problem), headers=headers)


@pytest.mark.parametrize(
    ("status", "kind"),
    [
        (400, BadRequest),
        (401, KeyNeeded),
        (403, KeyRefused),
        (404, NotFound),
        (408, SentTooSlowly),
        (418, ProblemError),
        (422, Refused),
        (429, TooManyRequests),
        (431, HeadTooLarge),
        (500, ServiceFailed),
        (503, ServiceUnavailable),
        (504, ProblemError),
    ],
)
def test_a_problem_is_raised_by_its_status(answered_by: Any, status: int, kind: type[ProblemError]) -> None:
    with pytest.raises(kind) as raised:
        answered_by(lambda _: _problem(status), _friction)
    assert type(raised.value) is kind
    assert (raised.value.status, raised.value.problem.status) == (status, status)
    assert raised.value.request_id == "id-of-the-service"
    assert str(raised.value) == f"Some problem: It went wrong. (HTTP {status}, request id-of-the-service)"


def test_every_status_that_the_service_may_answer_to_a_question_has_an_error() -> None:
    """406 and 415 cannot come of this client's headers, nor 405 and 501 of its methods."""
    statuses = {kind.status for kind in PROBLEM_TYPES} - {405, 406, 415, 501}
    assert statuses <= _errors.BY_STATUS.keys(), "give the new status an error in _errors.py"


def test_a_refused_body_prints_each_field_with_what_was_sent_and_what_was_expected(answered_by: Any) -> None:
    errors = [
        {"pointer": "/flow", "detail": "must be less"},
        {"pointer": "/line/0/length/unit", "detail": "is the wrong unit"},
        {"pointer": "/line/0/size", "detail": "required, but missing"},
        {"pointer": "/line/0", "detail": "is no part"},
        {"pointer": "", "detail": "is too short"},
    ]
    with pytest.raises(Refused) as raised:
        answered_by(lambda _: _problem(422, errors=errors), _friction)
    assert str(raised.value).splitlines() == [
        "Some problem (HTTP 422, request id-of-the-service)",
        "  /flow = 5 gal/min: must be less",
        '  /line/0/length/unit = "ft": is the wrong unit',
        "  /line/0/size: required, but missing",
        '  /line/0 = {"part":"pipe","length":{"value":45.0,"unit":"ft"}}: is no part',
        "  the body: is too short",
    ]
    assert raised.value.faults[0] == FieldFault("/flow", "must be less", {"value": 5, "unit": "gal/min"})


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        ({"value": 1234567.0, "unit": "Pa"}, "1234567 Pa"),
        ({"value": 0.30000000000000004, "unit": "m"}, "0.3 m"),
        ({"value": 14.5, "unit": "ft", "uncertainty": 0.5}, "14.5 \u00b1 0.5 ft"),
        ({"value": 14, "unit": "ft", "colour": "red"}, '{"value":14,"unit":"ft","colour":"red"}'),
        ("5 gpm", '"5 gpm"'),
        (False, "false"),
        (0, "0"),
    ],
)
def test_a_value_is_shown_as_it_was_sent(value: object, shown: str) -> None:
    assert str(FieldFault("/flow", "is odd", value)) == f"/flow = {shown}: is odd"


def test_a_long_value_is_cut() -> None:
    assert len(str(FieldFault("/line", "is long", ["pipe"] * 100))) < 90


def test_of_very_many_faults_the_first_are_printed_and_all_are_kept(answered_by: Any) -> None:
    errors = [{"pointer": f"/line/{place}", "detail": "is odd"} for place in range(300)]
    with pytest.raises(Refused) as raised:
        answered_by(lambda _: _problem(422, errors=errors), _friction)
    assert len(raised.value.faults) == 300
    assert len(str(raised.value).splitlines()) == 22
    assert str(raised.value).endswith("\n  /line/19: is odd\n  and 280 more")


@pytest.mark.parametrize("pointer", ["/line/7", "/line/first", "/flow/value/deeper", "/no~1such~0field"])
def test_a_pointer_to_nothing_shows_no_value(answered_by: Any, pointer: str) -> None:
    with pytest.raises(Refused) as raised:
        answered_by(lambda _: _problem(422, errors=[{"pointer": pointer, "detail": "is odd"}]), _friction)
    assert str(raised.value).endswith(f"\n  {pointer}: is odd")


def test_the_real_service_refuses_with_pointers(service: Footvalve) -> None:
    with pytest.raises(Refused) as raised:
        service.friction(flow="5 gal/min", line=[Pipe(length="45 ft")], site={"altitude": "20000 m"})
    pointers = [fault.pointer for fault in raised.value.faults]
    assert "/site/altitude" in pointers
    assert "/site/altitude = 20000 m: " in str(raised.value)


def test_the_real_service_tells_all_that_breaks_the_schema(service: Footvalve) -> None:
    with pytest.raises(BadRequest) as raised:
        service.friction(flow="5 gal/min", line=[{"part": "pipe", "length": {"value": "45", "unit": "ft"}}, {}])
    told = str(raised.value)
    assert '/line/0/length/value = "45": expected a number' in told
    assert "/line/1/part: required, but missing" in told


def test_the_real_service_tells_of_a_batch_which_item_is_wrong(service: Footvalve) -> None:
    items: list[Any] = [{"id": "house-7", "endpoint": "friction", "body": {}}, {"id": "house-9", "body": {"flow": 3}}]
    with pytest.raises(BadRequest) as raised:
        service.batch(items=items)
    assert "\n  /items/1/endpoint: required, but missing" in str(raised.value)


@pytest.mark.parametrize(
    ("told", "seconds"), [("7", 7.0), ("Fri, 31 Dec 1999 23:59:59 GMT", 0.0), ("", None), ("soon", None)]
)
def test_an_error_tells_when_to_come_back(answered_by: Any, told: str, seconds: float | None) -> None:
    def busy(_: httpx.Request) -> httpx.Response:
        answer = _problem(429)
        answer.headers["retry-after"] = told
        return answer

    with pytest.raises(TooManyRequests) as raised:
        answered_by(busy, _friction)
    assert raised.value.retry_after == seconds


SOUND = b'{"status": "live"}'


@pytest.mark.parametrize(
    ("status", "media_type", "content"),
    [
        (200, "text/html", b"<html>A login page</html>"),
        (200, "", SOUND),
        (200, "text/plain", SOUND),
        (200, "application/json", SOUND[:-3]),
        (200, "application/json", b""),
        (200, "application/json", b"\xff\xfe"),
        (200, "application/json", b"[" * 100_000),
        (200, "application/json", b"[1, 2]"),
        (200, "application/json", b'{"status": 3}'),
        (200, "application/json", b"{}"),
        (302, "text/html", b"Elsewhere"),
        (404, "application/json", b'{"message": "another service"}'),
        (500, "application/problem+json", b'{"title": 1}'),
    ],
    ids=lambda given: str(given)[:20],
)
def test_what_is_no_answer_of_the_service_is_told_in_one_clear_error(
    answered_by: Any, status: int, media_type: str, content: bytes
) -> None:
    headers = {"content-type": media_type} if media_type else {}
    with pytest.raises(UnreadableAnswer, match="is no Footvalve service, or was cut off") as raised:
        answered_by(lambda _: httpx.Response(status, headers=headers, content=content), lambda service: service.live())
    assert raised.value.status == status
    assert raised.value.request_id
    assert raised.value.__cause__ is None
    assert raised.value.__suppress_context__ or raised.value.__context__ is None, "no decoder's traceback"
    assert len(str(raised.value)) < 600


@pytest.mark.parametrize(
    ("failure", "kind"),
    [
        (httpx.ConnectTimeout("slow"), Timeout),
        (httpx.ReadTimeout("slow"), Timeout),
        (httpx.WriteTimeout("slow"), Timeout),
        (httpx.PoolTimeout("slow"), Timeout),
        (httpx.ConnectError("refused"), ConnectionFailed),
        (httpx.ReadError("reset"), ConnectionFailed),
        (httpx.RemoteProtocolError("half an answer"), ConnectionFailed),
        (httpx.DecodingError("no gzip"), ConnectionFailed),
        (httpx.ProxyError("no proxy"), ConnectionFailed),
    ],
    ids=lambda given: type(given).__name__ if isinstance(given, Exception) else given.__name__,
)
def test_a_failure_on_the_way_has_an_error_of_ours(answered_by: Any, failure: Exception, kind: type[Any]) -> None:
    def fail(_: httpx.Request) -> httpx.Response:
        raise failure

    with pytest.raises(kind, match=f"POST {URL}/v1/friction .*{type(failure).__name__}") as raised:
        answered_by(fail, _friction)
    assert raised.value.request_id in str(raised.value)
    assert raised.value.__cause__ is failure


def test_the_request_id_that_is_sent_is_the_one_that_the_service_logs(answered_by: Any) -> None:
    seen: list[str] = []

    def fail(request: httpx.Request) -> httpx.Response:
        seen.append(request.headers["x-request-id"])
        raise httpx.ConnectError("refused")

    with pytest.raises(ConnectionFailed) as raised:
        answered_by(fail, _friction)
    assert [raised.value.request_id] == seen


@pytest.mark.parametrize("url", ["", "footvalve.test", "ftp://footvalve.test", "http://", "//footvalve.test"])
@pytest.mark.parametrize("client", [Footvalve, AsyncFootvalve])
def test_a_base_url_that_cannot_be_is_refused_at_once(client: Any, url: str) -> None:
    with pytest.raises(ValueError, match=r'base_url must be such as "http://127\.0\.0\.1:8000"'):
        client(url)


def test_a_base_url_may_have_a_path_and_end_in_a_slash() -> None:
    def show(request: httpx.Request) -> httpx.Response:
        assert str(request.url) == "http://proxy.test/water/live"
        return httpx.Response(200, json={"status": "live"})

    with httpx.Client(transport=httpx.MockTransport(show)) as http_client:
        assert Footvalve("http://proxy.test/water/", http_client=http_client).live().status == "live"


def test_a_lent_http_client_stays_open_and_keeps_its_timeout() -> None:
    seen: list[object] = []

    def show(request: httpx.Request) -> httpx.Response:
        seen.append(request.extensions["timeout"]["read"])
        return httpx.Response(200, json={"status": "live"})

    with httpx.Client(transport=httpx.MockTransport(show), timeout=17) as http_client:
        with Footvalve(URL, http_client=http_client) as service:
            service.live()
        with Footvalve(URL, http_client=http_client, timeout=3) as service:
            service.live()
        assert not http_client.is_closed
    assert seen == [17, 3]


def test_a_client_of_its_own_is_closed_with_it() -> None:
    service = Footvalve(URL)
    service.close()
    with pytest.raises(FootvalveError, match="are closed"):
        service.live()


def test_an_awaited_client_of_its_own_is_closed_with_it() -> None:
    async def closed() -> None:
        async with AsyncFootvalve(URL) as service:
            pass
        with pytest.raises(FootvalveError, match="are closed"):
            await service.live()

    asyncio.run(closed())


def test_the_tree_at_the_top_of_the_module_is_the_tree() -> None:
    """Whoever adds an error draws it there too, with the status that raises it."""
    drawn = re.findall(r"^( *)([A-Z]\w+)(?:  +(\d{3})?)?", inspect.getdoc(_errors) or "", re.MULTILINE)[1:]
    parents: dict[int, str] = {}
    for indent, name, status in drawn:
        parents[len(indent)] = name
        kind = getattr(footvalve_client, name)
        assert kind.__bases__[0].__name__ == parents.get(len(indent) - 4, "Exception")
        assert _errors.BY_STATUS.get(int(status or 0), kind) is kind
    assert {name for _, name, _ in drawn} == {kind.__name__ for kind in _kinds_below(FootvalveError)}


def _kinds_below(kind: type[FootvalveError]) -> set[type[FootvalveError]]:
    return {kind}.union(*map(_kinds_below, kind.__subclasses__()))


PROBLEM = Problem(type="/t", title="T", status=422, detail="D", instance="i", request_id="r")


@pytest.mark.parametrize(
    "error",
    [
        QuantityError("it is none", "/flow"),
        ConnectionFailed("broken", "id"),
        Timeout("late", "id", 3),
        UnreadableAnswer("odd", "id", 502, tries=3, retry_after=7.0),
        Refused(422, PROBLEM, "id", (FieldFault("/flow", "is odd", 3),)),
        TooManyRequests(429, PROBLEM, "id", tries=3, retry_after=7.0),
    ],
    ids=lambda error: type(error).__name__,
)
def test_errors_pass_from_process_to_process(error: FootvalveError) -> None:
    passed = pickle.loads(pickle.dumps(error))
    assert type(passed) is type(error)
    assert str(passed) == str(error)
    assert vars(passed) == vars(error)


GATEWAYS = {408: SentTooSlowly, 429: TooManyRequests} | dict.fromkeys((502, 503, 504), ServiceUnavailable)


@pytest.mark.parametrize("status", GATEWAYS)
@pytest.mark.parametrize("media_type", ["text/html", "application/json"])
def test_a_gateway_is_told_by_its_status(answered_by: Any, status: int, media_type: str) -> None:
    headers = {"content-type": media_type, "retry-after": "7"}
    with pytest.raises(GATEWAYS[status]) as raised:
        answered_by(lambda _: httpx.Response(status, headers=headers, content=b"{}"), lambda service: service.live())
    assert (raised.value.status, raised.value.retry_after, raised.value.problem.type) == (status, 7, "about:blank")
    assert f"HTTP {status} from something between here and the service" in str(raised.value)


def test_a_redirect_tells_where_to(answered_by: Any) -> None:
    with pytest.raises(UnreadableAnswer, match=r"a redirect to 'http://elsewhere.test/'"):
        answered_by(
            lambda _: httpx.Response(302, headers={"location": "http://elsewhere.test/"}),
            lambda service: service.live(),
        )


def test_an_answer_without_end_is_refused(answered_by: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("footvalve_client._exchange.MOST_ANSWER_BYTES", 10)
    with pytest.raises(UnreadableAnswer, match="more than 10 bytes"):
        answered_by(lambda _: httpx.Response(200, json={"status": "live"}), lambda service: service.live())


def test_no_control_character_of_a_server_reaches_the_terminal() -> None:
    assert str(FootvalveError("a\x1b[2J\x07\x9bb")) == r"a\x1b[2J\x07\x9bb"
