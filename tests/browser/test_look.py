"""Light and dark, colours of the reader's own, motion, and the look that the page gives."""

import re

import pytest
from playwright.sync_api import expect

from .shop_page import check_element
from .suction_check import DEEP, EASY, SuctionCheck

LIGHT, DARK = "rgb(255, 255, 255)", "rgb(21, 25, 28)"


def style(locator, name):
    return locator.evaluate("(element, name) => getComputedStyle(element)[name]", name)


def test_the_page_or_the_reader_chooses_light_or_dark(check):
    for scheme, theme, colour in [
        ("light", "", LIGHT),
        ("dark", "", DARK),
        ("dark", "light", LIGHT),
        ("light", "dark", DARK),
    ]:
        check.page.emulate_media(color_scheme=scheme)
        check.element.evaluate("(element, theme) => element.setAttribute('theme', theme)", theme)
        assert style(check.element.locator(".box"), "backgroundColor") == colour


def test_with_colours_of_the_readers_own_all_is_still_told(check_on, picture):
    check = check_on(forced_colors="active")
    check.answered(**EASY)
    assert check.page.evaluate("matchMedia('(forced-colors: active)').matches")
    expect(check.verdict).to_contain_text("✓Yes")
    assert style(check.verdict, "borderTopStyle") == "solid"
    texts = {style(check.element.locator(selector).first, "color") for selector in (".hint", "h3", ".verdict")}
    assert len(texts) == 1
    picture(check.page, "forced-colours")


def test_nothing_moves_even_for_who_would_not_mind(check_on):
    check = check_on(reduced_motion="no-preference")
    check.answered(**EASY)
    moving = check.element.evaluate(
        """({ shadowRoot }) => [...shadowRoot.querySelectorAll('*')].filter((element) => {
            const { transitionDuration, animationName, scrollBehavior } = getComputedStyle(element);
            return transitionDuration !== '0s' || animationName !== 'none' || scrollBehavior !== 'auto';
        }).length + document.getAnimations().length"""
    )
    assert moving == 0


def test_the_page_colours_the_check_by_custom_properties(page_with):
    page = page_with(
        f"""<style>footvalve-suction-check {{ --footvalve-accent: rgb(90, 0, 90);
        --footvalve-on-accent: rgb(250, 250, 0);
        --footvalve-background: rgb(240, 255, 240); --footvalve-text: rgb(1, 2, 3); --footvalve-radius: 13px;
        --footvalve-font: 19px monospace; }}</style>{check_element()}"""
    )
    button = page.locator("form > .main")
    assert style(button, "backgroundColor") == "rgb(90, 0, 90)"
    assert style(button, "color") == "rgb(250, 250, 0)"
    assert style(button, "borderTopLeftRadius") == "13px"
    box = page.locator(".box")
    assert style(box, "backgroundColor") == "rgb(240, 255, 240)"
    assert style(box, "color") == "rgb(1, 2, 3)"
    assert style(box, "fontFamily") == "monospace"
    assert style(page.locator("#depth"), "fontSize") == "19px"


def test_the_page_shapes_the_check_by_its_parts(page_with):
    page = page_with(
        f"""<style>footvalve-suction-check::part(main) {{ text-transform: uppercase; }}
        footvalve-suction-check::part(title) {{ font-style: italic; }}
        footvalve-suction-check::part(verdict) {{ letter-spacing: 3px; }}
        footvalve-suction-check::part(stopwatch) {{ min-height: 200px; }}</style>
        {check_element()}"""
    )
    assert style(page.locator("form > .main"), "textTransform") == "uppercase"
    assert style(page.locator("h2"), "fontStyle") == "italic"
    assert style(page.locator(".stopwatch"), "minHeight") == "200px"
    for name, value in EASY.items():
        if name not in ("pipe", "side"):
            page.locator(f"#{name}").fill(value)
    page.locator("#side").select_option("below")
    page.locator("form > .main").click()
    expect(page.locator(".verdict")).to_be_visible()
    assert style(page.locator(".verdict"), "letterSpacing") == "3px"


