"""The page on capacity follows from the figures that stand in it, and the cluster may grow as far as it says."""

import capacity
import pytest
from capacity import DEMANDS, LEAST, USED_FRACTION, Demand, costs_of, need, page

from .tools import KUBERNETES, yaml_of

STANDS = capacity.PAGE.read_text(encoding="utf-8")
COSTS = costs_of(STANDS)


def test_the_page_follows_from_its_figures():
    """Else: .venv/bin/python deploy/capacity.py"""
    assert page(COSTS) == STANDS


def test_other_figures_make_another_page():
    assert page(capacity.Costs(10_000.0, 500.0, 100.0, 80.0, 5.0, "3.11.7", 2)) != STANDS


def test_what_is_needed_is_worked_out_by_hand():
    """A thousand a second, twice that on the peak; at 3 ms each that is 6 cores, at six tenths 10 processes."""
    costs = capacity.Costs(3_000.0, 500.0, 100.0, 80.0, 5.0, "3.11.7", 2)
    found = need(Demand("", 3_600_000, 3_600, 2.0), costs)
    assert found.rate == 2_000
    assert found.cores == pytest.approx(6.0)
    assert found.processes == 11
    assert found.proxy_cores == pytest.approx(0.2)
    assert found.memory_mb == 880.0


def test_there_are_never_too_few():
    assert need(Demand("", 100, 86_400, 2.0), COSTS).processes == LEAST


def test_the_cluster_may_grow_so_far():
    scaling = yaml_of(KUBERNETES / "base/horizontal-pod-autoscaler.yaml")["spec"]
    assert scaling["minReplicas"] == LEAST
    assert scaling["maxReplicas"] >= max(need(demand, COSTS).processes for demand in DEMANDS)


def test_the_cluster_grows_at_the_load_that_is_assumed():
    """The autoscaler counts in shares of what a pod asks for."""
    pod = yaml_of(KUBERNETES / "base/deployment.yaml")["spec"]["template"]["spec"]
    asked = pod["containers"][0]["resources"]["requests"]["cpu"]
    (metric,) = yaml_of(KUBERNETES / "base/horizontal-pod-autoscaler.yaml")["spec"]["metrics"]
    percent = metric["resource"]["target"]["averageUtilization"]
    assert int(asked.removesuffix("m")) / 1_000 * percent / 100 == pytest.approx(USED_FRACTION)
