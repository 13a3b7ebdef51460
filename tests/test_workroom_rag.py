"""Rag by weight, and the lays of the record beside the published range."""

import pytest

from stash.ledger import CutHold
from stash.model import Cloth, Cut, Laid, Lay, Outline, Piece, Placement, Plan
from stash.store import open_stash
from stash.workroom import settings
from stash.workroom.cutting import cut_plan
from stash.workroom.rag import rag_of
from stash.workroom.report import published, report


@pytest.fixture
def stash(tmp_path):
    """A panel of 900 x 900 laid on 1000 x 1000 of a cloth of 200 g/m2, held by a plan."""
    with open_stash(tmp_path) as opened:
        code = opened.cuts.receive(Cut(
            code="", cloth=Cloth(name="Drill", mass_gsm=200.0),
            outline=Outline.rectangle(1000.0, 1000.0))).code
        opened.plans.save(Plan(name="Panel"))
        panel = Piece(
            name="panel", outline_mm=((0, 0), (900, 0), (900, 900), (0, 900)), quantity=1)
        lay = Lay(placements=(Placement(piece="panel#1", x_mm=0.0, y_mm=0.0),),
                  length_mm=900.0, width_mm=1000.0, utilisation=0.9)
        laid = Laid(cut=opened.cuts.get(code), lay=lay, pieces=(panel,))
        opened.plans.hold("Panel", cuts={code: CutHold(
            plan="", from_mm=0.0, to_mm=900.0, laid=laid)})
        yield opened


def test_what_is_too_small_is_rag_by_area_and_weight(stash):
    """An L of 10 cm takes no circle of 15 cm: 0.19 m2 at 200 g/m2 weigh 38 g."""
    events = cut_plan(stash, "Panel")
    rag = rag_of(stash, events)
    assert rag.area_mm2 == pytest.approx(190_000.0)
    assert rag.mass_g == pytest.approx(38.0)
    [lay] = report(stash).lays
    assert lay.rag_g == pytest.approx(38.0)
    assert sum(row.rag_g for row in report(stash).rows) == pytest.approx(38.0)


def test_the_size_she_sets_decides_what_is_rag(stash):
    """From 5 cm on the same L is kept, and there is no rag."""
    settings.change(stash, {"remnant_mm": "5 cm"})
    assert rag_of(stash, cut_plan(stash, "Panel")).area_mm2 == pytest.approx(0.0, abs=1.0)


def test_a_lay_stands_beside_the_published_range(stash):
    """90 % of a lay in pieces is more than home layouts give: 65 to 78 % (common practice, no
    source); the industry's goal for wovens is 80 to 85 % (garmentprocess.com)."""
    cut_plan(stash, "Panel")
    found = report(stash)
    assert [lay.against for lay in found.lays] == ["above"]
    assert [(one.least_pct, one.most_pct) for one in published()[:2]] == [(65, 78), (80, 85)]
    assert all(one.status for one in found.published)
