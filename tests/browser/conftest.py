"""The app as it is served, and a browser to meet it with."""

import io
import os

import pytest
import segno
from PIL import Image
from playwright.sync_api import sync_playwright

from stash.demo import fill
from stash.store import open_stash
from web import create_app
from web.http_server import answering

SIZES = {"phone": {"width": 360, "height": 740}, "desk": {"width": 1280, "height": 900}}
FRAME_PX = (1280, 720)


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
    _slow_down(context, opened)
    errors = []
    opened.on("pageerror", lambda error: errors.append(str(error)))
    yield opened
    context.close()
    assert errors == []


def _slow_down(context, page) -> None:
    """With LATENCY_MS=600 every answer comes late, so that a click that is not waited for shows.

    It does not go together with tests that switch the network off (the copy in a pocket).
    """
    if late := os.environ.get("LATENCY_MS"):
        context.new_cdp_session(page).send("Network.emulateNetworkConditions", {
            "offline": False, "latency": int(late),
            "downloadThroughput": -1, "uploadThroughput": -1})


@pytest.fixture
def record(loft):
    """The record behind the pages."""
    with open_stash(loft[1]) as stash:
        yield stash


def scene(codes: list[str]) -> bytes:
    """One frame of the film: up to eight labels on a table."""
    picture = Image.new("RGB", FRAME_PX, (172, 160, 140))
    for n, code in enumerate(codes):
        png = io.BytesIO()
        text = f"HTTP://STASH.LOCAL:5000/C/{code}"
        segno.make(text, error="h", micro=False).save(png, kind="png", scale=7, border=4)
        label = Image.open(png).convert("RGB").resize((270, 270), Image.Resampling.LANCZOS)
        picture.paste(label, (30 + 310 * (n % 4), 50 + 330 * (n // 4)))
    jpeg = io.BytesIO()
    picture.save(jpeg, "JPEG", quality=88)
    return jpeg.getvalue()


@pytest.fixture
def scene_of():
    """A picture of up to eight labels on a table."""
    return scene


@pytest.fixture
def filmed(chromium, tmp_path):
    """A way to open a browser whose camera plays a film of these labels, eight at a time."""
    opened = []

    def camera_showing(codes: list[str]):
        film = tmp_path / "film.mjpeg"
        scenes = [scene(codes[i : i + 8]) for i in range(0, len(codes), 8)]
        film.write_bytes(b"".join(frame for frame in scenes for _ in range(24)))
        browser = chromium(
            "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream",
            f"--use-file-for-fake-video-capture={film}")
        opened.append(browser)
        return browser.new_page(viewport={"width": 360, "height": 740})

    yield camera_showing
    for browser in opened:
        browser.close()
