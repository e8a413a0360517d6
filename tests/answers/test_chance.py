"""The chance that a line is feasible is right to 0.03 near every threshold, or the answer says that it may not be."""

from copy import deepcopy
from functools import partial
from itertools import combinations
from math import hypot, inf, pi
from random import Random
from statistics import NormalDist, correlation, fmean, pstdev

import msgspec
import pytest
from scipy.stats import norm, qmc, truncnorm

from footvalve.answers.chance import DRAWN_CHANCE, DRAWS, NORMAL_CHANCE, SKEWED, chance_feasible
from footvalve.answers.chance_condition import Condition
from footvalve.answers.chance_draws import normal_draws
from footvalve.answers.chance_looks import AWAY, looks
from footvalve.answers.endpoints import ENDPOINT
from footvalve.answers.headline import Headline
from footvalve.answers.propagation import effects
from footvalve.answers.suction_headline import suction_headline
from footvalve.answers.suction_state import FAILURES, SuctionState, suction_state
from footvalve.answers.uncertain_inputs import UncertainInput, stated_inputs
from footvalve.contract.examples import examples
from footvalve.contract.problem import Refused
from footvalve.contract.ranges import outside_ranges, stated_quantities
from footvalve.contract.suction_feasibility import SuctionFeasibilityRequest

# --- suction lines near the threshold of feasible, uncertain in every way

KINDS = ("straight", "several open", "bore", "turbulence", "disc", "capacity", "one-sided", "mixed", "far")


def of(value, unit):
    return {"value": value, "unit": unit}


def ask(body):
    return ENDPOINT["suction-feasibility"](msgspec.convert(body, SuctionFeasibilityRequest))


def part_at(body, pointer):
    for step in pointer.split("/")[1:]:
        body = body[int(step) if isinstance(body, list) else step]
    return body


def uncertain_at(body, pointer=""):
    """The pointers to all uncertain quantities of a body."""
    if isinstance(body, dict) and "unit" in body:
        if body.get("uncertainty"):
            yield pointer
    elif isinstance(body, dict | list):
        for key, value in body.items() if isinstance(body, dict) else enumerate(body):
            yield from uncertain_at(value, f"{pointer}/{key}")


def state(body) -> SuctionState | None:
    """What the service says of a line, in SI; None for one that cannot be."""
    try:
        request = msgspec.convert(body, SuctionFeasibilityRequest)
        return None if any(outside_ranges(request)) else suction_state(request)
    except (msgspec.ValidationError, Refused):
        return None


def without_uncertainties(body):
    body = deepcopy(body)
    for pointer in list(uncertain_at(body)):
        del part_at(body, pointer)["uncertainty"]
    return body


def standing(body):
    """What each condition has to spare, and its standard uncertainty by the first order."""
    sure = without_uncertainties(body)
    centre = state(sure)
    if centre is None:
        return None
    spreads = [0.0] * len(centre.spares)
    for pointer in uncertain_at(body):
        sides = []
        for sign in (1.0, -1.0):
            other = deepcopy(sure)
            part_at(other, pointer)["value"] += sign * part_at(body, pointer)["uncertainty"]
            there = state(other)
            sides.append(centre.spares if there is None else there.spares)
        spreads = [hypot(s, (up - down) / 2.0) for s, up, down in zip(spreads, *sides, strict=True)]
    return centre.spares, [spread or 1e-9 for spread in spreads]


def site(seed):
    """The kind and the body of a line whose conditions stand within about two standard uncertainties of nought, or just
    beyond for the kind that is far."""
    random, kind = Random(seed), KINDS[seed % len(KINDS)]
    while True:
        inner = random.choice(("turbulence", "disc")) if kind == "far" else kind
        body = _line(random, inner)
        _make_uncertain(random, body, inner)
        if list(uncertain_at(body)) and _brought_near(random, body, kind):
            return kind, body


