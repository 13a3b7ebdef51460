"""What is in the stash as one table that any spreadsheet opens."""

from __future__ import annotations

import csv
import io

from stash.fibres import format_composition
from stash.store.bins import BinCard
from stash.store.cuts import CutCard
from stash.store.opening import Stash

COLUMNS = (
    "code", "what", "name", "length_mm", "width_mm", "amount", "size_mm", "fibres", "mass_gsm",
    "colour", "washed", "place", "held_for", "acquired", "keep_for", "care", "notes",
)


def stock_table(stash: Stash) -> str:
    """Every present cut and bin, one a line, as CSV (RFC 4180) with a line of names first."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS)
    writer.writeheader()
    for row in (*map(_cut, stash.cuts.cards()), *map(_bin, stash.bins.cards())):
        writer.writerow({name: harmless(value) for name, value in row.items()})
    return out.getvalue()


def _cut(card: CutCard) -> dict[str, object]:
    cut, cloth = card.cut, card.cut.cloth
    return {
        "code": cut.code, "what": "cut" if cut.outline.is_rectangle else "remnant",
        "name": cloth.name, "length_mm": round(cut.length_mm, 1),
        "width_mm": round(cut.width_mm, 1), "fibres": format_composition(cloth.fibres),
        "mass_gsm": cloth.mass_gsm, "colour": " ".join(cloth.colours),
        "washed": "yes" if cut.washed else "no", "place": cut.place,
        "held_for": ", ".join(hold.plan for hold in card.holds), "acquired": cut.acquired,
        "keep_for": cut.keep_for, "care": cloth.care, "notes": cloth.notes,
    }


def _bin(card: BinCard) -> dict[str, object]:
    held, notion = card.bin, card.bin.notion
    measured = "amount" if notion.kind.counted else "length_mm"
    return {
        "code": held.code, "what": notion.kind.value, "name": notion.name,
        measured: round(held.amount, 1), "size_mm": notion.size_mm, "mass_gsm": notion.mass_gsm,
        "colour": notion.colour, "place": held.place,
        "held_for": ", ".join(hold.plan for hold in card.holds), "notes": notion.notes,
    }


def harmless(value: object) -> object:
    """A text that begins like a formula is kept from being reckoned by a spreadsheet."""
    if isinstance(value, str) and value[:1] in ("=", "+", "-", "@", "\t", "\r"):
        return f"'{value}"
    return value
