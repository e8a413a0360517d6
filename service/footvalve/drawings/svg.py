"""A drawing in black, white and greys, element by element. The XML library escapes whatever text comes into it."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Final, Literal
from xml.etree import ElementTree

from footvalve.drawings.clipping import Point

Anchor = Literal["start", "middle", "end"]

TEXT_SIZE: Final = 12.0
"""Of a drawing 720 wide; printed 180 mm wide, that is 3 mm."""

_SVG = "http://www.w3.org/2000/svg"
_FACES = "Helvetica, Arial, Liberation Sans, sans-serif"
_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line is drawn."""

    width: float
    dashes: str = ""
    shade: str = "black"


class Drawing:
    """An SVG drawing with a text alternative. Its identifier tells it from the others of one page."""

    def __init__(self, identifier: str, size: tuple[float, float], *, title: str, description: str) -> None:
        width, height = map(_number, size)
        self._identifier = identifier
        self._root = ElementTree.Element(
            "svg",
            {
                "xmlns": _SVG,
                "viewBox": f"0 0 {width} {height}",
                "width": width,
                "height": height,
                "role": "img",
                "aria-labelledby": f"{identifier}-title {identifier}-description",
                "font-family": _FACES,
                "font-size": _number(TEXT_SIZE),
            },
        )
        self._add("title", {"id": f"{identifier}-title"}, title)
        self._add("desc", {"id": f"{identifier}-description"}, description)
        self._hatching()
        self._add("rect", {"width": width, "height": height, "fill": "white"})

    @property
    def markup(self) -> str:
        """The drawing as SVG text."""
        return ElementTree.tostring(self._root, encoding="unicode")

    def line(self, points: Sequence[Point], pen: Pen, role: str = "") -> None:
        """A line through the points."""
        self._add("polyline", {"points": _points(points), "fill": "none", **_stroke(pen), **_class(role)})

    def area(self, points: Sequence[Point], fill: str, pen: Pen | None = None, role: str = "") -> None:
        """A closed area: filled with a shade, or with "hatching"."""
        shade = f"url(#{self._identifier}-hatching)" if fill == "hatching" else fill
        edge = _stroke(pen) if pen else {}
        self._add("polygon", {"points": _points(points), "fill": shade, **edge, **_class(role)})

    def circle(self, centre: Point, radius: float, pen: Pen, role: str = "") -> None:
        """A circle, white inside."""
        x, y = map(_number, centre)
        self._add("circle", {"cx": x, "cy": y, "r": _number(radius), "fill": "white", **_stroke(pen), **_class(role)})

    def text(
        self,
        at: Point,
        content: str,
        *,
        anchor: Anchor = "start",
        size: float = TEXT_SIZE,
        bold: bool = False,
        role: str = "",
    ) -> None:
        """A line of text on its base line, with a white rim that keeps it clear of what it lies on."""
        x, y = map(_number, at)
        look = {"font-size": _number(size), **({"font-weight": "bold"} if bold else {})}
        rim = {"stroke": "white", "stroke-width": "3", "stroke-linejoin": "round", "paint-order": "stroke"}
        self._add("text", {"x": x, "y": y, "text-anchor": anchor, **look, **rim, **_class(role)}, content)

    def _hatching(self) -> None:
        pattern = ElementTree.SubElement(
            ElementTree.SubElement(self._root, "defs"),
            "pattern",
            {"id": f"{self._identifier}-hatching", "width": "7", "height": "7", "patternUnits": "userSpaceOnUse"},
        )
        ElementTree.SubElement(pattern, "path", {"d": "M-1,1 l2,-2 M0,7 l7,-7 M6,8 l2,-2", **_stroke(Pen(0.8))})

    def _add(self, tag: str, attributes: dict[str, str], content: str = "") -> None:
        element = ElementTree.SubElement(self._root, tag, attributes)
        if content:
            element.text = _NOT_XML.sub("\ufffd", content)


def _number(value: float) -> str:
    """A coordinate to a tenth. Raises ArithmeticError for what is no number."""
    if not isfinite(value):
        raise ArithmeticError(f"{value} has no place in a drawing")
    return f"{round(value, 1) + 0.0:g}"


def _points(points: Sequence[Point]) -> str:
    return " ".join(f"{_number(x)},{_number(y)}" for x, y in points)


def _stroke(pen: Pen) -> dict[str, str]:
    dashed = {"stroke-dasharray": pen.dashes} if pen.dashes else {}
    return {"stroke": pen.shade, "stroke-width": _number(pen.width), **dashed}


def _class(role: str) -> dict[str, str]:
    return {"class": role} if role else {}
