"""Steady flow of water in a full round pipe: velocity, Reynolds number, friction factor, head lost to friction."""

import math
from functools import lru_cache
from typing import Literal

from fluids.friction import LAMINAR_TRANSITION_PIPE, friction_factor

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import (
    STANDARD_GRAVITY,
    CubicMetresPerSecond,
    Metres,
    MetresPerSecond,
    Number,
    SquareMetres,
    SquareMetresPerSecond,
)

Regime = Literal["laminar", "transitional", "turbulent"]

LAMINAR_LIMIT = LAMINAR_TRANSITION_PIPE
"""Reynolds number up to which the flow is taken as laminar: 2040, Avila et al., Science 333 (2011) 192-196."""

TURBULENT_LIMIT = 4000.0
"""Reynolds number from which the flow is turbulent for certain: White, Fluid Mechanics, 7th ed., section 6.1."""

DARCY_WEISBACH = Method(
    "Darcy-Weisbach, friction factor of Colebrook and White",
    "Colebrook, J. Inst. Civ. Eng. 11 (1939) 133-156; exact solution of Clamond, Ind. Eng. Chem. Res. 48 (2009) 3665",
    (Range("reynolds", TURBULENT_LIMIT, 1e8), Range("relative_roughness", 0.0, 0.05)),
    "between laminar and turbulent flow the turbulent factor is taken, which is the greater",
)

LAMINAR_FRICTION = Method(
    "Darcy-Weisbach, friction factor 64/Re of laminar flow",
    "Hagen (1839) and Poiseuille (1840), as in White, Fluid Mechanics, 7th ed., section 6.4 (from memory); to Re 2040: "
    "Avila et al., Science 333 (2011) 192-196",
    (Range("reynolds", 0.0, LAMINAR_LIMIT),),
)


def bore_area(*, diameter: Metres) -> SquareMetres:
    """Cross-section of a round bore, A = pi d^2 / 4.

    Valid for: diameter above zero.
    Source: geometry.

    >>> round(bore_area(diameter=0.025), 9)
    0.000490874
    """
    return math.pi * diameter * diameter / 4.0


def mean_velocity(*, flow: CubicMetresPerSecond, diameter: Metres) -> MetresPerSecond:
    """Mean velocity over the bore, V = Q / A.

    Valid for: a full pipe.
    Source: continuity.
    Raises: OutsideDomain for a diameter that is not above zero.

    >>> round(mean_velocity(flow=0.0005, diameter=0.025), 6)
    1.018592
    """
    if diameter <= 0:
        raise OutsideDomain("the diameter must be above zero")
    return flow / (math.pi * diameter * diameter / 4.0)


def velocity_head(*, velocity: MetresPerSecond) -> Metres:
    """Head that corresponds to a velocity, V^2 / (2 g).

    Valid for: any velocity.
    Source: Bernoulli's equation.

    >>> round(velocity_head(velocity=2.0), 6)
    0.203943
    """
    return velocity * velocity / (2.0 * STANDARD_GRAVITY)


def reynolds_number(
    *, velocity: MetresPerSecond, diameter: Metres, kinematic_viscosity: SquareMetresPerSecond
) -> Number:
    """Ratio of inertia to viscosity in the pipe, Re = V d / nu.

    Valid for: any flow.
    Source: Reynolds, Phil. Trans. R. Soc. 174 (1883) 935-982.

    >>> round(reynolds_number(velocity=1.0, diameter=0.025, kinematic_viscosity=1.0e-6))
    25000
    """
    return velocity * diameter / kinematic_viscosity


def flow_regime(*, reynolds: Number) -> Regime:
    """Name of the regime: laminar to Re 2040, turbulent from 4000, between them neither for certain.

    Valid for: round pipes.
    Source: Avila et al., Science 333 (2011) 192; White, Fluid Mechanics, 7th ed., section 6.1.

    >>> flow_regime(reynolds=25000.0)
    'turbulent'
    """
    if reynolds < LAMINAR_LIMIT:
        return "laminar"
    return "transitional" if reynolds < TURBULENT_LIMIT else "turbulent"


def darcy_friction_factor(*, reynolds: Number, relative_roughness: Number) -> Number:
    """Darcy friction factor: 64/Re when laminar, else the root of
    1/sqrt(f) = -2 log10(e/(3.7 d) + 2.51/(Re sqrt(f))).

    Between Re 2040 and 4000 the turbulent root is taken, which is the greater: no loss is hidden there. Remembered for
    the next call, since a line has its few bores again and again.

    Valid for: Re to 1e8, relative roughness to 0.05.
    Source: Colebrook, J. Inst. Civ. Eng. 11 (1939) 133-156, as solved by fluids.friction.friction_factor.
    Raises: OutsideDomain for a Reynolds number that is not above zero.

    >>> round(darcy_friction_factor(reynolds=1e5, relative_roughness=1e-4), 7)
    0.0185139
    """
    return _darcy_friction_factor(reynolds, relative_roughness)


@lru_cache(maxsize=1024)
def _darcy_friction_factor(reynolds: Number, relative_roughness: Number) -> Number:
    if reynolds <= 0:
        raise OutsideDomain("the Reynolds number must be above zero")
    factor: float = friction_factor(Re=reynolds, eD=relative_roughness)
    return factor


def darcy_weisbach_head_loss(
    *, friction_factor: Number, length: Metres, diameter: Metres, velocity: MetresPerSecond
) -> Metres:
    """Head lost to friction along a pipe, h = f (L / d) V^2 / (2 g).

    Valid for: steady flow in a full pipe of one bore.
    Source: Weisbach (1845); White, Fluid Mechanics, 7th ed., eq. 6.10.

    >>> round(darcy_weisbach_head_loss(friction_factor=0.02, length=30.0, diameter=0.025, velocity=1.0), 6)
    1.223659
    """
    return friction_factor * length / diameter * velocity_head(velocity=velocity)
