"""The air that carries a battery's hydrogen away."""

from math import inf

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import AmpereHours, CubicMetresPerSecond, Kelvins, Pascals, SquareMetres

SECONDS_AN_HOUR = 3600.0
FARADAY_CONSTANT = 96485.33212
"""C/mol. Source: CODATA 2018, exact."""
MOLAR_GAS_CONSTANT = 8.314462618
"""J/(mol K). Source: CODATA 2018, exact."""

VENTILATION = Method(
    name="ventilation that keeps hydrogen below 4 % by volume with fivefold safety",
    source="IEC 62485-2 (2010), 7.2 and 7.3: Q = 0.05 n I_gas C_rt / 1000; A = 28 Q",
    ranges=(Range("temperature", -inf, 313.15, "K"),),
    note="the currents that make gas allow for so much warmth and no more (read of the same table in a copy)",
)


def ventilation_flow(*, cells: int, gassing_current: float, rated_capacity: AmpereHours) -> CubicMetresPerSecond:
    """The air flow that keeps the hydrogen of a charging battery harmless.

        Q = 0.05 n I_gas C_rt / 1000, in m^3/h, with I_gas in mA for each Ah of rated capacity

    0.05 m^3/(A h) is 24 (dilution to 4 %) times 0.42e-3 m^3/(A h) (hydrogen at 0 degC) times 5 (safety).

    Valid for: lead-acid and nickel-cadmium cells; `cells` are all cells in series, summed over the strings.
    Source: IEC 62485-2 (2010), 7.2.
    Raises: OutsideDomain for a negative input.

    >>> round(ventilation_flow(cells=6, gassing_current=20, rated_capacity=200) * 3600, 6)
    1.2
    """
    if min(cells, gassing_current, rated_capacity) < 0:
        raise OutsideDomain("cells, gassing current and capacity must not be negative")
    return 0.05 * cells * gassing_current * rated_capacity / 1000 / SECONDS_AN_HOUR


def ventilation_opening(*, flow: CubicMetresPerSecond) -> SquareMetres:
    """The free area that the inlet must have, and the outlet again, where the air moves by itself.

        A = 28 Q, in cm^2 with Q in m^3/h

    Valid for: natural ventilation, air at about 0.1 m/s through openings in opposite walls.
    Source: IEC 62485-2 (2010), 7.3.
    Raises: OutsideDomain for a negative flow.

    >>> round(ventilation_opening(flow=1.2 / 3600) * 1e4, 6)
    33.6
    """
    if flow < 0:
        raise OutsideDomain("a flow must not be negative")
    return 28e-4 * flow * SECONDS_AN_HOUR


def hydrogen_evolution(*, cells: int, current: float, temperature: Kelvins, pressure: Pascals) -> CubicMetresPerSecond:
    """The hydrogen that an overcharging current sets free, if all of it splits water.

        q = n I R T / (2 F p)

    Valid for: full cells, where the whole current splits water; below that it is an upper bound.
    Source: Faraday's law; ideal gas; CODATA 2018 constants.
    Raises: OutsideDomain for negative cells or current, or a temperature or pressure that is not positive.

    >>> round(hydrogen_evolution(cells=1, current=1, temperature=273.15, pressure=101325) * 3.6e6, 4)
    0.4181
    """
    if cells < 0 or current < 0 or temperature <= 0 or pressure <= 0:
        raise OutsideDomain("cells and current must not be negative, temperature and pressure positive")
    return cells * current * MOLAR_GAS_CONSTANT * temperature / (2 * FARADAY_CONSTANT * pressure)
