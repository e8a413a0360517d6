"""Filling in the questions, and the answer in the page."""

import re
import time

import pytest
from playwright.sync_api import expect

from .shop_page import ROTARY
from .suction_check import DEEP, EASY, SURE

KNOWN = EASY | SURE | {"drawdown-sure": "0", "reach-sure": "0"}

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


@pytest.mark.parametrize(
    ("site", "verdict", "why", "reason"),
    [
        (
            {"reach": "4"},
            "No:",
            "The intake would stand dry: the water falls to 13 ft below the ground, and the pipe reaches down to 12 ft "
            "at the most.",
            "it draws air",
        ),
        (
            {"reach": "5.5"},
            "Doubtful: the rotary booster may fail",
            "So little water stands over the intake, 0.5 ft at the most, that it may draw air. "
            "It takes 1 ft (0.3 m) or more.",
            "less than the 0.984 ft that keep air out of it",
        ),
        (
            {"depth": "24", "pump": "20"},
            "No:",
            "On the way the water would boil: pre-filter.",
            "The water boils at the end of pre-filter",
        ),
        (
            {"depth": "20", "pump": "20"},
            "Doubtful: the rotary booster may fail",
            "On the way too little suction is left before the water boils: 1.77 ft (pre-filter).",
            "On the way 1.77 ft are left before the water boils",
        ),
        (
            {"depth": "20", "pump": "20"},
            "Doubtful: the rotary booster may fail",
            "The pump may not draw the air out of the dry pipe: it draws the water up 21.4 ft, "
            "and the pipe rises 24 ft over it.",
            "The line rises 24 ft over the water at rest, and this pump draws a dry line up to 21.4 ft",
        ),
        (
            {"depth": "16", "flow": "0.3", "lower_end": "foot"},
            "Doubtful: the rotary booster may fail",
            "So little flow does not open the check valve fully",
            "This flow does not lift the disc",
        ),
    ],
    ids=["dry", "shallow", "boils", "tight", "priming", "disc"],
)
def test_what_fails_besides_the_margin_is_told_at_the_verdict(check_on, site, verdict, why, reason):
    """It follows from the figures of the answer, whose own reasons are English and shut away."""
    flow = site.get("flow", "3")
    check = check_on(f'pump-name="the rotary booster" rated-lift="22 ft" flow="{flow} gal/min"')
    expect(check.answered(**KNOWN | site)).to_contain_text(verdict)
    expect(check.status).to_contain_text(why)
    expect(check.status).to_contain_text("ft of suction to spare.")
    expect(check.result.locator("details").last).to_contain_text(reason)


def test_what_fails_is_told_in_the_readers_language(check_on):
    check = check_on(lang="es")
    check.answered(**KNOWN | {"depth": "20", "pump": "20"})
    expect(check.verdict).to_have_text("!Dudoso: the rotary booster puede fallar en este pozo.")
    expect(check.status).to_contain_text("Quizás la bomba no saque el aire de la tubería seca")
    check.answered(depth="8", reach="5,5")
    expect(check.status).to_contain_text("Hacen falta 1 pie (30 cm) o más.")
    expect(check.status.locator("[lang=en]")).to_have_count(0)


def test_a_yes_and_a_margin_that_is_too_small_tell_of_nothing_else(check):
    for site in (KNOWN, KNOWN | {"depth": "15"}):
        check.answered(**site)
        expect(check.status).not_to_contain_text(re.compile("intake|boil|dry pipe|check valve"))


@pytest.mark.parametrize(("reach", "by"), [("4", "1.99"), ("5.5", "0.485")])
def test_where_the_intake_fails_a_longer_pipe_helps(check, reach, by):
    check.answered(**KNOWN | {"reach": reach})
    expect(check.result.locator("p.levers")).to_have_text(
        f"Let the pipe reach deeper into the water, by {by} ft or more, if the well is deep enough."
    )
    expect(check.result).not_to_contain_text("No single change")
    check.answered(reach=f"{float(reach) + float(by):.4f}")
    expect(check.status).not_to_contain_text("intake")


def test_no_depth_of_the_water_is_offered_that_cannot_be_or_mends_nothing(check):
    """The pipe hangs on the water in the form: an intake that is dry or shallow is so at any depth."""
    for site in (
        KNOWN | {"reach": "4"},
        KNOWN | {"reach": "5.5"},
        KNOWN | {"depth": "1", "pump": "40", "side": "above"},
    ):
        check.answered(**site)
        expect(check.result).to_contain_text("What limits it")
        expect(check.result).not_to_contain_text("water may stand up to")


def test_a_no_for_the_intake_hangs_on_how_far_the_pipe_reaches(check):
    """Unless that is sure: then the sentence is left out."""
    hangs = "The answer hangs most on one figure: “The pipe reaches below the water by”."
    site = EASY | {"reach": "4", "reach-sure": "2"}
    expect(check.answered(**site)).to_contain_text("No:")
    expect(check.status).to_contain_text(hangs)
    check.answered(**site | {"reach-sure": "0", "reach": "5.5"})
    expect(check.status).to_contain_text("So little water stands over the intake")
    expect(check.status).to_contain_text(re.compile(r"about [1-9]\d%"))
    expect(check.status).not_to_contain_text("hangs most on")


