"""A sheet of figures cut into printer pages: which page shows what, and in which order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from string import ascii_uppercase

import shapely
from shapely.geometry import box

from stash.errors import InvalidInput
from stash.model import Piece
from stash.pattern.arrange import Sheet, arrange
from stash.pattern.figure import Figure, draw_piece
from stash.pattern.lettering import Style

PAPERS_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
PRINTER_MARGIN_MM = 8.0  # home printers leave 3 to 6.5 mm unprinted; common practice, no source
GLUE_MM = 12.0
GAP_MM = 8.0
INSET_MM = 5.0  # so that no cutting line falls on the frame of a page
MOST_TILES = 400


@dataclass(frozen=True)
class Tile:
    """One page: its row and column, and the corner of the sheet it starts at."""

    row: int
    column: int
    left_mm: float
    top_mm: float

    @property
    def name(self) -> str:
        """Row letter and column number: B3 is the second row, third column."""
        return row_name(self.row) + str(self.column + 1)


@dataclass(frozen=True)
class Tiling:
    """How a sheet of figures falls on pages of one paper.

    ``step_mm`` is the stretch each page adds; each also shows ``GLUE_MM`` of the
    next page to its right and below, which is where the next page is glued on.
    """

    paper_mm: tuple[float, float]
    step_mm: tuple[float, float]
    sheet: Sheet
    tiles: tuple[Tile, ...]
    rows: int
    columns: int

    def at(self, row: int, column: int) -> Tile | None:
        """The page in that place; None where nothing is printed."""
        return next((t for t in self.tiles if (t.row, t.column) == (row, column)), None)


def row_name(row: int) -> str:
    """A, B ... Z, AA, AB ..."""
    letters = ""
    row += 1
    while row:
        row, rest = divmod(row - 1, 26)
        letters = ascii_uppercase[rest] + letters
    return letters


def tile(pieces: Sequence[Piece], paper: str, style: Style) -> Tiling:
    """The tiling of these pieces that takes the fewest pages."""
    if paper not in PAPERS_MM:
        raise InvalidInput("no_such_paper", papers=tuple(PAPERS_MM), typed=paper, field="sheet")
    if not pieces:
        raise InvalidInput("no_pieces_to_print")
    figures = [draw_piece(piece, style) for piece in pieces]
    tilings = [_tiled(figures, PAPERS_MM[paper], columns) for columns in range(1, 13)]
    best = min(tilings, key=lambda t: (len(t.tiles), t.rows + t.columns))
    if len(best.tiles) > MOST_TILES:
        raise InvalidInput("too_many_pages", pages=len(best.tiles))
    return best


def _tiled(figures: Sequence[Figure], paper_mm: tuple[float, float], columns: int) -> Tiling:
    wide, tall = (side - 2 * PRINTER_MARGIN_MM - GLUE_MM for side in paper_mm)
    step = (wide, tall)
    plain = arrange(figures, gap_mm=GAP_MM, width_mm=columns * step[0] - 2 * INSET_MM)
    sheet = Sheet(
        tuple(figure.moved(INSET_MM, INSET_MM) for figure in plain.figures),
        plain.width_mm + 2 * INSET_MM,
        plain.height_mm + 2 * INSET_MM,
    )
    rows, columns = ceil(sheet.height_mm / step[1]), ceil(sheet.width_mm / step[0])
    inked = [covered(figure) for figure in sheet.figures]
    tiles = tuple(
        Tile(row, column, column * step[0], row * step[1])
        for row in range(rows)
        for column in range(columns)
        if _touched(inked, column * step[0], row * step[1], step)
    )
    return Tiling(paper_mm, step, sheet, tiles, rows, columns)


def covered(figure: Figure) -> shapely.Geometry:
    """The paper a figure needs: the piece itself and the words beside it."""
    shape: shapely.Geometry = figure.shape.buffer(1.0)
    return shapely.union_all([shape, *(said.spot for said in figure.words)])


def _touched(
    inked: Sequence[shapely.Geometry], left: float, top: float, step: tuple[float, float]
) -> bool:
    page = box(left, top, left + step[0], top + step[1])
    return any(bool(shapely.intersects(shape, page)) for shape in inked)
