"""The life of a cut by the command line: bites, uses, washes, loans, and what it says of itself."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from web.command import main


@pytest.fixture
def run(tmp_path):
    """Runs ``lengthwise cut`` on a stash of its own; JSON where it worked, else the sentence."""
    def run(*words, status=0):
        folder = str(tmp_path / "loft")
        result = CliRunner().invoke(main, ["--data", folder, "cut", *words, "--json"])
        assert result.exit_code == status, result.output
        return json.loads(result.output) if not status else result.output
    return run


@pytest.fixture
def code(run):
    """A cut of 2 m x 1.4 m, its far left corner of 40 x 30 cm gone before it came in."""
    return run("add", "Dune linen", "2m x 140cm", "--shrink", "5x0", "--bite",
               "end far, edge left, 40cm x 30cm")["code"]


def test_a_corner_may_be_missing_when_a_cut_comes_in(run, code):
    """Area without the corner; the largest rectangle lies beside it."""
    shown = run("show", code)
    assert shown["area_mm2"] == pytest.approx(2000 * 1400 - 400 * 300)
    assert shown["whole_mm"] == [1600.0, 1400.0]
    assert [line["mm"] for line in shown["remaining"]] == [2000.0]


def test_which_end_is_asked_where_the_ends_differ(run, code):
    """From the far end the bite goes; from the near end whole cloth does."""
    assert "near or far" in run("off", code, "50cm", status=1)

    run("off", code, "50cm", "--end", "near")
    shown = run("show", code)
    assert shown["area_mm2"] == pytest.approx(1500 * 1400 - 400 * 300)
    assert shown["length_mm"] == pytest.approx(1500)

    run("off", code, "40cm", "--end", "far")
    assert run("show", code)["outline_mm"] == [
        [0.0, 0.0], [1100.0, 0.0], [1100.0, 1400.0], [0.0, 1400.0]]


def test_what_remains_asks_from_which_end_too(run, code):
    """Half a metre off: with the far end goes the missing corner, with the near one cloth."""
    assert "near or far" in run("remains", code, "150cm", status=1)

    run("remains", code, "150cm", "--end", "near")
    shown = run("show", code)
    assert shown["area_mm2"] == pytest.approx(1500 * 1400 - 400 * 300)
    assert run("remains", code, "0")["cut"]["gone"] == "used up"


def test_a_strip_and_squares_are_cut_off(run, code):
    """A strip 20 cm wide all along the right edge, then two squares of 40 cm off the near end."""
    before = run("show", code)["area_mm2"]
    run("off", code, "--strip", "20cm", "--edge", "right")
    run("off", code, "--pieces", "2 x 40cm x 40cm", "--end", "near")
    shown = run("show", code)
    assert shown["area_mm2"] == pytest.approx(before - 2000 * 200 - 2 * 400 * 400)
    assert shown["width_mm"] == pytest.approx(1200)


def test_squares_are_not_cut_where_the_cloth_is_missing(run, code):
    """At the bitten end there is no room for three squares of 40 cm across."""
    assert "not so much whole cloth" in run(
        "off", code, "--pieces", "3 x 40cm x 45cm", "--end", "far", status=1)


def test_what_is_left_explains_itself(run, code):
    """Came in, cut off, lost in the wash, cut out: the lines add up to what is there."""
    run("off", code, "30cm", "--end", "near")
    run("wash", code)
    shown = run("show", code)
    assert [line["kind"] for line in shown["remaining"]] == ["receipt", "cut-off", "wash"]
    assert sum(line["mm"] for line in shown["remaining"]) == pytest.approx(shown["length_mm"])
    assert sum(line["area_mm2"] for line in shown["remaining"]) == pytest.approx(
        shown["area_mm2"], abs=1)
    says = ", ".join(line["says"] for line in shown["remaining"])
    assert "2.00 m put on record" in says
    assert "cut off" in says
    assert "lost in the wash" in says


def test_a_flaw_is_not_laid_on_and_a_ragged_end_is_squared_off(run, code):
    """A hole of 10 cm; then only the largest rectangle is kept."""
    before = run("show", code)["area_mm2"]
    run("flaw", code, "--bite", "from near 30cm, from right 20cm, 10cm x 10cm")
    assert run("show", code)["area_mm2"] == pytest.approx(before - 100 * 100)
    whole = run("show", code)["whole_mm"]
    run("square", code)
    shown = run("show", code)
    assert [shown["length_mm"], shown["width_mm"]] == pytest.approx(whole)
    assert shown["area_mm2"] == pytest.approx(whole[0] * whole[1])


def test_what_is_lent_is_not_here_until_it_is_back(run, code):
    """Twice lent and twice back are refused."""
    run("lend", code, "Bram Okell")
    assert run("show", code)["lent"] == "Bram Okell"
    assert "lent to Bram Okell already" in run("lend", code, "Ada", status=1)
    run("back", code)
    assert run("show", code)["lent"] is None
    assert "not lent" in run("back", code, status=1)


def test_two_cuts_sewn_together_are_one(run, code):
    """The joined one has a code of its own, and never more cloth than both had."""
    other = run("add", "Dune linen", "1m x 140cm", "--shrink", "5x0")["code"]
    assert "more cloth" in run("join", code, other, "4m x 140cm", status=1)
    joined = run("join", code, other, "2.5m x 140cm")["code"]
    assert run("show", code)["gone"] == run("show", other)["gone"] == "joined"
    assert run("show", joined)["parent"] == code


def test_what_was_sold_is_gone(run, code):
    """And no longer listed."""
    run("sell", code, "--price", "12.50")
    assert run("show", code)["gone"] == "sold"
    assert run("list")["cuts"] == []


@pytest.mark.parametrize("bite", [
    "", "end up, 10cm", "edge left", "40cm x", "end far, edge left, 3m x 2m", "from left 3cm, 2cm",
])
def test_a_bite_that_says_nothing_is_refused(run, bite):
    """One sentence, and the cut does not come in."""
    run("add", "Drill", "1m x 1m", "--bite", bite, status=1)
    assert run("list")["cuts"] == []
