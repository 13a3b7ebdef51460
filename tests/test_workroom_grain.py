"""Where the grain of a traced remnant runs: asked, pointed out, and laid along."""

import pytest

from stash.errors import Conflict
from stash.ledger import CutHold
from stash.model import Cloth, Cut, Outline, Plan
from stash.store import open_stash
from stash.workroom.cuts import traced
from stash.workroom.grain import GrainBy, grain_is_presumed, straight_edges, turn_grain
from stash.workroom.history import undo


@pytest.fixture
def stash(tmp_path):
    """An empty record."""
    with open_stash(tmp_path) as opened:
        yield opened


@pytest.fixture
def code(stash):
    """A strip 30 cm along the grain and 90 cm across, traced with no card: it lies turned."""
    code = stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune linen"), outline=Outline.rectangle(300.0, 900.0))).code
    traced(stash, code, Outline.rectangle(900.0, 300.0), 2.0, grain=GrainBy.LONGEST)
    return code


def test_a_traced_strip_is_asked_about_and_turned(stash, code):
    """A quarter turn lays it 30 along and 90 across, as it was cut from the cloth."""
    assert grain_is_presumed(stash, code)
    done = turn_grain(stash, code, 90.0)
    cut = done.now.cut
    assert (cut.length_mm, cut.width_mm) == (pytest.approx(300.0), pytest.approx(900.0))
    assert not grain_is_presumed(stash, code)
    undo(stash, done.event.id)
    assert stash.cuts.get(code).length_mm == pytest.approx(900.0)
    assert grain_is_presumed(stash, code)


def test_the_selvedge_pointed_at_lies_lengthwise(stash, code):
    """Whatever edge is the selvedge, it runs along the drawing afterwards; the area stays."""
    slanted = Outline(((0.0, 0.0), (600.0, 200.0), (500.0, 700.0), (-100.0, 500.0)))
    traced(stash, code, slanted, grain=GrainBy.LONGEST)
    edge = straight_edges(stash.cuts.get(code).outline)[0]
    turn_grain(stash, code, edge.turn_deg, by=GrainBy.SELVEDGE)
    after = stash.cuts.get(code).outline
    assert any(abs(found.turn_deg) < 0.01 and found.length_mm == pytest.approx(edge.length_mm)
               for found in straight_edges(after))
    assert after.area_mm2 == pytest.approx(slanted.area_mm2)


def test_right_as_it_lies_is_an_answer_too(stash, code):
    """Turned by nothing: the question is answered, the outline stays."""
    turn_grain(stash, code, 0.0)
    assert not grain_is_presumed(stash, code)
    assert stash.cuts.get(code).length_mm == pytest.approx(900.0)


def test_cloth_that_a_plan_holds_is_not_turned(stash, code):
    """Its lay was made for the outline as it was."""
    stash.plans.save(Plan(name="Tunic"))
    stash.plans.hold("Tunic", cuts={code: CutHold(plan="", from_mm=0.0, to_mm=100.0)})
    with pytest.raises(Conflict):
        turn_grain(stash, code, 90.0)
