"""The demo as the tour meets it: filled, asked, planned, with a pattern of her own; and what to
hand to it: photographs made by the benches' own scenes, and two tables."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from eye_pours import a_pour
from eye_scene import photograph as of_a_tray
from playwright.sync_api import Browser, Page
from trace_photo import Camera, Scene, photograph

from stash.demo import fill
from stash.model import NotionKind, Piece
from stash.store import Stash, open_stash
from stash.workroom import patterns
from web import create_app
from web.http_server import answering

WHO = "Odile Farrant"
PLAN = "Harbour trousers"
OWN = "Jetty top"
PATIENCE_MS = 240_000
_BACK = ((0.0, 0.0), (0.0, 180.0), (200.0, 220.0), (420.0, 240.0), (420.0, 0.0))
_SLEEVE = ((0.0, 0.0), (0.0, 300.0), (550.0, 350.0), (600.0, -350.0), (0.0, -300.0))
_ENGLISH = ("Cloth,Length,Width,Where,Note\nDune linen,2.5 m,140 cm,Shelf 9,from the market\n"
            "Plover twill,1.2 m,wide,Shelf 9,\nGull drill,90 cm,150 cm,,\n")
_GERMAN = "Stoff;Länge;Breite\nDüne;2,5;140\nRegenpfeifer;1,2;150\n"


@dataclass(frozen=True)
class Workroom:
    """Where it is served, the codes of what is looked at, and files to hand in."""

    address: str
    whole: str
    remnant: str
    buttons: str
    tape: str
    blank: str
    place: str
    files: Path
    answers: dict[str, str]


@contextmanager
def workroom(folder: Path) -> Iterator[Workroom]:
    """The demo, served, filled where it is not there yet; answers are asked for by ``ask``."""
    data, codes = folder / "stash", folder / "codes.json"
    if not data.exists():
        with open_stash(data) as stash:
            fill(stash)
            _her_own(stash)
            codes.write_text(json.dumps(_looked_at(stash)))
        _files(folder)
    with answering(create_app(data), "127.0.0.1", 0) as pages:
        yield Workroom(f"http://127.0.0.1:{pages.port}", files=folder, answers={},
                       **json.loads(codes.read_text()))


def _looked_at(stash: Stash) -> dict[str, str]:
    cuts, bins = stash.cuts.all(), stash.bins.all()
    [blank] = stash.labels.reserve(1)
    return {
        "whole": next(str(one.code) for one in cuts
                      if one.cloth.mass_gsm and len(one.outline.ring_mm) == 4),
        "remnant": next(str(one.code) for one in cuts if len(one.outline.ring_mm) > 4),
        "buttons": next(str(one.code) for one in bins if one.notion.kind is NotionKind.BUTTON),
        "tape": next(str(one.code) for one in bins if one.notion.kind is NotionKind.TAPE),
        "blank": str(blank), "place": stash.places.names()[0],
    }


def _her_own(stash: Stash) -> None:
    patterns.keep(stash, OWN, (
        Piece(name="back", outline_mm=_BACK, notches_mm=((310.0, 230.0),)),
        Piece(name="front", outline_mm=tuple((x * 1.1, y * 1.2) for x, y in _BACK), quantity=2),
        Piece(name="sleeve with a long name", outline_mm=_SLEEVE, quantity=2),
    ), "typed")


def _files(folder: Path) -> None:
    tray, camera = a_pour(31, kind="four holes", count=14, megapixels=2.0)
    (folder / "pour.jpg").write_bytes(of_a_tray(tray, camera))
    (folder / "paper.jpg").write_bytes(photograph(
        Scene(pieces=[[(260, -80), (520, -60), (500, 300), (420, 380), (270, 330)]],
              window=(-250, -250, 800, 600)),
        Camera(tilt_deg=15, target_mm=(200, 120), size_px=(2400, 1800))))
    (folder / "cloth.jpg").write_bytes(photograph(
        Scene(pieces=[((260, 20), (460, 20), (460, 60), (260, 60))],
              window=(-250, -250, 700, 500), density=2.0),
        Camera(tilt_deg=10, target_mm=(200, 120), height_mm=900, size_px=(1600, 1200))))
    (folder / "remnant.jpg").write_bytes(photograph(
        Scene(pieces=([(260, -90), (680, -90), (680, 210), (260, 210)],), cards=((380, 38, 0.0),),
              paper=(120, 80, 60), floor=(190, 200, 205), planks=False, density=2.5,
              window=(-500, -600, 1200, 900)),
        Camera(target_mm=(330, 80), height_mm=1050, tilt_deg=12, size_px=(2000, 1500),
               bend=(-0.02, 0.006))))
    (folder / "table.csv").write_text(_ENGLISH)
    (folder / "tabelle.csv").write_text(_GERMAN)


def ask(browser: Browser, room: Workroom) -> None:
    """Trousers asked of the stash and held for a plan, how far they go, and what a shirt needs.

    Asked once: a workroom that was kept still has the answers.
    """
    told = room.files / "answers.json"
    if not told.exists():
        page = browser.new_page(locale="en")
        page.set_default_timeout(PATIENCE_MS)
        told.write_text(json.dumps(_asked(page, room.address)))
        page.close()
    room.answers.update({name: room.address + path
                         for name, path in json.loads(told.read_text()).items()})


def _asked(page: Page, address: str) -> dict[str, str]:
    answers = {}
    _ask(page, f"{address}/become/", "trousers", 1)
    answers["answer"] = page.url
    answers["lay"] = address + str(page.locator(
        'a[href*="/lay/"]:not([href$=".svg"])').first.get_attribute("href"))
    page.locator("details:has(input[name=plan]) > summary").first.click()
    page.locator("input[name=plan]").first.fill(PLAN)
    page.locator("form:has(input[name=plan]) button.main").first.click()
    page.wait_for_load_state("networkidle")
    page.goto(f"{address}/asked/")
    answers["asked"] = address + str(page.locator(
        'main a[href^="/asked/"]').first.get_attribute("href"))
    page.goto(f"{address}/become/?garment=tote-bag&garment=trousers&from=apart")
    page.locator("input[name=person]").nth(1).check()
    page.locator("form.form button.main").first.click()
    _wait(page)
    answers["making"] = page.url
    page.goto(f"{address}/far/trousers/")
    page.locator("select[name=person]").select_option(WHO)
    page.locator("form.form button.main").first.click()
    _wait(page)
    answers["far"] = page.url
    _ask(page, f"{address}/shopping/", "shirt", 0)
    answers["shopping"] = page.url
    return {name: url.removeprefix(address) for name, url in answers.items()}


def _ask(page: Page, address: str, garment: str, person: int) -> None:
    page.goto(address)
    page.locator(f"input[name=garment][value={garment}]").check()
    page.locator("input[name=person]").nth(person).check()
    page.locator("form.form button.main").first.click()
    _wait(page)


def _wait(page: Page) -> None:
    page.locator("[data-over=yes]").first.wait_for(state="attached", timeout=PATIENCE_MS)
