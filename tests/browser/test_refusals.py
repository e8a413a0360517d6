"""What is wrong is said at its field, and the first such field is where the reader goes on."""

import re

import pytest
from playwright.sync_api import expect

from .suction_check import EASY


def is_marked(check, name, text):
    """Whether an error stands at the field and is told with it."""
    expect(check.error(name)).to_have_text(text)
    expect(check.error(name)).to_be_visible()
    expect(check.field(name)).to_have_attribute("aria-invalid", "true")
    expect(check.field(name)).to_have_accessible_description(
        text if isinstance(text, re.Pattern) else re.compile(re.escape(text))
    )


def test_what_is_left_out_is_asked_for_at_each_field_until_it_is_filled_in(check, picture):
    check.ask()
    for name in ("depth", "pump", "distance", "altitude"):
        is_marked(check, name, "Please fill this in.")
    expect(check.field("depth")).to_be_focused()
    expect(check.status).to_have_text("Some answers need a second look. The first of them has been selected.")
    picture(check.page, "desktop-refused")
    check.field("depth").fill("8")
    expect(check.error("depth")).to_be_hidden()
    expect(check.field("depth")).to_have_attribute("aria-invalid", "false")


def test_nothing_is_asked_of_the_service_until_all_is_filled_in(check):
    asked = []
    check.page.on("request", lambda request: asked.append(request.url))
    check.ask(**EASY | {"altitude": ""})
    is_marked(check, "altitude", "Please fill this in.")
    assert asked == []


def test_what_is_no_number_is_told(check):
    check.give(**EASY)
    for typed in ["twelve", "12 apples", "1e3", "--5", "1.2.3", "Infinity", "0x10", "12 13", "1/0", "5-6", "5 ft 6 lb"]:
        check.ask(depth=typed)
        is_marked(check, "depth", "Please write a number in ft, such as 12.5.")


@pytest.mark.parametrize("typed", ["8²", "8 ²", "8₂", "8①", "8½²", "31/2", "8 5/4", "8 ft²", "8 ft 60 in", "8' 12\""])
def test_what_may_be_two_numbers_is_asked_back(check, typed):
    """It is no depth of 82, 15.5 or 13 ft."""
    check.ask(**EASY | {"depth": typed})
    is_marked(check, "depth", "Please write a number in ft, such as 12.5.")


def test_a_number_in_another_unit_is_told(check):
    check.give(**EASY)
    for name, typed, unit in [("depth", "5 m", "ft"), ("depth", "100 inches", "ft"), ("temperature", "12 °C", "°F")]:
        check.ask(**EASY | {name: typed})
        is_marked(check, name, f"Please write this in {unit}.")
        check.give(temperature="52")


def test_metres_are_written_as_people_do_and_feet_are_no_metres(check_on):
    check = check_on('rated-lift="6.7 m" flow="11 L/min" units="metric"')
    check.give(**EASY | {"altitude": "150"})
    for typed in ("5 m", "5,0 metros", "5."):
        with check.page.expect_request("**/v1/suction-feasibility") as asked:
            check.ask(depth=typed)
        assert asked.value.post_data_json["depth_to_water"]["value"] == 5
    for typed in ("16 ft", "5'6\"", "5 ft 6 in"):
        check.ask(depth=typed)
        is_marked(check, "depth", "Please write this in m.")


def test_a_number_may_be_written_as_people_do(check):
    check.give(**EASY)
    for typed, value in {
        "12,5": 12.5, " 1 200 ": 1200, "−3": -3, ".5": 0.5, "16.": 16, "+16": 16, "16 ft": 16, "16ft.": 16,
        "16 pies": 16,
        "12 1/2": 12.5, "12½": 12.5, "½": 0.5,
        "5' 3/4\"": 5.0625, "5'6\"": 5.5, "5\u2032 6\u2033": 5.5, "5 ft 6 in": 5.5,
        "5' 6": 5.5,
        "5 feet 6 1/2 inches": 5 + 6.5 / 12, "-2 ft 6 in": -2.5, "12 1/8": 12.125,
    }.items():  # fmt: skip
        with check.page.expect_request("**/v1/suction-feasibility") as asked:
            check.ask(altitude=typed)
        assert asked.value.post_data_json["site"]["altitude"]["value"] == pytest.approx(value, abs=1e-6), typed


@pytest.mark.parametrize("typed", ["15/16", "-3/4", "3/4 ft", "15 / 16"])
def test_a_fraction_alone_is_one_of_inches_only(check, typed):
    """Elsewhere it may be fifteen to sixteen."""
    check.ask(**EASY | {"depth": typed})
    is_marked(check, "depth", "Please write a number in ft, such as 12.5.")
    check.give(depth="8")
    with check.page.expect_request("**/v1/suction-feasibility") as asked:
        check.ask(pipe="measured", bore="15/16")
    assert asked.value.post_data_json["line"][3]["bore"]["diameter"]["value"] == 0.9375


