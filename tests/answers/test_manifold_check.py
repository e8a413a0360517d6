"""What `manifold-check` answers, warns of and refuses, each against an arrangement that was followed by hand.

In the drawings water runs to the right. `-(P)-` is a pump, `-|>-` a check valve that passes to the right and `-<|-` one
that passes to the left, `-x-` a shutoff valve, `T` a tap, `O` a tank, `R` a relief valve.
"""

import time
from copy import deepcopy

import msgspec
import pytest

from footvalve.answers.manifold_check import manifold_check
from footvalve.contract.examples import examples
from footvalve.contract.manifold_check import MOST_ELEMENTS, MOST_MODES, Isolation, ManifoldCheckRequest
from footvalve.contract.problem import Refused

EXAMPLES = {example.name: example.request for example in examples("manifold-check")}


def element(line):
    """An element of a line such as `check c1 a>b`, or `tap t1 a` for what hangs on a node."""
    kind, name, ends = line.split()
    start, _, end = ends.partition(">")
    return {"id": name, "kind": kind, "from": start} | ({"to": end} if end else {})


def mode(name="mode", running=(), closed=(), opened=()):
    return {"name": name, "running": list(running), "closed": list(closed), "open": list(opened)}


def body(*lines, modes, **more):
    elements = [element(line) for line in lines]
    ends = [end for item in elements for end in (item["from"], item.get("to")) if end]
    nodes = list(dict.fromkeys(["well", "house", *ends]))
    return {"nodes": nodes, "elements": elements, "source": "well", "house": "house", "modes": modes} | more


def ask(request):
    return manifold_check(msgspec.convert(request, ManifoldCheckRequest))


def check(*lines, modes, **more):
    return ask(body(*lines, modes=modes, **more))


def the_mode(*lines, **setting):
    """The outcome of one mode in which pump `p` runs, unless the setting says otherwise."""
    return check(*lines, modes=[mode(**{"running": ["p"]} | setting)]).modes[0]


def codes(answer):
    return [finding.code for finding in answer.findings]


def found(answer, code):
    return next(finding for finding in answer.findings if finding.code == code)


def faults(request):
    with pytest.raises(Refused) as refused:
        ask(request)
    return {fault.pointer: fault.detail for fault in refused.value.faults}


class TestExamples:
    """One arrangement three times: a booster past an idle well pump, and a check valve between the two tees.

                                  .---------|>----------.   line check
    well -(P)- . -|>- wellhead -x-+ first tee           + second tee - tank tee - house
         pump   well check   main '-x- . -(booster)- . -x'             O  R  T
    """

    def test_the_right_one_serves_the_house_in_both_modes_and_has_no_finding(self):
        answer = ask(EXAMPLES["right"])
        up, down = answer.modes
        trunk = ["well pump", "well check", "main valve"]
        assert up.path == [*trunk, "line check", "riser", "house filter"]
        assert down.path == [
            *trunk,
            "booster inlet valve",
            "booster",
            "booster outlet valve",
            "riser",
            "house filter",
        ]
        for outcome in answer.modes:
            assert outcome.delivers
            rest = (outcome.recirculates, outcome.deadheads, outcome.runs_dry, outcome.drains_back)
            assert (*rest, outcome.draws_air_at) == ([], [], [], [], [])
        assert (answer.verdict, answer.findings, answer.warnings) == ("right", [], [])

    def test_the_booster_comes_out_between_its_valves_but_the_well_pump_does_not(self):
        """The booster draws through the well pump, so that without the well pump there is no water at all."""
        well_pump, booster = ask(EXAMPLES["right"]).isolates
        assert (well_pump.pump, well_pump.isolates, well_pump.by) == ("well pump", False, ["main valve"])
        assert (booster.pump, booster.isolates) == ("booster", True)
        assert booster.by == ["booster inlet valve", "booster outlet valve"]

    def test_without_the_line_check_the_boosters_water_goes_round(self):
        answer = ask(EXAMPLES["check-missing"])
        loop = ["booster", "booster outlet valve", "bypass", "booster inlet valve"]
        assert [outcome.recirculates for outcome in answer.modes] == [[], loop]
        assert codes(answer) == ["check-missing", "recirculation"]
        missing = found(answer, "check-missing")
        assert (missing.elements, missing.modes) == (["bypass"], ["grid-down"])
        assert "passes only from 'first tee' to 'second tee'" in missing.text
        assert answer.verdict == "wrong"

    def test_turned_about_it_stops_the_well_pump_and_lets_the_booster_go_round(self):
        answer = ask(EXAMPLES["check-turned-about"])
        up, down = answer.modes
        assert (up.delivers, up.path, up.deadheads) == (False, [], ["well pump"])
        assert down.recirculates == ["booster", "booster outlet valve", "line check", "booster inlet valve"]
        assert codes(answer) == ["no-path", "check-turned-about", "recirculation", "deadhead"]
        turned = found(answer, "check-turned-about")
        assert (turned.elements, turned.modes) == (["line check"], ["grid-up", "grid-down"])
        assert found(answer, "no-path").elements == ["line check", "booster inlet valve"]

    def test_doing_what_the_findings_say_makes_both_right(self):
        missing, turned = deepcopy(EXAMPLES["check-missing"]), deepcopy(EXAMPLES["check-turned-about"])
        next(item for item in missing["elements"] if item["id"] == "bypass")["kind"] = "check"
        line_check = next(item for item in turned["elements"] if item["id"] == "line check")
        line_check["from"], line_check["to"] = line_check["to"], line_check["from"]
        assert ask(missing).findings == ask(turned).findings == []

    @pytest.mark.parametrize("name", EXAMPLES)
    def test_cautions_are_for_two_pumps_one_of_them_on_the_mains(self, name):
        assert {"two-pumps", "mains-electricity"} <= {caution.code for caution in ask(EXAMPLES[name]).cautions}


