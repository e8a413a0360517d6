"""Three whole plans worked by hand: a feasible site, a marginal one and an infeasible one.

The arithmetic stands here once more, with constants and formulas of its own, and imports nothing of the package but the
endpoint. Beside each step stands the number that the working gives, as one would write it down.
"""

import math
from functools import cache

import msgspec
import pytest

from footvalve.answers.site_plan import site_plan
from footvalve.contract.site_plan import SitePlanRequest

GRAVITY = 9.80665
DENSITY, VISCOSITY, VAPOUR = 999.49908, 1.234045e-3, 1402.82
"""kg/m^3, Pa s and Pa of water at 12 degC. Source: IAPWS R7-97(2012) and R12-08, as the independent package iapws
gives them."""
SEA_LEVEL = 101325.0
LITRE_A_MINUTE = 1e-3 / 60


def of(value, unit):
    return {"value": value, "unit": unit}


def planned(body):
    return site_plan(msgspec.json.decode(msgspec.json.encode(body), type=SitePlanRequest))


def smooth_pipe(length, bore, **more):
    """A pipe with a wall as smooth as glass, so that nothing but its bore and length counts: m and mm."""
    wall = {"diameter": of(bore, "mm"), "roughness": of(0, "mm")}
    return {"part": "pipe", "bore": wall, "length": of(length, "m"), **more}


def smooth_loss(flow, length, bore):
    """Head in m: Darcy-Weisbach with Prandtl's law of smooth pipes, 1/sqrt(f) = 2 log10(Re sqrt(f) / 2.51), by repeated
    substitution; 64/Re below Re 2040."""
    speed = flow / (math.pi * bore**2 / 4)
    reynolds = DENSITY * speed * bore / VISCOSITY
    if reynolds < 2040:
        factor = 64 / reynolds
    else:
        factor = 0.03
        for _ in range(60):
            factor = (2 * math.log10(reynolds * math.sqrt(factor) / 2.51)) ** -2
    return factor * length / bore * speed**2 / (2 * GRAVITY)


def settled(step, start, times=200):
    """Where repeated substitution comes to rest, each step taken half, so that it does not swing."""
    value = start
    for _ in range(times):
        value = (value + step(value)) / 2
    return value


def simpson(function, low, high, panels=400):
    """Simpson's rule."""
    width = (high - low) / panels
    inner = sum((4 if index % 2 else 2) * function(low + index * width) for index in range(1, panels))
    return width / 3 * (function(low) + inner + function(high))


class Straight:
    """A pump whose flow and current are straight over its rise: two points, in Pa, L/min and A."""

    def __init__(self, first, last):
        self.first, self.last = first, last

    def flow(self, rise):
        (p, q, _), (r, s, _) = self.first, self.last
        return (q + (s - q) * (rise - p) / (r - p)) * LITRE_A_MINUTE

    def current(self, rise):
        (p, _, i), (r, _, j) = self.first, self.last
        return i + (j - i) * (rise - p) / (r - p)

    def points(self, with_current=True):
        told = []
        for rise, flow, current in (self.first, self.last):
            point = {"pressure": of(rise, "Pa"), "flow": of(flow, "L/min")}
            told.append(point | ({"current": of(current, "A")} if with_current else {}))
        return told


# A feasible site: water at 4 m, a cellar, a tank 2 m up, a lithium battery

PUMP = Straight((100e3, 14.0, 6.0), (500e3, 10.0, 14.0))
WIDE = {"diameter": of(300, "mm"), "roughness": of(0, "mm")}
"""Of a check valve, so wide that it takes less than a hundredth of a millimetre of head."""
FEASIBLE = {
    "units": "metric",
    "depth_to_water": of(4.0, "m"),
    "seasonal_fall": of(0.5, "m"),
    "well": {"specific_capacity": of(0.4, "L/s/m")},
    "intake_elevation": of(-11.0, "m"),
    "suction_line": [
        smooth_pipe(11.0, 26.0, end_elevation=of(-0.5, "m")),
        {"part": "strainer", "rated_flow": of(20, "L/min"), "clean_drop": of(1500, "Pa"), "dirty_drop": of(4000, "Pa")},
        {"part": "valve", "valve": "spring-check", "cracking_pressure": of(0, "Pa"), "bore": WIDE},
        smooth_pipe(6.0, 26.0, end_elevation=of(-0.5, "m")),
    ],
    "pump": {
        "style": "rotary",
        "inlet_elevation": of(-0.5, "m"),
        "npsh_required": of(3.0, "m"),
        "points": PUMP.points(),
    },
    "delivery_line": [
        smooth_pipe(15.0, 20.0),
        {"part": "idle-pump", "name": "a meter, told by its drop", "flow": of(10, "L/min"), "drop": of(2000, "Pa")},
    ],
    "switch": {"cut_in": of(150, "kPa"), "cut_out": of(300, "kPa")},
    "tanks": [{"volume": of(100, "L"), "precharge": of(140, "kPa")}],
    "tank_elevation": of(2.0, "m"),
    "house_elevation": of(5.0, "m"),
    "daily_water": of(400, "L"),
    "battery": {
        "chemistry": "lfp",
        "capacity": of(100, "Ah"),
        "rated_hours": 20,
        "voltage": of(12, "V"),
        "peukert_exponent": 1,
        "temperature": of(25, "degC"),
        "floor_fraction": 0.2,
    },
    "loads": [{"name": "switch", "current": of(0.05, "A"), "hours_per_day": 24}],
    "days": 5,
}


