"""The demo is a workroom one could believe in."""

import pytest

from stash.demo import fill
from stash.store import open_stash


@pytest.fixture
def loft(tmp_path):
    """A store filled with the Heron Loft."""
    with open_stash(tmp_path) as stash:
        yield stash, fill(stash)


def test_the_loft_owns_at_least_forty_cuts_and_forty_bins(loft):
    """Enough to be lost in without a record."""
    stash, made = loft

    assert len(made["cuts"]) == len(stash.cuts.all()) >= 40
    assert len(made["bins"]) == len(stash.bins.all()) >= 40
    assert {p.name for p in stash.people.all()} == set(made["people"])


def test_filling_twice_records_nothing_new(loft):
    """The second filling answers with the same codes and leaves the ledger as it was."""
    stash, made = loft
    before = len(list(stash.ledger.events()))

    assert fill(stash) == made
    assert len(list(stash.ledger.events())) == before


def test_it_holds_every_kind_of_cut_a_workroom_has(loft):
    """Whole lengths, remnants with a shape, a flaw, one-way cloth, a repeat, a knit."""
    cuts = loft[0].cuts.all()

    assert any(cut.outline.is_rectangle for cut in cuts)
    assert any(not cut.outline.is_rectangle and not cut.outline.holes_mm for cut in cuts)
    assert any(cut.outline.holes_mm for cut in cuts)
    assert any(cut.cloth.one_way for cut in cuts)
    assert any(cut.cloth.repeat for cut in cuts)
    assert {cut.cloth.construction.value for cut in cuts} >= {"woven", "knit"}


def test_every_cut_has_a_picture(loft):
    """A drawn swatch stands in for a photograph."""
    stash, made = loft

    assert all(stash.photos.of(code) for code in made["cuts"])
