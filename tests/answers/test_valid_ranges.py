"""Every range of every method: beyond each end an answer warns at the input and its basis says so, and within it does
neither. An end that no request of the contract passes is listed with the reason, and shown to be out of reach."""

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass
from math import isinf
from pathlib import Path
from typing import Any, get_args, get_type_hints

import msgspec
import pytest

import footvalve
from footvalve import physics
from footvalve.answers.endpoints import ENDPOINT
from footvalve.contract.battery_runtime import Battery, Solar
from footvalve.contract.examples import examples
from footvalve.contract.line import Bore, LineFlow
from footvalve.contract.problem import Refused
from footvalve.contract.ranges import range_in
from footvalve.contract.request import Site
from footvalve.contract.site_plan import SitePlanRequest
from footvalve.contract.sounding import StoneDrop, TapePair
from footvalve.contract.suction_feasibility import ReciprocatingPump, SuctionPump
from footvalve.contract.tank_cycle import Switch, TankCycleRequest
from footvalve.contract.well_recovery import WellFlow
from footvalve.physics.atmosphere import atmospheric_pressure, speed_of_sound
from footvalve.physics.cold_capacity import CapacityPoint, cold_capacity
from footvalve.physics.method import Method
from footvalve.physics.pipe_flow import mean_velocity
from footvalve.physics.stone_fall import DRAG_COEFFICIENT, STONE_DENSITY
from footvalve.tables.chemistries import CHEMISTRIES, chemistry
from footvalve.tables.pipes import PIPE_PRODUCTS, nominals, pipe_size

MODULES = [
    importlib.import_module(f"{physics.__name__}.{found.name}") for found in pkgutil.iter_modules(physics.__path__)
]

PIPE_SIZES = [pipe_size(product=name, nominal=nominal) for name in PIPE_PRODUCTS for nominal in nominals(name)]

OF_TABLES = {
    f"cold_capacity of {name}": cold_capacity(
        [CapacityPoint(point.temperature, point.capacity_fraction) for point in chemistry(name).cold_capacity]
    )
    for name in ("agm", "lfp")
}
"""The methods whose range is that of a table, of each table one."""

METHODS: dict[str, Method] = OF_TABLES | {
    name: value for module in MODULES for name, value in vars(module).items() if isinstance(value, Method)
}

ENDS = {
    (name, limit.quantity, end)
    for name, method in METHODS.items()
    for limit in method.ranges
    for end in ("low", "high")
    if not isinf(getattr(limit, end))
}


# Requests


def q(value, unit):
    return {"value": value, "unit": unit}


def site(**fields):
    return {"site": fields}


def bore(millimetres):
    walls = {"roughness": q(0, "mm"), "hazen_williams_coefficient": 150}
    return {"bore": {"diameter": q(millimetres, "mm")} | walls}


def friction(flow, *parts, method="darcy-weisbach", water=12):
    """A line at a flow in L/min, or in L/s where it is told as text, with water of so many degC."""
    told = q(float(flow), "L/s") if isinstance(flow, str) else q(flow, "L/min")
    return {"flow": told, "line": list(parts), "method": method} | site(water_temperature=q(water, "degC"))


def pipe(millimetres, length=1000):
    return {"part": "pipe", "length": q(length, "mm")} | bore(millimetres)


def fitting(name, millimetres):
    return {"part": "fitting", "fitting": name} | bore(millimetres)


def check(millimetres):
    return {"part": "valve", "valve": "swing-check"} | bore(millimetres)


def narrowing(wide, narrow):
    return pipe(wide, 1), {"part": "fitting", "fitting": "sudden-contraction"}, pipe(narrow, 1)


def hazen_williams(flow, millimetres=60, water=12):
    return friction(flow, pipe(millimetres), method="hazen-williams", water=water)


STRAINER = {"part": "strainer", "rated_flow": q(10, "L/min"), "clean_drop": q(2, "kPa")}
IDLE_PUMP = {"part": "idle-pump", "flow": q(10, "L/min"), "drop": q(2, "kPa")}
RESISTANCE = {"part": "resistance", "flow_coefficient": 3, "basis": "Kv"} | bore(26.6)


