"""Whether the water goes where it should in each mode of a manifold: the answer of `manifold-check`."""

from collections.abc import Iterator, Sequence

from footvalve.answers.basis import basis_step
from footvalve.answers.cautions import cautions
from footvalve.answers.manifold_flaw import Flaw, merged
from footvalve.answers.manifold_graph import Manifold
from footvalve.answers.manifold_input import manifold_and_settings
from footvalve.answers.manifold_isolation import PumpIsolation, isolations
from footvalve.answers.manifold_mode_flaws import mode_flaws, unheld_water
from footvalve.answers.manifold_modes import ModeState, mode_state
from footvalve.answers.manifold_piping_flaws import piping_flaws, tanks_without_relief
from footvalve.answers.manifold_remedies import Remedies
from footvalve.answers.manifold_wording import listed, quoted
from footvalve.contract.answer import Warning
from footvalve.contract.manifold_check import (
    Isolation,
    ManifoldCheckAnswer,
    ManifoldCheckRequest,
    ManifoldFinding,
    ManifoldVerdict,
    ModeOutcome,
)
from footvalve.physics.method import Method

_NO_PRESSURES = "says which way water can go, not how much of it goes: no pressure, height or loss is reckoned"

WAYS = Method(
    "shortest ways through a directed graph of the piping, by sure ways for what serves and by possible ones for harm",
    "E. W. Dijkstra, A note on two problems in connexion with graphs, Numerische Mathematik 1 (1959), 269-271",
    note=_NO_PRESSURES,
)
LOOPS = Method(
    "a pump's inlet and outlet in one strongly connected component of that graph",
    "R. Tarjan, Depth-first search and linear graph algorithms, SIAM Journal on Computing 1 (1972), 146-160",
    note=_NO_PRESSURES,
)
ISOLATION = Method(
    "connected components of the piping without its shutoff valves and the source",
    "common practice, no source",
    note="check valves are not relied on; the source is open water",
)


def manifold_check(request: ManifoldCheckRequest, *, flooded: bool = False) -> ManifoldCheckAnswer:
    """Where the water goes in each mode, and what is wrong. `flooded` says that the pump is known to stand below the
    water, which then keeps its suction side full by itself. Raises Refused with every fault."""
    manifold, settings = manifold_and_settings(request)
    states = [mode_state(manifold, setting) for setting in settings]
    pumps, unrelieved = isolations(manifold, states), tanks_without_relief(manifold)
    findings = merged(manifold, _flaws(manifold, states, pumps, unrelieved, flooded=flooded))
    return ManifoldCheckAnswer(
        verdict=_verdict(findings),
        modes=[_outcome(manifold, state) for state in states],
        isolates=[_isolation(manifold, pump) for pump in pumps],
        findings=findings,
        basis=[
            basis_step("The water's ways in each mode", WAYS),
            basis_step("Water that goes round a pump", LOOPS),
            basis_step("What is taken out with a pump", ISOLATION),
        ],
        cautions=cautions(_caution_codes(manifold, states, unrelieved)),
        warnings=list(_untouched_nodes(manifold)),
    )


def _flaws(
    manifold: Manifold,
    states: Sequence[ModeState],
    pumps: Sequence[PumpIsolation],
    unrelieved: Sequence[int],
    *,
    flooded: bool,
) -> Iterator[Flaw]:
    remedies = Remedies(manifold, states)
    for state in states:
        yield from mode_flaws(manifold, remedies, state)
        if not flooded:
            yield from unheld_water(manifold, remedies, state)
    yield from piping_flaws(manifold, states, pumps, unrelieved)


def _verdict(findings: Sequence[ManifoldFinding]) -> ManifoldVerdict:
    severities = {finding.severity for finding in findings}
    if "danger" in severities:
        return "wrong"
    return "doubtful" if "warning" in severities else "right"


def _outcome(manifold: Manifold, state: ModeState) -> ModeOutcome:
    def ids(parts: Sequence[int]) -> list[str]:
        return [manifold.parts[number].id for number in parts]

    return ModeOutcome(
        name=state.setting.name,
        delivers=bool(state.delivery),
        path=ids([passage.part for passage in state.delivery]),
        recirculates=ids([passage.part for passage in state.loops[0]] if state.loops else []),
        deadheads=ids(state.deadheads),
        runs_dry=ids(state.starved),
        drains_back=ids([passage.part for passage in state.drain]),
        draws_air_at=ids(state.air_taps),
    )


def _isolation(manifold: Manifold, pump: PumpIsolation) -> Isolation:
    valves = [manifold.parts[valve].id for valve in pump.valves]
    return Isolation(
        pump=manifold.parts[pump.pump].id,
        isolates=pump.served_in is not None,
        by=valves,
        text=_isolation_text(valves, pump),
    )


def _isolation_text(valves: Sequence[str], pump: PumpIsolation) -> str:
    if pump.served_in is not None:
        closed = f"With {listed([quoted(valve) for valve in valves])} closed" if valves else "Without it"
        return f"{closed} the house is served in {quoted(pump.served_in)}."
    if pump.open_sides:
        return f"No shutoff valve parts it from the rest at its {' and its '.join(pump.open_sides)}."
    return "While it is out no other pump serves the house in any of the modes."


def _caution_codes(manifold: Manifold, states: Sequence[ModeState], unrelieved: Sequence[int]) -> list[str]:
    pumps = [manifold.parts[pump] for pump in manifold.of_kind("pump")]
    calls = {
        "two-pumps": len(pumps) > 1,
        "mains-electricity": len(pumps) > 1 or any(pump.start == manifold.source for pump in pumps),
        "back-flow": any(state.drain or _feeds_source(manifold, state) for state in states),
        "suction-under-vacuum": any(state.suction for state in states),
        "tank-relief-valve": bool(unrelieved),
    }
    return [code for code, is_called_for in calls.items() if is_called_for]


def _feeds_source(manifold: Manifold, state: ModeState) -> bool:
    return any(manifold.source in nodes for nodes in state.fed.values())


def _untouched_nodes(manifold: Manifold) -> Iterator[Warning]:
    touched = {node for part in manifold.parts for node in (part.start, part.end)}
    for number in range(len(manifold.nodes)):
        if number not in touched:
            yield Warning(f"/nodes/{number}", "no element meets this node")
