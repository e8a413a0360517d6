"""Requests counted in a Redis by several processes: exactly while it is there, and on their own while it is away."""

import json
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from typing import NamedTuple, TypeVar

import httpx
import pytest
from tests.faults.redis_process import RedisProcess, running_redis
from tests.faults.service_process import PATIENCE_S, ServiceProcess, serving, until

from footvalve.contract.examples import examples
from footvalve.web.key_making import entry_of, made_key

TABLE = "/v1/tables/units"
FRICTION = examples("friction")[0].request
HUNG_S = 20
"""No request takes so long on the most loaded machine unless it hangs."""
RUNS = 10
Found = TypeVar("Found")


@pytest.fixture
def redis() -> Iterator[RedisProcess]:
    with running_redis() as running:
        yield running


@contextmanager
def counting(redis: RedisProcess, *arguments: str, **settings: str) -> Iterator[ServiceProcess]:
    """A service that counts in this Redis."""
    chosen = {f"FOOTVALVE_{name.upper()}": value for name, value in settings.items()}
    with serving(*arguments, environment={"FOOTVALVE_COUNTERS_URL": redis.url, **chosen}) as service:
        httpx.get(f"{service.url}/live", timeout=PATIENCE_S)
        yield service


def new_connections(service: ServiceProcess) -> httpx.Client:
    """A client that makes a connection for each request: it comes to either process."""
    return httpx.Client(base_url=service.url, timeout=HUNG_S, limits=httpx.Limits(max_keepalive_connections=0))


def statuses(service: ServiceProcess, number: int, at_once: int = 8) -> Counter[int]:
    """How the service answers so many requests without a key, of which some come at once."""
    with new_connections(service) as client, ThreadPoolExecutor(at_once) as pool:
        return Counter(pool.map(lambda _: client.get(TABLE).status_code, range(number)))


def in_time(run: Callable[[RedisProcess], Found | None]) -> Found:
    """What the first run gives in which the Redis was in time; where the machine is too busy, it gives None."""
    for _ in range(RUNS):
        with running_redis() as redis:
            found = run(redis)
        if found is not None:
            return found
    raise AssertionError(f"Redis did not answer in time in any of {RUNS} runs")


def all_logged(service: ServiceProcess) -> str:
    """The whole log, which is out once the service has ended."""
    service.stop()
    return service.errors


def counters_of(service: ServiceProcess) -> str:
    """Whether the service says that it counts together with others, or alone; it must be ready in either case."""
    ready = httpx.get(f"{service.url}/ready", timeout=HUNG_S)
    assert ready.status_code == 200
    assert ready.json()["status"] == "ready"
    return ready.json()["counters"]


class Counts(NamedTuple):
    """What came of requests without a key, of batches with one, and of the requests behind them."""

    without_key: Counter[int]
    batches: Counter[int]
    behind_them: list[int]
    refused: httpx.Response


def counts(redis: RedisProcess, settings: Mapping[str, str], headers: Mapping[str, str]) -> Counts | None:
    """Ask two processes for more than they allow. None where the machine was too busy for Redis to answer in time."""
    batch = json.dumps({"items": [{"id": "a", "endpoint": "friction", "body": FRICTION}] * 7})
    with counting(redis, "--workers", "2", **settings) as service, new_connections(service) as client:
        without_key = statuses(service, 400)
        with ThreadPoolExecutor(4) as pool:
            answers = list(pool.map(lambda _: client.post("/v1/batch", content=batch, headers=headers), range(20)))
        batches = Counter(answer.status_code for answer in answers)
        behind_them = [client.get(TABLE, headers=headers).status_code for _ in range(4)]
        refused = client.get(TABLE)
        return None if "is away" in all_logged(service) else Counts(without_key, batches, behind_them, refused)


