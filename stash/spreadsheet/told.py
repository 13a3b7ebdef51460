"""What one row tells of a cut or a bin: its filled cells, read and in the house's units."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from stash.colours import read_colour, read_colours
from stash.errors import InvalidInput
from stash.fibres import parse_composition
from stash.model import Code, Construction, NotionKind
from stash.model.amounts import AMOUNT, SIZE
from stash.model.came import parse_came
from stash.quantity import Quantity, read_length, read_length_or_nothing
from stash.spreadsheet.cell_words import KINDS, MADE, meanings, plain
from stash.spreadsheet.cells import CellRow
from stash.spreadsheet.columns import BARE, Headings, SheetColumn
from stash.units import parse_mass

CURRENCY = re.compile(r"[€$£¥]|\b(?:eur|euro|usd|gbp|chf)\b", re.IGNORECASE)
OF_CUTS = ("length", "width", "construction", "washed", "acquired", "price", "one_way",
           "shrink_along", "shrink_across", "stretch", "stretch_along", "care", "keep_for")
OF_BINS = ("size", "amount")
LONGEST = {"name": 200, "place": 100}
Told = dict[str, Any]
"""By the keys of columns.csv: lengths in mm, the mass in g/m2, per cent, minor units."""


def read_told(row: CellRow, headings: Headings) -> Told:
    """What a row tells, ``what`` always; InvalidInput says which cell cannot be read.

    A number without a unit is refused where neither its cell nor its heading has one.
    """
    typed = {column.key: row[column.at] for column in headings.read
             if column.at < len(row) and row[column.at]}
    columns = {column.key: column for column in headings.read}
    told: Told = {"what": _what(typed.get("what", ""))}
    kind = None if told["what"] == "cut" else NotionKind(told["what"])
    for key, text in typed.items():
        if key == "what":
            continue
        if key in (OF_BINS if kind is None else OF_CUTS):
            raise InvalidInput(
                "column_not_of_this", column=columns[key].heading, field=key)
        read = _READERS.get(key, _text)
        told[key] = read(text, columns[key], kind)
    return told


CellReader = Callable[[str, SheetColumn, NotionKind | None], Any]


def _what(text: str) -> str:
    found = meanings("words").get(plain(text), "") if text else "cut"
    if found not in KINDS:
        raise InvalidInput("what_is_in_row", typed=text[:40], known=KINDS, field="what")
    return found


def _text(text: str, column: SheetColumn, kind: NotionKind | None) -> str:
    most = LONGEST.get(column.key, 2000)
    if len(text) > most:
        raise InvalidInput(
            "field_too_long", letters=len(text), most_letters=most, field=column.key)
    return text


def _code(text: str, column: SheetColumn, kind: NotionKind | None) -> str:
    return Code.parse(text).text


def _with_unit(text: str, column: SheetColumn, example: str) -> str:
    """The cell with the unit of its column where it has none of its own."""
    if not BARE.fullmatch(text):
        return text
    if not column.unit:
        raise InvalidInput("unit_of_column_wanted", typed=text[:40], column=column.heading,
                           example=example, field=column.key)
    return f"{text} {column.unit}"


def _length(quantity: Quantity) -> CellReader:
    def read(text: str, column: SheetColumn, kind: NotionKind | None) -> float:
        example = quantity.value.example
        return read_length(_with_unit(text, column, example), quantity, field=column.key)

    return read


def _size(text: str, column: SheetColumn, kind: NotionKind | None) -> float:
    assert kind is not None
    return _length(SIZE[kind])(text, column, kind)  # type: ignore[no-any-return]


def _amount(text: str, column: SheetColumn, kind: NotionKind | None) -> float:
    assert kind is not None
    if kind.counted:
        if not re.fullmatch(r"\d{1,7}(?:[.,]0+)?", text):
            raise InvalidInput("count_in_row", typed=text[:40], field="amount")
        return float(text.replace(",", "."))
    if text == "0":
        return 0.0
    example = AMOUNT[kind].value.example
    return read_length_or_nothing(
        _with_unit(text, column, example), AMOUNT[kind], field="amount")


def _mass(text: str, column: SheetColumn, kind: NotionKind | None) -> float:
    return parse_mass(_with_unit(text, column, "180 g/m2"), field="mass")


def _fibres(text: str, column: SheetColumn, kind: NotionKind | None) -> Any:
    return parse_composition(text) if kind is None else _text(text, column, kind)


def _construction(text: str, column: SheetColumn, kind: NotionKind | None) -> Construction:
    found = meanings("words").get(plain(text), "")
    if found not in MADE:
        raise InvalidInput("construction_in_row", typed=text[:40], field="construction")
    return Construction(found)


def _colour(text: str, column: SheetColumn, kind: NotionKind | None) -> Any:
    if kind is None:
        return read_colours(text)
    try:
        return read_colour(text)
    except InvalidInput:  # buttons are of shell and brass as well as of a colour
        return _text(text, column, kind)


def _yes(text: str, column: SheetColumn, kind: NotionKind | None) -> bool:
    found = meanings("words").get(plain(text), "")
    if found not in ("yes", "no"):
        raise InvalidInput("yes_or_no", typed=text[:40], column=column.heading, field=column.key)
    return found == "yes"


def _number(most: float) -> CellReader:
    def read(text: str, column: SheetColumn, kind: NotionKind | None) -> float:
        found = re.fullmatch(r"(-?\d{1,6}(?:[.,]\d+)?)\s*%?", text)
        value = float(found[1].replace(",", ".")) if found else -1.0
        if not 0 <= value <= most:
            raise InvalidInput("number_in_row", typed=text[:40], column=column.heading,
                               most=most, field=column.key)
        return value

    return read


def _price(text: str, column: SheetColumn, kind: NotionKind | None) -> int:
    plain_text = CURRENCY.sub("", text).strip()
    price: float = _number(100_000)(plain_text, column, kind)
    return round(price * 100)


def _day(text: str, column: SheetColumn, kind: NotionKind | None) -> str:
    """2024-03-09; 9.3.2024; a day of slashes only where it can mean one thing; 2024-03; 2024."""
    return parse_came(text)


_READERS: Mapping[str, CellReader] = {
    "code": _code, "length": _length(Quantity.CUT_LENGTH), "width": _length(Quantity.WIDTH),
    "size": _size, "amount": _amount, "fibres": _fibres, "construction": _construction,
    "mass": _mass, "colour": _colour, "washed": _yes, "acquired": _day, "price": _price,
    "one_way": _yes, "shrink_along": _number(40), "shrink_across": _number(40),
    "stretch": _number(300), "stretch_along": _number(300),
}
