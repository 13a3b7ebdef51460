"""The address that labels carry."""

from __future__ import annotations

from random import Random

import pytest

from labels.address import announced, default_address, tidy
from labels.payload import compose
from labels.qr import symbol
from stash.errors import InvalidInput
from stash.model import Code

CODE = Code.draw(Random(7)).text


def test_the_default_address_keeps_the_strongest_symbol():
    """Version 3 at level H, and so does the second instance's name on one network."""
    for address in (default_address(), "http://stash-2.local:5000"):
        made = symbol(compose(CODE, address))
        assert (made.version, made.level) == (3, "H")


@pytest.mark.parametrize(
    ("typed", "kept"),
    [("stash.local:5000", "http://stash.local:5000"), ("HTTPS://10.0.0.7:8443/",
     "https://10.0.0.7:8443"), (" http://Loft ", "http://loft")],
)
def test_an_address_is_tidied(typed, kept):
    """Scheme added, lower case, no slash at the end."""
    assert tidy(typed) == kept


@pytest.mark.parametrize("typed", ["", "http://", "two words", "ftp://x", "x/y", "http://x:port"])
def test_what_is_no_address_is_refused(typed, sentence):
    """One sentence with an example."""
    with pytest.raises(InvalidInput) as refused:
        tidy(typed)
    assert "write it like" in sentence(refused.value)


def test_without_a_network_nothing_is_announced(monkeypatch):
    """Not an error: the number address or the photograph serves."""
    monkeypatch.setattr("labels.address.lan_address", lambda: None)

    with announced() as name:
        assert name is None
