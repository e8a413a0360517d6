"""The stop-watch for a dropped stone, with the clock in the test's hand."""

import re

import pytest
from playwright.sync_api import expect

from .suction_check import EASY

FALL_MS = 900


@pytest.fixture
def by_stone(check):
    check.field("known").select_option("stone")
    check.page.clock.install(time=0)
    check.page.clock.pause_at(60_000)
    return check


def drop(check, milliseconds=FALL_MS):
    check.watch.click()
    check.page.clock.run_for(milliseconds)
    check.watch.click()


def test_a_drop_runs_from_press_to_press_and_shows_its_depth_and_how_unsure_it_is(by_stone):
    by_stone.watch.click()
    expect(by_stone.watch).to_have_text("Stop: I hear it")
    by_stone.page.clock.run_for(700)
    expect(by_stone.element.locator(".reading")).to_have_text("0.7 s")
    by_stone.page.clock.run_for(200)
    by_stone.watch.click()
    expect(by_stone.watch).to_have_text("Start: I let go")
    expect(by_stone.drops).to_contain_text(re.compile(r"^1\. 0\.90 s: \d\.\d\d? ft"))
    expect(by_stone.element).to_contain_text(re.compile(r"The water stands \d\.\d ± \d\.\d ft below the ground\."))
    expect(by_stone.element).to_contain_text("One drop cannot show a slip of the hand. Drop two more.")


def test_drops_that_agree_narrow_the_depth(by_stone, picture):
    drop(by_stone)
    found = by_stone.element.get_by_text(re.compile("The water stands .* below the ground"))
    alone = float(re.search(r"± ([\d.]+)", found.inner_text())[1])
    for milliseconds in (930, 880, 910):
        drop(by_stone, milliseconds)
    expect(by_stone.element).to_contain_text("Your 4 drops agree")
    together = float(re.search(r"± ([\d.]+)", found.inner_text())[1])
    assert 0 < together < alone
    picture(by_stone.page, "stop-watch")


def test_a_drop_that_does_not_fit_is_marked_and_can_be_removed(by_stone):
    for milliseconds in (900, 910, 905, 2400):
        drop(by_stone, milliseconds)
    expect(by_stone.drops.nth(3)).to_contain_text("does not fit")
    expect(by_stone.element).to_contain_text("do not agree")
    by_stone.element.get_by_role("button", name="Remove drop 4").click()
    expect(by_stone.drops).to_have_count(3)
    expect(by_stone.element).to_contain_text("Your 3 drops agree")
    expect(by_stone.watch).to_be_focused()


def test_a_finger_that_bounces_stops_nothing(by_stone):
    by_stone.watch.click()
    by_stone.page.clock.run_for(50)
    by_stone.watch.click()
    expect(by_stone.watch).to_have_text("Stop: I hear it")
    by_stone.page.clock.run_for(850)
    by_stone.watch.click()
    expect(by_stone.drops).to_contain_text("0.90 s")


def test_a_stone_that_nobody_hears_stops_the_watch(by_stone):
    by_stone.watch.click()
    by_stone.page.clock.run_for(10_500)
    expect(by_stone.element.locator(".reading")).to_have_text(
        "No splash within 10 s: the watch was stopped. Try again."
    )
    expect(by_stone.watch).to_have_text("Start: I let go")
    expect(by_stone.drops).to_have_count(0)


def test_the_watch_takes_keys_at_the_press_and_not_at_the_release(by_stone):
    by_stone.watch.focus()
    for number, key in enumerate(("Space", "Enter")):
        by_stone.page.keyboard.press(key)
        by_stone.page.clock.run_for(FALL_MS)
        by_stone.page.keyboard.down(key)
        expect(by_stone.drops.nth(number)).to_contain_text("0.90 s")
        by_stone.page.clock.run_for(400)
        by_stone.page.keyboard.up(key)
        expect(by_stone.drops).to_have_count(number + 1)
        expect(by_stone.watch).to_have_text("Start: I let go")


def test_the_watch_takes_a_click_of_assistive_technology(by_stone):
    by_stone.watch.evaluate("button => button.click()")
    by_stone.page.clock.run_for(FALL_MS)
    by_stone.watch.evaluate("button => button.click()")
    expect(by_stone.drops).to_contain_text("0.90 s")


def test_the_answer_takes_the_depth_of_the_drops_with_its_doubt(by_stone):
    for milliseconds in (900, 930, 880):
        drop(by_stone, milliseconds)
    found = by_stone.element.get_by_text(re.compile("The water stands .* below the ground")).inner_text()
    depth, doubt = map(float, re.search(r"([\d.]+) ± ([\d.]+) ft", found).groups())
    easy = {name: value for name, value in EASY.items() if name != "depth"}
    with by_stone.page.expect_request("**/v1/suction-feasibility") as asked:
        by_stone.answered(**easy)
    told = asked.value.post_data_json["depth_to_water"]
    assert told["value"] == pytest.approx(depth, abs=0.06)
    assert told["uncertainty"] == pytest.approx(doubt, abs=0.06)


def test_another_height_of_the_opening_is_taken_off(by_stone):
    with by_stone.page.expect_request("**/v1/sounding") as asked:
        by_stone.give(top="2.5")
        drop(by_stone)
    assert asked.value.post_data_json["measuring_point_height"] == {"value": 2.5, "unit": "ft", "uncertainty": 0.2}


def test_without_a_drop_the_watch_says_what_is_missing(by_stone):
    by_stone.button.click()
    expect(by_stone.error("drops")).to_have_text(
        "Drop a stone at least once, or choose the other way to tell the depth."
    )
    expect(by_stone.watch).to_be_focused()
    expect(by_stone.watch).to_have_accessible_description(re.compile("Drop a stone at least once"))


def test_a_check_that_is_taken_off_the_page_stops_its_watch(by_stone):
    by_stone.watch.click()
    parted = by_stone.page.evaluate_handle(
        """() => {
            const check = document.querySelector('footvalve-suction-check');
            check.remove();
            return check.shadowRoot.querySelector('.reading');
        }"""
    )
    by_stone.page.clock.run_for(11_000)
    assert parted.evaluate("reading => reading.textContent") == "0.0 s"
