"""A service that is down, busy or talks nonsense: the answers stay, and can be sent again."""

import pytest
from playwright.sync_api import expect
from tests.faults.free_port import free_port

from .local_servers import running_service
from .shop_page import check_element, shop_page
from .suction_check import EASY, SuctionCheck

ASKED = "/v1/suction-feasibility"
SOUNDED = "/v1/sounding"


def test_a_connection_that_is_lost_and_comes_back(check, picture):
    check.page.context.set_offline(True)
    check.ask(**EASY)
    expect(check.status).to_contain_text("The service cannot be reached. Your answers are still here.")
    assert check.field("depth").input_value() == "8"
    picture(check.page, "desktop-unreachable")
    check.page.context.set_offline(False)
    check.status.get_by_role("button", name="Try again").click()
    expect(check.verdict).to_be_visible()


def test_trying_again_asks_of_the_form_as_it_stands_then(check):
    check.page.context.set_offline(True)
    check.ask(**EASY)
    again = check.status.get_by_role("button", name="Try again")
    expect(again).to_be_visible()
    check.give(depth="40")
    check.page.context.set_offline(False)
    with check.page.expect_request(f"**{ASKED}") as asked:
        again.click()
    assert asked.value.post_data_json["depth_to_water"]["value"] == 40
    expect(check.verdict).to_contain_text("No:")


def test_trying_again_tells_what_is_wrong_with_the_form_by_then(check):
    check.page.context.set_offline(True)
    check.ask(**EASY)
    again = check.status.get_by_role("button", name="Try again")
    expect(again).to_be_visible()
    check.give(depth="")
    again.click()
    expect(check.error("depth")).to_have_text("Please fill this in.")


def test_an_answer_goes_where_its_drops_cannot_be_measured_any_more(check):
    """It stands for other drops, and what it said of them has gone from the status."""
    check.field("known").select_option("stone")
    check.watch.evaluate("button => { button.click(); setTimeout(() => button.click(), 900); }")
    expect(check.drops).to_contain_text("ft")
    check.answered(**{name: value for name, value in EASY.items() if name != "depth"})
    check.page.context.set_offline(True)
    check.element.get_by_role("button", name="Remove drop 1").click()
    check.watch.evaluate("button => { button.click(); setTimeout(() => button.click(), 900); }")
    expect(check.status).to_contain_text("The service cannot be reached.")
    expect(check.result).to_be_hidden()


def test_trying_again_keeps_the_keyboard_where_it_was(check):
    check.page.context.set_offline(True)
    check.ask(**EASY)
    again = check.status.get_by_role("button", name="Try again")
    again.focus()
    check.page.context.set_offline(False)
    check.page.keyboard.press("Enter")
    expect(check.verdict).to_be_visible()
    expect(check.button).to_be_focused()


def test_a_service_that_stops_and_starts(new_context, shop):
    port = free_port()
    page = new_context().new_page()
    check = SuctionCheck(page)
    with running_service(shop.origin, port=port) as service:
        html = check_element()
        page.goto(shop.page(shop_page(html, f"{service}/embed/v1/suction-check.js")))
        check.is_ready()
    check.ask(**EASY)
    expect(check.status).to_contain_text("The service cannot be reached.")
    with running_service(shop.origin, port=port):
        check.status.get_by_role("button", name="Try again").click()
        expect(check.verdict).to_be_visible()


def test_a_service_that_is_busy(check):
    check.give(**EASY)
    for status in (429, 500, 502, 503):
        check.reply_once(ASKED, status, {"title": "busy", "status": status, "detail": "later"})
        check.ask()
        expect(check.status).to_contain_text("The service is busy just now. Wait a moment, then try again.")
    check.status.get_by_role("button", name="Try again").click()
    expect(check.verdict).to_be_visible()


def test_what_is_no_answer_counts_as_none(check):
    check.reply_once(ASKED, 200, "<html>sign in</html>")
    check.ask(**EASY)
    expect(check.status).to_contain_text("The service cannot be reached.")


@pytest.mark.parametrize(
    ("status", "body", "told"),
    [
        (403, {"message": "Forbidden"}, "Forbidden"),
        (422, {}, "422"),
        (422, None, "422"),
        (413, [], "413"),
        (422, {"detail": "no", "errors": "none"}, "no"),
        (422, {"detail": "no", "errors": [None, {}, {"pointer": 1, "detail": 2}]}, "no"),
    ],
)
def test_a_refusal_that_is_not_the_services_own_ends_too(check, status, body, told):
    """What stands before a service, such as a gateway, refuses in its own way."""
    check.watch_events()
    check.reply_once(ASKED, status, body)
    check.ask(**EASY)
    expect(check.status).to_have_text(f"The service could not work this out: {told}")
    ((name, problem),) = check.events()
    assert (name, problem["status"]) == ("refused", status)
    expect(check.answered()).to_be_visible()


