"""Run, rest and starts against published rules, a search over all demands, and what must hold for any system."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from footvalve.physics.method import OutsideDomain
from footvalve.physics.pump_curve import PumpCurve
from footvalve.physics.pump_cycle import (
    PressureSystem,
    pump_stops,
    rest_time,
    run_time,
    starts_per_hour,
    system_drawdown,
    tank_volume_for_run,
    worst_case,
)
from footvalve.physics.tank_bank import PrechargedTank, TankBank

GALLON = 3.785411784e-3
GALLON_PER_MINUTE = GALLON / 60
"""NIST SP 811 (2008), Appendix B.8."""

FALLING = PumpCurve((2.5e5, 3.4e5, 4.6e5, 5.2e5), (3.0e-4, 2.6e-4, 1.2e-4, 2.0e-5))
BANK = TankBank((PrechargedTank(0.12, 2.9e5),), cut_in_absolute=3.05e5, cut_out_absolute=4.5e5)
ONE_TANK = PressureSystem(BANK, FALLING)
SYSTEMS = {
    "constant flow": PressureSystem(BANK, PumpCurve.constant(2.0e-4)),
    "falling flow": ONE_TANK,
    "adiabatic": PressureSystem(replace(BANK, gas_exponent=1.4), FALLING),
    "precharge above cut-in": PressureSystem(replace(BANK, tanks=(PrechargedTank(0.12, 3.6e5),)), FALLING),
    "two different tanks": PressureSystem(
        replace(BANK, tanks=(PrechargedTank(0.08, 2.9e5, 2), PrechargedTank(0.05, 3.7e5))), FALLING
    ),
    "flow nearly spent at cut-out": PressureSystem(replace(BANK, cut_out_absolute=5.19e5), FALLING),
    "wide switch": PressureSystem(
        TankBank((PrechargedTank(0.1, 1.0e5),), cut_in_absolute=1.1e5, cut_out_absolute=8.9e5),
        PumpCurve((1.0e5, 9.0e5), (4e-4, 1e-4)),
    ),
}


@pytest.mark.parametrize("system", SYSTEMS.values(), ids=SYSTEMS.keys())
def test_worst_case_is_that_of_a_search_over_all_demands(system):
    most = system.pump.flow_at(system.bank.cut_out_absolute)
    searched = minimize_scalar(
        lambda d: -starts_per_hour(system, demand=d),
        bounds=(0, most),
        method="bounded",
        options={"xatol": most * 1e-9},
    )
    found = worst_case(system)
    assert found.demand == pytest.approx(searched.x, rel=1e-5)
    assert found.starts_per_hour == pytest.approx(-searched.fun, rel=1e-9)


@pytest.mark.parametrize(("pump_gpm", "drawdown_gal", "expected"), [(10, 10, 15.0), (5, 10, 7.5), (12, 6, 30.0)])
def test_a_constant_pump_starts_15_times_its_flow_over_the_drawdown_at_worst(pump_gpm, drawdown_gal, expected):
    """15 Q / V_d, at half the flow (ground-water trade columns, computed)."""
    tank = PrechargedTank(drawdown_gal * GALLON / (1 - 3 / 5), 3e5)
    system = PressureSystem(TankBank((tank,), 3e5, 5e5), PumpCurve.constant(pump_gpm * GALLON_PER_MINUTE))
    found = worst_case(system)
    assert found.starts_per_hour == pytest.approx(expected, rel=1e-12)
    assert found.demand == pytest.approx(pump_gpm * GALLON_PER_MINUTE / 2, rel=1e-12)


def test_a_gallon_of_drawdown_for_each_gallon_a_minute_runs_a_minute():
    """The trade's rule of one minute (R. Pelikan, ground-water trade columns, 2008, seen)."""
    tank = PrechargedTank(10 * GALLON / (1 - 3 / 5), 3e5)
    system = PressureSystem(TankBank((tank,), 3e5, 5e5), PumpCurve.constant(10 * GALLON_PER_MINUTE))
    assert run_time(system, demand=0.0) == pytest.approx(60.0)
    assert tank_volume_for_run(system, least_run=60.0) == pytest.approx(tank.volume)


