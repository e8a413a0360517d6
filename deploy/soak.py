"""Half a million mixed requests, and twenty thousand connections in turn: what of the service grows meanwhile?

    python deploy/soak.py [--requests 500000] [--connections 20000] [--workers 1]

Starts the service, asks it every example of every endpoint, its tables and pages, and what it must refuse; then opens
and closes connections in every manner. Tells how memory and open descriptors went, and ends with 1 where memory grew by
5 % or more after the first tenth of the requests, or a descriptor was left open.
"""

import argparse
import asyncio
import json
import os
import re
import signal
import socket
import statistics
import struct
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from itertools import cycle
from pathlib import Path

import httptools

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.examples import examples

CALLERS = 8
SAMPLES = 50
GROWTH_ALLOWED = 0.05
PATIENCE_S = 60


@dataclass(frozen=True)
class Service:
    """A service that runs: its port, and the processes that answer."""

    port: int
    pids: list[int]

    def memory(self) -> float:
        """What its processes hold in memory, in MB; each counts pages that it shares with others as its own."""
        states = (Path(f"/proc/{pid}/status").read_text() for pid in self.pids)
        return sum(int(re.search(r"^VmRSS:\s+(\d+) kB", state, re.MULTILINE)[1]) for state in states) / 1000

    def descriptors(self) -> int:
        """How many descriptors its processes have open."""
        return sum(len(os.listdir(f"/proc/{pid}/fd")) for pid in self.pids)


@contextmanager
def running(workers: int) -> Iterator[Service]:
    """A service for the while."""
    command = [Path(sys.executable).with_name("footvalve"), "serve", "--port", "0", "--workers", str(workers)]
    environment = os.environ | {"FOOTVALVE_DRAIN_SECONDS": "0", "FOOTVALVE_LOG_REQUESTS": "all"}
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, env=environment
    ) as process:
        try:
            assert process.stdout is not None
            port = int(process.stdout.readline().rpartition(":")[2])
            alive(port)
            yield Service(port, answering(process.pid, workers))
        finally:
            process.send_signal(signal.SIGTERM)


def answering(pid: int, workers: int) -> list[int]:
    """The processes that answer: the workers, or with one worker the process itself."""
    if workers == 1:
        return [pid]
    give_up = time.monotonic() + PATIENCE_S
    while time.monotonic() < give_up:
        children = [int(child) for child in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]
        if len(children) == workers:
            return children
        time.sleep(0.1)
    raise SystemExit(f"soak: there are not {workers} workers")


def requests() -> list[bytes]:
    """Each kind of what is answered and what is refused; the cheap ones five times, as much as the dear ones cost."""
    bodies = [(endpoint.name, example.request) for endpoint in ENDPOINTS for example in examples(endpoint.name)]
    posts = [post(f"/v1/{name}", json.dumps(body).encode()) for name, body in bodies]
    items = [{"id": str(place), "endpoint": name, "body": body} for place, (name, body) in enumerate(bodies[:12])]
    read = [b"/live", b"/ready", b"/", b"/openapi.json", b"/v1/tables/fittings", b"/demo", b"/problems/schema"]
    refused = [
        post("/v1/friction", b"{"),
        post("/v1/friction", b"{}"),
        post("/v1/friction", b"[" * 5_000),
        post("/v1/friction", b" " * 300_000),
        post("/v1/nothing", b"{}"),
        plain(b"DELETE", b"/live"),
        plain(b"GET", b"/live?query=1"),
    ]
    batch = post("/v1/batch", json.dumps({"items": items}).encode())
    cheap = [*(plain(b"GET", path) for path in read), plain(b"HEAD", b"/live"), *refused]
    return [*posts, batch, *cheap * 5]


def post(path: str, body: bytes) -> bytes:
    """A POST of JSON."""
    head = b"POST %b HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n"
    return head % (path.encode(), len(body)) + body


def plain(method: bytes, path: bytes) -> bytes:
    """A request without a body."""
    return b"%b %b HTTP/1.1\r\nHost: localhost\r\n\r\n" % (method, path)


