"""A question to the whole stash: read from the record, drafted, laid, and true to its holds."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from stash.errors import Conflict, InvalidInput, NotFound
from stash.lay import LayTask, check
from stash.model import Bin, Cloth, Construction, Cut, Notion, NotionKind, Outline, Person
from stash.store import Stash, open_stash
from stash.workroom.questions.assignment import ask_making
from stash.workroom.questions.fitting import Asking, ask_fit
from stash.workroom.questions.free_stock import free_stash
from stash.workroom.questions.orders import orders_for
from stash.workroom.questions.plan_view import show_plan
from stash.workroom.questions.planning import add_plan, hold_plan
from web.command import main

DRILL = Cloth(
    name="Drill", construction=Construction.WOVEN, mass_gsm=230, colours=("#2f4059",),
    shrink_along_pct=4,
)
QUICK = Asking(seconds=0.6)


@pytest.fixture
def stash(tmp_path: Path):
    """A child, a length of drill, elastic and thread."""
    with open_stash(tmp_path) as opened:
        opened.people.save(Person(
            name="Pip Okell", body="children",
            measurements_mm={"hip": 700.0, "waist": 600.0, "chest": 660.0, "height": 1310.0},
        ))
        opened.cuts.receive(cut(1500))
        opened.bins.receive(metres(NotionKind.ELASTIC, 2000, size_mm=25))
        opened.bins.receive(metres(NotionKind.THREAD, 500_000, colour="#2f4059"))
        yield opened


def cut(length_mm: float, cloth: Cloth = DRILL) -> Cut:
    """A washed length 140 cm wide."""
    return Cut(code="", cloth=cloth, washed=True, outline=Outline.rectangle(length_mm, 1400))


def metres(kind: NotionKind, amount: float, **more) -> Bin:
    """A bin by length."""
    return Bin(code="", amount=amount, notion=Notion(kind=kind, name=kind.value, **more))


def ask(stash: Stash, *garments: str, **more):
    """The answer for Pip."""
    return ask_fit(stash, orders_for(stash, garments, ["Pip Okell"]), Asking(seconds=0.6, **more))


def test_shorts_come_out_of_the_drill_with_notions_from_the_bins(stash: Stash):
    """Cloth, elastic and thread are there: nothing to buy."""
    answer = ask(stash, "shorts")

    assert len(answer.fit.fits) == 1
    assert all(line.chosen for line in answer.notions)


def test_what_a_plan_holds_is_taken_and_named_and_free_when_given_up(stash: Stash):
    """Two pairs held leave too little for a third, unless the plan is given up."""
    add_plan(stash, "tour", ["shorts", "shorts"], ["Pip Okell"], {})
    view, _ = hold_plan(stash, "tour", asking=QUICK)
    code = next(iter(view.holdings.cuts))
    before = ask(stash, "shorts")
    given_up = ask(stash, "shorts", giving_up=("tour",))

    assert [c.held_by for c in before.fit.candidates] == [("tour",)]
    assert before.fit.candidates[0].cut.length_mm < stash.cuts.get(code).length_mm
    assert given_up.fit.candidates[0].held_by == ()
    assert given_up.fit.candidates[0].cut.length_mm == stash.cuts.get(code).length_mm


def test_giving_up_a_plan_that_is_not_there_is_refused(stash: Stash, sentence):
    """A slip in its name would otherwise look like an answer."""
    with pytest.raises(NotFound) as refused:
        ask(stash, "shorts", giving_up=("tuor",))
    assert re.search("tuor", sentence(refused.value))


def test_a_lay_on_the_free_part_never_touches_the_held_stretch(stash: Stash):
    """Checked by the lay room's separate code on the free outline."""
    add_plan(stash, "tour", ["shorts"], ["Pip Okell"], {})
    view, _ = hold_plan(stash, "tour", asking=QUICK)
    (hold,) = view.holdings.cuts.values()

    (candidate,) = ask(stash, "shorts").fit.fits

    assert candidate.cut.outline.bounds_mm[0] == pytest.approx(hold.to_mm)
    task = LayTask(pieces=ask(stash, "shorts").fit.pieces, cloth=candidate.cut.outline_washed)
    assert check(task, candidate.laid.lay) == []


