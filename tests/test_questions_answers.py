"""Answers to act on: one number, one meaning; each cloth a line; the better cloth first."""

from __future__ import annotations

from pathlib import Path

import pytest

from stash.errors import NotFound
from stash.match.cloth.suitability import suit
from stash.match.fit.companion_cut import Beside, companion
from stash.match.fit.cut_verdicts import Impossible, NoneFound
from stash.match.strip_lays import Table
from stash.model import (
    Bin,
    Cloth,
    ClothWants,
    Construction,
    Cut,
    Notion,
    NotionKind,
    Outline,
    Person,
    Piece,
    Role,
)
from stash.sentences import Reader, say
from stash.store import Stash, open_stash
from stash.units import System
from stash.workroom.answer_lays import lays
from stash.workroom.questions.answer_json import fit_json
from stash.workroom.questions.fitting import Asking, ask_fit
from stash.workroom.questions.orders import orders_for
from stash.workroom.questions.plan_view import show_plan
from stash.workroom.questions.planning import add_plan, hold_lay

READER = Reader(System.METRIC)
QUICK = Asking(seconds=0.6)
WOVEN = Construction.WOVEN


@pytest.fixture
def stash(tmp_path: Path):
    """A child and nothing else."""
    with open_stash(tmp_path) as opened:
        opened.people.save(Person(name="Pip", body="children", measurements_mm={
            "hip": 700.0, "waist": 600.0, "chest": 660.0, "height": 1310.0}))
        yield opened


def receive(stash: Stash, name: str, mass: float, length_mm: float, **more) -> str:
    """A washed length of a woven cloth, 1.40 m wide; its code."""
    cloth = Cloth(name=name, construction=more.pop("construction", WOVEN), mass_gsm=mass, **more)
    return stash.cuts.receive(Cut(
        code="", cloth=cloth, washed=True, outline=Outline.rectangle(length_mm, 1400.0))).code


def ask(stash: Stash, *garments: str):
    """The answer for the child."""
    return ask_fit(stash, orders_for(stash, garments, ["Pip"]), QUICK)


def test_a_miss_is_told_by_one_number_the_same_in_sentence_json_and_rescues(stash: Stash):
    """What a change saves and what is then still short add up to what the cut is short by."""
    receive(stash, "Drill", 230, 400.0)

    answer = ask(stash, "shorts")

    (miss,) = answer.fit.misses
    assert isinstance(miss.verdict, Impossible | NoneFound)
    told = fit_json(answer, READER)["candidates"][0]
    assert told["verdict"]["short_mm"] == told["short_mm"] == miss.short_mm
    still = [r for r in answer.rescues if r.short_mm]
    assert all(r.saves_mm + r.short_mm == pytest.approx(miss.short_mm, abs=1e-6) for r in still)
    assert all(r.saves_mm >= miss.short_mm - 1e-6 for r in answer.rescues
               if r.fits and r.cut.outline.is_rectangle)


def test_a_proof_names_no_second_shortage(stash: Stash):
    """Why it cannot be is said in what is there and what is asked, not in what is missing."""
    receive(stash, "Drill", 230, 200.0)

    verdict = ask(stash, "shorts").fit.misses[0].verdict

    assert isinstance(verdict, Impossible)
    assert "more" not in say(verdict.told, READER)


def test_better_suited_cloth_comes_before_a_little_less_waste(stash: Stash):
    """Light poplin of just the right length, and drill with a metre to spare."""
    receive(stash, "Poplin", 125, 900.0)
    receive(stash, "Drill", 245, 1900.0)

    assert [c.cut.cloth.name for c in ask(stash, "shorts").fit.fits] == ["Drill", "Poplin"]


def test_jeans_cloth_of_12_to_14_ounces_is_good_for_trousers(stash: Stash):
    """407 to 475 g/m2 is 12 to 14 oz (denham glossary and heddels.com agree: most jeans)."""
    receive(stash, "Denim 10.8 oz", 365, 2500.0)
    receive(stash, "Denim 12 oz", 407, 2500.0)
    receive(stash, "Denim 14 oz", 474.7, 2500.0)
    receive(stash, "Denim 16 oz", 542, 2500.0)

    fits = {c.cut.cloth.name: [s.kind for s in c.suitability.soft]
            for c in ask(stash, "trousers").fit.fits}

    assert fits == {"Denim 10.8 oz": [], "Denim 12 oz": [], "Denim 14 oz": [],
                    "Denim 16 oz": ["rather_heavy"]}


def test_of_16_ounce_denim_it_is_said_that_the_tables_disagree(stash: Stash):
    """denimhunters.com calls 12 to 16 oz everyday jeans; denham glossary and heddels.com most
    jeans 12 to 14 oz; jeanzio.com 14 to 16 oz workwear. 20 oz is beyond all of them."""
    receive(stash, "Denim 14 oz", 474.7, 2500.0)
    receive(stash, "Denim 16 oz", 542.5, 2500.0)
    receive(stash, "Denim 17 oz", 576, 2500.0)

    notes = {c.cut.cloth.name: [s.kind for s in c.suitability.notes]
             for c in ask(stash, "trousers").fit.fits}

    assert notes == {"Denim 14 oz": [], "Denim 16 oz": ["tables_disagree_on_weight"],
                     "Denim 17 oz": []}


