"""The shop of the demo, which reacts to what the check tells."""

import pytest
from playwright.sync_api import expect

from .suction_check import DEEP, EASY, SURE, SuctionCheck


@pytest.fixture
def demo(new_context, service):
    """The page and its two checks."""
    page = new_context(viewport={"width": 1280, "height": 900}).new_page()
    page.goto(f"{service}/embed/v1/demo")
    checks = SuctionCheck(page), SuctionCheck(page, 1)
    for check in checks:
        check.is_ready()
    return page, *checks


def test_the_shop_reacts_at_the_pump_that_was_asked_about(demo, picture):
    page, rotary, centrifugal = demo
    says = page.locator(".shop")
    rotary.answered(**EASY, **SURE)
    expect(says.nth(0)).to_have_text(
        "The shop's page: Good news: this pump goes into your basket with a foot valve and a pre-filter."
    )
    expect(says.nth(1)).to_be_empty()
    centrifugal.answered(**DEEP)
    expect(says.nth(1)).to_contain_text("We would not sell you this pump for this well.")
    picture(page, "demo-answered")
    rotary.ask(altitude="40000")
    expect(says.nth(0)).to_contain_text("Some figures need a second look")


def test_the_shop_takes_back_what_it_said_of_an_answer_that_stands_no_longer(demo):
    page, rotary, _ = demo
    rotary.answered(**EASY, **SURE)
    expect(page.locator(".shop").nth(0)).to_contain_text("Good news")
    rotary.give(depth="")
    expect(page.locator(".shop").nth(0)).to_be_empty()
    rotary.button.click()
    expect(page.locator(".shop").nth(0)).to_contain_text("Some figures need a second look")


def test_where_the_script_does_not_come_the_shop_has_the_word(new_context, service):
    page = new_context().new_page()
    page.route("**/suction-check.*.js", lambda route: route.abort())
    page.goto(f"{service}/embed/v1/demo")
    expect(page.get_by_text("The suction check does not show here. Ask our counter.").nth(1)).to_be_visible()


def test_the_shop_does_not_sell_on_a_yes_that_is_left_open(demo):
    page, rotary, _ = demo
    rotary.answered(**EASY | {"depth": "11"})
    expect(rotary.verdict).to_contain_text("Perhaps")
    expect(page.locator(".shop").nth(0)).to_contain_text("our counter looks at this site with you")


def test_the_other_language_is_one_click_away(demo):
    page, *_ = demo
    page.get_by_role("link", name="En español").click()
    expect(page).to_have_title("La Tienda de Bombas de la Esquina")
    SuctionCheck(page, 1).is_ready()
    expect(page.locator("#depth-unit").first).to_have_text("m")


def test_the_source_that_is_shown_makes_such_a_check(demo, page_with, service):
    page, *_ = demo
    shown = page.locator("pre").inner_text().replace('src="', f'src="{service}')
    check = SuctionCheck(page_with(shown))
    check.is_ready()
    expect(check.element.get_by_role("heading", level=2)).to_have_text("Would the rotary booster work on your well?")
