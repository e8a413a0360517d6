"""The file of the keys as it was when it could be used last: handed on to a process that begins while it cannot be."""

from typing import Final


class _HandedOn:
    """What this process was handed at its start; None for nothing, as the first process of a service is."""

    octets: bytes | None = None


HANDED_ON: Final = _HandedOn()
