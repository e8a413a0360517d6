"""How much long bodies may take of memory together: beyond it 503, short ones always get in, all is given back."""

import asyncio
import json

import pytest

from footvalve.contract.examples import examples
from footvalve.web.application import create_app
from footvalve.web.body_memory import NOT_COUNTED, BodyMemory
from footvalve.web.problems import Declined
from footvalve.web.settings import BadSetting, Settings

SCOPE = {"type": "http", "method": "POST", "path": "/v1/batch"}
BEFORE_GIVING_UP_S = 20


def coming(*sizes):
    """The receive of a body in pieces of these sizes that goes on after them, and never ends."""
    messages = iter([{"type": "http.request", "body": bytes(size), "more_body": True} for size in sizes])

    async def receive():
        message = next(messages, None)
        if message is None:
            await asyncio.Event().wait()
        return message

    return receive


async def taking_all(_scope, receive, _send):
    while True:
        await receive()


async def until(condition):
    async with asyncio.timeout(BEFORE_GIVING_UP_S):
        while not condition():
            await asyncio.sleep(0)


def held_after(*sizes, limit=10_000_000):
    """What is held once pieces of these sizes have come, and once their caller has gone."""

    async def asked():
        memory, taken = BodyMemory(limit), []

        async def app(_scope, receive, _send):
            while True:
                taken.append(await receive())

        task = asyncio.ensure_future(memory.layer(app)(SCOPE, coming(*sizes), None))
        await until(lambda: len(taken) == len(sizes))
        held = memory.held
        task.cancel()
        await asyncio.gather(task, return_exceptions=True)
        return held, memory.held

    return asyncio.run(asked())


@pytest.mark.parametrize(
    ("sizes", "held"),
    [
        ((100,), 0),
        ((NOT_COUNTED,), 0),
        ((NOT_COUNTED, 1), 1),
        ((NOT_COUNTED + 5, 7), 12),
        ((1_000,) * 100, 100_000 - NOT_COUNTED),
    ],
)
def test_what_is_over_the_first_bytes_is_held_until_the_request_ends(sizes, held):
    assert held_after(*sizes) == (held, 0)


def test_what_finds_no_room_is_refused_and_holds_nothing():
    async def asked():
        memory = BodyMemory(50_000)
        first = asyncio.ensure_future(memory.layer(taking_all)(SCOPE, coming(60_000), None))
        await until(lambda: memory.held == 60_000 - NOT_COUNTED)
        with pytest.raises(Declined) as refused:
            await memory.layer(taking_all)(SCOPE, coming(30_000), None)
        assert (refused.value.kind.status, dict(refused.value.headers)) == (503, {b"retry-after": b"5"})
        assert memory.held == 60_000 - NOT_COUNTED
        first.cancel()
        await asyncio.gather(first, return_exceptions=True)
        assert memory.held == 0

    asyncio.run(asked())


def test_the_service_refuses_what_finds_no_room_and_answers_short_questions(send_to):
    longest = 20_000
    send = send_to(
        create_app(
            Settings(body_limit_bytes=longest, batch_limit_bytes=longest, body_memory_bytes=longest - NOT_COUNTED - 1)
        )
    )
    item = {"id": "1", "endpoint": "friction", "body": examples("friction")[0].request}
    batch = json.dumps({"items": [item]}).encode()
    headers = {"content-type": "application/json"}
    refused = send("POST", "/v1/batch", content=batch.ljust(longest), headers=headers)
    assert refused.status_code == 503
    assert refused.headers["retry-after"] == "5"
    assert refused.json()["type"].endswith("/overloaded")
    assert send("POST", "/v1/batch", content=batch.ljust(NOT_COUNTED), headers=headers).status_code == 200


@pytest.mark.parametrize("limit", ["BODY_LIMIT_BYTES", "BATCH_LIMIT_BYTES"])
def test_a_limit_into_which_no_body_of_the_longest_fits_stops_the_start(limit):
    room = {
        "FOOTVALVE_BODY_MEMORY_BYTES": "5000",
        "FOOTVALVE_BODY_LIMIT_BYTES": "5000",
        "FOOTVALVE_BATCH_LIMIT_BYTES": "5000",
    }
    Settings.from_environment(room)
    with pytest.raises(BadSetting, match=f"FOOTVALVE_BODY_MEMORY_BYTES is 5000, .* FOOTVALVE_{limit}, 5001"):
        Settings.from_environment(room | {f"FOOTVALVE_{limit}": "5001"})
