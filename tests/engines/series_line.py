"""Lines of three pipes with what stands between them, as drawn for the comparisons, as asked, and as parts of K."""

import random
from dataclasses import dataclass
from functools import cache
from itertools import pairwise, product
from typing import Any

from engines.asking import of

FLOWS = (0.05e-3, 0.1e-3, 0.2e-3, 0.4e-3, 0.8e-3, 1.5e-3, 3.0e-3)
BORES = (0.015, 0.020, 0.025, 0.032, 0.040, 0.050)
TEMPERATURES = (275.15, 285.15, 298.15, 313.15, 333.15)
ROUGHNESS = (0.0, 1.5e-6, 4.5e-5, 1.5e-4)
COEFFICIENTS = {"coupling": 0.04, "union": 0.04, "elbow-90-push-to-connect": 1.0}
"""K of what is rated by it alone: Crane's K = n fT is held against its own formula in `suction.py`."""


@dataclass(frozen=True)
class StraightPipe:
    """Lengths in m; C of Hazen and Williams; the K of all that is counted at this pipe's velocity."""

    bore: float
    length: float
    roughness: float
    coefficient: float
    fitting: str
    count: int


@dataclass(frozen=True)
class SeriesLine:
    """Flow in m^3/s, temperature in K, and three pipes, the first with a sharp entrance, the last with an exit."""

    flow: float
    temperature: float
    pipes: tuple[StraightPipe, ...]

    @property
    def at(self) -> dict[str, Any]:
        """What tells this line from the others."""
        bores = "+".join(f"{1000 * pipe.bore:.1f}" for pipe in self.pipes)
        return {"L/s": 1000 * self.flow, "K": self.temperature, "bores mm": bores}

    def minor_losses(self) -> list[float]:
        """The K of each pipe: its fittings, the ends of the line, and a change of bore at the smaller of the two."""
        found = [pipe.count * COEFFICIENTS[pipe.fitting] for pipe in self.pipes]
        found[0] += 0.5
        found[-1] += 1.0
        for index, (before, after) in enumerate(pairwise(self.pipes)):
            area_ratio = (min(before.bore, after.bore) / max(before.bore, after.bore)) ** 2
            contracts = before.bore > after.bore
            found[index + contracts] += 0.5 * (1 - area_ratio) if contracts else (1 - area_ratio) ** 2
        return found

    def body(self, method: str) -> dict[str, Any]:
        """The question to `friction`."""
        parts = [{"part": "fitting", "fitting": "entrance-sharp"}]
        for index, pipe in enumerate(self.pipes):
            if index:
                contracts = self.pipes[index - 1].bore > pipe.bore
                change = "sudden-contraction" if contracts else "sudden-enlargement"
                parts.append({"part": "fitting", "fitting": change})
            parts += [_pipe(pipe), {"part": "fitting", "fitting": pipe.fitting, "count": pipe.count}]
        parts.append({"part": "fitting", "fitting": "exit"})
        site = {"water_temperature": of(self.temperature, "K")}
        return {
            "units": "metric",
            "site": site,
            "flow": of(3600 * self.flow, "m^3/h"),
            "line": parts,
            "method": method,
        }


def _pipe(pipe: StraightPipe) -> dict[str, Any]:
    bore = {
        "diameter": of(1000 * pipe.bore, "mm"),
        "roughness": of(1000 * pipe.roughness, "mm"),
        "hazen_williams_coefficient": pipe.coefficient,
    }
    return {"part": "pipe", "bore": bore, "length": of(pipe.length, "m")}


@cache
def lines() -> tuple[SeriesLine, ...]:
    """One line for each flow, bore and temperature; the rest is drawn."""
    draw = random.Random(1938)
    return tuple(
        SeriesLine(flow, temperature, tuple(_drawn(draw, bore, place) for place in range(3)))
        for flow, bore, temperature in product(FLOWS, BORES, TEMPERATURES)
    )


def _drawn(draw: random.Random, bore: float, place: int) -> StraightPipe:
    """The middle pipe has the bore; before and after it stand a narrower or a wider one."""
    return StraightPipe(
        bore=bore if place == 1 else bore * draw.choice([0.8, 0.9, 1.15, 1.3]),
        length=draw.uniform(3.0, 60.0),
        roughness=draw.choice(ROUGHNESS),
        coefficient=draw.uniform(90.0, 155.0),
        fitting=draw.choice(list(COEFFICIENTS)),
        count=draw.randint(1, 6),
    )
