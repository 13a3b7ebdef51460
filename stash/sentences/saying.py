"""A fact said: its wording, filled with its values."""

from __future__ import annotations

import re
import string
from collections.abc import Iterable, Mapping

from stash.errors import StashError
from stash.fact import Fact, Term, Value
from stash.sentences.elision import elided
from stash.sentences.garments import garment_said
from stash.sentences.manner import apart, day, in_the_manner_of
from stash.sentences.quantities import written
from stash.sentences.reader import Reader
from stash.sentences.translations import translated
from stash.sentences.unbroken import units_kept
from stash.sentences.wording import WORDING

# Values that may name a garment.
CALLED = frozenset(("garment", "garments", "what"))
CODES = frozenset(("code", "cut"))
"""The values that are a label's code."""
_FILLER = string.Formatter()
_QUANTITY = re.compile(r"[\d.]+ \w+")
PIECES = frozenset({"piece", "pieces", "other"})
"""The values that name a piece of a pattern."""


def say(fact: Fact, reader: Reader) -> str:
    """The sentence of a fact. A kind without wording is a bug, and a KeyError."""
    values = fact.values
    template = translated(_form(fact.kind, values), reader.language)
    said = {name: _said(name, value, reader) for name, value in values.items()}
    if "{name}" not in template:  # a code stands beside the name of what bears it, once
        said |= {name: named(said[name], reader) for name in CODES & said.keys()}
    if reader.unbroken:
        template = units_kept(template)
    if reader.language == "fr":
        return elided(template, said)
    return _FILLER.vformat(template, (), said)


def named(code: str, reader: Reader) -> str:
    """"blue denim K7F2QX" where something on record bears the label; a code nobody knows alone."""
    name = reader.name_of(code)
    return f"{name} {code}" if name else code


def tell(told: Iterable[Fact], reader: Reader) -> str:
    """Facts as sentences, one after another."""
    return " ".join(say(one, reader) for one in told)


def says(error: StashError, reader: Reader) -> str:
    """The sentence of an error."""
    return say(error.fact, reader)


def _form(kind: str, values: Mapping[str, Value]) -> str | tuple[str, str, float]:
    """The wording of a kind; where it has two forms, ``count`` chooses between them."""
    wording = WORDING[kind]
    if isinstance(wording, str):
        return wording
    count = values["count"]
    assert isinstance(count, int | float)
    return (*wording, count)


def _said(name: str, value: Value, reader: Reader) -> str:
    if isinstance(value, Fact):
        return say(value, reader)
    if isinstance(value, tuple):
        if name == "steps":
            return apart((_said(name, one, reader) for one in value), reader)
        either = name.startswith("either")
        return _listed([_said(name, one, reader) for one in value], reader, either=either)
    if isinstance(value, str) and name in CALLED and (said := garment_said(value, reader)) != value:
        return said
    if isinstance(value, Term):
        return translated(str(value), reader.language)
    if isinstance(value, int | float) and not isinstance(value, bool):
        return written(name, float(value), reader)
    if name in PIECES and isinstance(value, str):
        return piece_named(value, reader)
    if name in ("on", "day") and value:
        return day(str(value), reader)
    if name == "example" and _QUANTITY.fullmatch(str(value)):
        return in_the_manner_of(str(value), reader)
    return "" if value is None else str(value)


def piece_named(name: str, reader: Reader) -> str:
    """A draft's piece in the reader's language, the number of a copy or of a namesake kept; her own
    as she named it."""
    if (said := garment_said(name, reader)) != name:
        return said
    alone, apart, number = name.rpartition("#" if "#" in name else " ")
    if number.isdecimal():
        return f"{translated(alone, reader.language)}{apart}{number}"
    return translated(name, reader.language)


def _listed(items: list[str], reader: Reader, *, either: bool = False) -> str:
    """"a", "a and b", "a, b and c"; "or" where it is one of them."""
    if len(items) < 2:
        return "".join(items)
    form = "{first} or {last}" if either else "{first} and {last}"
    both = translated(form, reader.language)
    return both.format(first=", ".join(items[:-1]), last=items[-1])