@pytest.mark.parametrize("odd", [{"verdict": "feasible"}, {"verdict": "fine"}, {}, [], None, "yes"])
def test_an_answer_that_lacks_what_is_told_counts_as_none(check, odd):
    check.watch_events()
    headers = {"access-control-allow-origin": check.page.evaluate("location.origin")}
    check.page.route(f"**{ASKED}", lambda route: route.fulfill(json=odd, headers=headers), times=1)
    check.ask(**EASY)
    expect(check.status).to_contain_text("The service cannot be reached. Your answers are still here.")
    expect(check.result).to_be_hidden()
    assert check.events() == []
    check.status.get_by_role("button", name="Try again").click()
    expect(check.verdict).to_be_visible()


def test_an_answer_that_goes_as_its_drops_cannot_be_measured_is_taken_back(check):
    """The drops were being measured anew when it came."""
    check.field("known").select_option("stone")
    check.watch.evaluate("button => { button.click(); setTimeout(() => button.click(), 900); }")
    expect(check.drops).to_contain_text("ft")
    check.give(**{name: value for name, value in EASY.items() if name != "depth"})
    held = []

    def hold(route):
        held.append(route)

    check.page.route(f"**{SOUNDED}", hold, times=1)
    check.watch_events()
    with check.page.expect_request(f"**{SOUNDED}"):
        check.field("altitude").fill("600")
        check.field("altitude").press("Enter")
    expect(check.verdict).to_be_visible()
    assert [name for name, _ in check.events()] == ["answered"]
    headers = {"access-control-allow-origin": check.page.evaluate("location.origin")}
    held[0].fulfill(status=503, json={"detail": "later"}, headers=headers)
    expect(check.status).to_contain_text("The service is busy just now.")
    expect(check.verdict).to_have_count(0)
    assert [name for name, _ in check.events()] == ["answered", "changed"]


def test_a_service_that_is_down_when_the_page_loads(new_context, shop, service):
    """The script stands in a cache; the page shows what the shop itself has to say."""
    page = new_context().new_page()
    page.route("**/embed/v1/texts**", lambda route: route.abort())
    html = check_element(inside="<p>Ask our counter.</p>")
    page.goto(shop.page(shop_page(html, f"{service}/embed/v1/suction-check.js")))
    check = SuctionCheck(page)
    alert = check.element.get_by_role("alert")
    expect(alert).to_contain_text("The service cannot be reached.")
    expect(page.get_by_text("Ask our counter.")).to_be_visible()
    page.unroute_all()
    alert.get_by_role("button", name="Try again").click()
    check.is_ready()
    expect(page.get_by_text("Ask our counter.")).to_be_hidden()


@pytest.mark.parametrize("body", ["{}", "null", "[]", "<html>sign in</html>"])
def test_texts_that_are_none_are_told_and_asked_for_again(new_context, shop, service, body):
    page = new_context().new_page()
    said = []
    page.on("console", lambda message: said.append(message.text))
    headers = {"access-control-allow-origin": shop.origin}
    page.route("**/embed/v1/texts/**", lambda route: route.fulfill(body=body, headers=headers), times=2)
    html = check_element(inside="<p>Ask our counter.</p>")
    page.goto(shop.page(shop_page(html, f"{service}/embed/v1/suction-check.js")))
    check = SuctionCheck(page)
    expect(check.element.get_by_role("alert")).to_contain_text("The service cannot be reached.")
    expect(page.get_by_text("Ask our counter.")).to_be_visible()
    assert said == [f"footvalve-suction-check: {service} sends no texts"]
    check.element.get_by_role("button", name="Try again").press("Enter")
    check.is_ready()
    expect(check.field("known")).to_be_focused()


def test_trying_again_in_vain_keeps_the_keyboard_where_it_was(check):
    check.page.route("**/embed/v1/texts**", lambda route: route.abort())
    check.element.evaluate("element => element.setAttribute('lang', 'es')")
    again = check.element.get_by_role("button", name="Try again")
    again.focus()
    with check.page.expect_request("**/embed/v1/texts/es.json"):
        check.page.keyboard.press("Enter")
    expect(check.element.locator(".box")).to_have_js_property("inert", False)
    expect(again).to_be_focused()