def test_notions_promised_to_a_plan_are_not_promised_again(stash: Stash):
    """Elastic for three waists; two plans hold two of them, and the rest is reckoned from that."""
    before = {b.notion.kind: b.amount for b in free_stash(stash).bins}
    add_plan(stash, "tour", ["shorts"], ["Pip Okell"], {})
    hold_plan(stash, "tour", asking=QUICK)
    after = {b.notion.kind: b.amount for b in free_stash(stash).bins}

    assert after[NotionKind.ELASTIC] < before[NotionKind.ELASTIC]
    assert after[NotionKind.THREAD] < before[NotionKind.THREAD]


def test_a_hold_lasts_until_it_is_released(stash: Stash):
    """Only the person's word ends it."""
    add_plan(stash, "tour", ["shorts"], ["Pip Okell"], {})
    hold_plan(stash, "tour", asking=QUICK)
    assert show_plan(stash, "tour").holdings.cuts

    stash.plans.release("tour")

    assert not show_plan(stash, "tour").holdings.cuts
    assert free_stash(stash).held_by == {}


def test_holding_on_an_unsuitable_cut_is_refused_with_the_reason(stash: Stash):
    """A voile is no shorts."""
    code = stash.cuts.receive(cut(2000, Cloth(name="Voile", mass_gsm=60))).code
    add_plan(stash, "tour", ["shorts"], ["Pip Okell"], {})

    with pytest.raises(Conflict, match="too_thin"):
        hold_plan(stash, "tour", code, QUICK)


def test_a_held_lay_can_be_read_back_and_lies_on_its_stretch(stash: Stash):
    """Its pieces are kept with it, so a later change of the draft does not spoil it."""
    add_plan(stash, "tour", ["shorts"], ["Pip Okell"], {})
    view, _ = hold_plan(stash, "tour", asking=QUICK)
    ((code, hold),) = view.holdings.cuts.items()

    task = LayTask(pieces=hold.laid.pieces, cloth=stash.cuts.get(code).outline)
    assert check(task, hold.laid.lay) == []
    assert hold.laid.garments == view.plan.garments
    assert hold.to_mm == pytest.approx(hold.laid.lay.length_mm, abs=0.02)


def test_which_of_these_can_i_make_without_buying(stash: Stash):
    """Shirt buttons are not in the stash: the shorts are made, the shirt is not."""
    stash.cuts.receive(cut(2000, Cloth(name="Poplin", mass_gsm=120)))
    orders = orders_for(stash, ["shirt", "shorts"], ["Pip Okell"] * 2)

    answer = ask_making(stash, orders, QUICK, without_buying=True)

    assert [made.labels for made in answer.made] == [("shorts",)]
    assert answer.unmade == ("shirt",)


def test_as_many_people_as_garments_pair_in_order(stash: Stash):
    """The shirt is Pip's, the shorts are Odile's."""
    stash.people.save(Person(name="Odile", measurements_mm={"hip": 1000.0, "waist": 800.0}))

    pairs = orders_for(stash, ["shirt", "shorts"], ["Pip Okell", "Odile"])
    each = orders_for(stash, ["shorts"], ["Pip Okell", "Odile"])
    named = orders_for(stash, ["shirt@Pip Okell", "shorts@Odile"])

    def told(orders):
        return [(o.garment, o.person) for o in orders]

    assert told(pairs) == told(named) == [("shirt", "Pip Okell"), ("shorts", "Odile")]
    assert told(each) == [("shorts", "Pip Okell"), ("shorts", "Odile")]


