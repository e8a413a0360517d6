"""Recovery of a well against published problems, an independent fit, and what must hold for any well."""

import csv
import json
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import curve_fit
from scipy.special import exp1

from footvalve.physics.casing_storage import casing_storage_area
from footvalve.physics.method import OutsideDomain
from footvalve.physics.well_recovery import fit_recovery, residual_drawdown

REFERENCE = Path(__file__).parents[1] / "reference" / "wells.csv"
INCH = 0.0254
FOOT = 0.3048
GALLON = 231 * INCH**3


def area_of_inches(inputs):
    return casing_storage_area(casing_diameter=inputs["ID_in"] * INCH)


def volume_of_a_rise(inputs):
    return area_of_inches(inputs) * inputs["rise_ft"] * FOOT / FOOT**3


def volume_of_a_body(inputs):
    """What hangs in a casing takes its own volume off the water."""
    bore = {"casing_diameter": 12 * INCH}
    taken = casing_storage_area(**bore) - casing_storage_area(**bore, drop_pipe_diameter=inputs["D_in"] * INCH)
    return taken * inputs["L_ft"] * FOOT / FOOT**3


def gallons_for_each_foot(inputs):
    return area_of_inches(inputs) * FOOT / GALLON


def refill_rate(inputs):
    return gallons_for_each_foot(inputs) * inputs["rise_ft"] / inputs["minutes"]


def fitted_to_two(inputs):
    area = casing_storage_area(casing_diameter=inputs["diameter_m"])
    times, drawdowns = [0.0, inputs["minutes"] / 60], [inputs["before_m"], inputs["after_m"]]
    return fit_recovery(times=times, drawdowns=drawdowns, area=area).specific_capacity, area


def capacity_for_each_area(inputs):
    capacity, area = fitted_to_two(inputs)
    return capacity / area


def inflow_at_a_drawdown(inputs):
    return fitted_to_two(inputs)[0] * inputs["drawdown_m"]


def conductivity(inputs):
    """By the specific capacity of a level that falls by so much of itself in a second."""
    area = casing_storage_area(casing_diameter=2 * inputs["casing_radius_m"])
    times = [0.0, 2.0, 5.0]
    drawdowns = [math.exp(-inputs["slope_per_s"] * time) for time in times]
    capacity = fit_recovery(times=times, drawdowns=drawdowns, area=area).specific_capacity
    return capacity * inputs["log_ratio"] / (2 * math.pi * inputs["length_m"])


def time_to_a_fraction(inputs):
    """The time in which the model's drawdown has shrunk to the fraction, with A / C = T0, found by bisection."""
    low, high = 0.0, 100 * inputs["T0_s"]
    for _ in range(100):
        middle = (low + high) / 2
        left = residual_drawdown(initial_drawdown=1.0, specific_capacity=0.01, area=0.01 * inputs["T0_s"], time=middle)
        low, high = (middle, high) if left > inputs["fraction"] else (low, middle)
    return low


def transmissivity(inputs):
    """C = 4 pi T / W(u), u = r^2 S / (4 T t), solved for T by repetition, at the time where the readings weigh most."""
    area = casing_storage_area(casing_diameter=inputs["diameter_m"])
    times, heads = np.array(inputs["t_s"]), np.array(inputs["h_m"])
    capacity = fit_recovery(times=times.tolist(), drawdowns=heads.tolist(), area=area).specific_capacity
    time = float(np.average(times, weights=heads**2))
    found = capacity
    for _ in range(50):
        u = (inputs["diameter_m"] / 2) ** 2 * inputs["storativity"] / (4 * found * time)
        found = capacity * float(exp1(u)) / (4 * math.pi)
    return found


PUBLISHED = {
    "volume of a rise": volume_of_a_rise,
    "volume that a body takes up": volume_of_a_body,
    "casing storage": gallons_for_each_foot,
    "refill rate": refill_rate,
    "specific capacity for each area": capacity_for_each_area,
    "inflow at a drawdown": inflow_at_a_drawdown,
    "conductivity of a recovery": conductivity,
    "time to a residual drawdown": time_to_a_fraction,
    "transmissivity of a recovery": transmissivity,
}
ELSEWHERE = {"specific capacity of a test"}


def rows():
    found = list(csv.DictReader(REFERENCE.read_text(encoding="utf-8").splitlines()))
    return [pytest.param(row, id=row["id"]) for row in found if row["quantity"] not in ELSEWHERE]


@pytest.mark.parametrize("row", rows())
def test_published_values(row):
    """A row that fails is worth more than the code: read its source first."""
    found = PUBLISHED[row["quantity"]](json.loads(row["inputs"]))
    assert found == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


