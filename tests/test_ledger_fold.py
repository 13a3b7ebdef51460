"""The state of every cut and bin is a fold over the ledger."""

from __future__ import annotations

import re

import pytest

from stash.errors import Conflict, Held, NotEnough
from stash.ledger import BinState, CutState, Event, Kind, fold, standing
from stash.model import Notion, NotionKind, Outline
from stash.model.exact import to_plain


class Story:
    """Writes events one after the other, as a ledger would."""

    def __init__(self):
        self.events = []

    def add(self, kind, code, part=None, undoes=None):
        """Append one event about one subject."""
        event = Event(
            id=len(self.events) + 1, at="2026-03-01T10:00:00+00:00", kind=kind, code=code,
            change={code: part or {}}, undoes=undoes,
        )
        self.events.append(event)
        return event

    def cut(self, code="C", length=3200.0, width=1400.0):
        """A cut comes in."""
        outline = to_plain(Outline.rectangle(length, width))
        return self.add(Kind.RECEIPT, code, {"cut": {"cloth": "cloth:1", "outline": outline}})

    def bin(self, code="B", amount=12.0):
        """A bin comes in."""
        notion = to_plain(Notion(kind=NotionKind.BUTTON, name="Shell"))
        return self.add(Kind.RECEIPT, code, {"bin": {"notion": notion, "amount": amount}})

    def state(self, code):
        """What is there now."""
        return fold(self.events).get(code)


@pytest.fixture
def story():
    """An empty ledger to write into."""
    return Story()


def test_lengths_cut_off_are_taken_from_what_came_in(story):
    """3.20 m, less 1.20 m and 0.50 m, leaves 1.50 m of the same width."""
    story.cut()
    story.add(Kind.CUT_OFF, "C", {"length_mm": 1200.0})
    story.add(Kind.CUT_OFF, "C", {"length_mm": 500.0})
    assert story.state("C").outline == Outline.rectangle(1500.0, 1400.0)


def test_an_undone_event_counts_as_if_it_had_never_been(story):
    """Undoing the first of two cuts leaves only the second."""
    story.cut()
    first = story.add(Kind.CUT_OFF, "C", {"length_mm": 1200.0})
    story.add(Kind.CUT_OFF, "C", {"length_mm": 500.0})
    story.add(Kind.UNDO, "C", undoes=first.id)
    assert story.state("C").outline.length_mm == 2700.0


def test_undoing_an_undo_lets_the_event_stand_again(story):
    """Undo, redo, undo: each is one more entry and none is lost."""
    story.cut()
    cut = story.add(Kind.CUT_OFF, "C", {"length_mm": 1200.0})
    undo = story.add(Kind.UNDO, "C", undoes=cut.id)
    redo = story.add(Kind.UNDO, "C", undoes=undo.id)
    assert story.state("C").outline.length_mm == 2000.0
    story.add(Kind.UNDO, "C", undoes=redo.id)
    assert story.state("C").outline.length_mm == 3200.0
    assert [event.stands for event in standing(story.events)] == [True, False, True, False, True]


def test_an_undone_receipt_leaves_nothing(story):
    """What never came in is not there."""
    came = story.cut()
    story.add(Kind.UNDO, "C", undoes=came.id)
    assert story.state("C") is None


def test_cutting_everything_off_uses_the_cut_up(story, sentence):
    """Nothing is left; the last outline stays on record."""
    story.cut()
    story.add(Kind.CUT_OFF, "C", {"left_mm": 0.0})
    assert story.state("C").gone == "used up"
    with pytest.raises(Conflict) as refused:
        story.add(Kind.MOVE, "C", {"place": "Shelf"})
        story.state("C")
    assert re.search("no longer here: it was used up", sentence(refused.value))


@pytest.mark.parametrize("part", [{"length_mm": 3300.0}, {"left_mm": 3300.0}])
def test_more_than_there_is_asks_for_a_new_measure(story, part, sentence):
    """3.30 m of 3.20 m is refused; the error carries what is there."""
    story.cut()
    story.add(Kind.CUT_OFF, "C", part)
    with pytest.raises(NotEnough) as caught:
        story.state("C")
    assert re.search("measure the cut again", sentence(caught.value))
    assert caught.value.available == 3200.0


def test_washing_shrinks_the_outline_and_what_is_held_of_it(story):
    """4 % along and 2 % across: 3.20 x 1.40 m becomes 3.072 x 1.372 m."""
    story.cut()
    story.add(Kind.HOLD, "C", {"plan": "Spring", "from_mm": 0.0, "to_mm": 1000.0})
    story.add(Kind.WASH, "C", {"along": 0.96, "across": 0.98})
    state = story.state("C")
    assert state.washed
    assert state.outline == Outline.rectangle(3072.0, 1372.0)
    assert state.holds[0].to_mm == pytest.approx(960.0)


def test_cloth_that_a_plan_holds_is_not_cut_off_unless_one_insists(story, sentence):
    """2.00 m of 3.20 m are held: 1.20 m may go, more may not, unless told so."""
    story.cut()
    story.add(Kind.HOLD, "C", {"plan": "Spring", "from_mm": 0.0, "to_mm": 2000.0})
    story.add(Kind.CUT_OFF, "C", {"length_mm": 1200.0})
    assert story.state("C").outline.length_mm == 2000.0
    refused = story.add(Kind.CUT_OFF, "C", {"length_mm": 100.0})
    with pytest.raises(Held) as caught:
        story.state("C")
    assert re.search("“Spring” holds this cloth", sentence(caught.value))
    assert caught.value.plans == ("Spring",)
    story.add(Kind.UNDO, "C", undoes=refused.id)
    story.add(Kind.CUT_OFF, "C", {"length_mm": 100.0, "despite_hold": True})
    assert story.state("C").outline.length_mm == 1900.0


