"""The site sheet holds what its plan holds, asks for nothing from elsewhere, and cannot be broken out of."""

import re
from base64 import b64encode
from datetime import date
from hashlib import sha256
from html.parser import HTMLParser
from importlib.resources import files

import pytest
from msgspec import UNSET
from msgspec.structs import replace

from footvalve import __version__
from footvalve.drawings.figures import as_written, told
from footvalve.drawings.plan_profile import plan_profile
from footvalve.drawings.site_sheet import SURE_ENOUGH, sheet_policy, site_sheet, verdict_word

DAY = date(2031, 2, 3)
VOID = {"meta", "br", "hr", "img", "link", "input"}


class Page(HTMLParser):
    """A page with its elements and its text; an element that is not closed as it should be is a failure."""

    def __init__(self, markup):
        super().__init__(convert_charrefs=True)
        self.open, self.elements, self.pieces, self.styles, self.figures = [], [], [], [], []
        self.feed(markup)
        self.close()
        assert not self.open, f"not closed: {self.open}"

    def handle_starttag(self, tag, attributes):
        self.elements.append((tag, dict(attributes)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attributes):
        self.elements.append((tag, dict(attributes)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        (self.styles if self.open[-1:] == ["style"] else self.pieces).append(data)
        if {"svg", "table"} & set(self.open):
            self.figures.append(data)

    @property
    def text(self):
        return re.sub(r"\s+", " ", " ".join(self.pieces)).replace("\u00a0", " ")


def of_feet(value, **more):
    return {"value": value, "unit": "ft"} | more


def sheet(site):
    return site_sheet(site.request, site.answer, DAY)


@pytest.fixture
def page(plan):
    return Page(sheet(plan))


def flat(text):
    return re.sub(r"\s+", " ", as_written(text)).replace("\u00a0", " ")


def test_every_sentence_of_the_answer_is_on_the_sheet(plan, page):
    answer = plan.answer
    sentences = [*answer.summary[1:], *answer.to_do, *(lever.change for lever in answer.levers)]
    for sentence in [*sentences, *(warning.detail for warning in answer.warnings)]:
        assert flat(sentence) in page.text
    for caution in answer.cautions:
        assert caution.text in page.text
    for reason in answer.reasons:
        assert flat(reason)[1:] in page.text


def test_the_verdict_stands_in_words(plan, page):
    assert f"{verdict_word(plan.answer)}: {flat(plan.answer.summary[0].split(': ', 1)[1])}" in page.text


def test_the_margin_stands_with_its_uncertainty_and_the_verdict_with_its_chance(ask, example_of):
    body = example_of("site-plan", "us") | {"seasonal_fall": of_feet(2.5, uncertainty=0.6)}
    body |= {"policy": {"margin": of_feet(6)}}
    site = ask("site-plan", body)
    suction, text = site.answer.suction_feasibility, Page(sheet(site)).text
    assert 0.5 < suction.chance_feasible < 0.8
    assert f"chance that its suction side is feasible is {suction.chance_feasible:.0%}".replace("%", " %") in text
    assert f"chance of being feasible {suction.chance_feasible:.0%}".replace("%", " %") in text
    assert f"margin (6 ft asked) {suction.margin.value:.3g} ± {suction.margin.uncertainty:.2g} ft" in text
    assert "seasonal fall 2.5 ± 0.6 ft" in text


@pytest.mark.parametrize(("chance", "word"), [(0.899, "perhaps"), (0.9, "feasible"), (UNSET, "feasible")])
def test_a_yes_that_may_well_be_a_no_is_one_only_perhaps(ask, example_of, chance, word):
    site = ask("site-plan", example_of("site-plan", "us"))
    assert site.answer.verdict == "feasible"
    suction = replace(site.answer.suction_feasibility, chance_feasible=chance)
    text = Page(site_sheet(site.request, replace(site.answer, suction_feasibility=suction), DAY)).text
    assert f"Site sheet: {word} " in text
    assert f" {word}: nothing that was reckoned speaks against this plan" in text


def test_a_no_is_a_no_however_small_the_chance(ask, example_of):
    answer = ask("site-plan", example_of("site-plan", "us")).answer
    doubtful = replace(answer.suction_feasibility, chance_feasible=0.1)
    assert verdict_word(replace(answer, verdict="marginal", suction_feasibility=doubtful)) == "marginal"


@pytest.mark.parametrize("script", ["suction-check.js", "demo.js"])
def test_the_sheet_and_the_suction_check_call_the_same_chance_a_plain_yes(script):
    source = files("footvalve").joinpath("embed", script).read_text("utf-8")
    assert f"const SURE_ENOUGH = {SURE_ENOUGH};" in source


def test_what_is_sure_stands_without_a_chance(ask, example_of):
    body = example_of("site-plan", "us")
    del body["sounding"]
    text = Page(sheet(ask("site-plan", body | {"depth_to_water": of_feet(13)}))).text
    assert "chance" not in text
    assert "±" not in text


def test_each_caution_has_its_severity_in_words(plan, page):
    severities = [
        attributes["class"].split()[1] for tag, attributes in page.elements if tag == "span" and "class" in attributes
    ]
    assert severities == [caution.severity for caution in plan.answer.cautions]


def test_the_numbers_of_every_step_are_on_the_sheet(plan, page):
    answer = plan.answer
    quantities = [answer.duty.greatest_tank_pressure, answer.duty.charge_per_day]
    if (suction := answer.suction_feasibility) is not UNSET:
        quantities += [
            suction.npsh_available,
            suction.npsh_required,
            suction.margin,
            suction.static_lift,
            suction.losses,
        ]
    if answer.well_recovery is not UNSET:
        quantities += [answer.well_recovery.specific_capacity, answer.well_recovery.inflow_at_limit]
    if answer.friction is not UNSET:
        quantities += [answer.friction.total_head_loss]
    if answer.tank_cycle is not UNSET:
        quantities += [answer.tank_cycle.drawdown, answer.tank_cycle.precharge_advice.precharge]
    if (battery := answer.battery_runtime) is not UNSET:
        quantities += [battery.usable_charge, battery.water_per_charge, battery.daily_draw.charge]
    for quantity in quantities:
        assert quantity is UNSET or told(quantity).replace("\u00a0", " ") in page.text


def test_each_source_stands_once(plan, page):
    for source in {step.source for step in plan.answer.basis}:
        assert re.sub(r"\s+", " ", source) in page.text
    for material in plan.answer.materials:
        assert material.item in page.text


def test_a_step_that_left_its_range_says_so(plan, page):
    for step in plan.answer.basis:
        assert (f"{step.step} (outside its range, see the doubts)" in page.text) != step.within_range


def test_the_day_and_the_version_stand_on_it(page):
    assert f"2031-02-03 · Footvalve {__version__}" in page.text


def test_it_has_its_drawings(plan, page):
    drawn = [attributes["aria-labelledby"].split("-title")[0] for tag, attributes in page.elements if tag == "svg"]
    expected = ["head-profile"]
    expected += ["tank-cycle"] if plan.answer.tank_cycle is not UNSET else []
    expected += ["state-of-charge"] if plan.answer.battery_runtime is not UNSET else []
    assert drawn == expected


def test_no_identifier_stands_twice(page):
    identifiers = [attributes["id"] for _, attributes in page.elements if "id" in attributes]
    assert len(identifiers) == len(set(identifiers))


def test_nothing_is_asked_for_from_elsewhere_and_nothing_runs(plan, page):
    tags = {tag for tag, _ in page.elements}
    assert not tags & {"script", "link", "img", "iframe", "object", "embed", "form", "base", "a", "use", "image"}
    for _, attributes in page.elements:
        assert not attributes.keys() & {"href", "src", "xlink:href", "style", "action", "srcset"}
        assert not [name for name in attributes if name.startswith("on")]
    markup = sheet(plan).replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert not re.search(r"https?://|//[a-z]|@import", markup)
    assert set(re.findall(r"url\(([^)]*)\)", markup)) <= {
        f"#{drawing}-hatching" for drawing in ("head-profile", "tank-cycle", "state-of-charge")
    }


def test_the_policy_admits_its_style_and_nothing_else(page):
    (style,) = page.styles
    digest = b64encode(sha256(style.encode()).digest()).decode()
    assert f"style-src 'sha256-{digest}'" in sheet_policy()
    assert sheet_policy().startswith("default-src 'none'")
    assert "unsafe" not in sheet_policy()


def test_it_says_its_language_and_its_encoding(page):
    assert page.elements[0] == ("html", {"lang": "en"})
    assert ("meta", {"charset": "utf-8"}) in page.elements


@pytest.mark.parametrize(
    ("units", "own", "foreign"),
    [
        ("us", ("ft", "psi", "gal/min"), ("m", "bar", "L/min", "L")),
        ("metric", ("m", "bar", "L/min"), ("ft", "psi", "gal")),
    ],
)
def test_tables_and_drawings_speak_one_system_whatever_the_request_is_in(ask, example_of, units, own, foreign):
    for name in ("us", "metric-marginal"):
        words = set(
            re.split(
                "[\\s,()]+",
                " ".join(Page(sheet(ask("site-plan", example_of("site-plan", name) | {"units": units}))).figures),
            )
        )
        assert words >= set(own)
        assert not words & set(foreign)


def _gallons(value):
    return {"value": value, "unit": "gal/min"}


def named_nastily(body, nasty):
    """The body with every name a nasty one."""
    if isinstance(body, dict):
        return {
            key: f"{nasty[:60]}{len(value)}"
            if key == "name" and isinstance(value, str)
            else named_nastily(value, nasty)
            for key, value in body.items()
        }
    return [named_nastily(item, nasty) for item in body] if isinstance(body, list) else body


def test_names_cannot_break_out(ask, example_of, nasty, read):
    body = example_of("site-plan", "us")
    body.pop("manifold", None)
    body = named_nastily(body, nasty)
    site = ask("site-plan", body)
    markup = sheet(site)
    page = Page(markup)
    assert "<script" not in markup
    assert nasty[:60] in page.text
    assert not {tag for tag, _ in page.elements} & {"script"}
    assert read(plan_profile(site.request, site.answer)).root is not None


def test_a_plan_whose_pump_gives_nothing_has_a_sheet_that_says_so(ask, example_of, read):
    body = example_of("site-plan", "us")
    flows = ((0, 3), (10, 0))
    body["pump"]["points"] = [{"pressure": {"value": p, "unit": "psi"}, "flow": _gallons(q)} for p, q in flows]
    site = ask("site-plan", body)
    assert site.answer.suction_feasibility is UNSET
    assert "the pump gives no water" in Page(sheet(site)).text
    reading = read(plan_profile(site.request, site.answer))
    assert "gives no water" in reading.description


def test_a_long_line_lists_the_places_that_tell_most(ask, example_of):
    body = example_of("site-plan", "us")
    elbow = {"part": "fitting", "name": "one of many", "fitting": "elbow-90"}
    body["suction_line"] = [*body["suction_line"][:-1], *[elbow] * 30, body["suction_line"][-1]]
    site = ask("site-plan", body)
    page = Page(sheet(site))
    left_out = len(site.answer.suction_feasibility.profile) - 11
    assert f"without {left_out} places that tell less" in page.text
    for part in body["suction_line"]:
        assert part["name"] in page.text


def test_the_day_changes_the_sheet_and_nothing_else_does(plan):
    assert sheet(plan) == sheet(plan)
    assert sheet(plan).replace(DAY.isoformat(), "2032-01-01") == site_sheet(plan.request, plan.answer, date(2032, 1, 1))
