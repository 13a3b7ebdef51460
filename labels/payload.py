"""The text inside a QR symbol: written from a code, read back into one.

The host in the address is never needed to know which label it is: addresses of
an instance change and phones lower-case what they read, so any host is accepted
and only ``/C/<code>`` counts.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from stash.errors import InvalidInput
from stash.model import Code

_ADDRESS = re.compile(r"(?:https?://)?([^/\s?#]+)/c/([^/\s?#]+)/?(?:[?#].*)?", re.IGNORECASE)


@dataclass(frozen=True)
class Payload:
    """A checked code and the host it was printed with, lower case; None for a bare code."""

    code: Code
    host: str | None = None


def compose(code: str, address: str | None) -> str:
    """``HTTP://HOST:PORT/C/CODE`` in the capitals QR's alphanumeric mode has, or the bare code.

    ``address`` is ``host``, ``host:port`` or a whole ``http(s)://host:port``.
    """
    text = str(Code.parse(code))
    if not address:
        return text
    scheme, _, rest = address.strip().rpartition("://")
    return f"{scheme or 'http'}://{rest.rstrip('/')}/C/{text}".upper()


def interpret(text: str) -> Payload | None:
    """The label that a decoded text names, or None when it is not a label of this kind.

    A text whose check character disagrees is None too: never a wrong code.
    """
    text = text.strip()
    found = _ADDRESS.fullmatch(text)
    host, typed = (found.group(1).lower(), found.group(2)) if found else (None, text)
    try:
        return Payload(Code.parse(typed), host)
    except InvalidInput:
        return None


def is_foreign(payload: Payload, own_hosts: frozenset[str], known: bool) -> bool:
    """True for a label of another instance: its host was never ours and its code is not here.

    ``own_hosts`` are all hosts this instance has had, with and without port, lower case.
    A bare code carries no host, so it is never called foreign, only unknown.
    """
    if known or payload.host is None:
        return False
    return payload.host not in own_hosts and payload.host.partition(":")[0] not in own_hosts