def test_the_free_part_of_a_held_cut_is_the_largest_stretch_left(story):
    """Held from 0 to 2.00 m of 3.20 m, the last 1.20 m is free."""
    story.cut()
    story.add(Kind.HOLD, "C", {"plan": "Spring", "from_mm": 0.0, "to_mm": 2000.0})
    assert story.state("C").free_outline.bounds_mm == (2000.0, 0.0, 3200.0, 1400.0)


def test_two_plans_cannot_hold_the_same_cloth(story, sentence):
    """Stretches may touch and may not cross."""
    story.cut()
    story.add(Kind.HOLD, "C", {"plan": "Spring", "from_mm": 0.0, "to_mm": 2000.0})
    story.add(Kind.HOLD, "C", {"plan": "Autumn", "from_mm": 2000.0, "to_mm": 3000.0})
    assert {hold.plan for hold in story.state("C").holds} == {"Spring", "Autumn"}
    story.add(Kind.HOLD, "C", {"plan": "Winter", "from_mm": 1500.0, "to_mm": 1600.0})
    with pytest.raises(Held) as refused:
        story.state("C")
    assert re.search("Spring", sentence(refused.value))


def test_cutting_out_leaves_the_given_outline_at_the_start_of_the_cloth(story):
    """What is left from 1.80 m on is measured from nought again, holds with it."""
    story.cut()
    placement = {"piece": "front#1", "x_mm": 2010.0, "y_mm": 5.0}
    story.add(
        Kind.HOLD, "C",
        {"plan": "Autumn", "from_mm": 2000.0, "to_mm": 3000.0, "lay": {"placements": [placement]}},
    )
    left = Outline(((1800.0, 0.0), (3200.0, 0.0), (3200.0, 1400.0), (1800.0, 1400.0)))
    story.add(Kind.CUT_OUT, "C", {"outline": to_plain(left)})
    state = story.state("C")
    assert state.outline == Outline.rectangle(1400.0, 1400.0)
    assert (state.holds[0].from_mm, state.holds[0].to_mm) == (200.0, 1200.0)
    assert state.holds[0].lay["placements"] == [{**placement, "x_mm": 210.0}]


def test_cutting_out_may_not_eat_into_what_another_plan_holds(story, sentence):
    """The first metre is held; a lay that takes it is refused, with the holder's name."""
    story.cut()
    story.add(Kind.HOLD, "C", {"plan": "Autumn", "from_mm": 0.0, "to_mm": 1000.0})
    left = Outline(((900.0, 0.0), (3200.0, 0.0), (3200.0, 1400.0), (900.0, 1400.0)))
    story.add(Kind.CUT_OUT, "C", {"outline": to_plain(left), "plan": "Spring"})
    with pytest.raises(Held) as refused:
        story.state("C")
    assert re.search("Autumn", sentence(refused.value))


def test_a_bin_is_what_was_put_in_less_what_was_taken_since_it_was_counted(story):
    """12, took 5, counted 6, put 4: there are 10."""
    story.bin()
    story.add(Kind.TAKE, "B", {"amount": 5.0})
    story.add(Kind.COUNT, "B", {"amount": 6.0})
    story.add(Kind.PUT, "B", {"amount": 4.0})
    assert story.state("B").amount == 10.0


def test_a_bin_never_holds_less_than_nothing(story, sentence):
    """Taking 13 of 12 is refused and says how many there are."""
    story.bin()
    story.add(Kind.TAKE, "B", {"amount": 13.0})
    with pytest.raises(NotEnough) as refused:
        story.state("B")
    assert re.search("13 cannot be taken: the record says 12", sentence(refused.value))


def test_a_plan_takes_what_it_held_of_a_bin(story):
    """Held 8 of 12: another may take 4; the plan's own 8 go with its hold."""
    story.bin()
    story.add(Kind.HOLD, "B", {"plan": "Spring", "amount": 8.0})
    assert story.state("B").free == 4.0
    story.add(Kind.TAKE, "B", {"amount": 4.0})
    story.add(Kind.TAKE, "B", {"amount": 8.0, "plan": "Spring"})
    assert story.state("B") == BinState(
        notion=Notion(kind=NotionKind.BUTTON, name="Shell"), amount=0.0
    )


def test_buttons_that_a_plan_holds_are_not_taken(story, sentence):
    """5 of 12 when 8 are held: refused, naming the plan."""
    story.bin()
    story.add(Kind.HOLD, "B", {"plan": "Spring", "amount": 8.0})
    story.add(Kind.TAKE, "B", {"amount": 5.0})
    with pytest.raises(Held) as refused:
        story.state("B")
    assert re.search("“Spring” holds 8", sentence(refused.value))


def test_one_label_is_on_one_thing(story, sentence):
    """A second receipt under the same code is refused."""
    story.cut("C")
    story.bin("C")
    with pytest.raises(Conflict) as refused:
        story.state("C")
    assert re.search("already in use", sentence(refused.value))


def test_the_fold_does_not_depend_on_the_order_in_which_events_are_handed_over(story):
    """Events are ordered by their number."""
    story.cut()
    story.add(Kind.CUT_OFF, "C", {"length_mm": 1200.0})
    story.add(Kind.CUT_OFF, "C", {"left_mm": 1000.0})
    assert fold(reversed(story.events)) == fold(story.events)
    assert isinstance(story.state("C"), CutState)
