"""Plans and likeness from the command line, in the shapes other programs read."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from stash.model import Cloth, Cut, FibreShare, Outline, Person
from stash.store import open_stash
from web.command import main


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A child and a washed length of linen drill."""
    cloth = Cloth(name="Wine drill", mass_gsm=230, colours=("#7a1f2b",),
                  fibres=(FibreShare("flax", 100),))
    with open_stash(tmp_path) as opened:
        opened.people.save(Person(
            name="Pip Okell", body="children",
            measurements_mm={"hip": 700.0, "waist": 600.0, "chest": 660.0, "height": 1310.0},
        ))
        opened.cuts.receive(
            Cut(code="", cloth=cloth, washed=True, outline=Outline.rectangle(1500, 1400))
        )
    return tmp_path


def run(folder: Path, *arguments: str) -> dict:
    """A command's JSON."""
    result = CliRunner().invoke(main, ["--data", str(folder), *arguments, "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.output)


def test_a_plan_is_added_held_shown_and_released(folder: Path):
    """The hold names its cut, its stretch and its lay, and ends when it is released."""
    added = run(folder, "plan", "add", "tour", "--garment", "shorts", "--for", "Pip Okell")
    held = run(folder, "plan", "hold", "tour", "--seconds", "0.5")
    shown = run(folder, "plan", "show", "tour")
    released = run(folder, "plan", "release", "tour")

    assert added["garments"] == [{"garment": "shorts", "person": "Pip Okell", "options": {}}]
    assert shown["holds"] == held["holds"]
    (hold,) = shown["holds"]["cuts"]
    assert hold["from_mm"] == 0
    assert hold["to_mm"] == pytest.approx(hold["lay"]["length_mm"], abs=0.02)
    assert released["holds"] == {"cuts": [], "bins": []}


def test_a_second_lay_held_is_one_entry_that_undo_takes_back_whole(folder: Path):
    """What the plan held before is held again, and nothing of the second lay."""
    with open_stash(folder) as opened:
        first = opened.cuts.all()[0]
        second = opened.cuts.receive(replace(first, code="")).code
    run(folder, "plan", "add", "tour", "--garment", "shorts", "--for", "Pip Okell")
    held = run(folder, "plan", "hold", "tour", "--cut", first.code, "--seconds", "0.5")
    with open_stash(folder) as opened:
        before = opened.ledger.newest()
    over = run(folder, "plan", "hold", "tour", "--cut", second, "--seconds", "0.5")
    run(folder, "undo")

    assert [cut["cut"] for cut in over["holds"]["cuts"]] == [second]
    with open_stash(folder) as opened:
        assert opened.ledger.newest() == before + 2  # the hold, and the undo
    assert run(folder, "plan", "show", "tour")["holds"] == held["holds"]


def test_adding_to_a_plan_keeps_what_it_had(folder: Path):
    """A second garment joins the first."""
    run(folder, "plan", "add", "tour", "--garment", "shorts", "--for", "Pip Okell")
    run(folder, "plan", "add", "Tour", "--garment", "shirt@Pip Okell")

    (plan,) = run(folder, "plan", "list")["plans"]

    assert [g["garment"] for g in plan["garments"]] == ["shorts", "shirt"]


def test_choose_says_what_is_made_from_which_cut_and_what_is_left(folder: Path):
    """The shorts come out of the drill; a second question of a set is the same command."""
    answer = run(folder, "plan", "choose", "shorts", "--for", "Pip Okell", "--seconds", "0.5")

    (made,) = answer["made"]
    assert made["garments"] == ["shorts"]
    assert made["left_mm"] == pytest.approx(1500 - made["lay"]["length_mm"], abs=0.1)
    assert answer["unmade"] == []
    assert {m["kind"] for m in answer["missing_notions"]} == {"elastic", "thread"}


def test_like_finds_by_colour_and_by_the_name_a_fibre_is_sold_under(folder: Path):
    """Linen is recorded as flax (Regulation (EU) 1007/2011 Annex I no. 7)."""
    (match,) = run(folder, "like", "--colour", "#7a1f2b", "--words", "linen")["matches"]

    assert (match["name"], match["difference"]) == ("Wine drill", 0.0)
    (named,) = run(folder, "like", "--colour", "dark red", "--words", "linen")["matches"]
    assert (named["name"], named["difference"] > 0) == ("Wine drill", True)
    assert run(folder, "like", "--colour", "#1f7a2b", "--words", "linen")["matches"] == []


def test_a_plan_that_was_made_takes_nothing_more(folder: Path):
    """What it held would never leave the stash: a second one is another plan."""
    run(folder, "plan", "add", "tour", "--garment", "shorts", "--for", "Pip Okell")
    run(folder, "plan", "made", "tour")

    for more in (("hold", "tour"), ("add", "tour", "--garment", "shorts", "--for", "Pip Okell")):
        told = CliRunner().invoke(main, ["--data", str(folder), "plan", *more])
        assert told.exit_code == 1
        assert "give what you make next another name" in told.output
    assert run(folder, "plan", "show", "tour")["holds"] == {"cuts": [], "bins": []}


def test_removing_a_plan_frees_its_cloth(folder: Path):
    """The whole length is there again."""
    run(folder, "plan", "add", "tour", "--garment", "shorts", "--for", "Pip Okell")
    run(folder, "plan", "hold", "tour", "--seconds", "0.5")
    run(folder, "plan", "remove", "tour")

    assert run(folder, "plan", "list")["plans"] == []
    (candidate,) = run(folder, "fit", "shorts", "--seconds", "0.5")["candidates"]
    assert candidate["held_by"] == []
