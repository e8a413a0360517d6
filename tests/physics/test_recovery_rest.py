"""Where a recovering level would come to rest, against an independent fit, and how often it is wrong."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import curve_fit

from footvalve.physics.method import OutsideDomain
from footvalve.physics.recovery_rest import rest_offset
from footvalve.physics.well_recovery import fit_recovery

AREA = 0.018
TAPE = 0.003


def found(times, drawdowns):
    times, drawdowns = list(map(float, times)), list(map(float, drawdowns))
    fit = fit_recovery(times=times, drawdowns=drawdowns, area=AREA)
    return rest_offset(times=times, drawdowns=drawdowns, fit=fit, area=AREA, reading_error=TAPE)


def readings(seed, *, rest=0.0, noise=TAPE, points=12):
    random = np.random.default_rng(seed)
    times = np.linspace(0.0, 1800.0, points)
    drawdowns = rest + 6.0 * np.exp(-times / 600.0) + random.normal(0.0, noise, points)
    return times[drawdowns > TAPE], drawdowns[drawdowns > TAPE]


def with_a_rest(time, rest, initial, rate):
    return rest + initial * np.exp(-rate * time)


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("rest", [-0.2, 0.0, 0.3])
def test_small_offsets_are_those_of_a_fit_with_a_rest_of_its_own(seed, rest):
    """One step of linearisation on an offset of a twentieth of the drawdown: second order leaves a tenth of it."""
    times, drawdowns = readings(seed, rest=rest)
    (offset, _, _), covariance = curve_fit(with_a_rest, times, drawdowns, p0=(0.0, 6.0, 1 / 600.0))
    ours = found(times, drawdowns)
    sigma = np.sqrt(covariance[0][0])
    assert ours.offset == pytest.approx(offset, rel=0.12, abs=0.2 * sigma)
    assert ours.standard_uncertainty >= 0.7 * sigma


@pytest.mark.parametrize(("noise", "points", "most"), [(TAPE, 5, 0.02), (TAPE, 12, 0.02), (0.03, 12, 0.05)])
def test_three_sigma_are_seldom_chance(noise, points, most):
    wrong = 0
    for seed in range(500):
        rest = found(*readings(seed, noise=noise, points=points))
        wrong += abs(rest.offset) > 3 * rest.standard_uncertainty
    assert wrong / 500 < most


@pytest.mark.parametrize("rest", [-1.0, -0.1, 0.1, 1.0, 3.0])
def test_a_rest_elsewhere_is_seen_on_its_own_side(rest):
    seen = found(*readings(1, rest=rest))
    assert seen.offset * rest > 0
    assert abs(seen.offset) > 3 * seen.standard_uncertainty


@given(st.floats(60, 1e5), st.floats(0.5, 100), st.integers(5, 20))
def test_readings_without_a_bend_have_no_offset(constant, initial, points):
    times = np.linspace(0.0, 2.0 * constant, points)
    assert abs(found(times, initial * np.exp(-times / constant)).offset) < 1e-6 * initial


@pytest.mark.parametrize("points", [2, 3])
def test_few_readings_do_not_tell(points):
    times = np.linspace(0.0, 600.0, points)
    with pytest.raises(OutsideDomain):
        found(times, np.exp(-times / 600.0))


def test_readings_too_alike_do_not_tell():
    with pytest.raises(OutsideDomain):
        found([0.0, 1e-6, 2e-6, 3e-6], [2.0, 2.0 - 1e-9, 2.0 - 2e-9, 2.0 - 3e-9])
