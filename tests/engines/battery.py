"""What a bank gives and how it comes back by the answer of `battery-runtime`, against its charge followed in time."""

import math
import random
from collections.abc import Iterator
from typing import Any

from scipy.integrate import solve_ivp

from engines.asking import ask
from engines.bank import Bank, drawn_bank, lasting_bank, lost_in_a_day
from engines.comparison import SIX_DIGITS, Comparison, apart, compared
from engines.crossing import crossing
from footvalve.tables.chemistries import Chemistry, chemistry

ENGINE = "scipy, charge in time"
HOURS_A_MONTH = 365.25 / 12 * 24


def _hours_to_floor(bank: Bank) -> float:
    """When a steady draw has taken what lies above the floor, measured at the rated current."""
    at_floor = crossing(lambda _, lost: lost[0] - (1 - bank.floor) * bank.capacity, upward=True)
    found = solve_ivp(lambda _, __: [bank.lost_at(0.0)], (0, 1e6), [0.0], events=at_floor, rtol=1e-10)
    return float(found.t_events[0][0])


def runtime() -> Comparison:
    """Loads that run day and night: the answer's six digits, and as much again for the integrator."""
    draw = random.Random(1897)
    banks = [drawn_bank(draw, loads=((draw.uniform(0.5, 60.0), 24.0),)) for _ in range(150)]
    found = (
        (apart(ask("battery-runtime", bank.body()).runtime.base / 3600, _hours_to_floor(bank)), bank.at)
        for bank in banks
    )
    return compared("battery's runtime", ENGINE, found, bound=2 * SIX_DIGITS)


def charge_after_days() -> Comparison:
    """Loads of some hours, laid over each other at the day's beginning as the service takes the worst of days: what is
    left at each midnight above the floor, to the answer's six digits and as much again for the integrator."""

    def deviations() -> Iterator[tuple[float, dict[str, Any]]]:
        draw = random.Random(1952)
        for _ in range(100):
            bank = lasting_bank(draw, days=8)
            course = ask("battery-runtime", bank.body()).state_of_charge
            for day in range(1, 9):
                left = 1 - day * lost_in_a_day(bank) / bank.capacity
                if left > bank.floor:
                    yield 100 * abs(course[24 * day].fraction - left), {"day": day, **bank.at}

    return compared("charge after days of loads", ENGINE, deviations(), bound=200 * SIX_DIGITS, unit="% of full")


# Charging


def _hours_to_full(bank: Bank, kind: Chemistry) -> float | None:
    """From the floor to full, or None where a month on the charger does not make up for what the loads
    that run day and night and the bank itself take."""
    net = bank.charger - sum(amperes for amperes, hours in bank.loads if hours == 24.0)
    itself = kind.self_discharge_fraction_per_month * bank.capacity / HOURS_A_MONTH
    efficiency, taper = kind.charge_efficiency_fraction, kind.absorption_start_fraction
    month = solve_ivp(lambda *_: [efficiency * net - itself], (0, HOURS_A_MONTH), [0.0]).y[0, -1]
    if month <= 0:
        return None

    told = kind.absorption_start_rate * bank.capacity

    def accepted(_, wanting):
        falling = told * max(wanting[0] / (1 - taper), math.exp(-3))
        return [-efficiency / bank.capacity * min(net, falling)]

    # From corner to corner of the acceptance, as an integrator steps over one that it does not know.
    corners = ((1 - taper) * net / told, (1 - taper) * math.exp(-3), 0.0)
    wanting, hours = 1 - bank.floor, 0.0
    for corner in corners:
        if corner < wanting:
            event = crossing(lambda _, g, end=corner: g[0] - end, upward=False)
            found = solve_ivp(accepted, (0, 1e7), [wanting], events=event, rtol=1e-10, atol=1e-13)
            wanting, hours = corner, hours + float(found.t_events[0][0])
    return hours


def recharge() -> Comparison:
    """Constant current until the acceptance, which falls with what is wanting down to e^-3, is less; and hours at all
    only where the charger outruns standing loads and self-discharge. The answer's six digits, and as much for the
    integrator."""

    def deviations() -> Iterator[tuple[float, dict[str, Any]]]:
        draw = random.Random(1850)
        for _ in range(120):
            standing, pump = draw.uniform(0.05, 2.0), (draw.uniform(1.0, 10.0), draw.uniform(0.5, 6.0))
            more = draw.choice([draw.uniform(-0.05, 0.05), draw.uniform(1, 40)])
            bank = drawn_bank(draw, loads=((standing, 24.0), pump), charger=standing + more)
            (found,) = ask("battery-runtime", bank.body()).recharge
            hours = _hours_to_full(bank, chemistry(bank.kind))
            at = {"charger A": bank.charger, **bank.at}
            if hours is None or not found.holds:
                yield (math.inf if (hours is not None) or found.holds else 0.0), at
            else:
                yield apart(found.hours, hours), at

    return compared("hours of recharge", ENGINE, deviations(), bound=2 * SIX_DIGITS)
