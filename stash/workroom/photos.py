"""Photographs of cuts and bins: kept, shown, taken off."""

from __future__ import annotations

from pathlib import Path

from stash.ledger import Event
from stash.store import Stash
from stash.store.photos import Photo


def of(stash: Stash, code: str) -> list[Photo]:
    """The photographs of what carries this code."""
    return stash.photos.of(code)


def add(stash: Stash, code: str, content: bytes, token: str | None = None) -> Event:
    """Keep a photograph."""
    return stash.photos.add(code, content, token=token)


def file(stash: Stash, code: str, photo: str, *, small: bool = False) -> Path:
    """The JPEG on disk, small when asked for."""
    return stash.photos.file(code, photo, small=small)


def remove(stash: Stash, code: str, photo: str, token: str | None = None) -> Event:
    """Take a photograph off; an undo brings it back."""
    return stash.photos.remove(code, photo, token=token)
