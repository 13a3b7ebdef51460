"""A fact becomes a sentence once, at the edge, for a reader with units and a language."""

import string
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import InvalidInput
from stash.fact import Term, fact
from stash.sentences import Reader, say, says
from stash.sentences.elision import elided
from stash.sentences.manner import in_the_manner_of
from stash.sentences.wording import TOPICS, WORDING
from stash.units import System

METRIC, INCHES = Reader(System.METRIC), Reader(System.INCHES)


def test_the_same_fact_is_said_in_the_units_of_its_reader():
    """180 g/m² for one reader is 5.3 oz/yd² for another; the fact has the grams."""
    heavy = fact("no_cloth_weighs", mass_gsm=4000.0)

    assert say(heavy, METRIC) == "4000 g/m² is not a weight cloth can have."
    assert say(heavy, INCHES) == "118.0 oz/yd² is not a weight cloth can have."


def test_a_fact_inside_a_fact_is_said_inside_its_sentence():
    """What blocks an undo is itself a fact."""
    blocked = fact("undo_blocked", because=fact("undone_before"))

    assert say(blocked, METRIC).endswith("recorded later. This was already undone.")


def test_an_error_is_a_fact_with_a_field():
    """A program reads the kind and the values; a person reads the sentence."""
    error = InvalidInput("not_a_size", typed="3", field="size")

    assert error.fact.to_json() == {"kind": "not_a_size", "typed": "3"}
    assert error.field == "size"
    assert says(error, METRIC) == "“3” is not a size: write length x width."


def test_a_kind_stands_in_one_topic_only():
    """Two topics with one kind would hide each other's wording."""
    kinds = [kind for topic in TOPICS for kind in topic.SENTENCES]

    assert sorted(kinds) == sorted(set(kinds))


def test_every_topic_is_joined_in():
    """A wording file that nobody lists would be silent."""
    files = {p.stem for p in Path("stash/sentences/wording").glob("*.py")} - {"__init__"}

    assert files == {topic.__name__.rpartition(".")[2] for topic in TOPICS}


@pytest.mark.parametrize("kind", sorted(WORDING))
def test_wording_names_its_values(kind):
    """Only plain names stand in braces, so that a translator cannot break a sentence."""
    forms = WORDING[kind] if isinstance(WORDING[kind], tuple) else (WORDING[kind],)
    for form in forms:
        names = [name for _, name, _, _ in string.Formatter().parse(form) if name is not None]
        assert all(name.isidentifier() for name in names), form


@given(st.floats(1, 1e6), st.text(max_size=20))
def test_a_fact_is_the_same_fact_whatever_the_order_of_its_values(mm, name):
    """Facts are compared and put in sets."""
    one, other = fact("k", a_mm=mm, b=name), fact("k", b=name, a_mm=mm)

    assert one == other
    assert hash(one) == hash(other)


def test_a_trade_term_stays_a_string_for_a_program():
    """``Term`` marks what is translated; JSON has the bare word."""
    assert fact("k", made=Term("woven")).to_json() == {"kind": "k", "made": "woven"}


@pytest.mark.parametrize(("template", "value", "said"), [
    ("80 cm de {name}.", "élastique", "80 cm d’élastique."),
    ("80 cm de {name}.", "Œillets", "80 cm d’Œillets."),
    ("80 cm de {name}.", "lin", "80 cm de lin."),
    ("De {name} au bord", "ici", "D’ici au bord"),
    ("Il faut que {name} soit là", "Odile", "Il faut qu’Odile soit là"),
    ("de {name} à huit", "onze", "de onze à huit"),
    ("de {name}", "haut", "de haut"),
    ("le monde {name}", "entier", "le monde entier"),
    ("de {name}", "", "de "),
])
def test_french_elides_before_what_a_value_begins_with(template, value, said):
    """Grevisse, Le bon usage, on elision (from memory): de and que lose their e before a vowel."""
    assert elided(template, {"name": value}) == said


@pytest.mark.parametrize(("written", "language", "said"), [
    ("1,234.5 mm", "fr", "1\u202f234,5 mm"), ("1,234.5 mm", "de", "1.234,5 mm"),
    ("2,814,290", "de", "2.814.290"), ("13.5 mm, 96.2 mm", "fr", "13,5 mm, 96,2 mm"),
    ("1,234.5 mm", "en", "1,234.5 mm"),
])
def test_the_marks_of_a_number_are_its_readers(written, language, said):
    """Unicode CLDR: French groups by a narrow space, German by a point."""
    assert in_the_manner_of(written, Reader(System.METRIC, language)) == said
