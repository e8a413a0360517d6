"""Answers as a notebook shows them, as rich prints them, and as rows for data frames."""

import io
import re
import subprocess
import sys
from itertools import combinations
from typing import Any
from xml.etree import ElementTree

import msgspec
import pytest
from rich.console import Console

from footvalve_client import (
    Caution,
    FrictionRequest,
    InputWarning,
    Length,
    Pressure,
    ProfileNode,
    SuctionFeasibilityAnswer,
    testing,
    to_dicts,
)
from footvalve_client._generated.endpoints import ENDPOINTS
from footvalve_client._outline import chance_told, told
from footvalve_client._profile_drawing import WIDTH, head_profile

SVG = "{http://www.w3.org/2000/svg}"

EXAMPLES = [(endpoint, example) for endpoint in ENDPOINTS for example in testing.examples(endpoint)]  # type: ignore[call-overload]
every_example = pytest.mark.parametrize(
    ("endpoint", "example"), EXAMPLES, ids=lambda given: given if isinstance(given, str) else given.name
)
SUCTION = [example.answer for example in testing.examples("suction-feasibility")]


def _replaced(answer: Any, **changes: Any) -> Any:
    return msgspec.structs.replace(answer, **changes)


def _parsed(html: str) -> ElementTree.Element:
    """What a parser of XML makes of it: every element is closed, every text escaped."""
    return ElementTree.fromstring(html)


def _text(html: str) -> str:
    return " ".join("".join(_parsed(html).itertext()).split())


@every_example
def test_every_answer_is_shown_whole(endpoint: str, example: Any) -> None:
    shown = _text(example.answer._repr_html_())
    assert endpoint.replace("-", " ").capitalize() in shown
    for text in [*(getattr(example.answer, "reasons", None) or []), *(c.text for c in example.answer.cautions)]:
        assert " ".join(text.split()) in shown
    verdict = getattr(example.answer, "verdict", None) or ""
    assert verdict in shown


def test_a_part_of_an_answer_and_a_table_are_shown_too() -> None:
    assert "line volume 2.594 gal" in re.sub(r" +", " ", _text(SUCTION[0].priming._repr_html_())).lower()
    table = testing.offline().table("valves")
    assert "spring-check" in _text(table._repr_html_())


def test_what_comes_from_the_service_is_escaped() -> None:
    wild = "<script>alert('x')</script> & \"more\""
    answer = _replaced(
        SUCTION[3],
        verdict=wild,
        reasons=[wild],
        cautions=[Caution(code=wild, severity=wild, text=wild)],  # type: ignore[arg-type]
        warnings=[InputWarning(pointer=wild, detail=wild)],
        profile=[_replaced(node, name=wild) for node in SUCTION[3].profile],
        tightest=_replaced(SUCTION[3].tightest, name=wild),
        levers=[_replaced(lever, change=wild) for lever in SUCTION[3].levers or ()],
    )
    html = answer._repr_html_()
    assert "<script" not in html
    assert wild in _text(html)


def test_the_page_keeps_its_own_colours() -> None:
    """Neither a background nor black or white letters: it is read on a light page as on a dark one."""
    for _, example in EXAMPLES:
        html = example.answer._repr_html_()
        assert "background" not in html
        assert not re.search(r"#(fff|000)|\b(black|white)\b(?=[;\"])", html)


def test_long_lists_are_cut_and_say_so() -> None:
    long = next(e.answer for _, e in EXAMPLES if len(getattr(e.answer, "state_of_charge", ())) > 60)
    assert f"and {len(long.state_of_charge) - 60} more" in _text(long._repr_html_())


def _svg(answer: SuctionFeasibilityAnswer) -> ElementTree.Element:
    return ElementTree.fromstring(head_profile(answer))


def test_a_plan_shows_the_profile_of_its_suction_line() -> None:
    answer = testing.examples("site-plan")[0].answer
    assert answer.suction_feasibility
    assert head_profile(answer.suction_feasibility) in answer._repr_html_()


def _many_places(number: int) -> SuctionFeasibilityAnswer:
    node = SUCTION[0].profile[-1]
    names = [f"a part with a name that is long enough to be cut somewhere, {place}" for place in range(number)]
    profile = [_replaced(SUCTION[0].profile[0]), *(_replaced(node, index=i, name=n) for i, n in enumerate(names))]
    made: SuctionFeasibilityAnswer = _replaced(SUCTION[0], profile=profile, tightest=profile[-1])
    return made


@pytest.mark.parametrize("answer", [*SUCTION, *map(_many_places, (1, 7, 30, 44, 45, 99))])
def test_no_label_lies_on_another_nor_beside_the_drawing(answer: SuctionFeasibilityAnswer) -> None:
    svg = _svg(answer)
    height = float(svg.attrib["viewBox"].split()[3])
    boxes = [_box(text) for text in svg.iter(f"{SVG}text")]
    for left, top, right, bottom, text in boxes:
        assert left >= 0, text
        assert top >= 0, text
        assert right <= WIDTH, text
        assert bottom <= height, text
    for one, other in combinations(boxes, 2):
        apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
        assert apart, f"{one[4]!r} lies on {other[4]!r}"


