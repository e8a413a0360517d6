"""The pace of long work: in a thread, one piece at a time, by turns, and only so many may wait only so long."""

import asyncio
import threading
from contextlib import suppress

import pytest

from footvalve.web import pace as pace_module
from footvalve.web.metrics_catalogue import LONG_WORK_WAITING
from footvalve.web.pace import Pace
from footvalve.web.problems import Declined

BEFORE_GIVING_UP_S = 20


@pytest.fixture
def every_step_a_slice(monkeypatch):
    monkeypatch.setattr(pace_module, "SLICE_SECONDS", -1.0)


def patient(places=10):
    return Pace(places, BEFORE_GIVING_UP_S)


def steps(events, name, number):
    for step in range(number):
        events.append(name)
        yield b"%d," % step


async def gathered(pace, work):
    return [piece async for piece in pace.slices(work)]


async def stays():
    """The receive of a caller who stays."""
    await asyncio.Event().wait()


async def until(condition):
    async with asyncio.timeout(BEFORE_GIVING_UP_S):
        while not condition():
            await asyncio.sleep(0.001)


class Held:
    """Work that goes on until it is let go."""

    def __init__(self):
        self.begun, self.let_go, self.ended = threading.Event(), threading.Event(), threading.Event()

    def __call__(self):
        self.begun.set()
        assert self.let_go.wait(BEFORE_GIVING_UP_S)
        self.ended.set()
        return "done"


def test_what_the_steps_give_comes_whole_and_in_order():
    pieces = asyncio.run(gathered(patient(), steps([], "a", 500)))
    assert b"".join(pieces) == b"".join(b"%d," % step for step in range(500))


def test_the_work_is_not_done_where_requests_are_taken():
    async def working():
        return await patient().once(threading.get_ident, stays)

    assert asyncio.run(working()) != threading.get_ident()


def test_the_event_loop_goes_on_while_work_is_done():
    async def working():
        held = Held()
        task = asyncio.ensure_future(patient().once(held, stays))
        await until(held.begun.is_set)
        held.let_go.set()
        return await task

    assert asyncio.run(working()) == "done"


@pytest.mark.usefixtures("every_step_a_slice")
def test_no_two_pieces_are_done_at_once_and_who_came_first_keeps_nobody_waiting():
    events, at_work = [], []

    def watched(name):
        for step in range(20):
            at_work.append(name)
            assert len(at_work) == 1
            events.append(name)
            at_work.pop()
            yield b"%d" % step

    async def working():
        pace = patient()
        await asyncio.gather(*(gathered(pace, watched(name)) for name in "abc"))

    asyncio.run(working())
    assert sorted(events) == sorted("abc" * 20)
    assert "".join(events) == "abc" * 20


def test_a_step_that_fails_lets_the_next_in():
    async def working():
        pace = patient()

        def failing():
            yield b"1"
            raise KeyError

        with pytest.raises(KeyError):
            await gathered(pace, failing())
        with pytest.raises(ZeroDivisionError):
            await pace.once(lambda: 1 / 0, stays)
        return await gathered(pace, steps([], "a", 1))

    assert asyncio.run(working()) == [b"0,"]


def overloaded(found):
    return found.value.kind.status == 503 and int(dict(found.value.headers)[b"retry-after"]) > 0


def test_who_finds_the_line_full_is_sent_away_at_once():
    async def working():
        pace, held = patient(places=1), Held()
        first = asyncio.ensure_future(pace.once(held, stays))
        await until(held.begun.is_set)
        second = asyncio.ensure_future(pace.once(lambda: "second", stays))
        await until(lambda: pace.waiting == 1)
        with pytest.raises(Declined) as found:
            await pace.once(lambda: "third", stays)
        assert overloaded(found)
        held.let_go.set()
        assert (await first, await second) == ("done", "second")
        assert pace.waiting == 0
        assert await pace.once(lambda: "fourth", stays) == "fourth"

    asyncio.run(working())


def test_the_length_of_the_line_is_told(board):
    async def working():
        pace, held = patient(), Held()
        told = [held, lambda: None, lambda: None]
        waiting = [asyncio.ensure_future(pace.once(work, stays)) for work in told]
        await until(lambda: pace.waiting == 2)
        assert board.cells[board.place(LONG_WORK_WAITING)] == 2
        held.let_go.set()
        await asyncio.gather(*waiting)

    asyncio.run(working())
    assert board.cells[board.place(LONG_WORK_WAITING)] == 0


def test_who_has_waited_too_long_is_sent_away_and_the_work_never_done():
    done = []

    async def working():
        pace, held = Pace(10, 0.02), Held()
        first = asyncio.ensure_future(pace.once(held, stays))
        await until(held.begun.is_set)
        with pytest.raises(Declined) as found:
            await pace.once(lambda: done.append("second"), stays)
        assert overloaded(found)
        assert pace.waiting == 0
        held.let_go.set()
        assert await first == "done", "work that has begun is not hurried"
        await pace.once(lambda: done.append("third"), stays)

    asyncio.run(working())
    assert done == ["third"]


def test_a_caller_who_has_gone_is_taken_out_of_the_line():
    done = []

    async def working():
        pace, held, gone = patient(places=1), Held(), asyncio.Event()

        async def leaves():
            await gone.wait()
            return {"type": "http.disconnect"}

        first = asyncio.ensure_future(pace.once(held, stays))
        await until(held.begun.is_set)
        second = asyncio.ensure_future(pace.once(lambda: done.append("second"), leaves))
        await until(lambda: pace.waiting == 1)
        gone.set()
        with pytest.raises(Declined):
            await second
        await until(lambda: pace.waiting == 0)
        third = asyncio.ensure_future(pace.once(lambda: done.append("third"), stays))
        await until(lambda: pace.waiting == 1)
        held.let_go.set()
        await asyncio.gather(first, third)

    asyncio.run(working())
    assert done == ["third"]


def test_work_whose_caller_has_gone_keeps_its_turn_until_it_has_ended():
    async def working():
        pace, held = patient(), Held()

        async def leaves():
            await until(held.begun.is_set)
            return {"type": "http.disconnect"}

        with pytest.raises(Declined):
            await pace.once(held, leaves)
        second = asyncio.ensure_future(pace.once(held.ended.is_set, stays))
        await until(lambda: pace.waiting == 1)
        held.let_go.set()
        assert await second, "the next piece was begun before the one before had ended"

    asyncio.run(working())


def test_a_task_that_is_cancelled_leaves_the_line():
    async def working():
        pace, held = patient(), Held()
        first = asyncio.ensure_future(pace.once(held, stays))
        await until(held.begun.is_set)
        others = [
            asyncio.ensure_future(gathered(pace, steps([], "a", 1))),
            asyncio.ensure_future(pace.once(int, stays)),
        ]
        await until(lambda: pace.waiting == 1)
        for task in others:
            task.cancel()
            with suppress(asyncio.CancelledError):
                await task
        await until(lambda: pace.waiting == 0)
        held.let_go.set()
        assert await first == "done"
        assert await pace.once(int, stays) == 0

    asyncio.run(working())


def test_several_event_loops_may_share_a_pace_one_after_another_and_at_once():
    pace, found = patient(), []

    async def contended():
        return await asyncio.gather(*(pace.once(lambda: "done", stays) for _ in range(5)))

    assert asyncio.run(contended()) == asyncio.run(contended()) == ["done"] * 5
    threads = [threading.Thread(target=lambda: found.append(asyncio.run(contended()))) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(BEFORE_GIVING_UP_S)
    assert found == [["done"] * 5] * 3