def _line(random, kind):
    inlet, depth, bore, speed = random.uniform(-3, 1.5), random.uniform(1, 6), random.choice((15, 20, 26, 32, 40)), 0.0
    if kind == "turbulence":
        bore = random.choice((4, 5, 6, 8, 10))
        speed = 2040 * 1.24e-6 / (bore / 1000) * random.uniform(0.85, 1.2)
    speed = speed or random.uniform(0.3, 1.6)
    flow = speed * pi * (bore / 1000) ** 2 / 4 * 60_000
    crest = inlet + random.uniform(0.2, 3) if random.random() < 0.5 else inlet
    intake = -depth - random.uniform(2, 8)
    diameter = {"diameter": of(bore, "mm")}
    walls = diameter | {"roughness": of(random.choice((0.002, 0.05, 0.15)), "mm")}
    foot = random.choice(("foot-valve-hinged", "foot-valve-poppet"))
    line = [
        {"part": "valve", "valve": foot, "bore": diameter},
        {"part": "pipe", "bore": walls, "length": of(crest - intake + random.uniform(1, 3), "m")},
        {"part": "valve", "valve": random.choice(("swing-check", "spring-check")), "cracking_pressure": of(2, "kPa")},
        {"part": "strainer", "rated_flow": of(40, "L/min"), "clean_drop": of(3, "kPa"), "dirty_drop": of(8, "kPa")},
        {"part": "pipe", "bore": deepcopy(walls), "length": of(random.uniform(6, 45), "m")},
    ]
    line[1]["end_elevation"] = of(crest, "m")
    pump = {"style": "rotary", "inlet_elevation": of(inlet, "m"), "npsh_required": of(random.uniform(1, 4), "m")}
    if kind != "turbulence" and random.random() < 0.25:
        pump |= {"style": "reciprocating", "strokes_per_minute": 200, "chambers": 3, "gas_cushion": True}
    yields = {"specific_capacity": of(flow / 60 / random.uniform(0.3, 2.5), "L/s/m")}
    return {
        "units": "metric",
        "site": {"altitude": of(random.choice((0, 900, 2600)), "m"), "water_temperature": of(12, "degC")},
        "depth_to_water": of(depth, "m"),
        "seasonal_fall": of(random.uniform(0.5, 1.5), "m"),
        **(yields if kind == "capacity" or random.random() < 0.4 else {"drawdown": of(1, "m")}),
        "flow": of(flow, "L/min"),
        "pump": pump,
        "intake_elevation": of(intake, "m"),
        "line": line,
        "policy": {"margin": of(random.choice((0.3, 0.6, 0.9)), "m")},
    }


def _make_uncertain(random, body, kind):
    """Standard uncertainties: of some inputs for all kinds, and those that the kind is about."""
    flow = body["flow"]["value"]
    some = [
        ("/depth_to_water", random.choice((0.05, 0.2, 0.6))),
        ("/seasonal_fall", random.choice((0.1, 0.3))),
        ("/flow", flow * random.choice((0.03, 0.08) if kind == "straight" else (0.08, 0.15, 0.25))),
        ("/pump/inlet_elevation", random.choice((0.03, 0.1))),
        ("/pump/npsh_required", random.choice((0.1, 0.3, 0.5))),
        ("/site/altitude", 50),
        ("/site/water_temperature", random.choice((1, 3))),
        ("/intake_elevation", random.choice((0.05, 0.2))),
    ]
    chosen = dict(random.sample(some, random.randint(1, 6)))
    if kind == "turbulence":
        chosen |= {"/flow": flow * random.choice((0.03, 0.08, 0.15)), "/site/water_temperature": random.choice((1, 4))}
    if kind == "disc":
        chosen |= {"/flow": flow * random.choice((0.05, 0.1, 0.2))}
    if kind == "bore":
        chosen |= {"/line/4/bore/diameter": random.choice((0.1, 0.2)) * body["line"][4]["bore"]["diameter"]["value"]}
    if kind == "capacity":
        chosen |= {"/specific_capacity": random.choice((0.1, 0.3)) * body["specific_capacity"]["value"]}
    if kind == "several open":
        chosen |= {"/line/1/end_elevation": random.choice((0.1, 0.3, 0.6)), "/intake_elevation": 0.2}
    if kind == "one-sided":
        chosen |= random.choice(({"/seasonal_fall": 1.5}, {"/line/4/bore/roughness": 0.2}, {"/line/3/dirty_drop": 5}))
    if kind == "mixed":
        chosen |= {"/line/4/length": 2, "/line/2/cracking_pressure": 0.5, "/line/3/clean_drop": 1}
    for pointer, sigma in chosen.items():
        part_at(body, pointer)["uncertainty"] = sigma


