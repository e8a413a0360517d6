"""Requests of every endpoint from short to long, to hold a reckoned cost against the time that it takes."""

from collections.abc import Iterator
from copy import deepcopy
from typing import Any, NamedTuple

from footvalve.answers.endpoints import ENDPOINT
from footvalve.contract.examples import examples

Body = dict[str, Any]


class Case(NamedTuple):
    """A body for an endpoint, and what is said of it."""

    endpoint: str
    label: str
    body: Body


def example(name: str, place: int = 0) -> Body:
    """One of the endpoint's examples, to be changed at will."""
    return deepcopy(examples(name)[place].request)


def cases() -> Iterator[Case]:
    """The grid: what makes a request long, one and two at a time."""
    for name in ENDPOINT:
        for place, known in enumerate(examples(name)):
            yield Case(name, f"example {known.name}", example(name, place))
    yield from _sounding()
    yield from _recovery()
    yield from _friction()
    yield from _suction()
    yield from _fittings()
    yield from _tank()
    yield from _battery()
    yield from _manifold()
    yield from _plan()


def quantity(value: float, unit: str, sure: float = 0.0) -> Body:
    """A quantity, with an uncertainty where one is given."""
    return {"value": value, "unit": unit} | ({"uncertainty": sure} if sure else {})


def made_uncertain(body: Any, inputs: int, share: float = 0.001) -> Any:
    """The body with so many of its quantities uncertain, in its order."""
    left = [inputs]

    def walked(part: Any) -> Any:
        if isinstance(part, list):
            return [walked(item) for item in part]
        if not isinstance(part, dict):
            return part
        if part.keys() == {"value", "unit"} and part["value"] and left[0] > 0 and not part["unit"].startswith("deg"):
            left[0] -= 1
            return part | {"uncertainty": abs(part["value"]) * share}
        return {key: walked(value) for key, value in part.items()}

    return walked(body)


def long_line(parts: int) -> list[Body]:
    """A line of pipes, fittings and valves."""
    size = {"product": "pe-sidr-15", "nominal": "1-1/4"}
    pipe = {"part": "pipe", "size": size, "length": quantity(60.0 / parts, "ft")}
    elbow = {"part": "fitting", "fitting": "elbow-45"}
    valve = {"part": "valve", "valve": "ball"}
    return [pipe, *([pipe, elbow, valve, pipe][place % 4] for place in range(parts - 1))][:parts]


def _with_line(name: str, field: str, parts: int, inlet: float = -4.0, **more: Any) -> Body:
    line = long_line(parts)
    if field != "line" or name != "friction":
        line[-1] = {
            "part": "pipe",
            "size": {"product": "pe-sidr-15", "nominal": "1-1/4"},
            "length": quantity(60, "ft"),
            "end_elevation": quantity(inlet, "ft"),
        }
        line[0] = line[0] | {"end_elevation": quantity(-5, "ft"), "length": quantity(60, "ft")}
    return example(name) | {field: line} | more


def _sounding() -> Iterator[Case]:
    for times in (1, 5, 25, 100):
        readings = [quantity(1.0 + 0.001 * place, "s") for place in range(times)]
        body = example("sounding") | {"measurement": {"method": "stone-drop", "times": readings}}
        yield Case("sounding", f"{times} stones", body)
        yield Case("sounding", f"{times} stones, 10 uncertain", made_uncertain(body, 10))
        yield Case("sounding", f"{times} stones, 50 uncertain", made_uncertain(body, 50))
        depths = [quantity(5.0 + 0.001 * place, "m") for place in range(times)]
        body = example("sounding") | {"measurement": {"method": "direct", "depths": depths}}
        yield Case("sounding", f"{times} depths", body)
        yield Case("sounding", f"{times} depths, 50 uncertain", made_uncertain(body, 50))


def _recovered(readings: int) -> list[Body]:
    return [
        {
            "elapsed": quantity(0.1 * place if readings > 2 else 2.0 * place, "min"),
            "depth": quantity(22.4 + 27.0 * 0.98**place * (1.0 + 0.002 * (place % 3)), "ft"),
        }
        for place in range(readings)
    ]


def _recovery() -> Iterator[Case]:
    for readings in (2, 10, 50, 200, 1000):
        body = example("well-recovery") | {"recovery": {"readings": _recovered(readings)}}
        yield Case("well-recovery", f"{readings} readings", body)
        for inputs in (3, 20, 50):
            yield Case("well-recovery", f"{readings} readings, {inputs} uncertain", made_uncertain(body, inputs))
    for inputs in (1, 5):
        yield Case(
            "well-recovery", f"pumping test, {inputs} uncertain", made_uncertain(example("well-recovery", 2), inputs)
        )


def _friction() -> Iterator[Case]:
    for parts in (1, 5, 50, 200, 1000):
        for flows in (0, 20, 200):
            curve = {"flows": [quantity(0.5 + 0.05 * place, "gal/min") for place in range(flows)]} if flows else {}
            body = _with_line("friction", "line", parts, **curve)
            yield Case("friction", f"{parts} parts, {flows} flows", body)
            for inputs in (5, 50) if flows != 20 else ():
                label = f"{parts} parts, {flows} flows, {inputs} uncertain"
                yield Case("friction", label, made_uncertain(body, inputs))


