"""Whom a sentence is for: the units she reads and her language."""

from __future__ import annotations

from dataclasses import dataclass

from stash.units import System


@dataclass(frozen=True)
class Reader:
    """``language`` is a two-letter code for which there is a catalogue; English needs none."""

    system: System
    language: str = "en"