class TestDelivery:
    def test_a_pump_on_the_way_delivers(self):
        """well -(p)- a - house"""
        outcome = the_mode("pump p well>a", "pipe k a>house")
        assert (outcome.delivers, outcome.path) == (True, ["p", "k"])

    def test_pipes_strainers_and_shutoff_valves_pass_both_ways(self):
        """well -(p)- a - b - c -x- house, with everything but the pump drawn from right to left"""
        outcome = the_mode("pump p well>a", "pipe k b>a", "strainer s c>b", "shutoff x house>c")
        assert outcome.path == ["p", "k", "s", "x"]

    def test_a_stopped_pump_is_drawn_through(self):
        """well -(idle)- a -(p)- house"""
        assert the_mode("pump idle well>a", "pump p a>house").path == ["idle", "p"]

    def test_but_not_one_that_blocks_when_idle(self):
        """well -(idle)- a -(p)- house"""
        request = body("pump idle well>a", "pump p a>house", modes=[mode(running=["p"])])
        request["elements"][0]["blocks_when_idle"] = True
        answer = ask(request)
        assert not answer.modes[0].delivers
        assert found(answer, "no-path").elements == ["idle"]

    def test_nor_is_it_counted_on_that_water_gets_through_a_stopped_pump_backwards(self):
        """well -(idle, drawn from house to well)- a -(p)- house"""
        assert not the_mode("pump idle a>well", "pump p a>house").delivers

    def test_a_way_round_a_stopped_pump_is_told_rather_than_one_through_it(self):
        """
        well -(p)- a -(idle)- house
                   '- b - c --'
        """
        outcome = the_mode("pump p well>a", "pump idle a>house", "pipe k a>b", "pipe l b>c", "pipe m c>house")
        assert outcome.path == ["p", "k", "l", "m"]

    def test_without_a_running_pump_on_the_way_nothing_is_lifted(self):
        """well - a - house, and (p) stands aside: a -(p)- b"""
        answer = check("pipe k well>a", "pipe l a>house", "pump p a>b", modes=[mode(running=["p"])])
        assert not answer.modes[0].delivers
        assert "cannot lift water along it" in found(answer, "no-path").text

    def test_a_pump_that_only_sends_water_round_beside_the_way_does_not_serve_the_house(self):
        """
        well - a - house     What comes back to `a` has lost what the pump gave it.
               |`- b -(p)- c -.
               '---------------'
        """
        lines = ("pipe k well>a", "pipe l a>house", "pipe m a>b", "pump p b>c", "pipe n c>a")
        outcome = the_mode(*lines)
        assert not outcome.delivers
        assert outcome.recirculates == ["p", "n", "m"]

    def test_crossing_ways_that_share_a_node_do_not_serve_the_house(self):
        """
        well ---- v    A square whose corners are all joined to its middle; (p) draws at u and presses into v.
         |  \\ /  |    From the well to u, past v and the house, the way goes through the middle; and so does the
         |  mid  |    way from v to the house, past the well and u.
         |  / \\  |
        house --- u
        """
        lines = ("pump p u>v", "pipe a well>v", "pipe b u>house", "pipe c house>well")
        spokes = ("pipe i well>mid", "pipe j v>mid", "pipe k u>mid", "pipe l house>mid")
        assert not the_mode(*lines, *spokes).delivers

    def test_of_two_ways_to_the_pump_the_one_that_leaves_its_way_out_free_is_found(self):
        """
                 .-------- j ------- house      The shortest way in and the way out both need j. The way in by k and l
        well ----'        /| `--.               leaves it free.
             `- k - l -- u -(p)- v
        """
        lines = ("pipe a well>j", "pipe b j>u", "pump p u>v", "pipe c v>j", "pipe d j>house")
        assert not the_mode(*lines).delivers
        outcome = the_mode(*lines, "pipe e well>k", "pipe f k>l", "pipe g l>u")
        assert outcome.path == ["e", "f", "g", "p", "c", "d"]

    def test_an_open_tap_passes_water_to_the_node_behind_it_and_to_nowhere_else(self):
        """well -(p)- a -T- house"""
        lines = ("pump p well>a", "tap t a>house")
        assert the_mode(*lines, opened=["t"]).path == ["p", "t"]
        assert not the_mode(*lines).delivers
        assert not the_mode("pump p well>a", "tap t house>a", opened=["t"]).delivers

    def test_tanks_and_gauges_with_a_node_behind_them_stand_in_the_line(self):
        """well -(p)- a -O- b -gauge- house"""
        assert the_mode("pump p well>a", "tank o b>a", "gauge g b>house").path == ["p", "o", "g"]

    def test_a_relief_valve_is_no_way_to_the_house(self):
        """well -(p)- a -R- house"""
        answer = check("pump p well>a", "relief r a>house", modes=[mode(running=["p"])])
        assert (answer.modes[0].delivers, answer.modes[0].deadheads) == (False, [])

    def test_a_closed_shutoff_valve_is_named_with_what_to_do(self):
        """well -(p)- a -x- house"""
        finding = found(
            check("pump p well>a", "shutoff x a>house", modes=[mode(running=["p"], closed=["x"])]), "no-path"
        )
        assert finding.elements == ["x"]
        assert "The shutoff valve 'x' is closed: open it." in finding.text
        assert (finding.severity, finding.modes) == ("danger", ["mode"])

    def test_where_nothing_joins_the_pieces_it_is_said_where_the_water_stops(self):
        """well -(p)- a - b        c - house"""
        answer = check("pump p well>a", "pipe k a>b", "pipe l c>house", modes=[mode(running=["p"])])
        assert "Nothing leads on" in found(answer, "no-path").text
        assert found(answer, "unreachable").elements == ["l"]

    def test_a_mode_in_which_no_pump_runs_is_a_note(self):
        """well -(p)- house"""
        answer = check("pump p well>house", modes=[mode(running=[])])
        assert (answer.modes[0].delivers, found(answer, "no-path").severity) == (False, "note")

    def test_a_manifold_in_no_mode_of_which_a_pump_runs_is_wrong(self):
        """well -|>- a -(p)- z - house"""
        lines = ("check c well>a", "pump p a>z", "pipe k z>house")
        answer = check(*lines, modes=[mode("off")])
        assert (answer.verdict, found(answer, "nothing-delivers").elements) == ("wrong", ["p"])
        assert "No mode has a running pump" in found(answer, "nothing-delivers").text
        beside = check(*lines, modes=[mode("off"), mode("on", running=["p"])])
        assert (beside.verdict, codes(beside)) == ("right", ["no-path", "not-isolatable"])

    def test_where_there_is_no_pump_at_all_one_is_asked_for(self):
        """well - house"""
        assert "fit a pump" in found(check("pipe k well>house", modes=[mode()]), "nothing-delivers").text


