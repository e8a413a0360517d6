"""An origin as a browser writes it in the header Origin (RFC 6454, section 6.1), and so as an operator must."""

import re

_ORIGIN = re.compile(
    r"(?P<scheme>https?)://(?:[a-z0-9](?:[a-z0-9._-]*[a-z0-9])?|\[[0-9a-f:.]+\])(?::(?P<port>[1-9][0-9]{0,4}))?"
)
_GREATEST_PORT = 65_535
_NEVER_WRITTEN = {"http": "80", "https": "443"}
"""The port that goes without saying: a browser leaves it out."""


def is_origin(text: str) -> bool:
    """Whether a browser could send this as an origin: scheme, host in small letters, a port but the usual."""
    found = _ORIGIN.fullmatch(text)
    if found is None:
        return False
    port = found["port"]
    return port is None or (port != _NEVER_WRITTEN[found["scheme"]] and int(port) <= _GREATEST_PORT)