def _box(text: ElementTree.Element) -> tuple[float, float, float, float, str]:
    """Left, top, right, bottom and the text itself; a letter of a sans-serif is about 0.56 of its height wide."""
    size, letters = float(text.attrib["font-size"]), text.text or ""
    wide = 0.56 * size * len(letters) * (1.05 if text.attrib["font-weight"] == "bold" else 1)
    x, y = float(text.attrib["x"]), float(text.attrib["y"])
    left = x - {"start": 0, "middle": wide / 2, "end": wide}[text.attrib["text-anchor"]]
    return left, y - 0.75 * size, left + wide, y + 0.2 * size, letters


def _lines(svg: ElementTree.Element, colour: str, width: str) -> list[tuple[float, float]]:
    found = [line for line in svg.iter(f"{SVG}polyline") if line.attrib["stroke"] == colour]
    points = next(line.attrib["points"] for line in found if line.attrib["stroke-width"] == width)
    return [(float(x), float(y)) for x, y in (point.split(",") for point in points.split())]


def test_the_lines_are_drawn_to_scale() -> None:
    """One foot is one height: the axis' figures, the pipe and the boiling line tell the same."""
    answer = SUCTION[0]
    svg = _svg(answer)
    ticks = {
        float((t.text or "").replace("\u2212", "-")): float(t.attrib["y"]) - 4
        for t in svg.iter(f"{SVG}text")
        if t.attrib["text-anchor"] == "end"
    }
    (low, at_low), (high, at_high) = min(ticks.items()), max(ticks.items())
    feet = (at_low - at_high) / (high - low)

    def y(height: float) -> float:
        return at_low - (height - low) * feet

    end = answer.profile[-1]
    assert _lines(svg, "currentColor", "2.4")[-1][1] == pytest.approx(y(end.elevation.value), abs=0.2)
    limit = end.elevation.value + end.above_vapour.value
    assert _lines(svg, "#d64545", "1.6")[-1][1] == pytest.approx(y(limit), abs=0.2)
    level = end.elevation.value + end.gauge_pressure.value * 2.30666
    assert _lines(svg, "#2f7fd6", "1.8")[-1][1] == pytest.approx(y(level), abs=0.3)


def test_where_the_water_boils_the_place_is_red_and_the_caption_says_so() -> None:
    boils, sound = _svg(SUCTION[2]), _svg(SUCTION[0])
    red = [[c for c in svg.iter(f"{SVG}circle") if c.attrib["fill"] == "#d64545"] for svg in (boils, sound)]
    assert len(red[0]) == sum(node.above_vapour.value < 0 for node in SUCTION[2].profile) > 0
    assert red[1] == []
    assert "the water boils there" in "".join(boils.itertext())
    assert "infeasible" in boils.attrib["aria-label"]


def test_units_of_a_newer_service_leave_the_drawing_out() -> None:
    node = _replaced(SUCTION[0].profile[0], elevation=Length(1, "yd"))  # type: ignore[arg-type]
    assert "<svg" not in _replaced(SUCTION[0], profile=[node])._repr_html_()
    assert "<svg" not in _replaced(SUCTION[0], profile=[])._repr_html_()


def _printed(part: Any, **options: Any) -> str:
    written = io.StringIO()
    Console(file=written, width=100, **options).print(part)
    return written.getvalue()


@every_example
def test_rich_prints_every_answer(endpoint: str, example: Any) -> None:
    printed = _printed(example.answer)
    assert printed.startswith(endpoint.replace("-", " ").capitalize())
    assert all(len(line) <= 100 for line in printed.splitlines())


def test_rich_prints_tables_with_the_verdict_and_no_markup_of_others() -> None:
    wild = "[red]not markup[/red]"
    printed = _printed(_replaced(SUCTION[3], reasons=[wild]), force_terminal=True, color_system="truecolor")
    assert wild in printed
    assert "\x1b[1;33m~ marginal" in printed
    assert re.search(r"Index +Name +Elevation", re.sub(r"\x1b\[[\d;]*m", "", printed))


def test_rich_is_imported_by_nobody_else() -> None:
    script = "import sys, footvalve_client as f; f.Length(1, 'ft'); f.Priming(line_volume=f.Volume(1, 'gal'))"
    script += "._repr_html_(); print({'rich', 'yaml', 'asyncio', 'httpx'} & {*sys.modules})"
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert ran.stdout.strip() == "set()", ran.stderr


@pytest.mark.parametrize(
    ("value", "name", "expected"),
    [
        (0.25, "covers_fraction", "25 %"),
        (12345.6, "", "12346"),
        (0.0123456, "", "0.01235"),
        (True, "", "yes"),
        (Length(1.94123, "ft", 0.6234), "", "1.941 \u00b1 0.62 ft"),
        (Pressure(-3, "psi"), "", "-3 psi"),
    ],
)
def test_values_are_told_in_words(value: object, name: str, expected: str) -> None:
    assert told(value, name) == expected


