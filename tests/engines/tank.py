"""Pre-charged tanks through the answer of `tank-cycle`, against their gas followed in time, and against real air."""

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Any

import numpy
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp

from engines.air import pressure_of_the_air_above
from engines.asking import ask, of
from engines.comparison import SIX_DIGITS, Comparison, apart, compared
from engines.crossing import crossing
from footvalve.physics.gas_tank import gas_volume

COUNT = 120
ENGINE = "scipy, gas in time"


@dataclass(frozen=True)
class Tank:
    """Volume in m^3, and gauge pressure of the gas in Pa while the tank holds no water."""

    volume: float
    precharge: float
    count: int


@dataclass(frozen=True)
class Plant:
    """Tanks, switch and pump. Pressures are gauge pressures in Pa, flows in m^3/s."""

    altitude: float
    exponent: float
    tanks: tuple[Tank, ...]
    cut_in: float
    cut_out: float
    points: tuple[tuple[float, float], ...]
    demand: float

    @property
    def at(self) -> dict[str, Any]:
        """What tells this plant from the others."""
        tanks = [f"{tank.count} of {1000 * tank.volume:.0f} L at {tank.precharge / 1e3:.0f} kPa" for tank in self.tanks]
        switch = f"{self.cut_in / 1e3:.0f} to {self.cut_out / 1e3:.0f} kPa"
        return {"altitude m": self.altitude, "n": self.exponent, "tanks": tanks, "switch": switch}

    def flow_at(self, pressure: float) -> float:
        """What the pump gives at a gauge pressure."""
        return float(numpy.interp(pressure, *zip(*self.points, strict=True)))

    def body(self) -> dict[str, Any]:
        """The question to `tank-cycle`. A pump whose points have one flow is told by that flow."""
        pump = {"points": [{"pressure": of(p / 1e3, "kPa"), "flow": of(6e4 * q, "L/min")} for p, q in self.points]}
        if len({flow for _, flow in self.points}) == 1:
            pump = {"flow": of(6e4 * self.points[0][1], "L/min")}
        return {
            "units": "metric",
            "site": {"altitude": of(self.altitude, "m")},
            "tanks": [
                {"volume": of(1e3 * t.volume, "L"), "precharge": of(t.precharge / 1e3, "kPa"), "count": t.count}
                for t in self.tanks
            ],
            "switch": {"cut_in": of(self.cut_in / 1e3, "kPa"), "cut_out": of(self.cut_out / 1e3, "kPa")},
            "pump": pump,
            "demand": of(6e4 * self.demand, "L/min"),
            "gas_exponent": self.exponent,
        }


def _plant(draw: random.Random) -> Plant:
    """One to three tanks with precharges from half of cut-in to nearly cut-out."""
    cut_in = draw.uniform(1.2e5, 2.8e5)
    cut_out = cut_in + draw.uniform(0.8e5, 2.5e5)
    lowest = draw.uniform(0.5, 1.15) * cut_in
    others = [draw.uniform(0.5 * cut_in, cut_in + 0.8 * (cut_out - cut_in)) for _ in range(draw.randint(0, 2))]
    points = _points(draw, cut_in, cut_out)
    return Plant(
        altitude=draw.uniform(0, 3000),
        exponent=draw.choice([1.0, 1.0, draw.uniform(1.0, 1.4)]),
        tanks=tuple(Tank(draw.uniform(0.008, 0.3), p, draw.randint(1, 3)) for p in (lowest, *others)),
        cut_in=cut_in,
        cut_out=cut_out,
        points=points,
        demand=draw.uniform(0.05, 0.9) * float(numpy.interp(cut_out, *zip(*points, strict=True))),
    )


def _points(draw: random.Random, cut_in: float, cut_out: float) -> tuple[tuple[float, float], ...]:
    """A pump's curve from below cut-in to above cut-out; every third pump has one flow."""
    count = draw.randint(2, 5)
    span = numpy.linspace(0.8 * cut_in, 1.1 * cut_out, count).tolist()
    flow = draw.uniform(1e-4, 8e-4)
    if draw.randint(0, 2) == 0:
        return tuple((pressure, flow) for pressure in span)
    falls = [0.0, *(draw.uniform(0.05, 0.18) for _ in range(count - 1))]
    return tuple((p, flow * (1 - sum(falls[: place + 1]))) for place, p in enumerate(span))


@dataclass(frozen=True)
class Cycle:
    """Water in m^3 that the tanks take from start to stop, and seconds of run and rest."""

    water: float
    run: float
    rest: float


def _followed(plant: Plant) -> Cycle:
    """A cycle followed in time. Each tank's gas changes by dV/V = -dp/(n p) once the pressure is above its precharge,
    and all of that is water that comes in or goes out. Below the least precharge the pressure changes at once."""
    air = pressure_of_the_air_above(plant.altitude)
    start = max(plant.cut_in, min(tank.precharge for tank in plant.tanks))
    corners = {tank.precharge for tank in plant.tanks} | {pressure for pressure, _ in plant.points}
    way = [start, *sorted(p for p in corners if start < p < plant.cut_out), plant.cut_out]
    gas = [_gas_at_cut_in(tank, plant, air) for tank in plant.tanks]
    run = rest = water = 0.0
    for low, high in pairwise(way):
        seconds, after = _filled(plant, gas, low, high, air)
        taken = sum(gas) - sum(after)
        run, water, gas = run + seconds, water + taken, after
    for high, low in pairwise(reversed(way)):
        seconds, gas = _filled(plant, gas, high, low, air)
        rest += seconds
    return Cycle(water, run, rest)


