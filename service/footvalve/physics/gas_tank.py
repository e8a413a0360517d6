"""How much water a tank with a gas cushion gives between two pressures (diaphragm, bladder and plain tanks).

All pressures are absolute: the gas knows nothing of the gauge's zero, which is why altitude matters.
"""

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import CubicMetres, Fraction, Number, Pascals

GAS_LAW = Method(
    name="Polytropic gas law between absolute pressures (Boyle's law where the exponent is 1)",
    source="R. Boyle (1662); polytropic form p V^n = constant, as in any text on thermodynamics",
    ranges=(
        Range("cut_out_absolute", 5.0e4, 1.14e6, "Pa"),
        Range("gas_exponent", 1.0, 1.4),
    ),
    note="own choice: up to there air departs from an ideal gas by less than 0.5 %",
)
"""Up to 1.14 MPa absolute (a tank rated 150 psi) air departs from an ideal gas by less than 0.5 %.

The exponent is 1 for a cycle slow enough to stay at the room's temperature, and 1.4, the ratio of air's
specific heats, for one too quick for heat to pass.
"""


def gas_volume(
    *,
    tank_volume: CubicMetres,
    precharge_absolute: Pascals,
    pressure_absolute: Pascals,
    gas_exponent: Number = 1.0,
) -> CubicMetres:
    """Volume of the gas in a pre-charged tank at a pressure; below the precharge it fills the whole tank.

        V_gas = V (p0 / p)^(1/n)    for p >= p0,    V_gas = V    for p < p0

    Valid for: ideal gas, to about 1.1 MPa absolute; n from 1 (isothermal) to 1.4 (adiabatic air).
    Source: Boyle's law and its polytropic form, p V^n = constant, with the precharge set in an empty tank.
    Raises: OutsideDomain for a tank without volume, a pressure at or below vacuum, a precharge below vacuum
    or an exponent that is not positive.

    >>> round(gas_volume(tank_volume=0.1, precharge_absolute=3.0e5, pressure_absolute=4.0e5), 6)
    0.075
    """
    if not (tank_volume > 0 and pressure_absolute > 0 and precharge_absolute >= 0 and gas_exponent > 0):
        raise OutsideDomain("a tank needs a volume, an absolute pressure above vacuum and a positive gas exponent")
    if pressure_absolute <= precharge_absolute:
        return tank_volume
    return float(tank_volume * (precharge_absolute / pressure_absolute) ** (1 / gas_exponent))


def drawdown(
    *,
    tank_volume: CubicMetres,
    precharge_absolute: Pascals,
    cut_in_absolute: Pascals,
    cut_out_absolute: Pascals,
    gas_exponent: Number = 1.0,
) -> CubicMetres:
    """Water that a pre-charged tank gives as the pressure falls from cut-out to cut-in.

        V_d = V_gas(p1) - V_gas(p2) = V [(p0 / p1)^(1/n) - (p0 / p2)^(1/n)]    for p0 <= p1

    A precharge above cut-in empties the tank before the switch closes: the drawdown counts from the
    precharge, V [1 - (p0 / p2)^(1/n)], and the pressure at the taps drops at once from there to cut-in. A
    precharge at or above cut-out lets no water in, and the drawdown is 0.

    Valid for: as `gas_volume`; the water left in the tank and the bladder's own stiffness are not counted.
    Source: Boyle's law, as in R. Pelikan's ground-water trade columns on pressure tanks (2008).
    Raises: OutsideDomain for a cut-out that is not above cut-in, and as `gas_volume`.

    >>> round(drawdown(
    ...     tank_volume=0.1, precharge_absolute=3.0e5, cut_in_absolute=3.0e5, cut_out_absolute=4.0e5), 6)
    0.025
    """
    if not cut_out_absolute > cut_in_absolute:
        raise OutsideDomain("the cut-out pressure must be above the cut-in pressure")
    at_cut_in, at_cut_out = (
        gas_volume(
            tank_volume=tank_volume,
            precharge_absolute=precharge_absolute,
            pressure_absolute=pressure,
            gas_exponent=gas_exponent,
        )
        for pressure in (cut_in_absolute, cut_out_absolute)
    )
    return at_cut_in - at_cut_out


def acceptance_fraction(
    *, precharge_absolute: Pascals, cut_out_absolute: Pascals, gas_exponent: Number = 1.0
) -> Fraction:
    """Share of a tank's volume that is water at cut-out.

        f = 1 - (p0 / p2)^(1/n)    for p0 < p2,    f = 0    for p0 >= p2

    Valid for: as `gas_volume`.
    Source: Boyle's law from the precharge in an empty tank; with the precharge at cut-in it is the
    drawdown's share.
    Raises: OutsideDomain as `gas_volume`.

    >>> round(acceptance_fraction(precharge_absolute=3.0e5, cut_out_absolute=4.0e5), 6)
    0.25
    """
    return 1.0 - gas_volume(
        tank_volume=1.0,
        precharge_absolute=precharge_absolute,
        pressure_absolute=cut_out_absolute,
        gas_exponent=gas_exponent,
    )
