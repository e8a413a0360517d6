"""What is wrong with the piping of a manifold in whatever mode."""

from collections.abc import Iterator, Sequence
from itertools import chain

import rustworkx

from footvalve.answers.manifold_flaw import Flaw
from footvalve.answers.manifold_graph import Manifold, Setting, reached, way_graph
from footvalve.answers.manifold_isolation import PumpIsolation
from footvalve.answers.manifold_modes import ModeState
from footvalve.answers.manifold_wording import all_named, named, sentence

HOLDS_BACK = frozenset({"shutoff", "check", "pump", "tap", "relief"})
"""The kinds of elements that part a tank from a relief valve."""


def piping_flaws(
    manifold: Manifold, states: Sequence[ModeState], pumps: Sequence[PumpIsolation], unrelieved: Sequence[int]
) -> Iterator[Flaw]:
    """Everything that is wrong in whatever mode; `unrelieved` are the tanks without a relief valve."""
    yield from _nothing_delivers(manifold, states)
    yield from _unrelieved(manifold, states, unrelieved)
    yield from _unreachable(manifold)
    for pump in pumps:
        yield from _not_isolatable(manifold, pump)


def tanks_without_relief(manifold: Manifold) -> list[int]:
    """The tanks from which no relief valve is reached without a valve or pump between."""
    graph = rustworkx.PyGraph[None, None]()
    graph.add_nodes_from([None] * len(manifold.nodes))
    graph.add_edges_from_no_data(
        [(part.start, part.end) for part in manifold.parts if part.end is not None and part.kind not in HOLDS_BACK]
    )
    reliefs = {manifold.parts[relief].start for relief in manifold.of_kind("relief")}
    relieved: set[int] = set()
    for nodes in rustworkx.connected_components(graph):
        if not reliefs.isdisjoint(nodes):
            relieved |= nodes
    return [tank for tank in manifold.of_kind("tank") if manifold.parts[tank].start not in relieved]


def _nothing_delivers(manifold: Manifold, states: Sequence[ModeState]) -> Iterator[Flaw]:
    """Where no mode even tries; a mode whose running pump does not get water to the house is told by itself."""
    if any(state.setting.running for state in states):
        return
    pumps = tuple(manifold.of_kind("pump"))
    text = "No mode has a running pump that brings water from the source to the house"
    remedy = "have one run in at least one mode" if pumps else "fit a pump, and have it run in at least one mode"
    yield Flaw("nothing-delivers", "danger", f"{text}: {remedy}.", pumps)


def _unrelieved(manifold: Manifold, states: Sequence[ModeState], tanks: Sequence[int]) -> Iterator[Flaw]:
    drawn = set(chain.from_iterable(state.drawn_vessels for state in states))
    pressed = set(chain.from_iterable(chain.from_iterable(state.fed.values()) for state in states))
    for tank in tanks:
        where = "Fit one beside it"
        if tank in drawn:
            where = "Move it off the suction side, and fit one beside it there"
        if tank in drawn and manifold.parts[tank].start not in pressed:
            continue
        text = (
            f"{named(manifold, tank)} can burst: no relief valve is joined to it without a valve between. {where} "
            "that passes the pump's whole flow"
        )
        yield Flaw("no-relief-on-tank", "danger", sentence(text), (tank,))


def _unreachable(manifold: Manifold) -> Iterator[Flaw]:
    wet = _ever_wet(manifold)
    dry = tuple(number for number, part in enumerate(manifold.parts) if part.start not in wet and part.end not in wet)
    if dry:
        text = f"no water from the source ever gets to {all_named(manifold, dry)}: join them, or leave them out"
        yield Flaw("unreachable", "warning", sentence(text), dry)


def _ever_wet(manifold: Manifold) -> set[int]:
    """The nodes that water from the source gets to with all valves open. Where not even the house is among them, the
    ways are wrong, and only what is not joined to the source at all counts as dry."""
    setting = Setting("", frozenset(), frozenset(), frozenset(manifold.of_kind("tap")))
    wet = reached(way_graph(manifold, setting, possible=True), manifold.source)
    if manifold.house in wet:
        return wet
    joined = rustworkx.PyGraph[None, None]()
    joined.add_nodes_from([None] * len(manifold.nodes))
    joined.add_edges_from_no_data([(part.start, part.end) for part in manifold.parts if part.end is not None])
    return rustworkx.node_connected_component(joined, manifold.source)


def _not_isolatable(manifold: Manifold, pump: PumpIsolation) -> Iterator[Flaw]:
    if not pump.open_sides:
        return
    where = " and ".join(f"at its {side}" for side in pump.open_sides)
    text = f"{named(manifold, pump.pump)} cannot be taken out of the line: fit a shutoff valve {where}"
    yield Flaw("not-isolatable", "note", sentence(text), (pump.pump,))