def example(endpoint, name):
    return deepcopy(next(found.request for found in examples(endpoint) if found.name == name))


def at_altitude(metres):
    return example("suction-feasibility", "us") | site(altitude=q(metres, "m"))


def stroking(per_minute):
    body = example("suction-feasibility", "metric-reciprocating")
    body["pump"]["strokes_per_minute"] = per_minute
    return body


def battery(*, current=10, **changes):
    bank = {"capacity": q(100, "Ah"), "rated_hours": 20, "voltage": q(12, "V"), "temperature": q(25, "degC")}
    bank |= {"chemistry": "agm", "peukert_exponent": 1.2, "floor_fraction": 0.5}
    rest = {name: changes.pop(name) for name in ("wire", "charger", "solar", "site") if name in changes}
    loads = [{"name": "pump", "current": q(current, "A"), "hours_per_day": 24}]
    stated = {name: value for name, value in (bank | changes).items() if value is not None}
    return {"battery": stated, "loads": loads} | rest


def charged(degrees):
    return battery(temperature=q(degrees, "degC"), charger={"currents": [q(20, "A")]})


def sunny(hours):
    return battery(solar={"array_power": q(100, "W"), "sun_hours": [hours], "derate_fraction": 0.7})


def wired(degrees):
    return battery(wire={"length": q(1, "m"), "gauge": "2", "temperature": q(degrees, "degC")})


def in_air_of(degrees, altitude=0):
    return site(air_temperature=q(degrees, "degC"), altitude=q(altitude, "m"))


def stone(*, millimetres=25, delay=0.0, air=12, altitude=0, time=1.5):
    drop = {"times": [q(time, "s")] * 3, "stone_diameter": q(millimetres, "mm"), "reaction_delay": q(delay, "s")}
    return {"measurement": {"method": "stone-drop"} | drop} | in_air_of(air, altitude)


def echo(degrees):
    return {"measurement": {"method": "echo", "times": [q(0.05, "s")]}} | in_air_of(degrees)


def tape(held):
    return {"measurement": {"method": "wetted-tape", "pairs": [{"held": q(held, "m"), "cut": q(1, "m")}]}}


def shown(metres):
    return {"measurement": {"method": "direct", "depths": [q(metres, "m")]}}


def tank(cut_out):
    switch = {"cut_in": q(9, "bar"), "cut_out": q(cut_out, "bar")}
    tanks = [{"volume": q(100, "L"), "precharge": q(8.8, "bar")}]
    return {"tanks": tanks, "switch": switch, "pump": {"flow": q(10, "L/min")}, "demand": q(1, "L/min")}


def plan(cut_out):
    """Without tanks, so that nothing but the pump's mean duty tells of the gas."""
    body = example("site-plan", "us")
    points = ((0, 4, 10), (200, 3, 20))
    body["pump"]["points"] = [
        {"pressure": q(psi, "psi"), "flow": q(flow, "gal/min"), "current": q(amperes, "A")}
        for psi, flow, amperes in points
    ]
    body["switch"] = {"cut_in": q(120, "psi"), "cut_out": q(cut_out, "psi")}
    del body["tanks"]
    return body


def recovery(*drawdowns, **changes):
    """A level that comes to rest at 10 m, read every ten minutes."""
    readings = [
        {"elapsed": q(10 * number, "min"), "depth": q(10 + drawdown, "m")} for number, drawdown in enumerate(drawdowns)
    ]
    casing = {"casing_diameter": q(150, "mm"), "drop_pipe_diameter": q(40, "mm")}
    return {"static_depth": q(10, "m"), "recovery": {"readings": readings}} | casing | changes


RECOVERED = (3.2, 1.6, 0.8, 0.4, 0.2)
"""Half of it in ten minutes: 1.16e-3 a second, so that 3.2 m of drawdown bring 3.6 L/min."""


def pumped(minutes):
    test = {"flow": q(10, "L/min"), "pumping_depth": q(13, "m"), "duration": q(minutes, "min")}
    return {"static_depth": q(10, "m"), "casing_diameter": q(150, "mm"), "pumping_test": test}


# What they leave


