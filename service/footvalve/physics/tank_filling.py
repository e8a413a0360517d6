"""The integral of water over net flow while a pump fills pre-charged tanks: the time that a run takes."""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from math import sqrt
from typing import NamedTuple

from footvalve.physics.pump_curve import CurvePiece, PumpCurve
from footvalve.physics.si import CubicMetresPerSecond, Number, Pascals
from footvalve.physics.tank_bank import TankBank


class Stretch(NamedTuple):
    """A piece of the pump's curve on which the same tanks take water: dV = gas p^(-1/n - 1) / n dp."""

    piece: CurvePiece
    gas: float


def stretches(bank: TankBank, pump: PumpCurve) -> tuple[Stretch, ...]:
    """The way from cut-in to cut-out, cut at the points of the curve and where a tank begins to take water; remembered
    for the next call, since a system is asked for many runs.

        gas = sum(V_i p0_i^(1/n)) over the tanks whose precharge is not above the stretch

    Valid for: as `gas_tank.gas_volume`.
    Source: derivative of the gas law, dV/dp = -V_gas / (n p).
    Raises: OutsideDomain as `PumpCurve.flow_at`.

    >>> from footvalve.physics.tank_bank import PrechargedTank
    >>> bank = TankBank((PrechargedTank(0.1, 3.0e5), PrechargedTank(0.1, 3.5e5)), 3.0e5, 4.0e5)
    >>> for piece, gas in stretches(bank, PumpCurve.constant(2.0e-4)):
    ...     print(piece.low, piece.high, gas)
    300000.0 350000.0 30000.0
    350000.0 400000.0 65000.0
    """
    return _stretches(bank, pump)


@lru_cache(maxsize=64)
def _stretches(bank: TankBank, pump: PumpCurve) -> tuple[Stretch, ...]:
    begins = {tank.precharge_absolute for tank in bank.tanks}
    inside = sorted(pressure for pressure in begins if bank.cut_in_absolute < pressure < bank.cut_out_absolute)
    found = []
    for low, high in pairwise([bank.cut_in_absolute, *inside, bank.cut_out_absolute]):
        gas = sum(
            tank.count * tank.volume * tank.precharge_absolute ** (1 / bank.gas_exponent)
            for tank in bank.tanks
            if tank.precharge_absolute <= low
        )
        found += [Stretch(piece, gas) for piece in pump.pieces_between(low, high)]
    return tuple(found)


def water_over_net_flow(
    stretch: Stretch, *, demand: CubicMetresPerSecond, gas_exponent: Number, power: int = 1
) -> float:
    """Water that the tanks take on a stretch, each drop divided by a power of the flow that is left for it.

        integral of dV / (Q(p) - D)^power; with power 1 it is the time, with power 2 its change with demand

    Valid for: a demand below the flow at the stretch's end.
    Source: water balance; on a flat piece the water over the net flow, else Gauss-Legendre quadrature.
    Raises: nothing of its own; the caller holds the demand below the pump's flow.

    >>> flat = Stretch(CurvePiece(3.0e5, 4.0e5, 2.0e-4, 2.0e-4), gas=3.0e4)
    >>> round(water_over_net_flow(flat, demand=1.0e-4, gas_exponent=1.0), 6)
    250.0
    """
    low, high, flow_at_low, flow_at_high = stretch.piece
    if flow_at_low == flow_at_high:
        water: float = stretch.gas * (low ** (-1 / gas_exponent) - high ** (-1 / gas_exponent))
        return water / (flow_at_low - demand) ** power
    pressure_power = -1 / gas_exponent - 1
    total = 0.0
    for panel in _panels(low, high, flow_at_low - demand, flow_at_high - demand):
        total += _gauss_legendre(panel, pressure_power, power)
    return stretch.gas / gas_exponent * total


def value_over_flow(stretch: Stretch, *, at_low: float, at_high: float, gas_exponent: Number) -> float:
    """What a quantity comes to in time while the pump brings the tanks over a stretch with nothing drawn.

        integral of y(p) dV / Q(p),    y straight in p from its value at the low pressure to that at the high one

    With y = 1 it is the time; over the whole way and divided by the time it is the mean.

    Valid for: a flow above zero at the stretch's end.
    Source: water balance; Gauss-Legendre quadrature.
    Raises: nothing of its own.

    >>> flat = Stretch(CurvePiece(3.0e5, 4.0e5, 2.0e-4, 2.0e-4), gas=3.0e4)
    >>> round(value_over_flow(flat, at_low=1.0, at_high=1.0, gas_exponent=1.0), 6)
    125.0
    """
    low, high, *_ = stretch.piece
    slope = (at_high - at_low) / (high - low)
    power = -1 / gas_exponent - 1
    total = 0.0
    for panel in _panels(*stretch.piece):
        low_of_panel, *_ = panel
        value_at_panel = at_low + slope * (low_of_panel - low)
        total += (value_at_panel - slope * low_of_panel) * _gauss_legendre(panel, power, 1)
        total += slope * _gauss_legendre(panel, power + 1, 1)
    return stretch.gas / gas_exponent * total


_GREATEST_RATIO = 2.0
"""On a panel neither pressure nor net flow changes by more, so eight Gauss points are good to 1e-11."""


Panel = tuple[Pascals, Pascals, CubicMetresPerSecond, CubicMetresPerSecond]
"""A piece with its ends as those of a `CurvePiece`, which takes several times as long to make."""


def _panels(
    low: Pascals, high: Pascals, net_low: CubicMetresPerSecond, net_high: CubicMetresPerSecond
) -> Sequence[Panel]:
    """Cut a piece where net flow or pressure changes much: the integrand has poles where they are zero."""
    if net_low > _GREATEST_RATIO * net_high:
        net_middle = sqrt(net_low * net_high)
        middle = low + (high - low) * (net_low - net_middle) / (net_low - net_high)
    elif high > _GREATEST_RATIO * low:
        middle = sqrt(low * high)
        net_middle = CurvePiece(low, high, net_low, net_high).flow_at(middle)
    else:
        return ((low, high, net_low, net_high),)
    return (*_panels(low, middle, net_low, net_middle), *_panels(middle, high, net_middle, net_high))


_GAUSS_POINTS = (
    (0.183434642495650, 0.362683783378362),
    (0.525532409916329, 0.313706645877887),
    (0.796666477413627, 0.222381034453374),
    (0.960289856497536, 0.101228536290376),
)
"""Abscissas and weights for n = 8. Source: Abramowitz and Stegun (1964), Table 25.4."""


def _gauss_legendre(net: Panel, pressure_power: float, flow_power: int) -> float:
    """Integral of p^a / q^b over a piece on which q is straight in p."""
    low, high, net_low, net_high = net
    rise = net_high - net_low
    points = _weighted_powers(low, high, pressure_power)
    if flow_power == 1:
        total = sum([weighted / (net_low + rise * share) for share, weighted in points])
    else:
        total = sum([weighted / (net_low + rise * share) ** flow_power for share, weighted in points])
    return total * (high - low) / 2


@lru_cache(maxsize=1024)
def _weighted_powers(low: Pascals, high: Pascals, pressure_power: Number) -> tuple[tuple[float, float], ...]:
    """For each Gauss point of a piece how far up it lies, and w p^a there: the same at every demand."""
    return tuple(
        (share, weight * (low + (high - low) * share) ** pressure_power)
        for abscissa, weight in _GAUSS_POINTS
        for share in ((1 - abscissa) / 2, (1 + abscissa) / 2)
    )
