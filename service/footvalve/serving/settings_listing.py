"""Every setting as `footvalve settings` prints it, for people and for programs."""

import json
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass
from textwrap import fill
from typing import Final

from footvalve.web.settings import Settings, told_settings

_WIDTH: Final = 100


@dataclass(frozen=True, slots=True)
class ToldSetting:
    """One setting, all of it as texts that the environment variable would hold; without a password."""

    variable: str
    value: str
    default: str
    must_be: str
    meaning: str


def listed(settings: Settings) -> Iterator[ToldSetting]:
    """Every setting, in the order in which an operator reads them."""
    usual = {setting.field: text for setting, text in told_settings(Settings())}
    for setting, text in told_settings(settings):
        yield ToldSetting(setting.variable, text, usual[setting.field], setting.must_be, setting.meaning)


def for_people(settings: Settings, doubts: Iterable[str] = ()) -> str:
    """A paragraph for each: what it is now and by default, what it means, and what it may be; then the doubts."""
    every = list(listed(settings))
    width = max(len(told.variable) for told in every)
    value_width = max(len(told.value) for told in every)
    paragraphs = [_paragraph(told, width, value_width) for told in every]
    return "\n\n".join([*paragraphs, *(fill(f"But {doubt}", _WIDTH, break_on_hyphens=False) for doubt in doubts)])


def _paragraph(told: ToldSetting, width: int, value_width: int) -> str:
    default = "(the default)" if told.value == told.default else f"(default: {told.default or 'empty'})"
    sentences = f"{told.meaning[0].upper()}{told.meaning[1:]}. It may be {told.must_be}."
    explained = fill(sentences, _WIDTH, initial_indent="    ", subsequent_indent="    ", break_on_hyphens=False)
    return f"{told.variable:<{width}}  {told.value or '-':<{value_width}}  {default}\n{explained}"


def for_programs(settings: Settings) -> str:
    """The same as JSON: a list of objects."""
    return json.dumps([asdict(told) for told in listed(settings)], indent=2, ensure_ascii=False)
