"""The app as it is served, and a browser to meet it with."""

import pytest
from playwright.sync_api import sync_playwright

from stash.demo import fill
from stash.store import open_stash
from web import create_app
from web.http_server import answering

SIZES = {"phone": {"width": 360, "height": 740}, "desk": {"width": 1280, "height": 900}}


@pytest.fixture(scope="session")
def chromium(chromium_path):
    """A way to start Chromium with further switches."""
    with sync_playwright() as playwright:
        def launch(*switches: str):
            return playwright.chromium.launch(
                executable_path=chromium_path, args=["--no-sandbox", *switches])

        yield launch


@pytest.fixture(scope="session")
def browser(chromium):
    """One Chromium for all tests of this folder."""
    started = chromium()
    yield started
    started.close()


@pytest.fixture(scope="module")
def loft(tmp_path_factory, kernels):
    """The demo's workroom, served: (address, data folder, what it holds)."""
    data = tmp_path_factory.mktemp("loft") / "stash"
    with open_stash(data) as stash:
        made = fill(stash)
    with answering(create_app(data), "127.0.0.1", 0) as pages:
        yield f"http://127.0.0.1:{pages.port}", data, made


@pytest.fixture(params=list(SIZES))
def page(request, browser):
    """A page at the size of a phone and of a desk; an error in its script fails the test."""
    context = browser.new_context(viewport=SIZES[request.param])
    opened = context.new_page()
    errors = []
    opened.on("pageerror", lambda error: errors.append(str(error)))
    yield opened
    context.close()
    assert errors == []


@pytest.fixture
def record(loft):
    """The record behind the pages."""
    with open_stash(loft[1]) as stash:
        yield stash
