"""How long a pump runs and rests between cut-in and cut-out, and how often it starts."""

from dataclasses import dataclass
from functools import lru_cache

from fluids.numerics import brenth

from footvalve.physics.method import Method, OutsideDomain
from footvalve.physics.pump_curve import PumpCurve
from footvalve.physics.si import CubicMetres, CubicMetresPerSecond, PerHour, Seconds
from footvalve.physics.tank_bank import TankBank, bank_drawdown
from footvalve.physics.tank_filling import stretches, water_over_net_flow

PUMP_CYCLE = Method(
    name="Water balance of the tank: dV/dt = pump flow at the tank's pressure, less a steady demand",
    source="conservation of volume; for a constant flow R. Pelikan, ground-water trade columns (2008)",
    note="a steady demand",
)

SECONDS_PER_HOUR = 3600.0


@dataclass(frozen=True, slots=True)
class PressureSystem:
    """Tanks with their switch, and the pump that fills them; all pressures absolute, the pump's curve too."""

    bank: TankBank
    pump: PumpCurve


@dataclass(frozen=True, slots=True)
class WorstCase:
    """The steady demand that makes the pump start most often, and how often that is."""

    demand: CubicMetresPerSecond
    starts_per_hour: PerHour


def system_drawdown(system: PressureSystem) -> CubicMetres:
    """Water that the system's tanks give between cut-out and cut-in.

        V_d as `tank_bank.bank_drawdown`

    Valid for: as `tank_bank.bank_drawdown`.
    Source: `tank_bank.bank_drawdown`.
    Raises: OutsideDomain where the tanks hold no water at cut-out (every precharge at or above it), and as
    there.

    >>> from footvalve.physics.tank_bank import PrechargedTank
    >>> bank = TankBank((PrechargedTank(0.1, 3.0e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5)
    >>> system = PressureSystem(bank, PumpCurve.constant(2.0e-4))
    >>> round(system_drawdown(system), 6)
    0.025
    """
    water = bank_drawdown(system.bank)
    if not water > 0:
        raise OutsideDomain("the tanks take no water between cut-in and cut-out")
    return water


def pump_stops(system: PressureSystem, *, demand: CubicMetresPerSecond) -> bool:
    """Whether the pump brings the tank up to cut-out while water is drawn.

        Q(p2) > D; the flow never rises with pressure, so cut-out is where the pump gives least

    Valid for: a steady demand.
    Source: water balance.
    Raises: OutsideDomain for a negative demand, or points that do not reach cut-out.

    >>> from footvalve.physics.tank_bank import PrechargedTank
    >>> bank = TankBank((PrechargedTank(0.1, 3.0e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5)
    >>> system = PressureSystem(bank, PumpCurve.constant(2.0e-4))
    >>> pump_stops(system, demand=2.0e-4)
    False
    """
    if not demand >= 0:
        raise OutsideDomain("a demand is zero or more")
    return system.pump.flow_at(system.bank.cut_out_absolute) > demand


def run_time(system: PressureSystem, *, demand: CubicMetresPerSecond) -> Seconds:
    """Time from the pump's start at cut-in to its stop at cut-out while water is drawn; remembered for the next call.

        t_run = integral from p1 to p2 of (dV/dp) / (Q(p) - D) dp
        dV/dp = sum(V_i p0_i^(1/n)) p^(-1/n - 1) / n

    over the tanks whose precharge is below p. Where the flow is constant it is V_d / (Q - D).

    Valid for: a steady demand, the pump's flow following the tank's pressure at once.
    Source: water balance; Gauss-Legendre quadrature between the points of the curve and the precharges.
    Raises: OutsideDomain where the pump never stops, and as `system_drawdown`.

    >>> from footvalve.physics.tank_bank import PrechargedTank
    >>> bank = TankBank((PrechargedTank(0.1, 3.0e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5)
    >>> system = PressureSystem(bank, PumpCurve.constant(2.0e-4))
    >>> round(run_time(system, demand=1.0e-4), 6)
    250.0
    """
    return _run_time(system, demand)


@lru_cache(maxsize=64)
def _run_time(system: PressureSystem, demand: CubicMetresPerSecond) -> Seconds:
    if not pump_stops(system, demand=demand):
        raise OutsideDomain("the pump never reaches cut-out: it gives no more there than is drawn")
    system_drawdown(system)
    return sum(
        water_over_net_flow(stretch, demand=demand, gas_exponent=system.bank.gas_exponent)
        for stretch in stretches(system.bank, system.pump)
    )


