"""The ways of a manifold in one mode, as graphs: each is made once, when it is first asked for."""

from collections.abc import Iterable
from functools import cached_property

from footvalve.answers.manifold_graph import (
    Manifold,
    Passage,
    Setting,
    WayGraph,
    changing_passages,
    edges_of,
    way_graph,
)


class Ways:
    """The sure ways of a mode, the possible ones, and the floors on which delivery is sought. All that ask share the
    graphs: whoever changes one takes a copy."""

    def __init__(self, manifold: Manifold, setting: Setting) -> None:
        self.manifold = manifold
        self.setting = setting

    @cached_property
    def _changing(self) -> list[Passage]:
        return changing_passages(self.manifold, self.setting)

    @cached_property
    def sure(self) -> WayGraph:
        """What tells what serves."""
        graph = self.manifold.fixed_graph.copy()
        graph.add_edges_from(edges_of(self._changing))
        return graph

    @cached_property
    def possible(self) -> WayGraph:
        """What tells what harms."""
        return way_graph(self.manifold, self.setting, possible=True)

    @cached_property
    def floors(self) -> WayGraph:
        """The sure ways on two floors."""
        return self.floors_with(())

    def floors_with(self, more: Iterable[Passage]) -> WayGraph:
        """The same with more passages."""
        floor = len(self.manifold.nodes)
        edges = []
        for passage in (*self._changing, *more):
            start, end = passage.start, passage.end
            edges.append((start, floor + end if passage.part in self.setting.running else end, passage))
            edges.append((floor + start, floor + end, passage))
        graph = self.manifold.fixed_floors.copy()
        graph.add_edges_from(edges)
        graph.remove_nodes_from([self.manifold.house, floor + self.manifold.source])
        return graph
