"""The text in a symbol: any host, any case, never a wrong code."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labels.payload import Payload, compose, interpret, is_foreign
from stash.errors import InvalidInput
from stash.model import Code
from stash.model.code import ALPHABET

CODE = Code.draw(Random(7)).text
codes = st.integers(0, 10**6).map(lambda seed: Code.draw(Random(seed)).text)
hosts = st.from_regex(r"[a-z0-9]([a-z0-9-]{0,10}[a-z0-9])?(\.local)?(:[1-9][0-9]{1,4})?",
                      fullmatch=True)


def test_an_address_is_written_in_capitals():
    """QR's alphanumeric mode has no lower case (ISO/IEC 18004, table 5)."""
    assert compose(CODE, "http://stash.local:5000/") == f"HTTP://STASH.LOCAL:5000/C/{CODE}"


def test_a_host_alone_is_an_http_address():
    """A host alone is an http address."""
    assert compose(CODE, "192.168.1.7:5000") == f"HTTP://192.168.1.7:5000/C/{CODE}"


def test_without_an_address_the_code_stands_alone():
    """Without an address the code stands alone."""
    assert compose(CODE.lower(), None) == CODE


@given(codes, hosts, st.booleans())
def test_what_is_composed_is_interpreted_whatever_the_case(code, host, lower):
    """What is composed is interpreted whatever the case."""
    text = compose(code, host)

    assert interpret(text.lower() if lower else text) == Payload(Code(code), host)


@pytest.mark.parametrize(
    "text", ["http://10.0.0.1/c/{}", "HTTPS://X.LOCAL:8443/C/{}/", "x.local:1/c/{}?from=1", " {} "]
)
def test_every_spelling_of_an_address_names_the_label(text):
    """Every spelling of an address names the label."""
    assert interpret(text.format(CODE)).code.text == CODE


@pytest.mark.parametrize(
    "text", ["", "hello", "http://x.local/", "http://x.local/c/", "http://x.local/d/" + CODE,
             "http://x.local/c/" + CODE + "/more/" + CODE, "WIFI:S:loft;;"],
)
def test_other_texts_are_no_labels(text):
    """Other texts are no labels."""
    assert interpret(text) is None


@given(codes, st.integers(0, 5), st.sampled_from(ALPHABET))
def test_one_wrong_character_is_refused_not_misread(code, place, wrong):
    """One wrong character is refused not misread."""
    damaged = code[:place] + wrong + code[place + 1 :]

    assert interpret(damaged) == (Payload(Code(code)) if damaged == code else None)


@given(st.text(max_size=80))
def test_no_text_raises(text):
    """No text raises."""
    found = interpret(text)

    assert found is None or Code.parse(found.code.text)


def test_a_code_that_is_none_is_not_printed():
    """A code that is none is not printed."""
    with pytest.raises(InvalidInput):
        compose("ABCDEF", "x.local")


def test_a_label_of_another_instance_is_foreign():
    """A label of another instance is foreign."""
    ours = frozenset({"stash.local:5000"})

    assert is_foreign(Payload(Code(CODE), "other.local:5000"), ours, known=False)
    assert not is_foreign(Payload(Code(CODE), "stash.local:5000"), ours, known=False)
    assert not is_foreign(Payload(Code(CODE), "old.local:80"), ours, known=True)
    assert not is_foreign(Payload(Code(CODE)), ours, known=False)
