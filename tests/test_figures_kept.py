"""The better figure stays on record until someone says that another shall replace it."""

from __future__ import annotations

import pytest

from stash.errors import Conflict
from stash.model import Bin, Cloth, Cut, Notion, NotionKind
from stash.model.measured import Measured, Origin
from stash.model.outline import Outline
from stash.store import open_stash
from stash.workroom.figures import figure_of
from stash.workroom.weighing import record_amount, record_length


@pytest.fixture
def stash(tmp_path):
    """A stash of its own."""
    with open_stash(tmp_path) as opened:
        yield opened


@pytest.fixture
def taped(stash):
    """The code of a cut of 2 m, measured by the tape."""
    cloth = Cloth(name="Sailcloth", mass_gsm=180)
    cut = Cut(code="", cloth=cloth, outline=Outline.rectangle(2000.0, 1400.0))
    return stash.cuts.receive(cut).code


def by_weight(value, error):
    """A figure that the scale gave."""
    return Measured(value=value, error=error, origin=Origin.WEIGHED)


@pytest.mark.parametrize("length, kind", [
    (2050.0, "better_on_record"), (1500.0, "better_on_record_differs")])
def test_a_weighed_length_does_not_replace_the_tapes_unless_told_to(stash, taped, length, kind):
    """The refusal says which is better, and whether the two agree; nothing is lost."""
    with pytest.raises(Conflict) as refused:
        record_length(stash, taped, by_weight(length, 110.0))

    assert refused.value.fact.kind == kind
    assert stash.cuts.get(taped).outline.length_mm == pytest.approx(2000)

    record_length(stash, taped, by_weight(length, 110.0), replace=True)
    assert stash.cuts.get(taped).outline.length_mm == pytest.approx(length)
    assert figure_of(stash, taped).origin is Origin.WEIGHED


def test_a_fresh_weighing_replaces_an_older_one(stash, taped):
    """However near their errors are: the newer one is of what is there now."""
    record_length(stash, taped, by_weight(1500.0, 50.0), replace=True)
    record_length(stash, taped, by_weight(1480.0, 60.0))

    assert stash.cuts.get(taped).outline.length_mm == pytest.approx(1480)


def test_buttons_counted_by_hand_are_not_replaced_by_weighed_ones(stash):
    """A count by hand has no error, a weighed one always has."""
    button = Notion(kind=NotionKind.BUTTON, name="Horn", size_mm=15.0)
    code = stash.bins.receive(Bin(code="", amount=40, notion=button)).code
    with pytest.raises(Conflict) as refused:
        record_amount(stash, code, by_weight(41.0, 2.0))

    assert refused.value.fact.kind == "better_on_record_number"
    assert stash.bins.get(code).amount == 40
