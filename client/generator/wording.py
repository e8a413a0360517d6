"""Words for docstrings: what a field takes when it is left out, and lists of words."""

import json
from collections.abc import Sequence
from typing import Any


def with_default(described: dict[str, Any]) -> str:
    """A field's description, and what the service takes where the field is left out."""
    description: str = described.get("description", "")
    told = _told(described["default"]) if "default" in described and "default" not in description else ""
    return f"{description} Default: {told}." if told else description


def one_of(words: Sequence[object]) -> str:
    """The words with commas, and an `or` before the last."""
    *most, last = map(str, words)
    return f"{', '.join(most)} or {last}" if most else last


def _told(value: Any) -> str:
    match value:
        case {"value": value, "unit": unit}:
            return f"{value:g} {unit}"
        case dict():
            return ""
        case str():
            return value
        case float():
            return f"{value:g}"
    return json.dumps(value)
