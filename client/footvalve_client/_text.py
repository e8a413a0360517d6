"""From a quantity as people write it to a number and a unit of the contract: "14 ft", "5 gpm", `100' 6"`, "1/2 in"."""

import re
from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from fractions import Fraction
from typing import Final

_NUMBER: Final = r"(?:\d+\.?\d*|\.\d+)"
_FRACTION: Final = r"(?:(?P<whole>\d{1,9})(?:-|\s+))?(?P<over>\d{1,9})/(?P<under>\d{1,9})"

_DECIMAL: Final = re.compile(rf"(?P<number>[+-]?{_NUMBER}(?:[eE][+-]?\d+)?)\s*(?P<unit>.*)", re.ASCII | re.DOTALL)
_FRACTIONAL: Final = re.compile(rf"(?P<sign>[+-]?){_FRACTION}(?P<unit>(?![\d/.]).*)", re.ASCII | re.DOTALL)
_FEET_AND_INCHES: Final = re.compile(
    r"(?P<sign>[+-]?)(?P<feet>[0-9]{1,9})\s*(?P<feet_unit>[^\W\d]+\.?|['\u2032\u2019])(?:\s*|-)(?P<inches>[0-9].*)",
    re.DOTALL,
)
_INCHES_IN_A_FOOT: Final = 12
_GIVE_OR_TAKE: Final = re.compile(r"\u00b1|\+/-|\+-")
_ENDS_IN_A_NUMBER: Final = re.compile(r".*[\d.]", re.ASCII | re.DOTALL)


class TextReader:
    """Reads the quantities of one dimension."""

    def __init__(self, spellings: Mapping[str, str], units: Sequence[str]) -> None:
        """From the unit that each spelling means, in small letters, and the units as the contract has them."""
        self._spellings = spellings
        self._units = units

    def read_uncertain(self, text: str) -> tuple[tuple[float, str], tuple[float, str] | None]:
        """Number and unit, and those of the standard uncertainty behind a plus-minus sign, None without one.

        The unit may stand behind both or behind the second alone. Raises ValueError, saying what is wrong.
        """
        value, *behind = _GIVE_OR_TAKE.split(text)
        if not behind:
            return self.read(value), None
        if len(behind) > 1:
            raise ValueError("expected one plus-minus sign")
        uncertainty, unit = self.read(behind[0])
        if uncertainty < 0.0:
            raise ValueError("an uncertainty is not below zero")
        if _ENDS_IN_A_NUMBER.fullmatch(value.strip()):
            value = f"{value.strip()} {unit}"
        return self.read(value), (uncertainty, unit)

    def read(self, text: str) -> tuple[float, str]:
        """Number and unit. Raises ValueError, saying what is wrong."""
        text = text.strip()
        compound = _FEET_AND_INCHES.fullmatch(text)
        if compound and self._means(compound["feet_unit"]) == "ft":
            return self._feet_and_inches(compound), "ft"
        number, unit = _number_and_rest(text)
        return float(number), self._unit(unit)

    def _feet_and_inches(self, match: re.Match[str]) -> float:
        """In feet; a minus sign before them holds for both."""
        inches, unit = _number_and_rest(match["inches"])
        if self._unit(unit) != "in":
            raise ValueError("expected inches after the feet")
        if inches >= _INCHES_IN_A_FOOT:
            raise ValueError("expected less than 12 inches after the feet")
        feet = int(match["feet"]) + Fraction(inches) / _INCHES_IN_A_FOOT
        return float(-feet if match["sign"] == "-" else feet)

    def _unit(self, written: str) -> str:
        unit = self._means(written)
        if unit is not None:
            return unit
        if not written:
            raise ValueError("the unit is missing")
        if written.startswith(","):
            raise ValueError("expected a number without a comma")
        raise ValueError(f"{written!r} is none of its units{self._hint(written)}")

    def _means(self, written: str) -> str | None:
        """The unit as the contract spells it; None for what means none."""
        if written in self._units:
            return written
        return self._spellings.get(" ".join(written.casefold().split()))

    def _hint(self, written: str) -> str:
        near = get_close_matches(written.casefold()[:80], self._spellings, n=1)
        return f" (did you mean {self._spellings[near[0]]}?)" if near else ""


def _number_and_rest(text: str) -> tuple[float | Fraction, str]:
    """The number that the text begins with, and what is behind it. Raises ValueError."""
    if match := _FRACTIONAL.fullmatch(text):
        return _fraction(match), match["unit"].strip()
    if match := _DECIMAL.fullmatch(text):
        return float(match["number"]), match["unit"]
    raise ValueError("expected a number, then its unit")


def _fraction(match: re.Match[str]) -> Fraction:
    over, under, whole = int(match["over"]), int(match["under"]), match["whole"]
    if under == 0 or (whole and over >= under):
        raise ValueError("expected a fraction such as 1/2 or 1-1/4")
    size = int(whole or 0) + Fraction(over, under)
    return -size if match["sign"] == "-" else size
