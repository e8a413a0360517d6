"""Spanish, with its numbers, and what happens where there are no texts or the language changes."""

import re

from playwright.sync_api import expect

from .shop_page import ROTARY
from .suction_check import EASY

METRIC = {"depth": "2,4", "pump": "1,5", "distance": "6", "pipe": "pe-sidr-15 1-1/4", "altitude": "150"}


def test_spanish_asks_and_answers_in_spanish(check_on, picture):
    check = check_on(f'{ROTARY} units="metric"', lang="es")
    expect(check.element.get_by_role("heading", level=2)).to_have_text("¿Serviría the rotary booster en su pozo?")
    assert check.element.locator(".box").get_attribute("lang") == "es"
    check.answered(**METRIC)
    expect(check.status).to_contain_text(re.compile(r"Margen: sobran \d,\d\d? ± \d,\d\d? m de succión"))
    picture(check.page, "spanish-metric-answer")


def test_a_comma_is_a_decimal_sign_and_a_point_makes_groups(check_on):
    check = check_on(f'{ROTARY} units="metric"', lang="es")
    with check.page.expect_request("**/v1/suction-feasibility") as asked:
        check.ask(**METRIC | {"altitude": "1.200"})
    body = asked.value.post_data_json
    assert body["depth_to_water"]["value"] == 2.4
    assert body["site"]["altitude"] == {"value": 1200, "unit": "m", "uncertainty": 30}


def test_one_foot_is_told_as_one(check_on):
    check = check_on(lang="es")
    doubts = check.field("pump-sure").locator("option").all_inner_texts()
    assert doubts == ["exacto (± 0,1 pies)", "aproximado (± 1 pie)", "a ojo (± 3 pies)"]
    assert check.element.locator("#pump-unit").inner_text() == "pies"


def test_what_the_service_says_in_english_is_marked_as_english(check_on):
    check = check_on(lang="es")
    check.answered(**EASY)
    reasons = check.result.locator("details").last.locator("li span")
    assert set(reasons.evaluate_all("spans => spans.map((span) => span.lang)")) == {"en"}
    cautions = check.result.locator(".cautions li")
    assert cautions.count() > 3
    expect(cautions.locator("[lang=en]")).to_have_count(0)


def test_a_language_without_texts_falls_back_to_english(check_on):
    check = check_on(lang="fr")
    expect(check.element.get_by_role("heading", level=2)).to_have_text("Would the rotary booster work on your well?")
    assert check.element.locator(".box").get_attribute("lang") == "en"


def test_the_language_of_the_element_goes_before_that_of_the_page(check_on):
    check = check_on(f'{ROTARY} lang="es-MX"')
    expect(check.button).to_have_text("Comprobar mi pozo")


def test_another_language_keeps_what_was_filled_in_and_what_it_meant(check_on):
    """A thousand in English is one point two in Spanish, if nobody takes care."""
    check = check_on()
    check.give(**EASY | {"altitude": "1,200", "distance": "20.125"})
    check.element.evaluate("element => element.setAttribute('lang', 'es')")
    expect(check.button).to_have_text("Comprobar mi pozo")
    with check.page.expect_request("**/v1/suction-feasibility") as asked:
        check.ask()
    body = asked.value.post_data_json
    assert body["site"]["altitude"]["value"] == 1200
    assert body["line"][5]["length"]["value"] == 20.125