def _brought_near(random, body, kind):
    """Whether the water's level, and for some the intake too, could be put so that conditions stand near nought."""
    known = standing(body)
    if known is None:
        return False
    spares, spreads = known
    place = random.choice((0, 1, 3)) if kind == "several open" else 0
    wanted = random.uniform(2.5, 6.0) if kind == "far" else random.uniform(-2.2, 2.2)
    _sink(body, spares[place] - wanted * spreads[place])
    if kind == "several open":
        spares, spreads = standing(body) or known
        _raise_intake(body, spares[4] - random.uniform(-1.0, 2.5) * spreads[4])
    if not -90.0 < body["depth_to_water"]["value"] < 90.0 or (known := standing(body)) is None:
        return False
    lowest = min(spare / spread for spare, spread in zip(*known, strict=True))
    return lowest > 2.3 if kind == "far" else -2.6 < lowest < 3.0


def _sink(body, by):
    """The water and the intake lower by so many metres."""
    body["depth_to_water"]["value"] += by
    _raise_intake(body, -by)


def _raise_intake(body, by):
    body["intake_elevation"]["value"] += by
    body["line"][1]["length"]["value"] += max(0.0, -by)


# --- against draws of the verdict itself


TRUTH_DRAWS = 2048
"""Scrambled Sobol points: the truth is good to about 0.005, by comparison with eight times as many."""


def possible_verdicts(body, draws, seed):
    """The verdict of each draw of the uncertain inputs that can be."""
    pointers = list(uncertain_at(body))
    sigmas = [part_at(body, pointer)["uncertainty"] for pointer in pointers]
    drawn = without_uncertainties(body)
    parts = [part_at(drawn, pointer) for pointer in pointers]
    centre = [part["value"] for part in parts]
    points = norm.ppf(qmc.Sobol(len(pointers), seed=seed).random(draws).clip(1e-9, 1.0 - 1e-9))
    for point in points.tolist():
        for part, value, sigma, z in zip(parts, centre, sigmas, point, strict=True):
            part["value"] = value + sigma * z
        there = state(drawn)
        if there is not None:
            yield there.verdict


@pytest.mark.parametrize("seed", range(54))
def test_the_chance_is_that_of_the_verdict(seed):
    """To 0.03, or the answer says that it may not be."""
    kind, body = site(seed)
    verdicts = list(possible_verdicts(body, TRUTH_DRAWS, seed))
    truth = verdicts.count("feasible") / len(verdicts)
    answer = ask(body)
    if not any("off by more than 0.03" in warning.detail for warning in answer.warnings):
        assert answer.chance_feasible == pytest.approx(truth, abs=0.03), kind


def test_nearly_all_of_these_are_sure():
    """The warning is no way out."""
    answers = [ask(site(seed)[1]) for seed in range(54)]
    rough = [a for a in answers if any("off by more than 0.03" in warning.detail for warning in a.warnings)]
    assert len(rough) <= 2


EXAMPLE = next(each.request for each in examples("suction-feasibility") if each.name == "us")


