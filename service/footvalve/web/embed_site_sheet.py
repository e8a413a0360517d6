"""The page that shows a site sheet to who follows the suction check's link to it."""

from functools import partial
from typing import Final

from footvalve.drawings.site_sheet import sheet_style
from footvalve.web.embed_files import embed_file, files_of_a_page, page
from footvalve.web.kept_resource import MakesKept
from footvalve.web.security_headers import hash_of

SITE_SHEET: Final = "/embed/v1/site-sheet"


def site_sheet_files() -> dict[str, MakesKept]:
    """The page and its files by their paths. The sheet's own style is the one thing inline that it allows."""
    style = f"style-src 'self' '{hash_of(sheet_style())}'"
    sources = ("script-src 'self'", "connect-src 'self'", "img-src data:", style)
    return {
        SITE_SHEET: partial(page, embed_file("site-sheet.html"), *sources),
        **files_of_a_page("/embed/v1", "site-sheet.css", "site-sheet.js"),
    }