def suction_losses(flow):
    """17 m of 26 mm, and the strainer below its rated flow: 4000 Pa in proportion."""
    return smooth_loss(flow, 17.0, 0.026) + 4000 * flow / (20 * LITRE_A_MINUTE) / (DENSITY * GRAVITY)


def delivery_losses(flow):
    """15 m of 20 mm, and a meter by the square of the flow."""
    return smooth_loss(flow, 15.0, 0.020) + 2000 * (flow / (10 * LITRE_A_MINUTE)) ** 2 / (DENSITY * GRAVITY)


def rise_needed(flow, tank_pressure):
    """Tank pressure, 6.5 m from the dry season's rest up to the tank, drawdown Q / 0.4e-3, and both lines."""
    head = 6.5 + flow / 0.4e-3 + suction_losses(flow) + delivery_losses(flow)
    return tank_pressure + DENSITY * GRAVITY * head


def rise_at(tank_pressure):
    return settled(lambda rise: rise_needed(PUMP.flow(rise), tank_pressure), 3e5)


@pytest.fixture(scope="module")
def feasible():
    return planned(FEASIBLE)


def test_feasible_step_1_the_pump_at_cut_in_and_cut_out(feasible):
    """At cut-in it is 150 + 63.7 (height) + 5.2 (drawdown) + 4.2 and 8.3 (lines) = 231.4 kPa: 12.69 L/min, 8.63 A.

    At cut-out it is 300 + 63.7 + 4.6 + 3.6 + 6.7 = 378.5 kPa: 11.21 L/min, 11.57 A.
    """
    for point, pressure, rise, flow, current in [
        (feasible.duty.cut_in, 150e3, 231.4e3, 12.69, 8.63),
        (feasible.duty.cut_out, 300e3, 378.5e3, 11.21, 11.57),
    ]:
        worked = rise_at(pressure)
        assert worked == pytest.approx(rise, rel=5e-4)
        assert point.tank_pressure.base == pytest.approx(pressure)
        assert point.pump_rise.base == pytest.approx(worked, rel=2e-5)
        assert point.flow.base / LITRE_A_MINUTE == pytest.approx(flow, rel=5e-4)
        assert point.flow.base == pytest.approx(PUMP.flow(worked), rel=2e-5)
        assert point.current.value == pytest.approx(current, rel=5e-4)
        assert point.current.value == pytest.approx(PUMP.current(worked), rel=2e-5)


@cache
def mean_of_filling():
    """Time of a filling in s, its water in m^3 and its charge in A s, by Simpson's rule over the pressure.

    Absolute: cut-in 251.325, cut-out 401.325, precharge 241.325 kPa. dV = 0.1 * 241325 / p^2 dp.
    """

    def over_flow(function):
        def integrand(absolute):
            rise = rise_at(absolute - SEA_LEVEL)
            return function(rise) * 0.1 * 241325 / absolute**2 / PUMP.flow(rise)

        return simpson(integrand, 251325.0, 401325.0, panels=40)

    return over_flow(lambda _: 1.0), 0.1 * 241325 * (1 / 251325 - 1 / 401325), over_flow(PUMP.current)


def test_feasible_step_2_the_mean_over_a_filling(feasible):
    """The tank takes 100 (241.325/251.325 - 241.325/401.325) = 35.89 L in 178.7 s: 12.05 L/min; 9.90 A on the
    mean."""
    seconds, water, charge = mean_of_filling()
    assert (seconds, water * 1000) == pytest.approx((178.7, 35.89), rel=5e-4)
    assert feasible.tank_cycle.drawdown.base == pytest.approx(water, rel=1e-5)
    assert feasible.tank_cycle.shortest_run.base == pytest.approx(seconds, rel=3e-5)
    assert feasible.duty.mean.flow.base == pytest.approx(water / seconds, rel=3e-5)
    assert feasible.duty.mean.flow.value == pytest.approx(12.05, rel=5e-4)
    assert feasible.duty.mean.current.value == pytest.approx(charge / seconds, rel=3e-5)
    assert feasible.duty.mean.current.value == pytest.approx(9.90, rel=5e-4)


