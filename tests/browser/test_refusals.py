"""What is wrong is said at its field, and the first such field is where the reader goes on."""

import re

from playwright.sync_api import expect

from .suction_check import EASY


def is_marked(check, name, text):
    """Whether an error stands at the field and is told with it."""
    expect(check.error(name)).to_have_text(text)
    expect(check.error(name)).to_be_visible()
    expect(check.field(name)).to_have_attribute("aria-invalid", "true")
    expect(check.field(name)).to_have_accessible_description(
        text if isinstance(text, re.Pattern) else re.compile(re.escape(text))
    )


def test_what_is_left_out_is_asked_for_at_each_field_until_it_is_filled_in(check, picture):
    check.ask()
    for name in ("depth", "pump", "distance", "altitude"):
        is_marked(check, name, "Please fill this in.")
    expect(check.field("depth")).to_be_focused()
    expect(check.status).to_have_text("Some answers need a second look. The first of them has been selected.")
    picture(check.page, "desktop-refused")
    check.field("depth").fill("8")
    expect(check.error("depth")).to_be_hidden()
    expect(check.field("depth")).to_have_attribute("aria-invalid", "false")


def test_nothing_is_asked_of_the_service_until_all_is_filled_in(check):
    asked = []
    check.page.on("request", lambda request: asked.append(request.url))
    check.ask(**EASY | {"altitude": ""})
    is_marked(check, "altitude", "Please fill this in.")
    assert asked == []


def test_what_is_no_number_is_told(check):
    check.give(**EASY)
    for typed in ["twelve", "12 ft", "1e3", "--5", "1.2.3", "Infinity", "0x10"]:
        check.ask(depth=typed)
        is_marked(check, "depth", "Please write a number, such as 12.5.")


def test_a_number_may_be_written_as_people_do(check):
    check.give(**EASY)
    for typed, value in {"12,5": 12.5, " 1,200 ": 1200, "−3": -3, ".5": 0.5}.items():
        with check.page.expect_request("**/v1/suction-feasibility") as asked:
            check.ask(altitude=typed)
        assert asked.value.post_data_json["site"]["altitude"]["value"] == value


def test_what_the_service_refuses_is_told_at_its_field(check):
    check.give(**EASY, flow="3")
    for name, value in {
        "altitude": "40000", "depth": "99999", "distance": "0", "temperature": "400", "elbows": "2000", "flow": "0"
    }.items():  # fmt: skip
        before = check.field(name).input_value()
        check.ask(**{name: value})
        is_marked(check, name, re.compile("."))
        expect(check.field(name)).to_be_focused()
        expect(check.error(name).locator("span").first).to_have_attribute("lang", "en")
        check.give(**{name: before})


def test_a_refused_default_is_opened(check):
    check.give(**EASY, temperature="400")
    check.element.locator("details.assumptions").evaluate("details => details.open = false")
    check.button.click()
    is_marked(check, "temperature", re.compile("."))


def test_drops_that_the_service_refuses_are_told_at_the_watch(check):
    problem = {"detail": "no", "errors": [{"pointer": "/measurement/times/0", "detail": "too short for a stone"}]}
    check.reply_once("/v1/sounding", 422, problem)
    check.field("known").select_option("stone")
    check.watch.evaluate("button => { button.click(); setTimeout(() => button.click(), 300); }")
    expect(check.error("drops")).to_have_text("too short for a stone")
    expect(check.watch).to_be_focused()


def test_what_belongs_to_no_field_is_told_as_a_whole(check):
    problem = {"detail": "no", "errors": [{"pointer": "/limits", "detail": "cannot be told here"}]}
    check.reply_once("/v1/suction-feasibility", 422, problem)
    check.ask(**EASY)
    expect(check.status).to_have_text("The service could not work this out: cannot be told here")
    expect(check.result).to_be_hidden()


def test_a_refusal_takes_an_older_answer_away(check):
    check.answered(**EASY)
    check.ask(altitude="40000")
    is_marked(check, "altitude", re.compile("."))
    expect(check.verdict).to_have_count(0)
    expect(check.result).to_be_hidden()
