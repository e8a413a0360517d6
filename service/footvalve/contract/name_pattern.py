"""What a name may be made of: anything that shows, in one line.

A name comes back inside sentences. So it holds nothing that ends a line, nothing that cannot be seen, and nothing that
turns the rest of the sentence about: no character of the categories Cc, Cf, Zl and Zp of Unicode.
"""

import re
from typing import Final

_REFUSED: Final = (
    (0x0000, 0x001F),
    (0x007F, 0x009F),
    (0x00AD, 0x00AD),
    (0x0600, 0x0605),
    (0x061C, 0x061C),
    (0x06DD, 0x06DD),
    (0x070F, 0x070F),
    (0x0890, 0x0891),
    (0x08E2, 0x08E2),
    (0x180E, 0x180E),
    (0x200B, 0x200F),
    (0x2028, 0x202E),
    (0x2060, 0x2064),
    (0x2066, 0x206F),
    (0xFEFF, 0xFEFF),
    (0xFFF9, 0xFFFB),
    (0x110BD, 0x110BD),
    (0x110CD, 0x110CD),
    (0x13430, 0x1343F),
    (0x1BCA0, 0x1BCA3),
    (0x1D173, 0x1D17A),
    (0xE0001, 0xE0001),
    (0xE0020, 0xE007F),
)
"""First and last of each run of such characters, as of Unicode 15."""


def _written(code: int) -> str:
    """As Python and ECMAScript both read it: they share an escape for four digits, and none for more."""
    return f"\\u{code:04x}" if code <= 0xFFFF else chr(code)


_CHARACTERS: Final = "".join(
    _written(first) if first == last else f"{_written(first)}-{_written(last)}" for first, last in _REFUSED
)

NAME_PATTERN: Final = rf"^[^{_CHARACTERS}]+$(?!\n)"
"""The whole of a name. The last group is for Python, whose `$` would let a line feed follow."""

_find_refused = re.compile(f"[{_CHARACTERS}]").search


def name_fault(name: str) -> str:
    """What is wrong with a name that does not match, in words."""
    found = _find_refused(name)
    where = f", but character {found.start() + 1} is U+{ord(found[0]):04X}" if found else ""
    return f"must be one line without control characters and without such as cannot be seen{where}"
