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


def test_four_readings_tell_where_the_rest_is():
    """From 0.05 m of a rest that lies deeper, with four readings without error."""
    times = np.array([0.0, 300.0, 800.0, 1800.0])
    assert found(times, 0.05 + 6.0 * np.exp(-times / 600.0)).offset == pytest.approx(0.05, rel=0.12)


@given(st.floats(1.0, 2e9))
def test_when_the_watch_was_started_does_not_matter(earlier):
    """Up to a clock that counts the seconds from 1970."""
    times, drawdowns = readings(3, rest=0.1)
    late, early = found(times + earlier, drawdowns), found(times, drawdowns)
    assert late.offset == pytest.approx(early.offset, rel=1e-5)
    assert late.standard_uncertainty == pytest.approx(early.standard_uncertainty, rel=1e-5)


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("points", [5, 12])
def test_offset_and_uncertainty_are_those_of_linear_least_squares(seed, points):
    """By numpy, of the columns 1, f and t f, f the fitted recovery; the scatter has as many degrees of freedom less as
    there are columns, and is far above a tape's error here."""
    times, drawdowns = readings(seed, noise=0.05, points=points)
    fit = fit_recovery(times=times.tolist(), drawdowns=drawdowns.tolist(), area=AREA)
    f = fit.initial_drawdown * np.exp(-fit.specific_capacity / AREA * (times - times.min()))
    columns = np.column_stack([np.ones_like(f), f, times * f])
    solution, *_ = np.linalg.lstsq(columns, drawdowns - f, rcond=None)
    scatter = drawdowns - f - columns @ solution
    variance = scatter @ scatter / (len(times) - 3)
    sigma = np.sqrt(variance * np.linalg.inv(columns.T @ columns)[0, 0])
    ours = found(times, drawdowns)
    assert variance > TAPE**2
    assert ours.offset == pytest.approx(solution[0], rel=1e-6)
    assert ours.standard_uncertainty == pytest.approx(sigma, rel=1e-6)


@pytest.mark.parametrize(
    ("times", "told"),
    [
        ([0.0, 300.0, 600.0], "^the rest is told by four readings or more"),
        ([0.0, 1e-6, 2e-6, 3e-6], "^the readings do not tell where the level comes to rest"),
        ([0.0, 0.0, 0.0, 0.0], "^the readings do not tell where the level comes to rest"),
    ],
    ids=["three", "all but at one time", "at one time"],
)
def test_what_does_not_tell_the_rest_is_refused_with_the_reason(times, told):
    fit = fit_recovery(times=[0.0, 600.0], drawdowns=[2.0, 1.0], area=AREA)
    drawdowns = [2.0 * 0.5 ** (time / 600.0) for time in times]
    with pytest.raises(OutsideDomain, match=told):
        rest_offset(times=times, drawdowns=drawdowns, fit=fit, area=AREA, reading_error=TAPE)


def test_every_reading_has_its_time():
    times = [0.0, 300.0, 600.0, 1200.0, 1800.0]
    fit = fit_recovery(times=[0.0, 600.0], drawdowns=[2.0, 1.0], area=AREA)
    with pytest.raises(ValueError, match="argument"):
        rest_offset(times=times, drawdowns=[2.0, 1.4, 1.0, 0.5], fit=fit, area=AREA, reading_error=TAPE)
