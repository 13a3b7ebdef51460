"""A fact: what kind of thing is so, and the numbers and names it is about.

Errors, reasons for and against, changes, verdicts and happenings are facts inside the
house. ``stash.sentences`` alone turns one into a sentence, in the reader's units and
language; a program reads the fact itself. No rule ever reads a sentence.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Union

Value = Union[str, float, bool, None, "Fact", tuple["Value", ...]]


class Term(str):
    """A word of the trade (``woven``, ``trousers``, ``button``): said in the reader's language.

    A plain ``str`` in a fact is a name that somebody gave, and is said as it stands.
    """

    __slots__ = ()


@dataclass(frozen=True)
class Fact:
    """``kind`` names a sentence; ``pairs`` hold its values, sorted by name.

    A number carries its unit in its name: ``length_mm``, ``width_mm``, ``mass_gsm``,
    ``shrink_pct``, ``turn_deg``, ``price_minor``, ``count``. A value may be a fact, or a
    tuple of values that are said as a list.
    """

    kind: str
    pairs: tuple[tuple[str, Value], ...] = ()

    @property
    def values(self) -> Mapping[str, Value]:
        """The values by name."""
        return MappingProxyType(dict(self.pairs))

    def to_json(self) -> dict[str, object]:
        """``{"kind": ..., name: value, ...}``; numbers rounded to a thousandth."""
        return {"kind": self.kind} | {name: _plain(value) for name, value in self.pairs}

    def __str__(self) -> str:
        told = ", ".join(f"{name}={value!r}" for name, value in self.pairs)
        return f"{self.kind}({told})"


def fact(kind: str, /, **values: Value) -> Fact:
    """``fact("too_heavy", mass_gsm=230.0, most_gsm=180.0)``."""
    return Fact(kind, tuple(sorted(values.items())))


def _plain(value: Value) -> object:
    if isinstance(value, Fact):
        return value.to_json()
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    if isinstance(value, float):
        return round(value, 3)
    return str(value) if isinstance(value, Term) else value
