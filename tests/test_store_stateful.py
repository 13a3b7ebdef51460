"""Whatever happens in whatever order, the record adds up (a state machine plays at random)."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import Bundle, RuleBasedStateMachine, invariant, rule
from plain_recount import counts_of, things_in

from stash.errors import StashError
from stash.ledger import CutHold, fold
from stash.ledger.bites import Bite, End, LongSide
from stash.ledger.explained import explained
from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline, Plan
from stash.store import open_stash
from stash.store.counting import facet_counts
from stash.store.finding import CutQuery, worded

LENGTHS = st.floats(1.0, 4000.0)
COUNTS = st.integers(1, 30)


class Workroom(RuleBasedStateMachine):
    """Records things at random beside a plain tally of lengths and counts."""

    cuts = Bundle("cuts")
    bins = Bundle("bins")

    def __init__(self):
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        self.stash = open_stash(self.folder)
        self.stash.plans.save(Plan(name="Tour"))
        self.tally: dict[str, float] = {}
        self.tokens = 0

    def teardown(self):
        """Close and clear away."""
        self.stash.close()
        shutil.rmtree(self.folder)

    def attempt(self, change):
        """Do it twice with one token: it is recorded once, or refused without a trace.

        Then undo gives the exact state before, and redo the exact state after.
        """
        before, self.tokens = self.stash.ledger.cached(), self.tokens + 1
        token = f"t{self.tokens}"
        try:
            event = change(token)
        except StashError:
            assert self.stash.ledger.cached() == before
            return None
        assert change(token) == event
        after = self.stash.ledger.cached()
        if after != before:
            undo = self.stash.ledger.undo(event.id)
            assert self.stash.ledger.cached() == before
            self.stash.ledger.undo(undo.id)
            assert self.stash.ledger.cached() == after
        return event

    @rule(target=cuts, length=LENGTHS, shrink=st.integers(0, 8))
    def a_cut_comes_in(self, length, shrink):
        """A new cut of a cloth that may be on record already."""
        cloth = Cloth(name="Linen", shrink_along_pct=float(shrink))
        cut = Cut(code="", cloth=cloth, outline=Outline.rectangle(length, 1400.0))
        code = self.stash.cuts.receive(cut).code
        self.tally[code] = length
        return code

    @rule(target=bins, amount=COUNTS)
    def a_bin_comes_in(self, amount):
        """A new bin of buttons."""
        notion = Notion(kind=NotionKind.BUTTON, name="Shell")
        code = self.stash.bins.receive(Bin(code="", notion=notion, amount=amount)).code
        self.tally[code] = amount
        return code

    @rule(code=cuts, length=LENGTHS)
    def a_length_is_cut_off(self, code, length):
        """What is refused leaves the cut as it was."""
        if self.attempt(lambda token: self.stash.cuts.cut_off(code, length, token)):
            self.tally[code] -= length

    @rule(code=cuts, length=LENGTHS)
    def a_length_is_cut_off_the_near_end(self, code, length):
        """As much as off the far one."""
        if self.attempt(lambda token: self.stash.cuts.cut_off(code, length, token, end=End.NEAR)):
            self.tally[code] = self.stash.ledger.state(code).outline.length_mm

    @rule(code=cuts, end=st.sampled_from(End), edge=st.sampled_from(LongSide),
          length=st.floats(5, 300), width=st.floats(5, 500))
    def a_corner_is_bitten_off(self, code, end, edge, length, width):
        """The outline is not a rectangle any more."""
        bite = Bite(end=end, edge=edge, length_mm=length, width_mm=width)
        if self.attempt(lambda token: self.stash.cuts.bite(code, (bite,), token)):
            self.tally[code] = self.stash.ledger.state(code).outline.length_mm

    @rule(code=cuts, place=st.sampled_from((None, "Loft shelf 1", "Étagère 2")))
    def it_is_laid_elsewhere(self, code, place):
        """Or nobody knows where it is."""
        self.attempt(lambda token: self.stash.cuts.move(code, place, token))

    @rule(code=cuts)
    def it_is_lent_and_comes_back(self, code):
        """Meanwhile it is what it was."""
        if self.attempt(lambda token: self.stash.cuts.lend(code, "Bram", token)):
            self.attempt(lambda token: self.stash.cuts.back(code, token))

    @rule(code=cuts, share=st.floats(0.05, 1.0))
    def so_much_is_left(self, code, share):
        """The rest was used."""
        left = self.tally[code] * share
        if self.attempt(lambda token: self.stash.cuts.remains(code, left, token)):
            self.tally[code] = left

    @rule(code=cuts, share=st.floats(0.1, 0.9))
    def a_lay_is_cut_out(self, code, share):
        """Some is left, and a remnant with a label of its own."""
        left = Outline.rectangle(self.tally[code] * share, 1400.0)
        small = Outline.rectangle(150.0, 200.0)
        event = self.attempt(
            lambda token: self.stash.cuts.cut_out(code, left, token, remnants=[(None, small)])
        )
        if event:
            self.tally[code] = left.length_mm
            self.tally[event.arrivals[0]] = small.length_mm

    @rule(code=bins, amount=COUNTS)
    def some_are_taken(self, code, amount):
        """From a bin; more than there is changes nothing."""
        if self.attempt(lambda token: self.stash.bins.take(code, amount, token)):
            self.tally[code] -= amount

    @rule(code=bins, amount=COUNTS)
    def some_are_put_in(self, code, amount):
        """More of the same."""
        if self.attempt(lambda token: self.stash.bins.put(code, amount, token)):
            self.tally[code] += amount

    @rule(code=bins, amount=st.integers(0, 30))
    def a_bin_is_counted(self, code, amount):
        """The count is the truth."""
        if self.attempt(lambda token: self.stash.bins.count(code, amount, token)):
            self.tally[code] = amount

    @rule(code=cuts, share=st.floats(0.1, 1.0))
    def the_plan_holds_some_of_a_cut(self, code, share):
        """A stretch from the start of it."""
        hold = CutHold(plan="", from_mm=0.0, to_mm=self.tally[code] * share)
        self.attempt(lambda token: self.stash.plans.hold("Tour", cuts={code: hold}, token=token))

    @rule()
    def the_plan_gives_everything_up(self):
        """If it holds anything."""
        self.attempt(lambda token: self.stash.plans.release("Tour", token))

    @rule(code=cuts)
    def a_cut_is_washed(self, code):
        """Once only, and only while it is here."""
        if self.attempt(lambda token: self.stash.cuts.wash(code, token)):
            cloth = self.stash.cuts.card(code).cut.cloth
            self.tally[code] *= 1 - cloth.shrink_along_pct / 100

    @rule(number=st.integers(1, 60))
    def anything_is_undone(self, number):
        """Any event at all: the record still adds up, or nothing changed."""
        before = self.stash.ledger.cached()
        try:
            self.stash.ledger.undo(number)
        except StashError:
            assert self.stash.ledger.cached() == before
        for code in self.tally:
            state = self.stash.ledger.state(code)
            if state is not None:
                self.tally[code] = (
                    state.amount if hasattr(state, "amount") else state.outline.length_mm
                )

    @invariant()
    def what_is_kept_is_what_the_ledger_adds_up_to(self):
        """The tables equal a fold over all events."""
        assert self.stash.ledger.cached() == fold(self.stash.ledger.events())

    @invariant()
    def what_is_counted_is_what_a_plain_recount_finds(self):
        """Of every facet and of every place."""
        with worded(self.stash.ledger.db, CutQuery()) as here:
            counts = facet_counts(here, CutQuery())
        assert {name: +counted for name, counted in counts.items()} == counts_of(
            self.stash.cuts.cards(), CutQuery())
        assert self.stash.places.things() == things_in(self.stash)

    @invariant()
    def every_figure_explains_itself(self):
        """Lengths and areas of the steps add up; no use and no wash ever adds cloth."""
        for cut in self.stash.cuts.all():
            steps = explained(self.stash.ledger.history(cut.code), cut.code)
            assert abs(sum(s.length_mm for s in steps) - cut.length_mm) < 0.1 * len(steps)
            assert abs(sum(s.area_mm2 for s in steps) - cut.outline.area_mm2) < 2 * len(steps)
            assert all(s.area_mm2 <= 1 for s in steps[1:])

    @invariant()
    def the_tally_agrees_and_nothing_is_below_nothing(self):
        """Lengths and counts, reckoned beside the ledger."""
        for cut in self.stash.cuts.all():
            assert abs(cut.length_mm - self.tally[cut.code]) < 1e-6
            assert cut.length_mm > 0
        for held in self.stash.bins.all():
            assert held.amount == self.tally[held.code] >= 0


TestWorkroom = Workroom.TestCase
TestWorkroom.settings = settings(
    max_examples=20, stateful_step_count=30, deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