@dataclass(frozen=True)
class Beyond:
    """A request that leaves a range at one of its ends, one that does not, and where and how that is told."""

    method: str
    quantity: str
    end: str
    endpoint: str
    outside: dict
    inside: dict
    pointer: str
    words: str = ""

    @property
    def says(self):
        """What is told of nothing else."""
        name = re.escape(METHODS[self.method].name)
        if self.quantity == "reynolds":
            pace = {"low": "slow", "high": "fast"}[self.end]
            return self.words or rf"^the flow is too {pace} \(Reynolds number .*\) for {name}: "
        limit = self.quantity.replace("_", " ")
        return self.words or rf"^{limit} .*lies outside the range of {name}: "

    @property
    def name(self):
        return f"{self.method} {self.quantity} {self.end}, {self.pointer}"


def turbulent(method, slow, quick, torrent, pointer="/line/0"):
    """The two ends of a method's Reynolds numbers; the torrent is of 95 degC and 100 L/s through a pinhole."""
    yield Beyond(method, "reynolds", "low", "friction", slow, quick, pointer)
    yield Beyond(method, "reynolds", "high", "friction", torrent, quick, pointer)


def of_bores(method, small, least, large, greatest, pointer="/line/0"):
    yield Beyond(method, "diameter", "low", "friction", small, least, pointer)
    yield Beyond(method, "diameter", "high", "friction", large, greatest, pointer)


def near_the_known(method, part, field):
    pointer, words = f"/line/0/{field}", "so far off it may be quite wrong"
    for end, outside, inside in (("low", 3.3, 10 / 3), ("high", 30.1, 30)):
        yield Beyond(
            method,
            "flow_over_the_known",
            end,
            "friction",
            friction(outside, part),
            friction(inside, part),
            pointer,
            words,
        )


def line_cases():
    rushing = "100"
    elbow, entrance, push = "elbow-90", "entrance-sharp", "elbow-90-push-to-connect"
    yield from turbulent(
        "DARCY_WEISBACH",
        friction(5, pipe(26.6)),
        friction(7, pipe(26.6)),
        friction(rushing, pipe(1, length=1), water=95),
    )
    for method, name, slow, quick in (
        ("CRANE", elbow, 5, 7),
        ("FIXED_COEFFICIENT", entrance, 5, 7),
        ("PUSH_TO_CONNECT", push, 55, 65),
    ):
        slowly, quickly = (friction(flow, fitting(name, 26.6)) for flow in (slow, quick))
        yield from turbulent(method, slowly, quickly, friction(rushing, fitting(name, 2), water=95))
    yield from turbulent(
        "BORE_CHANGE",
        friction(8, *narrowing(40, 26.6)),
        friction(10, *narrowing(40, 26.6)),
        friction(rushing, *narrowing(3, 2), water=95),
        "/line/1",
    )
    yield from turbulent(
        "CHECK_VALVE", friction(5, check(26.6)), friction(60, check(26.6)), friction(rushing, check(2), water=95)
    )
    yield from of_bores(
        "CRANE",
        friction(10, fitting(elbow, 11.9)),
        friction(10, fitting(elbow, 12)),
        friction("90", fitting(elbow, 601)),
        friction("90", fitting(elbow, 600)),
    )
    yield from of_bores(
        "CHECK_VALVE",
        friction(20, check(11.9)),
        friction(20, check(12)),
        friction("100", check(601)),
        friction("100", check(300)),
    )
    yield Beyond(
        "CHECK_VALVE",
        "velocity_over_the_lifting",
        "low",
        "friction",
        friction(40, check(26.6)),
        friction(50, check(26.6)),
        "/line/0",
        "does not lift the disc fully",
    )
    yield from near_the_known("STRAINER_LAW", STRAINER, "rated_flow")
    yield from near_the_known("SQUARE_LAW", IDLE_PUMP, "flow")
    yield Beyond(
        "FLOW_COEFFICIENT", "reynolds", "low", "friction", friction(5, RESISTANCE), friction(7, RESISTANCE), "/line/0"
    )
    for quantity, end, outside, inside in (
        ("diameter", "low", hazen_williams(60, 49.9), hazen_williams(60, 50)),
        ("velocity", "high", hazen_williams(600), hazen_williams(500)),
        ("water_temperature", "low", hazen_williams(60, water=4.9), hazen_williams(60, water=5)),
        ("water_temperature", "high", hazen_williams(60, water=25.1), hazen_williams(60, water=25)),
        ("reynolds", "low", hazen_williams(12), hazen_williams(16)),
    ):
        yield Beyond("HAZEN_WILLIAMS", quantity, end, "friction", outside, inside, "/line/0")