def test_cloth_of_unknown_making_is_judged_softly_and_asked_about():
    """Neither ruled out nor taken for woven."""
    blank = Cut(code="C", cloth=Cloth(name="?", mass_gsm=200), washed=True,
                outline=Outline.rectangle(2000, 1400))

    answer = suit(blank, ClothWants())

    assert answer.suits
    assert [reason.kind for reason in answer.soft] == ["construction_unknown"]


def test_every_kind_of_cloth_is_a_line_with_its_cut_its_reasons_and_its_lay(stash: Stash):
    """Main cloth and interfacing of a shirt; the interfacing lies on its own bin."""
    receive(stash, "Poplin", 120, 2500.0)
    stash.bins.receive(Bin(code="", amount=3000.0, notion=Notion(
        kind=NotionKind.INTERFACING, name="Soft iron-on", size_mm=900.0, mass_gsm=60,
        fusible=True)))

    answer = ask(stash, "shirt")

    lines = fit_json(answer, READER)["roles"]
    assert [line["role"] for line in lines][0] == "main"
    assert {line["role"] for line in lines} >= {"main", "interfacing"}
    assert all(line["lay"] and line["cut"] and line["pieces"] for line in lines)


def test_interfacing_is_held_as_notion_never_as_cut(stash: Stash):
    """Its bin is promised; only the cloth is held by its length."""
    code = receive(stash, "Poplin", 120, 2500.0)
    stash.bins.receive(Bin(code="", amount=3000.0, notion=Notion(
        kind=NotionKind.INTERFACING, name="Soft iron-on", size_mm=900.0, mass_gsm=60,
        fusible=True)))
    answer = ask(stash, "shirt")

    view, _event = hold_lay(stash, "summer", answer, code, QUICK)

    assert list(view.holdings.cuts) == [code]
    assert view.lays[code].role is Role.MAIN


def test_a_lining_of_known_weight_comes_before_one_nobody_weighed():
    """Fewer things said against it, then remnants, then the smallest."""
    main = Cut(code="M", cloth=Cloth(name="Wool", construction=WOVEN, mass_gsm=280), washed=True,
               outline=Outline.rectangle(3000, 1400))
    piece = Piece(name="lining", outline_mm=((0, 0), (500, 0), (500, 400), (0, 400)),
                  role=Role.LINING)

    def cut(code: str, mass: float | None, length: float) -> Cut:
        return Cut(code=code, washed=True, outline=Outline.rectangle(length, 1400),
                   cloth=Cloth(name=code, construction=WOVEN, mass_gsm=mass))

    line = companion(Beside(role=Role.LINING, pieces=(piece,)), main,
                     [cut("UNWEIGHED", None, 600), cut("LINING", 75, 2000)], Table())

    assert line.cut.code == "LINING"


def test_holding_a_lay_that_is_not_in_the_answer_says_so(stash: Stash):
    """No crash for a name that means nothing."""
    receive(stash, "Drill", 230, 1500.0)
    answer = ask(stash, "shorts")

    for which in ("change-x", "change-", "change-9", "beside-1", "all", "nonsense"):
        with pytest.raises(NotFound):
            hold_lay(stash, "tour", answer, which, QUICK)


def test_a_plan_has_one_name_however_it_is_spelled(stash: Stash):
    """"zoe bag" adds to "Zoë bag" and overwrites nothing."""
    add_plan(stash, "Zoë bag", ["tote-bag"], [], {})
    add_plan(stash, "zoe  BAG", ["apron"], ["Pip"], {})

    (plan,) = stash.plans.all()
    assert plan.name == "Zoë bag"
    assert [g.garment for g in plan.garments] == ["tote-bag", "apron"]


def test_what_is_held_is_the_lay_of_the_answer_itself(stash: Stash):
    """Carried to the ledger and back without being drafted or laid again."""
    code = receive(stash, "Drill", 230, 1500.0)
    answer = ask(stash, "shorts")
    (named,) = [one for one in lays(answer) if one.key == code]

    hold_lay(stash, "tour", answer, code, QUICK)

    held = show_plan(stash, "tour").lays[code]
    assert (held.lay, held.pieces, held.garments) == (
        named.laid.lay, named.laid.pieces, named.laid.garments)


def test_holding_another_lay_gives_the_first_up_in_one_entry_with_one_undo(stash: Stash):
    """A second thought is one act: undone, the first lay is held as before."""
    one, other = receive(stash, "Drill", 230, 1500.0), receive(stash, "Twill", 230, 1500.0)
    hold_lay(stash, "tour", ask(stash, "shorts"), one, QUICK)
    before, count = show_plan(stash, "tour").holdings, len(list(stash.ledger.events()))

    view, event = hold_lay(stash, "tour", ask(stash, "shorts"), other, QUICK)

    assert list(view.holdings.cuts) == [other]
    assert len(list(stash.ledger.events())) == count + 1
    stash.ledger.undo(event.id)
    assert show_plan(stash, "tour").holdings == before
