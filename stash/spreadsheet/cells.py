"""A table as a file holds it: rows of cells, each a text as a person would type it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal

from stash.errors import InvalidInput

MOST_ROWS = 20_000
MOST_COLUMNS = 100
LONGEST_CELL = 2_000
CellRow = tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class CellTable:
    """``rows`` are of any length; ``sheet`` is the one that was read, ``others`` were not.

    ``encoding`` is how the text of a CSV file was written; empty for other files.
    """

    rows: tuple[CellRow, ...]
    sheet: str = ""
    others: tuple[str, ...] = ()
    encoding: str = ""


def cell_text(value: object) -> str:
    """A cell's value as text: 152.4, yes, 2024-03-09; a formula's last result."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, Decimal):
        value = float(value)
    if isinstance(value, float):
        return repr(int(value)) if value.is_integer() and abs(value) < 1e15 else repr(value)
    return str(value)


def tidied(cells: list[str]) -> CellRow:
    """One row without the guard before a formula, without empty cells at its end."""
    row = [_bare(" ".join(text.split())) for text in cells]
    while row and not row[-1]:
        row.pop()
    return tuple(row)


def table_of(
    rows: list[CellRow], *, sheet: str = "", others: tuple[str, ...] = (), encoding: str = ""
) -> CellTable:
    """The table without empty rows at its end; InvalidInput when it is empty or far too large."""
    while rows and not rows[-1]:
        rows.pop()
    if not rows:
        raise InvalidInput("spreadsheet_empty", field="file")
    if len(rows) > MOST_ROWS:
        raise InvalidInput("spreadsheet_too_long", most=MOST_ROWS, field="file")
    if any(len(text) > LONGEST_CELL for row in rows for text in row):
        raise InvalidInput("spreadsheet_cell_too_long", letters=LONGEST_CELL, field="file")
    return CellTable(rows=tuple(rows), sheet=sheet, others=others, encoding=encoding)


def _bare(text: str) -> str:
    """A text as it was before it was kept from being reckoned (``guarded``)."""
    return text[1:] if text[:1] == "'" and text[1:2] in ("=", "+", "-", "@") else text


def guarded(text: str) -> str:
    """A text that begins like a formula, kept from being reckoned by a spreadsheet."""
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t", "\r") else text
