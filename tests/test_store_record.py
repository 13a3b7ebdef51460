"""Cuts and bins on disk: what is recorded is there, once, and can be taken back."""

from __future__ import annotations

import re

import pytest

from stash.errors import Conflict, Held, InvalidInput, NotEnough, NotFound
from stash.ledger import CutHold, Kind
from stash.model import (
    Bin,
    Cloth,
    Construction,
    Cut,
    FibreShare,
    Notion,
    NotionKind,
    Outline,
    Plan,
    PlannedGarment,
    Repeat,
)
from stash.store import open_stash

LINEN = Cloth(
    name="Dune linen", construction=Construction.WOVEN,
    fibres=(FibreShare("flax", 55.0), FibreShare("cotton", 45.0)),
    mass_gsm=180.0, repeat=Repeat(lengthwise_mm=64.0), shrink_along_pct=4.0,
    shrink_across_pct=2.0, colours=("#c9b691",),
)
SHELL = Notion(kind=NotionKind.BUTTON, name="Shell", size_mm=11.43)
ELASTIC = Notion(kind=NotionKind.ELASTIC, name="Woven elastic", size_mm=25.0)


@pytest.fixture
def stash(tmp_path):
    """An empty stash of its own."""
    with open_stash(tmp_path / "loft", who="Odile") as stash:
        yield stash


def a_cut(length=3200.0, width=1400.0, cloth=LINEN, **more):
    """3.20 x 1.40 m of linen unless told otherwise."""
    return Cut(code="", cloth=cloth, outline=Outline.rectangle(length, width), **more)


def a_bin(notion=SHELL, amount=12.0):
    """Twelve shell buttons unless told otherwise."""
    return Bin(code="", notion=notion, amount=amount)


def test_a_cut_comes_back_as_it_was_recorded(stash):
    """Every property survives, and the label's code can be typed carelessly."""
    cut = a_cut(place="Shelf 1", acquired="2024-05", keep_for="the tent", washed=True)
    code = stash.cuts.receive(cut).code
    kept = stash.cuts.get(f" {code[:3].lower()}-{code[3:].lower()} ")
    assert kept.cloth == LINEN
    assert kept.outline == cut.outline
    assert (kept.place, kept.acquired, kept.keep_for) == ("Shelf 1", "2024-05", "the tent")
    assert kept.washed


def test_cuts_of_one_cloth_share_its_description(stash):
    """Describing the cloth of one cut anew describes it for the other; undo takes both back."""
    one, other = (stash.cuts.receive(a_cut(length)).code for length in (1000.0, 2000.0))
    lighter = Cloth(name="Dune linen", mass_gsm=150.0)
    event = stash.cloths.correct(one, lighter)
    assert stash.cuts.get(other).cloth == lighter
    assert stash.ledger.history(one)[0].id == event.id
    stash.ledger.undo(event.id)
    assert stash.cuts.get(other).cloth == LINEN


def test_a_double_tap_records_once(stash):
    """The same token twice gives the same event, and the length is cut off once."""
    code = stash.cuts.receive(a_cut(), token="t0").code
    assert stash.cuts.receive(a_cut(), token="t0").code == code
    first = stash.cuts.cut_off(code, 1200.0, "t1")
    assert stash.cuts.cut_off(code, 1200.0, "t1") == first
    assert stash.cuts.get(code).length_mm == 2000.0
    assert stash.ledger.undo(first.id, "t2") == stash.ledger.undo(first.id, "t2")
    assert stash.cuts.get(code).length_mm == 3200.0


def test_every_event_says_who_and_where(stash):
    """Another hand on the same stash signs its own events."""
    code = stash.cuts.receive(a_cut()).code
    event = stash.written_by("Bram", "phone").cuts.cut_off(code, 100.0)
    assert (event.who, event.device) == ("Bram", "phone")
    assert [e.who for e in stash.ledger.history(code)] == ["Bram", "Odile"]


def test_a_washed_cut_is_smaller_by_what_its_cloth_shrinks(stash, sentence):
    """4 % along, 2 % across, and only once."""
    code = stash.cuts.receive(a_cut()).code
    stash.cuts.wash(code)
    assert stash.cuts.get(code).outline.bounds_mm == (0.0, 0.0, 3072.0, 1372.0)
    with pytest.raises(Conflict) as refused:
        stash.cuts.wash(code)
    assert re.search("already recorded as washed", sentence(refused.value))


