"""The tote bag against its usual cut sizes."""

from __future__ import annotations

import pytest
from shapely import Polygon

from stash.draft.catalogue import draft
from stash.model import NotionKind, Role


def cut(pattern) -> dict[str, tuple[int, float, float]]:
    """Quantity, length and width of each piece, mm."""
    sizes = {}
    for piece in pattern.pieces:
        x0, y0, x1, y1 = Polygon(piece.outline_mm).bounds
        sizes[piece.name] = (piece.quantity, pytest.approx(x1 - x0), pytest.approx(y1 - y0))
    return sizes


def test_the_usual_tote_has_its_usual_cut_sizes():
    """36 x 40 cm finished: two of 38 x 46 cm, two handles of 8 x 60 cm.

    Common practice, no source.
    """
    assert cut(draft("tote-bag", {})) == {"side": (2, 460, 380), "handle": (2, 600, 80)}


def test_a_boxed_base_adds_its_depth_to_the_width_and_half_of_it_below():
    """A base 10 cm deep."""
    assert cut(draft("tote-bag", {}, {"depth": 100}))["side"] == (2, 510, 480)


def test_a_lining_comes_from_another_cloth_and_stops_below_the_top_hem():
    """4 cm of hem show inside; the lining meets them with a seam."""
    lined = draft("tote-bag", {}, {"lining": "full"})
    lining = next(p for p in lined.pieces if p.role is Role.LINING)

    assert lining.quantity == 2
    assert cut(lined)["lining"] == (2, 380, 380)


def test_tape_handles_leave_the_cloth():
    """Two of 60 cm, the ends turned in."""
    taped = draft("tote-bag", {}, {"handles": "tape"})

    assert set(cut(taped)) == {"side"}
    assert next(n for n in taped.notions if n.kind is NotionKind.TAPE).length_mm == 1240


def test_a_drawn_up_bag_asks_for_a_cord_that_its_hem_takes():
    """Once round, 72 cm, 25 cm out at each end; no thicker than the casing less 1/4 in."""
    cord = next(
        n for n in draft("tote-bag", {}, {"top": "cord"}).notions if n.kind is NotionKind.CORD
    )

    assert cord.length_mm == 720 + 500
    assert cord.size_mm[2] == 50 - 10 - 6
