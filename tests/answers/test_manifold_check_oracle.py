"""`manifold-check` against every simple path of small random arrangements, and what must hold for all of them.

The oracle knows nothing of the graph library: it lists each way that passes no node twice, one by one.
"""

from collections.abc import Iterator
from itertools import chain, combinations, pairwise, permutations

import msgspec
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from footvalve.answers.manifold_check import manifold_check
from footvalve.contract.manifold_check import ManifoldCheckRequest

KINDS = [
    "pipe",
    "pipe",
    "check",
    "check",
    "shutoff",
    "shutoff",
    "pump",
    "pump",
    "pump",
    "tap",
    "strainer",
    "tank",
    "gauge",
    "relief",
]
HANGING = {"tap", "tank", "gauge", "relief"}
NODES = ["well", "a", "b", "c", "d", "house"]

some_examples = settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@st.composite
def arrangements(draw):
    """Up to twelve elements between six nodes, in one to three modes; most have a line from the well to the house."""
    line = ["well", *draw(st.lists(st.sampled_from(NODES[1:-1]), unique=True, max_size=3)), "house"]
    ends = list(pairwise(line)) if draw(st.integers(0, 4)) else [("a", "b")]
    for _ in range(draw(st.integers(0, 8))):
        start = draw(st.sampled_from(NODES))
        ends.append((start, draw(st.sampled_from([node for node in NODES if node != start]))))
    kinds = [draw(st.sampled_from(KINDS)) for _ in ends]
    kinds[draw(st.integers(0, len(line) - 2 if ends[0][0] == "well" else 0))] = "pump"
    elements = [draw(elements_between(f"e{place}", *of)) for place, of in enumerate(zip(kinds, ends, strict=True))]
    return {
        "nodes": NODES,
        "elements": elements,
        "source": "well",
        "house": "house",
        "modes": [draw(modes(elements, f"m{number}")) for number in range(draw(st.integers(1, 3)))],
    }


@st.composite
def elements_between(draw, name, kind, pair):
    start, end = pair
    item = {"id": name, "kind": kind, "from": start}
    if item["kind"] not in HANGING or draw(st.booleans()):
        item["to"] = end
    if item["kind"] == "pump" and draw(st.integers(0, 3)) == 0:
        item["blocks_when_idle"] = True
    return item


def modes(elements, name):
    def some_of(kind, least=0):
        ids = [item["id"] for item in elements if item["kind"] == kind]
        return (
            st.lists(st.sampled_from(ids), unique=True, min_size=least, max_size=2) | st.just([])
            if ids
            else st.just([])
        )

    running, closed, opened = some_of("pump", least=1), some_of("shutoff"), some_of("tap", least=1)
    return st.fixed_dictionaries({"name": st.just(name), "running": running, "closed": closed, "open": opened})


def ask(body):
    return manifold_check(msgspec.convert(body, ManifoldCheckRequest))


# The oracle. An edge is (element, start, end); a way is a tuple of edges.


def edges(body, mode, *, possible=False, stopped=False):
    """Every way of passing an element in a mode, by sure ways or by possible ones, or with its pumps stopped."""
    for item in body["elements"]:
        if "to" not in item or item["kind"] == "relief":
            continue
        there, back = (item["id"], item["from"], item["to"]), (item["id"], item["to"], item["from"])
        match item["kind"]:
            case "check":
                yield there
            case "tap":
                yield from [there] if item["id"] in mode["open"] else []
            case "shutoff":
                yield from [] if item["id"] in mode["closed"] else [there, back]
            case "pump" if item["id"] in mode["running"] and not stopped:
                yield there
            case "pump" if item.get("blocks_when_idle"):
                pass
            case "pump":
                yield from [there, back] if possible else [there]
            case _:
                yield from (there, back)


def simple_ways(passable, start, end, avoiding=frozenset()) -> Iterator[tuple]:
    """Every way from one node to another that passes no node twice, and none of some nodes; the empty one if they
    are the same."""
    passable = list(passable)

    def go_on(node, seen, way):
        if node == end:
            yield way
            return
        for edge in passable:
            if edge[1] == node and edge[2] not in seen:
                yield from go_on(edge[2], seen | {edge[2]}, (*way, edge))

    if start not in avoiding and end not in avoiding:
        yield from go_on(start, {start, *avoiding}, ())


