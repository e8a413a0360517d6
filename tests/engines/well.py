"""A well through the answer of `well-recovery`, against its level integrated and its recovery fitted by scipy."""

import math
import random
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy
from scipy.integrate import solve_ivp
from scipy.optimize import curve_fit

from engines.asking import ask, of
from engines.comparison import SIX_DIGITS, Comparison, apart, compared
from engines.crossing import crossing

ENGINE = "scipy, level in time"
COUNT = 120


@dataclass(frozen=True)
class Well:
    """A well in SI: A ds/dt = Q - C s, with A the water in each length of casing and C the specific capacity."""

    static: float
    casing: float
    drop_pipe: float
    capacity: float

    @property
    def area(self) -> float:
        """Water in each length of the casing, around the drop pipe."""
        return math.pi / 4 * (self.casing**2 - self.drop_pipe**2)

    @property
    def time_constant(self) -> float:
        """In this time 63 % of a drawdown comes back."""
        return self.area / self.capacity

    @property
    def at(self) -> dict[str, Any]:
        """What tells this well from the others."""
        return {"casing m": self.casing, "C m2/s": self.capacity, "time constant s": self.time_constant}

    def body(self, **more: Any) -> dict[str, Any]:
        """The question to `well-recovery`."""
        pipe = {"drop_pipe_diameter": of(1000 * self.drop_pipe, "mm")} if self.drop_pipe else {}
        return {
            "units": "metric",
            "static_depth": of(self.static, "m"),
            "casing_diameter": of(1000 * self.casing, "mm"),
            **pipe,
            **more,
        }

    def drawdown_after(self, time: float, *, flow: float, start: float = 0.0) -> float:
        """By integration: how far the level stands below rest after a time of pumping from a drawdown."""
        found = solve_ivp(
            lambda _, s: (flow - self.capacity * s) / self.area,
            (0.0, time),
            [start],
            method="DOP853",
            rtol=1e-12,
            atol=1e-14,
        )
        return float(found.y[0, -1])

    def recovery(self, times: list[float], drawdowns: list[float]) -> dict[str, Any]:
        """Readings in seconds since pumping stopped, and m below rest."""
        readings = [
            {"elapsed": of(time, "s"), "depth": of(self.static + drawdown, "m")}
            for time, drawdown in zip(times, drawdowns, strict=True)
        ]
        return {"recovery": {"readings": readings}}


def _well(draw: random.Random) -> Well:
    """From a 4 inch casing that is back in a minute to a dug well that takes half a day."""
    casing = draw.choice([0.1, 0.15, 0.2, 1.0, 1.5])
    area = math.pi / 4 * casing**2
    return Well(
        static=draw.uniform(0.0, 20.0),
        casing=casing,
        drop_pipe=draw.choice([0.0, 0.042]),
        capacity=area / 10 ** draw.uniform(1.8, 4.6),
    )


def pumping_test() -> Comparison:
    """The specific capacity of a level that was integrated with it. Where the casing gave a share y of the test's water
    an error in the readings grows by y / (1 - y) and more; up to 0.9 of it here, of the integrator's last digits."""

    def deviations() -> Iterator[tuple[float, dict[str, Any]]]:
        draw = random.Random(1967)
        for _ in range(COUNT):
            well = _well(draw)
            duration = well.time_constant * draw.uniform(0.3, 5.0)
            flow = min(max(well.capacity * draw.uniform(0.5, 10.0), 2e-6), 0.09)
            fallen = well.drawdown_after(duration, flow=flow)
            test = {
                "flow": of(1000 * flow, "L/s"),
                "pumping_depth": of(well.static + fallen, "m"),
                "duration": of(duration, "s"),
            }
            found = ask("well-recovery", well.body(pumping_test=test)).specific_capacity.base
            yield apart(found, well.capacity), {"duration s": duration, "flow m3/s": flow, **well.at}

    return compared("pumping test", ENGINE, deviations(), bound=2 * SIX_DIGITS)