def suction_cases():
    for end, outside, inside in (("low", -1, 0), ("high", 3001, 3000)):
        yield Beyond(
            "SUCTION_LIFT_RULE",
            "altitude",
            end,
            "suction-feasibility",
            at_altitude(outside),
            at_altitude(inside),
            "/site/altitude",
        )
    yield Beyond(
        "ACCELERATION_HEAD",
        "strokes_per_minute",
        "high",
        "suction-feasibility",
        stroking(1001),
        stroking(1000),
        "/pump/strokes_per_minute",
    )


def sounding_cases():
    of_stone, air = "/measurement/stone_diameter", "/site/air_temperature"
    rows = (
        ("STONE_DROP", "time", "low", stone(time=0.3, delay=0.26), stone(time=0.3, delay=0.25), "/measurement/times/1"),
        ("STONE_DROP", "terminal_speed", "low", stone(millimetres=2, air=-50, altitude=-500), stone(), of_stone),
        ("STONE_DROP", "terminal_speed", "high", stone(millimetres=500, air=60, altitude=5000), stone(), of_stone),
        ("STONE_DROP", "speed_of_sound", "low", stone(air=-50), stone(air=-49), air),
        ("TERMINAL_SPEED", "stone_diameter", "low", stone(millimetres=4.9), stone(millimetres=5), of_stone),
        ("TERMINAL_SPEED", "stone_diameter", "high", stone(millimetres=301), stone(millimetres=300), of_stone),
        ("ECHO", "speed_of_sound", "low", echo(-50), echo(-49), air),
        ("WETTED_TAPE", "held", "high", tape(152.5), tape(152.4), "/measurement/pairs/0/held"),
        ("ELECTRIC_TAPE", "depth", "high", shown(61), shown(60.96), "/measurement/depths/0"),
    )
    for method, quantity, end, outside, inside, pointer in rows:
        yield Beyond(method, quantity, end, "sounding", outside, inside, pointer)


def well_cases():
    readings = "/recovery/readings"
    rows = (
        ("WELL_RECOVERY", "recovered_fraction", "low", recovery(3, 2.5, 2), recovery(*RECOVERED), readings, ""),
        ("WELL_RECOVERY", "recovered_fraction", "low", recovery(3, 3), recovery(*RECOVERED), readings, "no inflow is"),
        ("WELL_RECOVERY", "r_squared", "low", recovery(3, 0.9, 1.5, 0.4), recovery(*RECOVERED), readings, ""),
        ("PUMPING_TEST", "casing_water_fraction", "high", pumped(8), pumped(240), "/pumping_test/duration", ""),
        (
            "PUMPING_TEST",
            "casing_water_fraction",
            "high",
            pumped(5.3),
            pumped(240),
            "/pumping_test",
            "only emptied the",
        ),
        ("PUMPING_TEST", "casing_water_fraction", "high", pumped(2), pumped(240), "/pumping_test", "is wrong$"),
        (
            "WELL_DRAWDOWN",
            "drawdown_over_the_tested",
            "high",
            recovery(*RECOVERED, design_flow=q(4.2, "L/min")),
            recovery(*RECOVERED, design_flow=q(3.6, "L/min")),
            "/design_flow",
            "below the tested level inflow may grow no more",
        ),
        (
            "WELL_DRAWDOWN",
            "drawdown_over_the_tested",
            "high",
            recovery(*RECOVERED, limit_depth=q(13.37, "m")),
            recovery(*RECOVERED, limit_depth=q(13.36, "m")),
            "/limit_depth",
            "and nothing shows it",
        ),
    )
    for method, quantity, end, outside, inside, pointer, words in rows:
        yield Beyond(method, quantity, end, "well-recovery", outside, inside, pointer, words)


