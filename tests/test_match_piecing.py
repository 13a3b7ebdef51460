"""Pieced: parts of a piece, joined where the trade hides a seam."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon
from shapely.ops import unary_union

from stash.draft.catalogue import draft
from stash.lay import LayTask, check
from stash.match.fit.question import Effort
from stash.match.order import Order
from stash.match.piecing.seam_places import piecing_rules, places
from stash.match.piecing.split import JoinRun, Split, joins, line_mm, parts_of
from stash.match.rescue.changes import Attempt, changes
from stash.match.rescue.pieced import pieced
from stash.match.strip_lays import Strips, Table
from stash.model import Cloth, Cut, Outline, Part, Piece, Role

BODY = {"hip": 1040.0, "waist": 820.0, "bust": 980.0}
GARMENTS = ("trousers", "shorts", "shirt", "a-line-skirt", "circle-skirt", "robe", "tunic")


def main_pieces(name: str) -> tuple[Piece, ...]:
    """The pieces of a draft's main cloth."""
    return tuple(p for p in draft(name, BODY).pieces if p.role is Role.MAIN)


@pytest.mark.parametrize("name", GARMENTS)
def test_the_parts_overlap_by_two_allowances_and_make_the_whole(name):
    """Every part once: together the piece, twice only where the allowances lie.

    "Costs two seam allowances across the join": arithmetic.
    """
    pieces = {p.name: p for p in main_pieces(name)}
    tried = 0
    for split in places(tuple(pieces.values()), trousers=name in ("trousers", "shorts")):
        piece = pieces[split.piece]
        parts = parts_of(piece, split)
        tried += parts is not None
        if parts is None or len(parts) == 1:
            continue
        shapes = [Polygon(part.outline_mm) for part in parts]
        whole = Polygon(piece.outline_mm)
        assert unary_union(shapes).symmetric_difference(whole).area < 1e-3
        across = sum(seam.length_mm for seam in joins(piece, split)) / piece.quantity
        doubled = sum(s.area for s in shapes) - whole.area
        assert doubled == pytest.approx(2 * split.allowance_mm * across, rel=0.35)
        assert {part.quantity for part in parts} == {piece.quantity}
        assert {part.turns_deg for part in parts} == {piece.turns_deg}
    assert tried


@given(st.floats(100, 900), st.floats(0, 20))
def test_a_band_cut_anywhere_costs_exactly_two_allowances(at_mm, allowance_mm):
    """The joined length is the length before, once both allowances are sewn away."""
    band = Piece(name="waistband", part=Part.WAISTBAND,
                 outline_mm=Outline.rectangle(1000.0, 90.0).ring_mm)
    split = Split(piece="waistband", way=JoinRun.ACROSS, at_mm=(at_mm,), place="band",
                  allowance_mm=allowance_mm)
    lengths = [Outline(part.outline_mm).length_mm for part in parts_of(band, split)]

    assert sum(lengths) == pytest.approx(1000.0 + 2 * allowance_mm)


def test_a_back_on_the_fold_becomes_a_pair_with_a_seam():
    """Two halves and an allowance each, mirrored: as a skirt's back on the selvedges.

    A Complete Course in Dressmaking vol. 5, Skirts, p. 17-18.
    """
    back = next(p for p in main_pieces("shirt") if p.part is Part.BACK)
    split = Split(piece="back", way=JoinRun.ALONG, at_mm=(0.0,), place="centre back")
    (half,) = parts_of(back, split)

    assert (half.quantity, half.mirrored_pair, half.on_fold) == (2, True, False)
    assert 2 * Polygon(half.outline_mm).area == pytest.approx(
        Polygon(back.outline_mm).area + 2 * 10 * Outline(half.outline_mm).length_mm, rel=0.01)


def test_a_front_gore_is_never_pieced():
    """K. H. Watson, Textiles and Clothing (1907): the front lies on a lengthwise fold."""
    front = tuple(p for p in main_pieces("a-line-skirt") if p.part is Part.FRONT)

    assert places(front) == ()


def test_the_fork_of_a_trouser_back_is_pieced_on_the_straight_grain():
    """Coffin, Making Trousers (2009), Piecing the Fork; a wedge of 7 cm at most (from memory)."""
    back = next(p for p in main_pieces("trousers") if p.part is Part.BACK)
    found = [s for s in places((back,), trousers=True) if s.place == "back fork"]

    assert found
    for split in found:
        ((x0, y0), (x1, y1)), = line_mm(back, split)
        assert y0 == y1 == split.at_mm[0]
        assert x1 - x0 < 0.45 * Outline(back.outline_mm).length_mm
        wedge = min(Polygon(p.outline_mm).area for p in parts_of(back, split))
        assert wedge < 0.15 * Polygon(back.outline_mm).area


def test_no_part_is_a_sliver():
    """A cut 5 mm off an end is not offered."""
    band = Piece(name="b", part=Part.BAND, outline_mm=Outline.rectangle(1000.0, 90.0).ring_mm)

    assert parts_of(band, Split(piece="b", way=JoinRun.ACROSS, at_mm=(5.0,), place="band")) is None


def test_a_bias_piece_is_not_joined_across_its_grain():
    """The join would be neither along nor across the cloth."""
    bias = Piece(name="under collar", part=Part.BAND, grain_turn_deg=45.0,
                 outline_mm=Outline.rectangle(400.0, 90.0).ring_mm)

    assert places((bias,)) == ()


def test_every_place_has_a_rule_with_a_status():
    """Sourced, from memory or common practice, and the places are tried by their harm."""
    known = ("sourced", "from memory", "common practice")

    assert all(rule.status.startswith(known) for rule in piecing_rules().values())
    found = [s.place for name in GARMENTS for s in places(main_pieces(name), name == "trousers")]
    assert set(found) <= set(piecing_rules())


def cut_short_of(order: Order, width_mm: float, share: float) -> Cut:
    """A cut of this width, a share shorter than the order's own shortest lay."""
    pieces = Attempt(orders=(order,), table=Table()).pieces()
    strip = Strips(pieces, Table()).first(width_mm).lay.length_mm
    outline = Outline.rectangle(strip * (1 - share), width_mm)
    return Cut(code="C", cloth=Cloth(name="drill"), outline=outline, washed=True)


def test_what_does_not_fit_is_pieced_and_laid_again():
    """Every rescue it gives has a sound lay of the parts, and says where the joins run."""
    order = Order(garment="a-line-skirt", measurements_mm={"hip": 1040.0, "waist": 820.0})
    here = cut_short_of(order, 900.0, 0.05)
    found = pieced(Attempt(orders=(order,), table=Table()), here, Effort(iterations=400))

    assert found
    for rescue in found:
        assert rescue.kind == "pieced"
        task = LayTask(pieces=rescue.pieces, cloth=here.outline)
        assert not check(task, rescue.laid.lay)
        for one in rescue.splits:
            assert one.lines_mm
            assert one.split.place in piecing_rules()


def test_a_full_skirt_in_four_panels_is_a_change_of_the_draft():
    """What a draft can already do is offered among the plain changes, before any join."""
    order = Order(garment="circle-skirt", measurements_mm={"hip": 1000.0, "waist": 780.0})
    kinds = [c.kind for c in changes(Attempt(orders=(order,), table=Table()), Cloth(name="x"))]

    assert "panels" in kinds