def example(**sigmas):
    """The example in feet with standard uncertainties, and its policy such that 0.5 ft are to spare."""
    body = deepcopy(EXAMPLE)
    body["policy"] = {"margin": of(round(ask(body).margin.value - 0.5, 6), "ft")}
    for pointer, sigma in sigmas.items():
        part_at(body, f"/{pointer}")["uncertainty"] = sigma
    return body


def test_a_straight_condition_is_the_normal_chance():
    """0.5 ft to spare, with standard uncertainties of 0.6 ft and 0.8 ft."""
    found = ask(example(**{"depth_to_water": 0.6, "pump/rated_suction_lift": 0.8}))
    assert found.chance_feasible == pytest.approx(NormalDist().cdf(0.5 / 1.0), abs=1e-4)
    assert NORMAL_CHANCE.name in [step.method for step in found.basis]


def test_it_does_not_matter_in_which_units_it_is_told():
    body = example(**{"depth_to_water": 0.6, "flow": 0.4, "line/3/length": 3.0})
    assert ask(body).chance_feasible == ask(body | {"units": "metric"}).chance_feasible


def test_a_place_that_is_told_twice_moves_as_one():
    found = ask(example(**{"pump/inlet_elevation": 0.5}))
    assert found.chance_feasible == pytest.approx(NormalDist().cdf(1.0), abs=0.002)


def test_a_line_that_is_far_from_every_threshold_is_settled():
    body = deepcopy(EXAMPLE)
    body["depth_to_water"] = of(0, "ft") | {"uncertainty": 0.2}
    assert ask(body).chance_feasible == 1.0
    body["depth_to_water"]["value"] = 60
    assert ask(body).chance_feasible == 0.0


def tube(flow, flow_sigma, temperature_sigma):
    """A long thin tube in which the flow is laminar, and takes two thirds more where it turns turbulent."""
    walls = {"diameter": of(6, "mm"), "roughness": of(0.002, "mm")}
    line = [{"part": "fitting", "fitting": "entrance-sharp", "bore": {"diameter": of(6, "mm")}}]
    line += [{"part": "pipe", "bore": walls, "length": of(30, "m")}]
    return {
        "units": "metric",
        "site": {"water_temperature": of(12, "degC") | {"uncertainty": temperature_sigma}},
        "depth_to_water": of(1, "m"),
        "drawdown": of(0, "m"),
        "flow": of(flow, "L/min") | {"uncertainty": flow_sigma},
        "pump": {"style": "rotary", "inlet_elevation": of(0, "m"), "npsh_required": of(2, "m")},
        "intake_elevation": of(-5, "m"),
        "line": line,
    }


@pytest.mark.parametrize("flow", [0.60, 0.64, 0.68])
def test_a_flow_that_may_turn_turbulent_far_from_every_threshold(flow):
    """As stated, and one standard uncertainty of either input to either side, the flow is laminar and there is much to
    spare; both together may bring what takes it all."""
    body = tube(flow, 0.03, 2.0)
    spares, spreads = standing(body)
    body["policy"] = {"margin": of(0.9144 + spares[0] - 3.0 * spreads[0], "m")}
    verdicts = list(possible_verdicts(body, TRUTH_DRAWS, 1))
    assert ask(body).chance_feasible == pytest.approx(verdicts.count("feasible") / len(verdicts), abs=0.03)


# --- the same of functions whose chance is known


def told_of(spares, inputs, ends=()):
    """The chance by a function of standard normal inputs that gives what each condition has to spare."""

    def headline(request):
        return Headline({}, spares(*request))

    def shifted(place, request, sigmas):
        return (*request[:place], request[place] + sigmas, *request[place + 1 :])

    uncertain = [
        UncertainInput(f"/{place}", "stated", partial(shifted, place), ends=(*ends, *[(-inf, inf)] * inputs)[place])
        for place in range(inputs)
    ]
    request = (0.0,) * inputs
    found = effects(request, uncertain, headline)
    return chance_feasible(request, headline(request), found, headline, size=10)


