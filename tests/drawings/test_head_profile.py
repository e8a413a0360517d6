"""The head profile tells what its answer tells, of any line, and can be read."""

from itertools import accumulate, combinations

import pytest
from msgspec import UNSET

from footvalve.contract.line import Pipe
from footvalve.contract.quantities import Length
from footvalve.drawings.figures import told, told_alone
from footvalve.drawings.head_profile import head_profile
from footvalve.drawings.suction_way import stretches_that_boil, stretches_under_vacuum, suction_way


def drawn(site, **options):
    return head_profile(
        site.answer,
        site.request.line,
        resting_depth=site.request.depth_to_water,
        asked_margin=site.request.policy.margin,
        **options,
    )


@pytest.fixture
def reading(suction, read):
    return read(drawn(suction))


def test_all_of_it_lies_inside_the_drawing(reading):
    for x, y in reading.corners:
        assert 0 <= x <= reading.width
        assert 0 <= y <= reading.height


def test_no_label_lies_on_another(reading):
    """Two labels overlap by their estimated boxes: spread them, or let neighbours share one."""
    for one, other in combinations(reading.labels, 2):
        assert not one.lies_on(other), (one.text, other.text)


def test_no_number_lies_on_the_pump_or_on_the_pointer(reading, box):
    (pump,) = reading.of_role("pump")
    x, y, r = (float(pump.get(name)) for name in ("cx", "cy", "r"))
    (((px, top), (_, tip)),) = reading.points_of("tightest-pointer")
    obstacles = [box("", "", x - r, x + r, y - r, y + r), box("", "", px - 3.5, px + 3.5, top, tip)]
    for label in (label for label in reading.labels if label.role == "number"):
        assert not any(label.lies_on(obstacle) for obstacle in obstacles), label.text


def test_every_place_is_drawn_or_told_to_lie_below(suction, reading):
    marks = {int(role.removeprefix("place-")) for role in roles(reading) if role.startswith("place-")}
    places = set(range(len(suction.answer.profile)))
    hidden = places - marks
    assert hidden == set(range(len(hidden))), "only the beginning of the line may lie below the drawing"
    assert (not hidden) == (not reading.of_role("break"))
    assert places - {0} <= told_numbers(reading)


def roles(reading):
    return {element.get("class") for element in reading.root.iter() if element.get("class")}


def told_numbers(reading):
    """The numbers of the labels, ranges spelled out."""
    numbers = set()
    for label in reading.labels:
        if label.role == "number":
            ends = [
                int(word) for word in label.text.removeprefix("intake and ").split()[0].split("–") if word.isdigit()
            ]
            numbers |= set(range(ends[0], ends[-1] + 1)) if ends else set()
    return numbers


def test_what_is_hidden_lies_deep_and_under_pressure(suction, reading):
    marks = {role for role in roles(reading) if role.startswith("place-")}
    for number, node in enumerate(suction.answer.profile):
        if f"place-{number}" not in marks:
            assert not node.under_vacuum
            assert node.elevation.value < -suction.answer.pumping_depth.value


def test_places_go_along_the_line_to_scale(suction, reading):
    """Equal lengths of pipe are equally long in the drawing."""
    lengths = [part.length.base if isinstance(part, Pipe) else 0.0 for part in suction.request.line]
    ways = list(accumulate(lengths, initial=0.0))
    circles = {number: reading.of_role(f"place-{number}") for number in range(len(ways))}
    shown = {number: float(circle[0].get("cx")) for number, circle in circles.items() if circle}
    first, last = min(shown), max(shown)
    scale = (shown[last] - shown[first]) / (ways[last] - ways[first])
    for number, x in shown.items():
        assert x == pytest.approx(shown[first] + (ways[number] - ways[first]) * scale, abs=0.11)


def test_stretches_under_vacuum_are_those_of_the_answer(suction):
    places = suction_way(suction.answer, suction.request.line)
    stretches = stretches_under_vacuum(places)
    for place, node in zip(places, suction.answer.profile, strict=True):
        inside = any(stretch.pipe[0][0] <= place.way <= stretch.pipe[-1][0] for stretch in stretches)
        if node.under_vacuum:
            assert inside
        elif inside:
            ends = {way for stretch in stretches for way in (stretch.pipe[0][0], stretch.pipe[-1][0])}
            assert place.way in ends, "a place under pressure can only touch a stretch at its end"


def test_stretches_under_vacuum_are_hatched_and_thick(suction, reading):
    count = len(stretches_under_vacuum(suction_way(suction.answer, suction.request.line)))
    assert len(reading.of_role("vacuum-area")) == len(reading.of_role("under-vacuum")) == count
    for area in reading.of_role("vacuum-area"):
        assert area.get("fill") == "url(#head-profile-hatching)"


def test_what_boils_is_marked(suction, reading):
    boils = suction.answer.tightest.above_vapour.value < 0
    assert bool(stretches_that_boil(suction_way(suction.answer, suction.request.line))) == boils
    assert bool(reading.of_role("boils")) == boils


