"""The arithmetic of a window that slides, and the counters of one process that go by it."""

from fractions import Fraction
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.web.allowance import Allowance
from footvalve.web.rate_headers import rate_headers
from footvalve.web.rate_local import LocalCounters
from footvalve.web.rate_window import Window, left, seconds_until

TEN_A_MINUTE = Allowance(10, 60)


class Clock:
    """A clock that is set by hand."""

    def __init__(self) -> None:
        self.now = 0.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def counters(clock: Clock) -> LocalCounters:
    return LocalCounters(clock)


@st.composite
def windows(draw):
    allowance = Allowance(draw(st.integers(1, 500)), draw(st.sampled_from([1, 60, 3600])))
    counts = st.integers(0, allowance.requests)
    return allowance, Window(draw(counts), draw(counts), draw(st.integers(0, 16 * allowance.seconds)) / 16)


@given(windows(), st.data())
def test_what_is_told_to_wait_is_enough_and_no_second_too_long(case, data):
    """Walked second by second in exact numbers, with nobody else asking meanwhile."""
    allowance, window = case
    requests = data.draw(st.integers(1, allowance.requests))
    wait = seconds_until(allowance, window, requests)
    assert fits_after(allowance, window, requests, wait)
    assert wait == 0 or not fits_after(allowance, window, requests, max(0, wait - 1 - Fraction(1, 1000)))


def fits_after(allowance, window, requests, seconds):
    before, now, rest = window.before, window.now, Fraction(window.rest) - Fraction(seconds)
    while rest < 0:
        before, now, rest = now, 0, rest + allowance.seconds
    return floor(before * rest / allowance.seconds) + now + requests <= allowance.requests


def test_as_many_pass_as_are_allowed_and_no_more(counters):
    passed = [counters.charge("a", TEN_A_MINUTE, 1).fits for _ in range(40)]
    assert passed == [True] * 10 + [False] * 30


def test_each_is_counted_alone(counters):
    assert all(counters.charge(f"a{place}", Allowance(1, 60), 1).fits for place in range(100))
    assert not counters.charge("a7", Allowance(1, 60), 1).fits


def test_many_at_once_pass_whole_or_not_at_all(counters):
    assert counters.charge("a", TEN_A_MINUTE, 7).fits
    refused = counters.charge("a", TEN_A_MINUTE, 4)
    assert not refused.fits
    assert left(TEN_A_MINUTE, refused.window) == 3, "what was refused is not counted"
    assert counters.charge("a", TEN_A_MINUTE, 3).fits


def test_a_look_counts_nothing(counters):
    for _ in range(20):
        assert counters.charge("a", TEN_A_MINUTE, 0).window.now == 0
    assert counters.charge("a", TEN_A_MINUTE, 10).fits


def test_the_end_of_a_window_does_not_let_twice_as_many_through(counters, clock):
    clock.now = 59.9
    assert counters.charge("a", TEN_A_MINUTE, 10).fits
    clock.now = 60.1
    assert counters.charge("a", TEN_A_MINUTE, 1).fits, "the first of ten has just begun to fade"
    assert not counters.charge("a", TEN_A_MINUTE, 1).fits
    clock.now = 90.0
    assert left(TEN_A_MINUTE, counters.charge("a", TEN_A_MINUTE, 0).window) == 4, "half of ten have faded, one is new"


@pytest.mark.parametrize("away", [120, 180, 6000])
def test_who_has_not_asked_for_two_windows_has_the_whole_allowance(counters, clock, away):
    assert counters.charge("a", TEN_A_MINUTE, 10).fits
    clock.now += away
    verdict = counters.charge("a", TEN_A_MINUTE, 10)
    assert verdict.fits
    assert verdict.window == Window(0, 10, 60)


def test_who_waits_as_told_is_let_through(counters, clock):
    clock.now = 17.0
    counters.charge("a", TEN_A_MINUTE, 10)
    for requests in (1, 4, 10):
        refused = counters.charge("a", TEN_A_MINUTE, requests)
        assert not refused.fits
        clock.now += seconds_until(TEN_A_MINUTE, refused.window, requests)
        assert counters.charge("a", TEN_A_MINUTE, requests).fits


def test_allowances_of_several_lengths_are_counted_side_by_side(counters, clock):
    assert counters.charge("a", Allowance(1, 1), 1).fits
    assert counters.charge("b", Allowance(1, 3600), 1).fits
    clock.now = 2.0
    assert counters.charge("a", Allowance(1, 1), 1).fits
    assert not counters.charge("b", Allowance(1, 3600), 1).fits


def test_memory_holds_so_many_and_no_more(clock):
    counters = LocalCounters(clock, most=100)
    for place in range(1000):
        counters.charge(f"a{place}", Allowance(1, 60), 1)
    [page] = counters._pages.values()
    assert len(page.now) == 100
    assert not counters.charge("a999", Allowance(1, 60), 1).fits, "who came last is still known"
    assert counters.charge("a0", Allowance(1, 60), 1).fits, "who came first is forgotten"
    clock.now = 200.0
    counters.charge("a", Allowance(1, 60), 1)
    [page] = counters._pages.values()
    assert len(page.now) + len(page.before) == 1, "who does not come back takes no memory"


@pytest.mark.parametrize(
    ("window", "told"),
    [
        (Window(0, 1, 60.0), b'"anonymous";r=599;t=61'),
        (Window(0, 600, 60.0), b'"anonymous";r=0;t=61'),
        (Window(600, 0, 60.0), b'"anonymous";r=0;t=1'),
        (Window(0, 0, 60.0), b'"anonymous";r=600;t=0'),
    ],
)
def test_headers_tell_the_policy_and_what_is_left(window, told):
    headers = dict(rate_headers("anonymous", Allowance(600, 60), window))
    assert headers == {b"ratelimit-policy": b'"anonymous";q=600;w=60', b"ratelimit": told}
