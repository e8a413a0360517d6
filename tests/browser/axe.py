"""What axe finds wrong with a page, down into its shadow trees."""

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

_AXE = Axe()


def found(page: Page) -> list[tuple[str, str, list[str]]]:
    """The rules that are broken, each with its words and the places."""
    violations = _AXE.run(page).response["violations"]
    return [(each["id"], each["help"], [node["html"][:120] for node in each["nodes"]]) for each in violations]
