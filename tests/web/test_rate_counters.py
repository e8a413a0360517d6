"""Counting in a store, and in the process alone while the store is away: with stores that fail on purpose."""

import asyncio
import time
from contextlib import asynccontextmanager

import pytest

from footvalve.web import rate_counters
from footvalve.web.allowance import Allowance
from footvalve.web.metrics import COUNTED
from footvalve.web.rate_counters import Counters
from footvalve.web.rate_shared import SharedCounters
from footvalve.web.rate_store import StoreAway
from footvalve.web.rate_window import Verdict, Window

TWO = Allowance(2, 3600)
HUNG_S = 10
"""The store is given up after a tenth of a second; a loaded machine may take longer to see it."""


class Store:
    """A store that can be taken away, and remembers how often it was asked."""

    def __init__(self):
        self.is_there = True
        self.asked = 0

    async def charge(self, _, allowance, requests):
        await self.check()
        return Verdict(True, Window(0, requests, allowance.seconds))

    async def check(self):
        self.asked += 1
        if not self.is_there:
            raise StoreAway("gone")


@pytest.fixture
def store():
    return Store()


@pytest.fixture
def clock(monkeypatch):
    """Sets the clock by which the store is left alone."""
    now = [1000.0]
    monkeypatch.setattr(rate_counters, "monotonic", lambda: now[0])
    return now


@pytest.fixture
def told(monkeypatch):
    """What is told to the metrics."""
    events = []
    for name in ("store_up", "store_away", "counted_locally"):
        monkeypatch.setattr(COUNTED, name, lambda name=name: events.append(name))
    return events


async def fits(counters):
    return (await counters.charge("a", TWO, 1)).fits


async def settled():
    """Let what was begun aside come to its end."""
    for _ in range(5):
        await asyncio.sleep(0)


def test_a_store_is_asked_while_it_is_there(store, told):
    async def ask():
        counters = Counters(store)
        assert [await fits(counters) for _ in range(5)] == [True] * 5, "the store has no limit"
        assert await counters.are_together()

    asyncio.run(ask())
    assert told == ["store_up"]


def test_without_its_store_a_process_counts_alone_and_asks_it_seldom(store, clock, told):
    async def ask():
        counters = Counters(store)
        store.is_there = False
        assert [await fits(counters) for _ in range(5)] == [True, True, False, False, False]
        assert store.asked == 1
        assert not await counters.are_together()
        looks = []
        for _ in range(40):
            clock[0] += 0.25
            before = store.asked
            await fits(counters)
            await settled()
            looks.append(store.asked - before)
        assert set(looks) == {0, 1}
        assert sum(looks) <= 5, "the pauses grow: 0.5 s, 1 s, 2 s, 4 s, then 5 s"

    asyncio.run(ask())
    assert told[0] == "store_away"
    assert set(told[1:]) == {"counted_locally"}
    assert len(told) == 46


def test_no_request_waits_for_a_store_that_is_looked_for(store, clock):
    async def ask():
        counters = Counters(store)
        store.is_there = False
        await fits(counters)
        clock[0] += 10
        store.check = asyncio.Event().wait  # never comes
        await asyncio.wait_for(fits(counters), HUNG_S)
        counters._looking.cancel()

    asyncio.run(ask())


def test_a_store_that_comes_back_is_found_by_the_requests(store, clock, told):
    async def ask():
        counters = Counters(store)
        store.is_there = False
        await fits(counters)
        store.is_there = True
        clock[0] += 1
        assert await fits(counters)
        await settled()
        assert [await fits(counters) for _ in range(5)] == [True] * 5
        assert await counters.are_together()

    asyncio.run(ask())
    assert told == ["store_away", "counted_locally", "counted_locally", "store_up"]


def test_a_store_that_comes_back_is_found_without_any_request(store, clock):
    async def ask():
        counters = Counters(store)
        store.is_there = False
        assert not await counters.are_together()
        store.is_there = True
        assert not await counters.are_together(), "it is left alone for a moment"
        clock[0] += 1
        assert await counters.are_together()

    asyncio.run(ask())


def test_without_a_store_nothing_is_together_or_alone():
    assert asyncio.run(Counters().are_together()) is None


def test_one_application_serves_several_event_loops(store):
    counters = Counters(store)
    store.is_there = False
    assert [asyncio.run(fits(counters)) for _ in range(3)] == [True, True, False]


@asynccontextmanager
async def listening(answer):
    """The URL of something that listens, and answers in its own way."""
    server = await asyncio.start_server(answer, "127.0.0.1", 0)
    async with server:
        yield f"redis://:secret@127.0.0.1:{server.sockets[0].getsockname()[1]}/0"


async def says_nothing(reader, writer):
    await reader.read()
    writer.close()


async def hangs_up(_, writer):
    writer.close()


async def speaks_http(reader, writer):
    await reader.read(100)
    writer.write(b"HTTP/1.1 400 Bad Request\r\ncontent-length: 0\r\n\r\n")
    await reader.read()
    writer.close()


async def wants_a_password(reader, writer):
    while await reader.read(4_096):
        writer.write(b"-WRONGPASS invalid username-password pair or user is disabled.\r\n" * 4)
    writer.close()


@pytest.mark.parametrize("answer", [says_nothing, hangs_up, speaks_http, wants_a_password])
def test_what_is_no_store_is_soon_known_to_be_away_by_all_who_ask(answer):
    async def ask():
        async with listening(answer) as url:
            counters = SharedCounters(url)
            start = time.perf_counter()
            asked = [counters.charge(f"a{place}", TWO, 1) for place in range(300)]
            found = await asyncio.gather(*asked, return_exceptions=True)
            assert time.perf_counter() - start < HUNG_S
            assert {type(one) for one in found} == {StoreAway}
            assert "secret" not in str(found[0])
            await asyncio.sleep(0.1)

    asyncio.run(ask())


def test_a_port_on_which_nothing_listens_is_a_store_that_is_away():
    async def ask():
        async with listening(says_nothing) as url:
            pass
        with pytest.raises(StoreAway, match="ConnectionError"):
            await SharedCounters(url).check()

    asyncio.run(ask())
