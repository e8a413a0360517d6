"""What is assumed is stated, can be opened, and goes to the service as it stands there."""

import re

import pytest
from playwright.sync_api import expect

from .suction_check import EASY

ASKED = "**/v1/suction-feasibility"


def body_of(check, **values):
    with check.page.expect_request(ASKED) as asked:
        check.ask(**values)
    return asked.value.post_data_json


def test_the_assumptions_are_closed_and_can_be_opened(check):
    expect(check.field("reach")).to_be_hidden()
    check.element.get_by_text("What we assume").click()
    stated = {name: check.field(name).input_value() for name in ("fall", "drawdown", "reach", "temperature", "elbows")}
    assert stated == {"fall": "3", "drawdown": "2", "reach": "20", "temperature": "52", "elbows": "3"}
    for name in stated:
        expect(check.field(name)).to_be_visible()


def test_what_is_stated_is_what_is_asked(check):
    body = body_of(check, **EASY)
    assert body["seasonal_fall"] == {"value": 3, "unit": "ft", "uncertainty": 1.5}
    assert body["drawdown"] == {"value": 2, "unit": "ft", "uncertainty": 1}
    assert body["site"]["water_temperature"] == {"value": 52, "unit": "degF", "uncertainty": 6}
    assert body["depth_to_water"] == {"value": 8, "unit": "ft", "uncertainty": 2}
    assert body["pump"]["inlet_elevation"] == {"value": -5, "unit": "ft", "uncertainty": 1}
    drop_pipe = body["line"][3]
    assert drop_pipe["length"] == {"value": 8 + 20 + 1, "unit": "ft", "uncertainty": 8}
    assert [part["part"] for part in body["line"]] == [
        "fitting", "idle-pump", "valve", "pipe", "fitting", "pipe", "fitting", "strainer", "pipe"
    ]  # fmt: skip


def test_what_is_changed_is_what_is_asked(check):
    body = body_of(
        check, **EASY | {"drawdown": "5", "drawdown-sure": "0", "filter": "no", "elbows": "0", "side": "above"}
    )
    assert body["drawdown"] == {"value": 5, "unit": "ft", "uncertainty": 0.1}
    assert body["pump"]["inlet_elevation"]["value"] == 5
    assert not any(part["part"] == "strainer" for part in body["line"])
    assert not any(part.get("name") == "elbows" for part in body["line"])


def test_a_pump_right_at_the_well_has_no_line_along_the_ground(check):
    line = body_of(check, **EASY | {"distance": "0", "elbows": "0"})["line"]
    assert [part["name"] for part in line if part["part"] == "pipe"] == ["pipe in the well", "last pipe to the pump"]
    expect(check.verdict).to_be_visible()


def test_a_foot_valve_takes_the_place_of_the_old_pump(check):
    line = body_of(check, **EASY, lower_end="foot")["line"]
    assert line[0] == {"part": "valve", "name": "foot valve", "valve": "foot-valve-hinged"}
    assert not any(part["part"] == "idle-pump" for part in line)


def test_a_field_is_shown_with_the_choice_that_it_belongs_to(check):
    check.open_assumptions()
    for choice, value, field in [
        ("known", "stone", "top"), ("pipe", "measured", "bore"), ("exit", "underground", "bury")
    ]:  # fmt: skip
        expect(check.field(field)).to_be_hidden()
        check.field(choice).select_option(value)
        expect(check.field(field)).to_be_visible()


def test_a_pipe_that_is_measured_is_asked_with_its_doubt(check):
    line = body_of(check, **EASY | {"pipe": "measured"}, bore="1.1")["line"]
    assert line[3]["bore"]["diameter"]["value"] == 1.1
    assert line[3]["bore"]["diameter"]["uncertainty"] == pytest.approx(0.06 * 2**0.5)


def test_what_the_parts_take_grows_with_the_flow(check_on):
    """Their drops are those at the flow of the page, or at a usual one, whatever flow is typed."""
    for attributes, unit, told in [
        ('rated-lift="22 ft" flow="4 gal/min"', "gal/min", 4),
        ('rated-lift="22 ft"', "gal/min", 3),
        ('rated-lift="6.7 m" units="metric"', "L/min", 12),
    ]:
        check = check_on(attributes)
        line = body_of(check, **EASY | {"flow": "8"})["line"]
        pump, strainer = (next(part for part in line if part["part"] == name) for name in ("idle-pump", "strainer"))
        assert pump["flow"] == strainer["rated_flow"] == {"value": told, "unit": unit}
        expect(check.element.locator("#filter-hint")).to_contain_text(f"at {told} {unit}.")


def test_more_flow_than_may_be_drawn_is_no_yes(check):
    site = EASY | {"reach": "40", "depth-sure": "0"}
    check.answered(**site)
    told = check.result.get_by_text("may be drawn").inner_text()
    most = float(re.search(r"up to ([\d.]+) gal/min", told)[1])
    check.answered(flow=str(round(most * 1.1, 2)))
    expect(check.verdict).to_contain_text("Doubtful")


@pytest.mark.parametrize("distance", ["20", "60", "100"])
def test_a_pipe_that_nobody_knows_gives_no_plain_yes(check, distance):
    """The narrowest that can be chosen would turn it."""
    site = EASY | {"reach": "40", "depth-sure": "0", "fall-sure": "0", "distance": distance}
    check.answered(**site | {"pipe": "pex-sdr-9 3/4"})
    expect(check.verdict).not_to_contain_text("Yes")
    check.answered(pipe="unknown")
    expect(check.verdict).to_contain_text("Perhaps")
    expect(check.status).to_contain_text("hangs most on one figure: “The pipe”")


def test_every_field_says_how_to_find_it(check):
    """The two choices without a hint say it themselves."""
    without = [
        field.get_attribute("data-name")
        for field in check.element.locator(".field").all()
        if not field.locator(".hint").count()
    ]
    assert without == ["known", "side"]