@given(st.floats(0.01, 0.99))
def test_starts_peak_at_half_the_flow_and_are_the_same_on_either_side(share):
    system = SYSTEMS["constant flow"]
    flow = system.pump.flow_at(system.bank.cut_out_absolute)
    here, mirrored = (starts_per_hour(system, demand=d) for d in (share * flow, (1 - share) * flow))
    assert here == pytest.approx(mirrored, rel=1e-9)
    assert here <= starts_per_hour(system, demand=flow / 2) * (1 + 1e-12)


@settings(max_examples=50)
@given(st.sampled_from(sorted(SYSTEMS)), st.floats(1.01, 10), st.floats(0.01, 0.99))
def test_a_bigger_tank_starts_the_pump_less_often_in_proportion(name, growth, share):
    system = SYSTEMS[name]
    grown = tuple(replace(tank, volume=tank.volume * growth) for tank in system.bank.tanks)
    bigger = replace(system, bank=replace(system.bank, tanks=grown))
    demand = share * system.pump.flow_at(system.bank.cut_out_absolute)
    few, many = (starts_per_hour(each, demand=demand) for each in (bigger, system))
    assert few < many
    assert few * growth == pytest.approx(many, rel=1e-9)


@given(st.sampled_from(sorted(SYSTEMS)), st.floats(0, 0.98), st.floats(0.001, 0.01))
def test_more_demand_makes_a_longer_run(name, share, more):
    system = SYSTEMS[name]
    flow = system.pump.flow_at(system.bank.cut_out_absolute)
    assert run_time(system, demand=(share + more) * flow) > run_time(system, demand=share * flow)


@given(st.floats(1.0, 600.0))
def test_the_volume_for_a_least_run_runs_that_long(seconds):
    needed = tank_volume_for_run(ONE_TANK, least_run=seconds)
    fitted = replace(ONE_TANK, bank=replace(BANK, tanks=(PrechargedTank(needed, 2.9e5),)))
    assert run_time(fitted, demand=0.0) == pytest.approx(seconds, rel=1e-9)


def test_between_cycles_the_demand_is_met_from_the_drawdown():
    assert rest_time(ONE_TANK, demand=1e-4) * 1e-4 == pytest.approx(system_drawdown(ONE_TANK))


def test_without_demand_the_pump_does_not_start():
    assert starts_per_hour(ONE_TANK, demand=0.0) == 0
    with pytest.raises(OutsideDomain, match="never starts"):
        rest_time(ONE_TANK, demand=0.0)


@pytest.mark.parametrize("share", [1.0, 1.5])
def test_a_pump_that_gives_no_more_at_cut_out_than_is_drawn_never_stops(share):
    demand = share * ONE_TANK.pump.flow_at(BANK.cut_out_absolute)
    assert not pump_stops(ONE_TANK, demand=demand)
    assert starts_per_hour(ONE_TANK, demand=demand) == 0
    with pytest.raises(OutsideDomain, match="cut-out"):
        run_time(ONE_TANK, demand=demand)


def test_a_pump_at_shut_off_below_cut_out_has_no_worst_case():
    weak = replace(ONE_TANK, pump=PumpCurve((2e5, 4e5), (2e-4, 0.0)))
    with pytest.raises(OutsideDomain, match="never stops"):
        worst_case(weak)


def test_tanks_that_take_no_water_have_no_cycle():
    full_of_air = replace(ONE_TANK, bank=replace(BANK, tanks=(PrechargedTank(0.1, 4.6e5),)))
    with pytest.raises(OutsideDomain, match="no water"):
        run_time(full_of_air, demand=0.0)