def _gas_at_cut_in(tank: Tank, plant: Plant, air: float) -> float:
    """The gas of a tank with as much water as cut-in presses into it from its precharge on."""
    whole = tank.count * tank.volume
    if tank.precharge >= plant.cut_in:
        return whole
    span = (tank.precharge + air, plant.cut_in + air)
    pressed = solve_ivp(lambda p, v: -v / (plant.exponent * p), span, [whole], method="DOP853", rtol=1e-11)
    return float(pressed.y[0, -1])


def _filled(plant: Plant, gas: list[float], start: float, end: float, air: float) -> tuple[float, list[float]]:
    """Seconds from one pressure to the other, and the gas of each tank then: filled while the pump runs, emptied by
    the demand after it has stopped."""
    rises = end > start
    takes = [tank.precharge <= min(start, end) for tank in plant.tanks]

    def change(_, state):
        pressure = state[0]
        giving = sum(volume for volume, active in zip(state[1:], takes, strict=True) if active)
        net = (plant.flow_at(pressure) if rises else 0.0) - plant.demand
        speed = net * plant.exponent * (pressure + air) / giving
        share = -speed / (plant.exponent * (pressure + air))
        return [speed, *(volume * share * active for volume, active in zip(state[1:], takes, strict=True))]

    reached = crossing(lambda _, state: state[0] - end, upward=rises)
    begun = [start, *gas]
    found = solve_ivp(change, (0, 1e7), begun, method="DOP853", rtol=1e-10, atol=1e-12, events=reached)
    return float(found.t_events[0][0]), found.y_events[0][0][1:].tolist()


@cache
def _cycles() -> list[tuple[Plant, Any, Cycle]]:
    draw = random.Random(1662)
    plants = [_plant(draw) for _ in range(COUNT)]
    return [(plant, ask("tank-cycle", plant.body()), _followed(plant)) for plant in plants]


def _compared(what: str, ours: Callable[[Any], float], theirs: Callable[[Cycle], float]) -> Comparison:
    found = ((apart(ours(answer), theirs(cycle)), plant.at) for plant, answer, cycle in _cycles())
    return compared(what, ENGINE, found, bound=2 * SIX_DIGITS)


def drawdown() -> Comparison:
    """The answer's six digits, and as much again for the integrator."""
    return _compared("tank drawdown", lambda answer: answer.drawdown.base, lambda cycle: cycle.water)


def run_time() -> Comparison:
    """The answer's six digits, and as much again for the integrator."""
    return _compared("pump's run", lambda answer: answer.run_time.base, lambda cycle: cycle.run)


def rest_time() -> Comparison:
    """The answer's six digits, and as much again for the integrator."""
    return _compared("pump's rest", lambda answer: answer.rest_time.base, lambda cycle: cycle.rest)


def starts() -> Comparison:
    """The answer's six digits, and as much again for the integrator."""
    return _compared("starts an hour", lambda answer: answer.starts_per_hour, lambda c: 3600 / (c.run + c.rest))


def _real_air(end: Callable[[float, float, float], float], exponent: float) -> Iterator[tuple[float, dict[str, Any]]]:
    for precharge in (1.4e5, 2.5e5, 4.0e5):
        for ratio in (1.2, 1.5, 2.0, 2.8):
            for temperature in (273.15, 285.15, 300.15):
                pressure = min(precharge * ratio, 1.14e6)
                start = PropsSI("D", "P", precharge, "T", temperature, "Air")
                real = start / end(precharge, pressure, temperature)
                ours = gas_volume(
                    tank_volume=1.0, precharge_absolute=precharge, pressure_absolute=pressure, gas_exponent=exponent
                )
                yield apart(ours, real), {"precharge Pa": precharge, "Pa": pressure, "K": temperature}


def slow_air() -> Comparison:
    """Up to 1.14 MPa air at the room's temperature departs from an ideal gas by less than 0.5 %."""
    found = _real_air(lambda _, pressure, temperature: PropsSI("D", "P", pressure, "T", temperature, "Air"), 1.0)
    return compared("gas in a slow cycle", "CoolProp, real air", found, bound=5e-3)


def quick_air() -> Comparison:
    """Air pressed so fast that it keeps its entropy; 1.4 is rounded."""

    def keeping_entropy(precharge: float, pressure: float, temperature: float) -> float:
        entropy = PropsSI("S", "P", precharge, "T", temperature, "Air")
        return PropsSI("D", "P", pressure, "S", entropy, "Air")

    return compared("gas in a quick cycle", "CoolProp, real air", _real_air(keeping_entropy, 1.4), bound=5e-3)
