"""What is presumed of a cloth by what it is called: "denim", "medium"; and the usual widths.

The tables (``stash/reference``: cloth_kinds, weight_words, cloth_widths) give each row's source
and status. What is presumed is kept as such with the cloth (``Cloth.presumed``) until somebody
reads a label, weighs a swatch or says otherwise. The fibre is never presumed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from stash.errors import InvalidInput
from stash.model import Cloth, Construction
from stash.reference import table
from stash.units import INCH_MM, System


@dataclass(frozen=True)
class ClothKind:
    """A kind of cloth by name, and the facts that are presumed of it; None where none is."""

    name: str
    french: str
    german: str
    also: tuple[str, ...]
    facts: tuple[tuple[str, Any], ...]
    status: str
    source: str

    def said(self, language: str) -> str:
        """Its name in a language."""
        return {"fr": self.french, "de": self.german}.get(language, self.name)


@cache
def cloth_kinds() -> tuple[ClothKind, ...]:
    """Every kind of the table, in its order."""
    return tuple(_kind(row) for row in table("cloth_kinds"))


def _kind(row: dict[str, str]) -> ClothKind:
    facts: dict[str, Any] = {}
    if row["construction"]:
        facts["construction"] = Construction(row["construction"])
    for column, name in (("pile", "pile"), ("one_way", "one_way")):
        if row[column]:
            facts[name] = True
    if row["sheer"]:
        facts["opaque"] = False
    if row["presumed_gsm"]:
        facts["mass_gsm"] = float(row["presumed_gsm"])
    return ClothKind(
        name=row["kind"], french=row["french"], german=row["german"],
        also=tuple(word for word in row["also"].split(";") if word),
        facts=tuple(facts.items()), status=row["status"], source=row["source"])


def kind_called(name: str) -> ClothKind | None:
    """The kind a cloth is of by its name: "Harbour denim" is denim, "Jeansstoff" too.

    The kind named last wins, since a name ends in what the thing is; of two that end alike the
    longer word, so that French terry is not terry.
    """
    said = " ".join(name.casefold().replace("-", " ").split())
    found = [(at.end(), len(word), kind) for word, kind in _words()
             if (at := re.search(rf"(?<!\w){re.escape(word)}s?(?!\w)", said))]
    return max(found, key=lambda one: one[:2])[2] if found else None


@cache
def _words() -> tuple[tuple[str, ClothKind], ...]:
    return tuple((word.casefold().replace("-", " "), kind) for kind in cloth_kinds()
                 for word in {kind.name, kind.french, kind.german, *kind.also})


@dataclass(frozen=True)
class WeightWord:
    """A word for a weight, and the g/m2 that is presumed of it."""

    word: str
    presumed_gsm: float
    status: str
    source: str


@cache
def weight_words() -> tuple[WeightWord, ...]:
    """From very light to very heavy."""
    return tuple(
        WeightWord(row["word"], float(row["presumed_gsm"]), row["status"], row["source"])
        for row in table("weight_words"))


def by_weight_word(typed: str) -> float:
    """The g/m2 presumed of a word; InvalidInput for one that is none of weight_words."""
    for one in weight_words():
        if one.word == typed:
            return one.presumed_gsm
    raise InvalidInput(
        "not_a_weight_word", typed=typed[:30], known=tuple(w.word for w in weight_words()),
        field="weight_word")


def supposed(cloth: Cloth, **facts: Any) -> Cloth:
    """The cloth with these facts where it has none of its own, each marked as presumed."""
    unknown = {name: value for name, value in facts.items() if _unknown(cloth, name)}
    return replace(cloth, **unknown, presumed=tuple(sorted({*cloth.presumed, *unknown})))


def supposed_by_kind(cloth: Cloth, kind: ClothKind | None) -> Cloth:
    """The cloth with what is presumed of its kind."""
    return supposed(cloth, **dict(kind.facts)) if kind else cloth


def _unknown(cloth: Cloth, name: str) -> bool:
    return name in cloth.presumed or getattr(cloth, name) is None or (
        name == "one_way" and not cloth.one_way)


def usual_widths_mm(system: System) -> tuple[float, ...]:
    """The widths that cloth usually has, in the units that shops of hers print."""
    unit, mm = ("in", INCH_MM) if system is System.INCHES else ("cm", 10.0)
    return tuple(float(row["width"]) * mm for row in table("cloth_widths") if row["unit"] == unit)
