"""A whole number as an operator or a header writes it: decimal digits and nothing else."""

_MOST_DIGITS = 18


def whole_number(text: str, allowed: range) -> int | None:
    """The number that the text spells, where it is allowed; None otherwise."""
    if not (text.isascii() and text.isdigit() and len(text) <= _MOST_DIGITS):
        return None
    number = int(text)
    return number if number in allowed else None
