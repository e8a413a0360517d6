"""The stop-watch for a dropped stone, with the clock in the test's hand."""

import re

import pytest
from playwright.sync_api import expect

from .suction_check import EASY

FALL_MS = 900
SITE = {name: value for name, value in EASY.items() if name != "depth"}


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


def test_two_drops_that_are_alike_agree_and_leave_the_depth_unsure(by_stone):
    """Else the watch itself, at two or three drops, would seem to be beyond doubt."""
    for _ in range(2):
        drop(by_stone, 900)
    expect(by_stone.element).to_contain_text("Your 2 drops agree: they lie 0 ft apart. Four or more show better")
    told = by_stone.element.get_by_text(re.compile("The water stands .* below the ground")).inner_text()
    assert float(re.search(r"± (\d\.\d)", told)[1]) > 2.0, told


def test_a_drop_that_does_not_fit_is_marked_and_can_be_removed(by_stone):
    for milliseconds in (900, 910, 905, 2400):
        drop(by_stone, milliseconds)
    expect(by_stone.drops.nth(3)).to_contain_text("does not fit")
    expect(by_stone.element).to_contain_text("Drop 4 lies far off the others: remove it.")
    expect(by_stone.element).not_to_contain_text("The water stands")
    expect(by_stone.element).to_contain_text("do not agree")
    by_stone.element.get_by_role("button", name="Remove drop 4").click()
    expect(by_stone.drops).to_have_count(3)
    expect(by_stone.element).to_contain_text("Your 3 drops agree")
    expect(by_stone.watch).to_be_focused()


def test_no_answer_rests_on_a_drop_that_lies_far_off(by_stone):
    for milliseconds in (900, 910, 905, 500):
        drop(by_stone, milliseconds)
    asked = []
    by_stone.page.on("request", lambda request: asked.append(request.url))
    by_stone.ask(**SITE)
    expect(by_stone.error("drops")).to_have_text("Drop 4 lies far off the others: remove it.")
    expect(by_stone.watch).to_be_focused()
    assert not [url for url in asked if url.endswith("/v1/suction-feasibility")]
    by_stone.element.get_by_role("button", name="Remove drop 4").click()
    expect(by_stone.error("drops")).to_be_hidden()
    expect(by_stone.answered()).to_be_visible()


def test_a_tap_that_is_hardly_longer_than_a_reaction_is_no_drop(by_stone):
    """What is left of it when the hand's delay is off would put the water above the ground."""
    drop(by_stone, 220)
    expect(by_stone.error("drops")).to_have_text(
        "0.22 s is hardly longer than a person takes to react: such a drop does not count."
    )
    expect(by_stone.watch).to_have_accessible_description(re.compile("such a drop does not count"))
    expect(by_stone.watch).to_have_text("Start: I let go")
    expect(by_stone.drops).to_have_count(0)
    drop(by_stone)
    expect(by_stone.error("drops")).to_be_hidden()
    expect(by_stone.drops).to_have_count(1)


def test_a_longer_delay_takes_a_drop_that_was_long_enough_before(by_stone):
    drop(by_stone, 900)
    by_stone.ask(**SITE, delay="0.8")
    expect(by_stone.error("drops")).to_contain_text("0.90 s is hardly longer than a person takes to react")
    expect(by_stone.verdict).to_have_count(0)


def test_drops_that_put_the_water_above_the_ground_are_no_depth(by_stone):
    by_stone.give(top="6")
    drop(by_stone, 500)
    told = "By these drops the water would stand above the ground. Drop again, or measure with a tape."
    expect(by_stone.element.locator("#by-stone [role=status]")).to_contain_text(told)
    expect(by_stone.element).not_to_contain_text("The water stands")
    by_stone.ask(**SITE)
    expect(by_stone.error("drops")).to_have_text(told)
    expect(by_stone.verdict).to_have_count(0)