def test_a_steep_curve_is_searched_to_the_brink_of_never_stopping():
    """Almost no flow is left at cut-out, and the worst demand is within a hair of it: the search must end."""
    cliff = replace(ONE_TANK, pump=PumpCurve((2e5, BANK.cut_out_absolute), (1.0, 1e-12)))
    found = worst_case(cliff)
    assert 0 < found.demand < 1e-12
    assert found.starts_per_hour > 0


@pytest.mark.parametrize("wrong", [-1e-6, float("nan")])
def test_a_demand_that_means_nothing_is_refused(wrong):
    with pytest.raises(OutsideDomain):
        starts_per_hour(ONE_TANK, demand=wrong)


def test_a_least_run_of_no_time_is_refused():
    with pytest.raises(OutsideDomain):
        tank_volume_for_run(ONE_TANK, least_run=0.0)


@pytest.mark.parametrize(("volume", "flow"), [(0.035, 5.9e-4), (0.1, 2.0e-4), (0.384, 5.3e-5)])
def test_where_the_flow_is_steady_while_water_is_taken_half_of_it_starts_the_pump_most(volume, flow):
    """The curve still falls between cut-in and the precharge, but no tank takes water there."""
    bank = replace(BANK, tanks=(PrechargedTank(volume, 3.6e5),))
    steady_above = PumpCurve((2.0e5, 3.1e5, 3.5e5, 4.6e5), (2 * flow, 1.5 * flow, flow, flow))
    found = worst_case(PressureSystem(bank, steady_above))
    assert found.demand == pytest.approx(flow / 2, rel=1e-9)
    assert found.starts_per_hour == pytest.approx(15 * flow * 60 / (volume * (1 - 3.6 / 4.5)), rel=1e-9)


@pytest.mark.parametrize("size", [1e-6, 1e-3, 1e3])
def test_the_busiest_demand_grows_with_the_pump_and_the_tank(size):
    """All flows so many times as great, and all tanks: the same cycle, to the last digits of the search."""
    tanks = tuple(replace(tank, volume=tank.volume * size) for tank in BANK.tanks)
    pump = PumpCurve(FALLING.pressures, tuple(flow * size for flow in FALLING.flows))
    scaled = worst_case(PressureSystem(replace(BANK, tanks=tanks), pump))
    assert scaled.demand / size == pytest.approx(worst_case(ONE_TANK).demand, rel=1e-8)
    assert scaled.starts_per_hour == pytest.approx(worst_case(ONE_TANK).starts_per_hour, rel=1e-8)


def test_steady_pumps_fill_adiabatic_tanks_in_their_drawdown_over_the_net_flow():
    system = PressureSystem(replace(BANK, gas_exponent=1.4), PumpCurve.constant(2.0e-4))
    water = 0.12 * ((2.9 / 3.05) ** (1 / 1.4) - (2.9 / 4.5) ** (1 / 1.4))
    assert run_time(system, demand=0.5e-4) == pytest.approx(water / 1.5e-4, rel=1e-12)


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (lambda: pump_stops(ONE_TANK, demand=-1e-9), "^a demand is zero or more"),
        (lambda: run_time(ONE_TANK, demand=1.0), "^the pump never reaches cut-out"),
        (lambda: rest_time(ONE_TANK, demand=0.0), "^without a demand the pump never starts again"),
        (lambda: tank_volume_for_run(ONE_TANK, least_run=0.0), "^a least run is longer than nothing"),
        (
            lambda: worst_case(replace(ONE_TANK, pump=PumpCurve((2e5, 4e5), (2e-4, 0.0)))),
            "^the pump gives nothing at cut-out",
        ),
        (
            lambda: system_drawdown(replace(ONE_TANK, bank=replace(BANK, tanks=(PrechargedTank(0.1, 4.5e5),)))),
            "^the tanks take no water between cut-in and cut-out",
        ),
    ],
)
def test_a_cycle_is_refused_with_what_is_wrong(call, told):
    with pytest.raises(OutsideDomain, match=told):
        call()
