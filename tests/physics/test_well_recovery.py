"""Recovery of a well against the ground's published transmissivity, an independent fit, and what must hold for any
well."""

import csv
import json
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import exp1

from footvalve.physics.casing_storage import casing_storage_area
from footvalve.physics.method import OutsideDomain
from footvalve.physics.well_recovery import fit_recovery, residual_drawdown

REFERENCE = Path(__file__).parents[1] / "reference" / "wells.csv"


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


def rows():
    found = list(csv.DictReader(REFERENCE.read_text(encoding="utf-8").splitlines()))
    return [pytest.param(row, id=row["id"]) for row in found]


@pytest.mark.parametrize("row", rows())
def test_the_transmissivity_of_a_published_recovery_is_found_again(row):
    """A row that fails is worth more than the code: read its source first."""
    assert row["quantity"] == "transmissivity of a recovery"
    found = transmissivity(json.loads(row["inputs"]))
    assert found == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


# --- against an independent fit


def noisy_recovery(seed, *, noise, points=12, span=2.5):
    """Readings of a well with A = 0.018 m^2 and C = 0.00006 m^2/s (300 s), from a drawdown of 6 m, errors equal."""
    random = np.random.default_rng(seed)
    times = np.sort(random.uniform(0.0, 300.0 * span, points))
    drawdowns = 6.0 * np.exp(-times / 300.0) + random.normal(0.0, noise, points)
    return times[drawdowns > 0.003], drawdowns[drawdowns > 0.003]


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


def test_without_inflow_a_drawdown_stays():
    assert residual_drawdown(initial_drawdown=3.0, specific_capacity=0.0, area=0.02, time=1e6) == 3.0


@pytest.mark.parametrize(("times_over", "taken"), [(99.5, True), (100.5, False)])
def test_a_fit_may_start_at_a_hundred_times_the_greatest_reading_and_no_higher(times_over, taken):
    """Two readings a second apart fall to a fifth; a first one of next to no weight sets when the fit starts. Carried
    back by log5 of the wanted ratio, the exponential stands that many times over the greatest reading."""
    before = math.log(times_over) / math.log(5.0)
    readings = {"times": [0.0, before, before + 1.0], "drawdowns": [1e-12, 500.0, 100.0], "area": 0.02}
    if taken:
        assert fit_recovery(**readings).initial_drawdown == pytest.approx(500.0 * times_over, rel=1e-3)
    else:
        with pytest.raises(OutsideDomain, match=r"^the readings do not come back from a drawdown as an exponential"):
            fit_recovery(**readings)


@pytest.mark.parametrize(
    ("times", "drawdowns", "area", "told"),
    [
        ([0.0], [1.0], 0.02, "^a recovery takes two readings or more, each with its time"),
        ([0.0, 60.0], [1.0], 0.02, "^a recovery takes two readings or more, each with its time"),
        ([60.0, 60.0], [2.0, 1.0], 0.02, "^readings that count must lie at different times"),
        ([0.0, 60.0], [2.0, 0.0], 0.02, "^a drawdown must be above zero to have a logarithm"),
        ([0.0, 60.0], [math.inf, 1.0], 0.02, "^a drawdown must be above zero to have a logarithm"),
        ([0.0, 60.0], [2.0, 1.0], 0.0, "^the casing's area must be above zero"),
        ([0.0, 60.0], [2.0, 1.0], math.inf, "^the casing's area must be above zero"),
    ],
)
def test_readings_are_refused_with_what_is_wrong(times, drawdowns, area, told):
    with pytest.raises(OutsideDomain, match=told):
        fit_recovery(times=times, drawdowns=drawdowns, area=area)


def test_a_residual_drawdown_is_refused_with_what_is_wrong():
    with pytest.raises(OutsideDomain, match=r"^the area must be above zero, and the specific capacity not below it"):
        residual_drawdown(initial_drawdown=1.0, specific_capacity=-1e-9, area=0.02, time=1.0)


def test_a_casing_is_refused_with_what_is_wrong():
    with pytest.raises(OutsideDomain, match=r"^the drop pipe must be smaller than the casing, and neither"):
        casing_storage_area(casing_diameter=0.1, drop_pipe_diameter=0.1)


def test_an_error_of_each_reading_moves_the_specific_capacity_as_it_says():
    """JCGM 100:2008, 5.1.2: the squares of what each reading's error does, by differences."""
    times, drawdowns, error = [0.0, 60.0, 120.0, 300.0], [4.0, 3.1, 2.4, 1.2], 1e-5

    def capacity(place, by):
        moved = [drawdown + by * (place == i) for i, drawdown in enumerate(drawdowns)]
        return fit_recovery(times=times, drawdowns=moved, area=0.018).specific_capacity

    by_each = [(capacity(place, error) - capacity(place, -error)) / 2 for place in range(len(times))]
    told = fit_recovery(times=times, drawdowns=drawdowns, area=0.018).by_reading_error
    assert told * error == pytest.approx(math.hypot(*by_each), rel=0.03)
