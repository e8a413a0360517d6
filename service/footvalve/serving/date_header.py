"""The header Date, the one thing that is told by the wall clock; no limit depends on it."""

from email.utils import formatdate


def date_header() -> tuple[bytes, bytes]:
    """The header with the time of now."""
    return b"date", formatdate(usegmt=True).encode()
