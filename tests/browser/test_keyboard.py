"""The whole check by keyboard alone."""

from playwright.sync_api import expect

from .shop_page import ROTARY

FOCUSED = """() => {
    let focused = document.activeElement;
    while (focused?.shadowRoot?.activeElement) focused = focused.shadowRoot.activeElement;
    return focused === document.body ? '' : focused.name || focused.textContent;
}"""


def focused(page):
    """The name of the field that has the focus, or the text of another control."""
    return page.evaluate(FOCUSED)


def passed(page, presses):
    names = []
    for _ in range(presses):
        page.keyboard.press("Tab")
        names.append(focused(page))
    return names


def test_the_tab_key_goes_through_the_questions_in_their_order_and_on(check):
    check.page.evaluate("document.body.insertAdjacentHTML('beforeend', '<a href=\"#after\">after</a>')")
    assert passed(check.page, 15) == [
        "known", "depth", "depth-sure", "side", "pump", "pump-sure", "exit", "distance", "distance-sure", "pipe",
        "altitude", "altitude-sure", "What we assume", "Check my well", "after",
    ]  # fmt: skip
    check.page.keyboard.press("Shift+Tab")
    assert focused(check.page) == "Check my well"


def test_a_well_is_checked_by_keyboard_alone(check_on):
    check = check_on(f"{ROTARY} permalink")
    keys = check.page.keyboard
    keys.press("Tab")
    for typed in ["8", "", "below", "5", "", "", "20", ""]:
        keys.press("Tab")
        keys.type(typed)
    assert focused(check.page) == "distance-sure"
    keys.press("Tab")
    keys.type("Black plastic (polyethylene), 1-1")
    keys.press("Tab")
    keys.type("500")
    for _ in range(3):
        keys.press("Tab")
    keys.press("Enter")
    expect(check.verdict).to_be_visible()


def test_the_enter_key_in_a_field_asks_too(check):
    check.give(depth="8", side="below", pump="5", distance="20", altitude="500")
    check.field("altitude").press("Enter")
    expect(check.verdict).to_be_visible()


def test_what_is_assumed_opens_and_closes_by_keyboard(check):
    check.element.locator("details.assumptions > summary").focus()
    check.page.keyboard.press("Space")
    expect(check.field("fall")).to_be_visible()
    check.page.keyboard.press("Tab")
    assert focused(check.page) == "fall"
    check.page.keyboard.press("Shift+Tab")
    check.page.keyboard.press("Enter")
    expect(check.field("fall")).to_be_hidden()


def test_after_the_answer_the_tab_key_goes_on_to_what_can_be_done_with_it(check_on):
    check = check_on(f"{ROTARY} permalink")
    check.give(depth="8", side="below", pump="5", distance="20", altitude="500")
    check.button.press("Enter")
    expect(check.verdict).to_be_visible()
    names = passed(check.page, 3)
    assert names == ["The reasons in detail", "Open the site sheet to print", "Copy a link to these answers"]


def test_what_has_the_focus_is_seen(check):
    accents = {"light": "rgb(23, 90, 117)", "dark": "rgb(140, 203, 228)"}
    for scheme, accent in accents.items():
        check.page.emulate_media(color_scheme=scheme)
        for _ in range(14):
            check.page.keyboard.press("Tab")
            outline = check.element.evaluate(
                """({ shadowRoot }) => {
                    const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(shadowRoot.activeElement);
                    return [outlineStyle, outlineWidth, outlineColor];
                }"""
            )
            assert outline == ["solid", "3px", accent]
        check.page.keyboard.press("Tab")
