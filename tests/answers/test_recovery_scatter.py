"""The readings of a recovery scatter about their fit, and the well's answer is as uncertain as that (type A)."""

from copy import deepcopy
from math import hypot, log
from random import Random
from statistics import fmean

import msgspec
import pytest

from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.recovery_scatter import RECOVERY_SCATTER, recovery_scatter
from footvalve.answers.uncertain_inputs import OutOfRange
from footvalve.contract.examples import examples
from footvalve.contract.well_recovery import WellRecoveryRequest

UNSET = msgspec.UNSET
WELL = ENDPOINT["well-recovery"]


def of(value, unit):
    return {"value": value, "unit": unit}


def example(name, which, **changes):
    return deepcopy(next(each.request for each in examples(name) if each.name == which)) | changes


def readings(*pairs):
    """Minutes since pumping stopped, and feet of depth."""
    return {"readings": [{"elapsed": of(minutes, "min"), "depth": of(depth, "ft")} for minutes, depth in pairs]}


def well(*pairs, **more):
    return {"static_depth": of(10, "ft"), "casing_diameter": of(6, "in"), "recovery": readings(*pairs)} | more


def decoded(body):
    return msgspec.convert(body, WELL.request)


def ask(body):
    return WELL(decoded(body))


SCATTERED = ((0, 20.0), (10, 16.2), (20, 13.6), (30, 12.4), (40, 11.3), (50, 10.9))
TOLD = well(*SCATTERED, design_flow=of(0.3, "gal/min"), limit_depth=of(19, "ft"), contributions=True)


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize(
    "body",
    [TOLD, *(example("well-recovery", which) for which in ("us", "metric-dug-well"))],
    ids=["scattered", "us", "metric-dug-well"],
)
def test_the_specific_capacity_is_as_uncertain_as_the_fit_says(body, units):
    found = ask(body | {"units": units})
    assert found.specific_capacity.uncertainty == pytest.approx(found.fit.standard_uncertainty.value, rel=1e-5)


def test_what_follows_from_it_is_uncertain_in_proportion():
    found = ask(TOLD)
    share = found.specific_capacity.uncertainty / found.specific_capacity.value
    assert found.inflow_at_limit.uncertainty == pytest.approx(share * found.inflow_at_limit.value, rel=1e-4)
    # A / C to the first order by central differences: (1/(1+u) - 1/(1-u)) / 2
    assert found.time_constant.uncertainty == pytest.approx(
        found.time_constant.value * share / (1.0 - share * share), rel=1e-4
    )
    assert not found.storage.uncertainty


def test_it_is_told_as_the_scatter_of_the_readings():
    found = ask(TOLD)
    shares = [share for row in found.contributions for share in row.inputs]
    assert {(share.pointer, share.kind, share.variance_fraction) for share in shares} == {
        ("/recovery/readings", "scatter", 1.0)
    }
    assert {row.quantity: row.inputs[0].effect for row in found.contributions} == {
        "/specific_capacity": "raises",
        "/time_constant": "lowers",
        "/inflow_at_limit": "raises",
        "/pumping_depth": "lowers",
    }
    assert RECOVERY_SCATTER.source in [step.source for step in found.basis]


def test_a_stated_uncertainty_counts_beside_the_scatter():
    body = TOLD | {"casing_diameter": of(6, "in") | {"uncertainty": 0.1}}
    by_scatter = ask(TOLD).specific_capacity.uncertainty
    by_bore = 2 * 0.1 / 6 * ask(TOLD).specific_capacity.value
    assert ask(body).specific_capacity.uncertainty == pytest.approx(hypot(by_scatter, by_bore), rel=1e-4)


def test_readings_that_carry_their_own_uncertainty_count_beside_their_scatter():
    body = deepcopy(TOLD)
    for reading in body["recovery"]["readings"]:
        reading["depth"]["uncertainty"] = 0.05
    alone, together = ask(TOLD), ask(body)
    assert together.specific_capacity.uncertainty > alone.specific_capacity.uncertainty
    kinds = {share.kind for row in together.contributions for share in row.inputs}
    assert kinds == {"scatter", "stated"}


@pytest.mark.parametrize(
    "pairs",
    [
        ((0, 20), (40, 11.3)),  # any exponential fits two
        tuple((minutes, 10 + 10 * 0.5 ** (minutes / 10)) for minutes in (0, 10, 20, 30)),  # on the fit
        ((0, 20), (10, 20), (20, 20.005), (30, 19.998)),  # nothing flows in
    ],
    ids=["two readings", "no scatter", "no inflow"],
)
def test_where_no_scatter_is_seen_none_is_told(pairs):
    found = ask(well(*pairs, contributions=True))
    assert found.contributions == []
    assert found.specific_capacity.uncertainty is UNSET


def test_a_scatter_as_great_as_the_inflow_is_reckoned_to_one_side_and_said():
    """One standard uncertainty less would be no inflow at all."""
    body = well((0, 20.0), (5, 12.0), (10, 19.0), (15, 13.0), (20, 18.0))
    found, plain = ask(body), WELL.compute(decoded(body))
    assert found.fit.standard_uncertainty.value > found.specific_capacity.value > 0.0
    assert found.specific_capacity.uncertainty == pytest.approx(found.fit.standard_uncertainty.value, rel=1e-5)
    said = [warning.pointer for warning in found.warnings if warning not in plain.warnings]
    assert said[0] == "/recovery/readings"


@pytest.mark.parametrize("sigmas", [-1.0, 0.5, 2.0])
def test_the_moved_readings_are_a_well_of_that_much_more_inflow_with_as_good_a_fit(sigmas):
    request = decoded(TOLD)
    (scatter,) = recovery_scatter(request)
    before, after = WELL.compute(request), WELL.compute(scatter.shifted(request, sigmas))
    moved = before.specific_capacity.value + sigmas * before.fit.standard_uncertainty.value
    assert after.specific_capacity.value == pytest.approx(moved, rel=1e-5)
    assert after.fit.r_squared == before.fit.r_squared
    assert after.fit.initial_drawdown == before.fit.initial_drawdown


def test_readings_are_not_moved_to_where_the_contract_takes_none():
    """Slower by so much they would have been read for more than ten days."""
    days = [(0, 20.0), (5000, 15.2), (10000, 12.3), (14000, 11.4)]
    request = decoded(well(*days))
    (scatter,) = recovery_scatter(request)
    with pytest.raises(OutOfRange):
        scatter.shifted(
            request,
            -0.9 * WELL.compute(request).specific_capacity.value / WELL.compute(request).fit.standard_uncertainty.value,
        )


def test_the_uncertainty_is_the_spread_of_what_other_readings_would_have_shown():
    """Against many recoveries of one well, read with errors of the same size: the spread of their specific capacities
    is what one of them tells, on the mean of the squares: each knows its scatter by four degrees of freedom alone."""
    random, rate = Random(1), log(2.0) / 12.0
    found, told = [], []
    for _ in range(400):
        pairs = [(t, 10.0 + 10.0 * 2.718281828 ** (-rate * t) + random.gauss(0.0, 0.05)) for t in range(0, 36, 6)]
        answer = ask(well(*pairs))
        found.append(answer.specific_capacity.value)
        told.append(answer.specific_capacity.uncertainty)
    centre = fmean(found)
    spread = fmean((value - centre) ** 2 for value in found)
    assert fmean(sigma**2 for sigma in told) == pytest.approx(spread, rel=0.25)


def test_a_pumping_test_has_no_scatter():
    request = msgspec.convert(example("well-recovery", "pumping-test"), WellRecoveryRequest)
    assert list(recovery_scatter(request)) == []
