"""What JSON can say."""

from typing import TypeAlias

Json: TypeAlias = "bool | int | float | str | list[Json] | dict[str, Json] | None"
"""A value as a reader of JSON gives it."""
