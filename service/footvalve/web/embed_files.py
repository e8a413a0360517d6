"""The files of the folder embed, and how they are served: pages with what they may load, styles and programs."""

from functools import partial
from importlib.resources import files

from footvalve.web.kept_resource import Kept, MakesKept
from footvalve.web.negotiation import CSS, HTML, JAVASCRIPT
from footvalve.web.reply import Headers
from footvalve.web.security_headers import page_headers

BRIEFLY = b"public, max-age=300"
"""How long what an address holds may be out of date after a release."""

ASKED_AGAIN = b"no-cache"
"""For a page whose files must be of one release with it."""

_MEDIA_TYPES = {".css": CSS, ".js": JAVASCRIPT}


def embed_file(*path: str) -> bytes:
    """The bytes of a file of the folder."""
    return files("footvalve").joinpath("embed", *path).read_bytes()


def kept_text(raw: bytes, media_type: str, kept_for: bytes = BRIEFLY, headers: Headers = ()) -> Kept:
    """A text of a media type that does not tell its coding by itself."""
    return Kept(raw, f"{media_type}; charset=utf-8", kept_for, headers)


def page(html: bytes, *sources: str) -> Kept:
    """A page that loads nothing but what the directives of `sources` allow."""
    return kept_text(html, HTML, ASKED_AGAIN, page_headers(*sources))


def files_of_a_page(folder: str, *names: str) -> dict[str, MakesKept]:
    """Styles and programs by their paths. They are read here."""
    return {
        f"{folder}/{name}": partial(kept_text, embed_file(name), _MEDIA_TYPES[name[name.rindex(".") :]], ASKED_AGAIN)
        for name in names
    }
