"""Spanish, with its numbers, and what happens where there are no texts or the language changes."""

import re

import pytest
from playwright.sync_api import expect

from .shop_page import ROTARY
from .suction_check import EASY

METRIC = {
    "depth": "2,4",
    "side": "below",
    "pump": "1,5",
    "distance": "6",
    "pipe": "pe-sidr-15 1-1/4",
    "altitude": "150",
}


def test_spanish_asks_and_answers_in_spanish(check_on, picture):
    check = check_on(f'{ROTARY} units="metric"', lang="es")
    expect(check.element.get_by_role("heading", level=2)).to_have_text("¿Serviría the rotary booster en su pozo?")
    assert check.element.locator(".box").get_attribute("lang") == "es"
    check.answered(**METRIC)
    expect(check.status).to_contain_text(re.compile(r"Margen: sobran \d,\d\d? ± \d,\d\d? m de succión"))
    picture(check.page, "spanish-metric-answer")


def test_a_comma_is_a_decimal_sign_as_a_point_is(check_on):
    check = check_on(f'{ROTARY} units="metric"', lang="es")
    with check.page.expect_request("**/v1/suction-feasibility") as asked:
        check.ask(**METRIC | {"altitude": "1200", "pump": "1.5"})
    body = asked.value.post_data_json
    assert body["depth_to_water"]["value"] == 2.4
    assert body["pump"]["inlet_elevation"]["value"] == -1.5
    assert body["site"]["altitude"] == {"value": 1200, "unit": "m", "uncertainty": 30}


def test_what_could_be_a_thousand_or_a_few_is_asked_back(check_on):
    """It is a thousand to some readers of every language."""
    check = check_on(f'{ROTARY} units="metric"', lang="es")
    for typed in ("1,500", "1.500"):
        check.ask(**METRIC | {"altitude": typed})
        expect(check.error("altitude")).to_have_text("¿Son 1500 o 1,5? Escríbalo de una de esas dos maneras.")


def test_a_figure_of_the_page_is_written_as_its_reader_does(check_on):
    check = check_on('rated-lift="6.7 m" flow="11 L/min" units="metric"', lang="es")
    assert check.field("rated-lift").input_value() == "6,7"


@pytest.mark.parametrize(
    ("lang", "units", "step", "safe"),
    [
        ("en", "us", "a long step is about 3 ft (1 m).", "A safe site has 3 ft (0.9 m) or more"),
        ("en", "metric", "a long step is about 1 m.", "A safe site has 0.9 m or more"),
        ("es", "us", "un paso largo mide cerca de 3 pies (1 m).", "hacen falta 3 pies (90 cm) o más"),
        ("es", "metric", "un paso largo mide cerca de 1 m.", "hacen falta 0,9 m o más"),
    ],
)
def test_a_metric_reader_is_told_of_no_feet(check_on, lang, units, step, safe):
    check = check_on(f'rated-lift="6.7 m" flow="11 L/min" units="{units}"', lang=lang)
    expect(check.element.locator("#distance-hint")).to_contain_text(step)
    check.answered(**(METRIC if units == "metric" else EASY))
    expect(check.status).to_contain_text(safe)
    feet = check.element.locator(".box").filter(has_text=re.compile(r"\d (ft|pies?)\b"))
    expect(feet).to_have_count(0 if units == "metric" else 1)


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


def test_doubts_are_told_in_spanish(check_on):
    check = check_on('npsh-required="12 ft" flow="3 gal/min" pump-style="centrifugal"', lang="es")
    check.answered(**EASY, lower_end="open")
    assert check.element.locator(".doubt:visible").count() > 0
    expect(check.element.locator(".doubt [lang=en]")).to_have_count(0)
    doubts = check.result.get_by_role("heading", name="Dudas sobre los datos").locator("xpath=following-sibling::ul[1]")
    expect(doubts).to_contain_text("Una bomba centrífuga debe llenarse de agua a mano antes del arranque")
    expect(doubts.locator("[lang=en]")).to_have_count(0)


def test_what_would_help_is_told_in_spanish_with_its_figures(check_on):
    check = check_on(lang="es")
    check.answered(**EASY | {"pipe": "pex-sdr-9 3/4", "depth": "9"})
    best = check.result.locator("p.levers")
    expect(best).to_contain_text(
        re.compile(r"^Poner una tubería más ancha, de 1 pulg\. El margen sería de \d,\d+ pies")
    )
    others = check.result.locator(".levers + details li")
    told = "\n".join(others.all_text_contents())
    for sentence in (
        r"Colocar la bomba \d,\d+ pies más abajo\.",
        r"Sacar como mucho \d,\d+ gal/min,",
        r"una altura de succión nominal de \d\d,\d pies o más\.",
        r"limpio consume solo 0,3 psi\.",
    ):
        assert re.search(sentence, told), (sentence, told)
    expect(check.result.locator(".levers [lang=en], .levers + details [lang=en]")).to_have_count(0)


def test_a_language_without_texts_falls_back_to_english(check_on):
    check = check_on(lang="fr")
    expect(check.element.get_by_role("heading", level=2)).to_have_text("Would the rotary booster work on your well?")
    assert check.element.locator(".box").get_attribute("lang") == "en"


def test_the_language_of_the_element_goes_before_that_of_the_page(check_on):
    check = check_on(f'{ROTARY} lang="es-MX"')
    expect(check.button).to_have_text("Comprobar mi pozo")


def test_another_language_keeps_what_was_filled_in_and_what_it_meant(check_on):
    check = check_on()
    check.give(**EASY | {"altitude": "1200", "distance": "20.1250", "depth": "8 1/2 feet"})
    check.element.evaluate("element => element.setAttribute('lang', 'es')")
    expect(check.button).to_have_text("Comprobar mi pozo")
    with check.page.expect_request("**/v1/suction-feasibility") as asked:
        check.ask()
    body = asked.value.post_data_json
    assert body["site"]["altitude"]["value"] == 1200
    assert body["line"][5]["length"]["value"] == 20.125
    assert body["depth_to_water"]["value"] == 8.5
