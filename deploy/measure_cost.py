"""Hold the cost that is reckoned before a request is begun against the time that it takes.

Every case is asked of the endpoint itself, body to answer, in this process's own time. One unit is the time of the
first example of `suction-feasibility`, so that the table is the same on a fast and a slow machine. Where the answer
says that its chance was not drawn, the time is held against what is reckoned without drawing; `at most` has the draws
in it, and is what limits go by.

    python deploy/measure_cost.py [--worst] [endpoint ...]
"""

import argparse
import json
from time import thread_time

from cost_cases import Body, Case, cases, example

from footvalve.answers.chance import DRAWN_CHANCE
from footvalve.answers.cost import Cost
from footvalve.answers.endpoints import ENDPOINT
from footvalve.web.answering import answering
from footvalve.web.strict_decoding import strict_decoder

FACTOR = 2.0
"""By how much what is reckoned may be off, for the table to call it well reckoned."""


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("endpoints", nargs="*", help="only these")
    parser.add_argument("--worst", action="store_true", help="only what is reckoned badly")
    asked = parser.parse_args()
    unit = _seconds("suction-feasibility", example("suction-feasibility"))
    print(f"{'endpoint':20} {'case':42} {'at most':>9} {'reckoned':>9} {'measured':>9} {'reckoned/measured':>18}")
    ratios = []
    for case in cases():
        if asked.endpoints and case.endpoint not in asked.endpoints:
            continue
        cost, took = _cost(case), _seconds(case.endpoint, case.body) / unit
        reckoned = cost.units if _is_drawn(case) else cost.units - cost.drawing
        ratios.append(reckoned / took)
        if not asked.worst or not 1.0 / FACTOR <= ratios[-1] <= FACTOR:
            numbers = f"{cost.units:9.2f} {reckoned:9.2f} {took:9.2f} {ratios[-1]:18.2f}"
            print(f"{case.endpoint:20} {case.label:42} {numbers}", flush=True)
    low = sum(ratio < 1.0 / FACTOR for ratio in ratios)
    high = sum(ratio > FACTOR for ratio in ratios)
    print(f"\n{len(ratios)} cases; one unit took {1000.0 * unit:.2f} ms. {low} took more than {FACTOR:g} times what is")
    print(f"reckoned, {high} less than half; the ratios run from {min(ratios):.2f} to {max(ratios):.2f}.")


def _cost(case: Case) -> Cost:
    endpoint = ENDPOINT[case.endpoint]
    return endpoint.work(strict_decoder(endpoint.request)(_raw(case.body)))


def _is_drawn(case: Case) -> bool:
    endpoint = ENDPOINT[case.endpoint]
    answer = endpoint(strict_decoder(endpoint.request)(_raw(case.body)))
    return any(step.method == DRAWN_CHANCE.name for step in answer.basis)


def _seconds(name: str, body: Body) -> float:
    """The least of several runs; a long one is run once."""
    answer, raw = answering(ENDPOINT[name]), _raw(body)
    answer(raw)
    took, spent = [], 0.0
    while len(took) < 25 and spent < 0.2:
        start = thread_time()
        answer(raw)
        took.append(thread_time() - start)
        spent += took[-1]
    return min(took)


def _raw(body: Body) -> bytes:
    return json.dumps(body).encode()


if __name__ == "__main__":
    main()