@pytest.mark.parametrize(("name", "value"), [("top", "3"), ("delay", "0.3"), ("stone", "0.5"), ("altitude", "9000")])
def test_a_depth_by_drops_follows_what_it_was_reckoned_with(by_stone, name, value):
    drop(by_stone, 2000)
    found = by_stone.element.get_by_text(re.compile("The water stands .* below the ground"))
    before = found.inner_text()
    with by_stone.page.expect_response("**/v1/sounding"):
        by_stone.give(**{name: value})
        by_stone.field(name).blur()
    expect(found).not_to_have_text(before)
    expect(found).to_be_visible()


def test_a_depth_by_drops_goes_as_soon_as_what_it_was_reckoned_with_is_no_figure(by_stone):
    drop(by_stone)
    found = by_stone.element.get_by_text(re.compile("The water stands .* below the ground"))
    expect(found).to_be_visible()
    by_stone.give(top="high")
    expect(found).to_have_count(0)


def test_a_swipe_over_the_watch_starts_nothing(by_stone):
    """The browser takes the finger's press back once it scrolls the page by it."""
    pressed = {"button": 0, "pointerId": 1, "pointerType": "touch", "bubbles": True}
    by_stone.watch.dispatch_event("pointerdown", pressed)
    by_stone.watch.dispatch_event("pointercancel", pressed)
    expect(by_stone.watch).to_have_text("Start: I let go")
    by_stone.watch.evaluate("button => button.click()")
    expect(by_stone.watch).to_have_text("Stop: I hear it")


def test_a_press_that_is_drawn_off_the_watch_is_forgotten(by_stone):
    """Neither a click without a press nor a release of another press goes by it."""
    mouse = by_stone.page.mouse
    by_stone.watch.hover()
    mouse.down()
    mouse.move(0, 0)
    mouse.up()
    by_stone.page.clock.run_for(5000)
    mouse.down()
    by_stone.watch.hover()
    mouse.up()
    expect(by_stone.watch).to_have_text("Start: I let go")
    by_stone.watch.evaluate("button => button.click()")
    expect(by_stone.element.locator(".reading")).to_have_text("0.0 s")
    by_stone.page.clock.run_for(FALL_MS)
    by_stone.watch.evaluate("button => button.click()")
    expect(by_stone.drops).to_contain_text("0.90 s")


def test_a_press_that_ends_elsewhere_is_forgotten(by_stone):
    """A browser that keeps a finger to where it came down tells of no way off."""
    by_stone.watch.dispatch_event("pointerdown", {"button": 0, "pointerId": 1, "bubbles": True})
    by_stone.page.clock.run_for(5000)
    by_stone.watch.evaluate("button => button.click()")
    expect(by_stone.element.locator(".reading")).to_have_text("0.0 s")


def test_a_finger_that_leaves_as_it_is_lifted_presses_once(by_stone):
    by_stone.watch.evaluate(
        """button => {
            const finger = { button: 0, pointerId: 1, pointerType: 'touch', bubbles: true };
            for (const type of ['pointerdown', 'pointerup', 'pointerleave']) {
                button.dispatchEvent(new PointerEvent(type, finger));
            }
            button.click();
        }"""
    )
    expect(by_stone.watch).to_have_text("Stop: I hear it")
    by_stone.page.clock.run_for(FALL_MS)
    expect(by_stone.watch).to_have_text("Stop: I hear it")


def test_a_press_counts_from_when_the_finger_came_down(by_stone):
    for _ in range(2):
        by_stone.watch.hover()
        by_stone.page.mouse.down()
        by_stone.page.clock.run_for(300)
        by_stone.page.mouse.up()
        by_stone.page.clock.run_for(600)
    expect(by_stone.drops).to_contain_text("0.90 s")


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
    expect(by_stone.error("drops")).to_have_text("No splash within 10 s: the watch was stopped. Try again.")
    expect(by_stone.error("drops")).to_be_visible()
    expect(by_stone.element.locator(".reading")).to_have_text("Ready")
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
    with by_stone.page.expect_request("**/v1/suction-feasibility") as asked:
        by_stone.answered(**SITE)
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
