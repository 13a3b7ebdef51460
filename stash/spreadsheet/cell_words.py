"""The few words that cells may hold, in three languages: kinds of thing, how cloth is made, yes.

words.csv has them; German and French are from memory where docs/words.md gives no source.
"""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

NAMES = {"en": "english", "fr": "french", "de": "german"}
KINDS = ("cut", "button", "snap", "hook", "zip", "elastic", "thread", "interfacing", "binding",
         "tape", "cord")
MADE = ("woven", "knit", "nonwoven")


@cache
def rows_of(name: str) -> tuple[dict[str, str], ...]:
    """The rows of a table beside this file."""
    text = files(__package__).joinpath(f"{name}.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))


def plain(word: str) -> str:
    """A word or a heading without what makes no difference to its meaning."""
    return " ".join(word.replace("_", " ").split()).strip(" .:*").casefold()


@cache
def meanings(name: str) -> dict[str, str]:
    """Every word of a table with the key it stands for."""
    found: dict[str, str] = {}
    for row in rows_of(name):
        for word in (row["key"], *(row[n] for n in NAMES.values()), *row["also"].split(";")):
            if word:
                found.setdefault(plain(word), row["key"])
    return found


def word(key: str, language: str, name: str = "words") -> str:
    """How a key is written in a language."""
    row = next(row for row in rows_of(name) if row["key"] == key)
    return row[NAMES.get(language, "english")]
