"""Two checks on one page have nothing to do with one another."""

import pytest
from playwright.sync_api import expect

from .suction_check import DEEP, EASY, SuctionCheck


@pytest.fixture
def two(page_with):
    page = page_with(
        """<footvalve-suction-check pump-name="the one" rated-lift="22 ft" flow="3 gal/min"></footvalve-suction-check>
        <footvalve-suction-check pump-name="the other" npsh-required="3.7 m" flow="11 L/min" units="metric" lang="es">
        </footvalve-suction-check>"""
    )
    checks = SuctionCheck(page), SuctionCheck(page, 1)
    for check in checks:
        check.is_ready()
    return checks


def test_each_has_its_own_words_and_units(two):
    one, other = two
    expect(one.button).to_have_text("Check my well")
    expect(other.button).to_have_text("Comprobar mi pozo")
    expect(one.element.locator("#depth-unit")).to_have_text("ft")
    expect(other.element.locator("#depth-unit")).to_have_text("m")


def test_each_is_answered_by_itself(two):
    one, other = two
    one.watch_events()
    one.answered(**EASY)
    expect(other.verdict).to_have_count(0)
    assert other.field("depth").input_value() == ""
    other.answered(**DEEP | {"depth": "15"})
    expect(one.verdict).to_contain_text("✓Yes: the one")
    expect(other.verdict).to_contain_text("✕No: the other")
    assert [detail["verdict"] for _, detail in one.events()] == ["feasible", "infeasible"]


def test_each_is_refused_and_measured_by_itself(two):
    one, other = two
    other.ask()
    expect(other.error("depth")).to_be_visible()
    expect(other.field("depth")).to_be_focused()
    expect(one.error("depth")).to_be_hidden()
    for check in two:
        check.field("known").select_option("stone")
    one.watch.click()
    expect(one.watch).to_have_text("Stop: I hear it")
    expect(other.watch).to_have_text("Empezar: la suelto")
