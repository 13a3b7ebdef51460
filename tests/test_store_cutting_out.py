"""A planned lay that was cut leaves the cloth as it truly is, and the plan's hold ends."""

from __future__ import annotations

import pytest

from stash.errors import Conflict, NotFound
from stash.ledger import CutHold
from stash.model import Cloth, Cut, Lay, Outline, Piece, Placement, Plan
from stash.model.wire import lay_json, piece_json
from stash.store import open_stash
from stash.workroom.cutting import cut_plan

PANEL = Piece(name="panel", outline_mm=((0, 0), (600, 0), (600, 1400), (0, 1400)), quantity=2)


@pytest.fixture
def stash(tmp_path):
    """A stash with one plan."""
    with open_stash(tmp_path) as stash:
        stash.plans.save(Plan(name="Tour"))
        yield stash


def a_cut(stash, **more):
    """The code of 3.00 x 1.40 m."""
    cloth = Cloth(name="Linen", **more)
    cut = Cut(code="", cloth=cloth, outline=Outline.rectangle(3000.0, 1400.0))
    return stash.cuts.receive(cut).code


def hold(stash, code, *at_mm):
    """Hold panels at these places along the cloth for the plan."""
    lay = Lay(
        placements=tuple(
            Placement(piece=f"panel#{n}", x_mm=x, y_mm=0.0) for n, x in enumerate(at_mm, start=1)
        ),
        length_mm=max(at_mm) + 600, width_mm=1400, utilisation=0.8,
    )
    plain = {**lay_json(lay), "pieces": [piece_json(PANEL)]}
    stretch = CutHold(plan="", from_mm=0.0, to_mm=max(at_mm) + 600, lay=plain)
    stash.plans.hold("Tour", cuts={code: stretch})


def test_what_is_left_and_the_remnant_between_have_their_true_size(stash):
    """Panels at 0 and 1.00 m: 1.40 m is left, and 0.40 m between them with a label of its own."""
    code = a_cut(stash)
    hold(stash, code, 0.0, 1000.0)
    (done,) = cut_plan(stash, "tour")
    assert stash.cuts.get(code).outline == Outline.rectangle(1400.0, 1400.0)
    remnant = stash.cuts.get(done.arrivals[0])
    assert (remnant.length_mm, remnant.width_mm) == (400.0, 1400.0)
    assert remnant.came_from == code
    assert stash.plans.held_by(code) == ()


def test_one_undo_makes_the_cloth_whole_and_held_again(stash):
    """The wrong plan was tapped: nothing is lost."""
    code = a_cut(stash)
    hold(stash, code, 0.0, 1000.0)
    before = stash.ledger.cached()
    (event,) = cut_plan(stash, "Tour")
    stash.ledger.undo(event.id)
    assert stash.ledger.cached() == before


def test_a_double_tap_cuts_once(stash):
    """The second tap is told the same; another tap later, that there is nothing to cut."""
    first, second = a_cut(stash), a_cut(stash)
    hold(stash, first, 0.0)
    hold(stash, second, 0.0)
    events = cut_plan(stash, "Tour", token="tap")
    assert {event.code for event in events} == {first, second}
    assert cut_plan(stash, "Tour", token="tap") == events
    with pytest.raises(Conflict, match="plan_holds_no_lay"):
        cut_plan(stash, "Tour")


def test_cloth_that_will_shrink_is_washed_before_it_is_cut(stash):
    """The lay is for the washed cloth."""
    code = a_cut(stash, shrink_along_pct=4.0)
    hold(stash, code, 0.0)
    with pytest.raises(Conflict, match="wash_before_cutting"):
        cut_plan(stash, "Tour")
    stash.cuts.wash(code)
    cut_plan(stash, "Tour")
    assert stash.cuts.get(code).length_mm == pytest.approx(3000 * 0.96 - 600)


def test_a_lay_that_no_longer_lies_on_the_cloth_is_not_cut(stash):
    """The cloth was measured again and is shorter than the lay."""
    code = a_cut(stash)
    hold(stash, code, 0.0, 1000.0)
    stash.cuts.remeasure(code, Outline.rectangle(1500.0, 1400.0))
    with pytest.raises(Conflict, match="lay_is_stale"):
        cut_plan(stash, "Tour")
    assert stash.cuts.get(code).length_mm == 1500.0


def test_all_of_it_may_be_used(stash):
    """Nothing worth keeping is left: the cut is used up."""
    code = a_cut(stash)
    hold(stash, code, 0.0, 600.0, 1200.0, 1800.0, 2390.0)
    cut_plan(stash, "Tour")
    assert stash.cuts.card(code).gone == "used up"


def test_some_pieces_only_and_the_rest_stays_held_on_the_same_cloth(stash):
    """The first panel is cut, the second still lies where it lay, seen from the new end."""
    code = a_cut(stash)
    hold(stash, code, 0.0, 1000.0)
    before = stash.ledger.cached()
    (event,) = cut_plan(stash, "Tour", only=["panel#1"])

    assert stash.cuts.get(code).outline == Outline.rectangle(2400.0, 1400.0)
    assert stash.plans.held_by(code) == ("Tour",)
    held = stash.plans.holdings("Tour").cuts[code]
    assert [(p.piece, p.x_mm) for p in held.laid.lay.placements] == [("panel#2", 400.0)]
    assert event.change[code]["plan"] == "Tour"

    cut_plan(stash, "Tour")
    assert stash.cuts.get(code).length_mm == pytest.approx(1400.0)
    assert stash.plans.held_by(code) == ()
    assert before != stash.ledger.cached()


def test_a_spoiled_piece_is_cut_again_and_its_first_cloth_is_gone_too(stash):
    """Two panels and one again: three panels of 60 cm are gone from 3 m."""
    code = a_cut(stash)
    hold(stash, code, 0.0, 600.0)
    (event,) = cut_plan(stash, "Tour", again=["panel#2"])
    areas = stash.cuts.get(code).outline.area_mm2 + event.change[code]["waste_mm2"] + sum(
        stash.cuts.get(remnant).outline.area_mm2 for remnant in event.arrivals)
    assert areas == pytest.approx(3000 * 1400 - 3 * 600 * 1400, rel=1e-3)


def test_there_may_be_no_room_to_cut_it_again(stash):
    """Four panels of 60 cm fill 2.40 m of 3 m, and 60 cm are left: one again fits, two do not."""
    code = a_cut(stash)
    hold(stash, code, 0.0, 600.0, 1200.0, 1800.0)
    with pytest.raises(Conflict, match="no_room_to_cut_again"):
        cut_plan(stash, "Tour", again=["panel"])
    assert stash.cuts.get(code).length_mm == 3000.0


def test_a_piece_that_was_not_laid_is_named(stash, sentence):
    """And those that were are listed."""
    code = a_cut(stash)
    hold(stash, code, 0.0)
    with pytest.raises(NotFound) as refused:
        cut_plan(stash, "Tour", only=["sleeve"])
    assert "panel#1" in sentence(refused.value)
