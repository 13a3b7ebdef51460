"""Every page the tour walks: its name on the picture, and how a person comes there."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from playwright.sync_api import Page
from tour_workroom import OWN, PATIENCE_MS, PLAN, WHO, Workroom

from web.guide_texts import guide

STANDING = (
    "/", "/more", "/bins/", "/bins/new", "/cuts/new", "/places/", "/people/", "/people/new",
    "/scan/", "/stock-take/", "/become/", "/far/", "/far/trousers/", "/labels/", "/shopping/",
    "/plans/", "/drafts/", "/drafts/trousers", "/patterns/", "/history/", "/settings/",
    "/settings/secure", "/record/", "/devices/", "/devices/pair", "/measure/", "/report/",
    "/asked/", "/entry/", "/spreadsheet/", "/pocket/", "/help/", "/no-such-page",
)
ASKED = {
    "found": "/?q=linen", "found-none": "/?q=nosuchcloth", "as-table": "/?view=table",
    "to-scale": "/?view=scale", "like": "/shopping/like?words=linen",
    "notions-found": "/bins/?q=horn",
}


@dataclass(frozen=True)
class Stop:
    """A page to be looked at."""

    name: str
    go: Callable[[Page, Workroom], None]


def stops() -> Iterator[Stop]:
    """All of them; those with something folded away once more with all of it open."""
    for path in STANDING:
        yield Stop(path.strip("/").replace("/", "-") or "stash", partial(_at, path))
    for guided in guide("en"):
        yield Stop(f"help-{guided.name}", partial(_at, f"/help/{guided.name}/"))
    for name, path in {**ASKED, **_SINGLE}.items():
        yield Stop(name, partial(_at, path))
    for name in ("answer", "lay", "asked", "making", "far", "shopping"):
        yield Stop(f"the-{name}", partial(_answered, name))
    for name, path in _FOLDED.items():
        yield Stop(f"open-{name}", partial(_open, path))
    yield Stop("open-the-answer", partial(_open_answer, "answer"))
    yield Stop("open-the-shopping", partial(_open_answer, "shopping"))
    for name, go in _HANDED.items():
        yield Stop(name, go)


_SINGLE = {
    "cut": "/c/{whole}", "remnant": "/c/{remnant}", "bin": "/c/{buttons}", "bin-tape": "/c/{tape}",
    "label-blank": "/c/{blank}", "label-not-ours": "/c/nothing", "cut-facts": "/cuts/{whole}/facts",
    "cut-as-cut": "/cuts/{whole}/as-cut", "cut-grain": "/cuts/{remnant}/grain",
    "bin-facts": "/bins/{buttons}/facts", "person": f"/people/{WHO}", "fit": f"/fit/?name={WHO}",
    "measured": f"/measured/?name={WHO}", "draft-trousers": f"/drafts/trousers?person={WHO}",
    "draft-shirt": "/drafts/shirt?person=Bram Okell",
    "altering": f"/alter/?of=fitted-bodice&person={WHO}", "weigh-cut": "/weigh/cut/{whole}",
    "weigh-bin": "/weigh/bin/{buttons}", "place": "/places/named/{place}",
    "stock-take-in": "/stock-take/in/{place}",
    "several": "/several/?code={whole}&code={remnant}&code={buttons}",
    "remnant-trace": "/tracing/remnant/{remnant}", "settle-weight": "/settle/{whole}/weight",
    "settle-shrinkage": "/settle/{whole}/shrinkage", "settle-making": "/settle/{whole}/making",
    "settle-width": "/settle/{whole}/width",
    "plan": f"/plans/of/{PLAN}", "cutting": f"/cutting/{PLAN}", "own": f"/patterns/own/{OWN}",
    "labels-for": "/labels/?code={whole}",
}
_FOLDED = {
    "stash": "/", "cut": "/c/{whole}", "remnant": "/c/{remnant}", "bin": "/c/{buttons}",
    "entry": "/entry/", "cut-new": "/cuts/new", "bin-new": "/bins/new", "make": "/become/",
    "settings": "/settings/", "labels": "/labels/", "patterns": "/patterns/",
    "cutting": f"/cutting/{PLAN}", "plan": f"/plans/of/{PLAN}", "own": f"/patterns/own/{OWN}",
    "history": "/history/", "bins": "/bins/", "like": "/shopping/like?words=linen",
    "person-new": "/people/new", "far": "/far/trousers/", "shopping": "/shopping/",
}


def _at(path: str, page: Page, room: Workroom) -> None:
    page.goto(room.address + path.format(**vars(room)))


def _unfold(page: Page) -> None:
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")


def _open(path: str, page: Page, room: Workroom) -> None:
    _at(path, page, room)
    _unfold(page)


def _answered(name: str, page: Page, room: Workroom) -> None:
    page.goto(room.answers[name])


def _open_answer(name: str, page: Page, room: Workroom) -> None:
    _answered(name, page, room)
    _unfold(page)


def _table(name: str, page: Page, room: Workroom) -> None:
    _at("/spreadsheet/", page, room)
    page.locator("input[type=file]").set_input_files(room.files / name)
    page.locator("main form:has(input[type=file]) button").first.click()
    page.locator("input[name=packed]").wait_for(state="attached", timeout=PATIENCE_MS)


def _pour(page: Page, room: Workroom) -> None:
    _at("/measure/", page, room)
    page.locator("input[type=file]").first.set_input_files(room.files / "pour.jpg")
    page.locator(".drawing.photo svg").first.wait_for(timeout=PATIENCE_MS)


def _colours(page: Page, room: Workroom) -> None:
    _at("/measure/", page, room)
    page.locator("#f-photo-colours").set_input_files(room.files / "cloth.jpg")
    spots = page.locator("[data-spots] svg")
    spots.wait_for(timeout=PATIENCE_MS)
    shown = spots.bounding_box() or {}
    for across, down in ((0.6, 0.42), (0.42, 0.6)):
        spots.click(position={"x": shown["width"] * across, "y": shown["height"] * down})
        page.wait_for_load_state("networkidle")
    page.locator("[data-coloured]:not([hidden]) .seen-colours i").nth(1).wait_for(
        timeout=PATIENCE_MS)


def _traced(page: Page, room: Workroom) -> None:
    _at("/patterns/", page, room)
    form = page.locator("form[action*=tracing]")
    form.locator("input[type=file]").first.set_input_files(room.files / "paper.jpg")
    form.locator("button").first.click()
    page.locator('svg[data-trace="0"]').wait_for(timeout=PATIENCE_MS)


def _traced_remnant(page: Page, room: Workroom) -> None:
    _at("/tracing/remnant/{remnant}", page, room)
    page.locator("input[type=file]").first.set_input_files(room.files / "remnant.jpg")
    page.locator("form[enctype] button").first.click()
    page.locator('svg[data-trace="0"]').wait_for(timeout=PATIENCE_MS)


def _refused(path: str, typed: dict[str, str], page: Page, room: Workroom,
             button: str = "main form.form button.main") -> None:
    """A form sent with what cannot be kept: it comes back with a sentence and what was typed."""
    _at(path, page, room)
    for name, value in typed.items():
        page.locator(f"input[name={name}]").first.fill(value)
    page.locator(button).first.click()
    page.locator(".refusal, [role=alert]").first.wait_for(timeout=PATIENCE_MS)


_HANDED: dict[str, Callable[[Page, Workroom], None]] = {
    "table-english": partial(_table, "table.csv"), "table-german": partial(_table, "tabelle.csv"),
    "pour": _pour, "colours": _colours, "traced": _traced, "traced-remnant": _traced_remnant,
    "refused-entry": partial(_refused, "/entry/", {"length": "3"}, button=".entry-next button"),
    "refused-person": partial(_refused, "/people/new", {"name": "Ida", "hip": "wide"}),
    "refused-make": partial(_refused, "/become/", {}),
}
