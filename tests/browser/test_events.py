"""What the page is told: the whole answer, or the whole problem."""

from playwright.sync_api import expect

from .suction_check import DEEP, EASY

ASKED = "**/v1/suction-feasibility"


def test_an_answer_is_told_whole(check):
    check.watch_events()
    told = []
    for site, verdict in [(EASY, "feasible"), (DEEP, "infeasible")]:
        with check.page.expect_response(ASKED) as response:
            check.answered(**site)
        told.append(["answered", response.value.json()])
        check.page.wait_for_function("count => window.told.length === count", arg=len(told))
        assert check.events() == told
        assert told[-1][1]["verdict"] == verdict
        assert "levers" in told[-1][1]


def test_a_refusal_is_told_whole(check):
    check.watch_events()
    check.give(**EASY | {"altitude": "40000"})
    with check.page.expect_response(ASKED) as response:
        check.ask()
    expect(check.error("altitude")).to_be_visible()
    problem = response.value.json()
    assert check.events() == [["refused", problem]]
    assert problem["status"] == response.value.status
    assert problem["errors"][0]["pointer"] == "/site/altitude"


def test_what_is_not_filled_in_is_no_refusal_of_the_service(check):
    check.watch_events()
    check.ask()
    expect(check.error("depth")).to_be_visible()
    assert check.events() == []


def test_an_event_comes_from_its_element_to_whoever_listens(check):
    """It leaves the shadow tree and bubbles, so that a page may listen in one place."""
    check.page.evaluate(
        """() => addEventListener('answered', (event) => {
            window.from = [event.target.localName, event.bubbles, event.composed];
        })"""
    )
    check.answered(**EASY)
    assert check.page.evaluate("window.from") == ["footvalve-suction-check", True, True]
