"""Looking back reads sums; they say what all events say, whatever happened since they were made."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.errors import StashError
from stash.ledger import Kind
from stash.ledger.flows import flows
from stash.model import Cloth, Cut, FibreShare, Outline
from stash.store import open_stash
from stash.workroom import cuts
from stash.workroom.report import By, bring_up, report
from stash.workroom.stock_groups import GroupedBy, stock_groups

LINEN = Cloth(name="Dune linen", fibres=(FibreShare("linen", 100.0),), colours=("#c9b691",),
              price_minor_per_m=2000, shrink_along_pct=5.0, mass_gsm=150.0)
DAY = date(2026, 5, 1)


@pytest.fixture
def stash(tmp_path):
    """An empty stash."""
    with open_stash(tmp_path / "loft") as stash:
        yield stash


def comes_in(stash, cloth=LINEN, length_mm=3000.0):
    """The code of a new cut, 1.4 m wide, unwashed."""
    return stash.cuts.receive(
        Cut(code="", cloth=cloth, outline=Outline.rectangle(length_mm, 1400.0))).code


def told(stash):
    """Everything that looking back tells."""
    return ([report(stash, by) for by in By],
            [stock_groups(stash, by, DAY) for by in GroupedBy])


def told_from_nothing(stash):
    """The same with the sums thrown away first."""
    stash.turnover.path.unlink()
    return told(stash)


def used_mm(stash):
    """Cloth used, from the sums and from every event."""
    rows = sum(row.mm.get("used", 0.0) for row in report(stash).rows)
    return rows, sum(f.mm for f in flows(stash.ledger.events()) if f.way == "used")


ACTS = {
    "comes in": lambda stash, code, n: comes_in(stash, length_mm=500.0 + 10 * n),
    "cut off": lambda stash, code, n: stash.cuts.cut_off(code, 10.0 * n),
    "cut out": lambda stash, code, n: stash.cuts.cut_out(
        code, Outline.rectangle(200.0, 1000.0), waste_mm2=100.0 * n, plan="Tunic",
        remnants=[(None, Outline.rectangle(20.0 * n, 300.0))]),
    "wash": lambda stash, code, n: stash.cuts.wash(code),
    "sell": lambda stash, code, n: cuts.sell(stash, code, 100 * n),
    "joined": lambda stash, code, n: cuts.join(
        stash, code, comes_in(stash), 1000.0, 1400.0),
    "another price": lambda stash, code, n: stash.cloths.correct(code, replace(
        stash.cuts.get(code).cloth, price_minor_per_m=10 * n, mass_gsm=100.0 + n,
        fibres=(FibreShare(("linen", "cotton")[n % 2], 100.0),))),
    "acquired": lambda stash, code, n: stash.cuts.correct(code, acquired=f"20{10 + n % 9}"),
    "measured": lambda stash, code, n: stash.cuts.remeasure(
        code, Outline.rectangle(100.0 + 30 * n, 1400.0)),
    "undone": lambda stash, code, n: stash.ledger.undo(
        stash.ledger.latest(12)[n % min(12, stash.ledger.newest())].id),
}


@settings(max_examples=10, deadline=None)
@given(steps=st.lists(
    st.tuples(st.sampled_from(sorted(ACTS)), st.integers(1, 40), st.booleans()),
    min_size=6, max_size=15))
def test_sums_brought_up_equal_those_made_from_nothing(steps, tmp_path_factory):
    """To the last figure: after any acts and undos, and looked at in between or not."""
    with open_stash(tmp_path_factory.mktemp("loft") / "stash") as stash:
        for n in range(3):
            comes_in(stash, replace(LINEN, name=f"Linen {n % 2}"))
        told(stash)
        for act, n, looked_at in steps:
            codes = [cut.code for cut in stash.cuts.all()] or [comes_in(stash)]
            try:
                ACTS[act](stash, codes[n % len(codes)], n)
            except StashError:
                continue  # what cannot be is not part of this
            if looked_at:
                told(stash)
        assert told(stash) == told_from_nothing(stash)
        kept, folded = used_mm(stash)
        assert kept == pytest.approx(folded, abs=0.1)


def test_undoing_what_was_summed_long_ago_takes_it_off(stash):
    """And undoing the undo puts it back."""
    code = comes_in(stash)
    off = stash.cuts.cut_off(code, 500.0)
    for _ in range(20):
        comes_in(stash)
    assert used_mm(stash) == (500.0, 500.0)
    undo = stash.ledger.undo(off.id)
    assert used_mm(stash) == (0.0, 0.0)
    stash.ledger.undo(undo.id)
    assert used_mm(stash) == (500.0, 500.0)


def test_the_price_of_today_is_that_of_every_month(stash):
    """Money is reckoned at the cloth's price as it is on record now."""
    code = comes_in(stash)
    assert report(stash).rows[0].bought_minor == 6000
    stash.cloths.correct(code, replace(LINEN, price_minor_per_m=1000))
    assert report(stash).rows[0].bought_minor == 3000


