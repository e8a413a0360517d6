"""What a quantity of the running pump is on the mean while it brings the tanks from cut-in to cut-out."""

from bisect import bisect_right
from collections.abc import Sequence

from footvalve.physics.gas_tank import GAS_LAW
from footvalve.physics.method import Method
from footvalve.physics.pump_cycle import PressureSystem, run_time, system_drawdown
from footvalve.physics.si import CubicMetresPerSecond, Pascals
from footvalve.physics.tank_filling import stretches, value_over_flow

FILLING_MEAN = Method(
    "Mean over the time of one filling with nothing drawn: integral of y dV / Q over that of dV / Q, dV by the gas law",
    "water balance and the gas law; Gauss-Legendre quadrature",
    GAS_LAW.ranges,
    "while the house draws, the pressure rises more slowly near cut-out, where the flow is least: the mean then "
    "lies nearer to the figures at cut-out",
)


def mean_flow_while_filling(system: PressureSystem) -> CubicMetresPerSecond:
    """The pump's mean flow in time over one filling, the water that it brings over the time that it takes.

        Q_mean = V_d / t_run

    Valid for: a filling with nothing drawn; with one precharge at or below cut-in it does not depend on the volume.
    Source: water balance.
    Raises: OutsideDomain as `pump_cycle.run_time`.

    >>> from footvalve.physics.pump_curve import PumpCurve
    >>> from footvalve.physics.tank_bank import PrechargedTank, TankBank
    >>> bank = TankBank((PrechargedTank(0.1, 3.0e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5)
    >>> round(mean_flow_while_filling(PressureSystem(bank, PumpCurve((3.0e5, 4.0e5), (3.0e-4, 2.0e-4)))), 9)
    0.000251436
    """
    return system_drawdown(system) / run_time(system, demand=0.0)


def mean_while_filling(system: PressureSystem, *, pressures: Sequence[Pascals], values: Sequence[float]) -> float:
    """The mean in time over one filling of a quantity that is known at some tank pressures and straight between them.

        y_mean = integral of y(p) dV / Q(p)  /  t_run

    Valid for: pressures that rise and hold those of the pump's curve within the switch, from cut-in or below to
    cut-out or above.
    Source: water balance and the gas law.
    Raises: OutsideDomain as `pump_cycle.run_time`.

    >>> from footvalve.physics.pump_curve import PumpCurve
    >>> from footvalve.physics.tank_bank import PrechargedTank, TankBank
    >>> bank = TankBank((PrechargedTank(0.1, 3.0e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5)
    >>> system = PressureSystem(bank, PumpCurve((3.0e5, 4.0e5), (2.0e-4, 2.0e-4)))
    >>> round(mean_while_filling(system, pressures=(3.0e5, 4.0e5), values=(8.0, 9.0)), 6)
    8.452185
    """
    total, duration = 0.0, run_time(system, demand=0.0)
    for stretch in stretches(system.bank, system.pump):
        low, high, *_ = stretch.piece
        index = min(bisect_right(pressures, low), len(pressures) - 1) - 1
        start, end = pressures[index : index + 2]
        at_start, slope = values[index], (values[index + 1] - values[index]) / (end - start)
        total += value_over_flow(
            stretch,
            at_low=at_start + slope * (low - start),
            at_high=at_start + slope * (high - start),
            gas_exponent=system.bank.gas_exponent,
        )
    return total / duration
