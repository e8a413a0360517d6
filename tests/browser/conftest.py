"""What the tests in the browser share: one service, two shops, one Chromium, and for each test a context of its own."""

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

from .local_servers import Shop, running_service, running_shop
from .shop_page import ROTARY, check_element, shop_page
from .suction_check import EASY, SuctionCheck

NO_BROWSER = "FOOTVALVE_NO_BROWSER"
SCREENSHOTS = "FOOTVALVE_SCREENSHOTS"
CHROMIUMS = ("chromium", "chromium-browser", "google-chrome")
PATIENCE_MS = 20_000


@pytest.fixture(scope="package", autouse=True)
def _asked_for() -> None:
    if os.environ.get(NO_BROWSER) == "1":
        pytest.skip(f"{NO_BROWSER}=1")


@pytest.fixture(scope="package")
def shop(_asked_for: None) -> Iterator[Shop]:
    """A shop whose pages may ask the service."""
    with running_shop() as shop:
        yield shop


@pytest.fixture(scope="package")
def stranger(_asked_for: None) -> Iterator[Shop]:
    """A shop whose pages may not."""
    with running_shop() as shop:
        yield shop


@pytest.fixture(scope="package")
def service(shop: Shop) -> Iterator[str]:
    """The address of the service."""
    with running_service(shop.origin) as service:
        yield service


@pytest.fixture(scope="package")
def chromium(_asked_for: None) -> Iterator[Browser]:
    """The browser. It ends with the package: its loop would stand in the way of others' in this process."""
    program = next(filter(None, map(shutil.which, CHROMIUMS)), None)
    if program is None:
        pytest.fail(
            f"there is no Chromium: run `sh deploy/setup.sh`, or set {NO_BROWSER}=1 to do without", pytrace=False
        )
    sandbox = ["--no-sandbox"] if os.geteuid() == 0 else []
    expect.set_options(timeout=PATIENCE_MS)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=[*sandbox, "--disable-dev-shm-usage"])
        yield browser
        browser.close()


@contextmanager
def _contexts(chromium: Browser) -> Iterator[Callable[..., BrowserContext]]:
    contexts, faults = [], []

    def made(**settings: object) -> BrowserContext:
        context = chromium.new_context(
            **{"viewport": {"width": 900, "height": 900}, "reduced_motion": "reduce", **settings}
        )
        context.set_default_timeout(PATIENCE_MS)
        context.on("weberror", lambda fault: faults.append(fault.error))
        contexts.append(context)
        return context

    yield made
    for context in contexts:
        context.close()
    assert faults == []


@pytest.fixture
def new_context(chromium: Browser) -> Iterator[Callable[..., BrowserContext]]:
    """Make a context of the browser. In none of its pages may a script fail unseen."""
    with _contexts(chromium) as made:
        yield made


@pytest.fixture
def page_with(new_context: Callable[..., BrowserContext], shop: Shop, service: str) -> Callable[..., Page]:
    """Open a page of the shop that has this HTML and loads the script."""

    def opened(html: str, lang: str = "en", after: str = "", **settings: object) -> Page:
        page = new_context(**settings).new_page()
        page.goto(shop.page(shop_page(html, f"{service}/embed/v1/suction-check.js", lang)) + after)
        return page

    return opened


@pytest.fixture(scope="package")
def answered(chromium: Browser, shop: Shop, service: str) -> Iterator[SuctionCheck]:
    """A suction check with the answer to an easy site, for tests that only look at it."""
    with _contexts(chromium) as made:
        page = made().new_page()
        page.goto(shop.page(shop_page(check_element(), f"{service}/embed/v1/suction-check.js")))
        check = SuctionCheck(page)
        check.answered(**EASY)
        yield check


@pytest.fixture
def check_on(page_with: Callable[..., Page]) -> Callable[..., SuctionCheck]:
    """Open a page of the shop with the suction check of one pump."""

    def opened(attributes: str = ROTARY, **settings: object) -> SuctionCheck:
        check = SuctionCheck(page_with(check_element(attributes), **settings))
        check.is_ready()
        return check

    return opened


@pytest.fixture
def check(check_on: Callable[..., SuctionCheck]) -> SuctionCheck:
    """The suction check of the rotary booster."""
    return check_on()


@pytest.fixture
def picture() -> Callable[[Page, str], None]:
    """Keep a picture of a page, where somebody wants to look at them."""
    folder = os.environ.get(SCREENSHOTS)

    def keep(page: Page, name: str) -> None:
        if folder:
            Path(folder).mkdir(parents=True, exist_ok=True)
            page.screenshot(path=Path(folder, f"{name}.png"), full_page=True)

    return keep