def test_a_page_from_right_to_left_leaves_the_check_as_its_language_goes(page_with):
    """Else ± and what belongs to it change places, and the words of the drawing stand where they do not belong."""
    page = page_with(f'<div dir="rtl">{check_element(inside="<p id=own>Ask our counter.</p>")}</div>')
    check = SuctionCheck(page)
    check.answered(**EASY)
    for place in (".box", ".balance dd", "svg text"):
        assert style(check.element.locator(place).first, "direction") == "ltr"
    left, right = check.element.locator("svg[role=img]").evaluate(
        "drawing => [...drawing.querySelectorAll('text')].slice(0, 2).map((text) => text.getBBox().x)"
    )
    assert 0 < left < 10
    assert right > 100
    page.route("**/embed/v1/texts**", lambda route: route.abort())
    check.element.evaluate("element => element.setAttribute('lang', 'es')")
    assert style(check.element.get_by_role("alert"), "direction") == "ltr"
    assert style(page.locator("#own"), "direction") == "rtl"


def test_a_check_that_moves_to_another_document_keeps_its_look(check):
    look = check.page.evaluate(
        """async () => {
            const check = document.querySelector('footvalve-suction-check');
            const frame = document.createElement('iframe');
            document.body.append(frame);
            frame.contentDocument.body.append(check);
            const seen = () => check.shadowRoot.querySelector('.box:not([inert]) .question');
            while (!seen()) await new Promise((resume) => setTimeout(resume, 20));
            return [check.ownerDocument === document, getComputedStyle(seen()).borderTopWidth];
        }"""
    )
    assert look == [False, "2px"]


@pytest.mark.parametrize("forced", ["none", "active"])
@pytest.mark.parametrize("site", [{}, {"depth": "18"}, DEEP], ids=["margin", "short", "all of it"])
def test_the_key_shows_what_is_drawn_as_it_is_drawn(check_on, picture, forced, site):
    check = check_on(forced_colors=forced)
    check.answered(**EASY | site)
    look = """paths => paths.map((path) => {
        const { stroke, strokeWidth, strokeDasharray } = getComputedStyle(path);
        return [path.className.baseVal, stroke, strokeWidth, strokeDasharray];
    })"""
    drawn = check.element.locator("svg[role=img] path:is(.limit, .needs, .margin, .short)").evaluate_all(look)
    shown = check.element.locator(".swatch path").evaluate_all(look)
    assert shown == drawn
    assert len({tuple(each) for each in shown}) == len(shown) == (2 if site is DEEP else 3)
    picture(check.page, f"key-{forced}-{site.get('depth', 8)}")


def test_what_is_missing_is_drawn_to_scale(check):
    check.answered(**DEEP)
    height, feet = check.element.locator("svg[role=img]").evaluate(
        """drawing => {
            const heights = drawing.querySelector('path.short').getAttribute('d').match(/-?[\\d.]+/g).slice(1);
            const ground = drawing.querySelector('.soil').getAttribute('d').match(/V([\\d.]+)/)[1];
            const foot = (drawing.querySelector('circle').getAttribute('cy') - ground) / 5;
            return [Math.abs(heights[1] - heights[0]) / foot, drawing.getAttribute('aria-label')];
        }"""
    )
    margin = float(re.search(r"makes the margin (-[\d.]+)", feet)[1])
    assert height == pytest.approx(-margin, abs=0.1)


def test_the_rules_of_the_page_do_not_leak_in(page_with):
    page = page_with(
        f"""<style>input, select, button, .field, h2 {{ display: none; }} [hidden] {{ display: block; }}</style>
        {check_element()}"""
    )
    expect(page.locator("#depth")).to_be_visible()
    expect(page.locator("form > .main")).to_be_visible()
    expect(page.locator(".result")).to_be_hidden()