def is_way(passable, start, end, avoiding=frozenset()):
    return next(simple_ways(passable, start, end, avoiding), None) is not None


def ids(way):
    return [edge[0] for edge in way]


def by_id(body):
    return {item["id"]: item for item in body["elements"]}


def delivering_ways(body, mode, avoiding=frozenset()):
    ways = simple_ways(edges(body, mode), "well", "house", avoiding)
    return [way for way in ways if set(mode["running"]) & set(ids(way))]


def fed(body, mode, pump):
    """The nodes that a pump's water gets to by sure ways; it may end in the well, but does not go on from there."""
    onward = [edge for edge in edges(body, mode) if edge[1] != "well"]
    return {node for node in NODES if is_way(onward, by_id(body)[pump]["to"], node)}


def loops(body, mode):
    possible = list(edges(body, mode, possible=True))
    for pump in mode["running"]:
        item = by_id(body)[pump]
        yield from ([pump, *ids(way)] for way in simple_ways(possible, item["to"], item["from"]))


def deadheads(body, mode):
    outlets = {"house", "well"}
    outlets |= {i["from"] for i in body["elements"] if i["kind"] == "relief" or i["id"] in mode["open"]}
    return {pump for pump in mode["running"] if not fed(body, mode, pump) & outlets}


def drains(body, mode):
    tanks = {item["from"] for item in body["elements"] if item["kind"] == "tank"} - {"well"}
    possible = list(edges(body, mode, possible=True, stopped=True))
    return [ids(way) for start in {"house"} | tanks for way in simple_ways(possible, start, "well")]


def ways_from_suction(body, mode, path):
    """Every way from the inlet of a running pump under vacuum back to the well, while the pumps stand still."""
    inlets = {by_id(body)[pump]["from"] for pump in mode["running"]} & under_vacuum(body, mode, path)
    still = list(edges(body, mode, possible=True, stopped=True))
    return [ids(way) for inlet in inlets for way in simple_ways(still, inlet, "well")]


def starved(body, mode):
    return {p for p in mode["running"] if not is_way(edges(body, mode), "well", by_id(body)[p]["from"])}


def under_vacuum(body, mode, path):
    """The nodes of the suction side, where the way that is told parts it from the pressure side."""
    elements, possible = by_id(body), list(edges(body, mode, possible=True))
    first = next((place for place, name in enumerate(path) if name in mode["running"]), len(path))
    pressed = {nodes_of(body, path)[place + 1] for place in range(first, len(path))}
    for pump in mode["running"]:
        inlet = elements[pump]["from"]
        pressed |= {node for node in fed(body, mode, pump) if not is_way(possible, node, inlet)}
    outside = frozenset(pressed | {"well"})
    inlets = {elements[pump]["from"] for pump in mode["running"]}
    return {node for node in NODES if any(is_way(possible, node, inlet, outside) for inlet in inlets)}


def air_taps(body, mode, path):
    return {tap for tap in mode["open"] if by_id(body)[tap]["from"] in under_vacuum(body, mode, path)}


def drawn_vessels(body, mode, path):
    """Tanks and relief valves under vacuum, where no pump's water comes round to them."""
    drawn = under_vacuum(body, mode, path).difference(*(fed(body, mode, pump) for pump in mode["running"]))
    tanks = {i["id"] for i in body["elements"] if i["kind"] == "tank" and {i["from"], i.get("to")} & drawn}
    return tanks | {i["id"] for i in body["elements"] if i["kind"] == "relief" and i["from"] in drawn}


def side_by_side(body, mode):
    """Running pumps whose water meets another's, and neither's reaches the other's inlet."""
    water = {pump: fed(body, mode, pump) - {"well"} for pump in mode["running"]}
    inlet = {pump: by_id(body)[pump]["from"] for pump in mode["running"]}
    pairs = [(p, q) for p, q in combinations(water, 2) if water[p] & water[q]]
    return set(chain.from_iterable((p, q) for p, q in pairs if inlet[q] not in water[p] and inlet[p] not in water[q]))