def tank_cases():
    words = "no longer nearly an ideal gas"
    for method, endpoint, outside, inside in (
        ("GAS_LAW", "tank-cycle", tank(10.4), tank(10.3)),
        ("FILLING_MEAN", "site-plan", plan(160), plan(150)),
    ):
        yield Beyond(method, "cut_out_absolute", "high", endpoint, outside, inside, "/switch/cut_out", words)


def battery_cases():
    own, air, no_more = "/battery/temperature", "/site/air_temperature", "no more capacity is counted"
    flooded = {"chemistry": "flooded"}
    rows = (
        ("PEUKERT", "exponent", "high", battery(peukert_exponent=1.61), battery(peukert_exponent=1.6)),
        ("PEUKERT", "rated_hours", "low", battery(rated_hours=0.9), battery(rated_hours=1)),
        ("PEUKERT", "rated_hours", "high", battery(rated_hours=101), battery(rated_hours=100)),
        ("PEUKERT", "hours", "low", battery(current=200), battery(current=50)),
        ("PEUKERT", "hours", "high", battery(rated_hours=500, current=0.25), battery(rated_hours=100, current=1.2)),
        ("CONDUCTOR", "temperature", "low", wired(-41), wired(-40)),
        ("CONDUCTOR", "temperature", "high", wired(101), wired(100)),
        ("WARM_AIR", "air_temperature", "high", wired(20) | in_air_of(55.1), wired(20) | in_air_of(55)),
        ("SELF_DISCHARGE", "temperature", "high", charged(31), charged(30)),
        ("PEAK_SUN", "sun_hours", "high", sunny(10.1), sunny(10)),
        ("VENTILATION", "temperature", "high", battery(temperature=q(41, "degC")), battery(temperature=q(40, "degC"))),
    )
    pointers = {"exponent": "/battery/peukert_exponent", "rated_hours": "/battery/rated_hours", "hours": "/loads/0"}
    pointers |= {"sun_hours": "/solar/sun_hours/0", "temperature": own}
    pointers |= {"air_temperature": air}
    for method, quantity, end, outside, inside in rows:
        pointer = "/wire/temperature" if method == "CONDUCTOR" else pointers[quantity]
        words = ["may carry nothing in air above"] if method == "WARM_AIR" else []
        yield Beyond(method, quantity, end, "battery-runtime", outside, inside, pointer, *words)
    for name, outside, inside in (("agm", 49, 48.8), ("lfp", 55.1, 55)):
        hot, warm = (battery(chemistry=name, temperature=q(degrees, "degC")) for degrees in (outside, inside))
        method = f"cold_capacity of {name}"
        yield Beyond(method, "temperature", "high", "battery-runtime", hot, warm, own, no_more)
    hot, warm = (battery(temperature=None, **flooded, **in_air_of(degrees)) for degrees in (41, 40))
    yield Beyond("VENTILATION", "temperature", "high", "battery-runtime", hot, warm, air)
    rated, told = {"capacity": q(80, "Ah")}, "/battery/second_rating/rated_hours"
    quick, slow = (battery(peukert_exponent=None, second_rating=rated | {"rated_hours": hours}) for hours in (0.9, 5))
    yield Beyond("PEUKERT", "rated_hours", "low", "battery-runtime", quick, slow, told)


BEYOND = [
    *line_cases(),
    *suction_cases(),
    *sounding_cases(),
    *well_cases(),
    *tank_cases(),
    *battery_cases(),
]


def ask(endpoint, body):
    found = ENDPOINT[endpoint]
    return found(msgspec.convert({"units": "metric"} | body, found.request))


def told(answer, says):
    return [warning.pointer for warning in answer.warnings if re.search(says, warning.detail)]


def within(answer, method):
    """Whether each step by the method is; one step at least is by it."""
    found = [step.within_range for step in answer.basis if step.method == METHODS[method].name]
    assert found, f"no step of the answer is by {method}"
    return all(found)