class TestChecks:
    def test_two_checks_turned_about_on_one_way_are_found_together(self):
        """well -<|- a -(p)- b -<|- house"""
        answer = check("check c a>well", "pump p a>b", "check d house>b", modes=[mode(running=["p"])])
        finding = found(answer, "check-turned-about")
        assert (finding.elements, finding.severity) == (["c", "d"], "danger")

    def test_a_check_is_not_called_turned_about_where_another_mode_needs_it_so(self):
        """
        well -(p)- a -x- house     Between a and b stands `c`, which passes from b to a. With x closed p would need it
        well -(q)- b -y- house     the other way about, but with y closed q needs it as it is.
        """
        lines = ("pump p well>a", "pump q well>b", "check c b>a", "shutoff x a>house", "shutoff y b>house")
        modes = [mode("p", running=["p"], closed=["x"]), mode("q", running=["q"], closed=["y"])]
        answer = check(*lines, modes=modes)
        assert [outcome.delivers for outcome in answer.modes] == [False, True]
        assert found(answer, "no-path").elements == ["c", "x"]
        assert "check-turned-about" not in codes(answer)
        assert "check-turned-about" in codes(check(*lines, modes=modes[:1]))

    def test_a_check_behind_a_closed_valve_is_not_called_turned_about(self):
        """well -(p)- a -x- b -|>- house"""
        answer = check("pump p well>a", "shutoff x a>b", "check c b>house", modes=[mode(running=["p"], closed=["x"])])
        assert "check-turned-about" not in codes(answer)

    def test_the_pumps_own_check_is_not_turned_to_break_a_loop(self):
        """
        well -|>- a -(p)- b -|>- c - house     The loop passes `own` in its right sense: the check belongs into `k`.
                  '------- k ----'
        """
        lines = ("check foot well>a", "pump p a>b", "check own b>c", "pipe k c>a", "pipe l c>house")
        answer = check(*lines, modes=[mode(running=["p"])])
        assert answer.modes[0].recirculates == ["p", "own", "k"]
        assert codes(answer) == ["check-missing", "recirculation", "not-isolatable"]
        assert found(answer, "check-missing").elements == ["k"]
        assert "passes only from 'a' to 'c'" in found(answer, "check-missing").text


class TestRecirculation:
    def test_a_stopped_pump_beside_a_running_one_lets_the_water_back(self):
        """
        well - a -(p)- b - house     Both pumps without a check valve: p's water comes back through q.
               '--(q)--'
        """
        lines = ("check foot well>a", "pump p a>b", "pump q a>b", "pipe k b>house")
        answer = check(*lines, modes=[mode(running=["p"])])
        assert answer.modes[0].recirculates == ["p", "q"]
        assert found(answer, "check-missing").elements == ["q"]
        assert "passes only from 'a' to 'b'" in found(answer, "check-missing").text

    def test_one_that_blocks_when_idle_does_not(self):
        request = body("check foot well>a", "pump p a>b", "pump q a>b", "pipe k b>house", modes=[mode(running=["p"])])
        request["elements"][2]["blocks_when_idle"] = True
        assert ask(request).modes[0].recirculates == []

    def test_a_check_behind_each_pump_parts_them(self):
        """
        well - a -(p)- . -|>- b - house
               '--(q)- . -|>--'
        """
        lines = ("check foot well>a", "pump p a>c", "check d c>b", "pump q a>e", "check f e>b", "pipe k b>house")
        assert the_mode(*lines).recirculates == []

    def test_a_closed_valve_in_the_bypass_breaks_the_loop(self):
        """
        well -(p)- a - house
          '---x----'
        """
        lines = ("pump p well>a", "shutoff x a>well", "pipe k a>house")
        assert the_mode(*lines).recirculates == ["p", "x"]
        assert the_mode(*lines, closed=["x"]).recirculates == []

    def test_each_loop_is_a_finding_and_the_shortest_is_the_modes(self):
        """
        well -|>- a -(p)- b - c - d -(q)- house     with k from b back to a, and l, m from the house by e back to d
        """
        lines = ("check foot well>a", "pump p a>b", "pipe k b>a", "check i b>d", "pump q d>house")
        answer = check(*lines, "pipe l house>e", "pipe m e>d", modes=[mode(running=["p", "q"])])
        assert answer.modes[0].recirculates == ["p", "k"]
        loops = [finding.elements for finding in answer.findings if finding.code == "recirculation"]
        assert loops == [["p", "k"], ["q", "l", "m"]]

    def test_no_check_goes_against_a_pump_or_against_the_way_of_another_mode(self):
        """
        well -|>- a -(p)- b -y- house     In mode p the water comes back by k. But in mode q it takes k in that very
        well -(q)- . -|>- b               sense, from b by a and x to the house.
                  a -x- house
        """
        lines = ("check foot well>a", "pump p a>b", "pipe k b>a", "shutoff x a>house", "shutoff y b>house")
        lines += ("pump q well>c", "check d c>b")
        modes = [mode("p", running=["p"], closed=["x"]), mode("q", running=["q"], closed=["y"])]
        assert codes(check(*lines, modes=modes[:1])).count("check-missing") == 1
        answer = check(*lines, modes=modes)
        assert (answer.modes[0].recirculates, answer.modes[1].path) == (["p", "k"], ["q", "d", "k", "x"])
        assert "check-missing" not in codes(answer)

    def test_nor_does_one_go_against_the_sense_of_a_stopped_pump(self):
        """
        well -|>- a -(p)- b - house     The water comes back through q in q's own sense.
                  '--(q)--'             q draws at b and leads to a
        """
        lines = ("check foot well>a", "pump p a>b", "pump q b>a", "pipe k b>house")
        answer = check(*lines, modes=[mode(running=["p"])])
        assert answer.modes[0].recirculates == ["p", "q"]
        assert not {"check-missing", "check-turned-about"} & set(codes(answer))

    def test_a_check_is_not_turned_where_that_would_send_another_pumps_water_round(self):
        """
        well -|>- a -(p)- b - house     In mode p the water comes back by `c`. Turned about, `c` would bring q's water
                  a -<|- b              back to q in mode q; both pumps block when idle.
                  a -(q)- b, q draws at b and leads to a
        """
        lines = ("check foot well>a", "pump p a>b", "pump q b>a", "check c b>a", "pipe k b>house")
        request = body(*lines, modes=[mode("p", running=["p"]), mode("q", running=["q"])])
        for pump in request["elements"][1:3]:
            pump["blocks_when_idle"] = True
        answer = ask(request)
        assert [outcome.recirculates for outcome in answer.modes] == [["p", "c"], []]
        assert "check-turned-about" not in codes(answer)
        assert "check-turned-about" in codes(ask(request | {"modes": request["modes"][:1]}))

    def test_the_place_for_a_check_is_found_at_the_end_of_a_long_way(self):
        """well -|>- a -(p)- n0 - n1 - ... - n20 - house, and k from n20 back to a"""
        line = [f"pipe e{number} n{number}>n{number + 1}" for number in range(20)]
        lines = ("check foot well>a", "pump p a>n0", *line, "pipe l n20>house", "pipe k n20>a")
        answer = check(*lines, modes=[mode(running=["p"])])
        assert len(answer.modes[0].recirculates) == 22
        assert found(answer, "check-missing").elements == ["k"]
        assert "'e7' and 13 more" in found(answer, "recirculation").text


