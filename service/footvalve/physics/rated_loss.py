"""Pressure lost in things that are known by a rating: strainers, stopped pumps, flow coefficients."""

from math import inf

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.pipe_flow import TURBULENT_LIMIT
from footvalve.physics.si import CubicMetresPerSecond, Number, Pascals

_NEAR_THE_KNOWN = Range("flow_over_the_known", 1.0 / 3.0, 3.0)
_HOW_NEAR = "how far off the known flow: common practice, no source"

SQUARE_LAW = Method(
    "Pressure drop grows with the square of the flow from one known point",
    "Turbulent passages: Crane Co., Technical Paper 410 (2009), equation 2-2, K constant",
    (_NEAR_THE_KNOWN,),
    _HOW_NEAR,
)

STRAINER_LAW = Method(
    "Pressure drop from the rating: in proportion to the flow below the rated flow, by its square above",
    "The greater of Darcy's law for the medium and the square law of the body; choice on the safe side, no source",
    (_NEAR_THE_KNOWN,),
    _HOW_NEAR,
)

FLOW_COEFFICIENT = Method(
    "Flow coefficient: Cv in gal/min at 1 psi, Kv in m^3/h at 1 bar",
    "IEC 60534-2-1 (2011), equation for non-choked turbulent liquid flow",
    (Range("reynolds", TURBULENT_LIMIT, inf),),
    "no cavitation; turbulent by the Reynolds number of the bore, where that is known: own choice",
)

REFERENCE_DENSITY = 999.1026
"""kg/m^3, water at 15 degC (about 60 degF), at which Cv is defined. Source: IAPWS R6-95(2018) at 0.1 MPa."""

CUBIC_METRES_PER_HOUR_OF_KV = 1.0 / 3600.0
PASCALS_OF_KV = 1e5
CUBIC_METRES_PER_SECOND_OF_CV = 231 * 0.0254**3 / 60.0
PASCALS_OF_CV = 0.45359237 * 9.80665 / 0.0254**2


def square_law_drop(*, flow: CubicMetresPerSecond, known_flow: CubicMetresPerSecond, known_drop: Pascals) -> Pascals:
    """Pressure drop of a turbulent passage, dp = dp1 (Q / Q1)^2.

    Valid for: turbulent passages; at flows far below the known one it may tell too little.
    Source: Crane Co., Technical Paper 410 (2009), equation 2-2.
    Raises: OutsideDomain for a known flow that is not above zero.

    >>> square_law_drop(flow=0.001, known_flow=0.0005, known_drop=2000.0)
    8000.0
    """
    if known_flow <= 0:
        raise OutsideDomain("the known flow must be above zero")
    ratio = flow / known_flow
    return known_drop * ratio * ratio


def strainer_drop(*, flow: CubicMetresPerSecond, rated_flow: CubicMetresPerSecond, rated_drop: Pascals) -> Pascals:
    """Pressure drop of a strainer or filter: dp1 (Q / Q1) below the rated flow, dp1 (Q / Q1)^2 above.

    A medium is closer to the straight line, a coarse screen to the square; the greater is taken, so that the
    suction side is never told too little.

    Valid for: flows up to a few times the rated one.
    Source: Darcy's law and the square law; the choice of the greater has no source.
    Raises: OutsideDomain for a rated flow that is not above zero.

    >>> strainer_drop(flow=0.0005, rated_flow=0.001, rated_drop=2000.0)
    1000.0
    """
    if rated_flow <= 0:
        raise OutsideDomain("the rated flow must be above zero")
    ratio = flow / rated_flow
    return rated_drop * max(ratio, ratio * ratio)


def flow_coefficient_drop(*, flow: CubicMetresPerSecond, kv: Number, density: Number) -> Pascals:
    """Pressure drop by a metric flow coefficient, dp = 1 bar (rho / rho0) (Q / Kv)^2, Q in m^3/h.

    Valid for: turbulent flow without cavitation.
    Source: IEC 60534-2-1 (2011).
    Raises: OutsideDomain for a coefficient that is not above zero.

    >>> round(flow_coefficient_drop(flow=1.0 / 3600.0, kv=1.0, density=REFERENCE_DENSITY))
    100000
    """
    if kv <= 0:
        raise OutsideDomain("the flow coefficient must be above zero")
    ratio = flow / (kv * CUBIC_METRES_PER_HOUR_OF_KV)
    return PASCALS_OF_KV * density / REFERENCE_DENSITY * ratio * ratio


def kv_of_cv(*, cv: Number) -> Number:
    """The metric flow coefficient of a Cv: Q in m^3/h at 1 bar for Cv gal/min at 1 psi.

    Valid for: any.
    Source: definitions; NIST SP 811 (2008), Appendix B.8.

    >>> round(kv_of_cv(cv=1.0), 4)
    0.865
    """
    flow = cv * CUBIC_METRES_PER_SECOND_OF_CV * (PASCALS_OF_KV / PASCALS_OF_CV) ** 0.5
    return float(flow / CUBIC_METRES_PER_HOUR_OF_KV)
