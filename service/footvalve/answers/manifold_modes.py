"""Where the water goes in one mode of a manifold: to the house, round in a loop, against a closed end, or back."""

from collections.abc import Sequence
from itertools import chain

from msgspec import Struct

from footvalve.answers.manifold_delivery import delivery
from footvalve.answers.manifold_graph import (
    Manifold,
    Passage,
    Setting,
    Way,
    WayGraph,
    cheapest_way,
    circuits,
    reached,
    reaching,
    way_graph,
)
from footvalve.answers.manifold_ways import Ways


class ModeState(Struct, frozen=True, eq=False):
    """What a mode does. Parts and nodes go by their numbers.

    `fed` holds, for each running pump, the nodes that its water reaches by sure ways; the source ends them. `suction`
    holds the nodes on the suction side. `starved` are the running pumps to whose inlets the source's water does not get
    by sure ways, and `drawn_vessels` the tanks and relief valves under vacuum. `looping` are the pumps whose water can
    come back to their inlets, and `loops` the ways on which it does, each once, from the pump on, the shortest first.
    `unheld` is a way by which water runs back from a pump's inlet under vacuum once a leak lets air in there.
    """

    ways: Ways
    delivery: Way
    fed: dict[int, set[int]]
    looping: frozenset[int]
    loops: tuple[Way, ...]
    deadheads: tuple[int, ...]
    starved: tuple[int, ...]
    drain: Way
    unheld: Way
    suction: frozenset[int]
    air_taps: tuple[int, ...]
    drawn_vessels: tuple[int, ...]

    @property
    def setting(self) -> Setting:
        """Which pumps run, which valves are closed, which taps are open."""
        return self.ways.setting


def mode_state(manifold: Manifold, setting: Setting) -> ModeState:
    """What a mode of the manifold does."""
    ways = Ways(manifold, setting)
    way = delivery(ways)
    fed = _fed(ways)
    circuit = circuits(ways.possible)
    looping = _looping(manifold, setting, circuit)
    suction = _suction_side(ways, fed, _pressure_side(manifold, circuit, fed, way))
    standing = way_graph(manifold, setting.stopped, possible=True)
    return ModeState(
        ways=ways,
        delivery=way,
        fed=fed,
        looping=looping,
        loops=tuple(_loops(ways, looping)),
        deadheads=_deadheads(manifold, setting, fed),
        starved=_starved(ways),
        drain=_drain_back(manifold, standing),
        unheld=_unheld(manifold, setting, standing, suction),
        suction=suction,
        air_taps=tuple(tap for tap in sorted(setting.open) if manifold.parts[tap].start in suction),
        drawn_vessels=_drawn_vessels(manifold, suction.difference(*fed.values())),
    )


def looping_pumps(manifold: Manifold, setting: Setting) -> frozenset[int]:
    """The running pumps whose water can come back to their inlets."""
    return _looping(manifold, setting, circuits(way_graph(manifold, setting, possible=True)))


def _drain_back(manifold: Manifold, standing: WayGraph) -> Way:
    """The way by which water runs back to the source from the house or a tank once the pumps stop; empty for none."""
    tanks = {manifold.parts[tank].start for tank in manifold.of_kind("tank")}
    return _way_back(manifold, standing, [manifold.house, *sorted(tanks - {manifold.source, manifold.house})])


def _unheld(manifold: Manifold, setting: Setting, standing: WayGraph, suction: frozenset[int]) -> Way:
    """The way by which water runs back to the source from the inlet of a running pump, under vacuum, once the pumps
    stop and a leak lets air in: a check behind the pump holds it no longer. Empty for none."""
    inlets = sorted({manifold.parts[pump].start for pump in setting.running} & suction)
    return _way_back(manifold, standing, inlets) if inlets else ()


def _way_back(manifold: Manifold, standing: WayGraph, starts: Sequence[int]) -> Way:
    """The likeliest way to the source from one of some nodes, by the ways while the pumps stand still."""
    above = standing.add_node(None)
    standing.add_edges_from([(above, node, Passage(above, node, -1)) for node in starts])
    way = cheapest_way(standing, above, manifold.source)
    return way[1:] if way else ()


def _fed(ways: Ways) -> dict[int, set[int]]:
    graph = ways.sure.copy()
    for edge in graph.out_edge_indices(ways.manifold.source):
        graph.remove_edge_from_index(edge)
    return {pump: reached(graph, ways.manifold.outlet(pump)) for pump in sorted(ways.setting.running)}


def _looping(manifold: Manifold, setting: Setting, circuit: Sequence[int]) -> frozenset[int]:
    return frozenset(
        pump for pump in setting.running if circuit[manifold.parts[pump].start] == circuit[manifold.outlet(pump)]
    )


def _loops(ways: Ways, looping: frozenset[int]) -> list[Way]:
    loops: dict[frozenset[int], Way] = {}
    for pump in sorted(looping):
        inlet, outlet = ways.manifold.parts[pump].start, ways.manifold.outlet(pump)
        loop = (Passage(inlet, outlet, pump), *(cheapest_way(ways.possible, outlet, inlet) or ()))
        loops.setdefault(frozenset(passage.part for passage in loop), loop)
    return sorted(loops.values(), key=len)


def _deadheads(manifold: Manifold, setting: Setting, fed: dict[int, set[int]]) -> tuple[int, ...]:
    outlets = {manifold.house, manifold.source}
    outlets |= {manifold.parts[part].start for part in chain(setting.open, manifold.of_kind("relief"))}
    return tuple(pump for pump in sorted(setting.running) if outlets.isdisjoint(fed[pump]))


def _starved(ways: Ways) -> tuple[int, ...]:
    parts, wet = ways.manifold.parts, reached(ways.sure, ways.manifold.source)
    return tuple(pump for pump in sorted(ways.setting.running) if parts[pump].start not in wet)


def _drawn_vessels(manifold: Manifold, drawn: frozenset[int]) -> tuple[int, ...]:
    """Tanks and relief valves at nodes under vacuum, to which no pump's water comes round either."""
    return tuple(
        number
        for number, part in enumerate(manifold.parts)
        if (part.kind in {"tank", "relief"} and part.start in drawn) or (part.kind == "tank" and part.end in drawn)
    )


def _pressure_side(manifold: Manifold, circuit: Sequence[int], fed: dict[int, set[int]], way: Way) -> set[int]:
    first = next((place for place, passage in enumerate(way) if passage.part in fed), len(way))
    nodes = {passage.end for passage in way[first:]}
    for pump, fed_nodes in fed.items():
        inlet = circuit[manifold.parts[pump].start]
        nodes |= {node for node in fed_nodes if circuit[node] != inlet}
    return nodes - {manifold.source}


def _suction_side(ways: Ways, fed: dict[int, set[int]], pressure_side: set[int]) -> frozenset[int]:
    outside = pressure_side | {ways.manifold.source}
    inlets = {ways.manifold.parts[pump].start for pump in fed} - outside
    if not inlets:
        return frozenset()
    drawn = ways.possible.copy()
    drawn.remove_nodes_from(list(outside))
    return frozenset(chain.from_iterable(reaching(drawn, inlet) for inlet in inlets))