def told_of(answer, code, mode):
    """The elements of the findings of a code in a mode."""
    found = [finding for finding in answer.findings if finding.code == code and mode["name"] in finding.modes]
    return set(chain.from_iterable(finding.elements for finding in found))


def nodes_of(body, path):
    """The nodes of a way by its elements, from the well on."""
    nodes = ["well"]
    for name in path:
        item = by_id(body)[name]
        nodes.append(item["to"] if item["from"] == nodes[-1] else item["from"])
    return nodes


def region_of(body, pump):
    """The nodes that nothing but shutoff valves and the well parts from a pump."""
    item = by_id(body)[pump]
    nodes = {item["from"], item["to"]} - {"well"}
    while True:
        joined = {frozenset((i["from"], i["to"])) for i in body["elements"] if "to" in i and i["kind"] != "shutoff"}
        more = set(chain.from_iterable(pair - {"well"} for pair in joined if (pair - {"well"}) & nodes))
        if more <= nodes:
            return frozenset(nodes)
        nodes |= more


@some_examples
@given(arrangements())
def test_delivery_is_a_simple_way_through_a_running_pump_if_there_is_one(body):
    for mode, outcome in zip(body["modes"], ask(body).modes, strict=True):
        ways = [ids(way) for way in delivering_ways(body, mode)]
        assert outcome.delivers == bool(ways)
        assert outcome.path in (ways or [[]])


@st.composite
def tangles(draw):
    """A pump amid pipes that cross each other in whatever way."""
    pairs = [(one, two) for one, two in combinations(NODES, 2)]
    joined = draw(st.lists(st.sampled_from(pairs), unique=True, min_size=4, max_size=10))
    pipes = [{"id": f"k{n}", "kind": "pipe", "from": one, "to": two} for n, (one, two) in enumerate(joined)]
    inlet, outlet = draw(st.sampled_from(list(permutations(NODES, 2))))
    return {
        "nodes": NODES,
        "elements": [{"id": "p", "kind": "pump", "from": inlet, "to": outlet}, *pipes],
        "source": "well",
        "house": "house",
        "modes": [{"name": "one", "running": ["p"]}],
    }


@some_examples
@given(tangles())
def test_no_tangle_of_pipes_hides_a_way_or_feigns_one(body):
    mode = body["modes"][0] | {"closed": [], "open": []}
    ways = [ids(way) for way in delivering_ways(body, mode)]
    path = ask(body).modes[0].path
    assert path in (ways or [[]])
    assert not ways or len(path) == min(map(len, ways))


@some_examples
@given(arrangements())
def test_no_other_way_passes_fewer_stopped_pumps_or_as_many_in_fewer_elements(body):
    pumps = {item["id"] for item in body["elements"] if item["kind"] == "pump"}
    for mode, outcome in zip(body["modes"], ask(body).modes, strict=True):
        idle = pumps - set(mode["running"])
        costs = [(len(idle & set(way)), len(way)) for way in map(ids, delivering_ways(body, mode))]
        assert not costs or (len(idle & set(outcome.path)), len(outcome.path)) == min(costs)


@some_examples
@given(arrangements())
def test_loops_deadheads_and_ways_back_are_those_that_can_be_listed(body):
    for mode, outcome in zip(body["modes"], ask(body).modes, strict=True):
        listed = list(loops(body, mode))
        assert bool(outcome.recirculates) == bool(listed)
        assert outcome.recirculates in (listed or [[]])
        assert set(outcome.deadheads) == deadheads(body, mode)
        assert set(outcome.runs_dry) == starved(body, mode)
        back = drains(body, mode)
        assert bool(outcome.drains_back) == bool(back)
        assert outcome.drains_back in (back or [[]])


@some_examples
@given(arrangements())
def test_every_pump_that_sends_its_water_round_is_found(body):
    answer = ask(body)
    for mode in body["modes"]:
        told = {
            pump for f in answer.findings if f.code == "recirculation" for pump in f.elements if mode["name"] in f.modes
        }
        assert {loop[0] for loop in loops(body, mode)} <= told


@some_examples
@given(arrangements())
def test_air_enters_at_open_taps_of_the_suction_side(body):
    for mode, outcome in zip(body["modes"], ask(body).modes, strict=True):
        assert set(outcome.draws_air_at) == air_taps(body, mode, outcome.path)


