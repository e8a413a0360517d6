"""A manifold on the wire as a graph by numbers, or every fault that keeps it from being one."""

from collections.abc import Iterator, Sequence
from itertools import islice

from msgspec import UNSET

from footvalve.answers.manifold_graph import Manifold, Part, Setting
from footvalve.contract.faults import MOST_FAULTS
from footvalve.contract.manifold_check import ManifoldCheckRequest, ManifoldElement, ManifoldMode, PumpElement
from footvalve.contract.problem import Fault, Refused

_LISTS = (("running", "pump"), ("closed", "shutoff"), ("open", "tap"))


def manifold_and_settings(request: ManifoldCheckRequest) -> tuple[Manifold, list[Setting]]:
    """The piping and its modes. Raises Refused with the faults, of very many the first."""
    faults = tuple(islice(_faults(request), MOST_FAULTS))
    if faults:
        raise Refused(*faults)
    node = {name: number for number, name in enumerate(request.nodes)}
    number = {element.id: place for place, element in enumerate(request.elements)}
    manifold = Manifold(
        nodes=tuple(request.nodes),
        parts=tuple(_part(element, node) for element in request.elements),
        source=node[request.source],
        house=node[request.house],
    )
    return manifold, [_setting(mode, number) for mode in request.modes]


def _part(element: ManifoldElement, node: dict[str, int]) -> Part:
    kind = element.kind
    return Part(
        id=element.id,
        kind=kind,
        start=node[element.from_],
        end=None if element.to is UNSET else node[element.to],
        backward=kind != "check",
        blocks_when_idle=isinstance(element, PumpElement) and element.blocks_when_idle,
    )


def _setting(mode: ManifoldMode, number: dict[str, int]) -> Setting:
    return Setting(
        name=mode.name,
        running=frozenset(number[pump] for pump in mode.running),
        closed=frozenset(number[valve] for valve in mode.closed),
        open=frozenset(number[tap] for tap in mode.open),
    )


def _faults(request: ManifoldCheckRequest) -> Iterator[Fault]:
    nodes = frozenset(request.nodes)
    kinds = {element.id: element.kind for element in reversed(request.elements)}
    yield from _repeated(request.nodes, "/nodes/{}", "another node has this name")
    yield from _repeated([e.id for e in request.elements], "/elements/{}/id", "another element has this id")
    yield from _repeated([mode.name for mode in request.modes], "/modes/{}/name", "another mode has this name")
    yield from _end_faults(request, nodes)
    for index, element in enumerate(request.elements):
        yield from _element_faults(element, nodes, index)
    for index, mode in enumerate(request.modes):
        yield from _mode_faults(mode, kinds, f"/modes/{index}")


def _repeated(names: Sequence[str], pointer: str, detail: str) -> Iterator[Fault]:
    if len(frozenset(names)) == len(names):
        return
    seen: set[str] = set()
    for index, name in enumerate(names):
        if name in seen:
            yield Fault(pointer.format(index), detail)
        seen.add(name)


def _end_faults(request: ManifoldCheckRequest, nodes: frozenset[str]) -> Iterator[Fault]:
    if request.source not in nodes:
        yield Fault("/source", "no node has this name")
    if request.house not in nodes:
        yield Fault("/house", "no node has this name")
    if request.house == request.source:
        yield Fault("/house", "must be another node than the source")


def _element_faults(element: ManifoldElement, nodes: frozenset[str], index: int) -> Iterator[Fault]:
    if element.from_ not in nodes:
        yield Fault(f"/elements/{index}/from", "no node has this name")
    if element.to is UNSET:
        return
    if element.to not in nodes:
        yield Fault(f"/elements/{index}/to", "no node has this name")
    if element.to == element.from_:
        yield Fault(f"/elements/{index}/to", "must be another node than `from`")


def _mode_faults(mode: ManifoldMode, kinds: dict[str, str], pointer: str) -> Iterator[Fault]:
    for field, kind in _LISTS:
        ids: Sequence[str] = getattr(mode, field)
        for index, name in enumerate(ids):
            if kinds.get(name) != kind:
                yield _id_fault(name, kind, kinds, f"{pointer}/{field}/{index}")
        yield from _repeated(ids, f"{pointer}/{field}/{{}}", "is listed twice")


def _id_fault(name: str, kind: str, kinds: dict[str, str], pointer: str) -> Fault:
    if name not in kinds:
        return Fault(pointer, "no element has this id")
    return Fault(pointer, f"must be a {kind}; this element is a {kinds[name]}")
