"""Labels whose address would open nothing say so before they are printed: page and command."""

from __future__ import annotations

import http.server
import json
import socket
import threading
from html import unescape

import pytest
from click.testing import CliRunner

from labels import who_answers
from labels.who_answers import silence_at
from stash.store import open_stash
from web import create_app
from web.command import main
from web.http_server import answering


@pytest.fixture(autouse=True)
def _patient(monkeypatch):
    """Whoever is there is heard, however busy the machine is."""
    monkeypatch.setattr(who_answers, "PATIENCE_S", 3600.0)


@pytest.fixture
def on_the_network(monkeypatch):
    """A computer whose number on the network is its second loopback number."""
    monkeypatch.setattr(who_answers, "lan_address", lambda: "127.0.0.2")


@pytest.fixture
def free_port():
    """A port at which nothing listens."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@pytest.fixture
def shared(tmp_path):
    """The app, served to the network: its port."""
    with answering(create_app(tmp_path / "shared"), "127.0.0.2", 0) as pages:
        yield pages.port


@pytest.fixture
def alone(tmp_path):
    """The app, served to this computer alone: its port."""
    with answering(create_app(tmp_path / "alone"), "127.0.0.1", 0) as pages:
        yield pages.port


def kind(address, **more):
    """What is said of an address."""
    silence = silence_at(address, **more)
    return silence and silence.kind


def test_where_the_app_is_shared_nothing_is_said(on_the_network, shared):
    """A .local name stands for this computer's number on the network."""
    assert kind(f"http://stash.local:{shared}") is None
    assert kind(f"http://127.0.0.2:{shared}".replace("127.0.0.2", "stash.local"),
                served_port=shared) is None


def test_an_app_that_is_not_shared_is_told_apart_from_none(on_the_network, alone, free_port):
    """What she must do differs: share it, or start it, or print its port."""
    assert kind(f"http://stash.local:{alone}") == "address_not_shared"
    assert kind(f"http://stash.local:{free_port}") == "address_silent"
    assert kind(f"http://stash.local:{free_port}", served_port=alone) == "address_of_another_port"


def test_an_address_of_this_computer_alone_is_no_address_for_a_label(alone):
    """RFC 1122, 3.2.1.3: 127/8 never leaves the computer."""
    assert kind(f"http://localhost:{alone}") == "address_only_here"
    assert kind(f"http://127.0.0.1:{alone}") == "address_only_here"


def test_without_a_network_it_cannot_be_told(monkeypatch):
    """That is said, and not that nothing answers."""
    monkeypatch.setattr(who_answers, "lan_address", lambda: None)

    assert kind("http://stash.local:5000") == "address_without_network"


def test_something_else_at_that_port_is_not_the_app(on_the_network):
    """Port 5000 is taken by other things on some computers."""
    other = http.server.HTTPServer(("127.0.0.2", 0), http.server.BaseHTTPRequestHandler)
    threading.Thread(target=other.serve_forever, daemon=True).start()
    try:
        assert kind(f"http://stash.local:{other.server_port}") == "address_silent"
    finally:
        other.shutdown()
        other.server_close()


def test_the_page_and_the_command_say_it(on_the_network, tmp_path, free_port, web_client, web_data):
    """On the page above the button; on the command line first, and in its JSON."""
    address = f"http://stash.local:{free_port}"
    with open_stash(web_data) as stash:
        stash.settings.set_address(address)

    page = unescape(web_client.get("/labels/", headers={"Host": "localhost:5987"}).text)
    result = CliRunner().invoke(main, [
        "--data", str(web_data), "labels", "--blank", "2", "--out", str(tmp_path / "l.pdf"),
        "--json"])
    told = json.loads(result.stdout)

    assert f"Labels would carry {address}, where nothing answers" in page
    assert told["address_answers"] is False
    assert told["warning"].startswith(f"Labels would carry {address}, where nothing answers now")
