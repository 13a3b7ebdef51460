"""What the tests need from the machine: what is absent is named, with how to get it."""

import ctypes.util
import os
import shutil
import time

import pytest
from hypothesis import HealthCheck, settings

# What a command says at a terminal follows these; the tests read English unless they say other.
for name in ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"):
    os.environ.pop(name, None)

# A slow machine is no fault of the code. Under CI the examples are the same every time,
# so that a change is judged by itself; elsewhere each run looks somewhere new.
settings.register_profile(
    "desk", deadline=None, print_blob=True, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("ci", parent=settings.get_profile("desk"), derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")

BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
CHROMIUM = next((path for name in BROWSERS if (path := shutil.which(name))), None)
REMEDIES = {
    "browser": (CHROMIUM, "Chromium is absent; on Debian: apt-get install chromium"),
    "poppler": (
        shutil.which("pdftoppm"),
        "poppler is absent; on Debian: apt-get install poppler-utils",
    ),
    "zbar": (
        ctypes.util.find_library("zbar"),
        "libzbar is absent; on Debian: apt-get install libzbar0",
    ),
}


def pytest_collection_modifyitems(config, items):
    """Leave out, by name and with the remedy, only what this machine cannot run.

    Under CI nothing may be left out: there, what is absent fails when it is reached.
    """
    if os.environ.get("CI"):
        return
    for item in items:
        for marker, (found, remedy) in REMEDIES.items():
            if not found and item.get_closest_marker(marker):
                item.add_marker(pytest.mark.skip(reason=remedy))


@pytest.fixture(autouse=True, scope="session")
def _searches_count_work():
    """A search has its seconds of the processor: what it finds is the same on a busy machine."""
    from stash import deadline

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(deadline, "now_s", time.process_time)
        yield


@pytest.fixture(scope="session")
def chromium_path():
    """The browser that pages are tested in."""
    return CHROMIUM


@pytest.fixture(scope="session")
def kernels():
    """The lay's kernels, compiled: on a fresh machine that outlasts any wait for an answer."""
    from stash.lay.warm import warm

    warm()


@pytest.fixture(scope="session")
def sentence():
    """What a person in metres, reading English, is told of an error or a fact."""
    from stash.errors import StashError
    from stash.sentences import Reader, say
    from stash.units import System

    def told(what, system=System.METRIC):
        return say(what.fact if isinstance(what, StashError) else what, Reader(system))

    return told


@pytest.fixture
def web_data(tmp_path):
    """The data folder of an app under test."""
    return tmp_path / "stash"


class AsRead:
    """A page as a person reads it: a space at which no line ends is a space.

    ``tests/test_unbroken.py`` looks at the spaces themselves, in ``data``.
    """

    def get_data(self, as_text=False):
        """The bytes as they came, or what is read in them."""
        came = super().get_data(as_text)
        return came.replace("\u00a0", " ") if as_text else came

    @property
    def text(self):
        """What the page says."""
        return self.get_data(as_text=True)


@pytest.fixture
def web_client(web_data):
    """A browser without scripts, on an empty stash of its own."""
    from web import create_app

    client = create_app(web_data, {"TESTING": True}).test_client()
    client.response_wrapper = type("Read", (AsRead, client.response_wrapper), {})
    yield client
    # What one test set going must not still work, or hold a process, in the next.
    client.application.extensions["jobs"].close(wait=True)


@pytest.fixture
def web_stash(web_client, web_data):
    """The record behind ``web_client``, to be compared with what its pages say."""
    from stash.store import open_stash

    with open_stash(web_data) as stash:
        yield stash
