"""The key that an operator gives out. It goes into a header of each request, and is shown nowhere else."""

import re
from typing import Final

_KEY: Final = re.compile(r"[A-Za-z0-9._~+/-]{1,512}=*")


class Key:
    """A key, which shows itself to no log and no traceback."""

    __slots__ = ("_text",)

    def __init__(self, text: str) -> None:
        self._text = text

    @classmethod
    def of(cls, given: str | None) -> "Key | None":
        """What a caller gives. Raises ValueError for what is no key, and TypeError for what is no text."""
        if given is None:
            return None
        if not isinstance(given, str):  # pyright: ignore[reportUnnecessaryIsInstance]
            raise TypeError(f"key must be a text, not {type(given).__name__}")
        if _KEY.fullmatch(given) is None:
            raise ValueError("key must be as the operator of the service gives it out, without spaces or line ends")
        return cls(given)

    @property
    def header(self) -> str:
        """What the header Authorization holds."""
        return f"Bearer {self._text}"

    def __repr__(self) -> str:
        return "Key(***)"