def test_a_cut_measured_after_the_wash_has_the_size_that_was_measured(stash):
    """What she measured wins over what the cloth was said to shrink."""
    code = stash.cuts.receive(a_cut()).code
    stash.cuts.wash(code, outline=Outline.rectangle(3100.0, 1380.0))
    assert stash.cuts.get(code).outline == Outline.rectangle(3100.0, 1380.0)


def test_cutting_out_leaves_remnants_that_know_where_they_came_from(stash):
    """One event: the cut is shorter, the remnant has a label; one undo takes both back."""
    code = stash.cuts.receive(a_cut()).code
    blank = stash.labels.reserve(1)[0]
    left = Outline(((1800.0, 0.0), (3200.0, 0.0), (3200.0, 1400.0), (1800.0, 1400.0)))
    corner = Outline(((0.0, 0.0), (300.0, 0.0), (0.0, 400.0)))
    event = stash.cuts.cut_out(code, left, remnants=[(blank, corner)])
    assert stash.cuts.get(code).length_mm == 1400.0
    assert stash.cuts.get(blank).came_from == code
    assert stash.cuts.get(blank).cloth == LINEN
    stash.ledger.undo(event.id)
    assert stash.cuts.get(code).length_mm == 3200.0
    assert stash.labels.state(blank) == "blank"


def test_an_undo_that_something_depends_on_is_refused(stash, sentence):
    """A remnant that was used since cannot be un-made; nothing changes."""
    code = stash.cuts.receive(a_cut()).code
    corner = Outline.rectangle(300.0, 400.0)
    event = stash.cuts.cut_out(code, Outline.rectangle(2000.0, 1400.0), remnants=[(None, corner)])
    (remnant,) = event.arrivals
    stash.cuts.cut_off(remnant, 100.0)
    before = stash.ledger.cached()
    with pytest.raises(Conflict) as refused:
        stash.ledger.undo(event.id)
    assert re.search("cannot be undone any more", sentence(refused.value))
    assert stash.ledger.cached() == before


def test_the_receipt_of_a_cut_that_was_used_cannot_be_undone(stash, sentence):
    """First the use has to be taken back."""
    came = stash.cuts.receive(a_cut())
    used = stash.cuts.cut_off(came.code, 100.0)
    with pytest.raises(Conflict) as refused:
        stash.ledger.undo(came.id)
    assert re.search("recorded later", sentence(refused.value))
    stash.ledger.undo(used.id)
    stash.ledger.undo(came.id)
    with pytest.raises(NotFound):
        stash.cuts.card(came.code)


def test_a_cloth_stays_while_another_cut_of_it_is_here(stash, sentence):
    """The receipt that first described a cloth cannot be undone under another cut of it."""
    came = stash.cuts.receive(a_cut())
    other = stash.cuts.receive(a_cut())
    with pytest.raises(Conflict) as refused:
        stash.ledger.undo(came.id)
    assert re.search("belongs to this cloth", sentence(refused.value))
    assert stash.cuts.get(came.code).cloth == LINEN
    stash.ledger.undo(other.id)
    stash.ledger.undo(came.id)
    assert stash.cloths.all() == {}


def test_undoing_what_a_later_count_has_replaced_says_so(stash, sentence):
    """After a count, an earlier taking no longer matters."""
    code = stash.bins.receive(a_bin()).code
    taken = stash.bins.take(code, 5)
    stash.bins.count(code, 6)
    with pytest.raises(Conflict) as refused:
        stash.ledger.undo(taken.id)
    assert re.search("would change nothing", sentence(refused.value))


def test_undoing_twice_is_told_apart_from_redoing(stash, sentence):
    """The second undo of the same event is refused; undoing the undo is the redo."""
    code = stash.cuts.receive(a_cut()).code
    cut = stash.cuts.cut_off(code, 1200.0)
    undo = stash.ledger.undo(cut.id)
    with pytest.raises(Conflict) as refused:
        stash.ledger.undo(cut.id)
    assert re.search("already undone", sentence(refused.value))
    stash.ledger.undo(undo.id)
    assert stash.cuts.get(code).length_mm == 2000.0
    with pytest.raises(NotFound) as refused:
        stash.ledger.undo(999)
    assert re.search("no entry 999", sentence(refused.value))


@pytest.mark.parametrize("length", [0.0, -100.0, float("nan"), float("inf"), 1e9])
def test_absurd_lengths_are_refused_and_change_nothing(stash, length):
    """Nothing, less than nothing, not a number, and more than a kilometre."""
    code = stash.cuts.receive(a_cut()).code
    with pytest.raises(InvalidInput):
        stash.cuts.cut_off(code, length)
    assert stash.cuts.get(code).length_mm == 3200.0
    assert len(stash.ledger.history(code)) == 1


