"""Head lost in fittings and valves, and where the bore changes."""

import math
from functools import lru_cache

from fluids.fittings import ft_Crane

from footvalve.physics.method import Method, Range
from footvalve.physics.pipe_flow import TURBULENT_LIMIT, velocity_head
from footvalve.physics.si import KilogramsPerCubicMetre, Metres, MetresPerSecond, Number

_TURBULENT = Range("reynolds", TURBULENT_LIMIT, 1e8)
_CRANE_BORES = Range("diameter", 0.012, 0.6, "m")
"""Bores of nominal 1/2 to 24 in, for which Crane's page A-27 tells fT: those of 1/2 in tubing are down to 12 mm."""

CRANE = Method(
    "Resistance coefficient K = n fT of the fitting at the bore of its pipe",
    "Crane Co., Technical Paper 410 (2009), pages A-26 to A-30; fT by its fully rough Colebrook",
    (_TURBULENT, _CRANE_BORES),
    "bores: those of the nominal sizes that fT is told for",
)

CHECK_VALVE = Method(
    "Resistance coefficient K = n fT of a check valve at the bore of its pipe, its disc fully lifted",
    "Crane Co., Technical Paper 410 (2009), pages A-27 and A-28, with the velocity that lifts the disc",
    (_TURBULENT, _CRANE_BORES, Range("velocity_over_the_lifting", 1.0, math.inf)),
)

FIXED_COEFFICIENT = Method(
    "Resistance coefficient K of the fitting, the same at every bore",
    "Crane Co., Technical Paper 410 (2009), equation 2-2",
    (_TURBULENT,),
)

PUSH_TO_CONNECT = Method(
    "Resistance coefficient K of the fitting as measured in one size, the same at every bore",
    "NIST, Measurement and Uncertainty Analysis of Pressure Losses in a Push-to-Connect Elbow and Coupling (abstract)",
    (Range("reynolds", 4.0e4, 1e8),),
)

BORE_CHANGE = Method(
    "Sudden change of bore: K of the smaller bore from the ratio of the two",
    "Crane Co., Technical Paper 410 (2009), page A-26, formulas 1 and 2 at 180 degrees",
    (_TURBULENT,),
)


@lru_cache(maxsize=256)
def turbulent_friction_factor(*, diameter: Metres) -> Number:
    """Friction factor fT of clean commercial steel pipe in fully rough flow, on which Crane's K rests.

    Valid for: bores of 15 to 600 mm.
    Source: Crane Co., Technical Paper 410 (2009), page A-27, through fluids.fittings.ft_Crane.

    >>> round(turbulent_friction_factor(diameter=0.0266), 4)
    0.0223
    """
    factor: float = ft_Crane(diameter)
    return factor


def equivalent_length_coefficient(*, equivalent_diameters: Number, diameter: Metres) -> Number:
    """Resistance coefficient K = n fT of a fitting that is rated by its equivalent length in diameters.

    Valid for: turbulent flow.
    Source: Crane Co., Technical Paper 410 (2009), equation 2-4 and page A-27.

    >>> round(equivalent_length_coefficient(equivalent_diameters=30.0, diameter=0.0266), 3)
    0.668
    """
    return equivalent_diameters * turbulent_friction_factor(diameter=diameter)


def contraction_coefficient(*, smaller_diameter: Metres, larger_diameter: Metres) -> Number:
    """K of a sudden contraction, at the smaller bore: 0.5 (1 - beta^2).

    Valid for: turbulent flow, a flat face.
    Source: Crane Co., Technical Paper 410 (2009), page A-26, formula 1.

    >>> round(contraction_coefficient(smaller_diameter=0.02, larger_diameter=0.04), 4)
    0.375
    """
    ratio = smaller_diameter / larger_diameter
    return 0.5 * (1.0 - ratio * ratio)


def enlargement_coefficient(*, smaller_diameter: Metres, larger_diameter: Metres) -> Number:
    """K of a sudden enlargement, at the smaller bore: (1 - beta^2)^2.

    Valid for: turbulent flow.
    Source: Borda and Carnot; Crane Co., Technical Paper 410 (2009), page A-26, formula 2.

    >>> round(enlargement_coefficient(smaller_diameter=0.02, larger_diameter=0.04), 4)
    0.5625
    """
    ratio = smaller_diameter / larger_diameter
    return (1.0 - ratio * ratio) ** 2


def minor_head_loss(*, coefficient: Number, velocity: MetresPerSecond) -> Metres:
    """Head lost in a fitting, h = K V^2 / (2 g).

    Valid for: turbulent flow, where K does not depend on the Reynolds number.
    Source: Crane Co., Technical Paper 410 (2009), equation 2-2.

    >>> round(minor_head_loss(coefficient=0.67, velocity=1.5), 5)
    0.07686
    """
    return coefficient * velocity_head(velocity=velocity)


def full_lift_velocity(*, constant: float, density: KilogramsPerCubicMetre) -> MetresPerSecond:
    """Velocity that lifts the disc of a check valve fully, V = c / sqrt(rho); below it K does not hold, and the
    loss stays near that of this velocity, since the water has to carry the disc.

    Valid for: check valves at their pipe's bore.
    Source: Crane Co., Technical Paper 410 (2009), pages A-27 and A-28, V = c sqrt(v).

    >>> round(full_lift_velocity(constant=42.7, density=999.5), 3)
    1.351
    """
    return constant / math.sqrt(density)
