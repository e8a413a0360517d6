"""Filling in the questions, and the answer in the page."""

import re
import time

from playwright.sync_api import expect

from .suction_check import DEEP, EASY, SURE

ASKED = "**/v1/suction-feasibility"


def test_a_site_with_much_to_spare_is_a_yes(check, picture):
    expect(check.answered(**EASY, **SURE)).to_have_text("✓Yes: the rotary booster can draw water from this well.")
    expect(check.status).to_contain_text("of suction to spare. A safe site has 3 ft (0.9 m) or more.")
    expect(check.status).to_contain_text("about 99%")
    expect(check.status).not_to_contain_text("hangs most on")
    expect(check.result).not_to_contain_text("What would help")
    picture(check.page, "desktop-feasible")


def test_a_yes_that_the_readings_leave_open_is_told_as_open(check, picture):
    expect(check.answered(**EASY | {"depth": "11"})).to_have_text(
        "?Perhaps: by your best figures the rotary booster can draw water from this well, "
        "but they are not sure enough for a plain yes."
    )
    expect(check.status).to_contain_text(
        "The answer hangs most on one figure: “From the ground down to the water”. Make sure of that one first."
    )
    picture(check.page, "desktop-perhaps")


def test_a_yes_that_hangs_on_a_stated_default_names_it(answered):
    """How far the pipe reaches below the water is what an easy site may fail at: nobody has looked."""
    expect(answered.status).to_contain_text("hangs most on one figure: “The pipe reaches below the water by”")
    expect(answered.doubt("reach")).to_contain_text("the intake has too little water over it, or none")
    expect(answered.doubt("reach")).to_be_visible()


def test_a_site_with_too_little_to_spare_is_doubtful(check, picture):
    expect(check.answered(**EASY | {"depth": "15"})).to_have_text(
        "!Doubtful: the rotary booster has too little to spare on this well."
    )
    expect(check.result.get_by_role("heading", name="What would help most")).to_be_visible()
    picture(check.page, "desktop-marginal")


def test_water_that_stands_too_deep_is_a_no_that_says_why(check, picture):
    expect(check.answered(**DEEP)).to_have_text(
        "✕No: the rotary booster cannot draw water from this well as things stand."
    )
    expect(check.status).to_contain_text("so there is too little suction")
    expect(check.status).not_to_contain_text("hangs most on")
    expect(check.result).to_contain_text("On the way the water would boil, even when it is cold")
    picture(check.page, "desktop-infeasible")


def test_what_the_air_carries_is_shared_out_to_the_margin(answered):
    told = [float(re.match(r"-?[\d.]+", text)[0]) for text in answered.result.locator(".balance dd").all_inner_texts()]
    carries, lift, losses, needs, margin = told
    assert abs(carries - lift - losses - needs - margin) < 0.2
    assert min(told) > 0


def test_the_profile_is_told_in_words_too(answered):
    profile = answered.result.get_by_role("img")
    expect(profile).to_have_accessible_name(
        re.compile("^The well and the pump from the side, .* which makes the margin ")
    )
    assert "ends at the pump at -5 ft" in profile.get_attribute("aria-label")


def test_what_is_dangerous_comes_first(answered):
    severities = answered.result.locator(".cautions li strong").all_inner_texts()
    assert severities == sorted(severities, key=["Danger", "Warning", "Note"].index)
    assert severities[0] == "Danger"


def test_a_change_after_the_answer_is_told(check):
    check.answered(**EASY)
    check.field("depth").fill("9")
    expect(check.status).to_contain_text("You changed an answer. Check again.")
    check.answered()
    expect(check.status).not_to_contain_text("You changed an answer")


def held_back(check, *sites):
    """Ask of these sites one after the other; what was asked waits."""
    held = []

    def hold(route):
        held.append(route)

    check.page.route(ASKED, hold)
    for site in sites:
        with check.page.expect_request(ASKED):
            check.ask(**site)
    deadline = time.monotonic() + 20
    while len(held) < len(sites) and time.monotonic() < deadline:
        check.page.wait_for_timeout(20)
    return held


def test_an_answer_to_an_older_form_is_dropped(check):
    """The form was changed while it was worked out: what comes of it stands nowhere."""
    held = held_back(check, EASY)
    expect(check.status).to_have_text("Working it out …")
    check.field("depth").fill("40")
    expect(check.status).to_have_text("You changed an answer. Check again.")
    with check.page.expect_response(ASKED) as response:
        held[0].continue_()
    response.value.finished()
    check.page.wait_for_timeout(200)
    expect(check.status).to_have_text("You changed an answer. Check again.")
    expect(check.result).to_be_hidden()


def test_a_refusal_of_an_older_form_is_dropped(check):
    held = held_back(check, EASY)
    check.field("altitude").fill("600")
    problem = {"detail": "no", "errors": [{"pointer": "/site/altitude", "detail": "too high"}]}
    headers = {"access-control-allow-origin": check.page.evaluate("location.origin")}
    held[0].fulfill(status=422, json=problem, headers=headers)
    check.page.wait_for_timeout(200)
    expect(check.error("altitude")).to_be_hidden()
    expect(check.status).to_have_text("You changed an answer. Check again.")


def test_a_late_answer_does_not_take_the_place_of_a_newer_one(check):
    late, newer = held_back(check, EASY, DEEP)
    newer.continue_()
    expect(check.verdict).to_contain_text("No:")
    with check.page.expect_response(ASKED) as response:
        late.continue_()
    response.value.finished()
    check.page.wait_for_timeout(200)
    expect(check.verdict).to_contain_text("No:")


def test_the_reasons_can_be_opened(answered):
    details = answered.result.locator("details", has_text="The reasons in detail")
    expect(details.locator("li").first).to_be_hidden()
    details.locator("summary").click()
    expect(details.locator("li").first).to_contain_text("Of NPSH, the pump needs")
    expect(details).to_contain_text(re.compile(r"which reaches the [\d.]+ ft asked for\."))
    expect(answered.element).not_to_contain_text("policy")


def test_levers_are_told_with_the_margin_that_each_would_leave(check):
    check.answered(**EASY | {"depth": "14", "pipe": "pe-sidr-15 3/4"})
    expect(check.result.locator("p.levers")).to_contain_text(re.compile(r"Margin then: -?[\d.]+( ± [\d.]+)? ft\."))
    others = check.result.locator("details", has_text="What would help as well")
    others.locator("summary").click()
    expect(others.locator("li").first).to_contain_text("Margin then:")