def normal(standing):
    return NormalDist().cdf(standing)


KNOWN = {
    "straight": (lambda x, y: (0.5 + 0.6 * x - 0.8 * y,), 2, normal(0.5)),
    "two that have nothing in common": (lambda x, y: (0.5 + x, 0.2 + y), 2, normal(0.5) * normal(0.2)),
    "two of which one hardly fails": (lambda x, y: (0.4 + x, 1.6 + y), 2, normal(0.4) * normal(1.6)),
    "two that have all in common": (lambda x: (0.5 + x, 0.9 + x), 1, normal(0.5)),
    "from two sides": (lambda x: (1.0 + x, 0.4 - x), 1, normal(0.4) - normal(-1.0)),
    "one that fails whatever the other does": (lambda x, y: (1.0 + x, -9.0 + y), 2, 0.0),
    "a jump far from nought": (lambda x: (3.0 - 0.5 * x - 9.0 * (x > 1.3),), 1, normal(1.3)),
    "a jump by two inputs": (lambda x, y: (3.0 + 0.01 * x * x - 0.01 * y * y - 9.0 * (x + y > 2.1),), 2, normal(1.485)),
    "a jump in what fails": (lambda x: (-3.0 + 0.5 * x + 9.0 * (x > 1.3),), 1, normal(-1.3)),
    "a kink of the other condition": (
        lambda x: (0.8 + x, min(5.0, 5.0 - 12.0 * (x - 1.4))),
        1,
        normal(1.817) - normal(-0.8),
    ),
    "an input that matters beyond its uncertainty alone": (
        lambda x, y: (0.8 + x - max(0.0, 9.0 * (y - 1.2)),),
        2,
        0.7157,
    ),
    "a summit": (lambda x: (1.0 - x * x,), 1, normal(1.0) - normal(-1.0)),
    "nothing uncertain in it": (lambda x: (0.0 * x,), 1, 1.0),
}
"""Spares by standard normal inputs, their number, and the chance: once by four million draws."""


@pytest.mark.parametrize("which", KNOWN)
def test_a_chance_that_is_known(which):
    spares, inputs, chance = KNOWN[which]
    found = told_of(spares, inputs)
    assert found.is_sure
    assert found.value == pytest.approx(chance, abs=0.02)


def test_an_input_that_is_cut_off_within_its_uncertainty():
    """At 1.3 standard uncertainties below: a tenth of the distribution is not there."""
    found = told_of(lambda x: (0.5 - x,), 1, ends=[(-1.3, inf)])
    assert found.value == pytest.approx((normal(0.5) - normal(-1.3)) / normal(1.3), abs=0.005)


def test_each_input_is_cut_off_at_its_own_ends():
    """Also where another matters more."""
    found = told_of(lambda x, y: (0.5 - 0.2 * x - y,), 2, ends=[(-0.2, inf)])
    strata = truncnorm(-0.2, inf).ppf([(place + 0.5) / 500 for place in range(500)])
    assert found.value == pytest.approx(fmean(normal(0.5 - 0.2 * x) for x in strata), abs=0.01)


def test_what_decides_is_told():
    found = told_of(lambda x, y, z: (0.5 + 0.1 * x - y, 9.0 + 3.0 * z), 3)
    assert found.decisive.pointer == "/1"


# --- what cannot be


def test_what_cannot_be_is_left_out():
    """A drawdown of 0 with an uncertainty of 0.4 ft is half of a normal distribution: water does not rise as it is
    drawn."""
    body = example()
    del body["specific_capacity"]
    margin = ask(body | {"drawdown": of(0, "ft")}).margin.value
    body |= {"policy": {"margin": of(margin - 0.4, "ft")}, "drawdown": of(0, "ft") | {"uncertainty": 0.4}}
    within = NormalDist().cdf(1.0) - NormalDist().cdf(-1.0)
    assert ask(body).chance_feasible == pytest.approx(within, abs=0.01)


