"""Whether anything answers at the address that labels are about to carry.

Asked before they are printed, since a label outlives the mistake: the app not shared with the
network, or at another port. The name is not looked up, because computers may not find ``.local``
names that every phone does: what is asked is this computer's own number on the network.
"""

from __future__ import annotations

import http.client
import socket
import ssl
from contextlib import closing, suppress
from urllib.parse import urlsplit

from labels.local_name import lan_address
from stash.fact import Fact, fact

PATIENCE_S = 1.0
OURS = b"Lengthwise"
ASKED = "/static/app.webmanifest"
HERE = "127.0.0.1"


def silence_at(address: str, *, served_port: int | None = None) -> Fact | None:
    """Why a label with this address would open nothing; None where the app answers there.

    ``served_port`` is the port that is known to be served, by the page that asks.
    """
    parts = urlsplit(address)
    host, secure = parts.hostname or "", parts.scheme == "https"
    port = parts.port or (443 if secure else 80)
    if host == "localhost" or host.startswith("127."):
        return fact("address_only_here", address=address)
    number = lan_address() if host.endswith(".local") else host
    if number is None:
        return fact("address_without_network", address=address)
    if _answers(number, port, secure, known=port == served_port):
        return None
    if _answers(HERE, port, secure, known=port == served_port):
        return fact("address_not_shared", address=address)
    if served_port is not None and served_port != port:
        return fact("address_of_another_port", address=address, port=str(served_port))
    return fact("address_silent", address=address)


def _answers(host: str, port: int, secure: bool, *, known: bool) -> bool:
    """Whether the app is there; of the port that this very request came to, whether it is open."""
    if known:
        return _open(host, port)
    with suppress(OSError, http.client.HTTPException, ValueError):
        connection = http.client.HTTPSConnection(
            host, port, timeout=PATIENCE_S, context=_unproven()) if secure else (
            http.client.HTTPConnection(host, port, timeout=PATIENCE_S))
        with closing(connection):
            connection.request("GET", ASKED)
            answer = connection.getresponse()
            return answer.status == 200 and OURS in answer.read(10_000)
    return False


def _open(host: str, port: int) -> bool:
    with suppress(OSError), socket.create_connection((host, port), timeout=PATIENCE_S):
        return True
    return False


def _unproven() -> ssl.SSLContext:
    """The app's certificate is its own: who answers is told by what it says."""
    context = ssl.create_default_context()
    context.check_hostname = False
    context.verify_mode = ssl.CERT_NONE
    return context
