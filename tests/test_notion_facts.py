"""What can be said of which notion: a button is not ironed on, thread has no size."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from stash.model import Notion, NotionKind
from stash.model.notions import SAID_OF, out_of_place
from web.command import main


@pytest.fixture
def run(tmp_path):
    """Runs a command on a stash of its own; what it printed."""
    def run(*words, status=0):
        result = CliRunner().invoke(main, ["--data", str(tmp_path / "loft"), *words])
        assert result.exit_code == status, result.output
        return result.output
    return run


@pytest.mark.parametrize("kind", list(NotionKind))
def test_every_fact_is_in_its_place_or_named(kind):
    """A notion that bears them all is told each one that its kind has not."""
    laden = Notion(kind=kind, name="odd", size_mm=10, fusible=True, shortenable=True,
                   thickness_mm=3, shank=True, mass_gsm=60)
    odd = {name for name, kinds in SAID_OF.items() if kind not in kinds}
    assert set(out_of_place(laden)) == odd


@pytest.mark.parametrize("words", [
    ("button", "Horn", "8", "--size", "15mm", "--fusible"),
    ("button", "Horn", "8", "--size", "15mm", "--mass", "60"),
    ("button", "Horn", "8", "--size", "15mm", "--shortenable"),
    ("thread", "Grey", "200m", "--size", "5mm"),
    ("tape", "Tape", "3m", "--shank"),
    ("zip", "Zip", "1", "--size", "20cm", "--thickness", "4mm"),
    ("button", "Horn", "8", "--size", "15mm", "--thickness", "4in"),
])
def test_what_nothing_of_that_kind_has_is_a_sentence_and_nothing_is_recorded(run, words):
    """It used to be dropped or kept without a word."""
    said = run("bin", "add", *words, status=1)

    assert "Traceback" not in said
    assert "No bin" in run("bin", "list")


def test_a_domed_button_keeps_its_thickness_and_spaces_with_longer_holes(run):
    """15 mm and twice 4 mm (common practice, no source); a flat one adds its thickness."""
    made = json.loads(run("bin", "add", "button", "Brass", "8", "--size", "15mm", "--thickness",
                          "4mm", "--shank", "--json"))["bin"]
    assert (made["thickness_mm"], made["shank"]) == (4.0, True)

    spaced = ["buttons", "--front", "60cm", "--diameter", "15mm", "--thickness", "4mm", "--json"]
    assert json.loads(run(*spaced))["buttonhole_mm"] == 19.0
    assert json.loads(run(*spaced, "--shank"))["buttonhole_mm"] == 23.0