class TestDeadhead:
    @pytest.mark.parametrize(
        ("more", "setting", "is_deadhead"),
        [
            ((), {}, True),
            (("tap t a",), {}, True),
            (("tap t a",), {"opened": ["t"]}, False),
            (("relief r a",), {}, False),
            (("tank o a", "gauge g a"), {}, True),
            (("pipe back a>well",), {}, False),
        ],
        ids=["closed end", "closed tap", "open tap", "relief valve", "tank and gauge", "back to the source"],
    )
    def test_a_pump_needs_somewhere_to_send_its_water(self, more, setting, is_deadhead):
        """well -(p)- a -x- house with x closed, and something at `a`"""
        outcome = the_mode("pump p well>a", "shutoff x a>house", *more, closed=["x"], **setting)
        assert outcome.deadheads == (["p"] if is_deadhead else [])

    def test_a_tank_makes_it_a_warning_since_a_switch_may_stop_the_pump(self):
        """well -(p)- a -x- house, O at a"""
        lines, closed = ("pump p well>a", "shutoff x a>house"), [mode(running=["p"], closed=["x"])]
        assert found(check(*lines, modes=closed), "deadhead").severity == "danger"
        assert found(check(*lines, "tank o a", modes=closed), "deadhead").severity == "warning"

    def test_only_the_pump_against_the_closed_end_is_named(self):
        """
        well -(p)- a -|>- house
        well -(q)- b -|>- c          c leads nowhere
        """
        lines = ("pump p well>a", "check d a>house", "pump q well>b", "check e b>c")
        assert the_mode(*lines, running=["p", "q"]).deadheads == ["q"]


class TestRunningDry:
    def test_a_closed_valve_before_the_pump_is_named(self):
        """well -x- a -(p)- house"""
        lines = ("shutoff x well>a", "pump p a>house")
        answer = check(*lines, modes=[mode(running=["p"], closed=["x"])])
        finding = found(answer, "starved-inlet")
        assert (answer.modes[0].runs_dry, finding.elements, finding.severity) == (["p"], ["p", "x"], "danger")
        assert "it runs dry. The shutoff valve 'x' is closed: open it." in finding.text
        assert the_mode(*lines).runs_dry == []

    def test_a_check_that_is_turned_about_before_the_pump_is_named(self):
        """well -<|- a -(p)- house"""
        answer = check("check c a>well", "pump p a>house", modes=[mode(running=["p"])])
        assert found(answer, "starved-inlet").elements == ["p", "c"]

    def test_a_dry_pump_beside_one_that_serves_the_house_is_named_and_not_told_to_be_turned(self):
        """
        well -(q)- b -|>- house
        well -x- a -(p)- house
        """
        lines = ("pump q well>b", "check c b>house", "shutoff x well>a", "pump p a>house")
        answer = check(*lines, modes=[mode(running=["p", "q"], closed=["x"])])
        assert (answer.modes[0].delivers, answer.modes[0].runs_dry) == (True, ["p"])
        assert found(answer, "starved-inlet").elements == ["p", "x"]

    def test_a_pump_that_nothing_joins_to_the_source_is_dry_although_its_water_goes_round(self):
        """well -(q)- house, and a -(p)- b - a by itself"""
        answer = check("pump q well>house", "pump p a>b", "pipe k b>a", modes=[mode(running=["p", "q"])])
        assert answer.modes[0].runs_dry == ["p"]
        assert "Nothing leads on from the source towards it: join them." in found(answer, "starved-inlet").text

    def test_a_pump_that_leads_into_the_well_is_told_to_be_turned(self):
        """well -(p, drawn from a to well)- a - house"""
        answer = check("pump p a>well", "pipe k a>house", modes=[mode(running=["p"])])
        finding = found(answer, "starved-inlet")
        assert finding.elements == ["p"]
        assert "pumps against the way: turn it about" in finding.text

    def test_a_pump_that_draws_through_a_stopped_one_is_not_dry(self):
        """well -(idle)- a -(p)- house"""
        assert the_mode("pump idle well>a", "pump p a>house").runs_dry == []


class TestVesselsUnderVacuum:
    LINES = ("check foot well>a", "pump p a>b", "pipe l b>house")

    @pytest.mark.parametrize(("kind", "harm"), [("tank", "stores no pressure"), ("relief", "lets air in")])
    def test_a_tank_or_relief_valve_before_the_pump_is_to_be_moved(self, kind, harm):
        """
        well -|>- a -(p)- b - house
                  O or R
        """
        answer = check(*self.LINES, f"{kind} v a", modes=[mode(running=["p"])])
        finding = found(answer, "vessel-on-suction-side")
        assert (finding.elements, finding.severity, finding.modes) == (["v"], "warning", ["mode"])
        assert harm in finding.text
        assert "move it to the pressure side" in finding.text
        assert "no-relief-on-tank" not in codes(answer)
        assert answer.verdict == "doubtful"

    def test_behind_the_pump_they_stand_well(self):
        answer = check(*self.LINES, "tank o b", "relief r b", modes=[mode(running=["p"])])
        assert not {"vessel-on-suction-side", "no-relief-on-tank"} & set(codes(answer))

    def test_a_tank_in_the_suction_line_itself_is_found(self):
        """well -O- c -|>- a -(p)- house"""
        answer = check("tank o well>c", "check foot c>a", "pump p a>house", modes=[mode(running=["p"])])
        assert found(answer, "vessel-on-suction-side").elements == ["o"]

    def test_a_tank_that_another_mode_presses_can_burst_but_takes_its_relief_elsewhere(self):
        """
        well -|>- c -(q)- a -(p)- house     In mode p it stands under vacuum, in mode q under pressure.
                          O
        """
        lines = ("check foot well>c", "pump q c>a", "pump p a>house", "tank o a")
        answer = check(*lines, modes=[mode("p", running=["p"]), mode("q", running=["q"])])
        assert found(answer, "vessel-on-suction-side").modes == ["p"]
        assert "Move it off the suction side, and fit one beside it there" in found(answer, "no-relief-on-tank").text


