"""The options of a garment: declared once, as the typed fields of its ``Options``.

A field made by :func:`measure` is a length in mm (None where the draft works it out), one
made by :func:`choice` is one of the words of its ``Literal`` type, the first unless another
is chosen. From them comes what a form asks and what a typed value is read by.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import Field, asdict, dataclass, field, fields
from math import isfinite
from typing import Any, Self, get_args

from stash.errors import InvalidInput
from stash.fact import Term
from stash.quantity import Quantity, read_length_or_nothing

MINUS = ("-", "−")
PRACTICE = "common practice, no source"


@dataclass(frozen=True, kw_only=True)
class Measure:
    """An option that is a length in mm; ``default`` None is worked out by the draft.

    ``edge`` is the edge whose allowance it is, ``source`` where the default comes from;
    ``fit`` marks a change to the fit, found on a toile and kept for one person.
    """

    name: str
    about: str
    least_mm: float
    most_mm: float
    default: float | None = None
    edge: str = ""
    source: str = PRACTICE
    fit: bool = False

    def read(self, value: object) -> float:
        """The option's value in mm from a number of mm or text with a unit."""
        mm = self._mm(value)
        if not (isfinite(mm) and self.least_mm <= mm <= self.most_mm):
            raise InvalidInput(
                "option_out_of_range", option=self.name, least_measure_mm=self.least_mm,
                most_measure_mm=self.most_mm, field=self.name,
            )
        return round(mm, 6)  # no ruler is finer; the least float is no length

    def _mm(self, value: object) -> float:
        if isinstance(value, int | float) and not isinstance(value, bool):
            return float(value)
        typed = str(value).strip()
        sign = -1.0 if typed[:1] in MINUS and self.least_mm < 0 else 1.0
        plain = typed.lstrip("".join(MINUS) + "+ ") if self.fit else typed
        return sign * read_length_or_nothing(plain, Quantity.PATTERN, field=self.name)

    def to_json(self) -> dict[str, object]:
        """Its name, meaning, range, default and the default's source."""
        return {"name": self.name, "about": self.about, "least_mm": self.least_mm,
                "most_mm": self.most_mm, "default_mm": self.default, "source": self.source,
                "fit": self.fit}


@dataclass(frozen=True, kw_only=True)
class Choice:
    """An option that is one of a few words; the first is the default."""

    name: str
    about: str
    words: tuple[str, ...]

    @property
    def default(self) -> str:
        """The word taken when nothing is chosen."""
        return self.words[0]

    def read(self, value: object) -> str:
        """The chosen word."""
        word = str(value).strip().lower()
        if word not in self.words:
            raise InvalidInput(
                "option_not_a_word", option=self.name, either=self.words, typed=str(value),
                field=self.name,
            )
        return word

    def to_json(self) -> dict[str, object]:
        """Its name, meaning, words and default."""
        return {"name": self.name, "about": self.about, "words": list(self.words),
                "default": self.default}


Option = Measure | Choice


@dataclass(frozen=True)
class _Declared:
    """What a field of an ``Options`` is, before it has its name."""

    about: str
    range_mm: tuple[float, float] = (0.0, 0.0)
    words: tuple[str, ...] = ()
    edge: str = ""
    source: str = PRACTICE
    fit: bool = False


def measure(
    about: str, least_mm: float, most_mm: float, default: float | None = None,
    source: str = PRACTICE,
) -> Any:
    """A field that is a length between two others, mm."""
    declared = _Declared(about, range_mm=(least_mm, most_mm), source=source)
    return field(default=default, metadata={"option": declared})


def choice(words: object, about: str) -> Any:
    """A field that is one word of a ``Literal``."""
    return field(
        default=get_args(words)[0],
        metadata={"option": _Declared(about, words=get_args(words))},
    )


def fit(about: str, least_mm: float, most_mm: float) -> Any:
    """A field that changes the fit by so much; nothing unless a toile asked for it."""
    declared = _Declared(about, range_mm=(least_mm, most_mm), fit=True)
    return field(default=0.0, metadata={"option": declared})


def seam_of(edge: str) -> Any:
    """The allowance of one edge, where it is to differ from the others'."""
    declared = _Declared(f"allowance at the {edge} alone", range_mm=(0.0, 50.0), edge=edge)
    return field(default=None, metadata={"option": declared})


@dataclass(frozen=True, kw_only=True)
class Options:
    """What can be chosen of a garment; each garment has its own."""

    @classmethod
    def all(cls) -> tuple[Option, ...]:
        """Every option: the garment's own first, then those it shares."""
        found: dict[str, Option] = {}
        named = {f.name: f for f in fields(cls)}
        for owner in cls.__mro__:
            for name in owner.__dict__.get("__annotations__", {}):
                if name in named and name not in found:
                    found[name] = _option(named[name])
        return tuple(found.values())

    @classmethod
    def read(cls, given: Mapping[str, object], title: str) -> Self:
        """Options from text or numbers by name, each checked, defaults filled in."""
        known = {o.name: o for o in cls.all()}
        for name in given:
            if name not in known:
                raise InvalidInput(
                    "garment_has_no_such_option", garment=Term(title), option=name,
                    known=tuple(known) or ("none",), field=name,
                )
        return cls(**{
            name: known[name].read(value) for name, value in given.items() if value is not None
        })

    def adjusted(self) -> dict[str, float]:
        """The changes to the fit that are made, mm."""
        values = asdict(self)
        return {
            o.name: float(values[o.name]) for o in self.all()
            if isinstance(o, Measure) and o.fit and values[o.name]
        }

    def to_json(self) -> dict[str, object]:
        """Values by name, as a pattern remembers them."""
        values = asdict(self)
        return {o.name: values[o.name] for o in self.all()}


def _option(declared_field: Field[Any]) -> Option:
    d: _Declared = declared_field.metadata["option"]
    default: Any = declared_field.default
    if d.words:
        return Choice(name=declared_field.name, about=d.about, words=d.words)
    return Measure(
        name=declared_field.name, about=d.about, least_mm=d.range_mm[0], most_mm=d.range_mm[1],
        default=default, edge=d.edge, source=d.source,
        fit=d.fit,
    )
