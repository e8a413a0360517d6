"""The chance that a verdict is `feasible`, by the uncertainties of the inputs.

Where one condition decides and runs as the second order says, as looks around show, the chance is that of this
condition. Everywhere else the function that answers is asked at many draws of the inputs.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import Any

from footvalve.answers.chance_condition import Condition, conditions
from footvalve.answers.chance_draws import normal_draws
from footvalve.answers.chance_looks import is_cut_off, looks
from footvalve.answers.headline import Headline
from footvalve.answers.propagation import Effect, headline_at
from footvalve.answers.uncertain_inputs import UncertainInput
from footvalve.physics.method import Method

NORMAL_CHANCE = Method(
    "Normal distribution of what the deciding condition has to spare, mended for its skewness",
    "JCGM 100:2008, G.2.1; first term of Edgeworth's series: Cramer, Mathematical Methods of Statistics (1946), "
    "17.7, from memory",
    note="one deciding condition that runs nearly straight, as was made sure of here",
)
DRAWN_CHANCE = Method(
    "Share of draws of the uncertain inputs with which the verdict is feasible: each input normal, in equal strata; "
    "draws that cannot be are left out",
    "JCGM 101:2008, 5.9.6 and 7; strata: McKay, Beckman & Conover, Technometrics 21 (1979) 239",
    note="good to 0.03",
)

DRAWS = 600
"""With these the share of draws is good to 0.02, as many lines near a threshold show."""

LEAST_DRAWS = 400
"""With fewer draws the share is called rough."""

TURNS = 3
"""How often so many are drawn where some cannot be, until there are enough that can."""

WORK = 40_000
"""Draws times quantities of the request that one answer may cost (own choice)."""

SKEWED = 0.5
"""Skewness up to which the mended normal chance is good to 0.01."""

OFF = 0.05
"""Standard uncertainties by which the deciding condition may run off the second order: a chance of 0.02."""

OFF_WHERE_SETTLED = 0.15
"""Part of what it has to spare, by which a settled condition may run off the second order."""


TOO_LONG = "the request is too long to be asked again often enough"
IMPOSSIBLE = "much of what the uncertainties allow cannot be"


@dataclass(frozen=True, slots=True)
class Chance:
    """A chance from 0 to 1, how it was found, the place among the spares of the condition that fails first, the input
    that matters most to it, and why the chance may not be good to 0.03; nothing where it is."""

    value: float
    method: Method
    condition: int
    decisive: UncertainInput
    doubt: str = ""

    @property
    def is_sure(self) -> bool:
        """Whether it is good to 0.03."""
        return not self.doubt


def chance_feasible(
    request: Any,
    centre: Headline,
    found: Sequence[Effect],
    headline: Callable[[Any], Headline],
    *,
    size: int,
    most_draws: int = DRAWS,
) -> Chance:
    """The chance that every condition has something to spare. `size` is the number of the request's quantities."""
    line = _UncertainLine(request, found, headline)
    known = conditions(centre, found)
    lowest = min(range(len(known)), key=lambda place: known[place].standing)
    order = _by_weight(found, known[lowest])
    settled = _settled(known, lowest)
    if settled is not None and line.runs_so(known, settled):
        return Chance(settled.chance, NORMAL_CHANCE, lowest, found[order[0]].input)
    draws = min(most_draws, WORK // size)
    drawn = line.drawn(order, draws)
    doubt = TOO_LONG if draws < LEAST_DRAWS else IMPOSSIBLE if len(drawn) < draws else ""
    if not drawn:
        return Chance(known[lowest].chance, NORMAL_CHANCE, lowest, found[order[0]].input, doubt)
    failing = Counter(place for place in drawn if place is not None)
    first = max(failing, key=failing.__getitem__, default=lowest)
    decisive = found[_by_weight(found, known[first])[0]].input
    return Chance(1.0 - failing.total() / len(drawn), DRAWN_CHANCE, first, decisive, doubt)


def _by_weight(found: Sequence[Effect], condition: Condition) -> list[int]:
    """The places of the inputs, what matters most to a condition first."""
    return sorted(range(len(found)), key=lambda place: (not found[place].is_lost, -condition.weight(place)))


@dataclass(frozen=True, slots=True)
class _Settled:
    """A chance by the second order: the places of the conditions that it stands on, and whether they are open, so that
    they must run so to a hair."""

    chance: float
    places: Sequence[int]
    is_open: bool

    def allows(self, condition: Condition, off: float) -> bool:
        """Whether a condition may run so far off the second order."""
        allowed = OFF * condition.uncertainty
        return off <= (allowed if self.is_open else max(allowed, OFF_WHERE_SETTLED * abs(condition.spare)))


def _settled(known: Sequence[Condition], lowest: int) -> _Settled | None:
    """None where another condition than the lowest may decide as well, or where that one is too skewed."""
    deciding = known[lowest]
    if deciding.fails:
        return _Settled(0.0, [lowest], is_open=False)
    if all(condition.holds for condition in known):
        return _Settled(1.0, range(len(known)), is_open=False)
    others = (condition for condition in known if condition is not deciding)
    if abs(deciding.skewness) > SKEWED or not all(other.holds or other.beyond(deciding).holds for other in others):
        return None
    return _Settled(deciding.chance, [lowest], is_open=True)


@dataclass(frozen=True, slots=True)
class _UncertainLine:
    """A request with the effects of its uncertain inputs, and the function that answers."""

    request: Any
    found: Sequence[Effect]
    headline: Callable[[Any], Headline]

    def spares(self, sigmas: Sequence[float]) -> tuple[float, ...] | None:
        """The spares with each input moved by so many standard uncertainties; None for what cannot be."""
        moves = [(effect.input, sigma) for effect, sigma in zip(self.found, sigmas, strict=True) if sigma]
        there = headline_at(self.request, moves, self.headline)
        return None if there is None else there.spares

    def runs_so(self, known: Sequence[Condition], settled: _Settled) -> bool:
        """Whether the function gives what the second order says, wherever one looks."""
        if any(effect.up is None or effect.down is None or is_cut_off(effect.input.ends) for effect in self.found):
            return False
        downhill = known[settled.places[0]] if settled.is_open else None
        return all(self._is_so(known, settled, sigmas) for sigmas in looks(known, downhill))

    def _is_so(self, known: Sequence[Condition], settled: _Settled, sigmas: Sequence[float]) -> bool:
        spares = self.spares(sigmas)
        if spares is None:
            return False
        if settled.is_open and min(spares) < min(spares[settled.places[0]], 0.0):
            return False  # another condition decides there
        off = ((known[place], abs(spares[place] - known[place].at(sigmas))) for place in settled.places)
        return all(settled.allows(condition, by) for condition, by in off)

    def drawn(self, order: Sequence[int], draws: int) -> list[int | None]:
        """The place of the condition that fails by most, None where all hold, for as many draws that can be, if they
        are not too rare. The draws are spread best over the inputs that come first in the order."""
        found: list[int | None] = []
        for turn in range(TURNS):
            found += islice(self._possible(order, draws, turn), draws - len(found))
            if len(found) == draws or TURNS * len(found) < draws:
                break
        return found

    def _possible(self, order: Sequence[int], draws: int, turn: int) -> Iterator[int | None]:
        placed = [order.index(place) for place in range(len(order))]
        ends = [self.found[place].input.ends for place in order]
        asked = (self.spares([row[place] for place in placed]) for row in normal_draws(ends, draws, turn))
        return (_failing(spares) for spares in asked if spares is not None)


def _failing(spares: Sequence[float]) -> int | None:
    worst = min(spares)
    return spares.index(worst) if worst < 0.0 else None
