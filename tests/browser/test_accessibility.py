"""What axe finds, which is nothing, and what a screen reader is told and how often."""

import re

import pytest
from playwright.sync_api import expect

from .axe import found
from .shop_page import ROTARY
from .suction_check import DEEP, EASY, SuctionCheck

NAMES = {
    "depth": "From the ground down to the water",
    "depth-sure": "How sure? From the ground down to the water",
    "side": "The pump's inlet lies",
    "exit": "Where does the pipe leave the well?",
    "pipe": "The pipe",
    "reach": "The pipe reaches below the water by",
}


def asked(check):
    check.open_assumptions()


def refused(check):
    check.ask()
    expect(check.error("depth")).to_be_visible()


def answered_with_a_no(check):
    check.answered(**DEEP)


def answered_with_a_yes(check):
    check.answered(**EASY)


def by_stone(check):
    check.field("known").select_option("stone")
    check.watch.evaluate("button => { button.click(); setTimeout(() => button.click(), 700); }")
    expect(check.drops).to_contain_text(re.compile("ft|pies"))


STATES = [asked, refused, answered_with_a_no, answered_with_a_yes, by_stone]


@pytest.mark.parametrize("state", STATES)
def test_axe_finds_nothing_in_the_check_by_light_and_by_dark(check_on, picture, state):
    check = check_on(f"{ROTARY} permalink")
    state(check)
    for scheme in ("light", "dark"):
        check.page.emulate_media(color_scheme=scheme)
        assert found(check.page) == []
        picture(check.page, f"{scheme}-{state.__name__}")


def test_axe_looks_into_the_check(check_on):
    """Else it would find nothing for the wrong reason."""
    check = check_on(f'{ROTARY} style="--footvalve-muted: #ccc"')
    assert {name for name, _, places in found(check.page) if "hint" in places[0]} == {"color-contrast"}


@pytest.mark.parametrize("state", [refused, answered_with_a_no, by_stone])
def test_axe_finds_nothing_in_spanish(check_on, picture, state):
    check = check_on(f"{ROTARY} permalink", lang="es")
    state(check)
    assert found(check.page) == []
    picture(check.page, f"spanish-{state.__name__}")


@pytest.mark.parametrize("lang", ["en", "es"])
def test_axe_finds_nothing_in_the_demo(new_context, service, picture, lang):
    page = new_context(viewport={"width": 1280, "height": 900}).new_page()
    page.goto(f"{service}/embed/v1/demo?lang={lang}")
    SuctionCheck(page, 1).is_ready()
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        assert found(page) == []
        picture(page, f"demo-{lang}-{scheme}")


def test_axe_finds_nothing_where_the_service_is_down(check_on):
    check = check_on()
    check.page.route("**/embed/v1/texts**", lambda route: route.abort())
    check.element.evaluate("element => element.setAttribute('lang', 'es')")
    expect(check.element.get_by_role("alert")).to_be_visible()
    assert found(check.page) == []


def test_controls_have_the_names_that_are_read_beside_them(answered):
    for field, name in NAMES.items():
        expect(answered.field(field)).to_have_accessible_name(name)
    expect(answered.field("depth")).to_have_accessible_description(
        re.compile(r"^ft Let down a tape .* static water level\.$")
    )
    expect(answered.element.get_by_role("group", name="1. How deep is the water?")).to_be_visible()


def test_the_answer_is_announced_once(check):
    """Each change of a live region may be read out: first that it works, then the answer, and no more."""
    check.give(**EASY)
    check.element.evaluate(
        """({ shadowRoot }) => {
            window.said = [];
            for (const region of shadowRoot.querySelectorAll('[role=status], [role=alert], [aria-live]')) {
                new MutationObserver(() => window.said.push(region.textContent))
                    .observe(region, { childList: true, subtree: true, characterData: true });
            }
        }"""
    )
    check.answered()
    said = [text for text in check.page.evaluate("window.said") if text]
    assert len(said) == 2
    assert said[0] == "Working it out …"
    assert said[1].startswith("✓Yes:")


def test_a_change_after_the_answer_is_announced_by_itself(check):
    """The status is read by what is new in it, and the answer that stands no longer is not read at all."""
    check.answered(**EASY)
    check.field("depth").fill("9")
    expect(check.status).to_have_attribute("aria-atomic", "false")
    told = check.status.evaluate("status => [...status.children].map(({ inert, textContent }) => [inert, textContent])")
    assert told[0] == [False, "You changed an answer. Check again."]
    assert [inert for inert, _ in told[1:]] == [True]


def test_what_is_wrong_with_a_drop_is_announced(check):
    check.field("known").select_option("stone")
    check.watch.evaluate("button => { button.click(); setTimeout(() => button.click(), 200); }")
    region = check.element.locator("#by-stone [aria-live=polite]")
    expect(region).to_contain_text("hardly longer than a person takes to react")


def test_a_drop_is_announced_by_its_depth_alone(check):
    check.field("known").select_option("stone")
    check.watch.evaluate("button => { button.click(); setTimeout(() => button.click(), 700); }")
    expect(check.drops).to_contain_text("ft")
    regions = check.element.locator("#by-stone [role=status]")
    expect(regions).to_have_count(1)
    expect(regions).to_contain_text("The water stands")
    expect(regions.get_by_role("button")).to_have_count(0)


def test_headings_go_down_by_one(answered):
    levels = answered.page.evaluate(
        """() => [document, document.querySelector('footvalve-suction-check').shadowRoot].flatMap((root) =>
            [...root.querySelectorAll('h1, h2, h3, h4')].map((heading) => Number(heading.localName[1])))"""
    )
    assert levels[:2] == [1, 2]
    assert set(levels[2:]) == {3}