def _suction() -> Iterator[Case]:
    for parts in (2, 9, 50, 200, 1000):
        body = _with_line("suction-feasibility", "line", parts)
        yield Case("suction-feasibility", f"{parts} parts", body)
        yield Case("suction-feasibility", f"{parts} parts, limits", body | {"limits": True})
        deep = body | {"limits": True, "depth_to_water": quantity(24, "ft")}
        yield Case("suction-feasibility", f"{parts} parts, limits, too deep", deep)
        for inputs in (1, 3, 6, 20, 50):
            sure = made_uncertain(body, inputs)
            yield Case("suction-feasibility", f"{parts} parts, {inputs} uncertain, settled", sure)
            doubtful = made_uncertain(body, inputs, 0.02) | {"depth_to_water": quantity(13, "ft", 4.0)}
            yield Case("suction-feasibility", f"{parts} parts, {inputs} uncertain, open", doubtful)
            doubtful = doubtful | {"depth_to_water": quantity(14, "ft", 60.0)}
            yield Case("suction-feasibility", f"{parts} parts, {inputs} uncertain, wild", doubtful)

    for place, known in enumerate(examples("suction-feasibility")):
        for inputs in (1, 3, 6, 20):
            for share in (0.05, 0.2):
                body = made_uncertain(example("suction-feasibility", place), inputs, share) | {"limits": False}
                yield Case("suction-feasibility", f"{known.name}, {inputs} uncertain by {share:.0%}", body)
    for parts in (9, 50, 200, 1000):
        for inputs in (2, 6, 50):
            body = made_uncertain(_with_line("suction-feasibility", "line", parts), inputs, 0.02)
            body |= {"depth_to_water": quantity(17, "ft", 3.0), "flow": quantity(9, "gal/min", 3.0)}
            yield Case("suction-feasibility", f"{parts} parts, {inputs} uncertain, drawn", body)


def _tank() -> Iterator[Case]:
    for points in (2, 20, 100):
        for demands in (1, 20, 100):
            curve = [
                {
                    "pressure": quantity(20 + 60 * place / points, "psi"),
                    "flow": quantity(5 - 2 * place / points, "gal/min"),
                }
                for place in range(points)
            ]
            drawn = [quantity(0.5 + 0.02 * place, "gal/min") for place in range(demands)]
            body = example("tank-cycle") | {"pump": {"points": curve}, "demands": drawn}
            yield Case("tank-cycle", f"{points} points, {demands} demands", body)
            for inputs in (4, 50):
                yield Case(
                    "tank-cycle",
                    f"{points} points, {demands} demands, {inputs} uncertain",
                    made_uncertain(body, inputs),
                )
            if points == demands == 100:
                yield Case("tank-cycle", "100 points, 100 demands, 10 tanks", body | {"tanks": body["tanks"] * 10})
    body = example("tank-cycle")
    body["tanks"] = body["tanks"] * 10
    yield Case("tank-cycle", "10 tanks", body)
    yield Case("tank-cycle", "10 tanks, 20 uncertain", made_uncertain(body, 20))


def _battery() -> Iterator[Case]:
    for loads in (1, 10, 50):
        for chargers in (1, 10, 50):
            body = example("battery-runtime") | {
                "loads": [
                    {"name": f"load {place}", "current": quantity(0.5 + 0.1 * place, "A"), "hours_per_day": 0.5}
                    for place in range(loads)
                ],
                "charger": {"currents": [quantity(5 + place, "A") for place in range(chargers)]},
                "solar": {
                    "array_power": quantity(200, "W"),
                    "sun_hours": [3.0] * 12,
                },
            }
            body.pop("daily_water", None)
            body.pop("pump_flow", None)
            yield Case("battery-runtime", f"{loads} loads, {chargers} chargers", body)
            for days in (60,):
                yield Case("battery-runtime", f"{loads} loads, {chargers} chargers, {days} days", body | {"days": days})
            for inputs in (4, 40):
                yield Case(
                    "battery-runtime",
                    f"{loads} loads, {chargers} chargers, {inputs} uncertain",
                    made_uncertain(body, inputs),
                )


def tangle(elements: int, modes: int) -> Body:
    """A grid of pipes and checks between many nodes, with pumps, in many modes."""
    side = max(2, round((elements / 2) ** 0.5))
    nodes = [f"{row}.{column}" for row in range(side) for column in range(side)]
    found: list[Body] = [{"id": "pump", "kind": "pump", "from": "well", "to": nodes[0]}]
    for row in range(side):
        for column in range(side):
            for to in ((row, column + 1), (row + 1, column)):
                if max(to) < side and len(found) < elements:
                    kind = ("pipe", "check", "shutoff")[len(found) % 3]
                    start, end = f"{row}.{column}", f"{to[0]}.{to[1]}"
                    found.append({"id": f"e{len(found)}", "kind": kind, "from": start, "to": end})
    return {
        "nodes": ["well", *nodes],
        "elements": found,
        "source": "well",
        "house": nodes[-1],
        "modes": [{"name": f"m{mode}", "running": ["pump"], "closed": [], "open": []} for mode in range(modes)],
    }