@pytest.mark.parametrize("amount", [0, -1, 2.5, float("nan"), 1e12])
def test_absurd_counts_are_refused(stash, amount):
    """Buttons are taken whole, and at least one."""
    code = stash.bins.receive(a_bin()).code
    with pytest.raises(InvalidInput):
        stash.bins.take(code, amount)
    assert stash.bins.get(code).amount == 12.0


def test_a_measured_bin_is_in_millimetres(stash, sentence):
    """3 m of elastic less 78 cm."""
    code = stash.bins.receive(a_bin(ELASTIC, 3000.0)).code
    stash.bins.take(code, 780.0)
    assert stash.bins.get(code).amount == 2220.0
    with pytest.raises(NotEnough) as refused:
        stash.bins.take(code, 2300.0)
    assert re.search("the record says 2.22 m in this bin", sentence(refused.value))


def test_what_is_gone_is_told_apart_from_what_never_was(stash, sentence):
    """A scan of a used-up cut says so; an unknown code says that."""
    code = stash.cuts.receive(a_cut()).code
    stash.cuts.remains(code, 0)
    with pytest.raises(NotFound) as refused:
        stash.cuts.get(code)
    assert re.search("no longer here: it was used up", sentence(refused.value))
    assert stash.cuts.card(code).gone == "used up"
    assert [c.code for c in stash.cuts.all()] == []
    assert [c.code for c in stash.cuts.all(gone=True)] == [code]
    with pytest.raises(NotFound) as refused:
        stash.cuts.get(stash.labels.reserve(1)[0])
    assert re.search("no cut", sentence(refused.value))


def test_a_plan_holds_cloth_and_notions_until_it_gives_them_up(stash, sentence):
    """Held things are refused with the plan's name; released, they are free again."""
    cut = stash.cuts.receive(a_cut()).code
    buttons = stash.bins.receive(a_bin()).code
    garment = PlannedGarment(garment="shirt", person="Bram", options={"sleeve": "short"})
    stash.plans.save(Plan(name="Spring tour", garments=(garment,)))
    hold = CutHold(plan="", from_mm=0.0, to_mm=2000.0)
    stash.plans.hold("spring TOUR", cuts={cut: hold}, bins={buttons: 7})
    assert stash.plans.held_by(cut) == ("Spring tour",)
    with pytest.raises(Held) as refused:
        stash.cuts.cut_off(cut, 1500.0)
    assert re.search("Spring tour", sentence(refused.value))
    with pytest.raises(Held) as refused:
        stash.bins.take(buttons, 6)
    assert re.search("Spring tour", sentence(refused.value))
    stash.plans.release("Spring tour")
    stash.cuts.cut_off(cut, 1500.0)
    stash.bins.take(buttons, 6)
    assert stash.plans.get("Spring tour").garments == (garment,)


def test_a_hold_is_all_or_nothing(stash):
    """When one bin has too few, the cloth is not held either."""
    cut = stash.cuts.receive(a_cut()).code
    buttons = stash.bins.receive(a_bin()).code
    stash.plans.save(Plan(name="Spring"))
    with pytest.raises(NotEnough):
        stash.plans.hold(
            "Spring", cuts={cut: CutHold(plan="", from_mm=0.0, to_mm=900.0)}, bins={buttons: 13}
        )
    assert stash.plans.held_by(cut) == ()


def test_the_cut_out_of_a_plan_gives_up_its_own_hold_only(stash):
    """The plan's lay was cut; the other plan still holds its stretch."""
    code = stash.cuts.receive(a_cut()).code
    for name, start, end in (("One", 0.0, 1500.0), ("Two", 1500.0, 3000.0)):
        stash.plans.save(Plan(name=name))
        stash.plans.hold(name, cuts={code: CutHold(plan="", from_mm=start, to_mm=end)})
    left = Outline(((1500.0, 0.0), (3200.0, 0.0), (3200.0, 1400.0), (1500.0, 1400.0)))
    stash.cuts.cut_out(code, left, plan="One")
    card = stash.cuts.card(code)
    assert [(h.plan, h.from_mm, h.to_mm) for h in card.holds] == [("Two", 0.0, 1500.0)]


def test_a_plan_taken_off_the_list_comes_back_with_its_holds(stash):
    """One event gives up the holds and the plan; one undo brings both back."""
    code = stash.bins.receive(a_bin()).code
    stash.plans.save(Plan(name="Spring"))
    stash.plans.hold("Spring", bins={code: 7})
    removed = stash.plans.remove("Spring")
    assert removed.kind is Kind.RELEASE
    assert (stash.plans.all(), stash.bins.card(code).free) == ([], 12.0)
    stash.ledger.undo(removed.id)
    assert stash.plans.holdings("Spring").bins[code].amount == 7.0


