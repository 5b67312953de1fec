"""Headless Chromium at two widths, on the demo or on an empty installation.

Everything here lives as long as the tests of this folder: the driver of the browser keeps
an event loop running, and the database of other tests must not be used under one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser.installation import PASSWORD, Installation
from tests.browser.watch import Watch

ARGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--font-render-hinting=none",
]
SCREENS: dict[str, dict[str, Any]] = {
    "desktop": {"viewport": {"width": 1440, "height": 900}},
    "phone": {
        "viewport": {"width": 390, "height": 844},
        "has_touch": True,
        "is_mobile": True,
        "device_scale_factor": 2,
    },
}
LOGINS = ("artist", "maker", "ward")
OpenAs = Callable[..., Page]


@pytest.fixture(scope="package")
def browser() -> Iterator[Browser]:
    with sync_playwright() as driver:
        found = driver.chromium.launch(executable_path="/usr/bin/chromium", args=ARGS)
        yield found
        found.close()


@pytest.fixture(scope="package")
def installation(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Installation]:
    made = Installation(tmp_path_factory.mktemp("installation"))
    made.build()
    made.start()
    yield made
    made.stop()


@pytest.fixture(scope="package")
def logins(browser: Browser, installation: Installation) -> dict[str, Any]:
    """Each person logs in once, at the login page; the sessions are kept with the demo."""
    installation.lay("demo")
    found = {name: log_in(browser, installation, name) for name in LOGINS}
    installation.keep("demo")
    return found


def log_in(browser: Browser, installation: Installation, name: str) -> Any:
    context = browser.new_context()
    page = context.new_page()
    page.goto(f"{installation.url}/login/")
    page.get_by_label("E-mail or login name").fill(name)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Log in").click()
    page.wait_for_url(f"{installation.url}/")
    state = context.storage_state()
    context.close()
    return state


@pytest.fixture(params=list(SCREENS))
def screen(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def watch(installation: Installation) -> Iterator[Watch]:
    """Fails the test on an error in the console or the page, a strange request, a 5xx answer."""
    found = Watch(installation.url)
    yield found
    assert not found.faults, "\n".join(found.faults)


@pytest.fixture
def open_as(
    browser: Browser, installation: Installation, logins: dict[str, Any], watch: Watch, screen: str
) -> Iterator[OpenAs]:
    """Opens a page for somebody (nobody: not logged in), on the demo as it was loaded."""
    contexts = []
    installation.lay("demo")

    def opened(who: str = "", *, width: str = screen, **options: Any) -> Page:
        state = logins[who] if who else None
        settings = {**SCREENS[width], "base_url": installation.url, "locale": "en-US", **options}
        context = browser.new_context(storage_state=state, **settings)
        context.set_default_timeout(8000)
        contexts.append(context)
        page = context.new_page()
        watch.follow(page)
        return page

    yield opened
    for context in contexts:
        context.close()


@pytest.fixture
def artist(open_as: OpenAs) -> Page:
    return open_as("artist")


@pytest.fixture
def newcomer(open_as: OpenAs, installation: Installation) -> Page:
    """Somebody before an installation in which nobody has an account."""
    installation.lay("empty")
    return open_as()
