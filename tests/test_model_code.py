"""The code on a label cannot be misread into another."""

import re
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import InvalidInput
from stash.model.code import ALPHABET, Code

codes = st.integers(0, 2**32).map(lambda seed: Code.draw(Random(seed)))


@given(codes)
def test_a_code_reads_back_however_it_is_typed(code):
    """Lower case, spaces and hyphens are forgiven."""
    text = str(code)

    assert Code.parse(f" {text[:3].lower()}-{text[3:]} ") == code


@given(codes, st.integers(0, 5), st.sampled_from(ALPHABET))
def test_one_wrong_character_is_always_refused(sentence, code, position, other):
    """31 symbols are a prime number, so no weight can hide a changed character."""
    text = str(code)
    if text[position] == other:
        return
    with pytest.raises(InvalidInput) as refused:
        Code.parse(text[:position] + other + text[position + 1 :])
    assert re.search("check character", sentence(refused.value))


@given(codes, st.integers(0, 5), st.integers(0, 5))
def test_two_swapped_characters_are_always_refused(code, i, j):
    """Different weights catch every swap of two different characters."""
    letters = list(str(code))
    if letters[i] == letters[j]:
        return
    letters[i], letters[j] = letters[j], letters[i]
    with pytest.raises(InvalidInput):
        Code.parse("".join(letters))


def test_look_alikes_are_not_in_the_alphabet():
    """Nobody has to tell a nought from an O or a one from an I or an L."""
    assert not set("01ILO") & set(ALPHABET)
    assert len(ALPHABET) == len(set(ALPHABET)) == 31


@pytest.mark.parametrize("typed", ["", "7K3", "7K3FQ9X", "O0O0O0", "7K3F!9", "x" * 5000])
def test_what_is_no_code_is_refused_with_a_sentence(typed, sentence):
    """The sentence says what a code looks like and asks to read it again."""
    with pytest.raises(InvalidInput) as refused:
        Code.parse(typed)
    assert re.search("Please read the label again", sentence(refused.value))
