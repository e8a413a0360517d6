"""Battery banks with their loads, as drawn for the comparisons and as asked, and what Peukert takes of them."""

import random
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from scipy.integrate import solve_ivp

from engines.asking import of

DERATE = 0.7
CHEMISTRIES = ("flooded", "agm", "gel", "lfp")


@dataclass(frozen=True)
class Bank:
    """A bank at 25 degC in V and Ah, its loads in A with their hours a day, and what comes in."""

    kind: str
    voltage: float
    capacity: float
    rated_hours: float
    exponent: float
    floor: float
    loads: tuple[tuple[float, float], ...]
    days: int = 1
    harvest: float = 0.0
    charger: float = 0.0

    @property
    def at(self) -> dict[str, Any]:
        """What tells this bank from the others."""
        loads = [f"{amperes:.2f} A for {hours:.1f} h" for amperes, hours in self.loads]
        return {"kind": self.kind, "Ah": self.capacity, "k": self.exponent, "floor": self.floor, "loads": loads} | {
            "sun Ah": self.harvest
        }

    def body(self) -> dict[str, Any]:
        """The question to `battery-runtime`. The array is as large as the harvest wants it at four hours of sun."""
        extra = {}
        if self.harvest:
            array = self.harvest * self.voltage / (4.0 * DERATE)
            extra["solar"] = {"array_power": of(array, "W"), "sun_hours": [4.0], "derate_fraction": DERATE}
        if self.charger:
            extra["charger"] = {"currents": [of(self.charger, "A")]}
        return {
            "units": "metric",
            "battery": {
                "chemistry": self.kind,
                "capacity": of(self.capacity, "Ah"),
                "rated_hours": self.rated_hours,
                "voltage": of(self.voltage, "V"),
                "peukert_exponent": self.exponent,
                "temperature": of(25.0, "degC"),
                "floor_fraction": self.floor,
            },
            "loads": [{"current": of(amperes, "A"), "hours_per_day": hours} for amperes, hours in self.loads],
            "days": self.days,
            **extra,
        }

    @property
    def drawn_in_a_day(self) -> float:
        """The charge in Ah that the loads draw in a day."""
        return sum(amperes * hours for amperes, hours in self.loads)

    def drawn_at(self, hour: float) -> float:
        """The current in A at an hour of the day when all loads start together at its beginning."""
        return sum(amperes for amperes, hours in self.loads if hour < hours)

    def lost_at(self, hour: float) -> float:
        """The same in the charge of the rating: I (I / I_H)^(k - 1) above the rated current I_H, after Peukert."""
        current, rated = self.drawn_at(hour), self.capacity / self.rated_hours
        return current * max(1.0, current / rated) ** (self.exponent - 1)


def drawn_bank(draw: random.Random, *, loads: tuple[tuple[float, float], ...] = (), **more: Any) -> Bank:
    """A bank of any chemistry with these loads, or with one to four of some hours."""
    kind = draw.choice(CHEMISTRIES)
    return Bank(
        kind=kind,
        voltage=draw.choice([12.0, 24.0, 48.0]),
        capacity=draw.uniform(60, 400),
        rated_hours=draw.choice([10.0, 20.0, 100.0]),
        exponent=draw.uniform(1.0, 1.4),
        floor=draw.uniform(0.1, 0.6),
        loads=loads or tuple((draw.uniform(0.1, 6.0), draw.uniform(0.5, 23.5)) for _ in range(draw.randint(1, 4))),
        **more,
    )


def lasting_bank(draw: random.Random, **more: Any) -> Bank:
    """A bank that holds its loads' charge of two days to eight."""
    bank = drawn_bank(draw, **more)
    return replace(bank, capacity=bank.drawn_in_a_day * draw.uniform(2.0, 8.0))


def lost_in_a_day(bank: Bank) -> float:
    """Ah of the rating that a day takes, from load's end to load's end."""
    lost, edges = 0.0, sorted({0.0, 24.0, *(hours for _, hours in bank.loads)})
    for start, end in pairwise(edges):
        middle = (start + end) / 2
        lost += solve_ivp(lambda _, __, hour=middle: [bank.lost_at(hour)], (start, end), [0.0], rtol=1e-10).y[0, -1]
    return float(lost)
