"""What a page may load and who may frame it, in the headers that tell a browser so."""

from base64 import b64encode
from hashlib import sha256
from typing import Final

from footvalve.drawings.site_sheet import NOTHING_ELSE
from footvalve.web.reply import Headers

OF_THE_SERVICE: Final = "script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self' data:"
"""What a page with a program loads: files of the service and pictures that it draws itself, nothing inline."""

READ_ANYWHERE: Final[Headers] = ((b"cross-origin-resource-policy", b"cross-origin"),)
"""For what pages of other origins embed: without it, one that isolates itself may not."""


def page_headers(*sources: str) -> Headers:
    """The headers of a page that loads nothing but what these directives allow."""
    policy = "; ".join((NOTHING_ELSE, *sources))
    return ((b"content-security-policy", policy.encode()),)


def hash_of(inline: str) -> str:
    """The source expression that allows one inline text."""
    return f"sha256-{b64encode(sha256(inline.encode()).digest()).decode()}"
