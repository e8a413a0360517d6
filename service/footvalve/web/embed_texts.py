"""The texts of the suction check: one file a language, each with every key of the English one."""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from typing import Any

import msgspec

_LANGUAGE = re.compile(r"[a-z]{2,3}")
_FIRST = "en"
_OWN_WORDS = ("/cautions/", "/levers/", "/units/")
"""What the service says in English, by code, field and unit: another language may put it into its own words."""


class BadTexts(ValueError):
    """The files of texts do not go together; the message says which and where."""


@cache
def texts_by_language() -> Mapping[str, bytes]:
    """Each language's file, sorted by language. Raises BadTexts."""
    folder = files("footvalve").joinpath("embed", "texts")
    texts = {file.name.removesuffix(".json"): file.read_bytes() for file in folder.iterdir()}
    check_texts(texts)
    return dict(sorted(texts.items()))


def check_texts(texts: Mapping[str, bytes]) -> None:
    """Raises BadTexts where a language lacks a text of the English ones, or has one that nothing asks for."""
    pointers = {language: frozenset(_pointers(_read(language, raw))) for language, raw in texts.items()}
    asked = pointers[_FIRST]
    for language, own in pointers.items():
        if lacking := sorted(asked - own):
            raise BadTexts(f"the texts {language}.json lack {', '.join(lacking[:5])}")
        if needless := sorted(key for key in own - asked if not key.startswith(_OWN_WORDS)):
            raise BadTexts(f"the texts {language}.json have {', '.join(needless[:5])}, which {_FIRST}.json has not")


def _read(language: str, raw: bytes) -> Any:
    if not _LANGUAGE.fullmatch(language):
        raise BadTexts(f"a file of texts is named after its language, such as en.json, not {language}")
    try:
        return msgspec.json.decode(raw)
    except ValueError as error:
        raise BadTexts(f"the texts {language}.json are not JSON: {error}") from None


def _pointers(text: Any, pointer: str = "") -> Iterator[str]:
    """A JSON Pointer to each text."""
    match text:
        case dict():
            inside = text.items()
        case list():
            inside = dict(enumerate(text)).items()
        case _:
            yield pointer
            return
    for key, part in inside:
        yield from _pointers(part, f"{pointer}/{key}")
