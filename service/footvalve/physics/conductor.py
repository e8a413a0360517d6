"""The resistance of a pair of wires, the voltage that is lost in it, and what warm air leaves of an ampacity."""

from math import inf, sqrt

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import Amperes, Fraction, Kelvins, Metres, OhmMetres, Ohms, PerKelvin, SquareMetres, Volts

REFERENCE_TEMPERATURE: Kelvins = 293.15
"""20 degC, to which resistivities are referred. Source: IEC 60028 (1925), section II."""

CONDUCTOR = Method(
    name="resistance of a conductor, straight line in temperature",
    source="IEC 60028 (1925); R = rho20 2 L / A (1 + alpha20 (T - 20 degC)), both ways",
    ranges=(Range("temperature", 233.15, 373.15, "K"),),
    note="direct current; range: own choice",
)

INSULATION_TEMPERATURE: Kelvins = 333.15
"""60 degC, the least that insulation of the code's tables is made for. Source: NFPA 70 (2023), Table 310.16."""

AMPACITY_AIR: Kelvins = 303.15
"""30 degC, the air around the wires of those tables. Source: NFPA 70 (2023), Table 310.16."""

WARM_AIR = Method(
    name="ampacity of insulation for 60 degC in warm air",
    source="NFPA 70 (2023), 310.15(B) and Table 310.15(B)(1), 60 degC column: sqrt((60 - air) / (60 - 30))",
    ranges=(Range("air_temperature", -inf, 328.15, "K"),),
    note="up to 30 degC no more than the table's ampacity is granted",
)


def conductor_resistance(
    *,
    length_one_way: Metres,
    area: SquareMetres,
    resistivity_20: OhmMetres,
    temperature_coefficient: PerKelvin,
    temperature: Kelvins,
) -> Ohms:
    """The resistance of a direct-current run there and back.

        R = 2 L rho20 / A (1 + alpha20 (T - 293.15 K))

    Valid for: CONDUCTOR.ranges; direct current. A stranded conductor's strands are longer than the run by
    their lay: carry that in the area or the resistivity.
    Source: IEC 60028 (1925), section II; IEC 60228 (2004).
    Raises: OutsideDomain for a negative length, an area or resistivity that is not positive, or a temperature
    so low that the straight line gives no resistance.

    >>> round(conductor_resistance(length_one_way=10, area=4e-6, resistivity_20=1.7241e-8,
    ...     temperature_coefficient=0.00393, temperature=348.15), 5)
    0.10484
    """
    warming = 1 + temperature_coefficient * (temperature - REFERENCE_TEMPERATURE)
    if length_one_way < 0 or area <= 0 or resistivity_20 <= 0 or warming <= 0:
        raise OutsideDomain("length must not be negative; area, resistivity and resistance must be positive")
    return 2 * length_one_way * resistivity_20 / area * warming


def resistance_at_temperature(
    *, resistance: Ohms, known_at: Kelvins, temperature_coefficient: PerKelvin, temperature: Kelvins
) -> Ohms:
    """The resistance at one temperature of a conductor whose resistance is known at another.

        R = R1 (1 + alpha20 (T - 293.15 K)) / (1 + alpha20 (T1 - 293.15 K))

    Valid for: CONDUCTOR.ranges.
    Source: IEC 60028 (1925), section II.
    Raises: OutsideDomain for a negative resistance, or a temperature so low that none is left.

    >>> round(resistance_at_temperature(
    ...     resistance=1.98, known_at=348.15, temperature_coefficient=0.00393, temperature=298.15), 3)
    1.66
    """
    known_warming, warming = (
        1 + temperature_coefficient * (t - REFERENCE_TEMPERATURE) for t in (known_at, temperature)
    )
    if resistance < 0 or known_warming <= 0 or warming <= 0:
        raise OutsideDomain("the resistance must not be negative, nor the temperature near absolute zero")
    return resistance * warming / known_warming


def voltage_drop(*, current: Amperes, resistance: Ohms) -> Volts:
    """The voltage that a current loses in a resistance.

        U = I R

    Valid for: direct current.
    Source: Ohm's law.
    Raises: OutsideDomain for a negative current or resistance.

    >>> voltage_drop(current=10, resistance=0.25)
    2.5
    """
    if current < 0 or resistance < 0:
        raise OutsideDomain("current and resistance must not be negative")
    return current * resistance


def warm_air_fraction(*, air_temperature: Kelvins) -> Fraction:
    """The part of its ampacity that a wire with insulation for 60 degC keeps in warm air.

        F = sqrt((Tc - Ta) / (Tc - 30 degC)), at most 1, with Tc = 60 degC

    A current's heat, I^2 R, leaves the wire in proportion to how much warmer it is than the air; the metal may become
    as warm as its insulation, in any air. The code's table has this at the warm end of each 5 K, to two digits.

    Valid for: WARM_AIR.ranges: the code's table ends 5 K below the insulation's own temperature.
    Source: NFPA 70 (2023), 310.15(B); derived above.
    Raises: OutsideDomain for air that is as warm as the insulation may become.

    >>> round(warm_air_fraction(air_temperature=323.15), 2), warm_air_fraction(air_temperature=280.0)
    (0.58, 1.0)
    """
    if not air_temperature < INSULATION_TEMPERATURE:
        raise OutsideDomain("insulation for 60 degC carries nothing in air of 60 degC")
    return min(1.0, sqrt((INSULATION_TEMPERATURE - air_temperature) / (INSULATION_TEMPERATURE - AMPACITY_AIR)))
