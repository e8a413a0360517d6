"""What a solar array brings in a day, and what a day's loads ask of it."""

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import AmpereHours, Fraction, Hours, Volts, WattHours, Watts

PEAK_SUN = Method(
    name="peak sun hours: the array gives its rated power for as many hours as the day's sun is worth",
    source="common practice, no source; a peak sun hour is 1 kWh/m^2, the sun of IEC 61215 ratings",
    ranges=(Range("sun_hours", 0.0, 10.0, "h"),),
    note="own choice: on a fixed plane the sunniest months of the deserts bring less; hours of daylight are more",
)


def daily_harvest(*, array_power: Watts, sun_hours: Hours, derate: Fraction) -> WattHours:
    """The energy that an array brings in a day.

        E = P h d, where d takes off for heat, dirt, wire and a charger that does not follow the best voltage

    Valid for: sun hours in the plane of the array, of the month in question.
    Source: common practice, no source.
    Raises: OutsideDomain for a negative power, sun hours outside 0 to 24, or a derating outside 0 to 1.

    >>> round(daily_harvest(array_power=200, sun_hours=4, derate=0.7), 6)
    560.0
    """
    if array_power < 0 or not 0 <= sun_hours <= 24 or not 0 <= derate <= 1:
        raise OutsideDomain("power must not be negative, sun hours 0 to 24, the derating 0 to 1")
    return array_power * sun_hours * derate


def daily_need(*, charge: AmpereHours, voltage: Volts, charge_efficiency: Fraction) -> WattHours:
    """The energy that must come in each day so that a day's charge goes back.

        E = Q U / eta

    All of the charge is taken to go through the battery, though loads that run in the sun spare it.

    Valid for: the battery's nominal voltage on both sides.
    Source: definition of the coulombic efficiency.
    Raises: OutsideDomain for a negative charge, or a voltage or efficiency that is not positive.

    >>> round(daily_need(charge=34, voltage=12, charge_efficiency=0.85), 6)
    480.0
    """
    if charge < 0 or voltage <= 0 or not 0 < charge_efficiency <= 1:
        raise OutsideDomain("charge must not be negative, voltage positive, the efficiency above 0 to 1")
    return charge * voltage / charge_efficiency
