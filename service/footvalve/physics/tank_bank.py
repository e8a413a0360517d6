"""Pre-charged tanks on one pipe with one switch: what they give together, and how far their precharges have moved."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from fluids.numerics import brenth

from footvalve.physics import gas_tank
from footvalve.physics.si import CubicMetres, Fraction, Number, Pascals


@dataclass(frozen=True, slots=True)
class PrechargedTank:
    """One or more equal tanks with a gas cushion, set to a precharge while empty of water."""

    volume: CubicMetres
    precharge_absolute: Pascals
    count: int = 1


@dataclass(frozen=True, slots=True)
class TankBank:
    """Tanks at the height of their switch, with no loss between them, from cut-in to cut-out."""

    tanks: tuple[PrechargedTank, ...]
    cut_in_absolute: Pascals
    cut_out_absolute: Pascals
    gas_exponent: Number = 1.0

    @property
    def volume(self) -> CubicMetres:
        """Volume of all tanks, gas and water together."""
        return sum(tank.count * tank.volume for tank in self.tanks)


def bank_drawdown(bank: TankBank, *, precharge_shift: Pascals = 0.0) -> CubicMetres:
    """Water that the tanks give between cut-out and cut-in, all precharges moved by the same amount.

        V_d = sum(count_i V_d,i(p0_i + shift))

    A tank whose precharge has fallen to vacuum holds no gas and gives nothing.

    Valid for: as `gas_tank.drawdown`.
    Source: `gas_tank.drawdown` for each tank.
    Raises: OutsideDomain as `gas_tank.drawdown`.

    >>> pair = TankBank((PrechargedTank(0.1, 3.0e5, count=2),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5)
    >>> round(bank_drawdown(pair), 6)
    0.05
    """
    return sum(
        tank.count
        * gas_tank.drawdown(
            tank_volume=tank.volume,
            precharge_absolute=max(tank.precharge_absolute + precharge_shift, 0.0),
            cut_in_absolute=bank.cut_in_absolute,
            cut_out_absolute=bank.cut_out_absolute,
            gas_exponent=bank.gas_exponent,
        )
        for tank in bank.tanks
    )


def bank_acceptance_fraction(bank: TankBank) -> Fraction:
    """Share of the tanks' total volume that is water at cut-out.

        f = sum(count_i V_i f_i) / sum(count_i V_i)

    Valid for: as `gas_tank.acceptance_fraction`.
    Source: `gas_tank.acceptance_fraction` for each tank, weighted with its volume.
    Raises: OutsideDomain as `gas_tank.acceptance_fraction`.

    >>> mixed = TankBank((PrechargedTank(0.1, 3.0e5), PrechargedTank(0.1, 2.0e5)), 3.0e5, 4.0e5)
    >>> round(bank_acceptance_fraction(mixed), 6)
    0.375
    """
    water = sum(
        tank.count
        * tank.volume
        * gas_tank.acceptance_fraction(
            precharge_absolute=tank.precharge_absolute,
            cut_out_absolute=bank.cut_out_absolute,
            gas_exponent=bank.gas_exponent,
        )
        for tank in bank.tanks
    )
    return water / bank.volume


def explaining_shifts(bank: TankBank, *, observed_drawdown: CubicMetres) -> tuple[Pascals, ...]:
    """The common shifts of all precharges that give an observed drawdown, from lost gas to too much gas.

        V_d(shift) = V_observed, searched from no gas in any tank to every precharge at cut-out

    One tank has two such shifts, unless the drawdown is the greatest that the switch allows. None are returned where
    the observed drawdown is beyond that: then the tanks or the switch are other than stated.

    Valid for: as `bank_drawdown`. With tanks of different precharge and an exponent other than 1, two shifts that lie
    closer together than an eighth of the way between corners may both be missed.
    Source: `bank_drawdown`, solved by Brent's method between the corners where a tank empties, fills or loses its gas.
    Raises: OutsideDomain as `bank_drawdown`.

    >>> one = TankBank((PrechargedTank(0.1, 3.0e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5)
    >>> [round(shift) for shift in explaining_shifts(one, observed_drawdown=0.02)]
    [-60000, 20000]
    """

    def excess(shift: Pascals) -> CubicMetres:
        return bank_drawdown(bank, precharge_shift=shift) - observed_drawdown

    return tuple(_roots(excess, _shift_grid(bank), tolerance=observed_drawdown * _ROUNDING))


def most_generous_shift(bank: TankBank) -> Pascals:
    """The common shift of all precharges at which the tanks give most.

        argmax V_d(shift); for tanks of one precharge it brings the precharge to cut-in

    Valid for: as `bank_drawdown`; with tanks of different precharge and an exponent other than 1 it is the best of
    eight steps between corners.
    Source: `bank_drawdown`.
    Raises: OutsideDomain as `bank_drawdown`.

    >>> most_generous_shift(TankBank((PrechargedTank(0.1, 2.5e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5))
    50000.0
    """
    return max(_shift_grid(bank), key=lambda shift: bank_drawdown(bank, precharge_shift=shift))


_STEPS_BETWEEN_CORNERS = 8
"""With an exponent of 1 the sum is straight between its corners; the steps catch the bend of others."""


def _shift_grid(bank: TankBank) -> list[Pascals]:
    """Shifts from where no tank has gas to where none takes water, by the corners of each tank's drawdown."""
    marks = (0.0, bank.cut_in_absolute, bank.cut_out_absolute)
    corners = sorted({mark - tank.precharge_absolute for tank in bank.tanks for mark in marks})
    inside = (
        low + (high - low) * step / _STEPS_BETWEEN_CORNERS
        for low, high in pairwise(corners)
        for step in range(_STEPS_BETWEEN_CORNERS)
    )
    return [*inside, corners[-1]]


_ROUNDING = 1e-12
"""A corner that misses the observed drawdown by less is taken for a hit, or the greatest would be missed."""


def _roots(function: Callable[[float], float], grid: Sequence[float], tolerance: float) -> Iterator[float]:
    """Where a function is zero: at a point of the grid, or between two where it changes its sign."""
    values = [function(point) for point in grid]
    for (low, high), (at_low, at_high) in zip(pairwise(grid), pairwise(values), strict=True):
        if abs(at_low) <= tolerance:
            yield low
        elif abs(at_high) > tolerance and at_low * at_high < 0:
            yield float(brenth(function, low, high))
    if abs(values[-1]) <= tolerance:
        yield grid[-1]