# --- against an independent fit


def noisy_recovery(seed, *, noise, points=12, span=2.5):
    """Readings of a well with A = 0.018 m^2 and C = 0.00006 m^2/s (300 s), from a drawdown of 6 m, errors equal."""
    random = np.random.default_rng(seed)
    times = np.sort(random.uniform(0.0, 300.0 * span, points))
    drawdowns = 6.0 * np.exp(-times / 300.0) + random.normal(0.0, noise, points)
    return times[drawdowns > 0.003], drawdowns[drawdowns > 0.003]


def exponential(time, initial, rate):
    return initial * np.exp(-rate * time)


def fitted_both_ways(seed, noise):
    times, drawdowns = noisy_recovery(seed, noise=noise)
    ours = fit_recovery(times=times.tolist(), drawdowns=drawdowns.tolist(), area=0.018)
    theirs, covariance = curve_fit(exponential, times, drawdowns, p0=(drawdowns[0], 1 / 300.0))
    return ours, 0.018 * theirs[1], 0.018 * math.sqrt(covariance[1][1])


@pytest.mark.parametrize("seed", range(40))
@pytest.mark.parametrize("noise", [0.003, 0.03, 0.1])
def test_the_closed_form_is_the_nonlinear_fit_of_equal_errors(seed, noise):
    """Between them lies what is left of second order: under a tenth of the standard error, up to 2 % of noise."""
    ours, capacity, sigma = fitted_both_ways(seed, noise)
    assert abs(ours.specific_capacity - capacity) < 0.1 * sigma
    assert ours.standard_uncertainty == pytest.approx(sigma, rel=0.1)


def test_the_weights_leave_no_pull():
    """At 5 % of noise weights of s^2 pull C down by all of its scatter, weights of f^2 up by two fifths of it."""
    found = np.array([_capacity_of(seed) for seed in range(800)])
    assert abs(found.mean() - 0.00006) < 0.15 * found.std()


def _capacity_of(seed):
    times, drawdowns = noisy_recovery(seed, noise=0.3, points=20)
    return fit_recovery(times=times.tolist(), drawdowns=drawdowns.tolist(), area=0.018).specific_capacity


def test_the_stated_uncertainty_holds_two_times_in_three():
    """One sigma of 10 degrees of freedom holds 66 % of the time; 300 draws scatter by 3 %."""
    held = 0
    for seed in range(300):
        times, drawdowns = noisy_recovery(seed, noise=0.02)
        fit = fit_recovery(times=times.tolist(), drawdowns=drawdowns.tolist(), area=0.018)
        held += abs(fit.specific_capacity - 0.00006) < fit.standard_uncertainty
    assert 0.57 < held / 300 < 0.75


def test_r_squared_is_the_share_of_the_weighted_spread_that_is_explained():
    times, drawdowns = noisy_recovery(3, noise=0.1)
    fit = fit_recovery(times=times.tolist(), drawdowns=drawdowns.tolist(), area=0.018)
    # The same weights, once more by hand, and the fit by numpy (which takes the root of a weight).
    first = np.polyfit(times, np.log(drawdowns), 1, w=drawdowns)
    weights = np.sqrt(drawdowns) * np.exp(1.5 * np.minimum(np.polyval(first, times), np.log(drawdowns.max())))
    line = np.polyfit(times, np.log(drawdowns), 1, w=np.sqrt(weights))
    residual = weights @ (np.log(drawdowns) - np.polyval(line, times)) ** 2
    spread = weights @ (np.log(drawdowns) - np.average(np.log(drawdowns), weights=weights)) ** 2
    assert fit.specific_capacity == pytest.approx(-0.018 * line[0], rel=1e-9)
    assert fit.r_squared == pytest.approx(1 - residual / spread, abs=1e-9)
    assert fit.r_squared < 0.9999


def test_the_model_is_the_water_balance_integrated():
    """A ds/dt = -C s by a general solver."""
    solved = solve_ivp(lambda _, s: -0.0002 / 0.017 * s, (0, 400), [5.0], rtol=1e-10, atol=1e-12)
    left = residual_drawdown(initial_drawdown=5.0, specific_capacity=0.0002, area=0.017, time=400.0)
    assert left == pytest.approx(solved.y[0][-1], rel=1e-8)


# --- what must hold for any well

areas = st.floats(0.001, 20)
time_constants = st.floats(30, 3e5)
initial_drawdowns = st.floats(0.2, 200)
in_time_constants = st.lists(st.floats(0, 3), min_size=2, max_size=12, unique_by=lambda t: round(t, 2)).filter(
    lambda times: max(times) - min(times) > 0.3
)


