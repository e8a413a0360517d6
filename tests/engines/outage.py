"""A bank through days of sun and loads by the answer of `battery-runtime`, against its charge followed in time."""

import math
import random
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from typing import Any

from scipy.integrate import solve_ivp

from engines.asking import ask
from engines.bank import Bank, lasting_bank, lost_in_a_day
from engines.comparison import Comparison, compared
from engines.crossing import crossing
from footvalve.tables.chemistries import chemistry

ENGINE = "scipy, charge in time"
DAYLIGHT = 10.0
"""Hours of sun about noon, as the service spreads a day's harvest."""
OUTAGES = 80


def _sun(bank: Bank, hour: float) -> float:
    """A: a half sine about noon whose area is the day's harvest."""
    since_sunrise = hour % 24 - (24 - DAYLIGHT) / 2
    if not 0 < since_sunrise < DAYLIGHT:
        return 0.0
    return bank.harvest * math.pi / (2 * DAYLIGHT) * math.sin(math.pi * since_sunrise / DAYLIGHT)


def _modes(bank: Bank) -> dict[str, tuple[Callable, dict[str, Callable]]]:
    """How the state of charge changes while the bank is drawn on, while it is full, and while the loads are cut off;
    and which crossing leads on to which other mode. What Peukert withholds stays in the bank, so it is reckoned with
    the capacity that these loads get of it. They are cut off at the floor and come back a fifth of the way up."""
    mean = bank.drawn_in_a_day / 24
    capacity = bank.capacity * bank.drawn_in_a_day / lost_in_a_day(bank)
    efficiency = chemistry(bank.kind).charge_efficiency_fraction

    def stored(amperes: float) -> float:
        return (efficiency * amperes if amperes > 0 else amperes) / capacity

    full = crossing(lambda _, s: s[0] - 1.0, upward=True)
    floor = crossing(lambda _, s: s[0] - bank.floor, upward=False)
    back = crossing(lambda _, s: s[0] - bank.floor - 0.2 * (1 - bank.floor), upward=True)
    short = crossing(lambda hour, _: _sun(bank, hour) - mean, upward=False)
    return {
        "draws": (lambda hour, _: [stored(_sun(bank, hour) - mean)], {"full": full, "cut": floor}),
        "full": (lambda *_: [0.0], {"draws": short}),
        "cut": (lambda hour, _: [stored(_sun(bank, hour))], {"draws": back}),
    }


def _followed(bank: Bank) -> tuple[list[float], int]:
    """The state of charge at each full hour, and how often the loads were cut off."""
    modes = _modes(bank)
    now, end, state, mode, course, cuts = 0.0, 24 * bank.days, 1.0, "draws", {0: 1.0}, 0
    while now < end:
        change, ways = modes[mode]
        exact = {"rtol": 1e-9, "atol": 1e-11, "max_step": 1.0, "dense_output": True}
        found = solve_ivp(change, (now, end), [state], events=list(ways.values()), **exact)
        course |= {hour: float(found.sol(hour)[0]) for hour in range(math.ceil(now), math.floor(found.t[-1]) + 1)}
        now, state = float(found.t[-1]), float(found.y[0, -1])
        if found.status == 1:
            mode = next(name for name, times in zip(ways, found.t_events, strict=True) if times.size)
            cuts += mode == "cut"
    return [course[hour] for hour in range(end + 1)], cuts


@cache
def _outages() -> list[tuple[Bank, list[float], list[float], int]]:
    """Banks with their courses as answered and as followed, and how often the loads were cut off."""
    draw = random.Random(2024)
    found = []
    for _ in range(OUTAGES):
        bank = _sunny(draw)
        course = [state.fraction for state in ask("battery-runtime", bank.body()).state_of_charge]
        found.append((bank, course, *_followed(bank)))
    return found


def _sunny(draw: random.Random) -> Bank:
    """A bank with sun for a tenth of its loads to nearly twice as much."""
    bank = lasting_bank(draw, days=6)
    return replace(bank, harvest=bank.drawn_in_a_day * draw.uniform(0.1, 1.8))


def _courses(*, cut_off: bool) -> Iterator[tuple[float, dict[str, Any]]]:
    for bank, ours, theirs, cuts in _outages():
        if (cuts > 0) == cut_off:
            for hour, (one, other) in enumerate(zip(ours, theirs, strict=True)):
                yield 100 * abs(one - other), {"hour": hour, **bank.at}


def state_of_charge() -> Comparison:
    """Outages in which the loads keep on. The service goes by quarter hours: in one in which the sun comes to give less
    than is drawn, what a full bank did not take makes up for the first of the lack."""
    return compared("state of charge", ENGINE, _courses(cut_off=False), bound=0.03, unit="% of full")


def state_of_charge_with_loads_cut_off() -> Comparison:
    """The service cuts off and comes back at the end of a quarter hour, in which these loads draw up to 0.5 % of their
    bank."""
    found = _courses(cut_off=True)
    return compared("state of charge, loads cut off", ENGINE, found, bound=0.6, unit="% of full")
