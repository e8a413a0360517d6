"""Pages that the operator has allowed, and pages that were not."""

import httpx
import pytest
from playwright.sync_api import expect

from .shop_page import ROTARY, shop_page
from .suction_check import SuctionCheck

ELEMENT = f"<footvalve-suction-check {ROTARY} {{}}><p>Ask our counter.</p></footvalve-suction-check>"


def test_a_page_that_is_allowed_gets_its_answer(answered, shop):
    assert answered.page.evaluate("location.origin") == shop.origin
    expect(answered.verdict).to_be_visible()


def test_a_page_that_is_not_allowed_shows_what_the_shop_has_to_say(new_context, stranger, service):
    """The browser keeps the script itself from it."""
    page = new_context().new_page()
    page.goto(stranger.page(shop_page(ELEMENT.format(""), f"{service}/embed/v1/suction-check.js")))
    page.wait_for_load_state("networkidle")
    expect(page.get_by_text("Ask our counter.")).to_be_visible()
    assert page.evaluate("customElements.get('footvalve-suction-check')") is None


@pytest.fixture
def with_the_script(stranger, service):
    """The address of a page of the stranger, who has a copy of the script and points it at an address."""
    source = httpx.get(f"{service}/embed/v1/suction-check.js").text
    html = '<!doctype html><html lang="en"><title>Shop</title><link rel="icon" href="data:,"><script type="module">'

    def written(address):
        return stranger.page(f"{html}{source}</script>" + ELEMENT.format(f'service="{address}"'))

    return written


def test_a_page_that_has_the_script_but_is_not_allowed_is_told_so(
    new_context, stranger, service, with_the_script, picture
):
    page = new_context().new_page()
    said = []
    page.on("console", lambda message: said.append(message.text))
    page.goto(with_the_script(service))
    alert = SuctionCheck(page).element.get_by_role("alert")
    expect(alert).to_contain_text("The suction check cannot be used on this page.")
    assert f"footvalve-suction-check: {service} must allow {stranger.origin}" in said
    expect(page.get_by_text("Ask our counter.")).to_be_visible()
    picture(page, "not-allowed")


def test_a_service_that_is_not_there_is_not_taken_for_one_that_declines(new_context, with_the_script, service):
    page = new_context().new_page()
    page.route(f"{service}/**", lambda route: route.abort())
    page.goto(with_the_script(service))
    expect(SuctionCheck(page).element.get_by_role("alert")).to_contain_text("The service cannot be reached.")
