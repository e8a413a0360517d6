"""Where something stands in a site file, in the words of whoever wrote it."""

from typing import Final

from footvalve_client._json import Json

_BETWEEN: Final = " > "


def key_path(pointer: str, site: Json) -> str:
    """The names that lead to where a JSON Pointer points, and no further than the file goes.

    >>> key_path("/line/1/length/unit", {"line": [{}, {"name": "drop pipe", "length": "45 fet"}]})
    'line > no. 2 "drop pipe" > length'
    >>> key_path("", {})
    'the site'
    """
    return _BETWEEN.join(told for told, _ in _way(pointer, site)) or "the site"


def written(pointer: str, site: Json) -> str:
    """The text or number that stands there in the file, with an equals sign before it; nothing for anything else."""
    value = ([site] + [value for _, value in _way(pointer, site)])[-1]
    match value:
        case {"value": int() | float() as number, "unit": str(unit)}:
            return f" = {number:.15g} {unit}"
        case str() | int() | float():
            return f" = {value!r}" if isinstance(value, str) else f" = {value}"
        case _:
            return ""


def _way(pointer: str, site: Json) -> list[tuple[str, Json]]:
    """Each step in words, and what stands there; None where nothing does."""
    way: list[tuple[str, Json]] = []
    for step in pointer.split("/")[1:]:
        key = step.replace("~1", "/").replace("~0", "~")
        if isinstance(site, list) and key.isdecimal():
            site = site[int(key)] if int(key) < len(site) else None
            name = site.get("name") or site.get("id") if isinstance(site, dict) else None
            way.append((f'no. {int(key) + 1} "{name}"' if isinstance(name, str) else f"no. {int(key) + 1}", site))
        elif isinstance(site, dict):
            site = site.get(key)
            way.append((key, site))
        else:
            break
    return way
