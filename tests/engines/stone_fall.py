"""A stone's depth through the answer of `sounding`, against its motion integrated in CoolProp's air."""

from collections.abc import Iterator
from itertools import product
from typing import Any

import numpy
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from engines.air import GRAVITY, pressure_of_the_air_above
from engines.asking import ask, of
from engines.comparison import Comparison, apart, compared

DIAMETERS = (0.005, 0.010, 0.020, 0.040, 0.080, 0.300)
ALTITUDES = (0.0, 750.0, 1500.0, 3000.0)
TEMPERATURES = (253.15, 273.15, 293.15, 313.15)
TIMES = numpy.geomspace(0.1, 10.0, 15).tolist()

ROCK = 2670.0
"""kg/m^3: mean of the upper crust's rocks, S. B. Smithson, Geophysics 36 (1971)."""
DRAG = 0.47
"""Of a sphere from Reynolds numbers of 1e4 to 1e5: S. F. Hoerner, Fluid-Dynamic Drag (1965)."""


def _integrated_depths(diameter: float, altitude: float, temperature: float) -> list[float]:
    """Depths at which a stone is, by weight, buoyancy and drag, when its sound from there is heard at each time."""
    state = ("T", temperature, "P", pressure_of_the_air_above(altitude), "Air")
    air, sound = PropsSI("D", *state), PropsSI("A", *state)
    weight = GRAVITY * (1 - air / ROCK)
    drag = 0.75 * DRAG * air / (ROCK * diameter)
    motion = solve_ivp(
        lambda _, now: (now[1], weight - drag * now[1] ** 2),
        (0.0, TIMES[-1]),
        (0.0, 0.0),
        method="DOP853",
        rtol=1e-11,
        atol=1e-13,
        dense_output=True,
    ).sol

    def struck(time):
        return brentq(lambda falling: falling + motion(falling)[0] / sound - time, 0.0, time, xtol=1e-13)

    return [float(motion(struck(time))[0]) for time in TIMES]


def _answered_depths(diameter: float, altitude: float, temperature: float) -> list[float]:
    drop = {
        "method": "stone-drop",
        "times": [of(time, "s") for time in TIMES],
        "stone_diameter": of(1000 * diameter, "mm"),
    }
    site = {"altitude": of(altitude, "m"), "air_temperature": of(temperature, "K")}
    answer = ask("sounding", {"units": "metric", "site": site, "measurement": drop})
    return [reading.base for reading in answer.readings]


def _deviations() -> Iterator[tuple[float, dict[str, Any]]]:
    for stone in product(DIAMETERS, ALTITUDES, TEMPERATURES):
        for time, ours, theirs in zip(TIMES, _answered_depths(*stone), _integrated_depths(*stone), strict=True):
            where = dict(zip(("mm", "altitude m", "K"), (1000 * stone[0], *stone[1:]), strict=True))
            yield apart(ours, theirs), {"s": time, **where}


def integrated() -> Comparison:
    """The service leaves buoyancy out of the acceleration (0.052 % of g in air of -20 degC at sea level) and takes dry
    air for an ideal gas (0.1 % of its density, 0.04 % of the speed of sound)."""
    return compared("stone drop", "scipy, motion; CoolProp", _deviations(), bound=6e-4)