def rest_time(system: PressureSystem, *, demand: CubicMetresPerSecond) -> Seconds:
    """Time from the pump's stop to its next start while water is drawn.

        t_rest = V_d / D

    Valid for: a steady demand above zero.
    Source: water balance; R. Pelikan (2008).
    Raises: OutsideDomain for a demand that is not positive (the pump never starts again), and as
    `system_drawdown`.

    >>> from footvalve.physics.tank_bank import PrechargedTank
    >>> bank = TankBank((PrechargedTank(0.1, 3.0e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5)
    >>> system = PressureSystem(bank, PumpCurve.constant(2.0e-4))
    >>> round(rest_time(system, demand=1.0e-4), 6)
    250.0
    """
    if not demand > 0:
        raise OutsideDomain("without a demand the pump never starts again")
    return system_drawdown(system) / demand


def starts_per_hour(system: PressureSystem, *, demand: CubicMetresPerSecond) -> PerHour:
    """Starts of the pump in an hour of steady demand: 0 without demand, and 0 where the pump never stops.

        N = 3600 / (t_run + t_rest)

    Valid for: as `run_time`.
    Source: water balance; R. Pelikan (2008).
    Raises: OutsideDomain as `pump_stops` and `system_drawdown`.

    >>> from footvalve.physics.tank_bank import PrechargedTank
    >>> bank = TankBank((PrechargedTank(0.1, 3.0e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5)
    >>> system = PressureSystem(bank, PumpCurve.constant(2.0e-4))
    >>> round(starts_per_hour(system, demand=1.0e-4), 6)
    7.2
    """
    if demand == 0 or not pump_stops(system, demand=demand):
        return 0.0
    return SECONDS_PER_HOUR / (run_time(system, demand=demand) + rest_time(system, demand=demand))


def worst_case(system: PressureSystem) -> WorstCase:
    """The steady demand that starts the pump most often.

        d(t_run + t_rest)/dD = integral of dV / (Q - D)^2 - V_d / D^2 = 0

    The time of a cycle is convex in D, so there is one such demand. It is half the flow of a constant pump;
    of a curve it lies between half the flow at cut-out and half the flow at cut-in, and below the flow at
    cut-out.

    Valid for: as `run_time`.
    Source: water balance, solved by Brent's method; 15 Q / V_d starts an hour of a constant flow after
    R. Pelikan (2008).
    Raises: OutsideDomain for a pump that gives nothing at cut-out (it never stops), and as `system_drawdown`.

    >>> from footvalve.physics.tank_bank import PrechargedTank
    >>> bank = TankBank((PrechargedTank(0.1, 3.0e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5)
    >>> system = PressureSystem(bank, PumpCurve.constant(2.0e-4))
    >>> worst = worst_case(system)
    >>> worst.demand, round(worst.starts_per_hour, 6)
    (0.0001, 7.2)
    """
    if not pump_stops(system, demand=0.0):
        raise OutsideDomain("the pump gives nothing at cut-out: it never stops")
    demand = _busiest_demand(system)
    return WorstCase(demand, starts_per_hour(system, demand=demand))


def tank_volume_for_run(system: PressureSystem, *, least_run: Seconds) -> CubicMetres:
    """Total tank volume, in the given mix and precharges, that makes the shortest run last a given time.

        V = sum(V_i) t_least / t_run(D = 0)

    The run is shortest with no demand, and grows in proportion to the volume.

    Valid for: as `run_time`.
    Source: water balance; V_d = Q t for a constant flow, R. Pelikan (2008).
    Raises: OutsideDomain for a time that is not positive, and as `run_time`.

    >>> from footvalve.physics.tank_bank import PrechargedTank
    >>> bank = TankBank((PrechargedTank(0.1, 3.0e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.0e5)
    >>> system = PressureSystem(bank, PumpCurve.constant(2.0e-4))
    >>> round(tank_volume_for_run(system, least_run=60.0), 6)
    0.048
    """
    if not least_run > 0:
        raise OutsideDomain("a least run is longer than nothing")
    return system.bank.volume * least_run / run_time(system, demand=0.0)


def _busiest_demand(system: PressureSystem) -> CubicMetresPerSecond:
    least, most = (system.pump.flow_at(p) for p in (system.bank.cut_out_absolute, system.bank.cut_in_absolute))
    if least == most:
        return least / 2
    water, way = system_drawdown(system), stretches(system.bank, system.pump)

    def change_of_cycle_time(demand: CubicMetresPerSecond) -> float:
        longer_runs = [
            water_over_net_flow(stretch, demand=demand, gas_exponent=system.bank.gas_exponent, power=2)
            for stretch in way
        ]
        return sum(longer_runs) - water / demand**2

    low, high = least / 2, min(most / 2, least * (1 - _NEAREST_TO_NEVER_STOPPING))
    at_low = change_of_cycle_time(low)
    if at_low >= 0:
        return low
    at_high = change_of_cycle_time(high)
    if at_high <= 0:
        return high
    return float(brenth(change_of_cycle_time, low, high, fa=at_low, fb=at_high, xtol=least * 1e-10))


_NEAREST_TO_NEVER_STOPPING = 1e-9
"""The search for the busiest demand ends this share below the flow at cut-out, where a run has no end."""
