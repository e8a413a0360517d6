"""The head that is left to push water into the pump, and what the pump needs of it."""

from footvalve.physics.head import pressure_head
from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import STANDARD_GRAVITY, KilogramsPerCubicMetre, Metres, Pascals
from footvalve.physics.water import water

NPSH_AVAILABLE = Method(
    "Head of the air on the well's water, less vapour head, lift, losses and acceleration head",
    "Definition of NPSH: ISO 9906:2012, 3.2.20; Davis, Water and Wastewater Engineering (2010), section 3-8",
    (Range("altitude", -500.0, 5000.0, "m"),),
    "an open well under standard air; range: own choice, the altitudes that are lived at",
)

RATED_LIFT = Method(
    "NPSH required = head of standard air on water at 10 degC, less its vapour head, less the rated lift",
    "Definition of NPSH solved for the lift at which the margin is gone; water at 10 degC is a choice, no source",
    (Range("rated_suction_lift", 0.0, 10.0, "m"),),
    "a rated lift that stands for the lift alone, with a short line; range: what air at sea level can carry",
)

RATING_PRESSURE: Pascals = 101325.0
"""Standard atmosphere at sea level: U.S. Standard Atmosphere 1976, equal to ISO 2533:1975."""

RATING_TEMPERATURE = 283.15
"""K. A maker's suction lift is told for cold water; 10 degC is the temperature of much ground water."""


def npsh_available(
    *,
    atmospheric_pressure: Pascals,
    vapour_pressure: Pascals,
    density: KilogramsPerCubicMetre,
    static_lift: Metres,
    losses: Metres,
    acceleration_head: Metres = 0.0,
) -> Metres:
    """Net positive suction head at the pump inlet,
    (p_atm - p_v) / (rho g) - lift - losses - acceleration head.

    The lift is the height of the inlet above the pumping water level; it is below zero for a pump below the water.

    Valid for: an open well under standard air; weather moves the air's head by up to about 3 %.
    Source: ISO 9906:2012, 3.2.20; Davis, Water and Wastewater Engineering (2010), section 3-8.

    >>> round(npsh_available(atmospheric_pressure=101325.0, vapour_pressure=1228.2, density=999.7,
    ...                      static_lift=6.096, losses=0.3048), 3)
    3.809
    """
    air = pressure_head(pressure=atmospheric_pressure - vapour_pressure, density=density)
    return air - static_lift - losses - acceleration_head


def npsh_required_of_rated_lift(*, rated_suction_lift: Metres) -> Metres:
    """NPSH that a pump needs, from the lift that its maker tells for sea level and cold water.

        NPSH_r = (101325 Pa - p_v(10 degC)) / (rho g) - rated lift

    Valid for: a rated lift that stands for the lift alone, with a short suction line.
    Source: definition of NPSH; the water's 10 degC is a choice of this project.
    Raises: OutsideDomain for a lift that no pump reaches, since the air does not carry water so high.

    >>> round(npsh_required_of_rated_lift(rated_suction_lift=6.0), 3)
    4.21
    """
    cold = water(temperature=RATING_TEMPERATURE)
    head = (RATING_PRESSURE - cold.vapour_pressure) / (cold.density * STANDARD_GRAVITY)
    if rated_suction_lift > head:
        raise OutsideDomain(f"air at sea level carries cold water {head:.2f} m high and no higher")
    return head - rated_suction_lift
