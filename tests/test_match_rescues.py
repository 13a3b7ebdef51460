"""What small change saves the trip: drafted again, laid again, and the saving named."""

from __future__ import annotations

import pytest

from stash.fact import fact
from stash.lay import LayTask, check
from stash.match.fit.question import Effort
from stash.match.order import Order
from stash.match.rescue.changes import Attempt, changes
from stash.match.rescue.rescues import Rescue, rescues
from stash.match.strip_lays import Strips, Table
from stash.model import Cloth, Cut, Outline, Role, Spread
from stash.sentences import Reader, say
from stash.units import System

CHILD = {"hip": 700.0, "waist": 600.0, "chest": 660.0, "height": 1310.0}
DRILL = Cloth(name="Drill", mass_gsm=230)
READER = Reader(System.METRIC)
WIDTH = 700.0
PATIENT = Effort(iterations=100)


def order(garment: str = "shorts", **options: object) -> Order:
    """A garment for the child."""
    return Order(garment=garment, person="Pip", measurements_mm=CHILD, body="children",
                 options=options)


def attempt(*orders: Order, **more) -> Attempt:
    """What is asked for, laid open."""
    return Attempt(orders=orders or (order(),), table=more.pop("table", Table()), **more)


def cut(length_mm: float, code: str = "CUT", cloth: Cloth = DRILL, width: float = WIDTH) -> Cut:
    """A washed plain length."""
    return Cut(code=code, cloth=cloth, washed=True, outline=Outline.rectangle(length_mm, width))


def says(*tried: Attempt, cloth: Cloth = DRILL) -> str:
    """Every change offered, as one text."""
    return " ".join(say(c.told, READER) for one in tried for c in changes(one, cloth))


def needed(one: Attempt) -> float:
    """Length of the lay as drafted."""
    return Strips(one.pieces(), Table()).first(WIDTH).lay.length_mm


@pytest.fixture(scope="module")
def tried() -> tuple[Rescue, ...]:
    """Rescues of shorts on a cut 2 cm shorter than they need."""
    return rescues(attempt(), cut(needed(attempt()) - 20), [], PATIENT)


def test_every_rescue_that_fits_has_a_lay_that_the_separate_check_passes(tried):
    """Drafted with the change, laid on the very cut."""
    fits = [r for r in tried if r.fits]

    assert fits
    for rescue in fits:
        task = LayTask(pieces=rescue.pieces, cloth=rescue.cut.outline)
        assert check(task, rescue.laid.lay) == []


def test_what_fits_comes_first_and_every_rescue_saves_something(tried):
    """The saving is a length in millimetres; what still misses says by how much."""
    assert [r.fits for r in tried] == sorted((r.fits for r in tried), reverse=True)
    assert all(r.saves_mm >= 1 for r in tried)
    assert all(r.short_mm > 0 for r in tried if not r.fits and r.short_mm is not None)


def test_of_two_ways_to_shorten_it_the_lesser_that_is_enough_is_told(tried):
    """3 cm off is told when it is enough; 5 cm need not be."""
    kinds = [tuple(c.kind for c in r.changes) for r in tried if r.fits]

    assert len(kinds) == len(set(kinds))


@pytest.fixture(scope="module")
def in_pairs() -> tuple[Rescue, ...]:
    """Rescues of shorts on a cut 10 cm too short: each small change is proved too little."""
    return rescues(attempt(), cut(needed(attempt()) - 100), [], PATIENT)


def test_where_no_small_change_is_enough_two_together_are_told(in_pairs):
    """A narrower hem and shorter legs; each lay is sound by the separate check."""
    fits = [r for r in in_pairs if r.fits]

    assert fits
    assert all(len(r.changes) == 2 and not r.drastic for r in fits)
    assert not [r for r in in_pairs if len(r.changes) == 1 and r.fits]
    for rescue in fits:
        task = LayTask(pieces=rescue.pieces, cloth=rescue.cut.outline)
        assert check(task, rescue.laid.lay) == []
        assert len(rescue.told) == len(rescue.costs) == 2


def test_a_pair_is_two_kinds_of_change_and_saves_more_than_either(in_pairs):
    """Never two ways to shorten it, and never the same two the other way round."""
    alone = {r.changes[0].told: r.saves_mm for r in in_pairs if len(r.changes) == 1}
    pairs = [r for r in in_pairs if len(r.changes) == 2]

    assert all(len({c.kind for c in r.changes}) == 2 for r in pairs)
    assert len({frozenset(r.told) for r in pairs}) == len(pairs)
    for pair in (r for r in pairs if r.fits):
        assert pair.saves_mm > max(alone[told] for told in pair.told)