class Caller(asyncio.Protocol):
    """Asks one request after another on one connection."""

    def __init__(self, left: Iterator[bytes], seen: Counter[int], over: asyncio.Future[None]) -> None:
        self.left, self.seen, self.over = left, seen, over

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin to ask."""
        self.transport = transport
        self.ask()

    def ask(self) -> None:
        """Send the next request; close where there is none."""
        request = next(self.left, None)
        if request is None:
            self.transport.close()
        elif request.startswith(b"HEAD"):
            self.parser = HeadAnswer(self)
            self.transport.write(request)
        else:
            self.parser = httptools.HttpResponseParser(self)
            self.transport.write(request)

    def data_received(self, data: bytes) -> None:
        """Read on."""
        self.parser.feed_data(data)

    def on_message_complete(self) -> None:
        """An answer is whole."""
        self.seen[self.parser.get_status_code()] += 1
        asyncio.get_running_loop().call_soon(self.ask)

    def connection_lost(self, *_: object) -> None:
        """Be done."""
        if not self.over.done():
            self.over.set_result(None)


class HeadAnswer:
    """Reads an answer to HEAD, which tells a length and has no body."""

    def __init__(self, caller: Caller) -> None:
        self.caller, self.read = caller, b""

    def feed_data(self, data: bytes) -> None:
        """Read on, to the end of the head."""
        self.read += data
        if self.read.endswith(b"\r\n\r\n"):
            self.caller.on_message_complete()

    def get_status_code(self) -> int:
        """The status of the answer."""
        return int(self.read[9:12])


async def asked(service: Service, number: int) -> tuple[Counter[int], list[float]]:
    """The answers to so many requests by status, and the memory from time to time."""
    seen: Counter[int] = Counter()
    memory = []
    every = cycle(requests())
    for _ in range(SAMPLES):
        await ask_some(service.port, (next(every) for _ in range(number // SAMPLES)), seen)
        memory.append(service.memory())
    return seen, memory


async def ask_some(port: int, some: Iterator[bytes], seen: Counter[int]) -> None:
    """Ask these requests on a few connections at once."""
    loop = asyncio.get_running_loop()
    ends = [loop.create_future() for _ in range(CALLERS)]
    for end in ends:
        await loop.create_connection(lambda end=end: Caller(some, seen, end), "127.0.0.1", port)
    await asyncio.gather(*ends)


def come_and_go(port: int, number: int) -> None:
    """Open and close so many connections, one after another."""
    whole = requests()[0]
    last = whole.replace(b"\r\n\r\n", b"\r\nConnection: close\r\n\r\n", 1)
    for place in range(number):
        with closing(socket.create_connection(("127.0.0.1", port), timeout=PATIENCE_S)) as connection:
            match place % 5:
                case 0:
                    connection.sendall(last)
                    read_to_the_end(connection)
                case 1:
                    connection.sendall(plain(b"GET", b"/live"))
                    connection.recv(65_536)
                case 2:
                    connection.sendall(whole[:-20])
                case 3:
                    connection.sendall(b"nonsense\r\n\r\n")
                    read_to_the_end(connection)
                case 4:  # closed with a reset
                    connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
                    connection.sendall(whole)
    alive(port)


def alive(port: int) -> None:
    """Wait for an answer to a sign of life."""
    with closing(socket.create_connection(("127.0.0.1", port), timeout=PATIENCE_S)) as connection:
        connection.sendall(b"GET /live HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
        read_to_the_end(connection)


def read_to_the_end(connection: socket.socket) -> None:
    """Read until the other side closes."""
    while connection.recv(65_536):
        pass


def grown(memory: list[float]) -> float:
    """By which part memory has grown from the first tenth on: medians of five readings at either end."""
    after_warm_up = memory[len(memory) // 10 :]
    first, last = statistics.median(after_warm_up[:5]), statistics.median(after_warm_up[-5:])
    print(f"memory from time to time, in MB: {', '.join(f'{held:.1f}' for held in memory)}")
    print(f"memory: {first:.1f} MB after the first tenth, {last:.1f} MB at the end, most {max(memory):.1f} MB")
    return last / first - 1


def main() -> int:
    """Run both, tell, and judge."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--requests", type=int, default=500_000, help="how many (default: %(default)s)")
    parser.add_argument("--connections", type=int, default=20_000, help="how many in turn (default: %(default)s)")
    parser.add_argument("--workers", type=int, default=1, help="processes of the service (default: %(default)s)")
    wanted = parser.parse_args()
    with running(wanted.workers) as service:
        start = time.monotonic()
        seen, memory = asyncio.run(asked(service, wanted.requests))
        print(f"{seen.total():,} requests in {time.monotonic() - start:.0f} s, by status: {dict(sorted(seen.items()))}")
        growth = grown(memory)
        print(f"grown by {growth:.1%}")
        come_and_go(service.port, 100)
        before = service.descriptors()
        come_and_go(service.port, wanted.connections)
        time.sleep(2)
        left_open = service.descriptors() - before
        print(f"{wanted.connections:,} connections in turn left {left_open} descriptors open (of {before})")
    failed = max(seen) >= 500 or growth >= GROWTH_ALLOWED or left_open > 0
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
