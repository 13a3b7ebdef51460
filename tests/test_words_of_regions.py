"""Two words for one thing, and the name beside a code: what a sewist reads says what is meant."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from click.testing import CliRunner

from stash.errors import Conflict
from stash.model import Cloth, Cut, Outline
from stash.sentences import Reader, named, says
from stash.sentences.regional import both_names, regional_pairs
from stash.store import open_stash
from stash.units import System
from stash.workroom.settings import reader_of
from web.command import main

# stash/sentences/regional_words.csv gives the source of each pair.
PAIRS = [
    ("inside leg", "inside leg (inseam)", "entrejambe", "Innenbein"),
    ("zip", "zip (zipper)", "fermeture à glissière", "Reißverschluss"),
    ("snap", "press stud (snap)", "bouton-pression", "Druckknopf"),
    ("Trousers", "Trousers (pants)", "Pantalon", "Hose"),
    ("waist", "waist", "taille", "Taille"),
]


@pytest.mark.parametrize(("word", "english", "french", "german"), PAIRS)
def test_both_names_are_said_in_english_only(word, english, french, german):
    """French and German have one word for each of them in the glossary of docs/words.md."""
    said = [both_names(word, Reader(System.METRIC, language)) for language in ("en", "fr", "de")]

    assert said == [english, french, german]


def test_every_pair_says_where_it_comes_from():
    """A status beside each, as in every table of the house."""
    text = Path("stash/sentences/regional_words.csv").read_text(encoding="utf-8")
    rows = list(csv.DictReader(text.splitlines()))

    assert all(row["status"] and row["source"] for row in rows)
    assert len(regional_pairs()) == 2 * len(rows)


@pytest.fixture
def denim(tmp_path):
    """A stash with one cut, and its code."""
    with open_stash(tmp_path) as stash:
        cut = Cut(code="", cloth=Cloth(name="blue denim"), outline=Outline.rectangle(2000, 1500))
        yield stash, stash.cuts.receive(cut).code


def test_a_code_in_a_sentence_stands_beside_the_name_of_what_bears_it(tmp_path, denim):
    """“K7F2QX” alone says nothing; a code that is on nothing stays alone."""
    _stash, code = denim
    reader = reader_of(tmp_path)

    refused = Conflict("label_in_use", code=code)
    assert says(refused, reader).startswith(f"The label blue denim {code} is")
    assert named("K7F2QX", reader) == "K7F2QX"


def test_a_closed_record_is_spoken_of_all_the_same(tmp_path, denim):
    """The name is an extra; where it cannot be asked the sentence stands without it."""
    stash, code = denim
    reader = reader_of(tmp_path / "nowhere")
    stash.close()

    assert named(code, reader) == code


def test_the_list_of_what_was_recorded_names_things(tmp_path, denim):
    """Never a subject of the record, which nobody but a program can read."""
    stash, code = denim
    stash.cuts.move(code, "Shelf 3")
    listed = CliRunner().invoke(main, ["--data", str(tmp_path), "undo", "--list"]).output
    undone = CliRunner().invoke(main, ["--data", str(tmp_path), "undo"]).output

    assert f"Came into the stash  blue denim {code}" in listed
    assert undone == f"Entry 2 (blue denim {code}) was taken back.\n"
