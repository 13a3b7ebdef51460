"""Every sentence of the demo's answers, walked: plain words, and cloth in centimetres."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import pytest

from stash.demo import fill
from stash.draft.catalogue import garments
from stash.fact import Fact
from stash.sentences import Reader, say
from stash.sentences.garments import garment_said
from stash.sentences.reader import LANGUAGES
from stash.sentences.wording.garments import GARMENTS
from stash.store import open_stash
from stash.units import System
from stash.workroom.questions.assignment import ask_making
from stash.workroom.questions.fitting import Asking, ask_fit
from stash.workroom.questions.notions_json import line_to_buy
from stash.workroom.questions.orders import orders_for

SLUGS = re.compile("|".join(rf"\b{name}\b" for name in GARMENTS if "-" in name))
CLOTH = ("fits", "fits_only_unwashed", "no_lay_short", "saves", "saves_still_short",
         "pieces_larger_than_cloth", "too_long_one_behind_another", "too_wide_side_by_side",
         "make_shorter")
ASKING = Asking(seconds=0.02)


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    """The invented workroom, and its first person."""
    with open_stash(tmp_path_factory.mktemp("demo")) as stash:
        fill(stash)
        yield stash, stash.people.all()[0].name


def facts(thing: object) -> Iterator[Fact]:
    """Every fact in an answer, however deep; what a fact holds is said in its sentence."""
    if isinstance(thing, Fact):
        yield thing
    elif is_dataclass(thing):
        for field in fields(thing):
            yield from facts(getattr(thing, field.name))
    elif isinstance(thing, dict):
        yield from facts(tuple(thing.values()))
    elif isinstance(thing, tuple | list):
        for one in thing:
            yield from facts(one)


def told(answer) -> set[Fact]:
    """The facts of an answer, and those its parts make when they are asked."""
    found = set(facts(answer))
    for candidate in getattr(getattr(answer, "fit", None), "candidates", ()):
        found.add(candidate.verdict.told)
    for line in getattr(answer, "notions", ()):
        found.add(line_to_buy(line))
    return found


@pytest.fixture(scope="module")
def answered(demo, kernels) -> set[Fact]:
    """What is said of every garment alone, of a set from one cut, of a set from many, to buy."""
    stash, who = demo
    found: set[Fact] = set()
    for name in garments():
        found |= told(ask_fit(stash, orders_for(stash, (name,), (who,), {}), ASKING))
    some = orders_for(stash, ("a-line-skirt", "tote-bag", "cushion-cover"), (who,), {})
    found |= told(ask_fit(stash, some, ASKING))
    found |= told(ask_making(stash, some, ASKING))
    return found


def test_every_garment_has_a_word_for_sentences():
    """A new draft needs its word in ``stash/sentences/wording/garments.py``."""
    assert set(garments()) <= set(GARMENTS)


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_sentence_names_a_garment_by_the_word_of_a_command(answered, language):
    """"A-line skirt", never "a-line-skirt"."""
    assert len(answered) > 100
    for one in answered:
        assert not SLUGS.search(say(one, Reader(System.METRIC, language)))


def test_how_much_cloth_is_spared_short_or_saved_is_said_in_centimetres(answered):
    """17.8 mm is 1.8 cm on the tape at the cutting table; an inch is told in eighths."""
    cloth = [one for one in answered if one.kind in CLOTH]
    assert cloth
    for one in cloth:
        assert not re.search(r"\d mm\b", say(one, Reader(System.METRIC)))
        assert not re.search(r"\d mm\b|\d cm\b", say(one, Reader(System.INCHES)))


@pytest.mark.parametrize(("label", "said"), [
    ("a-line-skirt", "A-line skirt"), ("tote-bag 2", "tote bag 2"),
    ("circle-skirt for Odile", "circle skirt for Odile"), ("My-own 3", "My-own 3"),
    ("straight-skirt front", "straight skirt front"), ("wrapper", "wrapper"),
])
def test_a_label_is_said_by_the_garments_word(label, said):
    """A pattern of her own keeps the name that she gave it."""
    assert garment_said(label, Reader(System.METRIC)) == said
