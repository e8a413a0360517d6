"""A link that keeps the inputs behind its #, and gives them back to the check that it was made from."""

from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import expect

from .shop_page import ROTARY, check_element
from .suction_check import EASY, SURE, SuctionCheck

CLIPBOARD = {"permissions": ["clipboard-read", "clipboard-write"]}
LINKED = f"{ROTARY} permalink"


def link_of(check):
    """The link that its button copies."""
    check.result.get_by_role("button", name="Copy a link to these answers").click()
    expect(check.result.get_by_text("The link has been copied.")).to_be_visible()
    return check.page.evaluate("navigator.clipboard.readText()")


def opened_again(check, link, place=0):
    """The check on a fresh load of the link."""
    page = check.page.context.new_page()
    page.goto(link)
    again = SuctionCheck(page, place)
    again.is_ready()
    return again


def given(check, *names):
    return {name: check.field(name).input_value() for name in names}


def test_a_link_gives_the_inputs_back(check_on):
    check = check_on(LINKED, **CLIPBOARD)
    answer = check.answered(**EASY, **SURE).inner_text()
    link = link_of(check)
    assert link.split("#")[0] == check.page.url
    again = opened_again(check, link)
    assert given(again, *EASY, *SURE) == EASY | SURE
    assert again.answered().inner_text() == answer


def test_a_link_gives_the_drops_back(check_on):
    check = check_on(LINKED, **CLIPBOARD)
    check.field("known").select_option("stone")
    check.page.clock.install(time=0)
    check.page.clock.pause_at(60_000)
    for milliseconds in (900, 930):
        check.watch.click()
        check.page.clock.run_for(milliseconds)
        check.watch.click()
    check.answered(**{name: value for name, value in EASY.items() if name != "depth"})
    again = opened_again(check, link_of(check))
    expect(again.drops).to_have_count(2)
    expect(again.drops.nth(0)).to_contain_text("1. 0.90 s: ")
    expect(again.drops.nth(1)).to_contain_text("2. 0.93 s: ")


def test_no_server_sees_what_a_link_keeps(check_on):
    check = check_on(LINKED, **CLIPBOARD)
    check.answered(**EASY)
    link = urlsplit(link_of(check))
    assert link.query == ""
    assert parse_qs(link.fragment.removeprefix("footvalve?"))["depth"] == ["8"]


def test_a_link_fills_in_only_the_check_that_it_was_made_from(page_with):
    pump = check_element('pump-name="{0}" rated-lift="22 ft" flow="3 gal/min" permalink')
    page = page_with(pump.format("the one") + pump.format("the other"), **CLIPBOARD)
    one, other = SuctionCheck(page), SuctionCheck(page, 1)
    one.is_ready()
    other.is_ready()
    other.answered(**EASY | {"flow": "4"})
    link = link_of(other)
    assert given(opened_again(other, link, place=1), "depth", "flow") == {"depth": "8", "flow": "4"}
    page = other.page.context.new_page()
    page.goto(link)
    SuctionCheck(page).is_ready()
    assert given(SuctionCheck(page), "depth", "flow") == {"depth": "", "flow": "3"}


def test_a_link_is_taken_where_it_belongs_alone(page_with):
    """By the check it was made from, in the units it was made in, where the page offers links at all."""
    attributes = [
        f'{LINKED} id="a"', f'{LINKED} id="b"', LINKED, f'{LINKED} id="a" units="metric"', f'{ROTARY} id="a"'
    ]  # fmt: skip
    html = "".join(check_element(each) for each in attributes)
    page = page_with(html, after="#footvalve?depth=8&for=a&units=us")
    checks = [SuctionCheck(page, place) for place in range(len(attributes))]
    for check in checks:
        check.is_ready()
    assert [check.field("depth").input_value() for check in checks] == ["8", "", "", "", ""]


def test_a_link_that_was_spoiled_does_no_harm(check_on):
    for after in (
        "#footvalve?",
        "#footvalve?for=a&units=us&drops=x+-1+1e9&known=no&pipe=%00",
        "#other",
        "#footvalve?%",
    ):
        check = check_on(f'{LINKED} id="a"', after=after)
        assert given(check, "known", "pipe", "depth") == {"known": "tape", "pipe": "unknown", "depth": ""}
        expect(check.drops).to_have_count(0)


def test_how_sure_a_figure_is_cannot_be_lost_on_the_way(check_on):
    """Else a figure would have no doubt at all."""
    usual = {"depth-sure": "1", "reach-sure": "2", "flow-sure": "0"}
    for spoiled in ("9", "NaN", "", "-1", "length", "1.0", "0.5"):
        after = "#footvalve?for=a&units=us&" + "&".join(f"{name}={spoiled}" for name in usual)
        check = check_on(f'{LINKED} id="a"', after=after)
        assert given(check, *usual) == usual
        with check.page.expect_request("**/v1/suction-feasibility") as asked:
            check.ask(**EASY)
        assert asked.value.post_data_json["depth_to_water"]["uncertainty"] == 2