def test_feasible_step_3_the_day(feasible):
    """400 L at 12.05 L/min take 33.2 min, 0.5533 h; at 9.90 A that is 5.478 Ah, or 1.370 Ah for each 100 L."""
    seconds, water, charge = mean_of_filling()
    hours = 0.4 / (water / seconds) / 3600
    assert hours == pytest.approx(0.5533, rel=5e-4)
    assert feasible.duty.run_hours_per_day == pytest.approx(hours, rel=3e-5)
    assert feasible.duty.charge_per_day.value == pytest.approx(charge / seconds * hours, rel=5e-5)
    assert feasible.duty.charge_per_day.value == pytest.approx(5.478, rel=5e-4)
    assert feasible.duty.charge_per_volume.charge.value == pytest.approx(1.370, rel=5e-4)


def test_feasible_step_4_the_suction_side_at_the_flow_of_cut_in(feasible):
    """NPSH: 10.34 m of air, less 0.14 of vapour, 4.53 of lift (4.5 - 0.5 + 0.53) and 0.17 + 0.26 of line and
    strainer: 5.24 m."""
    flow = PUMP.flow(rise_at(150e3))
    lift = 4.0 + 0.5 + flow / 0.4e-3 - 0.5
    available = (SEA_LEVEL - VAPOUR) / (DENSITY * GRAVITY) - lift - suction_losses(flow)
    suction = feasible.suction_feasibility
    assert suction.static_lift.value == pytest.approx(lift, rel=1e-5)
    assert (lift, available) == pytest.approx((4.529, 5.236), rel=5e-4)
    assert suction.losses.value == pytest.approx(suction_losses(flow), rel=3e-5)
    assert suction.npsh_available.value == pytest.approx(available, rel=3e-5)
    assert suction.margin.value == pytest.approx(available - 3.0, rel=1e-4)
    assert suction.verdict == "feasible"


def test_feasible_step_5_the_battery(feasible):
    """80 of 100 Ah above the floor; a day takes 5.478 for the pump and 1.2 for the switch: 11.98 days."""
    seconds, water, charge = mean_of_filling()
    day = charge / seconds * 0.4 / (water / seconds) / 3600 + 24 * 0.05
    assert feasible.battery_runtime.days_of_autonomy == pytest.approx(80 / day, rel=5e-5)
    assert feasible.battery_runtime.days_of_autonomy == pytest.approx(11.98, rel=5e-4)


def test_feasible_step_6_the_tap_and_the_verdict(feasible):
    """The highest tap lies 3 m above the tank: 150 - 29.4 kPa at cut-in. Nothing speaks against the plan."""
    assert feasible.duty.tap_pressure.at_cut_in.base == pytest.approx(150e3 - DENSITY * GRAVITY * 3.0, rel=1e-5)
    assert feasible.verdict == "feasible"
    assert feasible.reasons == []
    assert feasible.levers == []


# A marginal site: 1200 m up, a well that the pump draws down to its limit, a battery too small for the days

MARGINAL = FEASIBLE | {
    "site": {"altitude": of(1200, "m")},
    "depth_to_water": of(4.2, "m"),
    "seasonal_fall": of(0.3, "m"),
    "well": {
        "casing_diameter": of(150, "mm"),
        "static_depth": of(4.0, "m"),
        "pumping_test": {"flow": of(6, "L/min"), "pumping_depth": of(9.0, "m"), "duration": of(4, "h")},
        "limit_depth": of(6.0, "m"),
    },
    "pump": FEASIBLE["pump"] | {"npsh_required": of(2.2, "m")},
    "daily_water": of(900, "L"),
    "days": 8,
}
"""The test was read when the water stood at 4.0 m; in the dry season it stands at 4.5 m, 1.5 m above the limit."""

AREA = math.pi / 4 * 0.150**2


@pytest.fixture(scope="module")
def marginal():
    return planned(MARGINAL)


def capacity_of_test():
    """C of s = Q / C (1 - exp(-C t / A)): 5 m after 4 h of 6 L/min. Nearly Q / s, 0.02 L/s/m, for C t / A is 16."""
    return settled(lambda c: 1e-4 / 5.0 * (1 - math.exp(-c * 14400 / AREA)), 2e-5)


