"""A phone of 320 px, a page at twice its size, and letters at twice theirs."""

import pytest
from playwright.sync_api import expect

from .shop_page import ROTARY, check_element
from .suction_check import DEEP, EASY, SuctionCheck

PHONE = {"viewport": {"width": 320, "height": 640}, "is_mobile": True, "has_touch": True, "device_scale_factor": 2}
ZOOMED = {"viewport": {"width": 640, "height": 450}, "device_scale_factor": 2}
"""What a window of 1280 by 900 px shows at 200 %."""


def nothing_sticks_out(page):
    """Whether all can be read without scrolling to the side."""
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    out = page.evaluate(
        """() => [...document.querySelectorAll('footvalve-suction-check')].flatMap(({ shadowRoot }) =>
            [...shadowRoot.querySelectorAll('.box *')].filter((element) => {
                const { left, right, width } = element.getBoundingClientRect();
                return width && !element.closest('svg') && (left < 0 || right > innerWidth + 0.5);
            }).map((element) => element.outerHTML.slice(0, 80)))"""
    )
    assert out == []


@pytest.mark.parametrize("lang", ["en", "es"])
def test_the_form_its_errors_and_the_answer_fit_a_phone(check_on, picture, lang):
    check = check_on(f"{ROTARY} permalink", lang=lang, **PHONE)
    check.open_assumptions()
    nothing_sticks_out(check.page)
    picture(check.page, f"phone-form-{lang}")
    check.button.tap()
    expect(check.error("depth")).to_be_visible()
    nothing_sticks_out(check.page)
    picture(check.page, f"phone-refused-{lang}")
    check.answered(**DEEP)
    nothing_sticks_out(check.page)
    picture(check.page, f"phone-answer-{lang}")


@pytest.mark.parametrize("lang", ["en", "es"])
def test_what_is_chosen_can_be_read_to_its_end_on_a_phone(check_on, lang):
    check = check_on(lang=lang, **PHONE)
    check.open_assumptions()
    cut_off = check.element.evaluate(
        """({ shadowRoot }) => {
            const pen = document.createElement('canvas').getContext('2d');
            return [...shadowRoot.querySelectorAll('select')].filter((select) => select.checkVisibility())
                .flatMap((select) => [...select.options].filter(({ text }) => {
                    const { font, paddingLeft, paddingRight } = getComputedStyle(select);
                    pen.font = font;
                    const arrow = 16;
                    const room = select.clientWidth - parseFloat(paddingLeft) - parseFloat(paddingRight) - arrow;
                    return pen.measureText(text).width > room;
                }).map(({ text }) => text));
        }"""
    )
    assert cut_off == []


def test_a_swipe_over_the_watch_scrolls_the_page_and_starts_nothing(check_on):
    check = check_on(**PHONE)
    check.field("known").select_option("stone")
    check.watch.scroll_into_view_if_needed()
    box = check.watch.bounding_box()
    before = check.page.evaluate("scrollY")
    touch = check.page.context.new_cdp_session(check.page)
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    touch.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    for moved in range(10, 210, 10):
        touch.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [{"x": x, "y": y - moved}]})
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    check.page.wait_for_function("before => scrollY > before", arg=before)
    expect(check.watch).to_have_text("Start: I let go")
    check.watch.tap()
    expect(check.watch).to_have_text("Stop: I hear it")


def test_the_stop_watch_takes_a_finger_on_a_phone(check_on, picture):
    check = check_on(**PHONE)
    check.field("known").select_option("stone")
    check.page.clock.install(time=0)
    check.page.clock.pause_at(60_000)
    for _ in range(2):
        check.watch.tap()
        check.page.clock.run_for(900)
        check.watch.tap()
    expect(check.drops.nth(1)).to_contain_text("ft")
    nothing_sticks_out(check.page)
    picture(check.page, "phone-stop-watch")


@pytest.mark.parametrize("settings", [PHONE, {}], ids=["phone", "desktop"])
def test_what_is_pressed_is_large_enough(check_on, settings):
    """24 px either way (WCAG 2.2, 2.5.8)."""
    check = check_on(f"{ROTARY} permalink", **settings)
    check.answered(**DEEP)
    sizes = check.element.evaluate(
        """({ shadowRoot }) => [...shadowRoot.querySelectorAll('input, select, button, summary, a')]
            .filter((control) => control.checkVisibility())
            .map((control) => [control.outerHTML.slice(0, 60), control.getBoundingClientRect()])
            .map(([told, { width, height }]) => [told, width, height])"""
    )
    assert len(sizes) > 30
    assert [size for size in sizes if min(size[1:]) < 24] == []


def test_a_page_at_twice_its_size(check_on, picture):
    check = check_on(**ZOOMED)
    check.answered(**EASY)
    nothing_sticks_out(check.page)
    picture(check.page, "zoomed")


def test_letters_at_twice_their_size(check_on, picture):
    check = check_on(viewport={"width": 640, "height": 900})
    check.page.add_style_tag(content="html { font-size: 200%; }")
    check.answered(**EASY)
    nothing_sticks_out(check.page)
    assert check.field("depth").evaluate("field => getComputedStyle(field).fontSize") == "32px"
    picture(check.page, "large-letters")


@pytest.mark.parametrize("width", [320, 360])
def test_letters_at_twice_their_size_fit_a_phone_in_spanish(check_on, picture, width):
    check = check_on(lang="es", viewport={"width": width, "height": 700})
    check.page.add_style_tag(content="html { font-size: 200%; }")
    check.open_assumptions()
    check.answered(**EASY | {"depth": "15"})
    nothing_sticks_out(check.page)
    picture(check.page, f"large-letters-es-{width}")


def test_a_page_that_breaks_no_lines_and_a_name_without_an_end_fit_a_phone(page_with):
    page = page_with(
        f'<div style="white-space: nowrap">{check_element(ROTARY.replace("the rotary booster", "x" * 96))}</div>',
        **PHONE,
    )
    check = SuctionCheck(page)
    check.answered(**EASY)
    nothing_sticks_out(page)


@pytest.mark.parametrize("path", ["/embed/v1/demo", "/embed/v1/demo?lang=es"])
def test_the_demo_fits_a_phone(new_context, service, picture, path):
    page = new_context(**PHONE).new_page()
    page.goto(service + path)
    expect(page.locator("footvalve-suction-check form > .main")).to_have_count(2)
    nothing_sticks_out(page)
    picture(page, f"phone-demo-{path[-2:]}")
