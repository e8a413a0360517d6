"""The link to the site sheet, and the page that makes the sheet."""

import json
import re
from urllib.parse import quote

from playwright.sync_api import expect

from .axe import found
from .suction_check import EASY, SURE

LINK = "Open the site sheet to print"


def sheet_of(check):
    """The page that the link opens."""
    with check.page.context.expect_page() as opened:
        check.result.get_by_role("link", name=LINK).click()
    return opened.value


def test_the_link_opens_the_sheet_of_this_site_without_telling_the_shop_of(check, service, picture):
    """What it asks for stands behind the hash of its address, and goes to the service alone."""
    check.answered(**EASY, **SURE)
    asked = []
    check.page.context.on("request", lambda request: asked.append((request.url, request.method)))
    with check.page.context.expect_event("request", lambda request: request.method == "POST") as posted:
        sheet = sheet_of(check)
    expect(sheet.locator("svg").first).to_be_visible()
    expect(sheet.locator("body")).to_contain_text("8 ft")
    picture(sheet, "site-sheet")
    assert sheet.evaluate("[window.opener, document.referrer]") == [None, ""]
    page = f"{service}/embed/v1/site-sheet"
    assert {url for url, method in asked if method == "GET"} <= {page, f"{page}.css", f"{page}.js"}
    assert [url for url, method in asked if method == "POST"] == [f"{service}/v1/site-plan"]
    plan = posted.value.post_data_json
    assert plan["switch"]["cut_in"] == {"value": 20, "unit": "psi"}
    assert plan["house_elevation"] == {"value": 10, "unit": "ft"}


def test_the_sheet_says_perhaps_where_the_check_does_and_why_it_may_differ(check):
    check.answered(**EASY | {"depth": "10"})
    expect(check.verdict).to_contain_text("Perhaps")
    expect(check.result.locator(".tools")).to_contain_text(
        "It reckons at the flow that the pump gives at 20 psi, so its margin and its word may differ from these."
    )
    sheet = sheet_of(check)
    expect(sheet.locator(".verdict strong")).to_have_text("perhaps:")


def test_axe_finds_nothing_in_the_sheet(check):
    check.answered(**EASY)
    sheet = sheet_of(check)
    expect(sheet.locator("svg").first).to_be_visible()
    assert found(sheet) == []
    expect(sheet.get_by_role("main")).to_have_count(1)
    expect(sheet.locator("th").filter(has_not_text=re.compile(r"\S"))).to_have_count(0)


def test_axe_finds_nothing_where_there_is_no_sheet(new_context, service):
    page = sheet_page(new_context, service, "")
    expect(page.get_by_role("status")).to_contain_text("This address holds no plan.")
    assert found(page) == []


def test_without_what_a_sheet_needs_there_is_no_link(check):
    check.element.evaluate("element => element.removeAttribute('pump-points')")
    expect(check.field("tap")).to_be_hidden()
    check.answered(**EASY)
    expect(check.result.get_by_role("link", name=LINK)).to_have_count(0)


def sheet_page(new_context, service, plan, route=None):
    page = new_context().new_page()
    if route:
        page.route("**/v1/site-plan", route, times=1)
    page.goto(f"{service}/embed/v1/site-sheet#{plan}")
    return page


def plan_of(check):
    link = check.result.get_by_role("link", name=LINK).get_attribute("href")
    return link.split("#")[1]


def test_an_address_without_a_plan_says_so(new_context, service):
    page = sheet_page(new_context, service, "")
    expect(page.get_by_role("status")).to_have_text(
        "This address holds no plan. Open the sheet by its link in the suction check."
    )
    expect(page.get_by_role("button", name="Try again")).to_be_hidden()


def test_a_plan_that_the_service_refuses_says_why(new_context, service):
    suction = {"units": "us", "pump": {}, "line": []}
    plan = {"suction": suction, "points": [], "pressures": [], "tap": {"value": 1, "unit": "ft"}}
    page = sheet_page(new_context, service, quote(json.dumps(plan)))
    expect(page.get_by_role("status")).to_contain_text("There is no sheet of this plan.")
    expect(page.get_by_role("status")).to_contain_text("/pump")


def test_a_sheet_is_made_once_the_service_is_back(answered, new_context, service):
    page = sheet_page(new_context, service, plan_of(answered), route=lambda route: route.abort())
    expect(page.get_by_role("status")).to_have_text("The service cannot be reached.")
    page.get_by_role("button", name="Try again").click()
    expect(page.locator("svg").first).to_be_visible()
