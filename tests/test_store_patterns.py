"""Her own patterns are kept in every version, exactly."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import InvalidInput, NotFound
from stash.model import (
    Closure,
    ClothWants,
    Construction,
    Need,
    NotionKind,
    Pattern,
    Piece,
    Role,
    Seam,
)
from stash.model.exact import from_plain, to_plain
from stash.store import open_stash

PIECE = Piece(
    name="front", outline_mm=((0.1, 0.2), (700.3, 0.0), (1 / 3, 310.0)), quantity=2,
    mirrored_pair=True, role=Role.CONTRAST, marks_mm=(((1.0, 2.0), (3.0, 4.0)),),
)
PATTERN = Pattern(
    garment="apron", pieces=(PIECE,),
    notions=(Need(kind=NotionKind.TAPE, why="ties", length_mm=1800.0, size_mm=(20.0, 25.0, 30.0)),),
    seams=(Seam("side", 700.0, "504"),),
    wants=ClothWants(constructions=(Construction.WOVEN, Construction.KNIT)),
    closure=Closure(length_mm=600.0, bust_mm=200.0, overlap_mm=15.0, first_mm=10.0, last_mm=590.0),
    measurements_mm={"hip": 1000.0}, options={"pockets": "patch", "length": 900.0},
)


@pytest.fixture
def stash(tmp_path):
    """An empty stash of its own."""
    with open_stash(tmp_path) as stash:
        yield stash


def test_a_pattern_comes_back_exactly(stash):
    """Every field of every part, to the last bit."""
    stash.patterns.save("Wharf apron", PATTERN, source="traced from photographs")
    kept = stash.patterns.kept("wharf APRON")
    assert kept.pattern == PATTERN
    assert (kept.name, kept.version, kept.source) == ("Wharf apron", 1, "traced from photographs")


@given(
    st.lists(
        st.tuples(st.floats(allow_nan=False, allow_infinity=False), st.floats(-1e6, 1e6)),
        min_size=3, max_size=6,
    )
)
def test_no_number_loses_a_bit(points):
    """Plain JSON and back gives the same piece."""
    piece = Piece(name="p", outline_mm=tuple(points))
    assert from_plain(Piece, to_plain(piece)) == piece


def test_a_new_version_leaves_the_old_one(stash):
    """The newest is meant unless one is named."""
    wider = Pattern(garment="apron", pieces=(PIECE, PIECE))
    stash.patterns.save("Apron", PATTERN)
    stash.patterns.save("apron", wider)
    assert stash.patterns.get("Apron") == wider
    assert stash.patterns.get("Apron", 1) == PATTERN
    assert [k.version for k in stash.patterns.versions("Apron")] == [1, 2]
    assert [k.version for k in stash.patterns.all()] == [2]


def test_names_that_begin_alike_are_kept_apart(stash):
    """“Apron”, “Apron, long” and even “Apron/1” have versions of their own."""
    for name in ("Apron/1", "Apron, long", "Apron"):
        stash.patterns.save(name, PATTERN)
    assert [k.version for k in stash.patterns.all()] == [1, 1, 1]


def test_the_number_of_an_undone_version_is_not_given_out_again(stash):
    """Redo brings version 2 back beside version 3."""
    stash.patterns.save("Apron", PATTERN)
    undo = stash.ledger.undo(stash.patterns.save("Apron", PATTERN).id)
    stash.patterns.save("Apron", PATTERN)
    stash.ledger.undo(undo.id)
    assert [k.version for k in stash.patterns.versions("Apron")] == [1, 2, 3]


def test_a_removed_pattern_is_gone_until_the_undo(stash, sentence):
    """All its versions go and come together."""
    stash.patterns.save("Apron", PATTERN)
    stash.patterns.save("Apron", PATTERN)
    event = stash.patterns.remove("Apron")
    with pytest.raises(NotFound) as refused:
        stash.patterns.get("Apron")
    assert re.search("none yet", sentence(refused.value))
    stash.ledger.undo(event.id)
    assert len(stash.patterns.versions("Apron")) == 2


def test_a_pattern_has_a_name_and_a_piece(stash):
    """Nothing else can be laid."""
    with pytest.raises(InvalidInput):
        stash.patterns.save(" ", PATTERN)
    with pytest.raises(InvalidInput):
        stash.patterns.save("Empty", Pattern(garment="x", pieces=()))