@pytest.mark.parametrize(
    ("chance", "expected"),
    [(1.0, "over 99 %"), (0.999, "over 99 %"), (0.88, "88 %"), (0.004, "under 1 %"), (0.0, "under 1 %")],
)
def test_no_chance_is_told_as_sure(chance: float, expected: str) -> None:
    assert chance_told(chance) == expected


def test_an_answer_is_one_row_with_units_in_the_names() -> None:
    (row,) = SUCTION[0].to_dicts()
    assert row["verdict"] == "feasible"
    assert row["margin_ft"] == SUCTION[0].margin.value
    assert row["priming_line_volume_gal"] == SUCTION[0].priming.line_volume.value
    assert row["rule_of_thumb_agrees"] is True
    assert "profile" not in row
    assert SUCTION[1].to_dicts()[0]["margin_m"] == SUCTION[1].margin.value


def test_an_uncertainty_has_its_own_column() -> None:
    (row,) = _replaced(SUCTION[0], margin=Length(2, "ft", 0.5)).to_dicts()
    assert (row["margin_ft"], row["margin_ft_uncertainty"]) == (2, 0.5)
    assert "losses_ft_uncertainty" not in row


@every_example
def test_every_list_of_every_answer_gives_flat_rows(endpoint: str, example: Any) -> None:
    del endpoint
    for name in example.answer.__struct_fields__:
        value = getattr(example.answer, name)
        if isinstance(value, list):
            rows = example.answer.to_dicts(name)
            assert len(rows) == len(value)
            assert all(isinstance(cell, str | int | float) for row in rows for cell in row.values())
            assert all(column.isidentifier() for row in rows for column in row)


def test_the_rows_of_a_list_are_its_members() -> None:
    rows = SUCTION[0].to_dicts("profile")
    assert [row["name"] for row in rows] == [node.name for node in SUCTION[0].profile]
    assert rows[0] == {
        "name": "intake",
        "elevation_ft": SUCTION[0].profile[0].elevation.value,
        "absolute_pressure_psi": SUCTION[0].profile[0].absolute_pressure.value,
        "gauge_pressure_psi": SUCTION[0].profile[0].gauge_pressure.value,
        "above_vapour_ft": SUCTION[0].profile[0].above_vapour.value,
        "under_vacuum": False,
    }
    assert SUCTION[0].to_dicts("reasons")[0] == {"reasons": SUCTION[0].reasons[0]}


def test_a_path_leads_through_parts_and_lists() -> None:
    plan = testing.examples("site-plan")[0].answer
    assert plan.suction_feasibility
    assert plan.to_dicts("suction_feasibility.profile") == plan.suction_feasibility.to_dicts("profile")
    assert plan.to_dicts("duty.cut_in")[0]["flow_gal_per_min"] == plan.to_dicts()[0]["duty_cut_in_flow_gal_per_min"]
    pipes = testing.offline().table("pipes")
    sizes = pipes.to_dicts("rows.sizes")
    assert len(sizes) == sum(len(row.sizes) for row in pipes.rows)
    assert (sizes[0]["rows_product"], sizes[0]["nominal"]) == (pipes.rows[0].product, pipes.rows[0].sizes[0].nominal)


def test_what_was_left_out_has_no_rows() -> None:
    assert SUCTION[0].levers is None
    assert SUCTION[0].to_dicts("levers") == []


@pytest.mark.parametrize("path", ["profiles", "profile.pressure", "verdict.more", "", "profile.name.x"])
def test_a_path_to_nothing_is_told(path: str) -> None:
    if path:
        with pytest.raises(ValueError, match="has no '"):
            SUCTION[0].to_dicts(path)
    else:
        assert SUCTION[0].to_dicts(path) == SUCTION[0].to_dicts()


def test_many_answers_are_rows_under_one_another() -> None:
    rows = to_dicts(SUCTION)
    assert [row["answer"] for row in rows] == list(range(len(SUCTION)))
    assert [row["verdict"] for row in rows] == [answer.verdict for answer in SUCTION]
    nodes = to_dicts(SUCTION[:2], "profile")
    assert [row["answer"] for row in nodes] == [0] * len(SUCTION[0].profile) + [1] * len(SUCTION[1].profile)


def test_results_of_map_are_rows_and_a_refused_one_tells_why() -> None:
    bodies: list[Any] = [
        testing.examples("friction")[0].request,
        FrictionRequest(line=[]),
        {"flow": "none", "line": []},
    ]
    first, *refused = to_dicts(testing.offline().map("friction", bodies), "")
    assert first["answer"] == 0
    assert "total_head_loss_ft" in first
    assert [(row["answer"], sorted(row)) for row in refused] == [(1, ["answer", "error"]), (2, ["answer", "error"])]


def test_a_node_by_itself_is_a_row() -> None:
    node: ProfileNode = SUCTION[0].profile[1]
    assert node.to_dicts() == [SUCTION[0].to_dicts("profile")[1]]