def test_two_processes_let_exactly_what_is_allowed_pass(tmp_path):
    """400 requests against 100 without a key; and 20 batches of 7 against 100 with one, each whole or not at all."""
    key, file = made_key(), tmp_path / "keys.toml"
    file.write_text(entry_of("shop", key) + 'limit = "100/hour"\n', encoding="utf-8")
    settings = {"anonymous_limit": "100/hour", "keys_file": str(file), "access": "open"}
    headers = {"content-type": "application/json", "authorization": f"Bearer {key}"}
    found = in_time(lambda redis: counts(redis, settings, headers))
    assert found.without_key == {200: 100, 429: 300}
    assert found.batches == {200: 14, 429: 6}
    assert found.behind_them == [200, 200, 429, 429], "2 of 100 were left, which no batch could take"
    assert found.refused.headers["ratelimit-policy"] == '"anonymous";q=100;w=3600'
    assert found.refused.headers["ratelimit"].startswith('"anonymous";r=0;t=')
    assert 3000 < int(found.refused.headers["retry-after"]) <= 3700


def alone_and_together(redis: RedisProcess) -> tuple[Counter[int], Counter[int]] | None:
    """What comes of 15 requests before there is a Redis, and of 15 more once there is one."""
    redis.stop()
    with counting(redis, anonymous_limit="10/hour") as service:
        assert counters_of(service) == "alone"
        alone = statuses(service, 15, at_once=1)
        redis.start()
        until(lambda: counters_of(service) == "together", "it counts together")
        together = statuses(service, 15, at_once=1)
        return (alone, together) if all_logged(service).count("is away") == 1 else None


def test_without_a_redis_at_the_start_it_counts_alone_until_there_is_one():
    alone, together = in_time(alone_and_together)
    assert alone == {200: 10, 429: 5}
    assert together == {200: 10, 429: 5}, "the Redis that has come knows of none of them"


@contextmanager
def load(service: ServiceProcess) -> Iterator[None]:
    """Callers who ask without a pause meanwhile: none may be refused, or hang."""
    ended = threading.Event()
    seen: Counter[int] = Counter()
    slowest = [0.0]

    def ask() -> None:
        with httpx.Client(base_url=service.url, timeout=HUNG_S) as client:
            while not ended.is_set():
                start = time.perf_counter()
                seen[client.get(TABLE).status_code] += 1
                slowest[0] = max(slowest[0], time.perf_counter() - start)

    with ThreadPoolExecutor(3) as pool:
        callers = [pool.submit(ask) for _ in range(3)]
        try:
            yield
        finally:
            ended.set()
        for caller in callers:
            caller.result(HUNG_S)
    assert set(seen) == {200}
    assert seen[200] > 50
    assert slowest[0] < HUNG_S


def has_found_it_again(service: ServiceProcess) -> bool:
    """Whether every process that has missed the Redis counts in it again; asked for long enough, each looks for it."""
    answered = counters_of(service)
    missed, found = (service.errors.count(told) for told in ("is away", "answers again"))
    return answered == "together" and missed == found


def test_a_redis_that_goes_and_comes_under_load_stops_nobody(redis):
    with counting(redis, "--workers", "2", anonymous_limit="900000/hour") as service, load(service):
        until(lambda: counters_of(service) == "together", "it counts together")
        for take_away, give_back in ((redis.stop, redis.start), (redis.freeze, redis.thaw)):
            take_away()
            until(lambda: counters_of(service) == "alone", f"it counts alone after {take_away.__name__}")
            give_back()
            until(lambda: has_found_it_again(service), f"it counts together after {give_back.__name__}")
        until(lambda: service.errors.count("is away") >= 2, "both absences are told")


def told_of_a_refused_command(redis: RedisProcess) -> str | None:
    """The log of a service whose Redis refuses to count."""
    with counting(redis, anonymous_limit="900/hour") as service:
        redis.say("CONFIG SET maxmemory 1")
        assert statuses(service, 5) == Counter({200: 5})
        until(lambda: counters_of(service) == "alone", "it counts alone")
        told = all_logged(service)
    return None if "no answer in time" in told else told


def test_no_address_comes_into_the_log_with_a_command_that_the_redis_refuses():
    told = in_time(told_of_a_refused_command)
    assert "OutOfMemoryError" in told or "OOM" in told
    assert "127.0.0.1/" not in told
    assert "EVALSHA" not in told
