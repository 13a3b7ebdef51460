"""The app as it is served, and a browser to meet it with."""

import io
import threading
import time

import pytest
import segno
import slow_machine
from PIL import Image
from playwright.sync_api import expect, sync_playwright

from stash.demo import fill
from stash.foreign import apart
from stash.foreign.limits import DRAWING, MEASURED, PICTURE, TABLE
from stash.store import open_stash
from stash.workroom.questions.fitting import ask_fit
from web import create_app
from web.http_server import answering

SIZES = {"phone": {"width": 360, "height": 740}, "desk": {"width": 1280, "height": 900}}
FRAME_PX = (1280, 720)
# How long a page may take for anything: a busy machine is no failure.
PATIENCE_MS = 120_000
expect.set_options(timeout=PATIENCE_MS)


@pytest.fixture(scope="session")
def chromium(chromium_path):
    """A way to start Chromium with further switches."""
    with sync_playwright() as playwright:
        def launch(*switches: str):
            return playwright.chromium.launch(
                executable_path=chromium_path, args=["--no-sandbox", *switches],
                timeout=PATIENCE_MS)

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


def patient(page):
    """The page, which waits as long as a busy machine needs; where it is asked for, a slow one."""
    page.context.set_default_timeout(PATIENCE_MS)
    if slow_machine.SEED:
        slow_machine.on_little_of_the_processor(page)
    return page


@pytest.fixture(scope="module", autouse=True)
def patience():
    """Files from elsewhere may take a busy machine long; with SLOW=1 all comes late besides."""
    limits = {one: one.seconds for one in (DRAWING, PICTURE, MEASURED, TABLE)}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(apart, "PATIENCE_S", PATIENCE_MS / 1000)
        if slow_machine.SEED:
            slow_machine.slowed(patch)
        for one, seconds in limits.items():
            object.__setattr__(one, "seconds", 10 * seconds)
        yield
        for one, seconds in limits.items():
            object.__setattr__(one, "seconds", seconds)


@pytest.fixture
def open_page(browser):
    """A way to open a page by oneself, in a context of its own."""
    contexts = []

    def opened(size: str = "phone", **how):
        contexts.append(browser.new_context(viewport=SIZES[size], **how))
        return patient(contexts[-1].new_page())

    yield opened
    for context in contexts:
        context.close()


@pytest.fixture
def own_browser(chromium):
    """A way to open a page on the phone in a browser of its own, started with these switches."""
    browsers = []

    def opened(*switches: str, **how):
        browsers.append(chromium(*switches))
        return patient(browsers[-1].new_page(viewport=SIZES["phone"], **how))

    yield opened
    for browser in browsers:
        browser.close()


@pytest.fixture(params=list(SIZES))
def page(request, open_page):
    """A page at the size of a phone and of a desk; an error in its script fails the test."""
    opened = open_page(request.param)
    errors = []
    opened.on("pageerror", lambda error: errors.append(str(error)))
    yield opened
    opened.context.close()
    assert errors == []


@pytest.fixture
def twice():
    """A way to tap a button a second time before anything came of the first.

    Two taps of a finger may come too late for that: the second one may meet the next page.
    """
    def tapped(button) -> None:
        button.evaluate("(button) => { button.click(); button.click(); }")

    return tapped


@pytest.fixture
def tap():
    """A way to tap a picture at such shares of its width and height, once it lies still."""
    def tapped(picture, across: float, down: float) -> None:
        box = picture.bounding_box()
        picture.click(position={"x": across * box["width"], "y": down * box["height"]})

    return tapped


@pytest.fixture
def until():
    """A way to wait until a script says yes of a page.

    Playwright's own looks a second time out of the page itself, which runs no text as a script.
    """
    def true(page, script: str, arg=None) -> None:
        end = time.monotonic() + PATIENCE_MS / 1000
        while not page.evaluate(script, arg):
            assert time.monotonic() < end, script
            page.evaluate("new Promise((done) => setTimeout(done, 50))")

    return true


@pytest.fixture
def fits(until):
    """A way to say that nothing sticks out at the side of a page, once all of it is there."""
    def within(page) -> None:
        page.wait_for_load_state()
        until(page, "document.documentElement.scrollWidth <= innerWidth")

    return within


@pytest.fixture
def record(loft):
    """The record behind the pages."""
    with open_stash(loft[1]) as stash:
        yield stash


@pytest.fixture
def unhurried(monkeypatch):
    """A search that has a first fit goes on until this is set, or until it is stopped."""
    over = threading.Event()

    def searching(opened, orders, asking, progress):
        def told(found):
            progress(found)
            while found.fits and not asking.stop() and not over.wait(0.05):
                pass

        return ask_fit(opened, orders, asking, told)

    monkeypatch.setattr("web.pages.become.ask_fit", searching)
    yield over
    over.set()


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
def sheet_photo(tmp_path):
    """The file of a photograph: a strip of cloth beside the calibration sheet."""
    from trace_photo import Camera, Scene, photograph

    file = tmp_path / "sheet.jpg"
    file.write_bytes(photograph(
        Scene(pieces=[((260, 20), (460, 20), (460, 60), (260, 60))], window=(-250, -250, 700, 500),
              density=2.0),
        Camera(tilt_deg=10, target_mm=(200, 120), height_mm=900, size_px=(1600, 1200))))
    return file


@pytest.fixture
def filmed(own_browser, tmp_path):
    """A way to open a page whose camera plays a film of these labels, eight at a time."""
    def camera_showing(codes: list[str], **how):
        film = tmp_path / "film.mjpeg"
        scenes = [scene(codes[i : i + 8]) for i in range(0, len(codes), 8)]
        film.write_bytes(b"".join(frame for frame in scenes for _ in range(24)))
        return own_browser(
            "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream",
            f"--use-file-for-fake-video-capture={film}", **how)

    return camera_showing
