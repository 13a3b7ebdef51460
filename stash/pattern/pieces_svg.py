"""Pieces as SVG text: full size to print or plot, and small to scale for the screen."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape
from math import sqrt

from stash.model import Pattern, Piece
from stash.pattern.arrange import Sheet, arrange
from stash.pattern.figure import Figure, Ink, Stroke, draw_piece
from stash.pattern.legend import Legend, legend_of
from stash.pattern.lettering import Style, Words
from stash.pattern.mark_key import key_rows, with_numbers
from stash.sentences import METRIC, Reader
from stash.sentences.garments import garment_said
from stash.sentences.manner import day

TEST_SQUARE_MM = 50.0
DESK_SHARE = 0.85  # of the letters in a piece, on a page wide enough for all the pieces
PAPER, INK, QUIET = "#f7f4ec", "#24323d", "#7b858c"
# Weight in letter heights, colour, dashes in letter heights.
PENS: dict[Ink, tuple[float, str, tuple[float, ...]]] = {
    Ink.CUT: (0.11, INK, ()),
    Ink.STITCH: (0.06, "#3c7384", (0.8, 0.45)),
    Ink.GRAIN: (0.07, INK, ()),
    Ink.NOTCH: (0.2, INK, ()),
    Ink.FOLD: (0.09, "#a8572a", (2.0, 0.5, 0.3, 0.5)),
    Ink.MARK: (0.06, "#6b6f9c", (0.35, 0.35)),
    Ink.DIMENSION: (0.045, QUIET, ()),
}


def write_svg(
    pattern: Pattern | Sequence[Piece], *, title: str = "", reader: Reader = METRIC,
    drawn_on: str = "",
) -> str:
    """A full-size drawing: its width and height are millimetres, one user unit is 1 mm.

    Each piece is a group with its name and quantity as data; the path of class
    ``cut`` is the cutting line. A 50 mm square in the corner shows at once
    whether a printer changed the scale.
    """
    says = line_of(pattern, title, drawn_on, reader)
    pieces, title = pieces_of(pattern, title, reader)
    style = Style(letter_mm=7.0, reader=reader, says=says, complete=True)
    sheet = arrange([draw_piece(p, style) for p in pieces], gap_mm=30.0)
    foot = test_square(style, (0.0, sheet.height_mm + 30.0))
    size = (max(sheet.width_mm, TEST_SQUARE_MM + 80), sheet.height_mm + 30.0 + TEST_SQUARE_MM)
    return svg(sheet, size, style, title, foot=foot, physical=True)


def preview_svg(
    pattern: Pattern | Sequence[Piece], *, title: str = "", reader: Reader = METRIC,
    letters_wide: float | None = None,
) -> str:
    """A small drawing to scale for a page: no physical size, letters large enough to read.

    ``letters_wide`` is how many heights of a letter the page is wide;
    without it the drawing comes out wider than high.
    """
    pieces, title = pieces_of(pattern, title)
    area = sum(width * height for width, height in map(extent, pieces))
    letter_mm = _letter(pieces, max(4.0, sqrt(area) / 48), letters_wide)
    style = Style(letter_mm=letter_mm, reader=reader, least_mm=_least(letter_mm, letters_wide))
    sheet, told = _sheet(pieces, style, letters_wide)
    return _with_key(sheet, sheet.width_mm, style, title, told)


def preview_pair(
    before: Sequence[Piece], after: Sequence[Piece], titles: tuple[str, str], reader: Reader,
    letters_wide: float | None = None,
) -> tuple[str, str]:
    """Two small drawings at one scale, each edge with its name; as :func:`preview_svg` else."""
    area = max(
        sum(width * height for width, height in map(extent, pieces)) for pieces in (before, after)
    )
    letter_mm = _letter((*before, *after), max(4.0, sqrt(area) / 40), letters_wide)
    style = Style(letter_mm=letter_mm, reader=reader, edge_names=True, dimensions=False,
                  least_mm=_least(letter_mm, letters_wide))
    sheets = [_sheet(pieces, style, letters_wide) for pieces in (before, after)]
    wide = max(sheet.width_mm for sheet, _ in sheets)
    one, other = (
        _with_key(sheet, wide, style, title, told)
        for (sheet, told), title in zip(sheets, titles, strict=True)
    )
    return one, other


def _sheet(
    pieces: Sequence[Piece], style: Style, letters_wide: float | None
) -> tuple[Sheet, list[str]]:
    """The pieces side by side, and what the numbers on them stand for."""
    figures, told = with_numbers(draw_piece(p, style) for p in pieces)
    return arrange(figures, gap_mm=2.2 * style.letter_mm,
                   width_mm=letters_wide and letters_wide * style.letter_mm), told


def _with_key(
    sheet: Sheet, width_mm: float, style: Style, title: str, told: Sequence[str]
) -> str:
    """The drawing, and under it the key."""
    words, deep = key_rows(told, width_mm, sheet.height_mm, style)
    foot = (text(row, "start") for row in words)
    return svg(sheet, (width_mm, deep), style, title, physical=False, foot=foot)


def _least(letter_mm: float, letters_wide: float | None) -> float:
    """The lowest letters that are read: on a narrow page none may be lower than the rest."""
    return letter_mm if letters_wide else DESK_SHARE * letter_mm


def _letter(pieces: Sequence[Piece], least_mm: float, letters_wide: float | None) -> float:
    """The height of letters, at least; so large that the widest piece is no wider than the page."""
    if letters_wide is None:
        return least_mm
    return max([least_mm, *(extent(p)[1] / letters_wide for p in pieces)])


def pieces_of(
    pattern: Pattern | Sequence[Piece], title: str, reader: Reader = METRIC
) -> tuple[Sequence[Piece], str]:
    """The pieces, and a title in words where the pattern has one and none was given."""
    if isinstance(pattern, Pattern):
        return pattern.pieces, title or garment_said(pattern.garment, reader)
    return pattern, title


def line_of(
    pattern: Pattern | Sequence[Piece], title: str, drawn_on: str, reader: Reader = METRIC
) -> str:
    """The line that every piece carries: garment, wearer, day."""
    drawn_on = day(drawn_on, reader)
    if isinstance(pattern, Pattern):
        said = title or garment_said(pattern.garment, reader)
        return legend_of(pattern, said, drawn_on).line()
    return Legend(garment=title, drawn_on=drawn_on).line()


def extent(piece: Piece) -> tuple[float, float]:
    """Width and height of a piece's bounding box in mm."""
    xs, ys = zip(*piece.outline_mm, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def svg(
    sheet: Sheet,
    size: tuple[float, float],
    style: Style,
    title: str,
    *,
    physical: bool,
    foot: Iterable[str] = (),
) -> str:
    """The SVG document around the figures of a sheet."""
    margin = 1.5 * style.letter_mm
    width, height = size[0] + 2 * margin, size[1] + 2 * margin
    measured = f' width="{width:.3f}mm" height="{height:.3f}mm"' if physical else ""
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg"{measured} viewBox="{-margin:.3f} {-margin:.3f} '
        f'{width:.3f} {height:.3f}" font-family="Helvetica, Arial, sans-serif" role="img">',
        f"<title>{escape(title or 'Pattern pieces')}</title>",
        *(line for figure in sheet.figures for line in group(figure, style)),
        *foot,
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def group(figure: Figure, style: Style) -> Iterable[str]:
    """One piece as an SVG group that says what it is."""
    piece = figure.piece
    facts = {
        "piece": piece.name,
        "quantity": piece.quantity,
        "mirrored-pair": str(piece.mirrored_pair).lower(),
        "on-fold": str(piece.on_fold).lower(),
        "role": piece.role.value,
        "part": piece.part.value,
        "grain-turn-deg": f"{piece.grain_turn_deg:g}",
    }
    said = " ".join(f'data-{key}="{escape(str(value))}"' for key, value in facts.items())
    yield f"<g {said}>"
    yield from (path(stroke, style) for stroke in figure.strokes)
    yield from (text(words) for words in figure.words)
    yield "</g>"


def path(stroke: Stroke, style: Style) -> str:
    """One line with the pen of its kind."""
    weight, colour, dashes = PENS[stroke.ink]
    steps = " L".join(f"{x:.3f},{y:.3f}" for x, y in stroke.points_mm)
    dashed = " ".join(f"{d * style.letter_mm:.2f}" for d in dashes)
    return (
        f'<path class="{stroke.ink.value}" d="M{steps}{" Z" if stroke.closed else ""}" '
        f'fill="{PAPER if stroke.ink is Ink.CUT else "none"}" stroke="{colour}" '
        f'stroke-width="{weight * style.letter_mm:.2f}" stroke-linejoin="round"'
        + (f' stroke-dasharray="{dashed}"' if dashed else "")
        + "/>"
    )


def text(words: Words, anchor: str = "middle") -> str:
    """Centred text; its middle, not its baseline, lies on the point. It may begin there instead."""
    x, y = words.at_mm
    turn = f' transform="rotate({words.turn_deg:g} {x:.2f} {y:.2f})"' if words.turn_deg else ""
    weight = ' font-weight="600"' if words.strong else ""
    return (
        f'<text x="{x:.2f}" y="{y + 0.35 * words.height_mm:.2f}" text-anchor="{anchor}" '
        f'font-size="{words.height_mm:.2f}" fill="{INK}"{weight}{turn}>{escape(words.text)}</text>'
    )


def test_square(style: Style, corner: tuple[float, float]) -> Iterable[str]:
    """A 50 mm square and the sentence that says what it is for."""
    x, y = corner
    side = TEST_SQUARE_MM
    yield (
        f'<rect class="test-square" x="{x:.3f}" y="{y:.3f}" width="{side:g}" height="{side:g}" '
        f'fill="none" stroke="{INK}" stroke-width="0.3"/>'
    )
    for row, said in enumerate(("This square is 50 mm.", "Measure it before you cut.")):
        yield (
            f'<text x="{x + side + 6:.2f}" y="{y + 22 + row * 9:.2f}" font-size="6" '
            f'fill="{INK}">{said}</text>'
        )