class TestDrainBack:
    def test_a_stopped_pump_without_a_check_empties_the_line(self):
        """well -(p)- a - house"""
        answer = check("pump p well>a", "pipe k a>house", modes=[mode(running=["p"])])
        assert answer.modes[0].drains_back == ["k", "p"]
        assert codes(answer) == ["check-missing", "drain-back", "not-isolatable"]
        missing = found(answer, "check-missing")
        assert (missing.elements, missing.severity) == (["p"], "warning")
        assert "passes only from 'well' to 'a'" in missing.text
        assert "back-flow" in {caution.code for caution in answer.cautions}

    @pytest.mark.parametrize(
        "lines",
        [
            ("check c well>a", "pump p a>b", "pipe k b>house"),
            ("pump p well>a", "check c a>b", "pipe k b>house"),
        ],
        ids=["foot valve", "check valve behind the pump"],
    )
    def test_a_foot_valve_or_a_check_behind_the_pump_holds_it(self, lines):
        assert the_mode(*lines).drains_back == []

    def test_so_does_a_pump_that_blocks_when_idle(self):
        request = body("pump p well>a", "pipe k a>house", modes=[mode(running=["p"])])
        request["elements"][0]["blocks_when_idle"] = True
        assert ask(request).modes[0].drains_back == []

    def test_a_tank_before_the_check_still_runs_back(self):
        """well -(p)- a -|>- house, O at a"""
        outcome = the_mode("pump p well>a", "check c a>house", "tank o a")
        assert outcome.drains_back == ["p"]

    def test_a_mode_without_a_running_pump_runs_back_too(self):
        """well -(p)- a - house"""
        assert the_mode("pump p well>a", "pipe k a>house", running=[]).drains_back == ["k", "p"]

    def test_the_check_goes_as_near_to_the_source_as_can_be(self):
        """well - a - b -(p)- house"""
        answer = check("pipe k well>a", "pipe l a>b", "pump p b>house", modes=[mode(running=["p"])])
        assert answer.modes[0].drains_back == ["p", "l", "k"]
        assert found(answer, "check-missing").elements == ["k"]


class TestPrime:
    """A check valve behind the pump holds the suction line's water only while all before it is tight. Common practice,
    no source."""

    def test_a_check_behind_the_pump_alone_does_not_hold_the_prime(self):
        """well - a -(p)- b -|>- house"""
        answer = check("pipe k well>a", "pump p a>b", "check c b>house", modes=[mode(running=["p"])])
        assert answer.modes[0].drains_back == []
        assert codes(answer) == ["check-missing", "loses-prime", "not-isolatable"]
        lost, missing = found(answer, "loses-prime"), found(answer, "check-missing")
        assert (lost.elements, lost.severity, lost.modes) == (["k"], "warning", ["mode"])
        assert "any leak lets it run back from 'a' to the source by 'k'" in lost.text
        assert (missing.elements, missing.severity) == (["k"], "warning")
        assert "passes only from 'well' to 'a'" in missing.text
        assert answer.verdict == "doubtful"

    @pytest.mark.parametrize(
        "lines",
        [
            ("check foot well>a", "pipe k a>b", "pump p b>house"),
            ("pipe k well>a", "check c a>b", "pump p b>house"),
            ("pump w well>a", "check c a>b", "pump p b>house"),
            ("pump p well>a", "check c a>house"),
        ],
        ids=["foot valve", "check before the pump", "the well pump's own check", "pump in the well"],
    )
    def test_what_holds_it(self, lines):
        assert "loses-prime" not in codes(check(*lines, modes=[mode(running=["p"])]))

    def test_a_stopped_well_pump_does_not_hold_it(self):
        """well -(w)- a -(p)- b -|>- house"""
        answer = check("pump w well>a", "pump p a>b", "check c b>house", modes=[mode(running=["p"])])
        assert (found(answer, "loses-prime").elements, found(answer, "check-missing").elements) == (["w"], ["w"])

    def test_where_the_house_runs_back_by_the_same_way_it_is_told_once(self):
        """well - a -(p)- house"""
        answer = check("pipe k well>a", "pump p a>house", modes=[mode(running=["p"])])
        assert codes(answer) == ["check-missing", "drain-back", "not-isolatable"]

    def test_a_tank_that_runs_back_by_another_way_hides_nothing(self):
        """
        well - a -(p)- b -|>- house
        well - d                     O at d
        """
        lines = ("pipe k well>a", "pump p a>b", "check c b>house", "pipe l well>d", "tank o d")
        answer = check(*lines, modes=[mode(running=["p"])])
        assert found(answer, "drain-back").elements == ["l"]
        assert found(answer, "loses-prime").elements == ["k"]

    def test_a_mode_in_which_nothing_runs_has_no_prime_to_lose(self):
        lines = ("pipe k well>a", "pump p a>b", "check c b>house")
        answer = check(*lines, modes=[mode(running=["p"]), mode("rest")])
        assert found(answer, "loses-prime").modes == ["mode"]


