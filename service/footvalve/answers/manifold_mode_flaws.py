"""What is wrong with a manifold in one of its modes."""

from collections.abc import Iterator
from itertools import chain, combinations

from footvalve.answers.manifold_flaw import Flaw
from footvalve.answers.manifold_graph import Manifold
from footvalve.answers.manifold_modes import ModeState
from footvalve.answers.manifold_no_path import no_path, starved_inlet
from footvalve.answers.manifold_remedies import Remedies, Remedy
from footvalve.answers.manifold_wording import all_named, named, quoted, sentence, way_named
from footvalve.contract.manifold_check import FindingSeverity


def mode_flaws(manifold: Manifold, remedies: Remedies, state: ModeState) -> Iterator[Flaw]:
    """Everything that is wrong in one of the modes; the remedies are those of the manifold with all of them."""
    yield from _no_path(manifold, remedies, state)
    yield from _recirculation(manifold, remedies, state)
    yield from _drain_back(manifold, remedies, state)
    yield from _deadheads(manifold, state)
    for pump in state.starved:
        yield starved_inlet(manifold, state, pump)
    yield from _air_entry(manifold, state)
    yield from _drawn_vessels(manifold, state)
    yield from _two_running(manifold, state)
    yield from _pressed_inlets(manifold, state)


def _no_path(manifold: Manifold, remedies: Remedies, state: ModeState) -> Iterator[Flaw]:
    if state.delivery:
        return
    yield no_path(manifold, state)
    remedy = remedies.for_no_path(state)
    if remedy is not None:
        yield _turned_about(manifold, state, remedy, "danger")


def _recirculation(manifold: Manifold, remedies: Remedies, state: ModeState) -> Iterator[Flaw]:
    for loop in state.loops:
        text = (
            f"Water from {named(manifold, loop[0].part)} comes back to its inlet by {way_named(manifold, loop[1:])}: "
            "it goes round, and the house gets little of it or none."
        )
        yield Flaw("recirculation", "danger", text, tuple(passage.part for passage in loop), state.setting.name)
        remedy = remedies.for_way_back(loop[1:])
        yield from _cause(manifold, state, remedy, "danger")


def _drain_back(manifold: Manifold, remedies: Remedies, state: ModeState) -> Iterator[Flaw]:
    if not state.drain:
        return
    start = quoted(manifold.nodes[state.drain[0].start])
    text = (
        f"Once the pumps stop, water runs back from {start} to the source by {way_named(manifold, state.drain)}: the "
        "line empties, and what is in it gets into the well."
    )
    yield Flaw("drain-back", "warning", text, tuple(passage.part for passage in state.drain), state.setting.name)
    yield from _cause(manifold, state, remedies.for_way_back(state.drain[::-1]), "warning")


def unheld_water(manifold: Manifold, remedies: Remedies, state: ModeState) -> Iterator[Flaw]:
    """That nothing before a pump which draws by suction holds the water there: a check behind it does so only while all
    before it is tight. Where the house's water runs back by the same way, that is told already. Common practice, no
    source."""
    way = state.unheld
    if not way or {passage.part for passage in way} <= {passage.part for passage in state.drain}:
        return
    inlet = quoted(manifold.nodes[way[0].start])
    text = (
        f"Nothing holds the water before the pump: once it stops, any leak lets it run back from {inlet} to the source "
        f"by {way_named(manifold, way)}. Then the pump has lost its prime, and the line has to be filled again."
    )
    yield Flaw("loses-prime", "warning", text, tuple(passage.part for passage in way), state.setting.name)
    yield from _cause(manifold, state, remedies.for_way_back(way[::-1]), "warning")


def _cause(manifold: Manifold, state: ModeState, remedy: Remedy | None, severity: FindingSeverity) -> Iterator[Flaw]:
    if remedy is None:
        return
    if remedy.stopped is None:
        yield _turned_about(manifold, state, remedy, severity)
        return
    stopped = remedy.stopped
    text = (
        f"Nothing at {named(manifold, stopped.part)} keeps water from passing back: fit a check valve there that "
        f"passes only from {quoted(manifold.nodes[stopped.end])} to {quoted(manifold.nodes[stopped.start])}."
    )
    yield Flaw("check-missing", severity, text, (stopped.part,), state.setting.name)


