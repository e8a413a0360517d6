"""The script of the suction check: its bytes, its two addresses, and the hash that holds it to them."""

import re
from base64 import b64encode
from dataclasses import dataclass
from hashlib import sha384
from typing import Final

from footvalve.web.embed_files import embed_file

ALIAS: Final = "/embed/v1/suction-check.js"
"""The address that always holds the newest script."""

_COMMENT_LINES = re.compile(rb"^ *(?:/\*\*.*?\*/|//[^\n]*)\n", re.MULTILINE | re.DOTALL)
"""Comments that have their lines to themselves: a tenth of the script, and of use to its authors alone."""

_INDENTS = re.compile(rb"\n\s+")
"""Indents and empty lines, of use to them alone too. None of its strings runs over lines."""

_AIR = re.compile(rb"('(?:\\.|[^'\\\n])*'|`[^`]*`)|(?<=[,;{(\[])\n| *(=>|[!=]==|&&|\|\||\?\?|[][(){}<>,=:?]) *")
"""A string, which is kept; spaces around signs, and the end of a line that goes on or has ended by a sign."""


@dataclass(frozen=True, slots=True)
class EmbedScript:
    """The script as it is served."""

    source: bytes

    @property
    def integrity(self) -> str:
        """What Subresource Integrity holds the script to."""
        return f"sha384-{b64encode(sha384(self.source).digest()).decode()}"

    @property
    def address(self) -> str:
        """The address that holds these bytes and will never hold others."""
        return f"{ALIAS.removesuffix('.js')}.{sha384(self.source).hexdigest()[:16]}.js"

    def tag(self, origin: str = "") -> str:
        """The element of HTML that loads exactly this script from the origin of the service."""
        return f'<script type="module" src="{origin}{self.address}" integrity="{self.integrity}" crossorigin></script>'


def embed_script() -> EmbedScript:
    """The script of the package, without its comments, and without the spaces and line ends that part nothing."""
    lines = _INDENTS.sub(b"\n", _COMMENT_LINES.sub(b"", embed_file("suction-check.js")))
    return EmbedScript(_AIR.sub(lambda found: found[1] or found[2] or b"", lines))
