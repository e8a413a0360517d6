"""Strict policies, a script that is held to its bytes, and nothing asked of or kept with anybody else."""

import httpx
import pytest
from playwright.sync_api import expect

from .shop_page import ROTARY, check_element, shop_page
from .suction_check import EASY, SuctionCheck

VIOLATIONS = """() => {
    window.violations = [];
    addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
        window.violations.push([violatedDirective, blockedURI]));
}"""


def violations(page):
    return page.evaluate("window.violations")


def watched(new_context):
    page = new_context().new_page()
    page.add_init_script(f"({VIOLATIONS})()")
    return page


@pytest.fixture
def pinned(service):
    """The pinned script's element of HTML, ready for a page of another origin."""
    told = httpx.get(f"{service}/embed/v1/integrity.json").json()
    return told["tag"].replace('src="', f'src="{service}')


def page_of(shop, head, policy):
    html = f"""<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Shop</title>{head}</head>
        <body>{check_element(f"{ROTARY} permalink", "<p>Ask our counter.</p>")}</body></html>"""
    return shop.page(html, policy)


def used_throughout(check):
    """Go through all that the check does."""
    check.is_ready()
    check.ask()
    expect(check.error("depth")).to_be_visible()
    check.field("known").select_option("stone")
    check.watch.evaluate("button => { button.click(); setTimeout(() => button.click(), 700); }")
    expect(check.drops).to_contain_text("ft")
    check.field("known").select_option("tape")
    check.answered(**EASY)


def test_the_pinned_script_works_under_the_strict_policy_of_a_shop(new_context, shop, service, pinned):
    page = watched(new_context)
    policy = f"default-src 'none'; script-src {service}; connect-src {service}; require-trusted-types-for 'script'"
    page.goto(page_of(shop, pinned, policy))
    used_throughout(SuctionCheck(page))
    assert [each for each in violations(page) if "favicon" not in each[1]] == []


def test_a_script_of_other_bytes_is_not_run(new_context, shop, pinned):
    page = watched(new_context)
    page.route(
        "**/suction-check.*.js",
        lambda route: route.fulfill(
            body="document.title = 'taken over'",
            headers={"content-type": "text/javascript", "access-control-allow-origin": shop.origin},
        ),
    )
    page.goto(page_of(shop, pinned, ""))
    expect(page.get_by_text("Ask our counter.")).to_be_visible()
    assert page.evaluate("customElements.get('footvalve-suction-check')") is None
    assert page.title() == "Shop"


def test_the_demo_keeps_its_own_policy(new_context, service):
    page = watched(new_context)
    page.goto(f"{service}/embed/v1/demo")
    used_throughout(SuctionCheck(page))
    assert violations(page) == []


def test_a_page_of_the_service_stands_in_no_frame(new_context, shop, service):
    page = new_context().new_page()
    page.goto(shop.page(f'<!doctype html><title>Shop</title><iframe src="{service}/embed/v1/demo"></iframe>'))
    page.wait_for_load_state("networkidle")
    assert [frame.url for frame in page.frames if frame.url.startswith(service)] == []


def test_nothing_is_asked_of_anybody_but_the_service(new_context, shop, service):
    page = new_context().new_page()
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    html = check_element()
    address = shop.page(shop_page(html, f"{service}/embed/v1/suction-check.js"))
    page.goto(address)
    used_throughout(SuctionCheck(page))
    elsewhere = [url for url in asked if not url.startswith((f"{service}/", "data:")) and url != address]
    assert elsewhere == []
    assert sorted(url.removeprefix(service) for url in asked if url.startswith(service)) == [
        "/embed/v1/suction-check.css", "/embed/v1/suction-check.js", "/embed/v1/texts/en.json", "/v1/sounding",
        "/v1/suction-feasibility",
    ]  # fmt: skip


def test_nothing_is_kept_in_the_browser(check):
    used_throughout(check)
    assert check.page.context.cookies() == []
    kept = check.page.evaluate(
        """async () => [
            localStorage.length, sessionStorage.length, (await indexedDB.databases()).length,
            (await caches.keys()).length,
        ]"""
    )
    assert kept == [0, 0, 0, 0]


def test_cookies_of_the_service_are_not_sent_along(new_context, service):
    """Not even by its own page, whose origin they belong to."""
    page = new_context().new_page()
    page.goto(f"{service}/embed/v1/demo")
    check = SuctionCheck(page)
    check.is_ready()
    page.context.add_cookies([{"name": "session", "value": "1", "url": service}])
    with page.expect_request("**/v1/suction-feasibility") as asked:
        check.answered(**EASY)
    assert "cookie" not in asked.value.all_headers()


def test_what_the_shop_writes_into_an_attribute_stays_text(check_on):
    check = check_on('pump-name="<img src=x onerror=alert(1)>" rated-lift="22 ft" flow="3 gal/min"')
    expect(check.element.get_by_role("heading", level=2)).to_contain_text("<img src=x onerror=alert(1)>")
    expect(check.element.locator("img")).to_have_count(0)