def test_a_figure_of_a_link_that_is_not_the_pumps_own_is_shown_and_marked(check_on):
    check = check_on(LINKED, **CLIPBOARD)
    check.answered(**EASY, **{"rated-lift": "28"})
    again = opened_again(check, link_of(check))
    expect(again.field("rated-lift")).to_be_visible()
    expect(again.field("rated-lift")).to_have_value("28")
    mark = again.element.locator("#rated-lift-other")
    expect(mark).to_have_text("Not the figure of this pump's data sheet.")
    expect(mark).to_be_visible()
    expect(again.element.locator("#flow-other")).to_be_hidden()
    again.answered()
    expect(mark).to_be_visible()


@pytest.mark.parametrize("units", ["", "&in=L/min+ft+ft"])
def test_a_figure_of_a_pump_is_taken_from_a_link_in_its_own_unit_alone(check_on, units):
    """Else 4 L/min would become 4 gal/min once the shop writes the pump's flow otherwise."""
    check = check_on(f'{LINKED} id="a"', after=f"#footvalve?for=a&units=us&depth=8&flow=4&rated-lift=28{units}")
    assert given(check, "depth", "flow", "rated-lift") == {"depth": "8", "flow": "3", "rated-lift": "22"}
    expect(check.field("flow")).to_be_hidden()


def test_of_checks_that_nothing_tells_apart_the_first_alone_has_links(page_with):
    pumps = [check_element(f'rated-lift="{lift} ft" flow="3 gal/min" permalink') for lift in (22, 20)]
    page = page_with("".join(pumps), **CLIPBOARD)
    one, other = SuctionCheck(page), SuctionCheck(page, 1)
    for check in (one, other):
        check.is_ready()
        check.answered(**EASY)
    expect(other.result.get_by_role("button", name="Copy a link to these answers")).to_have_count(0)
    again = opened_again(one, link_of(one))
    other = SuctionCheck(again.page, 1)
    other.is_ready()
    assert [check.field("depth").input_value() for check in (again, other)] == ["8", ""]


def test_a_link_means_the_same_in_another_language(check_on):
    check = check_on(f'{LINKED} id="a"', **CLIPBOARD)
    check.answered(**EASY | {"altitude": "1200", "depth": "8.1250"})
    after = "#" + link_of(check).split("#")[1]
    spanish = check_on(f'{LINKED} id="a"', after=after, lang="es")
    with spanish.page.expect_request("**/v1/suction-feasibility") as asked:
        spanish.ask()
    body = asked.value.post_data_json
    assert body["site"]["altitude"]["value"] == 1200
    assert body["depth_to_water"]["value"] == 8.125


def test_a_link_that_is_opened_on_the_page_itself_is_taken(check_on):
    """Nothing is loaded anew: only what stands behind the hash has changed."""
    check = check_on(f'{LINKED} id="a"')
    check.give(depth="30")
    check.page.evaluate("location.hash = '#footvalve?depth=8&for=a&units=us'")
    expect(check.field("depth")).to_have_value("8")
    check.page.evaluate("location.hash = '#elsewhere'")
    expect(check.field("depth")).to_have_value("8")


def test_without_a_clipboard_the_link_is_there_to_be_copied(check_on):
    """A page without TLS has none, and a reader may deny it."""
    check = check_on(LINKED)
    check.answered(**EASY)
    for clipboard in ("undefined", "{ writeText: () => Promise.reject(new Error('denied')) }"):
        check.page.evaluate(
            f"Object.defineProperty(navigator, 'clipboard', {{ value: {clipboard}, configurable: true }})"
        )
        check.result.get_by_role("button", name="Copy a link to these answers").click()
        link = check.result.get_by_label("Copy this link:")
        assert "#footvalve?" in link.input_value()
        assert link.get_attribute("readonly") == ""
        check.answered()


def test_a_figure_without_an_end_is_refused_at_once(check_on):
    """A link brings what nobody would type. Its digits are looked at in a time that grows with their square else."""
    check = check_on(f'{ROTARY} permalink id="a"')
    told = "#footvalve?for=a&units=us&in=gal/min+ft+ft&depth=8&flow="
    check.page.evaluate("told => { location.hash = told + '9'.repeat(200000); }", told)
    expect(check.field("depth")).to_have_value("8")
    check.ask(**EASY)
    expect(check.error("flow")).to_have_text("Please write a number in gal/min, such as 12.5.")


def test_without_the_attribute_there_is_no_link(answered):
    expect(answered.result.get_by_role("button", name="Copy a link to these answers")).to_have_count(0)
