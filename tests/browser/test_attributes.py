"""What the shop's page tells of the pump, and what is asked where it tells nothing."""

import pytest
from playwright.sync_api import expect

from .shop_page import ROTARY
from .suction_check import EASY, SURE, SuctionCheck

ASKED = "**/v1/suction-feasibility"
SITE = {"depth": "2.4", "side": "below", "pump": "1.5", "distance": "6", "altitude": "150"}


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


def test_an_attribute_may_be_written_as_people_do(check):
    lift, flow = check.field("rated-lift"), check.field("flow")
    for told, read, unit in [
        ("20 ft", "20", "ft"), ("21 feet", "21", "ft"), ("22ft.", "22", "ft"), ("6.7 metres", "6.7", "m"),
        ("", "", "ft"),
    ]:  # fmt: skip
        check.element.evaluate("(element, told) => element.setAttribute('rated-lift', told)", told)
        expect(lift).to_have_value(read)
        expect(check.element.locator("#rated-lift-unit")).to_have_text(unit)
    for told, read, unit in [("3 gpm", "3", "gal/min"), ("11 lpm", "11", "L/min"), ("0.7 m3/h", "0.7", "m³/h")]:
        check.element.evaluate("(element, told) => element.setAttribute('flow', told)", told)
        expect(flow).to_have_value(read)
        expect(check.element.locator("#flow-unit")).to_have_text(unit)


@pytest.mark.parametrize("flow", ["0.2 L/s", "13 L/s", "0.7 m3/h", "48 m3/h"])
def test_a_flow_in_any_unit_is_taken_where_a_pump_like_this_may_have_it(check_on, flow):
    """From 0.4 to 800 L/min; a litre a second is 60 L/min, a cubic metre an hour 16.7."""
    expect(check_on(f'rated-lift="22 ft" flow="{flow}"').field("flow")).to_have_value(flow.split(" ")[0])


def test_a_pump_whose_name_is_empty_has_none(check_on):
    check = check_on('pump-name=" " rated-lift="22 ft" flow="3 gal/min"')
    expect(check.element.get_by_role("heading", level=2)).to_have_text("Would this pump work on your well?")
    expect(check.answered(**EASY, **SURE)).to_have_text("✓Yes: this pump can draw water from this well.")


def test_an_attribute_that_is_empty_counts_as_none(check_on):
    check = check_on(
        'rated-lift="22 ft" npsh-required="" flow="3 gal/min" switch="" lang="" service="" units=""', lang="es"
    )
    expect(check.button).to_have_text("Comprobar mi pozo")
    pump, flow, units = pump_of(check, **EASY)
    assert pump["rated_suction_lift"] == {"value": 22, "unit": "ft"}
    assert "npsh_required" not in pump
    assert (flow["value"], units) == (3, "us")
    expect(check.verdict).to_be_visible()


@pytest.mark.parametrize("switch", ["20 psi, 3 bar", "1.5 bar, 300 kPa"])
def test_a_switch_may_be_told_in_any_unit(check_on, switch):
    expect(check_on(f'{ROTARY.partition(" switch")[0]} switch="{switch}"').field("tap")).to_be_attached()


def test_a_style_and_units_may_be_written_in_capitals(check_on):
    check = check_on('npsh-required="12 ft" flow="6 GPM" pump-style="Centrifugal" units="US"')
    pump, flow, units = pump_of(check, **EASY)
    assert (pump["style"], flow, units) == ("centrifugal", {"value": 6, "unit": "gal/min"}, "us")


def test_a_figure_of_the_page_keeps_all_its_digits(check_on):
    check = check_on('npsh-required="12.125 ft" flow="3.3333 gal/min"')
    expect(check.field("npsh-required")).to_have_value("12.1250")
    pump, flow, _ = pump_of(check, **EASY)
    assert (pump["npsh_required"]["value"], flow["value"]) == (12.125, 3.3333)


@pytest.mark.parametrize(
    ("attribute", "told", "form"),
    [
        ("rated-lift", "22", "22 ft"),
        ("rated-lift", "lots", "22 ft"),
        ("rated-lift", "22 m", "22 ft"),
        ("rated-lift", "22 ft, 25 ft", "22 ft"),
        ("rated-lift", "22 gpm", "22 ft"),
        ("npsh-required", "6,7 m", "12 ft"),
        ("npsh-required", "0 ft", "12 ft"),
        ("npsh-required", "0 m", "12 ft"),
        ("flow", "2-3 gal/min", "3 gal/min"),
        ("flow", "0 gal/min", "3 gal/min"),
        ("flow", "0.001 L/s", "3 gal/min"),
        ("flow", "14 L/s", "3 gal/min"),
        ("flow", "0.02 m3/h", "3 gal/min"),
        ("flow", "3 gal/min, 4 gal/min", "3 gal/min"),
        ("pump-style", "piston", "rotary or centrifugal"),
        ("units", "imperial", "us or metric"),
        ("switch", "20, 40 psi", "20 psi, 40 psi"),
        ("switch", "20 psi, 40 psi, 60 psi", "20 psi, 40 psi"),
        ("switch", "40 psi, 20 psi", "20 psi, 40 psi"),
        ("switch", "30 psi, 30 psi", "20 psi, 40 psi"),
        ("switch", "2 bar, 20 psi", "20 psi, 40 psi"),
        ("pump-points", "3.4 gal/min 20 psi, 2.4 gal/min 70 psi", "20 psi 3.4 gal/min, 70 psi 2.4 gal/min"),
    ],
)
def test_a_mistake_of_the_shop_is_told_to_the_shop(check_on, attribute, told, form):
    """Its customer is asked nothing, and reads what the shop has to say between the tags."""
    check = check_on()
    said = []
    check.page.on("console", lambda message: said.append((message.type, message.text)))
    check.element.evaluate("(element, [name, told]) => element.setAttribute(name, told)", [attribute, told])
    alert = check.element.get_by_role("alert")
    expect(alert).to_have_text(
        "This check is not set up as it should be on this page. Please tell those who keep the page."
    )
    expect(check.button).to_have_count(0)
    assert said == [("error", f"footvalve-suction-check: write {attribute} like {form}, not {told}")]
    check.element.evaluate("(element, name) => element.removeAttribute(name)", attribute)
    check.is_ready()


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