def ladder(elements: int, modes: int) -> Body:
    """Pumps side by side between two headers, with taps."""
    pumps = min(20, max(1, elements // 3))
    found: list[Body] = []
    nodes = ["well", "in", "out"]
    found.append({"id": "main", "kind": "pipe", "from": "well", "to": "in"})
    for place in range(pumps):
        nodes.append(f"n{place}")
        found.append({"id": f"p{place}", "kind": "pump", "from": "in", "to": f"n{place}"})
        found.append({"id": f"v{place}", "kind": "shutoff", "from": f"n{place}", "to": "out"})
    last = "out"
    while len(found) < elements:
        place = len(found)
        nodes.append(f"x{place}")
        found.append(
            {"id": f"x{place}", "kind": ("pipe", "shutoff", "check")[place % 3], "from": last, "to": f"x{place}"}
        )
        last = f"x{place}"
    running = [f"p{place}" for place in range(pumps)]
    return {
        "nodes": nodes,
        "elements": found,
        "source": "well",
        "house": last,
        "modes": [{"name": f"m{mode}", "running": running, "closed": [], "open": []} for mode in range(modes)],
    }


def comb(elements: int, modes: int) -> Body:
    """Many pumps of which none runs but one, each with a check against the way of the water."""
    found: list[Body] = [{"id": "p0", "kind": "pump", "from": "well", "to": "house"}]
    nodes = ["well", "house"]
    while len(found) + 3 <= elements:
        place = len(found)
        nodes += [f"a{place}", f"b{place}"]
        found.append({"id": f"p{place}", "kind": "pump", "from": "well", "to": f"a{place}"})
        found.append({"id": f"c{place}", "kind": "check", "from": f"b{place}", "to": f"a{place}"})
        found.append({"id": f"v{place}", "kind": "shutoff", "from": f"b{place}", "to": "house"})
    return {
        "nodes": nodes,
        "elements": found,
        "source": "well",
        "house": "house",
        "modes": [{"name": f"m{mode}", "running": [found[1]["id"]], "closed": [], "open": []} for mode in range(modes)],
    }


def _fittings() -> Iterator[Case]:
    """Parts without a quantity do not hold down the number of draws."""
    for parts in (50, 300):
        body = example("suction-feasibility", 1)
        line = body["line"]
        body["line"] = [*line[:-1], *[{"part": "fitting", "fitting": "elbow-45"}] * parts, line[-1]]
        for inputs in (3, 6):
            label = f"{parts} fittings, {inputs} uncertain, drawn"
            yield Case("suction-feasibility", label, made_uncertain(body, inputs, 0.2))


def _manifold() -> Iterator[Case]:
    for elements in (5, 20, 100, 300, 1000):
        for modes in (1, 4, 20):
            yield Case("manifold-check", f"tangle of {elements}, {modes} modes", tangle(elements, modes))
            yield Case("manifold-check", f"ladder of {elements}, {modes} modes", ladder(elements, modes))
            yield Case("manifold-check", f"comb of {elements}, {modes} modes", comb(elements, modes))


def _plan() -> Iterator[Case]:
    for place, known in enumerate(examples("site-plan")):
        for inputs in (1, 3, 10, 50):
            yield Case(
                "site-plan", f"{known.name}, {inputs} uncertain", made_uncertain(example("site-plan", place), inputs)
            )
            yield Case(
                "site-plan",
                f"{known.name}, {inputs} very uncertain",
                made_uncertain(example("site-plan", place), inputs, 0.05),
            )
    for parts in (50, 200, 1000):
        body = _with_line("site-plan", "suction_line", parts, -4.5, delivery_line=long_line(parts))
        yield Case("site-plan", f"{parts} parts twice", body)
        for inputs in (3, 50):
            yield Case("site-plan", f"{parts} parts twice, {inputs} uncertain", made_uncertain(body, inputs))
    for elements, modes in ((100, 4), (1000, 4)):
        question = tangle(elements, modes)
        yield Case("site-plan", f"tangle of {elements}, {modes} modes", example("site-plan") | {"manifold": question})
    for readings in (10, 1000):
        body = example("site-plan")
        body["well"] = {k: v for k, v in body["well"].items() if k != "pumping_test"}
        body["well"] |= {"static_depth": quantity(22.4, "ft"), "recovery": {"readings": _recovered(readings)}}
        yield Case("site-plan", f"{readings} readings of recovery", body)
    for points in (20, 50):
        curve = [
            {"pressure": quantity(70 * place / points, "psi"), "flow": quantity(5 - 2 * place / points, "gal/min")}
            for place in range(points)
        ]
        body = example("site-plan")
        body["pump"] |= {"points": curve}
        yield Case("site-plan", f"pump of {points} points", body)
        yield Case("site-plan", f"pump of {points} points, 10 uncertain", made_uncertain(body, 10))