def test_marginal_step_1_the_well(marginal):
    """0.02 L/s/m, 1.5 m: 1.8 L/min flow in with the water at the limit, and 26.5 L stand in the casing above it.

    The pump takes more than ten: it draws the level down to the limit.
    """
    capacity, well = capacity_of_test(), marginal.well_recovery
    assert well.specific_capacity.base == pytest.approx(capacity, rel=1e-5)
    assert well.specific_capacity.value == pytest.approx(0.02, rel=1e-5)
    assert well.inflow_at_limit.value == pytest.approx(1.8, rel=1e-5)
    assert well.storage.value == pytest.approx(AREA * 1.5 * 1000, rel=1e-5)
    assert well.storage.value == pytest.approx(26.5, rel=1e-3)
    assert well.verdict == "storage-limited"


def marginal_rise_at(tank_pressure):
    """The level stands at the limit whatever the flow: 6 + 2 m from there up to the tank."""

    def needed(rise):
        flow = PUMP.flow(rise)
        return tank_pressure + DENSITY * GRAVITY * (8.0 + suction_losses(flow) + delivery_losses(flow))

    return settled(needed, 3e5)


def test_marginal_step_2_the_pump_with_the_water_at_the_limit(marginal):
    """150 + 78.4 (height) + 12.4 (lines) = 240.8 kPa: 12.59 L/min."""
    rise = marginal_rise_at(150e3)
    assert rise == pytest.approx(240.8e3, rel=5e-4)
    assert marginal.duty.cut_in.pump_rise.base == pytest.approx(rise, rel=2e-5)
    assert marginal.duty.cut_in.flow.base == pytest.approx(PUMP.flow(rise), rel=2e-5)
    assert marginal.duty.cut_in.flow.value == pytest.approx(12.59, rel=5e-4)


def test_marginal_step_3_the_water_in_hand(marginal):
    """A ds/dt = Q - C s: the limit is reached after -(A / C) ln(1 - C s / Q) = 136 s, with 28.6 L of the day's 900,
    though 2.6 m3 flow in in a day."""
    flow, capacity = PUMP.flow(marginal_rise_at(150e3)), capacity_of_test()
    seconds = -AREA / capacity * math.log(1 - capacity * 1.5 / flow)
    assert marginal.well_recovery.time_to_limit.base == pytest.approx(seconds, rel=5e-5)
    assert (seconds, 1000 * seconds * flow) == pytest.approx((136.1, 28.6), rel=2e-3)
    (reason,) = (reason for reason in marginal.reasons if "The well gives the day's 900 L, but not at one go" in reason)
    assert "28.6 L" in reason
    assert "2592 L" in reason


def test_marginal_step_4_the_suction_side(marginal):
    """Air at 1200 m: 101325 (1 - 0.0065 * 1200 / 288.15)^5.2559 = 87.7 kPa, 8.95 m; less 0.14 of vapour, 5.5 of lift
    and 0.43 of line leaves 2.88 m. The pump needs 2.2: 0.68 m to spare, and the policy asks for 3 ft, 0.914 m."""
    air = SEA_LEVEL * (1 - 0.0065 * 1200 / 288.15) ** 5.25588
    flow = PUMP.flow(marginal_rise_at(150e3))
    available = (air - VAPOUR) / (DENSITY * GRAVITY) - 5.5 - suction_losses(flow)
    assert air == pytest.approx(87.71e3, rel=1e-4)
    assert marginal.suction_feasibility.npsh_available.value == pytest.approx(available, rel=2e-3)
    assert marginal.suction_feasibility.margin.value == pytest.approx(0.68, abs=0.01)
    assert marginal.suction_feasibility.verdict == "marginal"


def test_marginal_step_5_the_battery(marginal):
    """The day's 900 L take 1.25 h at 9.9 A, 12.5 Ah, and the switch 1.2: of 80 Ah that is 5.8 days, not 8."""
    mean = marginal.duty.mean
    hours = 0.9 / mean.flow.base / 3600
    days = 80 / (hours * mean.current.value + 1.2)
    assert days == pytest.approx(5.8, rel=2e-2)
    assert marginal.battery_runtime.days_of_autonomy == pytest.approx(days, rel=3e-5)
    assert any("not the 8 wanted" in reason for reason in marginal.reasons)


def test_marginal_step_6_the_verdict(marginal):
    """Three things speak against it, and none of them forbids it."""
    assert marginal.verdict == "marginal"
    assert len(marginal.reasons) == 3


