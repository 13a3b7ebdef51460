"""A pattern of her own with a length line: shorter at it is a rescue, longer as far as it goes."""

from __future__ import annotations

import pytest
from shapely.geometry import Polygon, box

from stash.errors import InvalidInput
from stash.fact import fact
from stash.lay import LayTask, check
from stash.match.rescue.changes import Attempt, changes
from stash.match.strip_lays import Table
from stash.model import Cloth, Construction, Cut, Outline, Piece
from stash.model.plan import Plan
from stash.pattern.correcting import PieceChange, corrected
from stash.sentences import Reader
from stash.store import open_stash
from stash.units import System
from stash.workroom import patterns
from stash.workroom.questions.drawing import drawing
from stash.workroom.questions.farthest import Farther, ask_far, grows
from stash.workroom.questions.fitting import Asking, ask_fit
from stash.workroom.questions.orders import orders_for, planned_orders

AT, MOST = 200.0, 60.0
# Half a back, its fold the straight edge at y = 0, 45 cm long; its side runs out to the hem.
HALF = Piece(name="back", outline_mm=((0, 0), (0, 200), (450, 260), (450, 0)))
CLOTH = Cloth(name="Lawn", construction=Construction.WOVEN, mass_gsm=120, colours=("#eeeeee",))


@pytest.fixture
def stash(tmp_path):
    """Her top, which may be altered by 6 cm at its line, and a cut 2 cm shorter than it is."""
    with open_stash(tmp_path) as opened:
        patterns.keep(opened, "Ferry top", (HALF,), "typed")
        patterns.correct(opened, "Ferry top", patterns.PatternChange(pieces=(
            patterns.parse_change("back: fold, back, lengthen at 20cm by 6cm"),)))
        cut = Cut(code="", cloth=CLOTH, washed=True, outline=Outline.rectangle(430, 700))
        opened.cuts.receive(cut)
        yield opened


def answer(stash):
    """Which cut makes it?"""
    return ask_fit(stash, orders_for(stash, ["Ferry top"]), Asking(seconds=2))


def test_on_a_cut_that_is_too_short_it_is_offered_shorter(stash):
    """No as it is; *yes, if* folded 3 cm shorter at its line, with a lay that the separate check
    passes and that can be drawn.
    """
    found = answer(stash)
    rescue = next(r for r in found.rescues if r.fits)

    assert not found.fit.fits
    assert rescue.told == (fact("fold_shorter", less_mm=30.0),)
    assert rescue.costs == (fact("shorter_edges_trued"),)
    assert rescue.saves_mm == pytest.approx(30, abs=0.5)
    task = LayTask(pieces=rescue.pieces, cloth=rescue.cut.outline)
    assert check(task, rescue.laid.lay) == []
    assert "<svg" in drawing(rescue.laid, Reader(System.METRIC))


def test_what_is_folded_away_is_the_strip_and_nothing_else(stash):
    """By shapely alone: the area that goes is the outline's own between the line and 3 cm below
    it, above the line nothing moved, and what was below it is the same shape 3 cm higher.
    """
    (order,) = orders_for(stash, ["Ferry top"])
    before = Polygon(order.drafted().pattern.pieces[0].outline_mm)
    rescue = next(r for r in answer(stash).rescues if r.fits)
    after = Polygon(rescue.pieces[0].outline_mm)

    strip = before.intersection(box(AT, -1000, AT + 30, 1000))
    assert before.area - after.area == pytest.approx(strip.area, abs=0.1)
    upper = box(-1, -1000, AT, 1000)
    assert after.intersection(upper).symmetric_difference(
        before.intersection(upper)).area < 0.1
    below = Polygon([(x - 30, y) for x, y in before.intersection(
        box(AT + 30, -1000, 1000, 1000)).exterior.coords])
    assert after.intersection(box(AT, -1000, 1000, 1000)).symmetric_difference(below).area < 0.1


def test_of_a_straight_piece_goes_the_width_of_the_cut_times_what_is_folded():
    """A band 52 cm wide, 3 cm shorter: 520 mm x 30 mm."""
    band = corrected(Piece(name="band", outline_mm=((0, 0), (450, 0), (450, 520), (0, 520))),
                     PieceChange(lengthen_at_mm=AT))
    short = corrected_by(band, -30)
    assert Polygon(band.outline_mm).area - Polygon(short.outline_mm).area == 520 * 30


def corrected_by(piece: Piece, mm: float) -> Piece:
    """The piece altered at its line."""
    from stash.pattern.length_line import lengthened

    return lengthened(piece, mm)


@pytest.mark.parametrize(("most", "offered"), [("6cm", [30, 50]), ("4cm", [30, 40]),
                                               ("2cm", [20])])
def test_no_more_is_offered_than_the_pattern_allows(stash, most, offered):
    """Where it says 2 cm, 2 cm is tried."""
    patterns.correct(stash, "Ferry top", patterns.PatternChange(pieces=(
        patterns.parse_change(f"back: lengthen by {most}"),)))
    attempt = Attempt(orders=orders_for(stash, ["Ferry top"]), table=Table())
    less = [c.told.values["less_mm"] for c in changes(attempt, CLOTH) if c.kind == "length"]
    assert less == offered


def test_without_a_line_nothing_is_folded(stash):
    """Its length is then no option, nor can it grow."""
    patterns.correct(stash, "Ferry top", patterns.PatternChange(pieces=(
        patterns.parse_change("back: lengthen nowhere"),)))
    (order,) = orders_for(stash, ["Ferry top"])

    assert "length" not in {c.kind for c in changes(Attempt(orders=(order,), table=Table()), CLOTH)}
    assert grows(order) == ("copies",)


def test_more_than_the_pattern_allows_is_refused(stash):
    """7 cm where 6 cm is said."""
    (order,) = orders_for(stash, ["Ferry top"], options={"lengthen": "7cm"})
    with pytest.raises(InvalidInput) as refused:
        order.drafted()
    assert refused.value.fact.kind == "alters_no_further"


def test_as_far_as_it_goes_is_how_long_it_may_be(stash):
    """On a cut of 48 cm: 3 cm longer than the 45 it is; on a long one, the 6 cm it allows."""
    for code, long_mm, value in (("", 480.0, 480.0), ("", 900.0, 510.0)):
        cut = Cut(code=code, cloth=CLOTH, washed=True, outline=Outline.rectangle(long_mm, 700))
        code = stash.cuts.receive(cut).code
        (order,) = orders_for(stash, ["Ferry top"])
        far = ask_far(stash, order, Farther(grow="length", cut=code, seconds=1))
        assert far.reaches[0].value == pytest.approx(value, abs=5)


def test_planned_it_stays_as_long_as_it_was_made(stash):
    """The plan keeps the length that was chosen, and asks for the same pieces again."""
    rescue = next(r for r in answer(stash).rescues if r.fits)
    plan = Plan(name="Ferry", garments=rescue.laid.garments)
    (order,) = planned_orders(stash, plan)
    assert order.drafted().pattern.pieces == rescue.orders[0].drafted().pattern.pieces
    assert Outline(order.drafted().pattern.pieces[0].outline_mm).length_mm == pytest.approx(420)
