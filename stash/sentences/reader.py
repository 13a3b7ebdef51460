"""Whom a sentence is for: the units she reads and her language."""

from __future__ import annotations

import os
from dataclasses import dataclass

from stash.units import System

LANGUAGES = ("en", "fr", "de")
"""The languages there are catalogues for; English is what the house speaks itself."""


@dataclass(frozen=True)
class Reader:
    """``language`` is one of LANGUAGES."""

    system: System
    language: str = "en"


METRIC = Reader(System.METRIC)
"""Whoever has not said otherwise."""


def spoken() -> str:
    """The language of this terminal, where there is a catalogue for it."""
    asked = (os.environ.get(name) for name in ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"))
    said = next(filter(None, asked), "en")[:2]
    return said if said in LANGUAGES else "en"
