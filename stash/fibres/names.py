"""Fibre names that a label may use: Regulation (EU) No 1007/2011, Annex I.

The names are law; the two- and three-letter codes are trade usage. fibres.csv gives
each row's source and status; words_fr_de.csv has what French and German labels say.
"""

from __future__ import annotations

import csv
import unicodedata
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from stash.errors import InvalidInput


@dataclass(frozen=True)
class Fibre:
    """One fibre: its Annex I number and name, label codes, and other words for it."""

    number: int
    name: str
    code: str
    other_code: str
    also: tuple[str, ...]
    status: str
    code_status: str
    source: str


@cache
def fibres() -> tuple[Fibre, ...]:
    """Every fibre of fibres.csv, in the order of the Annex."""
    text = files(__package__).joinpath("fibres.csv").read_text(encoding="utf-8")
    return tuple(_read(row) for row in csv.DictReader(text.splitlines()))


def _read(row: dict[str, str]) -> Fibre:
    typed: dict[str, Any] = dict(row)
    typed["number"] = int(row["number"])
    typed["also"] = tuple(word for word in row["also"].split(";") if word)
    return Fibre(**typed)


@cache
def other_words() -> tuple[tuple[str, str, str], ...]:
    """(language, word, name of the Annex) of words_fr_de.csv, each row with its status there."""
    text = files(__package__).joinpath("words_fr_de.csv").read_text(encoding="utf-8")
    return tuple((row["language"], row["word"], row["name"])
                 for row in csv.DictReader(text.splitlines()))


@cache
def _by_word() -> dict[str, Fibre]:
    named = {fibre.name: fibre for fibre in fibres()}
    others = {_key(word): named[name] for _language, word, name in other_words()}
    return others | {
        _key(word): fibre
        for fibre in fibres()
        for word in (fibre.name, fibre.code, fibre.other_code, *fibre.also)
        if word
    }


def _key(word: str) -> str:
    """A word without case, accents or spare spaces: people type "elasthanne" too."""
    plain = unicodedata.normalize("NFKD", " ".join(word.split()).casefold())
    return "".join(c for c in plain if not unicodedata.combining(c))


def fibre(word: str) -> Fibre:
    """The fibre that a name, a label code or a common word stands for, French and German too."""
    found = _by_word().get(_key(word))
    if found is None:
        raise InvalidInput("not_a_fibre", typed=word.strip()[:40], field="fibres")
    return found
