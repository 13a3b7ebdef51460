"""The address that labels carry."""

from __future__ import annotations

from random import Random

import pytest
from zeroconf import NonUniqueNameException

from labels.local_name import announced, default_address, lan_address, tidy
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
    monkeypatch.setattr("labels.local_name.lan_address", lambda: None)

    with announced() as name:
        assert name is None


class Network:
    """A network on which some names are another's already, or that carries none."""

    def __init__(self, taken=(), error=None):
        self.taken, self.error, self.told, self.left = taken, error, [], False

    def register_service(self, info):
        """As RFC 6762, 9 has it: a name that answers for another is not taken."""
        if self.error:
            raise self.error
        if info.server.removesuffix(".local.") in self.taken:
            raise NonUniqueNameException
        self.told.append((info.server, info.port, info.parsed_addresses()))

    def close(self):
        """The name is given up."""
        self.left = True


@pytest.fixture
def network(monkeypatch):
    """This computer is 192.168.7.7 on the network that is told."""
    def on(network):
        monkeypatch.setattr("labels.local_name.lan_address", lambda: "192.168.7.7")
        monkeypatch.setattr("labels.local_name.Zeroconf", lambda **_: network)
        return network

    return on


def test_the_name_is_announced_while_served_and_given_up_after(network):
    """It leads to this computer's number and port."""
    free = network(Network())

    with announced(port=5001) as name:
        assert name == "stash.local"
        assert free.told == [("stash.local.", 5001, ["192.168.7.7"])]
        assert not free.left
    assert free.left


def test_a_name_that_another_has_gets_a_number(network):
    """The second workroom in a house is stash-2, the third stash-3."""
    network(Network(taken={"stash", "stash-2"}))

    with announced() as name:
        assert name == "stash-3.local"


def test_no_name_is_announced_where_all_are_taken_or_the_network_carries_none(network):
    """Not an error either; and what was opened is closed."""
    full = Network(taken={"stash", *(f"stash-{n}" for n in range(2, 10))})
    for other in (full, Network(error=OSError("no multicast"))):
        network(other)
        with announced() as name:
            assert name is None
        assert other.left


@pytest.mark.parametrize(("number", "told"), [("192.168.7.7", "192.168.7.7"), ("127.0.0.1", None)])
def test_the_number_is_that_of_the_local_network_or_none(monkeypatch, number, told):
    """The loopback (RFC 1122, 3.2.1.3) leads a telephone nowhere."""
    class Probe:
        def __enter__(self):
            return self

        def __exit__(self, *_):
            """Closed."""

        def connect(self, address):
            """Nothing is sent; the address is one for documentation (RFC 5737)."""
            assert address[0].startswith("192.0.2.")

        def getsockname(self):
            """The system's own choice."""
            return number, 40000

    monkeypatch.setattr("labels.local_name.socket.socket", lambda *_: Probe())

    assert lan_address() == told


def test_a_computer_on_no_network_has_no_number(monkeypatch):
    """The system knows no way out."""
    def unreachable(*_):
        raise OSError("network is unreachable")

    monkeypatch.setattr("labels.local_name.socket.socket", unreachable)

    assert lan_address() is None
