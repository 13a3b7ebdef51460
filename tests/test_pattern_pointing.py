"""A pattern is set right by pointing at its drawing: what is tapped is what is meant."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from stash.errors import InvalidInput
from stash.model import MarkKind, Piece
from stash.pattern.correcting import PieceChange, corrected
from stash.pattern.importing import read_pattern
from stash.pattern.piece_words import parse_change
from stash.pattern.pointing import PointingView
from stash.workroom import patterns

HALF = Piece(
    name="back", outline_mm=((0, 0), (0, 90), (40, 160), (250, 210), (700, 240), (700, 0)))
LYING = Piece(name="back", outline_mm=((0, 0), (700, 0), (700, 90), (640, 170), (0, 240)))


def lying() -> Piece:
    """A half whose centre back lies across: 40 degrees off."""
    return corrected(HALF, PieceChange(grain_deg=-40))


@settings(max_examples=60, deadline=None)
@given(st.floats(0, 700), st.floats(0, 240))
def test_what_is_tapped_on_the_picture_is_that_place_on_the_piece(down, across):
    """There and back, to a pixel."""
    view = PointingView(HALF)
    right_px, down_px = view.to_px((down, across))
    assert view.from_corner_mm(right_px, down_px) == pytest.approx((down, across), abs=1e-6)
    wide, tall = view.size_px
    assert 0 <= right_px <= wide <= 300 and 0 <= down_px <= tall <= 480


def test_the_edge_that_is_pointed_at_is_the_fold():
    """Near the straight edge: twice the area, the same on both sides."""
    whole = corrected(HALF, PieceChange(fold_at_mm=(300.0, 6.0)))
    shape = Polygon(whole.outline_mm)

    assert whole.on_fold and shape.area == pytest.approx(2 * Polygon(HALF.outline_mm).area)
    image = Polygon([(x, -y) for x, y in whole.outline_mm])
    assert shape.symmetric_difference(image).area < 1


def test_a_half_that_lies_turned_is_turned_and_opened_by_one_tap():
    """Its centre back, pointed at where it lies, becomes the fold along the grain."""
    piece = lying()
    edges = list(zip(piece.outline_mm, (*piece.outline_mm[1:], piece.outline_mm[0]), strict=True))
    a, b = max(edges, key=lambda e: Point(e[0]).distance(Point(e[1])) if
               abs(Point(e[0]).distance(Point(e[1])) - 700) < 1 else 0)
    left, low = (min(v) for v in zip(*piece.outline_mm, strict=True))
    middle = ((a[0] + b[0]) / 2 - left, (a[1] + b[1]) / 2 - low)
    whole = corrected(piece, PieceChange(fold_at_mm=middle))

    assert whole.on_fold
    assert Polygon(whole.outline_mm).area == pytest.approx(
        2 * Polygon(HALF.outline_mm).area, rel=1e-4)


def test_an_edge_pointed_at_runs_along_the_grain():
    """A sleeve drawn level: tapped at its long edge it stands."""
    turned = corrected(LYING, PieceChange(grain_at_mm=(690.0, 40.0)))
    xs, ys = zip(*turned.outline_mm, strict=True)
    assert (max(xs), max(ys)) == pytest.approx((240, 700), abs=0.1)


def test_a_notch_is_snipped_in_the_edge_nearest_to_the_tap():
    """On a fold, on both sides of it."""
    one = corrected(HALF, PieceChange(notch_at_mm=(450.0, 200.0)))
    (notch,) = one.notches_mm
    assert Polygon(HALF.outline_mm).exterior.distance(Point(notch)) < 1e-6
    both = corrected(corrected(HALF, PieceChange(fold="fold")),
                     PieceChange(notch_at_mm=(450.0, 440.0)))
    assert {round(y) for _, y in both.notches_mm} in ({223, -223}, {224, -224})


def test_a_place_is_marked_on_the_piece_and_nowhere_else():
    """A pocket's corner; beside the piece it is refused."""
    marked = corrected(HALF, PieceChange(mark_at_mm=(300.0, 100.0)))
    assert marked.marks[-1].kind is MarkKind.PLACE and marked.marks[-1].at_mm == ((300.0, 100.0),)
    with pytest.raises(InvalidInput):
        corrected(HALF, PieceChange(mark_at_mm=(20.0, 230.0)))


def test_the_same_is_said_in_words():
    """For the command, and for who cannot point."""
    assert parse_change("back: fold at 30cm down 0.6cm across, notch at 45cm down 20cm across") == (
        "back", PieceChange(fold_at_mm=(300.0, 6.0), notch_at_mm=(450.0, 200.0)))
    with pytest.raises(InvalidInput):
        parse_change("back: notch at the side")


def test_a_half_that_says_so_opens_out_when_it_is_read():
    """Half a back with the words "cut 1 on fold" and no fold line: about its straight edge."""
    drawing = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="800mm" '
        'viewBox="0 0 300 800"><path id="back" d="M20 20H110L180 60L230 270L260 720H20z"/>'
        '<text x="60" y="400">cut 1 on fold</text></svg>')
    reading = read_pattern(drawing.encode())
    (piece,) = reading.pieces

    assert piece.on_fold and piece.quantity == 1
    assert Polygon(piece.outline_mm).bounds == pytest.approx((0, -240, 700, 240))
    assert "half_opened_out" in [note.kind for note in reading.notes]


def test_a_piece_that_lies_turned_is_turned_by_its_grain_line():
    """A line that is called the grain tells it: a piece drawn level comes in upright."""
    drawing = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="800mm" height="300mm" '
        'viewBox="0 0 800 300"><path id="leg" d="M20 20H720V220H20z"/>'
        '<path id="grain" d="M100 120H500"/></svg>')
    (piece,) = read_pattern(drawing.encode()).pieces
    assert Polygon(piece.outline_mm).bounds == pytest.approx((0, 0, 700, 200))


def test_the_page_takes_a_tap_without_scripts(web_client, web_stash):
    """A browser sends the pixel of an image that was tapped; typed, the place does the same."""
    patterns.keep(web_stash, "Smock", [HALF], "typed")

    def send(**values):
        page = web_client.get("/patterns/own/Smock").get_data(as_text=True)
        token = page.split('name="token" value="')[1].split('"')[0]
        return web_client.post("/patterns/own/Smock/point-0", data={"token": token, **values})

    x, y = PointingView(HALF).to_px((350.0, 3.0))
    assert send(what="fold", **{"at.x": f"{x:.0f}", "at.y": f"{y:.0f}"}).status_code == 303
    assert web_stash.patterns.get("Smock").pieces[0].on_fold
    assert send(what="lengthen", down="40", across="").status_code == 303
    marks = web_stash.patterns.get("Smock").pieces[0].marks
    assert any(m.kind is MarkKind.LENGTHEN and m.at_mm[0][0] == 400.0 for m in marks)
    assert send(what="").status_code == 422
    picture = web_client.get("/patterns/own/Smock/pointed-0.svg")
    assert picture.mimetype == "image/svg+xml" and b"<path" in picture.data
    assert web_client.get("/patterns/own/Smock/pointed-7.svg").status_code == 404