def test_a_plan_that_holds_something_cannot_be_undone_from_under_it(stash, sentence):
    """Its holds would belong to nobody."""
    code = stash.bins.receive(a_bin()).code
    planned = stash.plans.save(Plan(name="Spring"))
    stash.plans.hold("Spring", bins={code: 7})
    with pytest.raises(Conflict) as refused:
        stash.ledger.undo(planned.id)
    assert re.search("belongs to this plan", sentence(refused.value))


def test_a_plan_that_was_made_has_used_its_notions(stash, sentence):
    """7 of 12 buttons leave the bin, the plan says when; cloth must have been cut out before."""
    cut = stash.cuts.receive(a_cut()).code
    buttons = stash.bins.receive(a_bin()).code
    stash.plans.save(Plan(name="Spring"))
    stretch = CutHold(plan="", from_mm=0.0, to_mm=900.0)
    stash.plans.hold("Spring", cuts={cut: stretch}, bins={buttons: 7})
    with pytest.raises(Conflict) as refused:
        stash.plans.made("Spring")
    assert re.search("still holds cloth", sentence(refused.value))
    stash.plans.release("Spring", code=cut)
    event = stash.plans.made("Spring", "tap")
    assert stash.plans.made("Spring", "tap") == event
    assert stash.bins.card(buttons).free == stash.bins.get(buttons).amount == 5.0
    assert stash.plans.get("Spring").made == event.at[:10]
    with pytest.raises(Conflict) as refused:
        stash.plans.made("Spring")
    assert re.search("already made", sentence(refused.value))
    stash.ledger.undo(event.id)
    assert stash.plans.holdings("Spring").bins[buttons].amount == 7.0
    assert stash.plans.get("Spring").made is None


def test_several_changes_together_are_all_recorded_or_none(stash):
    """The second fails, so the first is not kept either."""
    code = stash.cuts.receive(a_cut()).code
    with pytest.raises(NotEnough), stash.together():
        stash.cuts.cut_off(code, 1000.0)
        stash.cuts.cut_off(code, 9000.0)
    assert stash.cuts.get(code).length_mm == 3200.0


def test_columns_say_the_same_as_the_cuts(stash):
    """Present cuts only, one entry each."""
    codes = [stash.cuts.receive(a_cut(length)).code for length in (1000.0, 2000.0)]
    stash.cuts.discard(codes[0])
    columns = stash.cuts.columns()
    assert columns.code == [codes[1]]
    assert (columns.length_mm, columns.width_mm) == ([2000.0], [1400.0])
    assert (columns.colour, columns.mass_gsm) == (["#c9b691"], [180.0])
    assert (columns.fibres, columns.construction) == (["55% flax 45% cotton"], ["woven"])


@pytest.mark.parametrize(
    "cloth",
    [
        Cloth(name="  "),
        Cloth(name="x" * 201),
        Cloth(name="x", mass_gsm=float("nan")),
        Cloth(name="x", mass_gsm=90_000.0),
        Cloth(name="x", shrink_along_pct=90.0),
        Cloth(name="x", stretch_across_pct=-1.0),
        Cloth(name="x", fibres=(FibreShare("flax", 80.0), FibreShare("silk", 40.0))),
    ],
)
def test_no_cloth_is_like_that(stash, cloth):
    """No name, too long a name, a weight or shrinkage beyond any cloth, 120 % fibre."""
    with pytest.raises(InvalidInput):
        stash.cuts.receive(a_cut(cloth=cloth))
    assert stash.cuts.all() == []


def test_an_entry_says_whether_it_stands_however_often_its_undo_was_undone(stash):
    """Read alone, among the newest, and in a history, whatever else was undone meanwhile."""
    code = stash.cuts.receive(a_cut()).code
    cut = stash.cuts.cut_off(code, 100.0)
    for _ in range(3):
        other = stash.cuts.cut_off(code, 10.0)
        stash.ledger.undo(other.id)
    number, stands = cut.id, True  # each undo is undone in turn
    for _ in range(4):
        number, stands = stash.ledger.undo(number).id, not stands
        told = (stash.ledger.event(cut.id), *stash.ledger.latest(), *stash.ledger.history(code))
        assert {event.stands for event in told if event.id == cut.id} == {stands}
    stash.ledger.replay()
    assert {e.stands for e in stash.ledger.history(code) if e.id == cut.id} == {stands}
