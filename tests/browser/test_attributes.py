"""What the shop's page tells of the pump, and what is asked where it tells nothing."""

from playwright.sync_api import expect

from .suction_check import EASY, SuctionCheck

ASKED = "**/v1/suction-feasibility"
SITE = {"depth": "2.4", "pump": "1.5", "distance": "6", "altitude": "150"}


def pump_of(check, **values):
    with check.page.expect_request(ASKED) as asked:
        check.ask(**values)
    body = asked.value.post_data_json
    return body["pump"], body["flow"], body["units"]


def test_a_pump_is_told_by_its_rated_lift(check_on):
    pump, flow, units = pump_of(check_on('rated-lift="24.5 ft" flow="4 gal/min"'), **EASY)
    assert pump["rated_suction_lift"] == {"value": 24.5, "unit": "ft"}
    assert pump["style"] == "rotary"
    assert "npsh_required" not in pump
    assert (flow, units) == ({"value": 4, "unit": "gal/min"}, "us")


def test_a_pump_is_told_by_its_npsh_and_style(check_on):
    check = check_on('npsh-required="12 ft" flow="6 gal/min" pump-style="centrifugal"')
    pump, _, _ = pump_of(check, **EASY)
    assert pump["npsh_required"] == {"value": 12, "unit": "ft"}
    assert pump["style"] == "centrifugal"
    assert "rated_suction_lift" not in pump
    expect(check.field("rated-lift")).to_be_hidden()


def test_a_metric_page_asks_and_answers_in_metres(check_on):
    check = check_on('rated-lift="6.7 m" flow="11 L/min" units="metric"')
    pump, flow, units = pump_of(check, **SITE)
    assert (pump["rated_suction_lift"], flow, units) == (
        {"value": 6.7, "unit": "m"},
        {"value": 11, "unit": "L/min"},
        "metric",
    )
    expect(check.status).to_contain_text(" m of suction to spare")
    assert check.field("temperature").input_value() == "11"


def test_a_figure_keeps_the_unit_of_the_data_sheet(check_on):
    check = check_on('rated-lift="6.7 m" flow="3 gal/min"')
    expect(check.element.locator("#rated-lift-unit")).to_have_text("m")
    expect(check.element.locator("#depth-unit")).to_have_text("ft")
    pump, _, _ = pump_of(check, **EASY)
    assert pump["rated_suction_lift"] == {"value": 6.7, "unit": "m"}


def test_what_the_page_does_not_tell_is_asked(check_on):
    check = check_on("")
    expect(check.element.get_by_role("heading", level=2)).to_have_text("Would this pump work on your well?")
    check.give(**EASY)
    check.element.locator("details.assumptions").evaluate("details => details.open = false")
    check.button.click()
    for name in ("flow", "rated-lift"):
        expect(check.error(name)).to_have_text("Please fill this in.")
    expect(check.field("flow")).to_be_focused()
    expect(check.answered(**{"flow": "3", "rated-lift": "22"})).to_contain_text("this pump")


def test_an_attribute_that_cannot_be_read_is_asked_too(check):
    lift = check.field("rated-lift")
    for told, read in {"lots": "", "20 ft": "20", "22": "", "": ""}.items():
        check.element.evaluate("(element, told) => element.setAttribute('rated-lift', told)", told)
        expect(lift).to_have_value(read)


def test_another_product_on_the_same_page_keeps_what_was_filled_in(check):
    check.give(**EASY)
    check.element.evaluate(
        """element => {
            element.setAttribute('pump-name', 'the larger booster');
            element.setAttribute('rated-lift', '25 ft');
        }"""
    )
    expect(check.element.get_by_role("heading", level=2)).to_have_text("Would the larger booster work on your well?")
    pump, _, _ = pump_of(check)
    assert pump["rated_suction_lift"]["value"] == 25
    assert check.field("depth").input_value() == "8"


def test_other_units_empty_what_was_filled_in(check):
    """Feet that were typed are no metres."""
    check.give(**EASY)
    check.element.evaluate("element => element.setAttribute('units', 'metric')")
    expect(check.element.locator("#depth-unit")).to_have_text("m")
    assert check.field("depth").input_value() == ""


def test_the_service_may_be_another_than_that_of_the_script(page_with, service):
    page = page_with(
        f'<footvalve-suction-check rated-lift="22 ft" flow="3 gal/min" service="{service}/"></footvalve-suction-check>'
    )
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    check = SuctionCheck(page)
    check.is_ready()
    check.answered(**EASY)
    assert asked[-1] == f"{service}/v1/suction-feasibility"
