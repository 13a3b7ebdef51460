"""What is here, in the columns of the template: what goes out so comes in again as the same."""

from __future__ import annotations

from collections.abc import Callable

from stash.colours import nearest
from stash.fibres import format_composition
from stash.model import Bin, Cut, NotionKind
from stash.sentences import Reader
from stash.spreadsheet.cell_words import word
from stash.spreadsheet.columns import column_keys, heading, units_of
from stash.spreadsheet.writing import KINDS, SheetCell, written
from stash.store import Stash
from stash.units import GSM_PER_OZ_YD2, INCH_MM, System

__all__ = ["KINDS"]

SHEET = {"en": "Stash", "fr": "Réserve", "de": "Vorrat"}
OWN_UNIT = ("size", "amount")
"""Each cell of these has its unit, since a button and a tape have not the same."""


def template(reader: Reader, kind: str) -> bytes:
    """An empty table to fill in, with headings in her language and units."""
    return written([_headings(reader)], kind, sheet=SHEET[reader.language])


def filled(stash: Stash, reader: Reader, kind: str) -> bytes:
    """All cuts and bins that are here."""
    rows: list[list[SheetCell]] = [_headings(reader)]
    for cut in stash.cuts.all():
        rows.append([_of_cut(cut, key, reader) for key in column_keys()])
    for held in stash.bins.all():
        rows.append([_of_bin(held, key, reader) for key in column_keys()])
    return written(rows, kind, sheet=SHEET[reader.language])


def _headings(reader: Reader) -> list[SheetCell]:
    named: list[SheetCell] = []
    for key in column_keys():
        unit = "" if key in OWN_UNIT or not units_of(key) else f" ({_unit(key, reader)})"
        named.append(heading(key, reader.language) + unit)
    return named


def _unit(key: str, reader: Reader) -> str:
    inches = reader.system is System.INCHES
    if key == "mass":
        return "oz/yd2" if inches else "g/m2"
    return "in" if inches else "cm"


def _mm(value: float, reader: Reader) -> float:
    return value / (INCH_MM if reader.system is System.INCHES else 10)


def _gsm(value: float | None, reader: Reader) -> float | None:
    if value is None or reader.system is not System.INCHES:
        return value
    return value / GSM_PER_OZ_YD2


def _yes(value: bool, reader: Reader) -> str:
    return word("yes" if value else "no", reader.language)


def _colour(colour: str, reader: Reader) -> str:
    """The name and the very colour: dark red (#7a1f2b)."""
    return f"{nearest(colour).said(reader.language)} ({colour})"


def _of_cut(cut: Cut, key: str, reader: Reader) -> SheetCell:
    cloth = cut.cloth
    cells: dict[str, Callable[[], SheetCell]] = {
        "code": lambda: cut.code, "what": lambda: word("cut", reader.language),
        "name": lambda: cloth.name, "length": lambda: _mm(cut.length_mm, reader),
        "width": lambda: _mm(cut.width_mm, reader),
        "fibres": lambda: format_composition(cloth.fibres),
        "construction": lambda: cloth.construction and word(
            cloth.construction.value, reader.language),
        "mass": lambda: _gsm(cloth.mass_gsm, reader),
        "colour": lambda: "; ".join(_colour(one, reader) for one in cloth.colours),
        "place": lambda: cut.place, "washed": lambda: _yes(cut.washed, reader),
        "acquired": lambda: cut.acquired,
        "price": lambda: cloth.price_minor_per_m and cloth.price_minor_per_m / 100,
        "one_way": lambda: _yes(cloth.one_way, reader),
        "shrink_along": lambda: cloth.shrink_along_pct if cloth.shrink_known else None,
        "shrink_across": lambda: cloth.shrink_across_pct if cloth.shrink_known else None,
        "stretch": lambda: cloth.stretch_across_pct or None,
        "stretch_along": lambda: cloth.stretch_along_pct or None, "care": lambda: cloth.care,
        "keep_for": lambda: cut.keep_for, "notes": lambda: cloth.notes,
    }
    return (cells[key]() if key in cells else None) or _nothing(key, cells)


def _nothing(key: str, cells: dict[str, Callable[[], SheetCell]]) -> SheetCell:
    """An empty cell, but for a nought that was measured."""
    return 0.0 if key in cells and cells[key]() == 0 else None


def _of_bin(held: Bin, key: str, reader: Reader) -> SheetCell:
    notion, kind = held.notion, held.notion.kind
    cells: dict[str, SheetCell] = {
        "code": held.code, "what": word(kind.value, reader.language), "name": notion.name,
        "size": _with_unit(notion.size_mm), "amount": _amount(kind, held.amount),
        "fibres": notion.material, "mass": _gsm(notion.mass_gsm, reader),
        "colour": notion.colour and _colour_of(notion.colour, reader), "place": held.place,
        "notes": notion.notes,
    }
    return cells.get(key) or None


def _colour_of(colour: str, reader: Reader) -> str:
    return _colour(colour, reader) if colour.startswith("#") else colour


def _with_unit(mm: float | None) -> str | None:
    return None if mm is None else f"{mm!r} mm".replace(".0 mm", " mm")


def _amount(kind: NotionKind, amount: float) -> str:
    if kind.counted:
        return f"{amount:.0f}"
    return f"{amount / 1000!r} m" if amount else "0"
