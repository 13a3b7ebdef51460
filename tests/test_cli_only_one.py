"""Two options that take each other's place: a command asks which one, and records nothing."""

from __future__ import annotations

import json
import shlex

import pytest
from click.testing import CliRunner

from web.command import main


@pytest.fixture
def run(tmp_path):
    """Runs a command on a stash of its own; what it printed."""
    def run(*words, status=0):
        result = CliRunner().invoke(main, ["--data", str(tmp_path / "loft"), *words])
        assert result.exit_code == status, result.output
        return result.output
    return run


@pytest.fixture
def cut(run):
    """A cut of cloth."""
    return json.loads(run("cut", "add", "Dune linen", "2m x 140cm", "--json"))["code"]


@pytest.fixture
def tape(run):
    """A bin of tape."""
    return json.loads(run("bin", "add", "tape", "Tape", "3m", "--size", "12mm", "--json"))["code"]


TOGETHER = [
    "cut off {cut} 20cm --pieces '2 x 40cm x 40cm'",
    "cut off {cut} --strip 5cm --pieces '2 x 40cm x 40cm'",
    "cut weigh {cut} --grams 300 --mass 118 --swatch '10cm x 10cm 1.2g'",
    "cut weigh {cut} --grams 300 --like {cut} --known",
    "cut roll {cut} --turns 22 --outer 14cm --core 4cm --girth 48cm --board 44cm",
    "bin weigh {tape} --grams 30 --per '3m 27g' --per-metre 9",
    "undo 1 --list",
    "shop trousers --plan Spring",
    "shop --plan Spring --for Odile",
    "plan choose trousers --plan Spring",
    "record copies --also . --only-here",
]


@pytest.mark.parametrize("line", TOGETHER)
def test_of_two_that_exclude_each_other_one_is_asked_for(run, cut, tape, line):
    """The sentence names both; the ledger is as it was."""
    before = run("undo", "--list")
    said = run(*(word.format(cut=cut, tape=tape) for word in shlex.split(line)), status=1)

    assert said.startswith("Say only one of these: ")
    assert run("undo", "--list") == before


def test_how_much_is_needed_is_read_before_anything_is_recorded(run):
    """A count that is none is a sentence, and the weight is not put on record beside it."""
    added = json.loads(run("bin", "add", "button", "Shell", "40", "--size", "15mm", "--json"))
    before = run("undo", "--list")

    said = run("bin", "weigh", added["code"], "--grams", "37", "--per", "40 pieces 32g",
               "--need", "some", "--record", status=1)

    assert "Traceback" not in said
    assert run("undo", "--list") == before
