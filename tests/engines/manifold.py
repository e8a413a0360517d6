"""Arrangements of pipes, valves and pumps through the answer of `manifold-check`, against networkx."""

import random
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from typing import Any

import networkx

from engines.asking import ask
from engines.comparison import Comparison, compared

NODES = ["well", "a", "b", "c", "d", "house"]
KINDS = ["pipe", "pipe", "check", "check", "shutoff", "pump", "pump", "strainer", "tap"]
COUNT = 400
ENGINE = "networkx"


def _arrangement(draw: random.Random) -> dict[str, Any]:
    """Up to twelve elements between six nodes with a line from well to house, and two modes."""
    line = ["well", *draw.sample(NODES[1:-1], draw.randint(0, 3)), "house"]
    ends = [*pairwise(line), *(tuple(draw.sample(NODES, 2)) for _ in range(draw.randint(0, 8)))]
    kinds = [draw.choice(KINDS) for _ in ends]
    kinds[draw.randrange(len(line) - 1)] = "pump"
    elements = [
        {"id": f"e{place}", "kind": kind, "from": start, "to": end}
        | ({"blocks_when_idle": True} if kind == "pump" and draw.random() < 0.25 else {})
        for place, (kind, (start, end)) in enumerate(zip(kinds, ends, strict=True))
    ]
    modes = [_mode(draw, elements, name) for name in ("one", "other")]
    return {"nodes": NODES, "elements": elements, "source": "well", "house": "house", "modes": modes}


def _mode(draw: random.Random, elements: list[dict[str, Any]], name: str) -> dict[str, Any]:
    def some(kind: str, least: int) -> list[str]:
        ids = [item["id"] for item in elements if item["kind"] == kind]
        return draw.sample(ids, draw.randint(min(least, len(ids)), len(ids)))

    return {"name": name, "running": some("pump", 1)[:2], "closed": some("shutoff", 0), "open": some("tap", 0)}


def _passable(body: dict[str, Any], mode: dict[str, Any], *, possible: bool, stopped: bool = False) -> networkx.Graph:
    """The ways that the water can take: the sure ones, or also those back through a pump that stands still."""
    graph = networkx.MultiDiGraph()
    graph.add_nodes_from(NODES)
    for item in body["elements"]:
        there, back = (item["from"], item["to"], item["id"]), (item["to"], item["from"], item["id"])
        runs = item["id"] in mode["running"] and not stopped
        match item["kind"]:
            case "check":
                ways = [there]
            case "tap":
                ways = [there] if item["id"] in mode["open"] else []
            case "shutoff":
                ways = [] if item["id"] in mode["closed"] else [there, back]
            case "pump" if runs:
                ways = [there]
            case "pump" if item.get("blocks_when_idle"):
                ways = []
            case "pump":
                ways = [there, back] if possible else [there]
            case _:
                ways = [there, back]
        graph.add_edges_from(ways)
    return graph


def _pumps(body: dict[str, Any], mode: dict[str, Any]) -> list[dict[str, Any]]:
    return [item for item in body["elements"] if item["id"] in mode["running"]]


def _expected(body: dict[str, Any], mode: dict[str, Any]) -> dict[str, bool]:
    """Whether a way from well to house, passing no node twice, leads through a running pump; whether a pump's water
    comes round to its inlet; whether a pump's inlet is cut off from the well; whether the house drains into the well
    once the pumps stand still."""
    sure = _passable(body, mode, possible=False)
    loose = _passable(body, mode, possible=True)
    still = _passable(body, mode, possible=True, stopped=True)
    ways = networkx.all_simple_edge_paths(sure, "well", "house")
    return {
        "delivers": any(edge[2] in mode["running"] for way in ways for edge in way),
        "recirculates": any(networkx.has_path(loose, pump["to"], pump["from"]) for pump in _pumps(body, mode)),
        "runs_dry": any(not networkx.has_path(sure, "well", pump["from"]) for pump in _pumps(body, mode)),
        "drains_back": networkx.has_path(still, "house", "well"),
    }


@cache
def _modes() -> list[tuple[Any, dict[str, bool], dict[str, Any]]]:
    draw = random.Random(1736)
    found = []
    for number in range(COUNT):
        body = _arrangement(draw)
        for mode, outcome in zip(body["modes"], ask("manifold-check", body).modes, strict=True):
            found.append((outcome, _expected(body, mode), {"arrangement": number, "mode": mode["name"]}))
    return found


def _disagreements(*questions: str) -> Iterator[tuple[float, dict[str, Any]]]:
    for outcome, expected, at in _modes():
        for question in questions:
            yield float(bool(getattr(outcome, question)) != expected[question]), {"question": question, **at}


def reach() -> Comparison:
    """Whether water gets where it should is yes or no: they agree in every mode."""
    found = _disagreements("delivers", "runs_dry")
    return compared("manifold: water gets there", ENGINE, found, bound=0.0, unit="wrong")


def rounds() -> Comparison:
    """Whether water goes round or runs back is yes or no: they agree in every mode."""
    found = _disagreements("recirculates", "drains_back")
    return compared("manifold: goes round, runs back", ENGINE, found, bound=0.0, unit="wrong")
