"""Whole lines through the answer of `friction`, against Colebrook's equation solved part by part and against EPANET."""

import math
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

from engines import pipe_network
from engines.asking import ask
from engines.comparison import Comparison, apart, compared
from engines.friction_factor import colebrook
from engines.series_line import SeriesLine, lines
from engines.water import by_coolprop

GRAVITY = 9.80665
LAMINAR_LIMIT = 2040.0
"""Avila et al., Science 333 (2011) 192-196: up to here the service reckons a flow as laminar."""


@cache
def _answered(line: SeriesLine, method: str) -> float:
    return ask("friction", line.body(method)).total_head_loss.base


def _viscosity(line: SeriesLine) -> float:
    water = by_coolprop(line.temperature)
    return water.viscosity / water.density


def _reynolds(line: SeriesLine) -> list[float]:
    return [4 * line.flow / (math.pi * pipe.bore * _viscosity(line)) for pipe in line.pipes]


def _head_by_colebrook(line: SeriesLine) -> float:
    head = 0.0
    for pipe, reynolds, minor in zip(line.pipes, _reynolds(line), line.minor_losses(), strict=True):
        factor = 64 / reynolds if reynolds < LAMINAR_LIMIT else colebrook(reynolds, pipe.roughness / pipe.bore)
        velocity = line.flow / (math.pi * pipe.bore**2 / 4)
        head += (factor * pipe.length / pipe.bore + minor) * velocity**2 / (2 * GRAVITY)
    return head


def _deviations(
    method: str, engine: Callable[[SeriesLine], float], *, spare: tuple[float, float] | None = None
) -> Iterator[tuple[float, dict[str, Any]]]:
    """Of every line but those with a pipe whose Reynolds number lies in the band to spare."""
    for line in lines():
        if spare is None or not any(spare[0] < reynolds < spare[1] for reynolds in _reynolds(line)):
            yield apart(_answered(line, method), engine(line)), line.at


def by_colebrook() -> Comparison:
    """Two formulations of water, whose viscosities part by 3e-5 and densities by 2e-5, and the answer's six digits.
    Spared is what lies so near to the end of laminar flow that they may disagree on the regime."""
    found = _deviations("darcy-weisbach", _head_by_colebrook, spare=(2039.0, 2041.0))
    return compared("line, Darcy-Weisbach", "scipy and CoolProp", found, bound=5e-5)


def by_epanet_darcy_weisbach() -> Comparison:
    """EPANET takes Swamee and Jain's explicit formula, which in one rough pipe near Re 4000 is 3 % off Colebrook's and
    in a line of three less, and a g of 32.2 ft/s^2 (0.08 %). Spared is what lies between laminar and turbulent flow:
    there it blends the two laws, and the service takes the greater loss."""
    found = _deviations(
        "darcy-weisbach",
        lambda line: pipe_network.head_loss(line, viscosity=_viscosity(line)),
        spare=(1999.0, 4001.0),
    )
    return compared("line, Darcy-Weisbach", "EPANET", found, bound=0.02)


def by_epanet_hazen_williams() -> Comparison:
    """The same formula, with its powers rounded to 1.852 and 4.871 and its constant to 4.727, and what is local with
    that g of 32.2 ft/s^2: 0.1 %."""
    found = _deviations("hazen-williams", pipe_network.head_loss)
    return compared("line, Hazen-Williams", "EPANET", found, bound=1e-3)
