"""The quantities of the contract, and what leads from one of their units to another."""

from dataclasses import dataclass
from fractions import Fraction

import pint

from generator.closed_lists import ClosedList
from generator.contract import Contract

_SPELLED_FOR_PINT = {"mH2O": "meter * kilogram / liter * standard_gravity"}
"""pint has the conventional foot of water, but would take this for a milli-H2O. 1000 kg/m^3 under standard gravity, as
in NIST SP 811 (2008), Appendix B.8."""


@dataclass(frozen=True, slots=True)
class QuantityType:
    """A dimension of the contract: its name, what it is, its units, how people write them, and what it looks like."""

    name: str
    description: str
    units: ClosedList
    spellings: dict[str, str]
    examples: tuple[str, ...]


def quantity_types(contract: Contract, lists: dict[tuple[str, str], ClosedList]) -> list[QuantityType]:
    """The quantities of the contract, sorted by name.

    Raises ValueError where one has a field that the hand-written `Quantity` does not convert.
    """
    found = []
    for name, schema in sorted(contract.objects.items()):
        fields = schema["properties"].keys()
        if {"value", "unit"} <= fields:
            if fields != {"value", "unit", "uncertainty"}:
                raise ValueError(f"{name} has the fields {', '.join(fields)}: teach Quantity.to about them first")
            spellings = schema["properties"]["unit"]["x-spellings"]
            examples = tuple(f"{example['value']:g} {example['unit']}" for example in schema["examples"])
            found.append(QuantityType(name, schema["description"], lists[name, "unit"], spellings, examples))
    return found


class Conversions:
    """What pint knows of the units of a contract, reckoned in exact fractions and rounded once."""

    def __init__(self) -> None:
        self._exact = pint.UnitRegistry(non_int_type=Fraction, autoconvert_offset_to_baseunit=True)
        self._usual = pint.UnitRegistry()

    def spelled(self, unit: str) -> str:
        """The unit as pint spells it, so that a quantity made by pint is known again."""
        return f"{self._usual.Unit(_SPELLED_FOR_PINT.get(unit, unit)):D}"

    def between(self, unit: str, other: str) -> tuple[float, float]:
        """Factor and offset: value in `other` = value in `unit` * factor + offset."""
        zero, one = (
            self._exact.Quantity(Fraction(n), self.spelled(unit)).to(self.spelled(other)).magnitude for n in (0, 1)
        )
        return float(one - zero), float(zero)