@some_examples
@given(arrangements())
def test_a_prime_is_lost_by_a_way_that_can_be_listed_and_none_is_left_out(body):
    answer = ask(body)
    for mode, outcome in zip(body["modes"], answer.modes, strict=True):
        ways = ways_from_suction(body, mode, outcome.path)
        lost = [f.elements for f in answer.findings if f.code == "loses-prime" and mode["name"] in f.modes]
        assert all(way in ways for way in lost)
        assert not ways or lost or any(set(way) <= set(outcome.drains_back) for way in ways)


@some_examples
@given(arrangements())
def test_vessels_under_vacuum_and_pumps_side_by_side_are_those_that_can_be_listed(body):
    answer = ask(body)
    for mode, outcome in zip(body["modes"], answer.modes, strict=True):
        assert told_of(answer, "vessel-on-suction-side", mode) == drawn_vessels(body, mode, outcome.path)
        assert told_of(answer, "two-pumps-running", mode) == side_by_side(body, mode)
        assert starved(body, mode) <= told_of(answer, "starved-inlet", mode)


@some_examples
@given(arrangements())
def test_where_no_mode_serves_the_house_the_arrangement_is_wrong(body):
    answer = ask(body)
    assert answer.verdict == "wrong" or any(delivering_ways(body, mode) for mode in body["modes"])
    stands_still = not any(mode["running"] for mode in body["modes"])
    assert ("nothing-delivers" in {finding.code for finding in answer.findings}) == stands_still


@some_examples
@given(arrangements())
def test_a_pump_comes_out_where_the_house_is_served_past_all_that_no_valve_parts_from_it(body):
    for item in ask(body).isolates:
        region = region_of(body, item.pump)
        served = "house" not in region and any(delivering_ways(body, mode, region) for mode in body["modes"])
        assert item.isolates == served
        around = {i["id"] for i in body["elements"] if i["kind"] == "shutoff" and {i["from"], i["to"]} & region}
        assert set(item.by) == around


@some_examples
@given(arrangements())
def test_turning_the_checks_that_stand_the_wrong_way_serves_the_house_where_it_was_not(body):
    before = ask(body)
    for finding in before.findings:
        if finding.code == "check-turned-about":
            after = ask(turned(body, finding.elements))
            for was, outcome in zip(before.modes, after.modes, strict=True):
                assert outcome.delivers or not was.delivers
                told = {f.code for f in before.findings if was.name in f.modes}
                if was.name in finding.modes and not told & {"recirculation", "drain-back"}:
                    assert outcome.delivers


def turned(body, names):
    elements = [
        item | {"from": item["to"], "to": item["from"]} if item["id"] in names else item for item in body["elements"]
    ]
    return body | {"elements": elements}


@some_examples
@given(arrangements())
def test_a_check_where_one_is_missing_stops_no_mode(body):
    """The check goes to one side of the element, by a new node; which sense it has is in the text."""
    before = ask(body)
    for finding in (f for f in before.findings if f.code == "check-missing"):
        after = ask(with_check(body, finding))
        for was, outcome in zip(before.modes, after.modes, strict=True):
            assert outcome.delivers or not was.delivers


def with_check(body, finding):
    (name,) = finding.elements
    start = finding.text.split("from '")[1].split("'")[0]
    item = by_id(body)[name]
    check = {"id": "new check", "kind": "check"}
    if start == item["from"]:
        check, item = check | {"from": start, "to": "new"}, item | {"from": "new"}
    else:
        check, item = check | {"from": start, "to": "new"}, item | {"to": "new"}
    elements = [check, *(item if other["id"] == name else other for other in body["elements"])]
    return body | {"nodes": [*NODES, "new"], "elements": elements}


