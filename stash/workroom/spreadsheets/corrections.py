"""What a row says otherwise than the record, put right; what it leaves empty stays as it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import isclose
from typing import Any

from stash.errors import Conflict
from stash.fact import Fact, Term, fact
from stash.ledger.shapes import resized
from stash.model import Bin, Cloth, Cut, Notion, ShrinkStatus
from stash.spreadsheet.columns import heading
from stash.spreadsheet.told import Told
from stash.store import Stash
from stash.store.naming import key_of

CLOTH = {
    "name": "name", "fibres": "fibres", "construction": "construction", "mass": "mass_gsm",
    "colour": "colours", "one_way": "one_way", "price": "price_minor_per_m",
    "shrink_along": "shrink_along_pct", "shrink_across": "shrink_across_pct",
    "stretch": "stretch_across_pct", "stretch_along": "stretch_along_pct", "care": "care",
    "notes": "notes",
}
NOTION = {"name": "name", "size": "size_mm", "colour": "colour", "fibres": "material",
          "mass": "mass_gsm", "notes": "notes"}
NEAR_MM, NEAR = 0.05, 1e-6
"""A figure as near as this to that on record is the same figure, written otherwise."""


def cloth_told(known: Cloth, told: Told) -> Cloth:
    """The cloth with what the row says of it."""
    changes = {CLOTH[key]: value for key, value in told.items()
               if key in CLOTH and not _alike(key, getattr(known, CLOTH[key]), value)}
    if any(key.startswith("shrink") for key in changes):
        changes |= {"shrink_status": ShrinkStatus.MEASURED, "shrink_from": None}
    return known.told(**changes)


def notion_told(known: Notion, told: Told) -> Notion:
    """The notion with what the row says of it."""
    return replace(known, **{
        NOTION[key]: value for key, value in told.items()
        if key in NOTION and not _alike(key, getattr(known, NOTION[key]), value)})


def change_cut(stash: Stash, code: str, told: Told) -> tuple[Fact, ...]:
    """Put a cut that is here right; what was changed, nothing where all was so already."""
    cut = stash.cuts.get(code)
    changes = [*_said(cut.cloth, told, CLOTH), *_size(stash, cut, told)]
    if any(_differs(cut.cloth, told, CLOTH)):
        stash.cloths.correct(code, cloth_told(cut.cloth, told))
    if (moved := _moved(cut.place, told)) is not None:
        stash.cuts.move(code, told["place"])
        changes.append(moved)
    if told.get("washed") and not cut.washed:
        stash.cuts.wash(code, outline=stash.cuts.get(code).outline)
        changes.append(_field("washed"))
    if told.get("washed") is False and cut.washed:
        raise Conflict("washed_stays", code=code)
    for key in ("acquired", "keep_for"):
        if told.get(key) and told[key] != getattr(cut, key):
            stash.cuts.correct(code, **{key: told[key]})
            changes.append(_field(key))
    return tuple(changes)


def change_bin(stash: Stash, code: str, told: Told) -> tuple[Fact, ...]:
    """Put a bin that is here right; what was changed, nothing where all was so already."""
    held: Bin = stash.bins.get(code)
    if held.notion.kind.value != told["what"]:
        raise Conflict("kind_stays", code=code)
    changes = list(_said(held.notion, told, NOTION))
    if changes:
        stash.bins.correct(code, notion_told(held.notion, told))
    if "amount" in told and not _alike("amount", held.amount, told["amount"]):
        stash.bins.count(code, told["amount"])
        changes.append(_field("amount"))
    if (moved := _moved(held.place, told)) is not None:
        stash.bins.move(code, told["place"])
        changes.append(moved)
    return tuple(changes)


def _size(stash: Stash, cut: Cut, told: Told) -> Iterator[Fact]:
    """The size it was measured to; its shape stays."""
    length_mm = told.get("length", cut.length_mm)
    width_mm = told.get("width", cut.width_mm)
    for key, before, after in (("length", cut.length_mm, length_mm),
                               ("width", cut.width_mm, width_mm)):
        if not _alike(key, before, after):
            yield fact("row_length_becomes", column=Term(heading(key, "en")), before_mm=before,
                       after_mm=after)
    if not (_alike("length", cut.length_mm, length_mm) and _alike("width", cut.width_mm, width_mm)):
        stash.cuts.remeasure(cut.code, resized(cut.outline, length_mm, width_mm))


def _differs(known: object, told: Told, names: dict[str, str]) -> Iterator[str]:
    for key, value in told.items():
        if key in names and not _alike(key, getattr(known, names[key]), value):
            yield key


def _said(known: object, told: Told, names: dict[str, str]) -> Iterator[Fact]:
    for key in _differs(known, told, names):
        before = getattr(known, names[key])
        if isinstance(before, str) and before and isinstance(told[key], str) and key != "colour":
            yield fact("row_text_becomes", column=Term(heading(key, "en")), before=before,
                       after=str(told[key]))
        else:
            yield _field(key)


def _field(key: str) -> Fact:
    return fact("row_column_changes", column=Term(heading(key, "en")))


def _moved(before: str | None, told: Told) -> Fact | None:
    if not told.get("place") or key_of(before or "") == key_of(told["place"]):
        return None
    return fact("row_moves", place=str(told["place"]))


def _alike(key: str, before: Any, after: Any) -> bool:
    if isinstance(before, float | int) and isinstance(after, float | int):
        return isclose(before, after, rel_tol=NEAR, abs_tol=NEAR_MM)
    if isinstance(before, str) and isinstance(after, str):
        return before.split() == after.split()
    return bool(before == after)