def test_an_uncertainty_beyond_all_bounds_is_any_value_that_can_be():
    """Depths from -100 m to 1000 m, all as likely: hardly one is within reach."""
    found = ask(example(**{"depth_to_water": 1e9}))
    assert found.chance_feasible < 0.15


def dirty_strainers(count):
    """Strainers whose clean drop may well be the greater one, which none can be."""
    strainer = {
        "part": "strainer",
        "rated_flow": of(10, "gal/min"),
        "clean_drop": of(1, "psi"),
        "dirty_drop": of(1, "psi"),
    }
    strainer["clean_drop"]["uncertainty"] = strainer["dirty_drop"]["uncertainty"] = 0.3
    body = example()
    body["line"] = [*body["line"][:7], *([strainer] * count), body["line"][8]]
    return body


def doubts_of(answer):
    return [warning.detail for warning in answer.warnings if "off by more than 0.03" in warning.detail]


def test_where_most_draws_cannot_be_it_says_so():
    """Each strainer halves what can be."""
    assert not doubts_of(ask(dirty_strainers(1)))
    (told,) = doubts_of(ask(dirty_strainers(4)))
    assert (
        told
        == "the chance of being feasible may be off by more than 0.03: much of what the uncertainties allow cannot be"
    )


def test_where_the_line_is_too_long_to_be_asked_often_enough_it_says_so():
    """Where the inputs run straight it need not be."""
    body = example(**{"flow": 1.5, "depth_to_water": 0.6})
    piece = {"part": "pipe", "size": {"product": "pe-sidr-15", "nominal": "1"}, "length": of(0.4, "ft")}
    body["line"] = [*body["line"][:5], *([piece] * 100), *body["line"][5:]]
    (told,) = doubts_of(ask(body))
    assert told.endswith("the request is too long to be asked again often enough")
    del body["flow"]["uncertainty"]
    assert not doubts_of(ask(body))


# --- what it costs


class Counting:
    """A headline that counts how often it is asked."""

    def __init__(self):
        self.count = 0

    def __call__(self, request):
        self.count += 1
        return suction_headline(request)


def asked_by(body):
    """How often the function is asked for the chance, beside what the uncertainties take."""
    request = msgspec.convert(body, SuctionFeasibilityRequest)
    stated = stated_quantities(request)
    found = effects(request, stated_inputs(stated), suction_headline)
    headline = Counting()
    chance_feasible(request, suction_headline(request), found, headline, size=len(stated))
    return headline.count


def test_an_ordinary_line_takes_a_few_looks():
    assert asked_by(example(**{"depth_to_water": 0.3, "seasonal_fall": 0.5, "pump/rated_suction_lift": 0.5})) <= 5
    assert asked_by(example(**{"depth_to_water": 0.3, "flow": 0.1, "specific_capacity": 0.1})) <= 11


def test_a_line_that_is_far_from_every_threshold_takes_a_few_looks():
    deep = example(**{"depth_to_water": 0.3, "flow": 0.1}) | {"depth_to_water": of(60, "ft") | {"uncertainty": 0.3}}
    assert asked_by(deep) <= 4


def test_a_line_at_the_edge_takes_no_more_draws_than_are_asked_for():
    assert asked_by(example(**{"flow": 1.5, "depth_to_water": 0.6})) <= DRAWS + 20


# --- its parts


def test_draws_are_normal_and_alike_at_every_call():
    rows = list(normal_draws([(-inf, inf)] * 5, 600))
    assert rows == list(normal_draws([(-inf, inf)] * 5, 600))
    for column in zip(*rows, strict=True):
        assert fmean(column) == pytest.approx(0.0, abs=1e-9)
        assert pstdev(column) == pytest.approx(1.0, abs=0.01)
    assert rows != list(normal_draws([(-inf, inf)] * 5, 600, turn=1))


