"""Elements and nodes of a manifold in words."""

from collections.abc import Iterable, Sequence
from itertools import islice

from footvalve.answers.manifold_graph import Manifold, Passage

MOST_NAMED = 8
"""Elements that one sentence names; a finding lists all of them beside its text."""

_NOUNS = {"check": "check valve", "shutoff": "shutoff valve", "relief": "relief valve"}


def quoted(name: str) -> str:
    """A name that a caller gave."""
    return f"'{name}'"


def named(manifold: Manifold, number: int) -> str:
    """One element, by its kind and id.

    >>> from footvalve.answers.manifold_graph import Part
    >>> named(Manifold(("a", "b"), (Part("c1", "check", 0, 1),), 0, 1), 0)
    "the check valve 'c1'"
    """
    part = manifold.parts[number]
    return f"the {_NOUNS.get(part.kind, part.kind)} {quoted(part.id)}"


def all_named(manifold: Manifold, numbers: Sequence[int]) -> str:
    """Several elements, by their kinds and ids."""
    return listed([named(manifold, number) for number in numbers])


def way_named(manifold: Manifold, way: Iterable[Passage]) -> str:
    """The elements of a way, by their ids alone."""
    return listed([quoted(manifold.parts[passage.part].id) for passage in way])


def listed(words: Sequence[str]) -> str:
    """Words in a row; of many only the first.

    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    if len(words) > MOST_NAMED:
        return f"{', '.join(islice(words, MOST_NAMED))} and {len(words) - MOST_NAMED} more"
    *others, last = words
    return f"{', '.join(others)} and {last}" if others else last


def sentence(text: str) -> str:
    """Words as a sentence."""
    return f"{text[0].upper()}{text[1:]}."
