"""Looking back: what came in, less what was used, lost and given away, is what is here."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.ledger import CutHold
from stash.ledger.bites import Bite, End, LongSide
from stash.model import Cloth, Cut, FibreShare, Lay, Outline, Person, Piece, Placement, Plan
from stash.model.plan import PlannedGarment
from stash.model.wire import lay_json, piece_json
from stash.store import open_stash
from stash.workroom import cuts
from stash.workroom.cutting import cut_plan
from stash.workroom.report import By, report

LINEN = Cloth(name="Dune linen", fibres=(FibreShare(fibre="linen", percent=100.0),),
              price_minor_per_m=2000, shrink_along_pct=5.0)
COTTON = Cloth(name="Drill", fibres=(FibreShare(fibre="cotton", percent=100.0),))
PANEL = Piece(name="panel", outline_mm=((0, 0), (600, 0), (600, 1000), (0, 1000)), quantity=1)


@pytest.fixture
def stash(tmp_path):
    """An empty stash."""
    with open_stash(tmp_path / "loft") as stash:
        yield stash


def comes_in(stash, cloth, length_mm, washed=True):
    """The code of a cut of that cloth, 1.4 m wide."""
    outline = Outline.rectangle(length_mm, 1400.0)
    return stash.cuts.receive(Cut(code="", cloth=cloth, outline=outline, washed=washed)).code


def running_mm(stash):
    """What is here, reckoned from the cuts alone: they all came in 1.4 m wide."""
    return sum(cut.outline.area_mm2 for cut in stash.cuts.all()) / 1400.0


def test_metres_and_money_of_a_year(stash):
    """3 m bought at 20 a metre; 50 cm cut off, 5 % lost in the wash of what was left."""
    code = comes_in(stash, LINEN, 3000.0, washed=False)
    cuts.cut_off(stash, code, 500.0)
    cuts.wash(stash, code)
    gone = comes_in(stash, COTTON, 1000.0)
    cuts.sell(stash, gone, 700)

    by_fibre = {row.key: row for row in report(stash, By.FIBRE).rows}
    linen, cotton = by_fibre["linen"], by_fibre["cotton"]
    assert linen.mm == pytest.approx({"in": 3000.0, "used": 500.0, "lost": 125.0})
    assert (linen.bought_minor, linen.used_minor) == (6000, 1000)
    assert (cotton.mm["away"], cotton.sold_minor) == (1000.0, 700)
    assert report(stash).here_mm == pytest.approx(running_mm(stash))


def test_a_lay_that_was_cut_is_told_with_its_waste_and_its_plan(stash):
    """One panel of 60 x 100 cm out of 1 m x 1.4 m: its strip is a remnant, not used."""
    stash.people.save(Person(name="Ada Wren", measurements_mm={"hip": 1000.0}))
    stash.plans.save(Plan(name="Tunic", garments=(
        PlannedGarment(garment="tunic", person="Ada Wren", options={}),)))
    code = comes_in(stash, LINEN, 1000.0)
    lay = Lay(placements=(Placement(piece="panel#1", x_mm=0.0, y_mm=0.0),), length_mm=600.0,
              width_mm=1400.0, utilisation=0.714)
    plain = {**lay_json(lay), "pieces": [piece_json(PANEL)]}
    stash.plans.hold("Tunic", cuts={code: CutHold(plan="", from_mm=0, to_mm=600.0, lay=plain)})
    cut_plan(stash, "Tunic")

    told = report(stash, By.PERSON)
    (lay_told,) = told.lays
    assert (lay_told.plan, lay_told.utilisation) == ("Tunic", 0.714)
    used = 600 * 1000 / 1400
    assert {row.key: row.mm.get("used", 0) for row in told.rows}["Ada Wren"] == pytest.approx(used)
    assert told.here_mm == pytest.approx(running_mm(stash))


def test_the_table_opens_in_a_spreadsheet_and_holds_no_formula(stash):
    """A fibre of a strange name is text there."""
    comes_in(stash, COTTON, 1000.0)
    stash.plans.save(Plan(name="=1+1"))
    code = comes_in(stash, LINEN, 1000.0)
    cuts.cut_off(stash, code, 100.0, use=cuts.Use(plan="=1+1"))
    rows = list(csv.DictReader(io.StringIO(report(stash, By.PLAN).csv())))
    assert {row["key"] for row in rows} == {"", "'=1+1"}
    assert float(rows[1]["used_mm"]) == 100.0


@settings(max_examples=15, deadline=None)
@given(steps=st.lists(st.tuples(st.integers(0, 5), st.floats(10, 400)), max_size=8))
def test_what_came_in_less_what_went_is_what_is_here(steps, tmp_path_factory):
    """Whatever was done in whatever order; an undone step counts for nothing."""
    with open_stash(tmp_path_factory.mktemp("loft") / "stash") as stash:
        code = comes_in(stash, LINEN, 6000.0, washed=False)
        for what, mm in steps:
            _happens(stash, code, what, mm)
        assert report(stash).here_mm == pytest.approx(running_mm(stash), rel=1e-6, abs=0.1)


def _happens(stash, code, what, mm):
    corner = Bite(end=End.FAR, edge=LongSide.LEFT, length_mm=mm, width_mm=mm)
    acts = (
        lambda: stash.cuts.cut_off(code, mm, end=End.NEAR),
        lambda: stash.cuts.bite(code, (corner,)),
        lambda: stash.cuts.wash(code) if not stash.cuts.get(code).washed else None,
        lambda: comes_in(stash, COTTON, mm),
        lambda: stash.cuts.cut_out(
            code, Outline.rectangle(500.0, 700.0),
            remnants=[(None, Outline.rectangle(mm, 300.0))]),
        lambda: stash.ledger.undo(stash.ledger.latest(1)[0].id)
        if len(stash.cuts.all()) > 1 and stash.ledger.latest(1)[0].code == code else None,
    )
    try:
        acts[what]()
    except Exception as refused:  # noqa: BLE001 - what cannot be is not part of this
        assert "stash.errors" in type(refused).__module__
