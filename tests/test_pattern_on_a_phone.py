"""The pieces drawn for a phone: letters that are read, and numbers that are told."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from stash.model import Mark, MarkKind, Person, Piece
from stash.pattern.legend import edge_term
from stash.pattern.pieces_svg import preview_svg
from stash.sentences import Reader
from stash.sentences.saying import piece_named
from stash.sentences.translations import translated
from stash.units import System
from stash.workroom import pattern_files
from stash.workroom.drafts import drafted, garments

GERMAN = Reader(System.METRIC, language="de")
BODY = Person(name="Ida", measurements_mm={
    "hip": 1040.0, "waist": 820.0, "bust": 980.0, "height": 1680.0})
DRAWN_PX = 306  # a drawing's width on a page of 360 CSS px, its frame and the margins taken off
LEAST_PX = 9.0  # chosen here: the height of letters, below which print is called small print
ALTERED = ("fitted-bodice", "straight-skirt", "knit-top")


def texts(svg: str) -> list[tuple[str, float, str]]:
    """(words, height in CSS px on a phone, where they begin) of everything that is written."""
    root = ElementTree.fromstring(svg)
    width = float(root.get("viewBox").split()[2])
    return [(e.text, float(e.get("font-size")) * DRAWN_PX / width, e.get("text-anchor"))
            for e in root.iter("{http://www.w3.org/2000/svg}text")]


def told(written: list[tuple[str, float, str]]) -> dict[str, str]:
    """The key under a drawing: what each number stands for."""
    rows = [words for words, _, begins in written if begins == "start"]
    return dict(one.split("\u00a0", 1) for row in rows for one in row.split(" · "))


@pytest.mark.parametrize("name", list(garments()))
def test_no_letter_of_a_draft_is_small_print(name):
    """Names, sizes and the words of marks, on every piece of every garment."""
    _, phone = pattern_files.preview(drafted(BODY, name, {}), name, GERMAN)

    assert min(height for _, height, _ in texts(phone)) >= LEAST_PX


@pytest.mark.parametrize("name", list(garments()))
def test_every_number_on_a_draft_is_told_under_it(name):
    """And none is told that stands nowhere; no two numbers stand for the same."""
    for drawing in pattern_files.preview(drafted(BODY, name, {}), name, GERMAN):
        written = texts(drawing)
        numbers = {words for words, _, _ in written if re.fullmatch(r"\d+", words)}

        assert set(told(written)) == numbers
        assert len(set(told(written).values())) == len(numbers)


@pytest.mark.parametrize("name", ALTERED)
def test_every_edge_of_an_altered_pattern_is_named_or_numbered(name):
    """So that the form, which speaks of edges by name, can be answered from the drawing."""
    pattern = drafted(BODY, name, {})
    _, (before, _) = pattern_files.preview_pair(pattern, pattern, ("", ""), GERMAN)
    written = texts(before)
    said = {words for words, _, _ in written} | set(told(written).values())
    edges = {edge.name for p in pattern.pieces if p.role.value == "main" for edge in p.edges}

    assert min(height for _, height, _ in written) >= LEAST_PX
    assert {translated(edge_term(name), "de") for name in edges - {"fold"}} <= said


def test_a_mark_too_short_for_its_words_bears_a_number():
    """The middle of a tab of 3 cm beside a piece of 1 m: the same number on both tabs."""
    side = ((0.0, 0.0), (400.0, 0.0), (400.0, 1000.0), (0.0, 1000.0))
    narrow = ((0.0, 0.0), (30.0, 0.0), (30.0, 60.0), (0.0, 60.0))
    short = Mark(MarkKind.CENTRE, ((0.0, 30.0), (30.0, 30.0)))
    pieces = [Piece(name="one", outline_mm=side),
              Piece(name="tab", outline_mm=narrow, marks=(short,)),
              Piece(name="other tab", outline_mm=narrow, marks=(short,))]

    written = texts(preview_svg(pieces, reader=GERMAN, letters_wide=27.0))

    assert [words for words, _, begins in written if words == "1" and begins == "middle"] == [
        "1", "1"]
    assert told(written) == {"1": "Mitte"}


def test_what_nobody_named_yet_is_offered_in_the_readers_language():
    """Traced or imported pieces are "piece", "piece 2"; a copy keeps its number as well."""
    assert piece_named("piece", GERMAN) == "Teil"
    assert piece_named("piece 2", GERMAN) == "Teil 2"
    assert piece_named("piece 2", Reader(System.METRIC, language="fr")) == "pièce 2"
    assert piece_named("front#2", GERMAN) == "Vorderteil#2"
    assert piece_named("Aprilbluse 2", GERMAN) == "Aprilbluse 2"
