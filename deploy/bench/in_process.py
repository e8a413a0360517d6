"""What decoding, answering and encoding take in one process, without HTTP, and how that grows with a line.

    .venv/bin/python deploy/bench/in_process.py [--rounds 15] [--json FILE]

Times are of the process's own CPU, in microseconds: the least mean of a few hundred calls in so many rounds, so that
what else the machine does hardly shows. `decode` and `encode` are as the service does them, `answer` has the ranges,
the answer and its uncertainties. `shares` is decode and encode over the whole: what a handler that reckons nothing
would take of it. The fit is of the time of an answer over the number of parts, from 10 to 1,000.
"""

import argparse
import gc
import json
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import correlation, linear_regression
from time import process_time
from typing import Any, Final, NamedTuple

from footvalve.answers.endpoints import ENDPOINTS, Endpoint
from footvalve.contract.examples import examples
from footvalve.web.answering import encoded
from footvalve.web.strict_decoding import strict_decoder

LEAST_SECONDS: Final = 0.02
"""What a round takes at least: far more than a tick of the clock."""

LENGTHS: Final = (10, 30, 100, 300, 1000)
"""Parts of the lines that the fit is made of."""

Body = dict[str, Any]

UNCERTAIN: Final = {
    ("depth_to_water",): 0.5,
    ("seasonal_fall",): 1.0,
    ("specific_capacity",): 0.2,
    ("flow",): 0.2,
    ("pump", "rated_suction_lift"): 0.5,
    ("site", "altitude"): 50.0,
}
"""Six inputs of the example of `suction-feasibility`, with their uncertainties in the units that they have there."""


class Case(NamedTuple):
    """One row of the table: an endpoint with the body of a request."""

    name: str
    endpoint: Endpoint
    body: Body

    @property
    def raw(self) -> bytes:
        """The body as it comes in."""
        return json.dumps(self.body).encode()


class Took(NamedTuple):
    """Microseconds of one call."""

    decode: float
    answer: float
    encode: float

    @property
    def whole(self) -> float:
        """All three."""
        return sum(self)


def main() -> None:
    """Measure and print."""
    options = _options()
    took = {case.name: measured(case, options.rounds) for case in cases()}
    print(_table(took))
    fits = [fit(name, case, options.rounds) for name, case in long_lines().items()]
    print("\n" + "\n".join(fits))
    if options.json:
        options.json.write_text(json.dumps({name: row._asdict() for name, row in took.items()}, indent=1) + "\n")


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--rounds", type=int, default=15, help="rounds of which the fastest counts")
    parser.add_argument("--json", type=Path, help="a file for the figures")
    return parser.parse_args()


def cases() -> Iterator[Case]:
    """The first example of each endpoint, and what asks more of some."""
    for endpoint in ENDPOINTS:
        first, *others = (example.request for example in examples(endpoint.name))
        yield Case(endpoint.name, endpoint, first)
        match endpoint.name:
            case "suction-feasibility":
                yield Case(f"{endpoint.name}, six uncertain", endpoint, with_uncertainties(first))
                yield Case(f"{endpoint.name}, limits", endpoint, {**first, "limits": True})
                yield Case(f"{endpoint.name}, infeasible, limits", endpoint, infeasible(first))
            case "friction":
                yield Case(f"{endpoint.name}, curve", endpoint, {**first, "flows": flows()})
            case "site-plan":
                recovering = next(body for body in others if "recovery" in json.dumps(body))
                yield Case(f"{endpoint.name}, recovery", endpoint, recovering)


def with_uncertainties(body: Body) -> Body:
    """The body of the example with an uncertainty at six inputs."""
    changed: Body = json.loads(json.dumps(body))
    for path, uncertainty in UNCERTAIN.items():
        at = changed
        for key in path:
            at = at[key]
        at["uncertainty"] = uncertainty
    return changed


def infeasible(body: Body) -> Body:
    """The body of the example with the water too deep, and the levers asked for."""
    return {**body, "depth_to_water": {"value": 26, "unit": "ft"}, "limits": True}


def flows() -> list[Body]:
    """Ten flows for a curve."""
    return [{"value": float(flow), "unit": "gal/min"} for flow in range(1, 11)]


def measured(case: Case, rounds: int) -> Took:
    """The three times of a case."""
    decode, raw = strict_decoder(case.endpoint.request), case.raw
    request = decode(raw)
    answer = case.endpoint(request)
    return Took(
        fastest(lambda: decode(raw), rounds),
        fastest(lambda: case.endpoint(request), rounds),
        fastest(lambda: encoded(answer), rounds),
    )


def fastest(call: Callable[[], object], rounds: int) -> float:
    """Microseconds of a call in the fastest round."""
    calls = 1
    while (spent := _seconds(call, calls)) < LEAST_SECONDS:
        calls = max(2 * calls, int(1.2 * calls * LEAST_SECONDS / max(spent, 1e-6)))
    return 1e6 / calls * min(_seconds(call, calls) for _ in range(rounds))


def _seconds(call: Callable[[], object], calls: int) -> float:
    gc.collect()
    start = process_time()
    for _ in range(calls):
        call()
    return process_time() - start


def long_lines() -> dict[str, Callable[[int], Case]]:
    """For some endpoints the case of a line of so many parts."""
    by_name = {endpoint.name: endpoint for endpoint in ENDPOINTS}

    def case(name: str, length: int) -> Case:
        body = examples(name)[0].request
        parts: Any = body["line"]
        inner = [part for part in parts if part["part"] != "pipe"] + [{**_level(parts), "part": "pipe"}]
        *_, last = (part for part in parts if part["part"] == "pipe")
        line = [inner[index % len(inner)] for index in range(length - 1)] + [last]
        return Case(name, by_name[name], {**body, "line": line})

    def named(name: str) -> Callable[[int], Case]:
        return lambda length: case(name, length)

    return {name: named(name) for name in ("friction", "suction-feasibility")}


def _level(parts: list[Body]) -> Body:
    """A short pipe that ends nowhere in particular."""
    pipe = next(part for part in parts if part["part"] == "pipe")
    short = {"length": {"value": 1.0, "unit": "ft"}}
    return {key: value for key, value in pipe.items() if key != "end_elevation"} | short


def fit(name: str, case: Callable[[int], Case], rounds: int) -> str:
    """A straight line through the times of answers over the parts, in words."""
    took = [measured(case(length), max(1, rounds // 5)).answer for length in LENGTHS]
    slope, start = linear_regression(LENGTHS, took)
    squared = correlation(LENGTHS, took) ** 2
    times = ", ".join(f"{length}: {time:.0f}" for length, time in zip(LENGTHS, took, strict=True))
    return f"{name}: {start:.0f} + {slope:.2f} us a part, R^2 {squared:.5f} ({times})"


def _table(took: dict[str, Took]) -> str:
    rows = ["| body | decode | answer | encode | whole | shares |", "|---|--:|--:|--:|--:|--:|"]
    for name, row in took.items():
        figures = " | ".join(f"{time:.1f}" for time in (*row, row.whole))
        rows.append(f"| {name} | {figures} | {(row.decode + row.encode) / row.whole:.2f} |")
    return "\n".join(rows)


if __name__ == "__main__":
    main()
