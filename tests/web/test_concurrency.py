"""How many requests are at work at once: over the limit 503 at once, and no place is ever lost."""

import asyncio

import pytest

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.web.application import create_app
from footvalve.web.concurrency import Concurrency
from footvalve.web.settings import Settings

BEFORE_GIVING_UP_S = 20


def scope(method="POST", path="/v1/sounding"):
    return {"type": "http", "method": method, "path": path, "headers": [], "state": {}}


class Caller:
    """The caller's end of the ASGI border: sends a body in pieces when it is told to, and keeps what comes back."""

    def __init__(self, *pieces):
        self.messages = asyncio.Queue()
        self.sent = []
        for place, piece in enumerate(pieces):
            self.messages.put_nowait({"type": "http.request", "body": piece, "more_body": place + 1 < len(pieces)})

    async def receive(self):
        return await self.messages.get()

    async def send(self, message):
        self.sent.append(message)

    @property
    def status(self):
        return self.sent[0]["status"] if self.sent else None

    @property
    def headers(self):
        return dict(self.sent[0]["headers"])


async def until(condition):
    async with asyncio.timeout(BEFORE_GIVING_UP_S):
        while not condition():
            await asyncio.sleep(0)


async def whole_body(receive):
    while (await receive()).get("more_body"):
        pass


def application(let_go):
    """An application that takes the body and then answers when it is let go."""

    async def app(scope, receive, send):
        if scope["method"] == "POST":
            await whole_body(receive)
        await let_go.wait()
        await send({"type": "http.response.start", "status": 200, "headers": []})
        await send({"type": "http.response.body", "body": b""})

    return app


@pytest.mark.parametrize("method", ["POST", "GET", "HEAD"])
def test_over_the_limit_it_is_refused_at_once_and_let_in_again_later(method):
    async def asking():
        limit, let_go = Concurrency(2), asyncio.Event()
        layer = limit.layer(application(let_go))
        callers = [Caller(b"x") for _ in range(2)]
        tasks = [asyncio.ensure_future(layer(scope(method), c.receive, c.send)) for c in callers]
        await until(lambda: limit.at_work == 2)
        refused = Caller(b"x")
        await layer(scope(method), refused.receive, refused.send)
        assert refused.status == 503
        assert int(refused.headers[b"retry-after"]) > 0
        assert refused.headers[b"content-type"] == b"application/problem+json"
        assert limit.at_work == 2
        let_go.set()
        await asyncio.gather(*tasks)
        assert [c.status for c in callers] == [200, 200]
        assert limit.at_work == 0
        later = Caller(b"x")
        await layer(scope(method), later.receive, later.send)
        assert later.status == 200

    asyncio.run(asking())


@pytest.mark.parametrize("path", ["/live", "/ready"])
def test_whether_it_is_well_is_told_whatever_is_at_work(path):
    async def asking():
        limit, let_go = Concurrency(1), asyncio.Event()
        layer = limit.layer(application(let_go))
        first = Caller(b"x")
        task = asyncio.ensure_future(layer(scope(), first.receive, first.send))
        await until(lambda: limit.at_work == 1)
        looker = Caller()
        look = asyncio.ensure_future(layer(scope("GET", path), looker.receive, looker.send))
        let_go.set()
        await asyncio.gather(task, look)
        assert looker.status == 200

    asyncio.run(asking())


def test_a_body_that_comes_slowly_takes_no_place_until_it_is_whole():
    async def asking():
        limit, let_go = Concurrency(1), asyncio.Event()
        let_go.set()
        layer = limit.layer(application(let_go))
        slow = [Caller() for _ in range(5)]
        for caller in slow:
            caller.messages.put_nowait({"type": "http.request", "body": b"x", "more_body": True})
        tasks = [asyncio.ensure_future(layer(scope(), c.receive, c.send)) for c in slow]
        await until(lambda: all(c.messages.empty() for c in slow))
        assert limit.at_work == 0
        quick = Caller(b"x")
        await layer(scope(), quick.receive, quick.send)
        assert quick.status == 200
        for caller in slow:
            caller.messages.put_nowait({"type": "http.request", "body": b"y", "more_body": False})
        await asyncio.gather(*tasks)
        assert {c.status for c in slow} == {200}
        assert limit.at_work == 0

    asyncio.run(asking())


def test_a_slow_body_that_is_whole_when_no_place_is_left_is_refused():
    """Through the whole service, as the refusal comes from within."""

    async def asking():
        body = b'{"measurement": {"method": "direct", "depths": [{"value": 5, "unit": "m"}]}}'
        sounding = next(endpoint for endpoint in ENDPOINTS if endpoint.name == "sounding")
        limit = Concurrency(1)
        layer = limit.layer(create_app(Settings(), [sounding]).route)
        asked = {**scope(), "query_string": b"", "headers": [(b"content-type", b"application/json")]}
        late = Caller()
        late.messages.put_nowait({"type": "http.request", "body": body[:9], "more_body": True})
        task = asyncio.ensure_future(layer(dict(asked, state={}), late.receive, late.send))
        await until(late.messages.empty)
        limit.at_work += 1
        late.messages.put_nowait({"type": "http.request", "body": body[9:], "more_body": False})
        await task
        limit.at_work -= 1
        assert limit.at_work == 0
        again = Caller(body)
        await layer(dict(asked, state={}), again.receive, again.send)
        assert limit.at_work == 0
        return late.status, again.status

    assert asyncio.run(asking()) == (503, 200)


class Broken(Exception):
    """What nobody foresaw."""


@pytest.mark.parametrize("when", ["before the body", "after the body", "in the answer", "cancelled"])
def test_whatever_ends_a_request_its_place_is_free_again(when):
    async def app(_, receive, send):
        if when == "before the body":
            raise Broken
        await whole_body(receive)
        if when == "after the body":
            raise Broken
        await send({"type": "http.response.start", "status": 200, "headers": []})
        if when == "in the answer":
            raise Broken
        await asyncio.Event().wait()

    async def asking():
        limit = Concurrency(1)
        layer = limit.layer(app)
        for _ in range(3):
            caller = Caller(b"x")
            task = asyncio.ensure_future(layer(scope(), caller.receive, caller.send))
            if when == "cancelled":
                await until(lambda: limit.at_work == 1)
                task.cancel()
            with pytest.raises((Broken, asyncio.CancelledError)):
                await task
            assert limit.at_work == 0

    asyncio.run(asking())


def test_a_caller_who_leaves_in_the_middle_of_the_body_holds_no_place():
    async def app(_, receive, __):
        while (await receive())["type"] != "http.disconnect":
            pass

    async def asking():
        limit = Concurrency(1)
        caller = Caller()
        caller.messages.put_nowait({"type": "http.request", "body": b"x", "more_body": True})
        caller.messages.put_nowait({"type": "http.disconnect"})
        await limit.layer(app)(scope(), caller.receive, caller.send)
        assert limit.at_work == 0

    asyncio.run(asking())
