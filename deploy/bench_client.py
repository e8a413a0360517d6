"""How much a call by the client takes over one by bare httpx, and how long the client takes to import.

    .venv/bin/python deploy/bench_client.py [--blocks 20] [--calls 50]

The service is started for the while, as a process of its own on a free port of 127.0.0.1. Three kinds of call take
turns, call by call, so that whatever else the machine does slows all alike:

    bare    httpx posts bytes that were made before, and msgspec decodes the answer to a dict
    struct  the client takes a request Struct that was made before, and gives a typed answer
    fields  the client takes keyword arguments with quantities as text, and gives a typed answer

`wall` is the median of a call, `cpu` that of what this process spends on it; `over bare` is the ratio of medians of
wall time in a block of calls: the median of the blocks, and between which lie half of them. Exits with 1 where a ratio
passes 1.3, or an import takes more than 100 ms.
"""

import argparse
import asyncio
import subprocess
import sys
import time
from collections.abc import Awaitable, Callable
from statistics import median, quantiles
from typing import Any, Final, NamedTuple

import httpx
import msgspec
from running_service import running_service

from footvalve_client import AsyncFootvalve, Footvalve, FrictionRequest, SuctionFeasibilityRequest

MOST_RATIO: Final = 1.3
MOST_IMPORT_MS: Final = 100.0
IMPORTS: Final = 15

_BY_1_INCH: Final = {"part": "pipe", "size": {"product": "pe-sidr-15", "nominal": "1"}}
_LINE: Final[list[dict[str, Any]]] = [
    {"part": "valve", "valve": "foot-valve-poppet"},
    {**_BY_1_INCH, "name": "drop pipe", "length": "40 ft", "end_elevation": "-4 ft"},
    {"part": "fitting", "fitting": "elbow-90", "count": 3},
    {**_BY_1_INCH, "name": "line to the shed", "length": "60 ft", "end_elevation": "2 ft"},
]
FIELDS: Final[dict[str, dict[str, Any]]] = {
    "friction": {"flow": "5 gal/min", "line": _LINE},
    "suction-feasibility": {
        "depth_to_water": "16 ft",
        "drawdown": "2 ft",
        "flow": "3 gal/min",
        "pump": {"style": "rotary", "inlet_elevation": "2 ft", "rated_suction_lift": "25 ft"},
        "line": _LINE,
    },
}
STRUCTS: Final = {"friction": FrictionRequest, "suction-feasibility": SuctionFeasibilityRequest}
JSON: Final = {"content-type": "application/json"}


class Took(NamedTuple):
    """Seconds of one call, by the clock and of this process."""

    wall: float
    cpu: float


Block = dict[str, list[Took]]
"""What each call of a block took, by its kind."""


def blocking(url: str, endpoint: str, blocks: int, calls: int) -> list[Block]:
    """Blocks of calls with clients that block."""
    request = STRUCTS[endpoint](**FIELDS[endpoint])
    body = msgspec.json.encode(request)
    with httpx.Client() as http, Footvalve(url) as service:
        ask: Callable[..., object] = getattr(service, endpoint.replace("-", "_"))
        kinds: dict[str, Callable[[], object]] = {
            "bare": lambda: msgspec.json.decode(http.post(f"{url}/v1/{endpoint}", content=body, headers=JSON).content),
            "struct": lambda: ask(request),
            "fields": lambda: ask(**FIELDS[endpoint]),
        }
        return [_block(kinds, calls) for _ in range(blocks)]


def _block(kinds: dict[str, Callable[[], object]], calls: int) -> Block:
    block: Block = {kind: [] for kind in kinds}
    for turn in range(calls):
        for kind in _in_turn(list(kinds), turn):
            wall, cpu = time.perf_counter(), time.process_time()
            kinds[kind]()
            block[kind].append(Took(time.perf_counter() - wall, time.process_time() - cpu))
    return block


