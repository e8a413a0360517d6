"""Wells with a suction line and a pump, as drawn for the comparison and as asked."""

import random
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from engines.asking import of

EQUIVALENT_DIAMETERS = {
    "elbow-90": 30,
    "elbow-45": 16,
    "tee-run": 20,
    "tee-branch": 60,
    "return-bend-180": 50,
}
"""n of K = n fT. Crane Co., Technical Paper 410 (2009), A-29; the tees by the edition of 1976."""
VALVES = {"gate": 8, "ball": 3, "globe": 340, "angle": 150, "swing-check": 100, "lift-check-angle": 55} | {
    "foot-valve-poppet": 420
}
"""The same of valves. Crane Co., Technical Paper 410 (2009), A-27 and A-28."""
CHECKS = ("swing-check", "lift-check-angle", "foot-valve-poppet")
COEFFICIENTS = {"entrance-sharp": 0.5, "entrance-inward-projecting": 0.78, "coupling": 0.04}
"""K. Crane Co., Technical Paper 410 (1976), A-29; the coupling by Silla (2003), Figure 8.17."""

ROUGHNESS = (0.0, 1.5e-6, 1.5e-4)


@dataclass(frozen=True)
class Piece:
    """A part of a line in SI: a pipe with its end, or something without length."""

    kind: str
    bore: float
    length: float = 0.0
    roughness: float = 0.0
    end: float = 0.0
    name: str = ""
    count: int = 1
    drop: float = 0.0
    rated: float = 0.0

    def part(self) -> dict[str, Any]:
        """The part on the wire."""
        bore = {"diameter": of(1000 * self.bore, "mm")}
        drop, rated = of(self.drop, "Pa"), of(1000 * self.rated, "L/s")
        match self.kind:
            case "pipe":
                bore["roughness"] = of(1000 * self.roughness, "mm")
                about = {"length": of(self.length, "m"), "end_elevation": of(self.end, "m")}
            case "fitting":
                about = {"fitting": self.name, "count": self.count}
            case "valve":
                about = {"valve": self.name} | ({"cracking_pressure": drop} if self.drop else {})
            case "strainer":
                about = {"rated_flow": rated, "clean_drop": drop}
            case "idle-pump":
                about = {"flow": rated, "drop": drop}
        return {"part": self.kind, "bore": bore, **about}


@dataclass(frozen=True)
class Site:
    """A well in SI; elevations above the ground, depths below it. The pump tells its NPSH, or how high it lifts."""

    altitude: float
    temperature: float
    depth: float
    seasonal_fall: float
    drawdown: float
    specific_capacity: float | None
    flow: float
    intake: float
    inlet: float
    required: float | None
    rated_lift: float
    pieces: tuple[Piece, ...]

    @property
    def pumping_depth(self) -> float:
        """Down to the water while it is drawn, in the dry season."""
        fallen = self.drawdown if self.specific_capacity is None else self.flow / self.specific_capacity
        return self.depth + self.seasonal_fall + fallen

    @property
    def at(self) -> dict[str, Any]:
        """What tells this site from the others."""
        kinds = [piece.name or piece.kind for piece in self.pieces]
        return {"L/s": 1000 * self.flow, "K": self.temperature, "altitude m": self.altitude, "line": kinds}

    def body(self) -> dict[str, Any]:
        """The question to `suction-feasibility`."""
        needs = {"rated_suction_lift": of(self.rated_lift, "m")}
        if self.required is not None:
            needs = {"npsh_required": of(self.required, "m")}
        level = {"drawdown": of(self.drawdown, "m")}
        if self.specific_capacity is not None:
            level = {"specific_capacity": of(1000 * self.specific_capacity, "L/s/m")}
        return {
            "units": "metric",
            "site": {"altitude": of(self.altitude, "m"), "water_temperature": of(self.temperature, "K")},
            "depth_to_water": of(self.depth, "m"),
            "seasonal_fall": of(self.seasonal_fall, "m"),
            **level,
            "flow": of(1000 * self.flow, "L/s"),
            "pump": {"style": "rotary", "inlet_elevation": of(self.inlet, "m"), **needs},
            "intake_elevation": of(self.intake, "m"),
            "line": [piece.part() for piece in self.pieces],
        }


def drawn_sites(seed: int, count: int, *, crane: bool) -> Iterable[Site]:
    """Sites of all sorts, those with Crane's fittings and valves or those without."""
    draw = random.Random(seed)
    return (_site(draw, crane) for _ in range(count))


def _site(draw: random.Random, crane: bool) -> Site:
    depth, fall, drawdown = draw.uniform(-1, 7), draw.choice([0.0, draw.uniform(0, 2)]), draw.uniform(0, 2)
    flow = draw.uniform(5e-5, 6e-4)
    inlet = draw.uniform(-5, 2)
    intake = -(depth + fall + 2.0) - draw.uniform(0, 15)
    return Site(
        altitude=draw.uniform(-400, 4500),
        temperature=draw.uniform(274.15, 333.15),
        depth=depth,
        seasonal_fall=fall,
        drawdown=drawdown,
        specific_capacity=draw.choice([None, flow / draw.uniform(0.05, 2.0)]),
        flow=flow,
        intake=intake,
        inlet=inlet,
        required=draw.choice([None, draw.uniform(0, 6)]),
        rated_lift=draw.uniform(0, 9),
        pieces=tuple(_line(draw, intake, inlet, crane)),
    )


def _line(draw: random.Random, intake: float, inlet: float, crane: bool) -> list[Piece]:
    stops = [intake, *(draw.uniform(-5, 2) for _ in range(draw.randint(0, 2))), inlet]
    pieces = _locals(draw, crane)
    for start, end in pairwise(stops):
        length = abs(end - start) + draw.uniform(0.5, 25)
        bore = draw.uniform(0.018, 0.055)
        pieces.append(Piece("pipe", bore, length=length, roughness=draw.choice(ROUGHNESS), end=end))
        pieces += _locals(draw, crane)
    return pieces


def _locals(draw: random.Random, crane: bool) -> list[Piece]:
    kinds = ["fitting", "strainer", "idle-pump", *(["crane", "valve"] if crane else [])]
    return [_local(draw, draw.choice(kinds)) for _ in range(draw.randint(0, 2))]


def _local(draw: random.Random, kind: str) -> Piece:
    bore = draw.uniform(0.018, 0.055)
    match kind:
        case "crane":
            return Piece("fitting", bore, name=draw.choice(list(EQUIVALENT_DIAMETERS)), count=draw.randint(1, 4))
        case "fitting":
            return Piece("fitting", bore, name=draw.choice(list(COEFFICIENTS)), count=draw.randint(1, 4))
        case "valve":
            name = draw.choice(list(VALVES))
            return Piece("valve", bore, name=name, drop=draw.uniform(500, 6000) if name in CHECKS else 0.0)
        case _:
            return Piece(kind, bore, drop=draw.uniform(100, 1e4), rated=draw.uniform(2e-4, 1e-3))
