"""A stash of any size, made of events as a workroom would have recorded them, in bulk."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path

from stash.ledger import CutHold, Event, Kind
from stash.model import (
    Cloth,
    Code,
    Construction,
    FibreShare,
    Notion,
    NotionKind,
    Outline,
    Person,
    Plan,
    PlannedGarment,
)
from stash.model.exact import to_plain
from stash.store import open_stash

FIBRES = ("flax", "cotton", "wool", "silk", "viscose", "polyester", "hemp", "elastane")
HUES = ("#c9b691", "#7a1f2b", "#1f3a7a", "#f4efe6", "#2b2b2b", "#9a3b2c", "#5f7d4e", "#d8a23a")
KINDS = ("linen", "twill", "voile", "drill", "jersey", "flannel", "poplin", "canvas")
FAMILIES = ("dune", "tide", "gull", "kelp", "brine", "moth", "limpet", "barge", "heath", "storm")
NOTIONS = tuple(NotionKind)


def make(place: Path, cuts: int, bins: int, later: int = 4) -> tuple[list[str], list[str]]:
    """The stash in an empty folder: its cuts' codes and its bins'.

    Five cuts of each cloth, a place for forty things, ``later`` happenings for each cut.
    """
    rng = random.Random(5)
    codes = _codes(cuts + bins, rng)
    with open_stash(place) as stash:
        stash.ledger.keep(_events(codes[:cuts], codes[cuts:], later, rng))
        for n in range(30):
            stash.people.save(Person(name=f"Person {n:02d}", measurements_mm={
                "hip": 900.0 + 10 * n, "waist": 700.0 + 10 * n, "bust": 880.0 + 10 * n}))
        for n in range(40):
            stash.plans.save(Plan(name=f"Plan {n:02d}", garments=(
                PlannedGarment(garment="tote-bag", person="", options={}),)))
            stash.plans.hold(f"Plan {n:02d}", {
                codes[7 * n]: CutHold(plan="", from_mm=0.0, to_mm=300.0)})
        stash.labels.printed({code: {"name": code} for code in codes[: cuts // 2]})
        stash.settle()
    open_stash(place).close()
    return codes[:cuts], codes[cuts:]


def _codes(count: int, rng: random.Random) -> list[str]:
    found: dict[str, None] = {}
    while len(found) < count:
        found[Code.draw(rng).text] = None
    return list(found)


def _events(
    cuts: list[str], bins: list[str], later: int, rng: random.Random
) -> Iterator[Event]:
    shelves = max(4, (len(cuts) + len(bins)) // 40)
    number = 0

    def event(kind: Kind, code: str, change: dict, undoes: int | None = None) -> Event:
        nonlocal number
        number += 1
        day = 1 + number * 27 // (len(cuts) * (later + 1) + len(bins) + 1)
        return Event(id=number, at=f"2026-{1 + number % 11:02d}-{day:02d}T09:00:00.000+00:00",
                     kind=kind, code=code, change=change, undoes=undoes, who="Wren")

    for n, code in enumerate(cuts):
        subject, cloth = f"cloth:{n // 5:010x}", _cloth(n // 5)
        outline = Outline.rectangle(rng.uniform(600, 5000), rng.choice((900, 1140, 1400, 1500)))
        yield event(Kind.RECEIPT, code, {
            subject: {"record": to_plain(cloth)},
            code: {"cut": {"cloth": subject, "outline": to_plain(outline),
                           "washed": n % 3 > 0, "place": f"Shelf {n % shelves:04d}",
                           "acquired": f"20{10 + n % 16}-{1 + n % 12:02d}-04"}}})
    for n, code in enumerate(bins):
        yield event(Kind.RECEIPT, code, {code: {"bin": {
            "notion": to_plain(_notion(n)), "amount": float(1 + n % 60),
            "place": f"Shelf {n % shelves:04d}"}}})
    for n in range(later * len(cuts)):
        code = cuts[(n * 7) % len(cuts)]
        if n % 50 == 49:
            undone = cuts[((n - 1) * 7) % len(cuts)]
            yield event(Kind.UNDO, undone, {undone: {}}, undoes=number)
        elif n % 400 == 41 and n >= (later - 1) * len(cuts):
            yield event(Kind.GIFT, code, {code: {}})
        elif n % 5 == 0:
            yield event(Kind.MOVE, code, {code: {"place": f"Shelf {n % shelves:04d}"}})
        else:
            yield event(Kind.CUT_OFF, code, {code: {"length_mm": 5.0}})


def _cloth(n: int) -> Cloth:
    share = FIBRES[n % len(FIBRES)]
    return Cloth(
        name=f"{FAMILIES[n % 10].title()} {KINDS[n % 8]} {n:05d}",
        construction=Construction.KNIT if n % 8 == 4 else Construction.WOVEN,
        fibres=(FibreShare(share, 100.0),) if n % 3 else (
            FibreShare(share, 60.0), FibreShare(FIBRES[(n + 3) % 8], 40.0)),
        mass_gsm=60.0 + (n * 37) % 340, colours=(HUES[n % 8],), notes="from a market" * (n % 2))


def _notion(n: int) -> Notion:
    kind = NOTIONS[n % len(NOTIONS)]
    return Notion(kind=kind, name=f"{FAMILIES[n % 10].title()} {kind.value} {n:05d}",
                  size_mm=5.0 + n % 25, colour=HUES[n % 8], material=("horn", "glass", "")[n % 3])
