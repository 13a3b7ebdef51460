"""How the translations are set: spaces, quotation marks, apostrophes, and no English left over."""

import io
import re

import pytest
from babel.messages.pofile import read_po

from stash.fibres import fibres
from stash.sentences.reader import LANGUAGES
from stash.sentences.translations import DOMAIN, FOLDER

OTHERS = LANGUAGES[1:]
VALUE = re.compile(r"\{[^}]*\}|%\(\w+\)[sdgf.0-9]*")
SHARED = {
    # words that a language shares with English, beside the names of fibres
    "fr": {
        "CODE", "Code", "Copies", "Fibre", "Fibres", "Leggings", "Machines", "Note", "Notes",
        "OPTION", "OPTIONS", "PHOTO", "PHOTOS", "SOURCE",
        "US Letter", "impossible", "jeans", "lengthwise-backup.zip", "machines", "opaque",
        "version %(n)d", "zigzag", "{name}, version {version}",
    },
    "de": {
        "CODE", "Code", "Leggings", "Material", "NAME", "Name", "OPTION", "Shorts", "TEXT",
        "US Letter", "lengthwise-backup.zip",
    },
}


def pairs(language):
    """Every text with its translation, singular and plural apart."""
    path = FOLDER / language / "LC_MESSAGES" / f"{DOMAIN}.po"
    for message in filter(lambda m: m.id, read_po(io.BytesIO(path.read_bytes()))):
        if isinstance(message.id, str):
            yield message.id, message.string
        else:
            yield from ((message.id[min(n, 1)], one) for n, one in enumerate(message.string))


def test_french_sets_a_space_before_what_stands_high():
    """U+00A0 before : ; ! ? and within « » (Imprimerie nationale, from memory; the narrow one
    before ; ! ? is not in every font of a terminal), so that none begins a line.
    """
    high = re.compile(r"(?<=[^\s\u00a0]) [:;!?»](?=[\s).,]|$)|[^\s\u00a0][;!?»](?=\s|$)")
    for _, said in pairs("fr"):
        assert not re.search("«[^\u00a0]", said), said
        assert not high.search(re.sub("(?<=«\u00a0)[^»\u00a0]*", "", said)), said


def test_french_has_its_apostrophe():
    """’ in words; the straight one only where a command shows how something is typed."""
    assert not [said for _, said in pairs("fr") if re.search(r"\w'\w", said)]


def test_german_has_its_quotation_marks():
    """„ opens and “ closes, and each that opens closes."""
    for _, said in pairs("de"):
        assert not set(said) & set("”«»"), said
        assert re.sub("[^„“]", "", said) == "„“" * said.count("„"), said


@pytest.mark.parametrize("language", OTHERS)
def test_straight_quotes_are_only_kept_from_the_english(language):
    """As round what is typed at a command line."""
    assert not [said for text, said in pairs(language) if said.count('"') > text.count('"')]


@pytest.mark.parametrize("language", OTHERS)
def test_nothing_is_left_as_it_is_in_english(language):
    """Save words that both languages have, each known by name."""
    shared = SHARED[language] | {known.name for known in fibres()}
    left = {text for text, said in pairs(language)
            if text == said and re.search("[A-Za-z]{2}", VALUE.sub("", text))}

    assert left <= shared, left - shared
    assert SHARED[language] <= left, SHARED[language] - left