def _turned_about(manifold: Manifold, state: ModeState, remedy: Remedy, severity: FindingSeverity) -> Flaw:
    stands, it = ("stands", "it") if len(remedy.turned) == 1 else ("stand", "each of them")
    text = sentence(f"{all_named(manifold, remedy.turned)} {stands} the wrong way: turn {it} about")
    return Flaw("check-turned-about", severity, text, remedy.turned, state.setting.name)


def _deadheads(manifold: Manifold, state: ModeState) -> Iterator[Flaw]:
    tanks = {manifold.parts[tank].start for tank in manifold.of_kind("tank")}
    for pump in state.deadheads:
        water = f"Water from {named(manifold, pump)} reaches"
        if tanks.isdisjoint(state.fed[pump]):
            text = (
                f"{water} neither the house nor an open tap nor a relief valve: the pump runs against closed ends and "
                "overheats. Open a way for it, or keep it from running."
            )
            yield Flaw("deadhead", "danger", text, (pump,), state.setting.name)
        else:
            text = (
                f"{water} nothing but a tank: once that is full, the pump runs against closed ends. See that a "
                "pressure switch stops it, and fit a relief valve."
            )
            yield Flaw("deadhead", "warning", text, (pump,), state.setting.name)


def _air_entry(manifold: Manifold, state: ModeState) -> Iterator[Flaw]:
    for tap in state.air_taps:
        text = (
            f"{named(manifold, tap)} is open on the suction side, which stands under vacuum: it draws air, and the "
            "pump loses its water. Close it, or move it to the pressure side of the pump"
        )
        yield Flaw("air-entry", "warning", sentence(text), (tap,), state.setting.name)


def _drawn_vessels(manifold: Manifold, state: ModeState) -> Iterator[Flaw]:
    for vessel in state.drawn_vessels:
        harm = "lets air in and guards nothing"
        if manifold.parts[vessel].kind == "tank":
            harm = "stores no pressure"
        text = (
            f"{named(manifold, vessel)} stands on the suction side, under vacuum, where it {harm}: move it to the "
            "pressure side of the pump"
        )
        yield Flaw("vessel-on-suction-side", "warning", sentence(text), (vessel,), state.setting.name)


def _two_running(manifold: Manifold, state: ModeState) -> Iterator[Flaw]:
    """Pumps that run side by side; of those in series `_pressed_inlets` tells."""
    pumps = sorted(state.setting.running)
    side_by_side = [pair for pair in combinations(pumps, 2) if _run_side_by_side(manifold, state, *pair)]
    together = tuple(sorted(set(chain.from_iterable(side_by_side))))
    if together:
        text = (
            f"{all_named(manifold, together)} run together on one line: each presses against the others. Interlock "
            "their supplies, so that only one can run"
        )
        yield Flaw("two-pumps-running", "danger", sentence(text), together, state.setting.name)


def _run_side_by_side(manifold: Manifold, state: ModeState, one: int, other: int) -> bool:
    """Whether the water of both meets, but neither one's reaches the inlet of the other."""
    if (state.fed[one] & state.fed[other]) <= {manifold.source}:
        return False
    return one not in _pressing(manifold, state, other) and other not in _pressing(manifold, state, one)


def _pressed_inlets(manifold: Manifold, state: ModeState) -> Iterator[Flaw]:
    stopped: dict[tuple[int, ...], list[int]] = {}
    for pump in manifold.of_kind("pump"):
        pressing = _pressing(manifold, state, pump)
        if pressing and pump in state.setting.running:
            text = (
                f"the inlet of {named(manifold, pump)}, which runs, stands under the pressure of "
                f"{all_named(manifold, pressing)}: in series the pressures add up, and the line may burst. Interlock "
                "their supplies, so that only one can run"
            )
            yield Flaw("pump-pressurizes-pump", "danger", sentence(text), (*pressing, pump), state.setting.name)
        elif pressing:
            stopped.setdefault(pressing, []).append(pump)
    for pressing, pumps in stopped.items():
        text = (
            f"while {all_named(manifold, pressing)} runs, its pressure stands at the inlet of "
            f"{all_named(manifold, pumps)}: close a shutoff valve before it, unless its maker allows that there"
        )
        yield Flaw("pump-pressurizes-pump", "note", sentence(text), (*pressing, *pumps), state.setting.name)


def _pressing(manifold: Manifold, state: ModeState, pump: int) -> tuple[int, ...]:
    """The running pumps whose water reaches the inlet of a pump by sure ways."""
    inlet = manifold.parts[pump].start
    if inlet == manifold.source:
        return ()
    return tuple(other for other, nodes in state.fed.items() if other != pump and inlet in nodes)