async def awaited(url: str, endpoint: str, blocks: int, calls: int) -> list[Block]:
    """Blocks of calls with clients that are awaited."""
    request = STRUCTS[endpoint](**FIELDS[endpoint])
    body = msgspec.json.encode(request)
    async with httpx.AsyncClient() as http, AsyncFootvalve(url) as service:
        ask: Callable[..., Awaitable[object]] = getattr(service, endpoint.replace("-", "_"))

        async def bare() -> object:
            response = await http.post(f"{url}/v1/{endpoint}", content=body, headers=JSON)
            return msgspec.json.decode(response.content)

        kinds: dict[str, Callable[[], Awaitable[object]]] = {
            "bare": bare,
            "struct": lambda: ask(request),
            "fields": lambda: ask(**FIELDS[endpoint]),
        }
        return [await _block_awaited(kinds, calls) for _ in range(blocks)]


async def _block_awaited(kinds: dict[str, Callable[[], Awaitable[object]]], calls: int) -> Block:
    block: Block = {kind: [] for kind in kinds}
    for turn in range(calls):
        for kind in _in_turn(list(kinds), turn):
            wall, cpu = time.perf_counter(), time.process_time()
            await kinds[kind]()
            block[kind].append(Took(time.perf_counter() - wall, time.process_time() - cpu))
    return block


def _in_turn(kinds: list[str], turn: int) -> list[str]:
    """The kinds, each turn another first, so that none always follows the same."""
    first = turn % len(kinds)
    return kinds[first:] + kinds[:first]


def told(name: str, blocks: list[Block]) -> bool:
    """Print a line for each kind of call. Whether the client keeps to what it may take."""
    kept = True
    for kind in blocks[0]:
        every = [took for block in blocks for took in block[kind]]
        wall, cpu = (1e6 * median(column) for column in zip(*every, strict=True))
        ratios = [_wall(block[kind]) / _wall(block["bare"]) for block in blocks]
        low, ratio, high = quantiles(ratios, n=4)
        over = f"{ratio:.2f} ({low:.2f} to {high:.2f})" if kind != "bare" else ""
        print(f"{name:<29}{kind:<8}{wall:>6.0f} us wall{cpu:>6.0f} us cpu   {over}".rstrip())
        kept = kept and ratio <= MOST_RATIO
    return kept


def _wall(calls: list[Took]) -> float:
    return median(took.wall for took in calls)


def imports() -> bool:
    """Print what an import takes in a process of its own. Whether the client keeps to what it may take."""
    programs = {
        "httpx": "import httpx",
        "footvalve_client": "import footvalve_client",
        "and a client with httpx": "from footvalve_client import Footvalve; Footvalve('http://127.0.0.1')",
    }
    took = {name: [_import_ms(program) for _ in range(IMPORTS)] for name, program in programs.items()}
    for name, milliseconds in took.items():
        print(f"import {name:<28}{median(milliseconds):>6.0f} ms ({min(milliseconds):.0f} to {max(milliseconds):.0f})")
    return median(took["footvalve_client"]) <= MOST_IMPORT_MS


def _import_ms(program: str) -> float:
    timed = f"import time; begin = time.perf_counter(); {program}; print(1000 * (time.perf_counter() - begin))"
    return float(subprocess.run([sys.executable, "-c", timed], capture_output=True, text=True, check=True).stdout)


def main() -> int:
    """Print all of it; 1 where the client takes more than it may."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--blocks", type=int, default=20, help="blocks of calls, two or more (default: %(default)s)")
    parser.add_argument("--calls", type=int, default=50, help="calls of each kind in a block (default: %(default)s)")
    asked = parser.parse_args()
    kept = [imports()]
    with running_service() as url:
        for endpoint in FIELDS:
            blocking(url, endpoint, 1, asked.calls)
            kept.append(told(endpoint, blocking(url, endpoint, asked.blocks, asked.calls)))
            blocks = asyncio.run(awaited(url, endpoint, asked.blocks, asked.calls))
            kept.append(told(f"{endpoint}, awaited", blocks))
    return int(not all(kept))


if __name__ == "__main__":
    sys.exit(main())
