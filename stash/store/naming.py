"""Names as people mean them: case, accents and spacing make no difference."""

from __future__ import annotations

import unicodedata


def key_of(name: str) -> str:
    """"  Zoë  Pérez " and "zoe perez" have the same key."""
    if name.isascii():
        return " ".join(name.casefold().split())
    parts = unicodedata.normalize("NFKD", name.casefold())
    plain = "".join(c for c in parts if not unicodedata.combining(c))
    return " ".join(plain.split())


def is_name(name: str) -> bool:
    """Whether there is a letter or a number in it, by which it can be asked for."""
    return any(c.isalnum() for c in key_of(name))
