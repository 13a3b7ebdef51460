"""Which column says what: guessed from its heading, in three languages, with its unit.

A column whose heading means nothing here is left out and said to be; nothing is guessed from
what the cells hold.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from stash.errors import InvalidInput
from stash.spreadsheet.cell_words import meanings, plain, rows_of, word
from stash.spreadsheet.cells import CellRow, CellTable

LENGTH_UNITS = ("mm", "cm", "m", "in", "yd")
MASS_UNITS = ("g/m2", "oz/yd2")
UNITS = {"length": LENGTH_UNITS, "mass": MASS_UNITS, "": ()}
BARE = re.compile(r"[\d\s.,/¼½¾⅛⅜⅝⅞]+")
MOST_LOOKED = 12
"""So many rows may stand above the headings: a title, a date."""
_SPELT = {
    "inch": "in", "inches": "in", "zoll": "in", "po": "in", "pouces": "in", '"': "in",
    "yard": "yd", "yards": "yd", "yds": "yd", "metres": "m", "meters": "m", "meter": "m",
    "mètres": "m", "g/m²": "g/m2", "gsm": "g/m2", "g/qm": "g/m2", "oz/yd²": "oz/yd2",
    "oz": "oz/yd2", "centimetres": "cm", "centimètres": "cm", "zentimeter": "cm",
}
_UNIT = "|".join(map(re.escape, sorted((*LENGTH_UNITS, *MASS_UNITS, *_SPELT), key=len,
                                       reverse=True)))
_IN_HEADING = re.compile(
    rf"(?P<name>.*?)\s*(?:[(\[]\s*(?:in\s+)?(?P<a>{_UNIT})\s*[)\]]|(?:,|/|\bin|\ben|\s)\s*"
    rf"(?P<b>{_UNIT}))\s*", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class SheetColumn:
    """One column: its place, its heading, what it says (a key of columns.csv), and its unit.

    ``key`` is empty where the column is left out, ``unit`` where each cell has its own or none
    is wanted.
    """

    at: int
    heading: str
    key: str = ""
    unit: str = ""


@dataclass(frozen=True, kw_only=True)
class Headings:
    """The columns of a table, and the row they are named in, counted from 0."""

    row: int
    columns: tuple[SheetColumn, ...]

    @property
    def read(self) -> tuple[SheetColumn, ...]:
        """The columns that say something."""
        return tuple(column for column in self.columns if column.key)


def column_keys() -> tuple[str, ...]:
    """Everything a column can say, in the order of the template."""
    return tuple(row["key"] for row in rows_of("columns"))


def heading(key: str, language: str) -> str:
    """What the column is called in the template."""
    return word(key, language, "columns")


def units_of(key: str) -> tuple[str, ...]:
    """The units that a column of this kind may have."""
    found = next((row["unit"] for row in rows_of("columns") if row["key"] == key), "")
    return UNITS[found]


def guessed(table: CellTable) -> Headings:
    """The columns as their headings say; of two with the same meaning the first one is read."""
    looked = [_columns(row) for row in table.rows[:MOST_LOOKED]]
    best = max(range(len(looked)), key=lambda at: (_known(looked[at]), -at))
    return Headings(row=best, columns=looked[best])


def corrected(
    headings: Headings, means: Mapping[int, str], units: Mapping[int, str]
) -> Headings:
    """The columns as she says they are, each by its place; the others stay as guessed.

    InvalidInput for a meaning or a unit that there is not, or a meaning that two columns have.
    """
    columns = tuple(
        replace(column, key=means.get(column.at, column.key),
                unit=units.get(column.at, column.unit))
        for column in headings.columns)
    taken: dict[str, str] = {}
    for column in columns:
        if column.key and column.key not in column_keys():
            raise InvalidInput("no_such_column", typed=column.key[:40], known=column_keys())
        if column.unit and column.unit not in units_of(column.key):
            raise InvalidInput("no_unit_of_column", typed=column.unit[:20],
                               column=column.heading, known=units_of(column.key))
        if column.key in taken:
            raise InvalidInput("column_twice", column=column.heading, other=taken[column.key])
        if column.key:
            taken[column.key] = column.heading
    return replace(headings, columns=columns)


def has_bare(table: CellTable, headings: Headings, key: str) -> bool:
    """Whether a column of lengths or weights holds a number that has no unit anywhere."""
    column = next((c for c in headings.read if c.key == key), None)
    if column is None or column.unit or not units_of(key) or key == "amount":
        return False
    cells = (row[column.at] for row in table.rows[headings.row + 1 :] if column.at < len(row))
    return any(BARE.fullmatch(text) for text in cells if text)


def of_heading(headings: Headings, typed: str) -> int:
    """The place of the column with this heading; InvalidInput when there is none."""
    for column in headings.columns:
        if plain(typed) in (plain(column.heading), plain(_parted(column.heading)[0])):
            return column.at
    known = tuple(column.heading for column in headings.columns if column.heading)
    raise InvalidInput("no_such_heading", typed=typed[:40], known=known)


def _columns(row: CellRow) -> tuple[SheetColumn, ...]:
    taken: set[str] = set()
    columns = []
    for at, text in enumerate(row):
        key, unit = _meant(text)
        if key in taken:
            key, unit = "", ""
        taken.add(key)
        columns.append(SheetColumn(at=at, heading=text, key=key, unit=unit))
    return tuple(columns)


def _meant(text: str) -> tuple[str, str]:
    means = meanings("columns")
    if whole := means.get(plain(text)):
        return whole, "g/m2" if plain(text) == "gsm" else ""
    name, unit = _parted(text)
    key = means.get(plain(name), "")
    return (key, unit) if unit in units_of(key) else ("", "")


def _parted(text: str) -> tuple[str, str]:
    """A heading without its unit, and the unit: "Length (cm)", "Länge in cm", "Laize, cm"."""
    found = _IN_HEADING.fullmatch(text.replace("_", " "))
    if not found:
        return text, ""
    unit = (found["a"] or found["b"]).lower()
    return found["name"], _SPELT.get(unit, unit)


def _known(columns: Sequence[SheetColumn]) -> int:
    return sum(bool(column.key) for column in columns)
