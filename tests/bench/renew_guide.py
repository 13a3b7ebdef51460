"""The guide's pictures, taken of the demo: ``python tests/bench/renew_guide.py [NAME...]``.

Each is a page as Chromium shows it on a phone, in each language the guide is written in, from
where the text speaks of it, and without the frame of every page: the reader's own is around it.
"""

from __future__ import annotations

import io
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from PIL import Image
from playwright.sync_api import Page, sync_playwright

from stash.demo import fill
from stash.model import NotionKind
from stash.pattern.typed import parse_typed
from stash.sentences.reader import LANGUAGES
from stash.workroom import patterns
from stash.workroom.opening import open_stash
from web import create_app
from web.guide_texts import FOLDER
from web.http_server import answering

PHONE = {"width": 360, "height": 560}
FRAMELESS = """document.addEventListener("DOMContentLoaded", () => {
  const style = document.createElement("style");
  style.textContent = ".masthead, .ways, .foot { display: none !important }";
  document.head.append(style);
});"""
SHARP = 1.5
PLAN = "Harbour trousers"
CUSHION = ("front, 47cm x 47cm, cut 1", "back, 47cm x 30cm, cut 2")
TO_THE_TOP = "one => scrollTo(0, one.getBoundingClientRect().top + scrollY - 12)"


@dataclass(frozen=True)
class Screen:
    """Where the demo is served, and where a workroom without cloth; codes of what is shown."""

    address: str
    bare: str
    whole: str
    remnant: str
    buttons: str


def _make(page: Page, on: Screen) -> None:
    page.goto(f"{on.address}/become/")
    page.locator("input[name=garment][value=trousers]").check()
    page.locator("input[name=person]").nth(1).check()


def _answer(page: Page, on: Screen) -> None:
    _make(page, on)
    page.locator("form.form button.main").first.click()
    page.locator("input[name=plan]").first.wait_for(state="attached", timeout=120_000)
    page.locator("li.card:has(figure)").first.evaluate(TO_THE_TOP)


def _cutting(page: Page, on: Screen) -> None:
    """The answer held for a plan once, then its cutting table."""
    page.goto(f"{on.address}/cutting/{PLAN}")
    if page.locator("h1").count() and PLAN in page.title():
        return
    _answer(page, on)
    page.locator("details:has(input[name=plan]) > summary").first.click()
    page.locator("input[name=plan]").first.fill(PLAN)
    page.locator("form:has(input[name=plan]) button.main").first.click()
    page.goto(f"{on.address}/cutting/{PLAN}")


def _shopping(page: Page, on: Screen) -> None:
    page.goto(f"{on.bare}/shopping/")
    page.locator("input[name=garment][value=trousers]").check()
    page.locator("input[name=person]").first.check()
    page.locator("form.form button.main").first.click()
    page.locator("main table").first.wait_for(timeout=240_000)
    page.locator("section:has(table)").first.evaluate(TO_THE_TOP)


def _at(path: str) -> Callable[[Page, Screen], None]:
    def go(page: Page, on: Screen) -> None:
        page.goto(on.address + path.format(whole=on.whole))
    return go


def _cloth(page: Page, on: Screen) -> None:
    page.goto(f"{on.address}/c/{on.whole}")
    page.locator(".card:has(dl)").first.evaluate(TO_THE_TOP)


def _remnant(page: Page, on: Screen) -> None:
    page.goto(f"{on.address}/c/{on.remnant}")
    page.locator("main .drawing").first.evaluate(TO_THE_TOP)


def _bin(page: Page, on: Screen) -> None:
    page.goto(f"{on.address}/c/{on.buttons}")
    page.locator(".card:has(.drawn-facts)").first.evaluate(TO_THE_TOP)


PICTURES: dict[str, Callable[[Page, Screen], None]] = {
    "make": _make,
    "cut": _at("/c/{whole}"),
    "remnant": _remnant,
    "bin": _bin,
    "answer": _answer,
    "cutting": _cutting,
    "shopping": _shopping,
    "cloth": _cloth,
    "patterns": _at("/patterns/"),
    "history": _at("/history/"),
}
"""A picture by the name the texts give it, and the way to the screen it shows."""


def renew(folder: Path, *, only: tuple[str, ...] = tuple(PICTURES)) -> None:
    """Take the pictures in every language into ``folder/LANGUAGE/NAME.webp``."""
    with _served() as on, sync_playwright() as playwright:
        browser = playwright.chromium.launch(args=["--no-sandbox"], executable_path=_chromium())
        for language in LANGUAGES:
            context = browser.new_context(
                viewport=PHONE, locale=language, device_scale_factor=SHARP, bypass_csp=True)
            context.add_init_script(FRAMELESS)
            page = context.new_page()
            for name in only:
                PICTURES[name](page, on)
                page.wait_for_load_state("networkidle")  # until what came into sight is there
                _kept(page.screenshot(), folder / language / f"{name}.webp")
            context.close()


@contextmanager
def _served() -> Iterator[Screen]:
    with tempfile.TemporaryDirectory() as room:
        full, bare = Path(room) / "full", Path(room) / "bare"
        with open_stash(full) as stash, open_stash(bare) as without:
            fill(stash)
            without.people.save(stash.people.get("Odile Farrant"))
            patterns.keep(stash, "Jetty cushion", tuple(map(parse_typed, CUSHION)), "typed")
            cuts = stash.cuts.all()
            whole = next(c for c in cuts if c.cloth.mass_gsm and len(c.outline.ring_mm) == 4)
            bitten = next(c for c in cuts if len(c.outline.ring_mm) > 4)
            buttons = next(b for b in stash.bins.all() if b.notion.kind is NotionKind.BUTTON)
        with (answering(create_app(full), "127.0.0.1", 0) as pages,
              answering(create_app(bare), "127.0.0.1", 0) as others):
            yield Screen(f"http://127.0.0.1:{pages.port}", f"http://127.0.0.1:{others.port}",
                         whole.code, bitten.code, buttons.code)


def _kept(png: bytes, path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    Image.open(io.BytesIO(png)).convert("RGB").save(path, quality=55, method=6)


def _chromium() -> str | None:
    import conftest
    return conftest.CHROMIUM


if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))
    renew(FOLDER / "pictures", only=tuple(sys.argv[1:]) or tuple(PICTURES))