def test_draws_of_different_inputs_have_nothing_to_do_with_each_other():
    columns = list(zip(*normal_draws([(-inf, inf)] * 8, 600), strict=True))
    for one, other in combinations(columns, 2):
        assert abs(correlation(one, other)) < 0.12, "at three standard deviations of a chance correlation"


def test_draws_are_cut_off_at_the_ends_and_no_stratum_is_lost():
    (column,) = zip(*normal_draws([(-1.0, 2.5)], 600), strict=True)
    assert -1.0 < min(column) < -0.99
    assert 2.4 < max(column) < 2.5
    expected = truncnorm(-1.0, 2.5)
    assert fmean(column) == pytest.approx(expected.mean(), abs=1e-3)
    assert pstdev(column) == pytest.approx(expected.std(), rel=0.01)


@pytest.mark.parametrize("spare", [-0.5, 0.0, 0.5, 1.5])
@pytest.mark.parametrize(
    ("changes", "bends"), [((1.0,), (0.08,)), ((0.8, 0.6), (-0.05, 0.04)), ((0.5, 0.5), (0.05, 0.05))]
)
def test_the_normal_chance_is_mended_for_skewness(spare, changes, bends):
    """Against draws of the second order itself."""
    condition = Condition(spare, changes, bends)
    points = norm.ppf(qmc.Sobol(len(changes), seed=1).random(2**14).clip(1e-9, 1.0 - 1e-9)).tolist()
    share = sum(condition.at(point) >= 0.0 for point in points) / len(points)
    assert abs(condition.skewness) < SKEWED
    assert condition.chance == pytest.approx(share, abs=0.01)


def test_a_condition_without_uncertainty_holds_or_not():
    assert Condition(0.0, (0.0,), (0.0,)).chance == 1.0
    assert Condition(-1e-12, (0.0,), (0.0,)).chance == 0.0
    assert Condition(0.0, (0.0,), (0.0,)).holds
    assert Condition(-1.0, (0.0,), (0.0,)).fails


def test_what_one_condition_has_beyond_another_is_without_what_they_share():
    deep, deeper = Condition(1.0, (-2.0, 0.5), (0.0, 0.1)), Condition(4.0, (-2.0, 0.0), (0.0, 0.0))
    rest = deeper.beyond(deep)
    assert (rest.spare, rest.changes, rest.bends) == (3.0, (0.0, -0.5), (0.0, -0.1))
    assert rest.holds
    assert not deeper.holds


@pytest.mark.parametrize("bent", [1, 2, 3, 4, 7])
def test_one_looks_at_each_bent_input_alone_and_at_all_pairs(bent):
    """Each to both sides, and any two to each pair of sides."""
    condition = Condition(1.0, (0.5,) * (bent + 1), (*[0.1] * bent, 0.0))
    rows = [row[:bent] for row in looks([condition], None)]
    for place in range(bent):
        alone = [row[place] for row in rows if sum(map(bool, row)) == 1 and row[place]]
        assert {-AWAY, AWAY} <= set(alone)
    for one, other in combinations(range(bent), 2):
        sides = {(row[one] > 0.0, row[other] > 0.0) for row in rows if row[one] and row[other]}
        assert len(sides) == 4


def test_one_looks_where_the_deciding_condition_turns():
    condition = Condition(0.6, (0.3, -0.4), (0.0, 0.0))
    *_, root = looks([condition], condition)
    assert condition.at(root) == pytest.approx(0.0, abs=1e-12)


# --- what is said of it


def test_a_chance_is_told_in_words():
    found = ask(example(**{"depth_to_water": 1.0}))
    assert found.reasons[-1].startswith("Counting only the uncertainties that are stated and the scatter of readings, ")
    assert "neither the weather nor the methods' own error, the margin is " in found.reasons[-1]
    assert "give or take 1 ft, and the chance that the line is feasible is 69 %" in found.reasons[-1]


