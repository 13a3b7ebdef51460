"""One act of a person is one event, and one undo takes back all of it."""

import pytest

from stash.errors import Conflict, NotEnough
from stash.ledger import Kind
from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline, Person, Plan
from stash.store import open_stash


@pytest.fixture
def stash(tmp_path):
    """Two cuts of 3 m and a bin of buttons."""
    with open_stash(tmp_path / "loft") as stash:
        yield stash


@pytest.fixture
def codes(stash):
    """The codes of the two cuts, and of the bin."""
    cuts = [
        stash.cuts.receive(Cut(
            code="", cloth=Cloth(name=name), outline=Outline.rectangle(3000, 1400))).code
        for name in ("Dune", "Moss")
    ]
    notion = Notion(kind=NotionKind.BUTTON, name="Shell", size_mm=11.4)
    return (*cuts, stash.bins.receive(Bin(code="", notion=notion, amount=20)).code)


def whole(stash):
    """That the tables are what the events add up to."""
    return stash.ledger.cached() == stash.ledger.replay()


def test_changes_of_one_kind_are_one_event_of_that_kind(stash, codes):
    """Three things carried to one shelf."""
    before = stash.ledger.cached()
    with stash.act():
        for code in codes[:2]:
            stash.cuts.move(code, "Shelf 2")
        event = stash.bins.move(codes[2], "Shelf 2")

    newest = stash.ledger.latest()[0]
    assert (newest.id, newest.kind, set(newest.change)) == (event.id, Kind.MOVE, set(codes))
    assert whole(stash)
    stash.ledger.undo(event.id)
    assert stash.ledger.cached() == before


def test_changes_of_different_kinds_are_one_event_too(stash, codes):
    """A cut measured, cut off twice and moved, and a person: undone and done again as one."""
    before, count = stash.ledger.cached(), len(list(stash.ledger.events()))
    with stash.act():
        stash.cuts.remeasure(codes[0], Outline.rectangle(2800, 1390))
        stash.cuts.cut_off(codes[0], 300)
        stash.cuts.cut_off(codes[0], 200)
        assert stash.cuts.get(codes[0]).length_mm == 2300
        stash.people.save(Person(name="Odile Farrant", measurements_mm={"hip": 980}))
        last = stash.cuts.move(codes[1], "Shelf 3")
    after = stash.ledger.cached()

    assert len(list(stash.ledger.events())) == count + 1
    assert stash.ledger.event(last.id).kind is Kind.SEVERAL
    assert whole(stash)
    undo = stash.ledger.undo(last.id)
    assert stash.ledger.cached() == before
    stash.ledger.undo(undo.id)
    assert stash.ledger.cached() == after
    assert whole(stash)


def test_an_act_that_fails_half_way_leaves_nothing(stash, codes):
    """The first change is taken back with the second, which could not be."""
    before, count = stash.ledger.cached(), len(list(stash.ledger.events()))
    with pytest.raises(NotEnough), stash.act():
        stash.cuts.cut_off(codes[0], 500)
        stash.cuts.cut_off(codes[1], 5000)

    assert stash.ledger.cached() == before
    assert len(list(stash.ledger.events())) == count
    stash.cuts.cut_off(codes[0], 100)
    assert whole(stash)


def test_an_act_with_a_token_seen_before_records_nothing_more(stash, codes):
    """Also for the changes in it that have no token of their own."""
    for _ in range(2):
        with stash.act("tap-tap-tap"):
            stash.cuts.cut_off(codes[0], 500)
            stash.cuts.cut_off(codes[1], 700)

    assert stash.cuts.get(codes[0]).length_mm == 2500
    assert stash.cuts.get(codes[1]).length_mm == 2300


def test_an_arrival_in_an_act_is_told_as_an_arrival(stash):
    """Codes that an act brought in are known by it."""
    with stash.act():
        code = stash.cuts.receive(Cut(
            code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(900, 900))).code
        stash.cuts.move(code, "Shelf 1")
        event = stash.plans.save(Plan(name="Winter"))

    assert stash.ledger.event(event.id).arrivals == (code,)


def test_a_token_used_again_for_something_else_says_so(stash, codes):
    """The same form twice is once; another content under the same token is not recorded."""
    first = stash.cuts.cut_off(codes[0], 500, "token-of-a-form~aa11")
    assert stash.cuts.cut_off(codes[0], 500, "token-of-a-form~aa11") == first

    with pytest.raises(Conflict, match=rf"form_recorded_before\(entry={first.id}\)"):
        stash.cuts.cut_off(codes[0], 900, "token-of-a-form~bb22")

    assert stash.cuts.get(codes[0]).length_mm == 2500


def test_what_was_recorded_here_is_known_also_after_a_failure(stash, codes):
    """So that a message can say it: what was rolled back does not count."""
    first = stash.cuts.cut_off(codes[0], 500)
    with pytest.raises(NotEnough), stash.together():
        stash.cuts.cut_off(codes[0], 500)
        stash.cuts.cut_off(codes[1], 5000)

    assert stash.ledger.recorded_here()[-1] == first.id


def test_the_history_tells_an_act_step_by_step(web_client, web_stash):
    """One line with one Undo, which says all that it takes back."""
    code = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400))).code
    with web_stash.act():
        web_stash.cuts.wash(code)
        web_stash.cuts.cut_off(code, 300)

    page = web_client.get(f"/c/{code}").text

    assert "Washed; Cut off: 30 cm" in page


def test_two_facts_of_a_cut_changed_on_one_page_are_one_entry(web_client, web_stash):
    """Her name for the cloth, and what it is kept for."""
    code = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400))).code
    before, count = web_stash.ledger.cached(), len(list(web_stash.ledger.events()))

    web_client.post(f"/cuts/{code}/facts", data={
        "name": "Dune linen", "construction": "woven", "keep_for": "the tent",
        "token": "two-facts-at-once"})

    assert web_stash.cuts.get(code).keep_for == "the tent"
    assert len(list(web_stash.ledger.events())) == count + 1
    web_stash.ledger.undo(web_stash.ledger.latest()[0].id)
    assert web_stash.ledger.cached() == before