class TestAir:
    LINES = ("check foot well>a", "pipe k a>b", "pump p b>c", "pipe l c>house", "tap before a", "tap behind c")

    def test_an_open_tap_before_the_pump_draws_air_and_one_behind_it_does_not(self):
        """
        well -|>- a - b -(p)- c - house
                  T           T
        """
        assert the_mode(*self.LINES, opened=["before", "behind"]).draws_air_at == ["before"]
        assert the_mode(*self.LINES, opened=["behind"]).draws_air_at == []

    def test_the_finding_says_what_to_do(self):
        answer = check(*self.LINES, modes=[mode(running=["p"], opened=["before"])])
        finding = found(answer, "air-entry")
        assert (finding.elements, finding.severity) == (["before"], "warning")
        assert "Close it, or move it to the pressure side" in finding.text

    def test_a_tap_on_a_dead_leg_of_the_suction_side_draws_air_too(self):
        """... a - d, and the tap at d"""
        assert the_mode(*self.LINES, "pipe leg a>d", "tap far d", opened=["far"]).draws_air_at == ["far"]

    def test_a_tap_that_lets_nothing_but_air_in_through_a_check_draws_it(self):
        """... d -|>- a, and the tap at d"""
        assert the_mode(*self.LINES, "check c d>a", "tap far d", opened=["far"]).draws_air_at == ["far"]

    def test_a_pump_in_the_well_draws_no_air_from_a_pipe_that_hangs_into_the_well(self):
        """
        well -(p)- a -|>- house
        well - b              T at b: the well is open water, the pump's vacuum does not get to b
        """
        assert the_mode("pump p well>a", "check c a>house", "pipe k well>b", "tap t b", opened=["t"]).draws_air_at == []

    def test_between_two_running_pumps_the_first_ones_pressure_stands(self):
        """
        well -|>- a -(q)- b -(p)- house
                          T
        """
        lines = ("check foot well>a", "pump q a>b", "pump p b>house", "tap t b")
        assert the_mode(*lines, running=["p"], opened=["t"]).draws_air_at == ["t"]
        assert the_mode(*lines, running=["p", "q"], opened=["t"]).draws_air_at == []

    def test_a_mode_whose_pumps_stand_still_draws_no_air(self):
        assert the_mode(*self.LINES, running=[], opened=["before"]).draws_air_at == []


class TestTwoPumps:
    def test_in_series_the_second_has_the_firsts_pressure_at_its_inlet(self):
        """well -(p)- a -(q)- house"""
        answer = check("pump p well>a", "pump q a>house", modes=[mode(running=["p", "q"])])
        pressed = found(answer, "pump-pressurizes-pump")
        assert (pressed.elements, pressed.severity) == (["p", "q"], "danger")
        assert "in series the pressures add up" in pressed.text
        assert "two-pumps-running" not in codes(answer)

    def test_two_side_by_side_before_a_third_in_series_are_told_apart_from_it(self):
        """
        well -(p)- . -|>- a -(r)- house
        well -(q)- . -|>--'
        """
        lines = ("pump p well>b", "check c b>a", "pump q well>d", "check e d>a", "pump r a>house")
        answer = check(*lines, modes=[mode(running=["p", "q", "r"])])
        assert found(answer, "two-pumps-running").elements == ["p", "q"]
        assert found(answer, "pump-pressurizes-pump").elements == ["p", "q", "r"]

    def test_a_stopped_pump_under_pressure_is_a_note(self):
        """well -(p)- a -(q)- house"""
        answer = check("pump p well>a", "pump q a>house", modes=[mode(running=["p"])])
        assert (found(answer, "pump-pressurizes-pump").elements, "two-pumps-running" in codes(answer)) == (
            ["p", "q"],
            False,
        )
        assert found(answer, "pump-pressurizes-pump").severity == "note"

    def test_side_by_side_they_run_on_one_line_but_press_on_no_inlet(self):
        """
        well -(p)- . -|>- a - house
        well -(q)- . -|>--'
        """
        lines = ("pump p well>b", "check c b>a", "pump q well>d", "check e d>a", "pipe k a>house")
        answer = check(*lines, modes=[mode(running=["p", "q"])])
        assert found(answer, "two-pumps-running").elements == ["p", "q"]
        assert "pump-pressurizes-pump" not in codes(answer)

    def test_on_lines_that_never_meet_they_may_run_together(self):
        """well -(p)- house, well -(q)- trough"""
        answer = check("pump p well>house", "pump q well>trough", "tap t trough", modes=[mode(running=["p", "q"])])
        assert "two-pumps-running" not in codes(answer)

    def test_the_well_carries_no_pressure_from_one_pump_to_another(self):
        """
        well -(p)- a - well     p sends its water back into the well, and so does q; r draws from it by a pipe.
        well -(q)- b - well
        well - c -(r)- house
        """
        lines = ("pump p well>a", "pipe k a>well", "pump q well>b", "pipe l b>well", "pipe m well>c", "pump r c>house")
        answer = check(*lines, modes=[mode(running=["p", "q", "r"])])
        assert not {"two-pumps-running", "pump-pressurizes-pump"} & set(codes(answer))
        assert "back-flow" in {caution.code for caution in answer.cautions}

    def test_a_finding_that_shows_in_two_modes_stands_once(self):
        modes = [mode("one", running=["p", "q"]), mode("two", running=["q", "p"])]
        answer = check("pump p well>house", "pump q well>house", modes=modes)
        assert found(answer, "two-pumps-running").modes == ["one", "two"]
        assert codes(answer).count("two-pumps-running") == 1


