"""Where labels lie on the paper, in millimetres from the top left corner of the page."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from stash import units
from stash.errors import InvalidInput
from stash.quantity import Quantity, read_length

A4_MM = (210.0, 297.0)
LETTER_MM = (215.9, 279.4)
PAGES_MM = {"a4": A4_MM, "letter": LETTER_MM}
NARROWEST_ROLL_MM = 12.0
WIDEST_ROLL_MM = 300.0


@dataclass(frozen=True, kw_only=True)
class LabelSheet:
    """A grid of equal labels on a page.

    ``left_mm`` and ``top_mm`` place the first label; ``gap_mm`` is (across, down).
    ``shift_mm`` corrects one printer: what it prints is moved right and down by it.
    """

    name: str
    page_mm: tuple[float, float]
    columns: int
    rows: int
    label_mm: tuple[float, float]
    left_mm: float = 0.0
    top_mm: float = 0.0
    gap_mm: tuple[float, float] = (0.0, 0.0)
    shift_mm: tuple[float, float] = (0.0, 0.0)

    @property
    def per_page(self) -> int:
        """Labels on one page."""
        return self.columns * self.rows

    def corner_mm(self, position: int) -> tuple[float, float]:
        """Top left corner of a label; ``position`` counts from 0 along the rows."""
        row, column = divmod(position % self.per_page, self.columns)
        return (
            self.left_mm + column * (self.label_mm[0] + self.gap_mm[0]) + self.shift_mm[0],
            self.top_mm + row * (self.label_mm[1] + self.gap_mm[1]) + self.shift_mm[1],
        )

    def positions(self, count: int, start: int = 1) -> Iterator[tuple[int, int]]:
        """(page, position) for each of ``count`` labels, from 1-based place ``start`` on."""
        if not 1 <= start <= self.per_page:
            raise InvalidInput("no_such_start", most=self.per_page, typed=str(start), field="start")
        for n in range(start - 1, start - 1 + count):
            yield divmod(n, self.per_page)

    def shifted(self, across_mm: float, down_mm: float) -> LabelSheet:
        """The same sheet on a printer that needs this correction."""
        return replace(self, shift_mm=(across_mm, down_mm))


def _grid(
    name: str, page_mm: tuple[float, float], grid: tuple[int, int],
    label_mm: tuple[float, float], corner_mm: tuple[float, float],
    gap_mm: tuple[float, float] = (0.0, 0.0),
) -> LabelSheet:
    return LabelSheet(
        name=name, page_mm=page_mm, columns=grid[0], rows=grid[1], label_mm=label_mm,
        left_mm=corner_mm[0], top_mm=corner_mm[1], gap_mm=gap_mm,
    )


# Sizes stationers print on the box; the margins are what is left of the page, halved.
# Common practice, no source: measure your own sheet and use --grid where it differs.
SHEETS = {
    sheet.name: sheet
    for sheet in (
        _grid("a4-24", A4_MM, (3, 8), (63.5, 33.9), (7.25, 12.9), (2.5, 0.0)),
        _grid("a4-24-wide", A4_MM, (3, 8), (70.0, 37.0), (0.0, 0.5)),
        _grid("a4-21", A4_MM, (3, 7), (63.5, 38.1), (7.25, 15.15), (2.5, 0.0)),
        _grid("a4-65", A4_MM, (5, 13), (38.1, 21.2), (4.75, 10.7), (2.5, 0.0)),
        _grid("a4-14", A4_MM, (2, 7), (99.1, 38.1), (4.65, 15.15), (2.5, 0.0)),
        _grid("a4-8", A4_MM, (2, 4), (99.1, 67.7), (4.65, 13.1), (2.5, 0.0)),
        _grid("letter-30", LETTER_MM, (3, 10), (66.675, 25.4), (4.7625, 12.7), (3.175, 0.0)),
    )
}


def sheet_named(name: str) -> LabelSheet:
    """A sheet of the list above; InvalidInput names them all."""
    try:
        return SHEETS[name.strip().lower()]
    except KeyError:
        raise InvalidInput(
            "no_such_sheet", typed=name[:40], known=tuple(SHEETS), field="sheet") from None


def own_grid(text: str, page_mm: tuple[float, float] = A4_MM) -> LabelSheet:
    """``COLUMNSxROWS,WxH,LEFT,TOP,GAPX,GAPY`` in mm, for example ``3x7,60x38,12,15,3,0``.

    The gaps may be left out. InvalidInput when it is not such a grid or runs off the page.
    """
    parts = [part.strip() for part in text.split(",")]
    try:
        columns, rows = (int(n) for n in _pair(parts[0]))
        width, height = (float(n) for n in _pair(parts[1]))
        left, top, *gaps = (float(n) for n in parts[2:])
        gap_x, gap_y = gaps if gaps else (0.0, 0.0)
    except (ValueError, IndexError):
        raise InvalidInput("not_a_grid", typed=text[:60], field="grid") from None
    sheet = _grid("own", page_mm, (columns, rows), (width, height), (left, top), (gap_x, gap_y))
    _check(sheet)
    return sheet


def roll(text: str) -> LabelSheet:
    """One label a page: ``50mm`` for a continuous roll, ``50x80mm`` for a die-cut one.

    The first figure is the width of the roll, the second how long each label is. On a
    continuous roll the length follows from the width: wide rolls get a flat label, narrow
    ones a tall label with the words under the symbol.
    """
    both = re.search(r"[x×*]", text, flags=re.IGNORECASE)
    sides = units.sides(text, field="roll") if both else (text,)
    width = read_length(sides[0], Quantity.PAPER, field="roll")
    if not NARROWEST_ROLL_MM <= width <= WIDEST_ROLL_MM:
        raise InvalidInput(
            "roll_width", least_paper_mm=NARROWEST_ROLL_MM, most_paper_mm=WIDEST_ROLL_MM,
            typed=text.strip()[:40], field="roll",
        )
    length = read_length(sides[1], Quantity.PAPER, field="roll") if len(sides) == 2 else None
    length = length or (max(32.0, 0.55 * width) if width >= 50 else width + max(20.0, 0.7 * width))
    if not NARROWEST_ROLL_MM <= length <= WIDEST_ROLL_MM:
        raise InvalidInput(
            "roll_label_length", least_paper_mm=NARROWEST_ROLL_MM, most_paper_mm=WIDEST_ROLL_MM,
            field="roll",
        )
    return _grid("roll", (width, length), (1, 1), (width, length), (0.0, 0.0))


def _pair(text: str) -> tuple[str, str]:
    first, second = re.split(r"[x×*]", text.strip(), flags=re.IGNORECASE)
    return first, second


def _check(sheet: LabelSheet) -> None:
    width, height = sheet.label_mm
    sound = 1 <= sheet.columns <= 50 and 1 <= sheet.rows <= 100 and min(sheet.gap_mm) >= 0
    if not sound or not (12 <= width <= 300 and 12 <= height <= 420) or min(
        sheet.left_mm, sheet.top_mm
    ) < 0:
        raise InvalidInput("grid_out_of_range", field="grid")
    right = sheet.left_mm + sheet.columns * (width + sheet.gap_mm[0]) - sheet.gap_mm[0]
    foot = sheet.top_mm + sheet.rows * (height + sheet.gap_mm[1]) - sheet.gap_mm[1]
    if right > sheet.page_mm[0] + 0.5 or foot > sheet.page_mm[1] + 0.5:
        raise InvalidInput(
            "grid_off_page", right_paper_mm=right, foot_paper_mm=foot,
            page_across_paper_mm=sheet.page_mm[0], page_down_paper_mm=sheet.page_mm[1],
            field="grid",
        )