def test_a_figure_that_the_answer_hangs_on_is_told_by_words_that_stand_alone(check):
    check.answered(**EASY | SURE | {"depth": "15", "pump-sure": "2"})
    expect(check.status).to_contain_text(
        "The answer hangs most on one figure: “Height between the ground and the pump's inlet”."
    )


def test_what_leaves_the_site_doubtful_is_not_offered_as_help(check):
    for site, is_any in ((KNOWN | {"depth": "15"}, True), (KNOWN | {"depth": "20", "pump": "8"}, False)):
        with check.page.expect_response(ASKED) as told:
            check.answered(**site)
        levers = told.value.json()["levers"]
        enough = [lever for lever in levers if lever["verdict"] == "feasible"]
        assert len(enough) < len(levers)
        assert bool(enough) is is_any
        expect(check.result.locator("p.levers, details li", has_text="Margin then:")).to_have_count(len(enough))
    expect(check.result).to_contain_text("No single change that we know of would make it a yes.")


@pytest.mark.parametrize(("flow", "words"), [("0.5", "Less than a third of"), ("10", "More than three times")])
def test_a_drop_far_from_the_flow_at_which_it_is_known_is_doubted_in_the_readers_words(check, flow, words):
    """The stated figures of the old pump and the pre-filter are those at 3 gal/min."""
    check.answered(**EASY | {"flow": flow})
    for name in ("lower_end", "filter"):
        expect(check.doubt(name)).to_contain_text(f"{words} the flow at which its drop is known")
    expect(check.element.locator(".doubt [lang=en]")).to_have_count(0)


def limit_told(check, words):
    told = check.result.get_by_text(words).inner_text()
    return re.search(r"up to ([\d.]+) ", told)[1]


@pytest.mark.parametrize("pipe", ["pe-sidr-15 3/4", "pex-sdr-9 3/4", "pe-sidr-15 1-1/4"])
@pytest.mark.parametrize("depth", ["6", "9"])
def test_a_limit_holds_when_it_is_filled_in(check_on, pipe, depth):
    """Also where the pipe, which goes down with the water in the form, takes more by its length."""
    check = check_on('pump-name="the rotary booster" rated-lift="22 ft"')
    site = KNOWN | {"pipe": pipe, "flow": "3"}

    def margin():
        return float(re.search(r"Margin: (-?[\d.]+) ", check.status.inner_text())[1])

    with check.page.expect_response(ASKED) as told:
        check.answered(**site | {"depth": depth})
    deepest, most = (limit_told(check, words) for words in ("water may stand up to", "may be drawn"))
    assert float(most) <= told.value.json()["greatest_flow"]["value"] < float(most) * 1.011
    for field, value in (("depth", deepest), ("flow", most)):
        with check.page.expect_response(ASKED) as again:
            check.answered(**site | {"depth": depth} | {field: value})
        assert again.value.json()["verdict"] == "feasible"
        assert 3.0 <= margin() < 3.2


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


def test_doubts_go_with_the_figures_that_they_spoke_of(check):
    check.answered(**EASY)
    expect(check.doubt("reach")).to_be_visible()
    check.field("reach").fill("60")
    expect(check.doubt("reach")).to_be_hidden()
    expect(check.element.locator(".doubt:visible")).to_have_text(["You changed an answer. Check again."])
    expect(check.field("reach")).not_to_have_accessible_description(re.compile("intake"))


def test_a_doubt_goes_with_a_new_drop(check):
    check.field("known").select_option("stone")
    press = "button => { button.click(); setTimeout(() => button.click(), 900); }"
    check.watch.evaluate(press)
    expect(check.drops).to_contain_text("ft")
    check.answered(**{name: value for name, value in EASY.items() if name != "depth"})
    expect(check.doubt("reach")).to_be_visible()
    check.watch.evaluate(press)
    expect(check.drops).to_have_count(2)
    expect(check.doubt("reach")).to_be_hidden()


def test_an_answer_to_an_older_form_is_set_back_with_all_that_it_offers(check_on, picture):
    """Its sheet has the older figures, and a link would have the newer ones."""
    check = check_on(f"{ROTARY} permalink")
    check.answered(**EASY)
    offered = [check.result.get_by_role(*each) for each in (("link",), ("button",))]
    for each in offered:
        expect(each).to_have_count(1)
    check.field("depth").fill("30")
    for old in (check.result, check.status.locator("div")):
        expect(old).to_have_js_property("inert", True)
        assert old.evaluate("old => getComputedStyle(old).opacity") == "0.65"
    assert check.result.locator("a, button").first.evaluate(
        "control => (control.focus(), control.getRootNode().activeElement !== control)"
    )
    picture(check.page, "desktop-set-back")
    check.answered()
    for now in (check.result, check.status.locator("div")):
        expect(now).to_have_js_property("inert", False)


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


def test_where_the_intake_hangs_is_no_doubt_as_the_form_asks_for_it(check):
    """The service knows it by the pipe's length alone, and says so of every line without it."""
    with check.page.expect_response(ASKED) as asked:
        check.answered(**EASY, **SURE)
    assert "/intake_elevation" in [warning["pointer"] for warning in asked.value.json()["warnings"]]
    expect(check.result).not_to_contain_text("deepest that the line can reach")
