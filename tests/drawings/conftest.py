"""What the tests of the drawings share: sites of many kinds with their answers, and a reader of what was drawn."""

import re
from collections.abc import Callable, Iterator
from copy import deepcopy
from dataclasses import dataclass
from xml.etree import ElementTree

import pytest

from footvalve.answers.endpoints import ENDPOINT
from footvalve.contract.examples import examples
from footvalve.contract.faults import fitted
from footvalve.drawings.lettering import text_width

SVG = "{http://www.w3.org/2000/svg}"
NASTY = """<script>alert("&'")</script> ]]> --> ${x} {{ 7 * 7 }}"""


@dataclass(frozen=True)
class Site:
    """A request with what the service answers."""

    request: object
    answer: object


def answered(endpoint: str, body: dict) -> Site:
    request = fitted(body, ENDPOINT[endpoint].request)
    return Site(request, ENDPOINT[endpoint](request))


def example(endpoint: str, name: str) -> dict:
    """The body of an example, to be changed at will."""
    return deepcopy(next(e.request for e in examples(endpoint) if e.name == name))


def feet(value: float) -> dict:
    return {"value": value, "unit": "ft"}


def pipe(length: float, end: float | None = None, name: str = "pipe", nominal: str = "1") -> dict:
    size = {"product": "pe-sidr-15", "nominal": nominal}
    return {"part": "pipe", "name": name, "size": size, "length": feet(length)} | (
        {} if end is None else {"end_elevation": feet(end)}
    )


def elbow(name: str = "elbow") -> dict:
    return {"part": "fitting", "name": name, "fitting": "elbow-90"}


def suction_bodies() -> Iterator[tuple[str, dict]]:
    """Suction lines of every kind that a drawing must cope with."""
    for shipped in examples("suction-feasibility"):
        yield shipped.name, shipped.request
    plain = example("suction-feasibility", "us")
    crest = [pipe(40, 1), elbow(), pipe(300, -3), pipe(12, 6, "over the joist"), elbow(), pipe(11, -4), pipe(2, -4)]
    lines = {
        "marginal": {"line": [pipe(60, -5), elbow(), pipe(90, -5), pipe(5, -4)], "flow": _gallons(5.2)},
        "crest": {"line": crest},
        "flowing well": {"line": crest, "depth_to_water": feet(-5)},
        "pump below the water": {"line": [pipe(60, 2), pipe(60, -30)], "pump": plain["pump"] | _inlet(-30)},
        "intake far below": {"line": [pipe(300, -5), elbow(), pipe(40, -5), pipe(5, -4)]},
        "water far below": {"line": [pipe(320, -5), pipe(5, -4)], "depth_to_water": feet(300)},
        "choked": {"line": [pipe(60, -5, nominal="1/2"), pipe(140, -4, nominal="1/2")], "flow": _gallons(30)},
        "intake dry": {"line": [pipe(8, -5), pipe(5, -4)]},
        "all level": {"line": [pipe(5, -20), pipe(5, -20)], "pump": plain["pump"] | _inlet(-20)},
        "forty parts": {
            "line": [pipe(9, None if i else -50, NASTY) if i % 4 == 0 else elbow(NASTY) for i in range(40)]
        },
        "long names": {"line": [pipe(60, -5, "W" * 80), elbow("漢" * 80), pipe(40, -4, "\U0001f6b0" * 80)]},
        "hot and high": {"site": {"altitude": {"value": 5000, "unit": "m"}, "water_temperature": _celsius(95)}},
    }
    lines["unsure"] = {
        "depth_to_water": feet(15.4) | {"uncertainty": 1.25},
        "pump": plain["pump"] | {"rated_suction_lift": feet(26) | {"uncertainty": 1.15}},
    }
    for name, changes in lines.items():
        yield name, plain | changes
        yield f"{name}, metric", plain | changes | {"units": "metric"}


def _gallons(value: float) -> dict:
    return {"value": value, "unit": "gal/min"}


def _celsius(value: float) -> dict:
    return {"value": value, "unit": "degC"}


def _inlet(elevation: float) -> dict:
    return {"inlet_elevation": feet(elevation)}


SUCTION_BODIES = dict(suction_bodies())


@pytest.fixture(params=SUCTION_BODIES.values(), ids=SUCTION_BODIES.keys())
def suction(request) -> Site:
    """Each kind of suction line in turn."""
    return answered("suction-feasibility", request.param)


@pytest.fixture(params=[e.request for e in examples("site-plan")], ids=[e.name for e in examples("site-plan")])
def plan(request) -> Site:
    """Each example of a site plan in turn."""
    return answered("site-plan", request.param)


@pytest.fixture(scope="session")
def ask() -> Callable[[str, dict], Site]:
    """Ask an endpoint."""
    return answered


@pytest.fixture(scope="session")
def example_of() -> Callable[[str, str], dict]:
    return example


@pytest.fixture(scope="session")
def nasty() -> str:
    """A name that would break out of markup that is not escaped."""
    return NASTY


@dataclass(frozen=True)
class Label:
    """A text of a drawing with the room that it is estimated to take."""

    text: str
    role: str
    left: float
    right: float
    top: float
    bottom: float

    def lies_on(self, other: "Label") -> bool:
        beside = self.right <= other.left or other.right <= self.left
        return not (beside or self.bottom <= other.top or other.bottom <= self.top)


class Reading:
    """A drawing as it is read back from its SVG text."""

    def __init__(self, markup: str) -> None:
        self.root = ElementTree.fromstring(markup)
        self.width, self.height = map(float, self.root.attrib["viewBox"].split()[2:])
        self.title = self.root.findtext(f"{SVG}title")
        self.description = self.root.findtext(f"{SVG}desc")

    def of_role(self, role: str) -> list[ElementTree.Element]:
        return [element for element in self.root.iter() if element.get("class") == role]

    def points_of(self, role: str) -> list[list[tuple[float, float]]]:
        return [_points(element) for element in self.of_role(role)]

    @property
    def labels(self) -> list[Label]:
        return [_label(element) for element in self.root.iter(f"{SVG}text")]

    @property
    def corners(self) -> Iterator[tuple[float, float]]:
        """Every point that is drawn, and every corner of a label."""
        for element in self.root.iter():
            if "points" in element.attrib:
                yield from _points(element)
            elif element.tag == f"{SVG}circle":
                x, y, r = (float(element.attrib[name]) for name in ("cx", "cy", "r"))
                yield from ((x - r, y - r), (x + r, y + r))
        for label in self.labels:
            yield from ((label.left, label.top), (label.right, label.bottom))


def _points(element: ElementTree.Element) -> list[tuple[float, float]]:
    numbers = [float(number) for number in re.split("[ ,]", element.attrib["points"])]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def _label(element: ElementTree.Element) -> Label:
    text, size = element.text or "", float(element.attrib["font-size"])
    width = text_width(text, size, bold=element.get("font-weight") == "bold")
    x, y = float(element.attrib["x"]), float(element.attrib["y"])
    left = {"start": x, "middle": x - width / 2, "end": x - width}[element.attrib["text-anchor"]]
    return Label(text, element.get("class", ""), left, left + width, y - 0.75 * size, y + 0.15 * size)


@pytest.fixture(scope="session")
def box() -> type[Label]:
    """The room that something takes."""
    return Label


@pytest.fixture(scope="session")
def read() -> Callable[[str], Reading]:
    """Read a drawing back."""
    return Reading
