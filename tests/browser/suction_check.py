"""One suction check on a page, handled as its reader would."""

import json

from playwright.sync_api import Locator, Page, expect

EASY = {"depth": "8", "side": "below", "pump": "5", "distance": "20", "pipe": "pe-sidr-15 1-1/4", "altitude": "500"}
"""A shallow well: a yes once it is known how far the pipe reaches below the water."""

SURE = {"depth-sure": "0", "fall-sure": "0", "reach": "40"}
"""What makes a yes of it that is told without a doubt."""

DEEP = EASY | {"depth": "40"}
"""A well that no pump at the top can draw on."""


class SuctionCheck:
    """The element that stands at a place among those of the page."""

    def __init__(self, page: Page, place: int = 0) -> None:
        self.page = page
        self.element = page.locator("footvalve-suction-check").nth(place)
        self.status = self.element.locator(".status")
        self.verdict = self.element.locator(".verdict")
        self.result = self.element.locator(".result")
        self.button = self.element.locator("form > .main")
        self.watch = self.element.locator(".stopwatch")
        self.drops = self.element.locator(".drops li")

    def is_ready(self) -> None:
        """Wait until it asks."""
        expect(self.button).to_be_visible()

    def field(self, name: str) -> Locator:
        """The control of a field, or the choice of how sure it is, as `depth-sure`."""
        return self.element.locator(f"[name={name}]")

    def error(self, name: str) -> Locator:
        """What is wrong at a field."""
        return self.element.locator(f"#{name}-error")

    def doubt(self, name: str) -> Locator:
        """What is doubted at a field."""
        return self.element.locator(f"#{name}-doubt")

    def root_rules(self) -> int:
        """How many rules of the look it wears."""
        return self.element.evaluate(
            "element => element.shadowRoot.adoptedStyleSheets.reduce((sum, sheet) => sum + sheet.cssRules.length, 0)"
        )

    def open_assumptions(self) -> None:
        """Show the stated defaults."""
        self.element.locator("details.assumptions").evaluate("details => details.open = true")

    def give(self, **values: str) -> None:
        """Fill in or choose, by the fields' names."""
        self.open_assumptions()
        for name, value in values.items():
            field = self.field(name)
            if field.evaluate("control => control.localName") == "select":
                field.select_option(value)
            else:
                field.fill(value)

    def ask(self, **values: str) -> None:
        """Fill in, and press the button."""
        self.give(**values)
        self.button.click()

    def answered(self, **values: str) -> Locator:
        """Fill in, press the button, and wait for the verdict."""
        self.ask(**values)
        expect(self.verdict).to_be_visible()
        return self.verdict

    def reply_once(self, path: str, status: int, body: object) -> None:
        """Let the next question at a path be answered by this, as the service would to the page's origin."""
        origin = self.page.evaluate("location.origin")
        text = body if isinstance(body, str) else json.dumps(body)
        headers = {"content-type": "application/problem+json", "access-control-allow-origin": origin}
        self.page.route(f"**{path}", lambda route: route.fulfill(status=status, body=text, headers=headers), times=1)

    def events(self) -> list[list[object]]:
        """The events that have come out of the page's suction checks since `watch_events`."""
        return self.page.evaluate("window.told")

    def watch_events(self) -> None:
        """Note every event from now on."""
        self.page.evaluate(
            """() => {
                window.told = [];
                for (const name of ['answered', 'refused', 'changed']) {
                    document.addEventListener(name, ({ detail }) => window.told.push([name, detail]));
                }
            }"""
        )