@some_examples
@given(arrangements(), st.permutations(NODES), st.randoms(use_true_random=False))
def test_other_names_and_another_order_change_nothing_but_names_and_ties(body, node_names, random):
    new_node = dict(zip(NODES, node_names, strict=True))
    order = list(body["elements"])
    random.shuffle(order)
    new_id = {item["id"]: f"x{place}" for place, item in enumerate(order)}
    other = {
        "nodes": random.sample(NODES, len(NODES)),
        "elements": [
            item
            | {"id": new_id[item["id"]], "from": new_node[item["from"]]}
            | ({"to": new_node[item["to"]]} if "to" in item else {})
            for item in order
        ],
        "source": new_node["well"],
        "house": new_node["house"],
        "modes": [
            mode | {field: [new_id[name] for name in mode[field]] for field in ("running", "closed", "open")}
            for mode in body["modes"]
        ],
    }
    first, second = ask(body), ask(other)
    for one, two in zip(first.modes, second.modes, strict=True):
        assert (one.delivers, len(one.path)) == (two.delivers, len(two.path))
        assert len(one.recirculates) == len(two.recirculates)
        assert len(one.drains_back) == len(two.drains_back)
        assert {new_id[pump] for pump in one.deadheads} == set(two.deadheads)
        assert {new_id[pump] for pump in one.runs_dry} == set(two.runs_dry)
    one = {new_id[item.pump]: (item.isolates, {new_id[valve] for valve in item.by}) for item in first.isolates}
    assert one == {item.pump: (item.isolates, set(item.by)) for item in second.isolates}
    untied = {"no-path", "nothing-delivers", "deadhead", "starved-inlet", "recirculation", "drain-back"}
    untied |= {"two-pumps-running", "pump-pressurizes-pump"}
    assert {f.code for f in first.findings} & untied == {f.code for f in second.findings} & untied


@some_examples
@given(arrangements())
def test_the_same_arrangement_by_other_names_in_the_same_order_has_the_same_answer(body):
    raw = msgspec.json.encode(body)
    for number in reversed(range(len(body["elements"]))):
        raw = raw.replace(f'"e{number}"'.encode(), f'"part {number}"'.encode())
    answer = ask(msgspec.json.decode(raw))
    renamed = msgspec.json.encode(ask(body))
    for number in reversed(range(len(body["elements"]))):
        renamed = renamed.replace(f'"e{number}"'.encode(), f'"part {number}"'.encode())
        renamed = renamed.replace(f"'e{number}'".encode(), f"'part {number}'".encode())
    assert msgspec.json.encode(answer) == renamed


@some_examples
@given(arrangements(), st.data())
def test_a_check_beside_an_element_in_the_sense_of_the_way_takes_no_delivery(body, data):
    answer = ask(body)
    told = [outcome for outcome in answer.modes if outcome.delivers]
    assume(told)
    path = data.draw(st.sampled_from(told)).path
    place = data.draw(st.integers(0, len(path) - 1))
    start, end = nodes_of(body, path)[place : place + 2]
    more = body | {"elements": [*body["elements"], {"id": "beside", "kind": "check", "from": start, "to": end}]}
    for before, after in zip(answer.modes, ask(more).modes, strict=True):
        assert after.delivers or not before.delivers


@some_examples
@given(arrangements())
def test_closing_a_valve_opens_no_way(body):
    answer = ask(body)
    valves = [item["id"] for item in body["elements"] if item["kind"] == "shutoff"]
    assume(valves)
    closed = [mode | {"closed": sorted({*mode["closed"], *valves})} for mode in body["modes"]]
    for before, after in zip(answer.modes, ask(body | {"modes": closed}).modes, strict=True):
        assert before.delivers or not after.delivers
        assert before.recirculates or not after.recirculates
        assert before.drains_back or not after.drains_back
        assert set(before.deadheads) <= set(after.deadheads)


@some_examples
@given(arrangements())
def test_every_finding_names_elements_that_are_there_and_ends_its_text(body):
    answer = ask(body)
    names, modes = set(by_id(body)), {mode["name"] for mode in body["modes"]}
    for finding in answer.findings:
        assert set(finding.elements) <= names
        assert set(finding.modes) <= modes
        assert finding.text.endswith(".")
        assert finding.text[0].isupper()
    worst = {"danger": "wrong", "warning": "doubtful"}
    graves = [finding.severity for finding in answer.findings]
    assert graves == sorted(graves, key=["danger", "warning", "note"].index)
    assert answer.verdict == worst.get(graves[0] if graves else "note", "right")
