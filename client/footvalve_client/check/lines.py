"""Lines of a report: texts with what they mean, whether or not they are printed in colour."""

from collections.abc import Iterable, Iterator
from textwrap import wrap
from typing import NamedTuple


class Line(NamedTuple):
    """A line, and the part of it that begins it and is set off: by its meaning, such as `danger`."""

    text: str
    style: str = ""
    styled: int = 0
    """How many letters the style holds for; 0 for all."""


def heading(text: str) -> Iterator[Line]:
    """A heading behind an empty line."""
    yield Line("")
    yield Line(text, "heading")


def items(texts: Iterable[tuple[str, str]], width: int) -> Iterator[Line]:
    """Each text with a dash before it, wrapped, and a word in front of it that is styled by itself."""
    for word, text in texts:
        told = f"{word}: {text}" if word else text
        first, *more = _wrapped(told, width, "  - ", "    ") or [""]
        yield Line(first, word, len(word) + 4) if word else Line(first)
        yield from map(Line, more)


def facts(pairs: Iterable[tuple[str, str]], width: int) -> Iterator[Line]:
    """Names and values in two columns, each value wrapped in its own."""
    told = [(name, value) for name, value in pairs if value]
    column = max((len(name) for name, _ in told), default=0) + 2
    for name, value in told:
        begin = f"  {name:<{column}}"
        yield from map(Line, _wrapped(value, width, begin, " " * len(begin)))


def _wrapped(text: str, width: int, first: str, further: str) -> list[str]:
    return wrap(text, width, initial_indent=first, subsequent_indent=further, break_on_hyphens=False)
