"""The selvedges of a traced remnant are kept while they are there, and nothing is laid on them.

That pieces stay off the selvedge is common practice, no source: it is woven tighter, and may
shrink otherwise than the cloth.
"""

import json
from dataclasses import replace

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPoint

from stash.ledger.bites import Bite, LongSide
from stash.ledger.fold import fold_subject
from stash.ledger.selvedges import edges_beside, off_selvedges, still_edges
from stash.model import Cloth, Cut, Laid, Lay, Outline, Piece, Placement
from stash.sentences import METRIC
from stash.store import open_stash
from stash.workroom import cuts
from stash.workroom.grain import GrainBy, straight_edges, turn_grain
from stash.workroom.history import undo
from stash.workroom.questions.drawing import drawing
from stash.workroom.questions.free_stock import free_stash
from stash.workroom.settings import preferences
from web.command import main

CLOTH = Outline(((0, 0), (900, 0), (900, 500), (400, 560), (0, 560)))
LOW, HIGH = ((0.0, 0.0), (900.0, 0.0)), ((400.0, 560.0), (0.0, 560.0))


@pytest.fixture
def stash(tmp_path):
    """An empty record."""
    with open_stash(tmp_path) as opened:
        yield opened


@pytest.fixture
def code(stash):
    """A remnant traced with the arrow card, its lower edge told to be selvedge."""
    code = stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune linen"), outline=Outline.rectangle(900, 600))).code
    cuts.traced(stash, code, CLOTH, 2.0, grain=GrainBy.ARROW, selvedges_mm=(LOW,))
    return code


def lengths(stash, code):
    """How long each selvedge on record is."""
    return [abs(b[0] - a[0]) for a, b in stash.cuts.get(code).selvedges_mm]


def test_what_was_told_is_on_record_and_taken_back_by_undo(stash, code):
    """One act: outline, grain and selvedges; one undo."""
    assert stash.cuts.get(code).selvedges_mm == (LOW,)
    done = cuts.traced(stash, code, CLOTH, 2.0, grain=GrainBy.ARROW, selvedges_mm=(LOW, HIGH))
    assert lengths(stash, code) == [900, 400]

    undo(stash, done.event.id)

    assert stash.cuts.get(code).selvedges_mm == (LOW,)


def test_a_corrected_outline_takes_its_selvedge_along(stash, code):
    """An edge dragged by 6 mm is the selvedge still, where it lies now."""
    dragged = Outline(((0, -6), (900, -6), (900, 500), (400, 560), (0, 560)))

    cuts.traced(stash, code, dragged, 2.0, selvedges_mm=(LOW,))

    [(start, stop)] = stash.cuts.get(code).selvedges_mm
    assert (start[1], stop[1]) == (0, 0)
    assert lengths(stash, code) == [900]


def test_cutting_off_shortens_it_and_a_strip_along_it_takes_it_away(stash, code):
    """The record follows the shears."""
    cuts.cut_off(stash, code, 300, use=cuts.Use(end=cuts.End.FAR))
    assert lengths(stash, code) == [600]

    cuts.cut_strip(stash, code, None, 40, use=cuts.Use(edge=LongSide.RIGHT))

    assert stash.cuts.get(code).selvedges_mm == ()


def test_the_near_end_cut_off_moves_it(stash, code):
    """A cut begins at (0, 0), and so does what is left of its selvedge."""
    cuts.bite(stash, code, (Bite(length_mm=250, end=cuts.End.NEAR),))

    [(start, stop)] = stash.cuts.get(code).selvedges_mm
    assert sorted((start[0], stop[0])) == pytest.approx([0, 650])


def test_a_remnant_keeps_its_part(stash, code):
    """What comes off beside the selvedge has it, what comes off elsewhere has none."""
    off = Outline(((600, 0), (900, 0), (900, 400), (600, 400)))
    rest = Outline(((0, 0), (600, 0), (600, 400), (400, 560), (0, 560)))

    event = stash.cuts.cut_out(code, rest, remnants=[(None, off)])

    assert lengths(stash, code) == [600]
    [remnant] = event.arrivals
    assert lengths(stash, remnant) == [300]


def test_the_wash_shrinks_it_with_the_cloth(stash, code):
    """A twentieth of its length."""
    cuts.wash(stash, code, 855, 560)

    assert lengths(stash, code) == [pytest.approx(855)]