def test_trying_again_leaves_the_keyboard_to_who_has_gone_on(check):
    check.page.route("**/embed/v1/texts**", lambda route: route.abort(), times=2)
    check.element.evaluate("element => element.setAttribute('lang', 'es')")
    again = check.element.get_by_role("button", name="Try again")
    expect(again).to_be_visible()
    check.page.evaluate("document.body.insertAdjacentHTML('beforeend', '<input id=elsewhere>')")
    held = []

    def hold(route):
        held.append(route)

    check.page.route("**/embed/v1/texts/es.json", hold, times=1)
    with check.page.expect_request("**/embed/v1/texts/es.json"):
        again.click()
    check.page.locator("#elsewhere").focus()
    held[0].continue_()
    expect(check.button).to_have_text("Comprobar mi pozo")
    expect(check.page.locator("#elsewhere")).to_be_focused()


def test_texts_of_a_language_that_are_none_fall_back_to_english(check):
    headers = {"access-control-allow-origin": check.page.evaluate("location.origin")}
    check.page.route("**/embed/v1/texts/es.json", lambda route: route.fulfill(body="{}", headers=headers))
    with check.page.expect_response("**/embed/v1/texts/es.json"):
        check.element.evaluate("element => element.setAttribute('lang', 'es')")
    expect(check.button).to_have_text("Check my well")
    assert check.element.locator(".box").get_attribute("lang") == "en"


def test_drops_are_measured_once_the_service_is_back(check):
    check.field("known").select_option("stone")
    check.page.context.set_offline(True)
    check.watch.evaluate("button => { button.click(); setTimeout(() => button.click(), 700); }")
    expect(check.status).to_contain_text("The service cannot be reached.")
    expect(check.drops).to_have_count(1)
    check.page.context.set_offline(False)
    check.status.get_by_role("button", name="Try again").click()
    expect(check.drops).to_contain_text("ft")


STYLE = "**/embed/v1/suction-check.css"

HURRIED = "const timeout = AbortSignal.timeout.bind(AbortSignal); AbortSignal.timeout = (ms) => timeout(ms / 20);"
"""What the script waits for at most, shortened."""


def silent(route):
    """A connection is made, and nothing comes."""


def aborted(route):
    route.abort()


def styled_by(**answer):
    def answered(route):
        headers = {"access-control-allow-origin": "*", "content-type": answer.get("type", "text/css")}
        route.fulfill(status=answer.get("status", 200), body="form { color: red }", headers=headers)

    return answered


@pytest.mark.parametrize(
    "answer",
    [aborted, silent, styled_by(type="text/html"), *(styled_by(status=status) for status in (404, 429, 500, 503))],
    ids=["aborted", "silent", "no style", "404", "429", "500", "503"],
)
def test_the_form_comes_up_without_a_look_that_does_not_come(new_context, shop, service, answer):
    page = new_context().new_page()
    page.add_init_script(HURRIED)
    said = []
    page.on("console", lambda message: said.append(message.text))
    page.route(STYLE, answer)
    page.goto(shop.page(shop_page(check_element(), f"{service}/embed/v1/suction-check.js")))
    check = SuctionCheck(page)
    check.is_ready()
    assert check.root_rules() == 0
    own = [text for text in said if text.startswith("footvalve-suction-check")]
    assert own == [f"footvalve-suction-check: {service} sends no suction-check.css"]
    expect(check.answered(**EASY)).to_be_visible()


def test_a_form_keeps_the_look_that_it_has(check):
    before = check.root_rules()
    assert before > 0
    check.page.route(STYLE, aborted)
    check.element.evaluate("element => element.setAttribute('lang', 'es')")
    expect(check.button).to_have_text("Comprobar mi pozo")
    assert check.root_rules() == before


def test_a_service_that_takes_connections_and_never_answers_is_told(new_context, shop, service):
    page = new_context().new_page()
    page.add_init_script(HURRIED)
    page.route("**/embed/v1/texts**", silent)
    page.goto(shop.page(shop_page(check_element(), f"{service}/embed/v1/suction-check.js")))
    check = SuctionCheck(page)
    expect(check.element.get_by_role("alert")).to_contain_text("The service cannot be reached.")
    page.unroute_all()
    check.element.get_by_role("button", name="Try again").click()
    check.is_ready()


@pytest.mark.parametrize("status", [429, 503])
def test_a_service_that_is_busy_in_plain_text_is_told_as_busy(check, status):
    check.reply_once(ASKED, status, "slow down")
    check.ask(**EASY)
    expect(check.status).to_contain_text("The service is busy just now.")
