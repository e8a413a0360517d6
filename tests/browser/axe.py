"""What axe finds wrong with a page, down into its shadow trees."""

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

_AXE = Axe()


def found(page: Page, *parts: str) -> list[tuple[str, str, list[str]]]:
    """The rules that are broken in these parts (selectors), or in the whole page: each with its words and places."""
    context = {"include": [[part] for part in parts]} if parts else None
    violations = _AXE.run(page, context=context).response["violations"]
    return [(each["id"], each["help"], [node["html"][:120] for node in each["nodes"]]) for each in violations]
