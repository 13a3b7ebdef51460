"""Pictures of every page, to be opened one by one.

    python tests/bench/tour.py FOLDER [--sets en-360-light,de-1280-dark,...] [--only NAME,...]
                               [--workroom FOLDER] [--beside FOLDER]

The demo is walked in Chromium at 360 and 1280 pixels, light and dark, in each language: twelve
sets, a folder each. Told is what runs off sideways and what could not be reached. A workroom
that is kept is taken again, so that pictures of two days can be laid beside each other: told is
then which of them are no longer the same.
"""

from __future__ import annotations

import argparse
import shutil
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from pathlib import Path

from PIL import Image, ImageChops
from playwright.sync_api import Browser, Page, sync_playwright
from playwright.sync_api import Error as Unreached
from tour_pages import Stop, stops
from tour_workroom import PATIENCE_MS, Workroom, ask, workroom

from stash.sentences.reader import LANGUAGES

HEIGHTS = {360: 740, 1280: 900}
AT_ONCE = "document.querySelectorAll('img[loading=lazy]').forEach(one => one.loading = 'eager')"
WIDE = "document.documentElement.scrollWidth - window.innerWidth"


@dataclass(frozen=True)
class Set:
    """For whom the pages are shown."""

    language: str
    width: int
    theme: str

    @classmethod
    def named(cls, name: str) -> Set:
        """The set called so, as "fr-360-dark"."""
        language, width, theme = name.split("-")
        return cls(language, int(width), theme)

    @property
    def name(self) -> str:
        """What its folder is called."""
        return f"{self.language}-{self.width}-{self.theme}"


SETS = [Set(*one).name for one in product(LANGUAGES, HEIGHTS, ("light", "dark"))]


def walk(browser: Browser, shown: Set, room: Workroom, chosen: Sequence[Stop], out: Path,
         beside: Path | None = None) -> int:
    """A picture of each stop in the set's folder; how many ran off sideways or were not reached."""
    context = browser.new_context(
        viewport={"width": shown.width, "height": HEIGHTS[shown.width]}, locale=shown.language,
        color_scheme=shown.theme, reduced_motion="reduce")  # type: ignore[arg-type]
    context.set_default_timeout(PATIENCE_MS)
    page = context.new_page()
    (out / shown.name).mkdir(parents=True, exist_ok=True)
    wrong = 0
    for stop in chosen:
        picture = Path(shown.name) / f"{stop.name}.png"
        told = _taken(page, stop, room, out / picture)
        if told:
            wrong += 1
            print(f"{shown.name} {stop.name}: {told}", flush=True)
        elif beside and not _alike(out / picture, beside / picture):
            print(f"{shown.name} {stop.name}: another picture than before", flush=True)
    context.close()
    return wrong


def _taken(page: Page, stop: Stop, room: Workroom, path: Path) -> str:
    try:
        stop.go(page, room)
        page.evaluate(AT_ONCE)
        page.wait_for_load_state("networkidle")
        page.screenshot(path=path, full_page=True)
    except Unreached as error:
        return str(error).splitlines()[0]
    wide = page.evaluate(WIDE)
    return f"runs off by {wide} pixels" if wide > 0 else ""


def _alike(one: Path, other: Path) -> bool:
    if not other.exists():
        return False
    with Image.open(one) as now, Image.open(other) as before:
        return now.size == before.size and not ImageChops.difference(
            now.convert("RGB"), before.convert("RGB")).getbbox()


def main() -> int:
    """Walk the sets asked for; 1 where anything ran off or was not reached."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--sets", default=",".join(SETS))
    parser.add_argument("--only", default="", help="names of stops, or parts of names")
    parser.add_argument("--workroom", type=Path, help="kept here, and taken from here again")
    parser.add_argument("--beside", type=Path, help="the folder of an earlier tour")
    asked = parser.parse_args()
    chosen = [stop for stop in stops() if any(n in stop.name for n in asked.only.split(","))]
    wrong = 0
    with tempfile.TemporaryDirectory() as passing, \
            workroom(asked.workroom or Path(passing)) as room, sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        ask(browser, room)
        for name in asked.sets.split(","):
            wrong += walk(browser, Set.named(name), room, chosen, asked.folder, asked.beside)
        browser.close()
    print(f"{len(chosen)} pages in each of {len(asked.sets.split(','))} sets; {wrong} to be mended")
    return 1 if wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