class TestIsolation:
    SIDE_BY_SIDE = (
        "pump p well>a",
        "check c a>b",
        "shutoff x b>tee",
        "pump q well>d",
        "check e d>f",
        "shutoff y f>tee",
        "pipe k tee>house",
    )
    MODES = (mode("p", running=["p"]), mode("q", running=["q"]))

    def isolated(self, *lines, modes=MODES):
        return {item.pump: (item.isolates, item.by) for item in check(*lines, modes=list(modes)).isolates}

    def test_two_pumps_in_the_well_come_out_each_by_its_valve(self):
        """
        well -(p)- a -|>- b -x- tee - house
        well -(q)- d -|>- f -y---'
        """
        assert self.isolated(*self.SIDE_BY_SIDE) == {"p": (True, ["x"]), "q": (True, ["y"])}

    def test_a_check_valve_is_not_relied_on(self):
        """The same without the shutoff valve y: q's line is one with the tee, and p is in a line by itself."""
        lines = [line.replace("shutoff y", "pipe y") for line in self.SIDE_BY_SIDE]
        assert self.isolated(*lines) == {"p": (True, ["x"]), "q": (False, ["x"])}
        finding = found(check(*lines, modes=list(self.MODES)), "not-isolatable")
        assert (finding.elements, finding.severity) == (["q"], "note")
        assert "fit a shutoff valve at its outlet" in finding.text

    def test_both_sides_need_a_valve_where_the_suction_line_is_shared(self):
        """
        well - a -x- b -(p)- c -y- tee - house
               '---- d -(q)- e -z---'            nothing between a and q
        """
        lines = ("pipe k well>a", "shutoff x a>b", "pump p b>c", "shutoff y c>tee", "pipe m a>d", "pump q d>e")
        lines += ("shutoff z e>tee", "pipe n tee>house")
        answer = check(*lines, modes=list(self.MODES))
        assert [(item.pump, item.isolates, item.by) for item in answer.isolates] == [
            ("p", True, ["x", "y"]),
            ("q", False, ["x", "z"]),
        ]
        assert "fit a shutoff valve at its inlet." in found(answer, "not-isolatable").text

    def test_the_only_pump_cannot_be_spared(self):
        """well -(p)- a -x- house"""
        answer = check("pump p well>a", "shutoff x a>house", modes=[mode(running=["p"])])
        assert [(item.isolates, item.by) for item in answer.isolates] == [(False, ["x"])]
        assert "no other pump serves the house" in answer.isolates[0].text
        assert "not-isolatable" not in codes(answer)

    def test_the_schema_says_that_another_pump_must_still_serve_the_house(self):
        described = msgspec.json.schema(Isolation)["$defs"]["Isolation"]["properties"]["isolates"]["description"]
        assert "taken out with the house still served by another pump" in described

    def test_a_pump_whose_other_never_runs_cannot_be_spared(self):
        assert self.isolated(*self.SIDE_BY_SIDE, modes=self.MODES[:1])["p"] == (False, ["x"])

    def test_the_house_is_served_by_a_way_that_no_mode_takes_first(self):
        """
        well -(p)- a -x- tee - house    (q) by its own line, but the shortest way in mode `both` is p's
        well -(q)- b - c -y--'
        """
        lines = (
            "pump p well>a",
            "shutoff x a>tee",
            "pump q well>b",
            "pipe k b>c",
            "shutoff y c>tee",
            "pipe l tee>house",
        )
        assert self.isolated(*lines, modes=[mode("both", running=["p", "q"])])["p"] == (True, ["x"])


class TestPiping:
    @pytest.mark.parametrize(
        ("between", "is_relieved"),
        [("pipe", True), ("strainer", True), ("gauge", True), ("shutoff", False), ("check", False)],
    )
    def test_no_valve_may_stand_between_a_tank_and_its_relief(self, between, is_relieved):
        """well -(p)- a - house, O at a, and R at b behind something"""
        answer = check(
            "pump p well>a", "pipe k a>house", "tank o a", f"{between} i a>b", "relief r b", modes=[mode(running=["p"])]
        )
        assert ("no-relief-on-tank" not in codes(answer)) == is_relieved
        assert ("tank-relief-valve" in {caution.code for caution in answer.cautions}) != is_relieved

    def test_the_tank_without_one_is_named(self):
        answer = check("pump p well>a", "pipe k a>house", "tank o a", modes=[mode(running=["p"])])
        finding = found(answer, "no-relief-on-tank")
        assert (finding.elements, finding.severity, finding.modes) == (["o"], "danger", [])

    def test_what_no_water_gets_to_is_named(self):
        """well -(p)- house, z -|>- house and y - z: the leg behind the check valve stays dry, and so does u - w"""
        answer = check("pump p well>house", "check c z>house", "pipe k y>z", "pipe l u>w", modes=[mode(running=["p"])])
        assert found(answer, "unreachable").elements == ["k", "l"]

    def test_behind_a_check_that_is_turned_about_only_what_is_not_joined_at_all_is_named(self):
        """well -<|- a -(p)- house, and u - w by itself"""
        answer = check("check c a>well", "pump p a>house", "pipe k u>w", modes=[mode(running=["p"])])
        assert found(answer, "check-turned-about").elements == ["c"]
        assert found(answer, "unreachable").elements == ["k"]

    def test_what_stands_behind_a_closed_valve_is_not(self):
        answer = check(
            "pump p well>house", "shutoff x house>a", "pipe k a>b", modes=[mode(running=["p"], closed=["x"])]
        )
        assert "unreachable" not in codes(answer)

    def test_a_node_that_no_element_meets_is_a_warning(self):
        request = body("pump p well>house", modes=[mode(running=["p"])])
        request["nodes"].append("loose")
        assert [warning.pointer for warning in ask(request).warnings] == ["/nodes/2"]

    def test_one_pump_that_draws_by_suction_calls_for_no_caution_about_the_well_pump(self):
        answer = check("check foot well>a", "pump p a>house", modes=[mode(running=["p"])])
        assert [caution.code for caution in answer.cautions] == ["suction-under-vacuum", "local-code"]

    def test_water_that_a_pump_sends_back_into_the_well_calls_for_the_caution_about_back_flow(self):
        """well -(p)- a -|>- house, and k from a back into the well: once p stops, the check holds the house's water"""
        answer = check("pump p well>a", "check c a>house", "pipe k a>well", modes=[mode(running=["p"])])
        assert answer.modes[0].drains_back == []
        assert "back-flow" in {caution.code for caution in answer.cautions}

    def test_a_pump_in_the_well_calls_for_the_caution_about_mains_and_none_about_suction(self):
        answer = check("pump p well>a", "check c a>house", modes=[mode(running=["p"])])
        assert [caution.code for caution in answer.cautions] == ["mains-electricity", "local-code"]

    def test_of_two_pumps_one_is_taken_to_be_on_the_mains_wherever_it_stands(self):
        lines = ("check foot well>a", "pump p a>b", "check c b>house", "pump q a>d", "check e d>house")
        answer = check(*lines, modes=[mode(running=["p"])])
        assert {"two-pumps", "mains-electricity"} <= {caution.code for caution in answer.cautions}