def recovery() -> Comparison:
    """The specific capacity of readings without error: the answer's six digits, and as much for the integrator."""

    def deviations() -> Iterator[tuple[float, dict[str, Any]]]:
        draw = random.Random(1951)
        for _ in range(COUNT):
            well, start = _well(draw), draw.uniform(1.0, 12.0)
            times = sorted(draw.uniform(0.0, 2.5) * well.time_constant for _ in range(draw.randint(3, 10)))
            drawdowns = [well.drawdown_after(time, flow=0.0, start=start) for time in times]
            found = ask("well-recovery", well.body(**well.recovery(times, drawdowns))).specific_capacity.base
            yield apart(found, well.capacity), {"readings": len(times), **well.at}

    return compared("recovery, exact readings", ENGINE, deviations(), bound=2 * SIX_DIGITS)


def _time_to(well: Well, drawdown: float, flow: float) -> float:
    there = crossing(lambda _, s: s[0] - drawdown, upward=True)

    def change(_, s):
        return (flow - well.capacity * s) / well.area

    found = solve_ivp(change, (0.0, 1e9), [0.0], method="DOP853", rtol=1e-12, atol=1e-14, events=there)
    return float(found.t_events[0][0])


def time_to_limit() -> Comparison:
    """How long a flow above the inflow can be drawn. Close to the inflow the level creeps, and the last digits of the
    specific capacity count for more: ten times as much where it is 95 % of the flow, which is the closest here."""

    def deviations() -> Iterator[tuple[float, dict[str, Any]]]:
        draw = random.Random(1972)
        for _ in range(COUNT):
            well, limit = _well(draw), draw.uniform(2.0, 25.0)
            times = [share * well.time_constant for share in (0.0, 0.4, 0.8, 1.2, 2.0)]
            drawdowns = [well.drawdown_after(time, flow=0.0, start=10.0) for time in times]
            flow = max(well.capacity * limit / draw.uniform(0.05, 0.95), 2e-6)
            asked = {"design_flow": of(1000 * flow, "L/s"), "limit_depth": of(well.static + limit, "m")}
            if flow < 0.1:
                answer = ask("well-recovery", well.body(**well.recovery(times, drawdowns), **asked))
                yield apart(answer.time_to_limit.base, _time_to(well, limit, flow)), {"m": limit, **well.at}

    return compared("time to the limit", ENGINE, deviations(), bound=2 * SIX_DIGITS)


NOISE = (0.003, 0.03, 0.1)
"""m. Standard errors of the readings, from a steel tape to a bad sounder."""


@cache
def _fits() -> list[tuple[float, float, dict[str, Any]]]:
    """The distance of two fits of the same noisy readings in standard errors, and the ratio of those errors less 1."""
    found = []
    well = Well(static=6.0, casing=0.1524, drop_pipe=0.0165, capacity=6e-5)
    for noise in NOISE:
        for seed in range(40):
            times, drawdowns = _noisy(well, numpy.random.default_rng(seed), noise)
            answer = ask("well-recovery", well.body(**well.recovery(times, drawdowns)))
            (_, rate), covariance = curve_fit(
                lambda t, initial, rate: initial * numpy.exp(-rate * t),
                times,
                drawdowns,
                p0=(drawdowns[0], 1 / well.time_constant),
            )
            sigma = well.area * math.sqrt(covariance[1][1])
            between = abs(answer.specific_capacity.base - well.area * rate) / sigma
            ours = answer.fit.standard_uncertainty.base
            found.append((between, apart(ours, sigma), {"noise m": noise, "seed": seed}))
    return found


def _noisy(well: Well, chance: numpy.random.Generator, noise: float) -> tuple[list[float], list[float]]:
    """Twelve readings of a recovery from 6 m, those left out that lie within a tape's error of rest."""
    times = numpy.sort(chance.uniform(0.0, 2.5 * well.time_constant, 12))
    drawdowns = 6.0 * numpy.exp(-times / well.time_constant) + chance.normal(0.0, noise, 12)
    kept = drawdowns > 0.0031
    return times[kept].tolist(), drawdowns[kept].tolist()


def noisy_recovery() -> Comparison:
    """A fit of logarithms with weights against one of the exponential itself: what is left between them is of second
    order, under a tenth of the standard error with readings up to 2 % off."""
    found = ((between, at) for between, _, at in _fits())
    return compared("recovery, noisy readings", "scipy, curve_fit", found, bound=0.1, unit="sigma")


def stated_uncertainty() -> Comparison:
    """The standard error that either fit states: a tenth apart by the same second order."""
    found = ((ratio, at) for _, ratio, at in _fits())
    return compared("its standard uncertainty", "scipy, curve_fit", found, bound=0.1)
