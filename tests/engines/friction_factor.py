"""The friction factor against Colebrook's equation solved by scipy, and against Poiseuille's flow integrated."""

import math
from collections.abc import Iterator
from typing import Any

import numpy
from scipy.integrate import quad
from scipy.optimize import brentq

from engines.comparison import Comparison, apart, compared
from footvalve.physics.pipe_flow import darcy_friction_factor

TURBULENT = numpy.geomspace(4e3, 1e8, 60).tolist()
LAMINAR = numpy.geomspace(0.01, 2039.9, 40).tolist()
ROUGHNESS = [0.0, *numpy.geomspace(1e-6, 0.05, 30).tolist()]


def colebrook(reynolds: float, roughness: float) -> float:
    """The root of Colebrook's equation in x = 1/sqrt(f), bracketed, to the last digits of a double."""

    def residual(x):
        return x + 2 * math.log10(roughness / 3.7 + 2.51 * x / reynolds)

    return brentq(residual, 0.5, 50.0, xtol=1e-14, rtol=1e-15) ** -2


def poiseuille(reynolds: float) -> float:
    """The factor of a laminar flow, from the balance of pressure and shear on each cylinder of water.

    With radius, density and viscosity 1 the pressure falls by G a length, the shear at r is G r / 2, and the mean
    velocity is the integral of r^2 times that shear; G is what makes the wanted Reynolds number.
    """
    mean_of_unit_gradient = quad(lambda r: r**2 * r / 2, 0.0, 1.0)[0]
    velocity = reynolds / 2.0
    gradient = velocity / mean_of_unit_gradient
    return gradient * 2.0 / (velocity**2 / 2.0)


def _grid(flows: list[float], engine) -> Iterator[tuple[float, dict[str, Any]]]:
    for reynolds in flows:
        for roughness in ROUGHNESS:
            ours = darcy_friction_factor(reynolds=reynolds, relative_roughness=roughness)
            yield apart(ours, engine(reynolds, roughness)), {"Re": reynolds, "e/d": roughness}


def turbulent() -> Comparison:
    """The explicit solution in use is exact: nothing is left to see beyond rounding."""
    return compared("friction factor, turbulent", "scipy, Colebrook", _grid(TURBULENT, colebrook), bound=1e-12)


def laminar() -> Comparison:
    """64/Re whatever the wall: only rounding may differ."""
    found = _grid(LAMINAR, lambda reynolds, _: poiseuille(reynolds))
    return compared("friction factor, laminar", "scipy, Poiseuille", found, bound=1e-12)
