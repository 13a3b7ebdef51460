"""Fibre names by Regulation (EU) No 1007/2011, and compositions as people write them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import InvalidInput
from stash.fibres import fibre, fibres, format_composition, names, parse_composition
from stash.fibres.names import other_words
from stash.model import FibreShare


def test_every_number_of_annex_i_is_there():
    """Nos 1 to 50: Regulation (EU) 1007/2011 Annex I, No 50 added by Regulation (EU) 2018/122."""
    assert {f.number for f in fibres()} == set(range(1, 51))


@pytest.mark.parametrize(
    ("number", "name"),
    [
        (1, "wool"), (4, "silk"), (5, "cotton"), (7, "flax"), (14, "ramie"), (19, "acetate"),
        (21, "cupro"), (22, "modal"), (25, "viscose"), (26, "acrylic"), (30, "polyamide"),
        (33, "lyocell"), (35, "polyester"), (37, "polypropylene"), (43, "elastane"),
    ],
)
def test_names_stand_under_their_annex_number(number, name):
    """Numbers 1 to 44, 49 and 50 of Annex I as transcribed; 45 to 48 are from memory."""
    assert fibre(name).number == number


@pytest.mark.parametrize(
    ("word", "name"),
    [("linen", "flax"), ("LI", "flax"), ("Nylon", "polyamide"), ("rayon", "viscose"),
     ("spandex", "elastane"), ("CO", "cotton"), ("hemp", "true hemp"), ("WS", "cashmere")],
)
def test_common_words_and_label_codes_lead_to_the_legal_name(word, name):
    """Codes: web label lists; the words: common usage."""
    assert fibre(word).name == name


def test_no_word_or_code_stands_for_two_fibres():
    """A label is never read two ways."""
    words = [w.casefold() for f in fibres() for w in (f.name, f.code, f.other_code, *f.also) if w]

    assert len(words) == len(set(words))


def test_every_fibre_carries_its_source_and_status():
    """And every code its own."""
    assert all(f.source and f.status for f in fibres())
    assert all(f.code_status for f in fibres() if f.code)


@pytest.mark.parametrize(
    "text",
    ["55 % linen 45 % cotton", "linen 55, cotton 45", "55% LI; 45% CO", "45 % cotton, 55 % flax",
     "55% linen and 45% cotton", "  Cotton 45%  Flax 55% "],
)
def test_one_composition_written_in_many_ways(text):
    """Greatest share first, as Article 9(1) of the Regulation asks of a label."""
    assert parse_composition(text) == (FibreShare("flax", 55.0), FibreShare("cotton", 45.0))


@pytest.mark.parametrize("text", ["wool", "100 % wool", "WO 100"])
def test_one_fibre_alone_is_all_of_it(text):
    """A name without a share is 100 %."""
    assert parse_composition(text) == (FibreShare("wool", 100.0),)


def test_nothing_typed_is_nothing_known():
    """An unknown composition stays empty, never a guess."""
    assert parse_composition("  ") == ()


def test_thirds_need_not_add_up_to_the_last_tenth():
    """Whole percents: 33, 33 and 33 make 99."""
    assert len(parse_composition("33 % wool 33 % silk 33 % viscose")) == 3


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("60 % cotton 30 % linen", "add up to 90 %"),
        ("80 % cotton 30 % linen", "add up to 110 %"),
        ("50 % unobtainium 50 % cotton", "unobtainium"),
        ("60 % cotton 40 % CO", "named twice"),
        ("0 % silk 100 % cotton", "more than nothing"),
        ("50 50", "not a composition"),
        ("%", "not a fibre name"),
    ],
)
def test_a_composition_that_cannot_be_is_refused_with_its_reason(text, says, sentence):
    """One sentence each."""
    with pytest.raises(InvalidInput) as refused:
        parse_composition(text)
    assert re.search(says, sentence(refused.value))


SHARES = st.lists(st.sampled_from([f.name for f in fibres()]), min_size=1, max_size=5,
                  unique=True).flatmap(
    lambda names: st.lists(st.integers(1, 60), min_size=len(names), max_size=len(names)).map(
        lambda weights: [
            FibreShare(n, round(100 * w / sum(weights), 2))
            for n, w in zip(names, weights, strict=True)
        ]
    )
)


@given(SHARES)
def test_what_is_written_is_read_back(shares):
    """Format and parse undo each other, for every fibre of the Annex."""
    back = parse_composition(format_composition(shares))

    assert sorted(back, key=lambda s: s.fibre) == sorted(shares, key=lambda s: s.fibre)


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_in_a_sentence(sentence, text):
    """Never another error."""
    try:
        shares = parse_composition(text)
    except InvalidInput as refusal:
        assert sentence(refusal)
    else:
        assert not shares or abs(sum(s.percent for s in shares) - 100) <= 1


@pytest.mark.parametrize(("typed", "shares"), [
    ("55 % lin et 45 % coton", {"flax": 55, "cotton": 45}),
    ("97,5 % Baumwolle und 2,5 % Elasthan", {"cotton": 97.5, "elastane": 2.5}),
    ("polyamide 80, elasthanne 20", {"polyamide": 80, "elastane": 20}),
    ("Schurwolle", {"wool": 100}),
])
def test_french_and_german_labels_are_read(typed, shares):
    """By the names of the Regulation's French and German texts, and by words of the shops."""
    assert {share.fibre: share.percent for share in parse_composition(typed)} == shares


def test_no_word_of_another_language_stands_for_two_fibres():
    """Each leads to the one fibre that its row names; its status is told honestly."""
    for _language, word, name in other_words():
        assert fibre(word).name == name

    table = Path(names.__file__).with_name("words_fr_de.csv").read_text(encoding="utf-8")
    rows = table.splitlines()[1:]
    assert all("from memory" in row or "common practice, no source" in row for row in rows)