@pytest.mark.parametrize("case", BEYOND, ids=lambda case: case.name)
def test_beyond_the_end_of_a_range_an_answer_warns_at_the_input_and_its_basis_says_so(case):
    answer = ask(case.endpoint, case.outside)
    assert case.pointer in told(answer, case.says), [warning.detail for warning in answer.warnings]
    assert not within(answer, case.method)


@pytest.mark.parametrize("case", BEYOND, ids=lambda case: case.name)
def test_within_a_range_an_answer_says_nothing_of_it(case):
    answer = ask(case.endpoint, case.inside)
    assert told(answer, case.says) == []
    assert within(answer, case.method)


# What no request can leave


@dataclass(frozen=True)
class OutOfReach:
    """Ends that no request passes: the reason, and the extremes of what the contract lets in, or a request beyond them
    with the pointer at which it is refused."""

    reason: str
    extremes: Callable[[], list[float]] = list
    refused: tuple[str, dict, str] | None = None


def field(struct, name):
    """The ends of what a field of the contract takes, in SI."""
    return ends_of(get_type_hints(struct, include_extras=True)[name])


def ends_of(annotation: Any) -> list[float]:
    found = range_in(annotation)
    if found is not None:
        return [found[1].low, found[1].high]
    for note in get_args(annotation):
        if isinstance(note, msgspec.Meta) and note.ge is not None and note.le is not None:
            return [note.ge, note.le]
        if ends := ends_of(note):
            return ends
    return []


ALTITUDE = OutOfReach("the site's altitude", lambda: field(Site, "altitude"))
AIR = OutOfReach("the site's air", lambda: field(Site, "air_temperature"))
SOUND = OutOfReach("sound in the warmest air", lambda: [speed_of_sound(temperature=field(Site, "air_temperature")[1])])
GAS_EXPONENT = OutOfReach(
    "the field's own range", lambda: [*field(TankCycleRequest, "gas_exponent"), *field(SitePlanRequest, "gas_exponent")]
)
LEAST_CUT_OUT = OutOfReach(
    "the least cut-out, as high as a site may lie",
    lambda: [field(Switch, "cut_out")[0] + atmospheric_pressure(altitude=field(Site, "altitude")[1])],
)
SHARE = OutOfReach("a share of a whole is neither below nothing nor above all", lambda: [0.0, 1.0])
TOO_COLD = "without a figure for the capacity there is no answer"

