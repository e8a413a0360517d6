"""Why a mode of a manifold does not bring water to the house, or to the inlet of a pump that runs."""

from footvalve.answers.manifold_flaw import Flaw
from footvalve.answers.manifold_graph import Manifold, reached, reaching
from footvalve.answers.manifold_modes import ModeState
from footvalve.answers.manifold_wording import all_named, named, sentence

MOST_REASONS = 4
"""Elements whose reason is told; the finding lists all of them."""


def no_path(manifold: Manifold, state: ModeState) -> Flaw:
    """What keeps the water of a mode from the house, and what to do."""
    if not state.setting.running:
        return Flaw("no-path", "note", "No pump runs: nothing lifts water to the house.", (), state.setting.name)
    graph = state.ways.sure
    wet, serving = reached(graph, manifold.source), reaching(graph, manifold.house)
    if manifold.house in wet:
        return _unlifted(manifold, state, serving)
    stops = _between(manifold, wet, serving) or _between(manifold, wet, set(range(len(manifold.nodes))) - wet)
    text = "Nothing leads on from the source towards the house: join them."
    if stops:
        text = f"No way leads from the source to the house. {_reasons(manifold, state, stops)}"
    return Flaw("no-path", "danger", text, stops, state.setting.name)


def starved_inlet(manifold: Manifold, state: ModeState, pump: int) -> Flaw:
    """What keeps the source's water from the inlet of a running pump, and what to do."""
    graph = state.ways.sure
    wet, serving = reached(graph, manifold.source), reaching(graph, manifold.parts[pump].start)
    stops = _between(manifold, wet, serving) or _between(manifold, wet, set(range(len(manifold.nodes))) - wet)
    pressed = set().union(*state.fed.values()) - {manifold.source}
    # A pump that leads into what another one fills stands beside the way, not against it.
    stops = tuple(n for n in stops if manifold.parts[n].kind != "pump" or manifold.outlet(n) not in pressed)
    why = _reasons(manifold, state, stops) if stops else "Nothing leads on from the source towards it: join them."
    text = f"No water from the source gets to the inlet of {named(manifold, pump)}, which runs: it runs dry. {why}"
    return Flaw("starved-inlet", "danger", text, (pump, *(n for n in stops if n != pump)), state.setting.name)


def _unlifted(manifold: Manifold, state: ModeState, serving: set[int]) -> Flaw:
    """A way is open to the house, but no running pump lifts water along it."""
    lifted = set().union(*state.fed.values()) - {manifold.source}
    running = tuple(sorted(state.setting.running))
    stops = tuple(number for number in _between(manifold, lifted, serving) if number not in running)
    text = f"A way is open from the source to the house, but {all_named(manifold, running)} cannot lift water along it"
    if lifted.isdisjoint(serving) and stops:
        return Flaw("no-path", "danger", f"{text}. {_reasons(manifold, state, stops)}", stops, state.setting.name)
    return Flaw("no-path", "danger", f"{text}: bring a running pump into the way.", running, state.setting.name)


def _between(manifold: Manifold, wet: set[int], beyond: set[int]) -> tuple[int, ...]:
    """The elements that would lead from one set of nodes to another."""
    return tuple(
        number
        for number, part in enumerate(manifold.parts)
        if part.kind != "relief"
        and part.end is not None
        and ((part.start in wet and part.end in beyond) or (part.end in wet and part.start in beyond))
    )


def _reasons(manifold: Manifold, state: ModeState, stops: tuple[int, ...]) -> str:
    return " ".join(
        sentence(f"{named(manifold, number)} {_reason(manifold, state, number)}") for number in stops[:MOST_REASONS]
    )


def _reason(manifold: Manifold, state: ModeState, number: int) -> str:
    part = manifold.parts[number]
    match part.kind:
        case "shutoff":
            return "is closed: open it"
        case "tap":
            return "is closed, or stands against the way: open it, or lead the way past it"
        case "check":
            return "stands against the way: turn it about if it keeps nothing else from running back"
        case "pump" if part.blocks_when_idle and number not in state.setting.running:
            return "is stopped and lets nothing pass: lead a way with a check valve round it"
        case "pump":
            return "pumps against the way: turn it about, or lead a way round it"
    return "leads no further: join what lies behind it to the house"
