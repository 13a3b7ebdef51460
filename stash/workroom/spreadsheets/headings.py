"""What each column says, as guessed and as she corrects it."""

from __future__ import annotations

from collections.abc import Mapping

from stash.spreadsheet import columns
from stash.spreadsheet.cells import CellTable
from stash.spreadsheet.columns import Headings, SheetColumn, of_heading
from stash.spreadsheet.reading import read_spreadsheet

__all__ = ["CellTable", "Headings", "SheetColumn", "of_heading"]


def headings_of(content: bytes) -> tuple[CellTable, Headings]:
    """A file's table, and its columns as their headings say; InvalidInput for what is none."""
    table = read_spreadsheet(content)
    return table, columns.guessed(table)


def as_said(
    headings: Headings, means: Mapping[int, str], units: Mapping[int, str]
) -> Headings:
    """The columns as she says they are, each by its place."""
    return columns.corrected(headings, means, units)


def meanings(language: str) -> list[tuple[str, str]]:
    """Everything a column can say: its key, and its name in a language."""
    return [(key, columns.heading(key, language)) for key in columns.column_keys()]


def bare_column(table: CellTable, headings: Headings, key: str) -> bool:
    """Whether the column of this key holds a number that has no unit anywhere."""
    return columns.has_bare(table, headings, key)


def units_of(key: str) -> tuple[str, ...]:
    """The units that a column of this kind may have; none where none is wanted."""
    return columns.units_of(key)