def test_a_temperature_may_come_with_any_sign_of_a_degree(check_on):
    metric = check_on('rated-lift="6.7 m" flow="11 L/min" units="metric"')
    for check, typed, value in [
        (metric, "11 ºC", 11),
        (metric, "11º", 11),
        (metric, "11°", 11),
        (check_on(), "52 ºF", 52),
    ]:
        with check.page.expect_request("**/v1/suction-feasibility") as asked:
            check.ask(**EASY | {"altitude": "150", "temperature": typed})
        assert asked.value.post_data_json["site"]["water_temperature"]["value"] == value
    metric.ask(depth="11°")
    is_marked(metric, "depth", "Please write a number in m, such as 12.5.")


def test_metres_are_written_as_in_spanish(check_on):
    check = check_on('rated-lift="6.7 m" flow="11 L/min" units="metric"', lang="es")
    with check.page.expect_request("**/v1/suction-feasibility") as asked:
        check.ask(**EASY | {"depth": "2,5 mts", "altitude": "1200 m.s.n.m."})
    body = asked.value.post_data_json
    assert (body["depth_to_water"]["value"], body["site"]["altitude"]["value"]) == (2.5, 1200)


def test_what_could_be_a_thousand_or_a_few_is_asked_back(check):
    """One sign with three digits behind it parts thousands to some readers and fractions to others."""
    check.give(**EASY)
    for typed, many, few in [("1,500", "1500", "1.5"), ("1.500", "1500", "1.5"), ("-20.125 ft", "-20125", "-20.1250")]:
        check.ask(altitude=typed)
        is_marked(check, "altitude", f"Is this {many}, or {few}? Please write it like one of the two.")
    for typed, many, few in [("8'000", "8000", "8"), ("1\u2019000", "1000", "1"), ("7\u2032005 ft", "7005", "7")]:
        check.ask(altitude=typed)
        is_marked(check, "altitude", f"Is this {many}, or {few}? Please write it like one of the two.")
    for typed, value in {"0.125": 0.125, "0,500": 0.5, "1.5000": 1.5, "1500.125": 1500.125}.items():
        with check.page.expect_request("**/v1/suction-feasibility") as asked:
            check.ask(altitude=typed)
        assert asked.value.post_data_json["site"]["altitude"]["value"] == value


def test_water_over_the_ground_is_refused_in_words(check):
    """A wrong yes else: who writes -16 means sixteen feet down."""
    asked = []
    check.page.on("request", lambda request: asked.append(request.url))
    for exit in ("unknown", "underground"):
        check.ask(**EASY | {"depth": "-16", "exit": exit})
        is_marked(
            check,
            "depth",
            "The water stands below the ground: please give a figure from 0 ft to 3,000 ft, without a minus sign. "
            "A well that flows by itself is not for this check.",
        )
        expect(check.error("reach")).to_be_hidden()
    assert asked == []


def test_where_the_pump_stands_is_not_taken_for_granted(check):
    check.ask(**EASY | {"side": "unset"})
    is_marked(check, "side", "Please choose.")
    expect(check.field("side")).to_be_focused()
    with check.page.expect_request("**/v1/suction-feasibility") as asked:
        check.ask(side="above")
    assert asked.value.post_data_json["pump"]["inlet_elevation"]["value"] == 5


REFUSED = [
    ("depth", "999999999", "from 0 ft to 3,000 ft"),
    ("pump", "-5", "above or below is chosen in the field before"),
    ("distance", "-30", "from 0 ft to 9,000 ft"),
    ("altitude", "40000", "from -1,600 ft to 16,400 ft"),
    ("fall", "-1", "from 0 ft to 300 ft"),
    ("drawdown", "-1", "from 0 ft to 300 ft"),
    ("reach", "-30", "from 0 ft to 3,000 ft"),
    ("temperature", "400", "from 32 °F to 140 °F"),
    ("elbows", "-2", "Please write a whole number from 0 to 100."),
    ("elbows", "2.5", "Please write a whole number, such as 3."),
    ("elbows", "2000", "Please write a whole number from 0 to 100."),
    ("elbows", "some", "Please write a whole number, such as 3."),
    ("elbows", "3 ft", "Please write a whole number, such as 3."),
    ("flow", "0", "from 0.1 gal/min to 200 gal/min"),
    ("rated-lift", "40", "from 0 ft to 32.8 ft"),
    ("tap", "5000", "from -900 ft to 900 ft"),
]


