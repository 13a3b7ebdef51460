"""A held lay and a cloth that changed under it: said at once, wherever cut or plan is seen."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from stash.model import Cloth, Cut, Outline, Person
from stash.store import open_stash
from web import create_app
from web.command import main


@pytest.fixture
def folder(tmp_path):
    """A child, and a washed drill on which her shorts are held for the plan "tour"."""
    cut = Cut(code="", cloth=Cloth(name="Wine drill", mass_gsm=230), washed=True,
              outline=Outline.rectangle(1500, 1400))
    with open_stash(tmp_path) as opened:
        opened.people.save(Person(
            name="Pip Okell", body="children",
            measurements_mm={"hip": 700.0, "waist": 600.0, "chest": 660.0, "height": 1310.0},
        ))
        opened.cuts.receive(cut)
    run(tmp_path, "plan", "add", "tour", "--garment", "shorts", "--for", "Pip Okell")
    run(tmp_path, "plan", "hold", "tour", "--seconds", "2")
    return tmp_path


def run(folder, *arguments: str) -> dict:
    """A command's JSON."""
    result = CliRunner().invoke(main, ["--data", str(folder), *arguments, "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.output)


def pages_that_say_so(folder, code: str) -> list[str]:
    """Which of the pages of the cut, the plan and the table say that it no longer lies there."""
    client = create_app(folder).test_client()
    pages = {"cut": f"/c/{code}", "plan": "/plans/of/tour", "table": "/cutting/tour"}
    return [name for name, address in pages.items()
            if "no longer lies on the cloth" in client.get(address, follow_redirects=True).text]


def test_a_cloth_measured_narrower_says_that_the_held_lay_is_gone(folder):
    """Before it is cut, on the page, at the table and on the command line; undo unsays it."""
    (hold,) = run(folder, "plan", "show", "tour")["holds"]["cuts"]
    code = hold["cut"]
    assert run(folder, "cut", "show", code)["strayed"] == []
    assert pages_that_say_so(folder, code) == []

    done = run(folder, "cut", "measure", code, "1.5m x 40cm")

    assert [one["plan"] for one in done["strayed"]] == ["tour"]
    assert run(folder, "plan", "show", "tour")["strayed"] == done["strayed"]
    assert pages_that_say_so(folder, code) == ["cut", "plan", "table"]

    run(folder, "undo")
    assert run(folder, "cut", "show", code)["strayed"] == []
    assert pages_that_say_so(folder, code) == []


def test_a_flaw_found_under_a_piece_is_said_too(folder):
    """A hole where the lay lies is not cloth."""
    (hold,) = run(folder, "plan", "show", "tour")["holds"]["cuts"]
    hole = "from near 5cm, from right 5cm, 20cm x 20cm"
    done = run(folder, "cut", "flaw", hold["cut"], "--bite", hole)

    assert done["strayed"]


def test_what_does_not_touch_the_lay_is_not_told(folder):
    """A strip off the far end leaves the lay where it is."""
    (hold,) = run(folder, "plan", "show", "tour")["holds"]["cuts"]
    spare_mm = 1500 - hold["to_mm"]
    done = run(folder, "cut", "off", hold["cut"], f"{spare_mm / 2:.0f}mm")

    assert done["strayed"] == []


def test_a_child_who_was_measured_again_is_told_before_her_shorts_are_cut(folder):
    """The lay was drawn for a hip of 70 cm; she has 73 now. Undone, nothing is said."""
    run(folder, "plan", "hold", "tour", "--seconds", "2")
    run(folder, "person", "add", "Pip Okell", "--measure", "hip=73cm")

    (said,) = [one["says"] for one in run(folder, "plan", "show", "tour")["changed_since"]
               if "measured again" in one["says"]]
    assert "hip" in said
    assert "3 cm" in said
    client = create_app(folder).test_client()
    for address in ("/plans/of/tour", "/cutting/tour"):
        assert "measured again after" in client.get(address).text

    run(folder, "undo")
    assert not any("measured again" in one["says"]
                   for one in run(folder, "plan", "show", "tour")["changed_since"])


def test_her_fit_changed_on_a_toile_is_told_too(folder):
    """The side comes in by half a centimetre: the held pieces are the old ones."""
    run(folder, "person", "adjust", "Pip Okell", "shorts", "side=0.5cm")

    assert any("fit of Pip Okell" in one["says"]
               for one in run(folder, "plan", "show", "tour")["changed_since"])


def test_a_bin_counted_below_what_is_held_says_so(folder):
    """2 m of elastic, of which the shorts hold some; then only 10 cm are found."""
    bin_ = run(folder, "bin", "add", "elastic", "Waist elastic", "2m", "--size", "25mm")["code"]
    run(folder, "plan", "hold", "tour", "--seconds", "2")
    assert bin_ in [one["bin"] for one in run(folder, "plan", "show", "tour")["holds"]["bins"]]

    (said,) = run(folder, "bin", "count", bin_, "10cm")["changed_since"]

    assert "Only 10 cm left of the" in said["says"]
    assert run(folder, "bin", "show", bin_)["changed_since"] == [said]
    client = create_app(folder).test_client()
    for address in ("/plans/of/tour", "/cutting/tour", f"/c/{bin_}"):
        assert "left of the" in client.get(address, follow_redirects=True).text


def test_a_pattern_of_her_own_changed_since_is_told_too(folder):
    """The pinafore was held by its first version; the second one is another width."""
    typed = ("pattern", "add", "Loft pinafore", "--piece", "pinafore, 80cm x 70cm")
    run(folder, *typed)
    run(folder, "plan", "add", "gift", "--garment", "Loft pinafore")
    run(folder, "plan", "release", "tour")
    run(folder, "plan", "hold", "gift", "--seconds", "2")
    assert run(folder, "plan", "show", "gift")["changed_since"] == []

    run(folder, "pattern", "set", "Loft pinafore", "--weight", "150-300")

    (said,) = run(folder, "plan", "show", "gift")["changed_since"]
    assert said["kind"] == "pattern_since_held"
    run(folder, "undo")
    assert run(folder, "plan", "show", "gift")["changed_since"] == []