def test_marginal_step_7_how_much_lower_the_pump_would_have_to_stand(marginal):
    """0.23 m are wanting. Each metre that the pump sinks wins a metre, less the metre of pipe that it adds."""
    air = SEA_LEVEL * (1 - 0.0065 * 1200 / 288.15) ** 5.25588

    def margin(lower):
        def needed(rise):
            flow = PUMP.flow(rise)
            lines = suction_losses(flow) + smooth_loss(flow, lower, 0.026) + delivery_losses(flow)
            return 150e3 + DENSITY * GRAVITY * (8.0 + lines)

        flow = PUMP.flow(settled(needed, 3e5))
        losses = suction_losses(flow) + smooth_loss(flow, lower, 0.026)
        return (air - VAPOUR) / (DENSITY * GRAVITY) - (5.5 - lower) - losses - 2.2

    low, high = 0.001, 2.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if margin(middle) < 0.9144 else (low, middle)
    (lever,) = (lever for lever in marginal.levers if lever.pointer == "/pump/inlet_elevation")
    told = float(lever.change.split()[3])
    assert told == pytest.approx(high, abs=0.01), "the air at 1200 m is known to a few mm of head"
    assert lever.margin.value == pytest.approx(margin(told), abs=0.01)
    assert lever.verdict == "feasible"


# An infeasible site: water at 7.5 m, a pump whose points end too soon for the switch

WEAK = Straight((50e3, 16.0, 5.0), (280e3, 9.0, 11.0))
INFEASIBLE = FEASIBLE | {
    "depth_to_water": of(7.5, "m"),
    "pump": FEASIBLE["pump"] | {"points": WEAK.points()},
}


@pytest.fixture(scope="module")
def infeasible():
    return planned(INFEASIBLE)


def weak_head(flow):
    """10 m from the dry season's rest up to the tank, the drawdown and both lines."""
    return 10.0 + flow / 0.4e-3 + suction_losses(flow) + delivery_losses(flow)


def test_infeasible_step_1_how_far_the_pump_fills_the_tank(infeasible):
    """At its last point it raises 9 L/min by 280 kPa, and 108.9 of them go into height and lines: 171.1 are left."""
    most = 280e3 - DENSITY * GRAVITY * weak_head(9 * LITRE_A_MINUTE)
    assert most == pytest.approx(171.1e3, rel=5e-4)
    assert infeasible.duty.greatest_tank_pressure.base == pytest.approx(most, rel=2e-5)


def test_infeasible_step_2_it_starts_at_cut_in_and_does_not_reach_cut_out(infeasible):
    """150 + 109.9 = 259.9 kPa at cut-in, 9.61 L/min and 10.48 A; at cut-out its points tell nothing."""
    rise = settled(lambda rise: 150e3 + DENSITY * GRAVITY * weak_head(WEAK.flow(rise)), 2e5)
    assert rise == pytest.approx(259.9e3, rel=5e-4)
    duty = infeasible.duty
    assert duty.cut_in.pump_rise.base == pytest.approx(rise, rel=2e-5)
    assert duty.cut_in.flow.base == pytest.approx(WEAK.flow(rise), rel=2e-5)
    assert duty.cut_in.current.value == pytest.approx(WEAK.current(rise), rel=2e-5)
    assert duty.cut_out is duty.mean is duty.run_hours_per_day is duty.charge_per_day is msgspec.UNSET
    assert infeasible.tank_cycle is infeasible.battery_runtime is msgspec.UNSET


def test_infeasible_step_3_the_suction_side(infeasible):
    """10.34 m of air, less 0.14 of vapour, 7.9 of lift and 0.3 of line: 1.99 m, and the pump needs 3."""
    rise = settled(lambda rise: 150e3 + DENSITY * GRAVITY * weak_head(WEAK.flow(rise)), 2e5)
    flow = WEAK.flow(rise)
    lift = 7.5 + 0.5 + flow / 0.4e-3 - 0.5
    available = (SEA_LEVEL - VAPOUR) / (DENSITY * GRAVITY) - lift - suction_losses(flow)
    assert available == pytest.approx(1.992, abs=1e-3)
    assert infeasible.suction_feasibility.npsh_available.value == pytest.approx(available, rel=1e-4)
    assert infeasible.suction_feasibility.verdict == "infeasible"


def test_infeasible_step_4_the_verdict_has_both_reasons(infeasible):
    assert infeasible.verdict == "infeasible"
    suction, reach = infeasible.reasons
    assert suction.startswith("Of NPSH, the pump needs 3 m")
    assert reach == "The pump does not reach cut-out, 3 bar: by its points it fills the tank up to 1.71 bar at most."
    assert infeasible.to_do[0] == "Buy nothing for this plan as it stands: change it first."