def test_a_record_of_another_life_is_summed_anew(stash, tmp_path):
    """Sums that came from events which this record never had are thrown away."""
    for _ in range(8):
        comes_in(stash)
    told(stash)
    kept = stash.turnover.path.read_bytes()
    with open_stash(tmp_path / "other") as other:
        for _ in range(8):
            comes_in(other, length_mm=1000.0)
        other.turnover.path.write_bytes(kept)
        assert report(other).here_mm == 8000.0


@pytest.mark.parametrize("broken", [b"", b"SQLite format 3\0", b"no database at all" * 500])
def test_a_damaged_file_of_sums_costs_nothing_but_time(stash, broken):
    """It is no part of the record: it is made anew."""
    comes_in(stash)
    told(stash)
    stash.turnover.path.write_bytes(broken)
    assert report(stash).here_mm == 3000.0


def test_where_nothing_can_be_written_it_is_told_all_the_same(stash):
    """The sums are then made in memory, for once."""
    comes_in(stash)
    stash.turnover.path.mkdir()
    assert report(stash).here_mm == 3000.0


def test_a_remnant_is_untouched_since_it_was_cut_and_a_cut_since_it_was_bought(stash):
    """Unless something was taken from it later."""
    code = comes_in(stash)
    stash.cuts.correct(code, acquired="2019-05-01")
    assert [one.since for one in report(stash).idle] == ["2019-05-01"]
    today = stash.cuts.cut_out(code, Outline.rectangle(1000.0, 1400.0), remnants=[
        (None, Outline.rectangle(400.0, 300.0))]).at[:10]
    assert [one.since for one in report(stash).idle] == [today, today]


def test_it_is_known_how_much_is_to_be_read_before_it_is_read(stash):
    """Everything where there are no sums or none of use; else what happened since."""
    for _ in range(8):
        comes_in(stash)
    assert stash.turnover.unread() == 8
    told(stash)
    assert stash.turnover.unread() == 0
    comes_in(stash)
    assert stash.turnover.unread() == 1
    stash.turnover.path.write_bytes(b"no database at all" * 500)
    assert stash.turnover.unread() == 9


def test_how_far_the_summing_up_is_can_be_followed(stash, monkeypatch):
    """In events, of all there are."""
    monkeypatch.setattr("stash.store.turnover.turnover.TOLD_EACH", 3)
    for _ in range(7):
        comes_in(stash)
    steps = []
    bring_up(stash, lambda done, total: steps.append((done, total)))
    assert steps == [(0, 7), (3, 7), (6, 7)]


def test_a_second_look_reads_no_event_at_all(stash, monkeypatch):
    """Sums alone, however long the history is."""
    comes_in(stash)
    before = told(stash)
    for reading in ("events", "touching", "undos"):
        monkeypatch.setattr(stash.ledger, reading, lambda *_given: 1 / 0)
    assert told(stash) == before


def test_only_what_is_new_is_folded(stash, monkeypatch):
    """One more event in a long history is looked at with those of its own cut alone."""
    codes = [comes_in(stash) for _ in range(30)]
    told(stash)
    stash.cuts.cut_off(codes[0], 100.0)
    seen = []
    everything = stash.ledger.events
    monkeypatch.setattr(stash.ledger, "events", lambda after=0: seen.append(after) or everything(
        after))
    assert report(stash).here_mm == 30 * 3000.0 - 100.0
    assert seen == [30]
    assert Kind.CUT_OFF in {event.kind for event in stash.ledger.touching([codes[0]])}
