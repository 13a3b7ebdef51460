"""What is counted and found in SQL is what one finds who looks at every cut, after any history."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from plain_recount import answers, counts_of, things_in

from stash.errors import StashError
from stash.ledger import CutHold
from stash.model import Bin, Cloth, Construction, Cut, FibreShare, Notion, NotionKind, Outline, Plan
from stash.store import open_stash
from stash.store.conditions import FACETS, LENGTHS_MM, WIDTH_BANDS
from stash.store.counting import facet_counts
from stash.store.finding import CutQuery, found_bins, found_cuts, worded

PLACES = (None, "Loft shelf 1", "Étagère 2", "  LOFT shelf 1")
FIBRES = ("flax", "cotton", "virgin wool", "wool")
COLOURS = ("#7a1f2b", "#1f3a7a", "#e6dcc4")
CLOTHS = st.builds(
    Cloth, name=st.sampled_from(["Dune", "Tide drill", "Écru nettle", "Blue tide"]),
    construction=st.sampled_from([Construction.WOVEN, Construction.KNIT, None]),
    mass_gsm=st.sampled_from([None, 60.0, 150.0, 185.0, 310.0, 900.0]),
    colours=st.lists(st.sampled_from(COLOURS), max_size=2).map(tuple),
    fibres=st.lists(st.sampled_from(FIBRES), max_size=2, unique=True).map(
        lambda names: tuple(FibreShare(name, 100.0 / len(names)) for name in names)),
)
CUTS = st.builds(
    Cut, code=st.just(""), cloth=CLOTHS, washed=st.booleans(), place=st.sampled_from(PLACES),
    outline=st.builds(Outline.rectangle, st.sampled_from([300.0, 500.0, 1499.9, 2000.0, 3500.0]),
                      st.sampled_from([400.0, 1000.0, 1249.0, 1430.0, 1600.0])),
)
HAPPENINGS = st.lists(st.tuples(
    st.sampled_from(["move", "cut off", "give", "wash", "hold", "correct", "undo", "receive"]),
    st.integers(0, 9), st.sampled_from(PLACES), CUTS), max_size=12)
CHOICES = {
    "fibre": FIBRES, "weight": ("light", "medium", "heavy"), "colour": ("red", "blue", "white"),
    "width": WIDTH_BANDS, "place": PLACES[1:], "washed": ("yes", "no"), "held": ("yes", "no"),
    "length": tuple(map(str, LENGTHS_MM)), "suits": ("shirt", "skirt", "leggings"),
}
QUERIES = st.builds(
    CutQuery, least_mm=st.sampled_from([0.0, 500.0, 1800.0]),
    words=st.sampled_from(["", "dune", "tide loft", "blue", "etag", "ecru", "loft"]),
    chosen=st.dictionaries(st.sampled_from(FACETS), st.integers(0, 9), max_size=3).map(
        lambda chosen: tuple((name, CHOICES[name][n % len(CHOICES[name])])
                             for name, n in chosen.items())),
)


def happen(stash, what, number, place, cut):
    """One thing, to one of the cuts there ever were; what is refused changes nothing."""
    codes = [code for (code,) in stash.ledger.db.execute("SELECT code FROM cut ORDER BY rowid")]
    code = codes[number % len(codes)]
    acts = {
        "move": lambda: stash.cuts.move(code, place),
        "cut off": lambda: stash.cuts.cut_off(code, 250.0),
        "give": lambda: stash.cuts.gift(code), "wash": lambda: stash.cuts.wash(code),
        "hold": lambda: stash.plans.hold("Tour", {
            code: CutHold(plan="", from_mm=0.0, to_mm=100.0)}),
        "correct": lambda: stash.cloths.correct(code, cut.cloth),
        "undo": lambda: stash.ledger.undo(stash.ledger.newest() - number),
        "receive": lambda: stash.cuts.receive(cut),
    }
    with suppress(StashError):
        acts[what]()


@settings(max_examples=30, deadline=None, suppress_health_check=[
    HealthCheck.too_slow, HealthCheck.function_scoped_fixture])
@given(cuts=st.lists(CUTS, min_size=1, max_size=6), happenings=HAPPENINGS,
       queries=st.lists(QUERIES, min_size=1, max_size=4))
def test_counts_equal_a_plain_recount_after_any_history(
        tmp_path_factory, cuts, happenings, queries):
    """Of every facet, for any choices and words; and so do the sums, the page and the places."""
    with open_stash(tmp_path_factory.mktemp("loft")) as stash:
        stash.plans.save(Plan(name="Tour"))
        for cut in cuts:
            stash.cuts.receive(cut)
        for happening in happenings:
            happen(stash, *happening)
        cards = stash.cuts.cards()
        for query in (CutQuery(), *queries):
            with worded(stash.ledger.db, query) as here:
                found, counts = found_cuts(here, query, 0, 50), facet_counts(here, query)
            expected = [card.cut for card in cards if answers(card, query)]
            assert set(found.codes) == {cut.code for cut in expected}
            assert (found.count, found.longest_mm) == (
                len(expected), max((cut.length_mm for cut in expected), default=0.0))
            assert found.total_mm == pytest.approx(sum(cut.length_mm for cut in expected))
            assert {name: +counted for name, counted in counts.items()} == counts_of(cards, query)
        assert stash.places.things() == things_in(stash)


@pytest.fixture(scope="module")
def tins(tmp_path_factory):
    """Four bins, one of them gone, with a name in large letters that are not plain ones."""
    with open_stash(tmp_path_factory.mktemp("tins")) as stash:
        for name, kind, size, colour, place, material in (
            ("STRASSKNÖPFE Écru", NotionKind.BUTTON, 12.0, "#e6dcc4", "Tin row A", "glass"),
            ("Limpet", NotionKind.BUTTON, 15.0, "#1f3a7a", "Étagère 2", "buffalo horn"),
            ("Barge", NotionKind.ZIP, 200.0, "#7a1f2b", None, ""),
            ("Limpet gone", NotionKind.BUTTON, 15.0, "", "Tin row A", "horn"),
        ):
            stash.bins.receive(Bin(code="", amount=3, place=place, notion=Notion(
                kind=kind, name=name, size_mm=size, colour=colour, material=material)))
        stash.bins.gift(next(b.code for b in stash.bins.all() if b.notion.name == "Limpet gone"))
        yield stash


@pytest.mark.parametrize(("typed", "names"), [
    ("", "Barge Limpet STRASSKNÖPFE"), ("knöpf", "STRASSKNÖPFE"), ("ecru", "STRASSKNÖPFE"),
    ("orn", "Limpet"), ("tagère", "Limpet"), ("etag", "Limpet"), ("blau", "Limpet"),
    ("20 cm", "Barge"), ("button", "Limpet STRASSKNÖPFE"), ("Knopf glas", "STRASSKNÖPFE"),
    ("horn tin", ""), ("limp gone", ""), ("100%", ""),
])
def test_bins_are_found_by_parts_of_words_wherever_they_stand(tins, typed, names):
    """In the name, the material, the kind, the colour, the place and the size as it is said."""
    found = found_bins(tins.ledger.db, typed, lambda mm: f"{mm / 10:g} cm")

    assert {tins.bins.get(code).notion.name.split()[0] for code in found} == set(names.split())
    assert all(tins.bins.get(code).notion.kind == kind for code, kind in found.items())


def test_a_bin_is_found_by_a_part_of_its_code(tins):
    """However it is typed."""
    code = tins.bins.all()[0].code

    assert code in found_bins(tins.ledger.db, code[2:].lower())
