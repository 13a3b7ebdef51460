"""Whom a sentence is for: the units she reads and her language."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass, field

from stash.units import System

LANGUAGES = ("en", "fr", "de")
"""The languages there are catalogues for; English is what the house speaks itself."""


def _unnamed(_code: str) -> str:
    return ""


@dataclass(frozen=True)
class Reader:
    """``language`` is one of LANGUAGES.

    ``name_of`` tells what lies behind a label's code, "" where nothing is known: a code alone
    says nothing to a person. ``unbroken`` is for pages and paper, where lines end by themselves:
    no number parts from its unit there (``stash.sentences.unbroken``).
    """

    system: System
    language: str = "en"
    name_of: Callable[[str], str] = field(default=_unnamed, compare=False, repr=False)
    unbroken: bool = False


METRIC = Reader(System.METRIC)
"""Whoever has not said otherwise."""


def spoken() -> str:
    """The language of this terminal, where there is a catalogue for it."""
    asked = (os.environ.get(name) for name in ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"))
    said = next(filter(None, asked), "en")[:2]
    return said if said in LANGUAGES else "en"
