"""Garments that can be drafted: what they ask for, and the pattern for one body."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from stash.draft.body import how, word
from stash.draft.catalogue import GarmentInfo, about, draft, garments
from stash.draft.chosen import key_of
from stash.draft.garment import Choice, Measure, Option
from stash.model import Pattern, Person
from stash.store import Stash

__all__ = ["Choice", "GarmentInfo", "Measure", "Option", "about", "draft", "garments", "how",
           "key_of", "word"]


def drafted(person: Person, name: str, options: Mapping[str, object]) -> Pattern:
    """The pattern of one garment for one person."""
    pattern = draft(name, person.measurements_mm, options, person.body)
    return replace(pattern, wearer=person.name)


def all_options() -> dict[str, Option]:
    """Every option of any garment, by its name and by its garment's: ``shirt.length``."""
    return {
        key: option
        for name in garments()
        for option in about(name).options
        for key in (option.name, key_of(name, option.name))
    }


def makeable(stash: Stash) -> list[tuple[str, str]]:
    """Everything that can be made, name and title: the drafts, then her own patterns."""
    drafts = [(name, about(name).title) for name in garments()]
    return drafts + [(kept.name, kept.name) for kept in stash.patterns.all()]
