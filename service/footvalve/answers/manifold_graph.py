"""A manifold as a directed graph: nodes where elements meet, and the ways by which water passes each element.

Nothing is reckoned here but directions; no pressure has a number. What is held of pressures is this.

*The source* is open water, a well as a rule, that lies lower than the pipes. It can be drawn from and run back into,
but carries neither pressure nor vacuum from one pipe in it to another.

*Ways.* Pipes, strainers, open shutoff valves and the tees of tanks and gauges pass water both ways; a check valve and
a running pump only from `from` to `to`; an open tap only to what lies behind it; a relief valve not at all. A stopped
pump is doubtful: water is drawn or pressed through it from inlet to outlet, and runs back where no check valve
hinders it. One that `blocks_when_idle` passes nothing. So there are two graphs. The *sure* ways, without the way back
through stopped pumps, tell what serves: delivery, and what a pump's water gets to. The *possible* ways, with it, tell
what harms: water that goes round or runs back, air that is drawn in. A doubt falls on the side of harm both times.

*Delivery.* A pump serves the house where a way leads from the source through it to the house and passes no node twice:
water that comes back to a node before the pump has lost there what the pump gave it.

*The pressure side* of a mode is every node on that way behind its first running pump, and every node that a running
pump's water reaches by sure ways, unless it can come back from there to that pump's inlet: on such a loop suction and
pressure cannot be told apart.

*The suction side* is every node that is not on the pressure side, and from which a running pump draws by possible ways
that touch neither the pressure side nor the source. It stands under vacuum. A pump whose inlet is in the source, or on
another pump's pressure side, has none.

*Running dry.* A running pump to whose inlet no sure way leads from the source has no water to draw.

*Standing still.* Once the pumps stop, the water at the house and in the tanks is what still has pressure or height. It
runs back by any possible way to the source. The water on the suction side is held by the vacuum alone: where a possible
way leads from there to the source, any leak lets it run back.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import chain, pairwise
from operator import attrgetter

import rustworkx
from msgspec import Struct, structs

PLAIN_COST = 1.0
IDLE_PUMP_COST = 1e3
"""A way round a stopped pump is taken before one through it, if it is not a thousand elements longer."""
TURNED_CHECK_COST = 1e6
"""And any way before one for which a check valve has to be turned about."""

CHANGING = frozenset({"shutoff", "pump", "tap"})
"""The kinds of elements that a mode turns, starts or stops."""


class Passage(Struct, frozen=True):
    """Water passing one element from one node to another; a lesser cost is the likelier way."""

    start: int
    end: int
    part: int
    cost: float = PLAIN_COST


Way = tuple[Passage, ...]
Edge = tuple[int, int, Passage]
WayGraph = rustworkx.PyDiGraph[None, Passage]


class Part(Struct, frozen=True):
    """An element with its nodes by number; `onward` and `backward` tell which ways its build lets water pass."""

    id: str
    kind: str
    start: int
    end: int | None
    onward: bool = True
    backward: bool = True
    blocks_when_idle: bool = False


class Setting(Struct, frozen=True):
    """A mode: which pumps run, which shutoff valves are closed, which taps are open, by the numbers of the parts."""

    name: str
    running: frozenset[int]
    closed: frozenset[int]
    open: frozenset[int]

    @property
    def stopped(self) -> "Setting":
        """The same mode once its pumps have stopped."""
        return structs.replace(self, running=frozenset())


@dataclass(frozen=True)
class Manifold:
    """The piping, with nodes and parts by number."""

    nodes: tuple[str, ...]
    parts: tuple[Part, ...]
    source: int
    house: int

    def of_kind(self, kind: str) -> Sequence[int]:
        """The numbers of the parts of a kind."""
        return self._of_kinds.get(kind, ())

    @cached_property
    def _of_kinds(self) -> dict[str, list[int]]:
        kinds: dict[str, list[int]] = {}
        for number, part in enumerate(self.parts):
            kinds.setdefault(part.kind, []).append(number)
        return kinds

    def outlet(self, pump: int) -> int:
        """The node behind a pump."""
        end = self.parts[pump].end
        assert end is not None
        return end

    def turned(self, checks: Iterable[int]) -> "Manifold":
        """The same with some check valves turned about."""
        parts = list(self.parts)
        for number in checks:
            part = parts[number]
            parts[number] = structs.replace(part, onward=part.backward, backward=part.onward)
        return replace(self, parts=tuple(parts))

    def barred(self, passage: Passage) -> "Manifold":
        """The same with a check valve at an element, against this passage of it."""
        part = self.parts[passage.part]
        closed = {"onward": False} if passage.start == part.start else {"backward": False}
        changed = structs.replace(part, **closed)
        return replace(self, parts=(*self.parts[: passage.part], changed, *self.parts[passage.part + 1 :]))

    @cached_property
    def fixed_passages(self) -> tuple[Passage, ...]:
        """The passages that are there in every mode."""
        fixed = (number for number, part in enumerate(self.parts) if part.kind not in CHANGING | {"relief"})
        return tuple(chain.from_iterable(_passages(self, number, True, True, PLAIN_COST) for number in fixed))

    @cached_property
    def changing(self) -> tuple[int, ...]:
        """The parts whose passages depend on the mode."""
        return tuple(number for number, part in enumerate(self.parts) if part.kind in CHANGING)

    @cached_property
    def fixed_graph(self) -> WayGraph:
        """The graph of the passages that are there in every mode."""
        return graph_of(len(self.nodes), edges_of(self.fixed_passages))

    @cached_property
    def fixed_floors(self) -> WayGraph:
        """The same graph twice: nodes and passages once more, behind the first ones."""
        floor = len(self.nodes)
        twice = [
            edge
            for passage in self.fixed_passages
            for edge in (
                (passage.start, passage.end, passage),
                (floor + passage.start, floor + passage.end, passage),
            )
        ]
        return graph_of(2 * floor, twice)


def changing_passages(manifold: Manifold, setting: Setting, *, possible: bool = False) -> list[Passage]:
    """The passages that a mode opens besides the fixed ones, by sure ways or by possible ones."""
    found: list[Passage] = []
    for number in manifold.changing:
        part = manifold.parts[number]
        if part.kind == "shutoff":
            is_open = number not in setting.closed
            found += _passages(manifold, number, is_open, is_open, PLAIN_COST)
        elif part.kind == "tap":
            found += _passages(manifold, number, number in setting.open, False, PLAIN_COST)
        elif number in setting.running:
            found += _passages(manifold, number, True, False, PLAIN_COST)
        elif not part.blocks_when_idle:
            found += _passages(manifold, number, True, possible, IDLE_PUMP_COST)
    return found


def _passages(manifold: Manifold, number: int, onward: bool, backward: bool, cost: float) -> list[Passage]:
    """The passages of an element that is open onward and backward so far as its build allows."""
    part = manifold.parts[number]
    found: list[Passage] = []
    if part.end is None:
        return found
    if onward and part.onward:
        found.append(Passage(part.start, part.end, number, cost))
    if backward and part.backward:
        found.append(Passage(part.end, part.start, number, cost))
    return found


def edges_of(passages: Iterable[Passage]) -> list[Edge]:
    """The passages as the edges of a graph."""
    return [(passage.start, passage.end, passage) for passage in passages]


def graph_of(node_count: int, edges: Sequence[Edge]) -> WayGraph:
    """The graph of so many nodes and some edges."""
    graph = WayGraph()
    graph.add_nodes_from([None] * node_count)
    graph.add_edges_from(edges)
    return graph


def way_graph(manifold: Manifold, setting: Setting, *, possible: bool = False) -> WayGraph:
    """The graph of a mode's ways, the sure or the possible ones. It is the caller's to change."""
    graph = manifold.fixed_graph.copy()
    changing = changing_passages(manifold, setting, possible=possible)
    graph.add_edges_from(edges_of(changing))
    return graph


_cost: Callable[[Passage], float] = attrgetter("cost")
_cost_and_part: Callable[[Passage], tuple[float, int]] = attrgetter("cost", "part")


def cheapest_way(graph: WayGraph, start: int, end: int) -> Way | None:
    """The likeliest way between two nodes, or None where there is none."""
    if not (graph.has_node(start) and graph.has_node(end)):
        return None
    found = rustworkx.digraph_dijkstra_shortest_paths(graph, start, target=end, weight_fn=_cost)
    if end not in found:
        return None
    return tuple(min(graph.get_all_edge_data(a, b), key=_cost_and_part) for a, b in pairwise(found[end]))


def reached(graph: WayGraph, node: int) -> set[int]:
    """The node, and every node that water from there reaches."""
    return rustworkx.descendants(graph, node) | {node}


def reaching(graph: WayGraph, node: int) -> set[int]:
    """The node, and every node from which water reaches it."""
    return rustworkx.ancestors(graph, node) | {node}


def circuits(graph: WayGraph) -> list[int]:
    """For each node the number of its circuit: water can go round between nodes that have the same."""
    numbers = [0] * graph.num_nodes()
    for number, nodes in enumerate(rustworkx.strongly_connected_components(graph)):
        for node in nodes:
            numbers[node] = number
    return numbers