@pytest.mark.parametrize(("name", "value", "told"), REFUSED)
def test_what_cannot_be_is_told_at_its_field_and_asked_of_nobody(check, name, value, told):
    asked = []
    check.page.on("request", lambda request: asked.append(request.url))
    check.ask(**EASY | {name: value})
    is_marked(check, name, re.compile(re.escape(told)))
    expect(check.field(name)).to_be_focused()
    expect(check.element.locator("[aria-invalid=true]")).to_have_count(1)
    assert asked == []


def test_a_pipe_whose_bore_was_measured_in_another_unit_is_doubted(check, check_on):
    for bore in ("25", "0", "-1", "0.2"):
        check.ask(**EASY | {"pipe": "measured", "bore": bore})
        is_marked(check, "bore", "A pipe for a pump like this measures 0.25 in to 6 in inside. Is the figure in in?")
    metric = check_on('rated-lift="6.7 m" flow="11 L/min" units="metric"')
    metric.ask(pipe="measured", bore="1")
    is_marked(metric, "bore", "A pipe for a pump like this measures 6.3 mm to 150 mm inside. Is the figure in mm?")


def test_a_pipe_cannot_leave_the_well_below_its_own_end(check):
    check.ask(**EASY | {"depth": "2", "exit": "underground"}, reach="1", bury="4")
    is_marked(
        check, "bury", "The pipe cannot leave the well so deep: that is below its own lower end, or out of all use."
    )
    check.ask(bury="-4")
    is_marked(check, "bury", re.compile("cannot leave the well so deep"))


@pytest.mark.parametrize(("units", "low"), [("us", True), ("us", False), ("metric", True), ("metric", False)])
def test_the_service_takes_what_the_form_takes(check_on, units, low):
    """At either end of the form's ranges, of which the form itself tells."""
    check = check_on(f'units="{units}"')
    check.give(side="above", exit="underground", pipe="measured")
    fields = ["depth", "pump", "distance", "bore", "altitude", "fall", "drawdown", "reach", "temperature", "bury"]
    fields += ["flow", "rated-lift"]
    ends = {}
    for name in fields:
        check.ask(**{name: "99999999"})
        numbers = re.findall(r"-?\d[\d,.]*\d|\d", check.error(name).inner_text())
        told = numbers if name != "bury" else ["0", "0"]
        ends[name] = told[0 if low else 1].replace(",", "")
    with check.page.expect_response("**/v1/suction-feasibility") as response:
        check.ask(**ends | ({"reach": "5"} if low else {}))
    assert response.value.status == 200, response.value.text()


def test_a_refused_default_is_opened(check):
    check.give(**EASY, temperature="400")
    check.element.locator("details.assumptions").evaluate("details => details.open = false")
    check.button.click()
    is_marked(check, "temperature", re.compile("."))


def test_drops_that_the_service_refuses_are_told_at_the_watch(check):
    problem = {"detail": "no", "errors": [{"pointer": "/measurement/times/0", "detail": "too short for a stone"}]}
    check.reply_once("/v1/sounding", 422, problem)
    check.field("known").select_option("stone")
    check.watch.evaluate("button => { button.click(); setTimeout(() => button.click(), 700); }")
    expect(check.error("drops")).to_have_text("too short for a stone")
    expect(check.watch).to_be_focused()


def test_what_belongs_to_no_field_is_told_as_a_whole(check):
    problem = {"detail": "no", "errors": [{"pointer": "/limits", "detail": "cannot be told here"}]}
    check.reply_once("/v1/suction-feasibility", 422, problem)
    check.ask(**EASY)
    expect(check.status).to_have_text("The service could not work this out: cannot be told here")
    expect(check.result).to_be_hidden()


def test_what_the_service_alone_refuses_is_told_at_its_field(check):
    problem = {
        "detail": "no",
        "errors": [
            {"pointer": "/site/altitude", "detail": "8 ft is outside the range from 9 to 10 ft"},
            {"pointer": "/pump/inlet_elevation", "detail": "lies within the rock"},
        ],
    }
    check.reply_once("/v1/suction-feasibility", 422, problem)
    check.ask(**EASY)
    is_marked(check, "altitude", "The service does not take this figure: it lies too far from what is usual.")
    is_marked(check, "pump", "lies within the rock")
    expect(check.error("altitude").locator("[lang=en]")).to_have_count(0)
    expect(check.error("pump").locator("[lang=en]")).to_have_text("lies within the rock")


def test_a_refusal_takes_an_older_answer_away(check):
    check.answered(**EASY)
    check.ask(altitude="40000")
    is_marked(check, "altitude", re.compile("."))
    expect(check.verdict).to_have_count(0)
    expect(check.result).to_be_hidden()
