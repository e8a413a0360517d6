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
        told.append(response.value.json())
        expect(check.verdict).to_contain_text("Yes" if verdict == "feasible" else "No")
        answers = [detail for name, detail in check.events() if name == "answered"]
        assert answers == told
        assert told[-1]["verdict"] == verdict
        assert "levers" in told[-1]


def test_a_refusal_is_told_whole(check):
    problem = {
        "type": "/problems/refused", "title": "refused", "status": 422, "detail": "no",
        "errors": [{"pointer": "/site/altitude", "detail": "too high"}],
    }  # fmt: skip
    check.watch_events()
    check.reply_once("/v1/suction-feasibility", 422, problem)
    check.ask(**EASY)
    expect(check.error("altitude")).to_have_text("too high")
    assert check.events() == [["refused", problem]]


def test_what_is_wrong_with_the_form_is_told_by_its_fields(check):
    check.watch_events()
    check.ask(**EASY | {"depth": "", "side": "unset", "altitude": "90000"})
    expect(check.error("depth")).to_be_visible()
    ((name, problem),) = check.events()
    assert (name, problem["type"]) == ("refused", "about:blank")
    assert problem["detail"] == "Some answers need a second look. The first of them has been selected."
    assert problem["errors"] == [
        {"pointer": "/depth", "detail": "Please fill this in."},
        {"pointer": "/side", "detail": "Please choose."},
        {"pointer": "/altitude", "detail": "Please give a figure from -1,600 ft to 16,400 ft."},
    ]


def test_an_answer_that_stands_no_longer_is_told_once(check):
    check.answered(**EASY)
    check.watch_events()
    check.field("depth").fill("9")
    check.field("depth").fill("10")
    assert check.events() == [["changed", None]]


def test_another_pump_takes_the_answer_back(check):
    check.answered(**EASY)
    check.watch_events()
    check.element.evaluate("element => element.setAttribute('rated-lift', '20 ft')")
    expect(check.field("rated-lift")).to_have_value("20")
    assert check.events() == [["changed", None]]


def test_an_answer_is_taken_back_before_another_is_worked_out(check):
    check.answered(**EASY)
    check.watch_events()
    check.page.context.set_offline(True)
    check.button.click()
    expect(check.status).to_contain_text("The service cannot be reached.")
    assert check.events() == [["changed", None]]


def test_a_check_that_is_taken_off_the_page_tells_of_no_answer(check):
    check.page.evaluate(
        """() => {
            window.told = [];
            const check = document.querySelector('footvalve-suction-check');
            for (const name of ['answered', 'refused']) check.addEventListener(name, () => window.told.push(name));
        }"""
    )
    held = []

    def hold(route):
        held.append(route)

    check.page.route(ASKED, hold, times=1)
    with check.page.expect_request(ASKED):
        check.ask(**EASY)
    check.element.evaluate("element => element.remove()")
    with check.page.expect_response(ASKED) as response:
        held[0].continue_()
    response.value.finished()
    check.page.wait_for_timeout(200)
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
