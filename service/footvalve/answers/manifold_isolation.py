"""Whether a pump can be taken out of the manifold while another one serves the house.

A pump is taken out with all that no shutoff valve parts from it; check valves are not relied on. The source is open
water: a pump that stands in it needs no shutoff valve on that side.
"""

from collections.abc import Iterator, Sequence
from functools import cache, cached_property, partial

import rustworkx
from msgspec import Struct

from footvalve.answers.manifold_delivery import delivery_without, unavoidable
from footvalve.answers.manifold_graph import Manifold
from footvalve.answers.manifold_modes import ModeState

Piping = rustworkx.PyGraph[None, int]


class PumpIsolation(Struct, frozen=True):
    """What becomes of the house while a pump is out: the shutoff valves around it, a mode that still serves the house,
    and which of its sides (`inlet`, `outlet`) lacks a shutoff valve."""

    pump: int
    valves: tuple[int, ...]
    served_in: str | None
    open_sides: tuple[str, ...]


class _Mode:
    """A mode that serves the house, and what of it is worked out only once it is asked for."""

    def __init__(self, state: ModeState) -> None:
        self.state = state
        self.passed = {passage.part for passage in state.delivery}
        self.on_the_way = {passage.end for passage in state.delivery}

    @cached_property
    def unavoidable(self) -> set[int]:
        """The nodes without which the mode cannot serve the house."""
        return unavoidable(self.state.ways)


class _Region(Struct, frozen=True):
    """Nodes that no shutoff valve parts from each other."""

    nodes: frozenset[int]
    valves: tuple[int, ...]


def isolations(manifold: Manifold, states: Sequence[ModeState]) -> list[PumpIsolation]:
    """For each pump, what becomes of the house while it is out."""
    pumps = manifold.of_kind("pump")
    unparted = _unparted(manifold)
    modes = [_Mode(state) for state in states if state.delivery]
    served = cache(partial(_mode_served_without, manifold, modes))
    found = []
    for pump, region in zip(pumps, _regions(manifold, unparted, pumps), strict=True):
        mode = served(region.nodes)
        sides = () if mode is not None else tuple(_open_sides(manifold, unparted, modes, pump))
        found.append(PumpIsolation(pump, region.valves, mode, sides))
    return found


def _unparted(manifold: Manifold) -> Piping:
    """The piping without shutoff valves and source, passed either way."""
    graph = Piping()
    graph.add_nodes_from([None] * len(manifold.nodes))
    graph.add_edges_from(
        [
            (part.start, part.end, number)
            for number, part in enumerate(manifold.parts)
            if part.end is not None and part.kind != "shutoff"
        ]
    )
    graph.remove_node(manifold.source)
    return graph


def _regions(manifold: Manifold, unparted: Piping, pumps: Sequence[int]) -> Iterator[_Region]:
    region_of: dict[int, frozenset[int]] = {}
    for component in rustworkx.connected_components(unparted):
        region_of.update(dict.fromkeys(component, frozenset(component)))
    valves: dict[frozenset[int], set[int]] = {}
    for valve in manifold.of_kind("shutoff"):
        for node in {manifold.parts[valve].start, manifold.outlet(valve)} - {manifold.source}:
            valves.setdefault(region_of[node], set()).add(valve)
    for pump in pumps:
        node = next(iter({manifold.parts[pump].start, manifold.outlet(pump)} - {manifold.source}))
        nodes = region_of[node]
        yield _Region(nodes, tuple(sorted(valves.get(nodes, ()))))


def _mode_served_without(manifold: Manifold, modes: Sequence[_Mode], nodes: frozenset[int]) -> str | None:
    """The name of a mode that serves the house though a region is out."""
    if manifold.house in nodes:
        return None
    for mode in modes:
        if nodes.isdisjoint(mode.on_the_way):
            return mode.state.setting.name
    for mode in modes:
        if nodes.isdisjoint(mode.unavoidable) and delivery_without(mode.state.ways, nodes):
            return mode.state.setting.name
    return None


def _open_sides(manifold: Manifold, unparted: Piping, modes: Sequence[_Mode], pump: int) -> Iterator[str]:
    """The sides of a pump on which nothing parts it from the house, or from a way to the house past it."""
    in_use = {manifold.house}
    in_use.update(*(mode.on_the_way for mode in modes if pump not in mode.passed))
    start, end = manifold.parts[pump].start, manifold.outlet(pump)
    graph = unparted.copy()
    graph.remove_edges_from([(start, end)] if graph.has_edge(start, end) else [])
    for side, node in (("inlet", start), ("outlet", end)):
        if node != manifold.source and not in_use.isdisjoint(rustworkx.node_connected_component(graph, node)):
            yield side