def test_a_chance_on_which_the_margin_has_no_bearing_does_not_tell_of_it():
    body = example()
    body |= {"intake_elevation": of(-25, "ft") | {"uncertainty": 2.0}}
    found = ask(body)
    assert "own error, the chance that the line is feasible is " in found.reasons[-1]
    assert "the margin is " not in found.reasons[-1]


def over_a_crest(elevation, uncertainty):
    """The example's line with its buried pipe laid over a crest."""
    line = deepcopy(EXAMPLE["line"])
    line[5] |= {"length": of(60, "ft"), "end_elevation": of(elevation, "ft") | {"uncertainty": uncertainty}}
    line[8] |= {"length": of(40, "ft")}
    return {"line": line}


@pytest.mark.parametrize(
    ("changes", "fails"),
    [
        ({"depth_to_water": of(15, "ft") | {"uncertainty": 1.5}}, 0),
        (over_a_crest(5.0, 4.0) | {"depth_to_water": of(12, "ft")}, 1),
        (over_a_crest(8.0, 4.0) | {"depth_to_water": of(12, "ft"), "flow": of(1, "gal/min")}, 3),
        ({"intake_elevation": of(-22, "ft") | {"uncertainty": 2.0}}, 4),
    ],
)
def test_the_condition_that_is_likeliest_to_fail_is_named(changes, fails):
    found = ask(example() | changes)
    assert found.chance_feasible < 0.95
    assert f"; what is likeliest to fail: {FAILURES[fails]}." in found.reasons[-1]
    assert [other for other in FAILURES if other in found.reasons[-1]] == [FAILURES[fails]]
    for warning in found.warnings:
        if "with their uncertainties" in warning.detail:
            assert FAILURES[fails] in warning.detail


def test_there_is_a_name_for_each_condition():
    state = suction_state(msgspec.convert(EXAMPLE, SuctionFeasibilityRequest))
    assert len(state.spares) == len(FAILURES) == len(set(FAILURES))


@pytest.mark.parametrize("sunk", [0, 1, 2, 3, 4])
def test_of_draws_the_condition_that_fails_most_often_is_told(sunk):
    """It bends too much for the normal chance; the others fail far more seldom."""

    def spares(one, two):
        return tuple(0.5 - one * one if place == sunk else 1.6 + two for place in range(5))

    found = told_of(spares, 2)
    assert found.method is DRAWN_CHANCE
    assert (found.condition, found.decisive.pointer) == (sunk, "/0")


def test_a_line_that_is_all_but_sure_names_nothing_that_fails_and_no_tiny_spread():
    found = ask(example(**{"depth_to_water": 1e-4}))
    (reason,) = (reason for reason in found.reasons if "chance" in reason)
    assert "give or take hardly anything, and the chance that the line is feasible is more than 99 %." in reason
    assert not any(fails in found.reasons[-1] for fails in FAILURES)


def test_a_doubtful_yes_is_warned_of_at_what_matters_most():
    found = ask(example(**{"depth_to_water": 0.3, "pump/rated_suction_lift": 0.6}))
    assert found.verdict == "feasible"
    (told,) = (warning for warning in found.warnings if "with their uncertainties" in warning.detail)
    assert told.pointer == "/pump/rated_suction_lift"
    assert "the chance is 77 %" in told.detail


def test_a_sure_yes_and_a_no_are_not_warned_of():
    for policy in (0.0, 15.0):
        body = example(**{"depth_to_water": 0.3}) | {"policy": {"margin": of(policy, "ft")}}
        assert not any("with their uncertainties" in warning.detail for warning in ask(body).warnings)


def test_no_chance_without_uncertain_inputs():
    assert ask(EXAMPLE).chance_feasible is msgspec.UNSET
