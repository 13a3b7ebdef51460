"""Notches and the grain arrow drawn on paper: found, offered, and kept only when she says so.

Rendered pieces with a stitching line, darts, hatching, lines across and words as what may be
mistaken for them. All figures: ``bench/drawn_error.py``.
"""

from __future__ import annotations

import io
from dataclasses import replace

import ezdxf
import numpy as np
import pytest
from drawn_error import Tally, camera, drawn, judged
from trace_photo import photograph

from stash.eye.outlines.backdrop import FromAbove
from stash.eye.paper_marks.drawn_on import PaperMarks
from stash.eye.paper_marks.grain_line import SeenGrain, find_grain
from stash.eye.paper_marks.notches import SeenNotch, find_notches
from stash.model import Pattern, Piece
from stash.pattern.dxf_writing import write_dxf
from stash.pattern.kept_marks import with_marks
from web.pages.tracing import TracedPhotos, TracedShape, _marked

SQUARE = ((0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0))
HALF_WAY = SeenNotch((100.0, 0.0), (100.0, 8.0), "line")


def test_notches_and_grain_are_found_among_what_is_none():
    """Six of three kinds: one may be missed, and one found where a word runs off the paper."""
    truth, tally = drawn(21), Tally()
    judged(truth, photograph(truth.scene, camera(21)), tally, "one")

    assert tally.found >= len(truth.notches) - 1
    assert tally.false <= 1
    assert (tally.grain_missed, tally.grain_false) == (0, 0)


def paper(*strokes) -> FromAbove:
    """A sheet of 220 by 120 mm with strokes of ink, at half a millimetre a cell."""
    import cv2

    image = np.full((240, 440, 3), 225, np.uint8)
    for points, wide in strokes:
        cells = [(round((x + 10) * 2), round((110 - y) * 2)) for x, y in points]
        cv2.polylines(image, [np.array(cells)], False, (60, 60, 60), wide)
    return FromAbove(image, (-9.75, 109.75), 0.5)


def test_a_line_across_and_a_dart_are_no_notches():
    """They run on into the piece."""
    seen = paper(([(50, 0), (50, 100)], 2), ([(100, 0), (108, 60), (116, 0)], 2),
                 ([(160, 0), (160, 9)], 2))

    [notch] = find_notches(seen, np.array(SQUARE))

    assert notch.at_mm == pytest.approx((160, 0), abs=1)
    assert notch.inward_mm[1] == pytest.approx(9, abs=2)


def test_a_row_of_strokes_is_a_ruler_and_no_notches():
    """Ten strokes a finger apart along the edge."""
    strokes = [([(40 + 8 * n, 0), (40 + 8 * n, 7)], 2) for n in range(10)]

    assert find_notches(paper(*strokes), np.array(SQUARE)) == ()


@pytest.mark.parametrize(("tips", "heads"), [((40, 160), 2), ((40,), 1), ((), 0)])
def test_a_line_is_the_grain_by_its_arrowheads(tips, heads):
    """Without a head it is any line."""
    barbs = [([(t + s * 8, 46), (t, 50), (t + s * 8, 54)], 2)
             for t in tips for s in [1 if t < 100 else -1]]
    found = find_grain(paper(([(40, 50), (160, 50)], 2), *barbs), np.array(SQUARE))

    assert (found.heads if found else 0) == heads
    if found:
        assert found.turn_deg == pytest.approx(0, abs=0.5)


def test_a_kept_notch_goes_out_with_the_piece():
    """On layer 4 of the exchange file, as ASTM D6673 has it, where it lies on the outline."""
    piece = with_marks(Piece(name="yoke", outline_mm=SQUARE), SQUARE, [HALF_WAY], 0.0)
    data = write_dxf(Pattern(garment="yoke", pieces=(piece,)))
    text = ezdxf.read(io.StringIO(data.decode()))
    points = [e.dxf.location for block in text.blocks for e in block
              if e.dxftype() == "POINT" and e.dxf.layer == "4"]

    assert piece.notches_mm == ((100.0, 0.0),)
    assert [(p.x, p.y) for p in points] == [pytest.approx((100, 0))]


def test_the_arrow_turns_the_piece_and_its_notches():
    """Drawn at 90 degrees, the grain comes to lie along the length."""
    piece = with_marks(Piece(name="yoke", outline_mm=SQUARE), SQUARE, [HALF_WAY], 90.0)

    assert max(x for x, _ in piece.outline_mm) == pytest.approx(100)
    assert piece.notches_mm[0][1] == pytest.approx(100)


def test_a_cut_that_is_kept_as_a_notch_is_mended_in_the_outline():
    """The edge is straight again; one that is not kept stays as it was traced."""
    dip = ((96.0, 0.0), (100.0, 6.0), (104.0, 0.0))
    cut = (SQUARE[0], *dip, *SQUARE[1:])
    notch = SeenNotch((100.0, 0.0), (100.0, 6.0), "triangle", dip)
    whole = Piece(name="yoke", outline_mm=cut)

    kept = with_marks(whole, cut, [notch], 0.0)
    assert sorted(kept.outline_mm) == [pytest.approx(p, abs=0.2) for p in sorted(SQUARE)]
    assert with_marks(whole, cut, [], 0.0).outline_mm == cut


def test_nothing_that_was_seen_is_kept_unless_ticked(web_client):
    """The page sends what she ticked; the arrow turns the piece only where it was chosen."""
    seen = PaperMarks((HALF_WAY,), SeenGrain((50.0, 20.0), (50.0, 80.0), 2))
    piece = Piece(name="piece", outline_mm=SQUARE)
    traced = TracedPhotos(
        shapes=(TracedShape(ring_mm=SQUARE, error_mm=0.5, drawn=seen),), pieces=(piece,))

    def kept(**typed):
        with web_client.application.test_request_context(method="POST", data=typed):
            return _marked(0, piece, traced)

    assert kept() == replace(piece, notches_mm=())
    assert kept(**{"notch-0-0": "1"}).notches_mm == ((100.0, 0.0),)
    assert max(x for x, _ in kept(**{"grain-0": "arrow"}).outline_mm) == pytest.approx(100)
