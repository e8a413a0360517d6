"""The page tells of another pump, or in other units, while a customer is at it: nothing of the first stands for it."""

import re

import pytest
from playwright.sync_api import expect

from .suction_check import EASY, SURE

ASKED = "**/v1/suction-feasibility"
TEXTS = "**/embed/v1/texts/**"
WEAK = {"pump-name": "the weak pump", "rated-lift": "5 ft"}


def told_of(check, attributes):
    """Set attributes by script; what the reader and the page have been told is looked at before anything else runs."""
    return check.element.evaluate(
        """(element, attributes) => {
            for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
            const box = element.shadowRoot.querySelector('.box');
            return { said: box.querySelector('.status').textContent, verdicts: box.querySelectorAll('.verdict').length,
                isShut: box.inert, events: (window.told ?? []).map(([name]) => name) };
        }""",
        attributes,
    )


def body_of(check, **values):
    with check.page.expect_request(ASKED) as asked:
        check.ask(**values)
    return asked.value.post_data_json


def held(check, pattern):
    """What is asked at these addresses waits in the list."""
    waiting = []

    def hold(route):
        waiting.append(route)

    check.page.route(pattern, hold)
    return waiting


def test_an_answer_that_is_on_its_way_is_not_told_of_another_pump(check):
    answers, texts = held(check, ASKED), held(check, TEXTS)
    check.watch_events()
    with check.page.expect_request(ASKED):
        check.ask(**EASY, **SURE)
    with check.page.expect_request(TEXTS):
        told = told_of(check, WEAK)
    assert told == {"said": "", "verdicts": 0, "isShut": True, "events": []}
    with check.page.expect_response(ASKED) as response:
        answers[0].continue_()
    assert response.value.json()["verdict"] == "feasible"
    check.page.wait_for_timeout(200)
    expect(check.verdict).to_have_count(0)
    for route in texts:
        route.continue_()
    expect(check.element.get_by_role("heading", level=2)).to_have_text("Would the weak pump work on your well?")
    expect(check.verdict).to_have_count(0)
    assert check.events() == []


def test_an_answer_goes_with_its_pump_and_not_when_the_texts_are_here(check):
    check.answered(**EASY, **SURE)
    check.watch_events()
    held(check, TEXTS)
    with check.page.expect_request(TEXTS):
        told = told_of(check, WEAK)
    assert told == {"said": "", "verdicts": 0, "isShut": True, "events": ["changed"]}
    expect(check.result).to_have_text("")
    assert check.events() == [["changed", None]]


def test_what_was_typed_for_one_pump_is_not_taken_for_another(check_on):
    check = check_on('pump-name="the strong pump" rated-lift="25 ft" flow="3 gal/min"')
    check.give(**EASY | {"flow": "4", "flow-sure": "2", "rated-lift": "30"})
    check.element.evaluate(
        """element => {
            element.setAttribute('rated-lift', '5 ft');
            element.setAttribute('flow', '15 L/min');
        }"""
    )
    expect(check.field("rated-lift")).to_have_value("5")
    expect(check.element.locator("#flow-unit")).to_have_text("L/min")
    body = body_of(check)
    assert body["flow"] == {"value": 15, "unit": "L/min"}
    assert body["pump"]["rated_suction_lift"] == {"value": 5, "unit": "ft"}
    assert body["depth_to_water"]["value"] == 8


@pytest.mark.parametrize(
    ("name", "value"), [("pump-name", "the next"), ("pump-style", "centrifugal"), ("npsh-required", "9 ft")]
)
def test_any_attribute_of_the_pump_makes_it_another(check, name, value):
    check.give(flow="4")
    check.element.evaluate("(element, told) => element.setAttribute(...told)", [name, value])
    expect(check.field("flow")).to_have_value("3")


@pytest.mark.parametrize(("name", "value"), [("lang", "es"), ("switch", "30 psi, 50 psi"), ("permalink", "")])
def test_what_is_no_attribute_of_the_pump_leaves_its_figures_as_they_were_typed(check, name, value):
    check.give(flow="4")
    with check.page.expect_response(TEXTS):
        check.element.evaluate("(element, told) => element.setAttribute(...told)", [name, value])
    expect(check.element.locator(".box")).to_have_js_property("inert", False)
    expect(check.field("flow")).to_have_value("4")


def test_other_units_empty_what_was_filled_in_while_the_check_is_off_the_page(check_on):
    check = check_on('rated-lift="22 ft" flow="3 gal/min" units="metric"')
    check.give(depth="8", altitude="150")
    check.page.evaluate(
        """() => {
            const check = document.querySelector('footvalve-suction-check');
            const place = check.parentNode;
            check.remove();
            check.setAttribute('units', 'us');
            place.append(check);
        }"""
    )
    expect(check.element.locator("#depth-unit")).to_have_text("ft")
    assert [check.field(name).input_value() for name in ("depth", "altitude")] == ["", ""]


def test_another_pump_is_another_while_the_check_is_off_the_page(check):
    check.answered(**EASY, **{"rated-lift": "30"})
    check.watch_events()
    events = check.page.evaluate(
        """() => {
            const check = document.querySelector('footvalve-suction-check');
            const place = check.parentNode;
            const events = [];
            check.addEventListener('changed', ({ type }) => events.push(type));
            check.remove();
            check.setAttribute('rated-lift', '5 ft');
            place.append(check);
            return events;
        }"""
    )
    assert events == ["changed"]
    expect(check.field("rated-lift")).to_have_value("5")
    expect(check.verdict).to_have_count(0)


@pytest.mark.parametrize(("name", "value"), [("rated-lift", "28"), ("flow", "2.5")])
def test_a_figure_that_is_not_the_pumps_own_gives_no_plain_yes(check, name, value):
    told = "A figure of the pump is not the one of its data sheet: a plain yes can come from that alone."
    expect(check.answered(**EASY, **SURE)).to_contain_text("Yes:")
    expect(check.status).not_to_contain_text(told)
    expect(check.answered(**{name: value})).to_contain_text("Perhaps:")
    expect(check.status).to_contain_text(told)


def test_a_figure_that_is_not_the_pumps_own_is_marked(check):
    marks = {name: check.element.locator(f"#{name}-other") for name in ("flow", "rated-lift")}
    check.give(flow="3.0")
    for mark in marks.values():
        expect(mark).to_be_hidden()
    check.give(**EASY, **{"rated-lift": "28"})
    check.element.locator("details.assumptions").evaluate("details => details.open = false")
    check.answered()
    check.field("depth").fill("7")
    expect(marks["rated-lift"]).to_have_text("Not the figure of this pump's data sheet.")
    expect(marks["rated-lift"]).to_be_visible()
    expect(check.field("rated-lift")).to_have_accessible_description(re.compile("Not the figure of this pump"))
    expect(marks["flow"]).to_be_hidden()
    check.give(**{"rated-lift": "22"})
    expect(marks["rated-lift"]).to_be_hidden()
