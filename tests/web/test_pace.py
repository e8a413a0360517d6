"""The pace of long work: one slice at a time, and free turns of the event loop after each."""

import asyncio

import pytest

from footvalve.web import pace as pace_module
from footvalve.web.pace import Pace


@pytest.fixture
def every_step_a_slice(monkeypatch):
    monkeypatch.setattr(pace_module, "SLICE_SECONDS", -1.0)


def steps(events, name, number):
    for step in range(number):
        events.append(name)
        yield b"%d," % step


async def gathered(pace, work):
    return [piece async for piece in pace.slices(work)]


def test_what_the_steps_give_comes_whole_and_in_order():
    pieces = asyncio.run(gathered(Pace(), steps([], "a", 500)))
    assert b"".join(pieces) == b"".join(b"%d," % step for step in range(500))


@pytest.mark.usefixtures("every_step_a_slice")
def test_between_two_slices_others_have_their_turns_however_many_work():
    events = []

    async def ticking():
        while True:
            events.append("turn")
            await asyncio.sleep(0)

    async def working():
        pace, clock = Pace(), asyncio.ensure_future(ticking())
        await asyncio.gather(*(gathered(pace, steps(events, name, 20)) for name in "abc"))
        clock.cancel()

    asyncio.run(working())
    worked = "".join("." if event == "turn" else event for event in events).strip(".")
    assert {letter: worked.count(letter) for letter in "abc"} == dict.fromkeys("abc", 20)
    assert min(map(len, worked.replace("a", " ").replace("b", " ").replace("c", " ").split())) >= 4


@pytest.mark.usefixtures("every_step_a_slice")
def test_who_came_first_does_not_keep_the_others_waiting():
    events = []

    async def working():
        pace = Pace()
        await asyncio.gather(*(gathered(pace, steps(events, name, 20)) for name in "ab"))

    asyncio.run(working())
    assert "b" in events[:3]


def test_a_step_that_fails_lets_the_next_in():
    async def working():
        pace = Pace()

        def failing():
            yield b"1"
            raise KeyError

        with pytest.raises(KeyError):
            await gathered(pace, failing())
        return await gathered(pace, steps([], "a", 1))

    assert asyncio.run(working()) == [b"0,"]