OUT_OF_REACH = {
    ("STANDARD_ATMOSPHERE", "altitude", "low"): ALTITUDE,
    ("STANDARD_ATMOSPHERE", "altitude", "high"): ALTITUDE,
    ("NPSH_AVAILABLE", "altitude", "low"): ALTITUDE,
    ("NPSH_AVAILABLE", "altitude", "high"): ALTITUDE,
    **{
        ("AIR_DENSITY", "pressure", end): OutOfReach(
            "the air at any altitude of the contract",
            lambda: [atmospheric_pressure(altitude=altitude) for altitude in field(Site, "altitude")],
        )
        for end in ("low", "high")
    },
    **{(name, "temperature", end): AIR for name in ("AIR_DENSITY", "SPEED_OF_SOUND") for end in ("low", "high")},
    **{
        ("WATER", "temperature", end): OutOfReach("the site's water", lambda: field(Site, "water_temperature"))
        for end in ("low", "high")
    },
    ("ECHO", "speed_of_sound", "high"): SOUND,
    ("STONE_DROP", "speed_of_sound", "high"): SOUND,
    ("STONE_DROP", "time", "high"): OutOfReach(
        "the longest time, of which a delay only takes", lambda: [field(StoneDrop, "times")[1]]
    ),
    **{
        ("TERMINAL_SPEED", "stone_density", end): OutOfReach("a constant", lambda: [STONE_DENSITY])
        for end in ("low", "high")
    },
    **{
        ("TERMINAL_SPEED", "drag_coefficient", end): OutOfReach("a constant", lambda: [DRAG_COEFFICIENT])
        for end in ("low", "high")
    },
    ("WETTED_TAPE", "held", "low"): OutOfReach("the field's own range", lambda: field(TapePair, "held")[:1]),
    **{
        ("RATED_LIFT", "rated_suction_lift", end): OutOfReach(
            "the field's own range", lambda: field(SuctionPump, "rated_suction_lift")
        )
        for end in ("low", "high")
    },
    ("ACCELERATION_HEAD", "strokes_per_minute", "low"): OutOfReach(
        "the field's own range", lambda: field(ReciprocatingPump, "strokes_per_minute")[:1]
    ),
    ("DARCY_WEISBACH", "relative_roughness", "low"): OutOfReach("no wall is less than smooth", lambda: [0.0]),
    ("DARCY_WEISBACH", "relative_roughness", "high"): OutOfReach(
        "a bore that is all wall is refused, and no pipe of the table is",
        lambda: [size.roughness / size.inside_diameter for size in PIPE_SIZES],
        (
            "friction",
            friction(7, pipe(26.6) | {"bore": {"diameter": q(10, "mm"), "roughness": q(0.51, "mm")}}),
            "/line/0/bore/roughness",
        ),
    ),
    ("LAMINAR_FRICTION", "reynolds", "low"): OutOfReach("a flow is above nothing", lambda: ends_of(LineFlow)[:1]),
    ("LAMINAR_FRICTION", "reynolds", "high"): OutOfReach("from there on a pipe is reckoned as turbulent"),
    ("HAZEN_WILLIAMS", "diameter", "high"): OutOfReach("the greatest bore", lambda: field(Bore, "diameter")[1:]),
    ("HAZEN_WILLIAMS", "velocity", "low"): OutOfReach(
        "the least flow in the greatest bore",
        lambda: [mean_velocity(flow=ends_of(LineFlow)[0], diameter=field(Bore, "diameter")[1])],
    ),
    ("GAS_LAW", "cut_out_absolute", "low"): LEAST_CUT_OUT,
    ("FILLING_MEAN", "cut_out_absolute", "low"): LEAST_CUT_OUT,
    **{(name, "gas_exponent", end): GAS_EXPONENT for name in ("GAS_LAW", "FILLING_MEAN") for end in ("low", "high")},
    ("PEUKERT", "exponent", "low"): OutOfReach(
        "the field's own range; two ratings of which the quicker gives more charge are refused",
        lambda: field(Battery, "peukert_exponent")[:1],
        (
            "battery-runtime",
            battery(peukert_exponent=None, second_rating={"capacity": q(110, "Ah"), "rated_hours": 5}),
            "/battery/second_rating",
        ),
    ),
    **{
        (f"cold_capacity of {name}", "temperature", "low"): OutOfReach(
            TOO_COLD,
            refused=(
                "battery-runtime",
                battery(chemistry=name, temperature=q(degrees, "degC")),
                "/battery/temperature",
            ),
        )
        for name, degrees in (("agm", -17.9), ("lfp", -20.1))
    },
    **{
        ("CHARGE_WITH_TAPER", "taper_start", end): OutOfReach(
            "the table's figures", lambda: [chemistry(name).absorption_start_fraction for name in CHEMISTRIES]
        )
        for end in ("low", "high")
    },
    ("PEAK_SUN", "sun_hours", "low"): OutOfReach("the field's own range", lambda: field(Solar, "sun_hours")[:1]),
    ("WELL_DRAWDOWN", "drawdown_over_the_tested", "low"): OutOfReach(
        "a flow above nothing draws the level down", lambda: ends_of(WellFlow)[:1]
    ),
    ("PUMPING_TEST", "casing_water_fraction", "low"): OutOfReach(
        "a test that does not draw the level down is refused",
        refused=("well-recovery", pumped(240) | {"static_depth": q(13, "m")}, "/pumping_test/pumping_depth"),
    ),
    ("WELL_RECOVERY", "recovered_fraction", "high"): SHARE,
    ("WELL_RECOVERY", "r_squared", "high"): SHARE,
}


@pytest.mark.parametrize("end", OUT_OF_REACH, ids=" ".join)
def test_what_the_contract_lets_in_does_not_pass_the_end(end):
    name, quantity, side = end
    known, limit = OUT_OF_REACH[end], METHODS[name].range_of(quantity)
    for value in known.extremes():
        assert value >= limit.low if side == "low" else value <= limit.high, known.reason
    if known.refused is not None:
        endpoint, body, pointer = known.refused
        with pytest.raises(Refused) as refused:
            ask(endpoint, body)
        assert pointer in [fault.pointer for fault in refused.value.faults]