@given(areas, time_constants, initial_drawdowns, in_time_constants)
def test_readings_without_error_give_the_specific_capacity_back(area, constant, initial, fractions):
    times = [fraction * constant for fraction in fractions]
    drawdowns = [
        residual_drawdown(initial_drawdown=initial, specific_capacity=area / constant, area=area, time=time)
        for time in times
    ]
    fit = fit_recovery(times=times, drawdowns=drawdowns, area=area)
    assert fit.specific_capacity == pytest.approx(area / constant, rel=1e-9)
    assert fit.initial_drawdown == pytest.approx(max(drawdowns), rel=1e-9)
    assert fit.points == len(times)
    if len(times) > 2:
        assert fit.r_squared == pytest.approx(1.0, abs=1e-9)
        assert fit.standard_uncertainty < 1e-6 * fit.specific_capacity


@given(st.lists(st.tuples(st.floats(0, 1e5), st.floats(0.004, 500)), min_size=2, max_size=20), st.randoms())
def test_the_order_of_the_readings_does_not_matter(readings, random):
    if len({time for time, _ in readings}) < 2:
        return
    shuffled = random.sample(readings, len(readings))
    try:
        one, other = (
            fit_recovery(times=[t for t, _ in rows], drawdowns=[s for _, s in rows], area=0.01)
            for rows in (readings, shuffled)
        )
    except OutsideDomain:
        return
    assert one.specific_capacity == pytest.approx(other.specific_capacity, rel=1e-6, abs=1e-15)
    assert one.specific_capacity >= 0
    assert math.isfinite(one.initial_drawdown)


@given(st.floats(1e-7, 1e-2), st.floats(1.1, 5), st.floats(1, 1e5))
def test_more_inflow_is_a_faster_recovery(capacity, times_more, time):
    slow, fast = (
        residual_drawdown(initial_drawdown=1.0, specific_capacity=c, area=0.02, time=time)
        for c in (capacity, times_more * capacity)
    )
    assert fast < slow or fast == slow == 0.0 or math.isclose(slow, 1.0)


def test_two_readings_tell_nothing_of_how_good_they_are():
    fit = fit_recovery(times=[0.0, 60.0], drawdowns=[2.0, 1.0], area=0.02)
    assert fit.r_squared is None
    assert fit.standard_uncertainty is None


@pytest.mark.parametrize("drawdowns", [[1.0, 1.0, 1.0], [1.0, 1.2, 1.5], [0.1, 0.5, 2.0]])
def test_a_level_that_does_not_rise_fits_best_without_inflow(drawdowns):
    fit = fit_recovery(times=[0.0, 60.0, 120.0], drawdowns=drawdowns, area=0.02)
    assert fit.specific_capacity == 0.0
    assert fit.r_squared == 0.0


@pytest.mark.parametrize(
    ("times", "drawdowns", "area"),
    [
        ([0.0], [1.0], 0.02),
        ([0.0, 60.0], [1.0], 0.02),
        ([60.0, 60.0], [2.0, 1.0], 0.02),
        ([0.0, 60.0], [2.0, 0.0], 0.02),
        ([0.0, 60.0], [2.0, -1.0], 0.02),
        ([0.0, 60.0], [2.0, math.inf], 0.02),
        ([0.0, 60.0], [2.0, 1.0], 0.0),
        ([0.0, 4.0, 5.0], [1e-6, 500.0, 100.0], 0.02),
    ],
)
def test_what_has_no_meaning_is_refused(times, drawdowns, area):
    with pytest.raises(OutsideDomain):
        fit_recovery(times=times, drawdowns=drawdowns, area=area)


@pytest.mark.parametrize(("area", "capacity"), [(0.0, 0.001), (-1.0, 0.001), (0.02, -0.001)])
def test_no_residual_drawdown_without_a_well(area, capacity):
    with pytest.raises(OutsideDomain):
        residual_drawdown(initial_drawdown=1.0, specific_capacity=capacity, area=area, time=1.0)


@pytest.mark.parametrize(("casing", "drop_pipe"), [(0.1, 0.1), (0.1, 0.2), (0.1, -0.01), (0.0, 0.0), (math.inf, 0.0)])
def test_a_drop_pipe_fits_into_its_casing(casing, drop_pipe):
    with pytest.raises(OutsideDomain):
        casing_storage_area(casing_diameter=casing, drop_pipe_diameter=drop_pipe)
