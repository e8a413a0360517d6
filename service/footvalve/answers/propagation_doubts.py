"""Where the first order is not to be trusted, or could not be reckoned."""

from collections.abc import Iterator, Mapping, Sequence

from footvalve.answers.headline import Headline
from footvalve.answers.propagation import BENT, TELLING_SHARE, Effect, Propagated
from footvalve.contract.answer import Warning

SEEN = 1e-6
"""Part of a figure that its six digits just show."""

NOTHING = Propagated(0.0, {})
"""What is told of a figure that no input moves to one side and back."""


def propagation_doubts(centre: Headline, found: Sequence[Effect], told: Mapping[str, Propagated]) -> list[Warning]:
    """A warning at each input whose uncertainty is not, or not well, carried through."""
    return [warning for index, effect in enumerate(found) for warning in _doubts(index, effect, centre, told)]


def _doubts(index: int, effect: Effect, centre: Headline, told: Mapping[str, Propagated]) -> Iterator[Warning]:
    pointer = effect.input.pointer
    if effect.is_lost:
        text = (
            "neither the value plus its uncertainty nor the value less its uncertainty can be reckoned with, so it is"
        )
        yield Warning(pointer, f"{text} not counted: the uncertainties of the answer are too small")
        return
    if effect.is_one_sided:
        none, tried = ("less", "plus") if effect.down is None else ("plus", "less")
        text = f"the value {none} its uncertainty cannot be, and only the value {tried} its uncertainty was tried"
        yield Warning(pointer, f"{text}: the uncertainties of the answer are rough")
    lacking = [place for place in centre.figures if effect.may_lack(place)]
    if lacking:
        text = f"within this uncertainty {_listed(lacking)} may not be in the answer at all"
        yield Warning(pointer, f"{text}, and what is told of the uncertainty there is rough, if anything is")
    bent = [place for place in centre.figures if _is_bent(index, effect, place, centre, told)]
    if bent:
        text = f"within this uncertainty {_listed(bent)} changes more to one side than to the other"
        yield Warning(pointer, f"{text}: the uncertainty told of it, which is of first order, is rough")


def _is_bent(index: int, effect: Effect, place: str, centre: Headline, told: Mapping[str, Propagated]) -> bool:
    """Whether an input bends a figure that it matters to. One that only bends it, at a summit, has no share and still
    matters."""
    bend, figure = abs(effect.bend(place, centre)), told.get(place, NOTHING)
    matters = figure.variance_fraction(index) >= TELLING_SHARE
    straight = BENT * (abs(figure.changes[index]) if matters else figure.uncertainty)
    return bend > max(straight, SEEN * abs(centre.figures[place]))


def _listed(pointers: Sequence[str]) -> str:
    told = ", ".join(f"`{pointer[1:]}`" for pointer in pointers[:3])
    return told if len(pointers) <= 3 else f"{told} and {len(pointers) - 3} more"
