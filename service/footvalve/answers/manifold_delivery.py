"""The way on which a running pump brings water from the source to the house.

The graph has two floors, one for water before it has passed a running pump and one for water behind it: a running pump
leads up. The shortest way from the source below to the house above may pass a node on both floors. Then it is sought
again twice, without that node below and without it above, for a way that passes no node twice has it on one at most.
"""

from collections.abc import Iterable

import rustworkx

from footvalve.answers.manifold_graph import (
    TURNED_CHECK_COST,
    Manifold,
    Passage,
    Setting,
    Way,
    WayGraph,
    cheapest_way,
)
from footvalve.answers.manifold_ways import Ways

MOST_NODES_SEARCHED = 20_000
"""Whether a way through a given pump exists that passes no node twice is a problem without a quick solution for every
graph (two disjoint paths). Real manifolds take one to three searches. A tangle for which all searches together would
look at more nodes than these counts as not delivering, which is the side on which nobody is left without water."""


def delivery(ways: Ways) -> Way:
    """The likeliest way from source to house through a running pump; empty for none."""
    return _way_up(ways.manifold, ways.setting, ways.floors)


def delivery_without(ways: Ways, nodes: Iterable[int]) -> Way:
    """The same with some nodes taken out."""
    floor = len(ways.manifold.nodes)
    out = [node + up for node in nodes for up in (0, floor)]
    return _way_up(ways.manifold, ways.setting, _without(ways.floors, out))


def delivery_by_turning(ways: Ways) -> Way:
    """The same where check valves may be turned about, as few as can be: theirs are the passages that cost the most."""
    manifold = ways.manifold
    checks = ((number, manifold.parts[number]) for number in manifold.of_kind("check"))
    against = [Passage(manifold.outlet(n), part.start, n, TURNED_CHECK_COST) for n, part in checks]
    return _way_up(manifold, ways.setting, ways.floors_with(against))


def unavoidable(ways: Ways) -> set[int]:
    """Nodes that no way from the source to the house above avoids; empty where there is no such way at all."""
    manifold, floor = ways.manifold, len(ways.manifold.nodes)
    dominator = rustworkx.immediate_dominators(ways.floors, manifold.source)
    node, found = floor + manifold.house, set()
    while node in dominator and node != manifold.source:
        found.add(node % floor)
        node = dominator[node]
    return found


def _way_up(manifold: Manifold, setting: Setting, floors: WayGraph) -> Way:
    floor = len(manifold.nodes)
    pending: list[frozenset[int]] = [frozenset()]
    searches = MOST_NODES_SEARCHED // floor if setting.running else 0
    while pending and searches:
        searches -= 1
        barred = pending.pop()
        graph = _without(floors, barred) if barred else floors
        way = cheapest_way(graph, manifold.source, floor + manifold.house)
        twice = _node_on_both_floors(way or (), setting)
        if twice is not None:
            pending += [barred | {twice}, barred | {floor + twice}]
        elif way:
            return way
    return ()


def _without(graph: WayGraph, nodes: Iterable[int]) -> WayGraph:
    rest = graph.copy()
    rest.remove_nodes_from(list(nodes))
    return rest


def _node_on_both_floors(way: Way, setting: Setting) -> int | None:
    up = next((place for place, passage in enumerate(way) if passage.part in setting.running), len(way))
    below = {passage.start for passage in way[: up + 1]}
    return next((passage.end for passage in way[up:] if passage.end in below), None)
