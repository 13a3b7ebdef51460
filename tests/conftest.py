"""What the tests need from the machine: what is absent is named, with how to get it."""

import ctypes.util
import shutil

import pytest

CHROMIUM = next(
    (p for n in ("chromium", "chromium-browser", "google-chrome") if (p := shutil.which(n))), None
)
ABSENT = {
    "browser": (CHROMIUM is None, "Chromium is absent: apt-get install chromium"),
    "poppler": (shutil.which("pdftoppm") is None, "poppler is absent: apt-get install poppler-utils"),
    "zbar": (ctypes.util.find_library("zbar") is None, "libzbar is absent: apt-get install libzbar0"),
}


def pytest_collection_modifyitems(config, items):
    """Leave out, by name and with the remedy, only what this machine cannot run."""
    for item in items:
        for marker, (absent, remedy) in ABSENT.items():
            if absent and item.get_closest_marker(marker):
                item.add_marker(pytest.mark.skip(reason=remedy))


@pytest.fixture(scope="session")
def chromium_path():
    """The browser that pages are tested in."""
    return CHROMIUM
