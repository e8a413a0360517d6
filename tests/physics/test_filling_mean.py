"""Means over a filling, against scipy's quadrature and a run that is followed in time."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from footvalve.physics.filling_mean import mean_flow_while_filling, mean_while_filling
from footvalve.physics.pump_curve import PumpCurve
from footvalve.physics.pump_cycle import PressureSystem
from footvalve.physics.tank_bank import PrechargedTank, TankBank

PRESSURES = (3.0e5, 3.4e5, 4.1e5, 4.5e5)
PUMP = PumpCurve(PRESSURES, (3.0e-4, 2.9e-4, 2.2e-4, 1.0e-4))
CURRENTS = (8.0, 9.0, 9.5, 7.0)
BANK = TankBank((PrechargedTank(0.1, 2.9e5),), cut_in_absolute=3.0e5, cut_out_absolute=4.5e5)
ONE = PressureSystem(BANK, PUMP)
SYSTEMS = {
    "one tank": ONE,
    "adiabatic": PressureSystem(replace(BANK, gas_exponent=1.4), PUMP),
    "one flow": PressureSystem(BANK, PumpCurve(PRESSURES, (2e-4,) * 4)),
    "precharge above cut-in": PressureSystem(replace(BANK, tanks=(PrechargedTank(0.1, 3.3e5),)), PUMP),
    "two different tanks": PressureSystem(
        replace(BANK, tanks=(PrechargedTank(0.05, 2.8e5, 2), PrechargedTank(0.1, 3.6e5))), PUMP
    ),
    "hardly any flow at cut-out": PressureSystem(BANK, PumpCurve(PRESSURES, (3e-4, 2e-4, 1e-4, 1e-6))),
}


def rate(system, pressure):
    """dV/dp of all tanks."""
    n = system.bank.gas_exponent
    return sum(
        tank.count * tank.volume * (tank.precharge_absolute / pressure) ** (1 / n) / (n * pressure)
        for tank in system.bank.tanks
        if pressure >= tank.precharge_absolute
    )


def integral(system, values):
    """Of values dV / Q over the filling, by quad between the corners."""
    corners = [*PRESSURES[1:-1], *(t.precharge_absolute for t in system.bank.tanks if t.precharge_absolute > 3.0e5)]

    def integrand(pressure):
        return (
            np.interp(pressure, PRESSURES, values)
            * rate(system, pressure)
            / np.interp(pressure, PRESSURES, system.pump.flows)
        )

    return quad(integrand, PRESSURES[0], PRESSURES[-1], points=corners, limit=400, epsrel=1e-11)[0]


@pytest.mark.parametrize("system", SYSTEMS.values(), ids=SYSTEMS.keys())
def test_the_mean_current_is_that_of_scipys_quadrature(system):
    expected = integral(system, CURRENTS) / integral(system, (1.0,) * 4)
    found = mean_while_filling(system, pressures=PRESSURES, values=CURRENTS)
    assert found == pytest.approx(expected, rel=1e-8)


@pytest.mark.parametrize("system", SYSTEMS.values(), ids=SYSTEMS.keys())
def test_the_mean_flow_is_that_of_scipys_quadrature(system):
    """The flow itself, averaged in time like any other quantity, is the water over the time."""
    expected = integral(system, system.pump.flows) / integral(system, (1.0,) * 4)
    assert mean_flow_while_filling(system) == pytest.approx(expected, rel=1e-8)
    assert mean_while_filling(system, pressures=PRESSURES, values=system.pump.flows) == pytest.approx(
        expected, rel=1e-9
    )


def test_the_charge_of_a_run_followed_in_time_is_the_mean_current_times_its_time():
    """An engine that steps dp/dt = Q / (dV/dp) and sums up the current, for the tank of one precharge."""

    def change(_, state):
        pressure = state[0]
        return [
            np.interp(pressure, PRESSURES, PUMP.flows) / rate(ONE, pressure),
            np.interp(pressure, PRESSURES, CURRENTS),
        ]

    def full(_, state):
        return state[0] - PRESSURES[-1]

    full.terminal = True
    run = solve_ivp(change, (0, 1e4), [PRESSURES[0], 0.0], events=full, rtol=1e-9, atol=1e-9, max_step=1.0)
    seconds, charge = run.t[-1], run.y[1][-1]
    found = mean_while_filling(ONE, pressures=PRESSURES, values=CURRENTS)
    assert found == pytest.approx(charge / seconds, rel=1e-6)


@given(st.floats(0.001, 5.0), st.integers(1, 9))
def test_the_size_and_number_of_equal_tanks_do_not_matter(volume, count):
    """Every filling then takes the same share of its time at each pressure."""
    other = PressureSystem(replace(BANK, tanks=(PrechargedTank(volume, 2.9e5, count),)), PUMP)
    assert mean_flow_while_filling(other) == pytest.approx(mean_flow_while_filling(ONE), rel=1e-9)
    found, expected = (mean_while_filling(s, pressures=PRESSURES, values=CURRENTS) for s in (other, ONE))
    assert found == pytest.approx(expected, rel=1e-9)


def test_nor_does_a_precharge_at_or_below_cut_in():
    lower = PressureSystem(replace(BANK, tanks=(PrechargedTank(0.1, 1.5e5),)), PUMP)
    assert mean_flow_while_filling(lower) == pytest.approx(mean_flow_while_filling(ONE), rel=1e-9)


@given(st.lists(st.floats(0.0, 100.0), min_size=4, max_size=4))
def test_a_mean_lies_between_the_least_and_the_greatest(values):
    found = mean_while_filling(ONE, pressures=PRESSURES, values=values)
    assert min(values) - 1e-9 <= found <= max(values) + 1e-9


def test_values_may_be_told_from_below_cut_in_to_above_cut_out():
    wider = mean_while_filling(ONE, pressures=(2.0e5, 6.0e5), values=(4.0, 8.0))
    straight = mean_while_filling(ONE, pressures=PRESSURES, values=[4.0 + (p - 2.0e5) / 1e5 for p in PRESSURES])
    assert wider == pytest.approx(straight, rel=1e-12)


def test_a_tank_that_is_charged_to_cut_out_takes_no_part():
    idle = PressureSystem(replace(BANK, tanks=(*BANK.tanks, PrechargedTank(0.2, BANK.cut_out_absolute))), PUMP)
    found, expected = (mean_while_filling(s, pressures=PRESSURES, values=CURRENTS) for s in (idle, ONE))
    assert found == pytest.approx(expected, rel=1e-12)