class TestRefusals:
    def request(self, **changes):
        lines = ("pump p well>a", "check c a>b", "shutoff x b>house", "tap t a")
        return body(*lines, modes=[mode("one", running=["p"], closed=["x"], opened=["t"])]) | changes

    def test_it_answers_as_it_stands(self):
        assert ask(self.request()).modes[0].name == "one"

    def test_ends_that_are_no_nodes(self):
        assert faults(self.request(source="spring", house="barn")) == {
            "/source": "no node has this name",
            "/house": "no node has this name",
        }

    def test_a_source_that_is_the_house(self):
        assert faults(self.request(house="well")) == {"/house": "must be another node than the source"}

    def test_elements_that_hang_in_the_air_or_end_where_they_begin(self):
        request = self.request()
        request["elements"][0]["from"] = "nowhere"
        request["elements"][1]["to"] = "nowhere"
        request["elements"][2]["to"] = "b"
        request["elements"][3]["to"] = "nowhere"
        assert faults(request) == {
            "/elements/0/from": "no node has this name",
            "/elements/1/to": "no node has this name",
            "/elements/2/to": "must be another node than `from`",
            "/elements/3/to": "no node has this name",
        }

    def test_names_that_stand_twice(self):
        request = self.request()
        request["nodes"].append("a")
        request["elements"][1]["id"] = "p"
        request["modes"].append(mode("one"))
        assert faults(request) == {
            f"/nodes/{len(request['nodes']) - 1}": "another node has this name",
            "/elements/1/id": "another element has this id",
            "/modes/1/name": "another mode has this name",
        }

    def test_a_mode_that_names_what_is_not_there_or_is_of_another_kind(self):
        request = self.request(modes=[mode("one", running=["p", "c"], closed=["gone"], opened=["x", "t", "t"])])
        assert faults(request) == {
            "/modes/0/running/1": "must be a pump; this element is a check",
            "/modes/0/closed/0": "no element has this id",
            "/modes/0/open/0": "must be a tap; this element is a shutoff",
            "/modes/0/open/2": "is listed twice",
        }

    def test_of_very_many_faults_the_first_are_told(self):
        request = self.request(elements=[element(f"pipe k{number} u{number}>v{number}") for number in range(500)])
        assert len(faults(request)) == 50

    @pytest.mark.parametrize(
        ("kind", "more"),
        [("pipe", {}), ("pump", {}), ("check", {}), ("shutoff", {}), ("strainer", {}), ("hose", {"to": "a"})],
    )
    def test_what_needs_two_ends_and_unknown_kinds_break_the_schema(self, kind, more):
        request = self.request(elements=[{"id": "e", "kind": kind, "from": "well"} | more])
        with pytest.raises(msgspec.ValidationError):
            msgspec.convert(request, ManifoldCheckRequest)

    def test_only_a_pump_can_block_when_idle(self):
        request = self.request()
        request["elements"][1]["blocks_when_idle"] = True
        with pytest.raises(msgspec.ValidationError):
            msgspec.convert(request, ManifoldCheckRequest)

    @pytest.mark.parametrize(
        "changes",
        [
            {"nodes": [f"n{number}" for number in range(MOST_ELEMENTS + 1)]},
            {"elements": [element(f"pipe k{number} well>house") for number in range(MOST_ELEMENTS + 1)]},
            {"modes": [mode(f"m{number}") for number in range(MOST_MODES + 1)]},
            {"modes": []},
            {"elements": []},
            {"nodes": ["well"]},
        ],
        ids=["nodes", "elements", "modes", "no mode", "no element", "one node"],
    )
    def test_more_than_the_limits_or_nothing_at_all_breaks_the_schema(self, changes):
        with pytest.raises(msgspec.ValidationError):
            msgspec.convert(self.request(**changes), ManifoldCheckRequest)


class TestLargeManifolds:
    """A thousand elements in two modes take about 20 ms on a small machine; ten times that is allowed for, and
    anything that is worse than linear takes more."""

    LONGEST = 0.2

    def timed(self, request):
        decoded = msgspec.convert(request, ManifoldCheckRequest)
        durations = []
        for _ in range(3):
            started = time.process_time()
            answer = manifold_check(decoded)
            durations.append(time.process_time() - started)
        assert min(durations) < self.LONGEST
        return answer

    def row(self, kinds, count=MOST_ELEMENTS):
        """One line of elements from the well to the house; the first is a pump."""
        ends = ["well", *(f"n{number}" for number in range(1, count)), "house"]
        return [
            element(
                f"{'pump' if number == 0 else kinds[number % len(kinds)]} e{number} {ends[number]}>{ends[number + 1]}"
            )
            for number in range(count)
        ]

    def request(self, elements, modes):
        ends = dict.fromkeys(end for item in elements for end in (item["from"], item["to"]))
        return {"nodes": list(ends), "elements": elements, "source": "well", "house": "house", "modes": modes}

    def test_a_line_of_a_thousand_elements(self):
        elements = self.row(["pipe", "check", "shutoff", "strainer"], count=MOST_ELEMENTS - 1)
        answer = self.timed(self.request(elements, [mode("one", running=["e0"]), mode("two", running=["e0"])]))
        assert [len(outcome.path) for outcome in answer.modes] == [999, 999]

    def test_a_line_of_pumps_each_between_its_valves(self):
        elements = self.row(["pump", "shutoff", "pipe"], count=MOST_ELEMENTS - 1)
        answer = self.timed(self.request(elements, [mode("one", running=["e0"]), mode("two", running=["e3"])]))
        assert all(outcome.delivers for outcome in answer.modes)
        assert len(answer.isolates) == 333

    def test_a_net_in_which_ways_are_beyond_counting(self):
        """22 by 22 nodes, joined by pipes; there are more ways through it than could be listed in any time."""
        name = {(0, 0): "well", (21, 21): "house"}
        place = [(x, y) for x in range(22) for y in range(22)]
        node = {at: name.get(at, f"n{at[0]}-{at[1]}") for at in place}
        pairs = [(at, (at[0] + dx, at[1] + dy)) for at in place for dx, dy in ((1, 0), (0, 1))]
        joined = [(node[a], node[b]) for a, b in pairs if b in node]
        elements = [element(f"{'pump' if a == 'well' else 'pipe'} e{n} {a}>{b}") for n, (a, b) in enumerate(joined)]
        answer = self.timed(self.request(elements, [mode("one", running=["e0"])]))
        assert len(answer.modes[0].path) == 42
        assert answer.modes[0].recirculates