def test_the_only_person_need_not_be_named_but_one_of_several_must(stash: Stash):
    """A clear question instead of a guess."""
    assert orders_for(stash, ["shorts"])[0].person == "Pip Okell"
    stash.people.save(Person(name="Odile", measurements_mm={"hip": 1000.0}))

    with pytest.raises(InvalidInput, match="say_for_whom"):
        orders_for(stash, ["shorts"])


def test_an_unknown_garment_lists_those_there_are(stash: Stash, sentence):
    """Drafts and her own patterns."""
    with pytest.raises(NotFound) as refused:
        orders_for(stash, ["crinoline"], ["Pip Okell"])
    assert re.search("trousers", sentence(refused.value))


def test_an_option_no_garment_knows_is_refused_with_those_they_take(stash: Stash, sentence):
    """A typing slip is not silently dropped."""
    with pytest.raises(InvalidInput) as refused:
        orders_for(stash, ["shorts"], ["Pip Okell"], {"lenght": "40cm"})

    assert "None of these garments has an option “lenght”" in sentence(refused.value)


def run(folder: Path, *arguments: str) -> dict:
    """A command's JSON."""
    result = CliRunner().invoke(main, ["--data", str(folder), *arguments, "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.output)


def test_fit_answers_in_the_shape_other_programs_read(stash: Stash, tmp_path: Path):
    """Every placement names a copy of a piece that is in the answer too."""
    answer = run(tmp_path, "fit", "shorts", "--for", "Pip Okell", "--seconds", "0.5")

    (candidate,) = answer["candidates"]
    assert candidate.keys() >= {"cut", "fits", "spare_mm", "short_mm", "reason", "lay"}
    placed = [p["piece"] for p in candidate["lay"]["placements"]]
    expected = [
        f"{p['name']}#{n + 1}" for p in answer["pieces"] for n in range(p["quantity"])
    ]
    assert sorted(placed) == sorted(expected)
    assert answer.keys() >= {"set_aside", "missing_notions", "rescues"}


def test_fit_lays_the_very_outlines_that_draft_prints(stash: Stash, tmp_path: Path):
    """Same measurements, same pieces."""
    fitted = run(tmp_path, "fit", "shorts", "--for", "Pip Okell", "--seconds", "0.5")
    drafted = run(tmp_path, "draft", "shorts", "--for", "Pip Okell")

    main_pieces = {p["name"]: p["outline_mm"] for p in drafted["pieces"] if p["role"] == "main"}
    assert {p["name"]: p["outline_mm"] for p in fitted["pieces"]} == main_pieces


def test_need_gives_a_length_that_its_lay_takes(tmp_path: Path):
    """On an empty stash, straight from measurements."""
    answer = run(tmp_path, "need", "shorts", "--measure", "hip=70cm", "--measure", "waist=60cm",
                 "--body", "children", "--width", "114cm", "--seconds", "0.5")

    assert answer["length_mm"] == answer["lay"]["length_mm"]
    assert 0.4 < answer["utilisation"] < 1


def test_need_says_why_a_piece_is_too_wide_for_the_cloth(tmp_path: Path):
    """An answer, not an error."""
    answer = run(tmp_path, "need", "trousers", "--measure", "hip=100cm", "--measure", "waist=80cm",
                 "--width", "20cm", "--seconds", "0.5")

    assert answer["length_mm"] is None
    assert "across" in answer["reason"]


def test_an_empty_stash_answers_with_what_to_do(tmp_path: Path):
    """No traceback, no error."""
    with open_stash(tmp_path) as opened:
        opened.people.save(Person(name="Ada", measurements_mm={"hip": 1000.0, "waist": 800.0}))

    result = CliRunner().invoke(main, ["--data", str(tmp_path), "fit", "shorts", "--for", "Ada"])

    assert result.exit_code == 0
    assert "There is no cloth in the stash yet" in result.output