def test_nothing_is_laid_close_to_it(stash, code):
    """What is free begins at the margin of the settings, and the record keeps the whole cloth."""
    margin = preferences(stash).selvedge_mm

    [free] = free_stash(stash).cuts

    assert free.outline.bounds_mm == (0, pytest.approx(margin), 900, 560)
    assert stash.cuts.get(code).outline.bounds_mm == (0, 0, 900, 560)


@given(reach=st.floats(600, 1400), rise=st.floats(200, 600))
def test_no_spike_is_left_at_the_corner_where_it_stops(reach, rise):
    """However askew the edge beside it runs, all that is free lies off the selvedge and ends."""
    cloth = Outline(((0, 0), (900, 0), (reach, rise), (0, rise)))

    free = off_selvedges(cloth, (LOW,), 12)

    assert LineString(LOW).distance(MultiPoint(free.ring_mm)) >= 11.9
    assert free.area_mm2 > 0.9 * (cloth.area_mm2 - 900 * 12)


def test_an_edge_pointed_at_as_selvedge_is_kept_as_one(stash, code):
    """Also where it ran across the drawing before."""
    edge = next(e for e in straight_edges(CLOTH) if abs(e.turn_deg) > 80)

    turn_grain(stash, code, edge.turn_deg, by=GrainBy.SELVEDGE,
               selvedge_mm=(edge.start_mm, edge.stop_mm))

    [(start, stop)] = stash.cuts.get(code).selvedges_mm
    assert abs(start[1] - stop[1]) < 0.01
    assert abs(start[0] - stop[0]) == pytest.approx(edge.length_mm)


def test_it_is_there_when_the_record_is_opened_again(stash, code, tmp_path):
    """Read from the tables, and told by a replay of the ledger alike."""
    with open_stash(tmp_path) as again:
        assert again.cuts.get(code).selvedges_mm == (LOW,)
        history = again.ledger.history(code)
        assert fold_subject(history, code) == again.ledger.state(code)


@given(st.floats(0, 560), st.floats(30, 900), st.floats(0, 40))
def test_no_more_is_taken_than_the_strip_beside_it(y_mm, long_mm, margin_mm):
    """Of a rectangle with one selvedge, what is left lies off it and is inside."""
    cloth = Outline.rectangle(900, 560)
    lines = still_edges((((0.0, y_mm), (long_mm, y_mm)),), cloth)

    left = off_selvedges(cloth, lines, margin_mm)

    assert left.area_mm2 >= cloth.area_mm2 - sum(
        abs(b[0] - a[0]) for a, b in lines) * margin_mm - 1


@pytest.mark.parametrize("margin_mm", [0.0, 15.0, 40.0])
def test_what_is_drawn_as_selvedge_is_the_edge_that_the_margin_left(margin_mm):
    """As long as the cloth is there, so far inside of the true one; and no other edge."""
    usable = off_selvedges(CLOTH, (LOW,), margin_mm)
    [(start, stop)] = edges_beside((LOW,), usable)

    assert start[1] == stop[1] == margin_mm
    assert abs(start[0] - stop[0]) == 900
    assert edges_beside((), usable) == ()
    assert edges_beside((((0.0, -150.0), (900.0, -150.0)),), usable) == ()


def test_a_cut_shown_as_json_says_which_edges_are_selvedge(stash, code):
    """Two points each, in the frame of its outline, before any wash."""
    stash.close()
    result = CliRunner().invoke(main, [
        "--data", str(stash.folder.path), "cut", "show", code, "--json"])

    assert json.loads(result.stdout)["selvedges_mm"] == [[[0, 0], [900, 0]]]


def test_a_drawing_of_a_lay_on_it_draws_that_edge(stash, code):
    """Washed, it lies where the wash leaves it; a cut of which none is known is drawn as ever."""
    [cut] = free_stash(stash).cuts
    scrap = Piece(name="pocket", outline_mm=((0, 0), (150, 0), (150, 150), (0, 150)))
    lay = Lay(placements=(Placement("pocket#1", 100, 100),), length_mm=250, width_mm=500,
              utilisation=0.1)
    shrinking = replace(cut, cloth=replace(cut.cloth, shrink_along_pct=10.0))

    assert drawing(Laid(cut=cut, lay=lay, pieces=(scrap,)), METRIC).count('class="selvedge"') == 1
    assert 'x2="810.0"' in drawing(Laid(cut=shrinking, lay=lay, pieces=(scrap,)), METRIC)
    unknown = drawing(Laid(
        cut=replace(cut, selvedges_mm=()), lay=lay, pieces=(scrap,)), METRIC)
    assert unknown.count('class="selvedge"') == 2
