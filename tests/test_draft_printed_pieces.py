"""What a printed piece shows can be read: no word covers a line or another, over every garment."""

from __future__ import annotations

from dataclasses import replace

import pytest
import shapely
from shapely.geometry import LineString, box

from stash.draft.catalogue import draft, garments
from stash.fonts import printable
from stash.fonts.document import FAMILY, Document
from stash.model import MarkKind, Piece, Role
from stash.pattern.figure import SQUARE_MM, Figure, Ink, draw_piece
from stash.pattern.lettering import Style, Words
from stash.sentences import METRIC, Reader
from stash.units import System

BODIES = {
    "a woman": ({"hip": 1000.0, "waist": 740.0, "bust": 940.0}, "women"),
    "a large woman": ({"hip": 1450.0, "waist": 1340.0, "bust": 1400.0}, "women"),
    "a child": ({"height": 1040.0, "hip": 600.0, "waist": 530.0, "bust": 570.0}, "children"),
}
READERS = {
    "cm": METRIC, "inches": Reader(System.INCHES), "de": replace(METRIC, language="de"),
    "fr": replace(METRIC, language="fr"),
}
FITTED = {"trousers", "shorts", "straight-skirt", "circle-skirt"}
POINTS_PER_MM = 72 / 25.4


def styled(reader: Reader, garment: str) -> Style:
    """Pieces as they are printed."""
    return Style(reader=reader, half_on_fold=True, dimensions=False, complete=True,
                 says=f"{garment} · Odile Brandt · 2026-11-30")


def pieces(name: str, whose: str) -> tuple[Piece, ...]:
    """The pieces of a garment, with a waistband where there may be one."""
    measured, table = BODIES[whose]
    options = {"waist": "fitted"} if name in FITTED else {}
    return draft(name, measured, options, table).pieces


def crossing(figure: Figure) -> list[tuple[str, str]]:
    """Words that lie over another word, over a line, or over the edge of their piece."""
    found = []
    lines = [
        (s.ink, LineString([*s.points_mm, s.points_mm[0]] if s.closed else s.points_mm))
        for s in figure.strokes
    ]
    for row, words in enumerate(figure.words):
        spot = words.spot.buffer(-0.1)
        found += [(words.text, w.text) for w in figure.words[row + 1:] if w.spot.intersects(spot)]
        found += [(words.text, ink.value) for ink, line in lines
                  if line.intersects(spot) and not (ink is Ink.STITCH and short(words, figure))]
    return found


def short(words: Words, figure: Figure) -> bool:
    """The word of a fold shorter than 16 cm."""
    tall = figure.shape.bounds[3] - figure.shape.bounds[1]
    return figure.piece.on_fold and words.turn_deg == 90.0 and tall < 160.0 and (
        words.at_mm[0] - figure.shape.bounds[0] < 7.0)


@pytest.mark.parametrize("name", garments())
@pytest.mark.parametrize(("whose", "how"), [
    ("a woman", "inches"), ("a large woman", "de"), ("a child", "fr")])
def test_no_word_covers_a_word_or_a_line(name, whose, how):
    """In three languages and in inches; and nothing stands beyond the figure's own box. Only on a
    fold as short as a collar stand's may its word run on into the allowances.
    """
    for piece in pieces(name, whose):
        figure = draw_piece(piece, styled(READERS[how], name))
        whole = box(-0.01, -0.01, figure.width_mm + 0.01, figure.height_mm + 0.01)

        assert crossing(figure) == [], piece.name
        assert all(whole.covers(words.spot) for words in figure.words), piece.name


@pytest.mark.parametrize("name", garments())
def test_every_piece_has_its_grain(name):
    """One arrow at least 2 cm long, along the grain, that crosses no word, button or dart."""
    for piece in pieces(name, "a woman"):
        figure = draw_piece(piece, styled(METRIC, name))
        shaft, *heads = [LineString(s.points_mm) for s in figure.strokes if s.ink is Ink.GRAIN]
        words = shapely.union_all([w.spot for w in figure.words])

        assert len(heads) == 2 and shaft.length > 20, piece.name
        assert figure.shape.covers(shaft) and not shaft.intersects(words), piece.name
        (x0, y0), (x1, y1) = shaft.coords
        assert (x0 == pytest.approx(x1)) == (piece.grain_turn_deg == 0)


@pytest.mark.parametrize("name", garments())
def test_every_piece_says_its_cloth_and_how_many(name):
    """Name, number, cloth, allowance or cut size, garment, wearer and day stand on each piece."""
    for piece in pieces(name, "a woman"):
        said = " · ".join(w.text for w in draw_piece(piece, styled(METRIC, name)).words)
        cloth = {Role.MAIN: "main cloth"}.get(piece.role, piece.role.value)

        assert f"cut {piece.quantity}" in said
        assert cloth in said, piece.name
        assert "mm allowed" in said or "seams counted in" in said, piece.name
        assert f"{name} · Odile Brandt · 2026-11-30" in said


@pytest.mark.parametrize("how", READERS)
def test_a_word_takes_no_more_paper_than_is_kept_for_it(how):
    """Measured in the letters it is printed in; digits and capitals run a twentieth wider."""
    with Document((210.0, 297.0)) as pdf:
        pdf.add_page()

        def wide(words: Words) -> float:
            pdf.set_font(FAMILY, "B" if words.strong else "", words.height_mm * POINTS_PER_MM)
            return float(pdf.get_string_width(printable(words.text)))

        for piece in pieces("yoke-shirt", "a woman"):
            for words in draw_piece(piece, styled(READERS[how], "shirt")).words:
                kept = replace(words, turn_deg=0.0).spot.bounds
                assert wide(words) < 1.05 * (kept[2] - kept[0]) + 3.0, words


@pytest.mark.parametrize("name", garments())
def test_what_is_cut_open_or_left_open_shows_its_end(name):
    """A slit lies along the fold, where a line alone would not be seen: a bar ends it."""
    for piece in pieces(name, "a woman"):
        ends = [m for m in piece.marks if m.kind in (MarkKind.SLIT, MarkKind.OPENING)]
        figure = draw_piece(piece, styled(METRIC, name))
        bars = [s for s in figure.strokes
                if s.ink is Ink.MARK and LineString(s.points_mm).length < 6.1]
        assert len(bars) >= len(ends), piece.name


def test_the_square_on_a_piece_is_read_on_her_ruler():
    """5 cm, or 2 inches for a reader of inches: 50.8 mm."""
    front = pieces("trousers", "a woman")[0]
    for how, side in (("cm", "5 cm × 5 cm"), ("inches", "2 in × 2 in")):
        figure = draw_piece(front, styled(READERS[how], "trousers"))
        (square,) = [s for s in figure.strokes if s.ink is Ink.DIMENSION]
        xs = [x for x, _ in square.points_mm]

        assert side in [w.text for w in figure.words]
        assert max(xs) - min(xs) == pytest.approx(SQUARE_MM[READERS[how].system])