def test_the_tightest_place_is_named_and_pointed_at(suction, reading):
    tightest = suction.answer.tightest
    number = 0 if tightest.index is UNSET else tightest.index + 1
    (label,) = (label for label in reading.labels if label.role == "tightest")
    assert f"({number})" in label.text
    assert told(Length(abs(tightest.above_vapour.value), tightest.above_vapour.unit)) in label.text
    (pointer,) = reading.points_of("tightest-pointer")
    (mark,) = reading.of_role(f"place-{number}")
    assert pointer[0][0] == pointer[1][0] == float(mark.get("cx"))


def test_the_levels_are_named_with_their_numbers(suction, reading):
    text = " | ".join(label.text for label in reading.labels)
    answer = suction.answer
    for told_so in (
        f"margin {told(answer.margin)}",
        f"pump needs {told_alone(answer.npsh_required)}",
        "ground 0",
        "water at rest",
        "pumping level",
        "pump inlet",
        "hydraulic level",
        "vapour limit",
        "margin asked",
    ):
        assert told_so in text


def test_the_gauge_shows_what_the_pump_lacks(suction, reading):
    lacks = suction.answer.margin.value < 0
    assert bool(reading.of_role("need-not-met")) == lacks
    assert bool(reading.of_role("to-spare")) != lacks


def test_the_text_alternative_has_verdict_and_numbers(suction, reading):
    answer = suction.answer
    assert reading.root.get("role") == "img"
    identifiers = reading.root.get("aria-labelledby").split()
    assert [reading.root.find(f".//*[@id='{identifier}']").text for identifier in identifiers] == [
        reading.title,
        reading.description,
    ]
    assert answer.verdict in reading.title
    for quantity in (answer.margin, answer.npsh_available, answer.npsh_required, answer.pumping_depth):
        assert told(quantity) in reading.title + reading.description
    assert ("Under vacuum" in reading.description) == any(node.under_vacuum for node in answer.profile)


def test_it_speaks_the_units_of_the_answer(suction, reading):
    axis = {label.text for label in reading.labels}
    assert f"elevation, {suction.answer.margin.unit}" in axis


def test_what_is_unsure_is_told_with_its_uncertainty_and_its_chance(ask, example_of, read):
    depth = {"value": 15.4, "unit": "ft", "uncertainty": 1.25}
    site = ask("suction-feasibility", example_of("suction-feasibility", "us") | {"depth_to_water": depth})
    answer, reading = site.answer, read(drawn(site))
    margin = f"margin {answer.margin.value:.3g} ± {answer.margin.uncertainty:.2g} ft"
    assert margin in [label.text.replace("\u00a0", " ") for label in reading.labels]
    title = reading.title.replace("\u00a0", " ")
    assert 0.1 < answer.chance_feasible < 0.9
    assert (
        title
        == f"Head profile: {answer.verdict}, {margin}, chance of being feasible {answer.chance_feasible * 100:.0f} %"
    )


def test_without_a_key_no_part_is_named_but_the_tightest(suction, read):
    assert not [label for label in read(drawn(suction, keyed=False)).labels if label.role == "key"]


def test_the_key_names_every_part(suction, reading):
    keys = [label.text for label in reading.labels if label.role == "key"]
    assert [int(key.split()[0]) for key in keys] == list(range(1, len(suction.request.line) + 1))


def test_a_line_of_a_thousand_parts_is_drawn_and_its_key_says_what_it_leaves_out(ask, example_of, read):
    body = example_of("suction-feasibility", "us")
    size = {"product": "pe-sidr-15", "nominal": "1"}
    body["line"] = [
        {"part": "pipe", "size": size, "length": {"value": 1, "unit": "ft"}}
        if number % 2 == 0
        else {"part": "fitting", "fitting": "coupling"}
        for number in range(1000)
    ]
    reading = read(drawn(ask("suction-feasibility", body)))
    test_no_label_lies_on_another(reading)
    test_all_of_it_lies_inside_the_drawing(reading)
    keys = [label.text for label in reading.labels if label.role == "key"]
    assert keys[-1] == f"and {1000 - len(keys) + 1} more parts"
    assert told_numbers(reading) == set(range(1, 1001))


def test_the_hydraulic_level_begins_at_the_pumping_level(ask, example_of):
    """A place with its gauge head is as high as the water that feeds it, but for what is lost on the way."""
    site = ask("suction-feasibility", example_of("suction-feasibility", "us"))
    first, *_, last = suction_way(site.answer, site.request.line)
    pumping = -site.answer.pumping_depth.value
    assert first.hydraulic_level == pytest.approx(pumping, abs=0.05)
    assert last.hydraulic_level == pytest.approx(pumping - site.answer.losses.value, abs=0.1)


def test_warm_water_is_lighter(ask, example_of):
    """At 80 degC the heads belong to water of 972 kg/m^3, not to that of a conventional column."""
    body = example_of("suction-feasibility", "us")
    body["site"]["water_temperature"] = {"value": 80, "unit": "degC"}
    site = ask("suction-feasibility", body)
    first = suction_way(site.answer, site.request.line)[0]
    assert first.hydraulic_level == pytest.approx(-site.answer.pumping_depth.value, abs=0.05)