@pytest.mark.parametrize("flow", [3.1, 3.2])
def test_a_laminar_pipe_is_one_below_the_limit(flow):
    """3.157 L/min make Re 2040 in 26.6 mm at 12 degC."""
    methods = {step.method for step in ask("friction", friction(flow, pipe(26.6))).basis}
    assert (METHODS["LAMINAR_FRICTION"].name in methods) == (flow < 3.157)


# That nothing is forgotten


def test_every_end_of_every_range_is_left_by_a_request_or_out_of_reach():
    left, out_of_reach = {(case.method, case.quantity, case.end) for case in BEYOND}, set(OUT_OF_REACH)
    assert left | out_of_reach == ENDS, "a new range needs a request that leaves it, or the reason why none can"
    assert not left & out_of_reach


def test_methods_are_told_apart_by_their_names():
    names = [method.name for name, method in METHODS.items() if name not in OF_TABLES]
    assert len(names) == len(set(names))


def test_a_method_whose_range_comes_from_a_table_is_listed():
    makers = {
        name
        for module in MODULES
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if inspect.signature(function).return_annotation is Method
    }
    assert makers == {"cold_capacity"}


def test_ranges_stand_beside_their_methods_in_physics_alone():
    root = Path(footvalve.__file__).parent
    elsewhere = [path for path in root.rglob("*.py") if path.parent.name != "physics"]
    assert elsewhere
    assert [path.name for path in elsewhere if re.search(r"\bRange\(", path.read_text("utf-8"))] == []


EVERY = [(name, found.name, found.request) for name in ENDPOINT if name != "batch" for found in examples(name)]
EVERY += [(case.endpoint, case.name, case.outside) for case in BEYOND]


@pytest.mark.parametrize(("endpoint", "name", "body"), EVERY, ids=[f"{row[0]}: {row[1]}" for row in EVERY])
def test_a_basis_that_left_a_range_is_never_without_a_warning(endpoint, name, body):
    answer = ask(endpoint, body)
    assert answer.warnings or all(step.within_range for step in answer.basis), name


def test_a_curve_tells_once_of_each_range_that_its_flows_leave_and_the_line_does_not():
    """At 40 L/min all is well; 5 L/min lie between laminar and turbulent, 2 L/min are laminar, and K knows neither."""
    line = [pipe(26.6), fitting("elbow-90", 26.6), pipe(26.6), fitting("elbow-90", 26.6)]
    body = friction(40, *line) | {"flows": [q(flow, "L/min") for flow in (40, 5, 2, 30)]}
    answer = ask("friction", body)
    found = {warning.pointer: warning.detail for warning in answer.warnings}
    assert set(found) == {"/flows/1", "/flows/2"}
    assert re.search(
        r"^at this flow, in pipe .*: the flow is too slow \(Reynolds number .* Darcy-Weisbach", found["/flows/1"]
    )
    assert re.search(
        r"^at this flow, in elbow-90 .*: the flow is too slow \(Reynolds number .* K = n fT", found["/flows/2"]
    )
    within_range = {step.method: step.within_range for step in answer.basis}
    names = ("DARCY_WEISBACH", "LAMINAR_FRICTION", "CRANE")
    assert [within_range[METHODS[name].name] for name in names] == [False, True, False]


def test_a_plan_gathers_a_step_that_one_of_its_lines_leaves():
    """The same friction in both lines: the step is one, and it is outside where one of them is."""
    body = example("site-plan", "us")
    wide = {"diameter": q(80, "mm"), "roughness": q(0, "mm")}
    body["delivery_line"] = [{"part": "pipe", "bore": wide, "length": q(1, "m")}]
    answer = ask("site-plan", body)
    found = [step for step in answer.basis if step.method == METHODS["DARCY_WEISBACH"].name]
    assert [step.within_range for step in found] == [False]
    assert "/delivery_line/0" in told(answer, r"^the flow is too slow \(Reynolds number .* Darcy-Weisbach")
