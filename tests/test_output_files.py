"""What a command writes never takes the place of the record, nor of a file unless told to."""

import os
from pathlib import Path

import pytest
from click.testing import CliRunner

from stash.model import Cloth, Cut, Outline
from stash.store import open_stash
from web.command import main

WRITERS = [
    ("record", "backup", "{}"),
    ("record", "table", "{}"),
    ("keep", "copy", "{}"),
    ("keep", "table", "{}"),
    ("labels", "--blank", "3", "--out", "{}"),
    ("calibration", "--out", "{}"),
    ("lay", "--pieces", "{pieces}", "--width", "140cm", "--seconds", "1", "--svg", "{}"),
    ("draft", "tote-bag", "--svg", "{}"),
    ("draft", "tote-bag", "--dxf", "{}"),
]


@pytest.fixture
def place(tmp_path):
    """A stash with one cut."""
    with open_stash(tmp_path / "loft") as stash:
        stash.cuts.receive(Cut(
            code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400)))
    (tmp_path / "pieces.json").write_text(
        
        '{"pieces": [{"name": "front", "outline_mm": [[0, 0], [500, 0], [500, 300], [0, 300]]}]}')
    return tmp_path / "loft"


def run(place, words, out):
    """One command that writes ``out``."""
    filled = [w.format(out, pieces=place.parent / "pieces.json") for w in words]
    return CliRunner().invoke(main, ["--data", str(place), *filled])


@pytest.mark.parametrize("words", WRITERS, ids=" ".join)
def test_no_output_goes_into_the_data_folder(place, words):
    """Not over the record, not beside it, not by a roundabout way or through a link."""
    (place.parent / "way").symlink_to(place)
    before = (place / "stash.db").read_bytes()
    for out in (place / "stash.db", place / "new.pdf", place / "copies" / "day.db",
                place.parent / "x" / ".." / "loft" / "stash.db", place.parent / "way" / "y"):
        (place.parent / "x").mkdir(exist_ok=True)
        answer = run(place, words, out)

        assert answer.exit_code == 1, out
        assert "data folder" in answer.output
    assert (place / "stash.db").read_bytes() == before
    assert not (place / "new.pdf").exists()


@pytest.mark.parametrize("words", WRITERS, ids=" ".join)
def test_a_file_that_exists_stays_unless_told(place, words):
    """With --replace it is written anew, whole."""
    out = place.parent / "mine.txt"
    out.write_text("dear diary")

    answer = run(place, words, out)

    assert answer.exit_code == 1
    assert "--replace" in answer.output
    assert out.read_text() == "dear diary"
    assert run(place, [*words, "--replace"], out).exit_code == 0
    assert not out.read_bytes().startswith(b"dear diary")
    assert [p.name for p in place.parent.iterdir() if p.name.endswith(".part")] == []


@pytest.mark.parametrize("out", [
    "", ".", "/", "x" * 300, "no/such/folder/x", "a\0b", "é" * 200 + "/x", "diary/x"])
@pytest.mark.parametrize("words", WRITERS[:6], ids=" ".join)
def test_a_name_that_is_none_gets_a_sentence(place, words, out, monkeypatch):
    """Never a traceback."""
    monkeypatch.chdir(place.parent)
    Path("diary").write_text("a file, where a folder is wanted")
    answer = run(place, words, out)

    assert answer.exit_code in (1, 2)
    assert answer.exception is None or isinstance(answer.exception, SystemExit)
    assert answer.output.strip().endswith((".", "'"))


@pytest.mark.skipif(os.name == "nt", reason="hard links are a right of their own on Windows")
def test_a_hard_link_to_the_record_does_not_reach_it(place):
    """Another name of the same file: it is replaced, the record is not written."""
    os.link(place / "stash.db", place.parent / "innocent")
    before = (place / "stash.db").read_bytes()

    assert run(place, ("record", "table", "{}", "--replace"),
               place.parent / "innocent").exit_code == 0
    assert (place / "stash.db").read_bytes() == before