def test_no_pairs_are_told_where_one_small_change_is_enough(tried):
    """Least harm: nothing is given up beside what is needed."""
    assert {len(r.changes) for r in tried if r.fits} == {1}


def test_the_sentence_names_the_change_and_what_it_saves(tried):
    """One can act on it."""
    assert all(say(one, READER) for r in tried for one in r.told)
    assert all("It saves" in say(r.saving, READER) for r in tried)


def test_narrower_seams_make_smaller_pieces():
    """The same draft with 10 mm instead of 15 mm."""
    one = attempt()
    (narrow,) = [c for c in changes(one, DRILL) if c.kind == "seam"]

    before, after = one.pieces()[0], narrow.apply(one).pieces()[0]

    assert say(narrow.told, READER) == "Cut seam allowances of 10 mm instead of 15 mm."
    assert Outline(after.outline_mm).area_mm2 < Outline(before.outline_mm).area_mm2


def test_shorter_takes_exactly_so_much_off_the_longest_piece():
    """Also where the draft works its length out for itself."""
    one = attempt()
    shorter = next(c for c in changes(one, DRILL) if c.told == fact("make_shorter", less_mm=30.0))

    def longest(a: Attempt) -> float:
        return max(Outline(p.outline_mm).length_mm for p in a.pieces())

    assert longest(one) - longest(shorter.apply(one)) == pytest.approx(30, abs=0.5)


def test_changes_that_do_not_apply_are_not_offered():
    """Shorts have no sleeve to shorten, and cannot become shorts."""
    assert "sleeve" not in says(attempt())
    assert "Make shorts instead" not in says(attempt())
    assert "Make shorts instead of trousers." in says(attempt(order("trousers")))


def test_narrow_seams_are_not_narrowed_further():
    """8 mm is narrow enough."""
    assert "seam allowances" not in says(attempt(order(seam=8.0)))


def test_folded_cloth_is_first_laid_open():
    """It costs nothing but time at the table."""
    folded = attempt(table=Table(spread=Spread.LENGTHWISE))

    assert changes(folded, DRILL)[0].told == fact("lay_open")


def test_one_way_cloth_may_be_turned_only_where_it_has_no_pile():
    """A print may bear it; corduroy shades and never does."""
    cord = Cloth(name="Moth cord", mass_gsm=300, one_way=True, pile=True)
    print_ = Cloth(name="Kelp print", mass_gsm=120, one_way=True)
    one = attempt(one_way=True)

    assert "both ways" not in says(one, cloth=cord)
    assert "both ways" in says(one, cloth=print_)


def test_a_set_can_leave_a_garment_for_another_cut_but_only_as_the_last_thing_offered():
    """Drastic: one garment fewer."""
    pair = attempt(order("shorts"), order("shirt"))

    offered = changes(pair, DRILL)

    assert [say(c.told, READER) for c in offered if c.kind == "set"] == [
        "Leave the shorts of Pip for another cut.", "Leave the shirt of Pip for another cut."
    ]
    assert all(c.drastic for c in offered if c.kind == "set")


def test_small_pieces_move_to_a_remnant_that_goes_with_the_cloth():
    """Collar and facing come out of a cut of like weight; both lays are sound."""
    one = attempt(order("shirt"))
    remnant = cut(1200, "REMNANT", Cloth(name="Twill", mass_gsm=200))
    short = cut(needed(one) - 60)

    found = rescues(one, short, [remnant], PATIENT)

    moved = [r for r in found if r.beside]
    assert moved
    for rescue in moved:
        assert rescue.beside.cut.code == "REMNANT"
        beside = LayTask(pieces=rescue.beside.pieces, cloth=remnant.outline)
        assert check(beside, rescue.beside.laid.lay) == []
        assert not {p.name for p in rescue.beside.pieces} & {p.name for p in rescue.pieces}


def test_without_a_second_cut_nothing_is_moved_to_one():
    """No promise that the stash cannot keep."""
    one = attempt(order("shirt"))

    assert not [r for r in rescues(one, cut(needed(one) - 60), [], PATIENT) if r.beside]


def test_a_pattern_of_her_own_is_not_drafted_anew():
    """Its pieces are what they are; only laying differently can help."""
    own = Order(garment="mine", pattern=order().drafted().pattern)

    assert {c.kind for c in changes(attempt(own), DRILL)} <= {"spread", "direction", "elsewhere"}
    assert all(p.role is Role.MAIN for p in attempt(own).pieces())
