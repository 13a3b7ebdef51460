"""The card to take to the shop: what to buy, at any width, with colours and true sizes."""

from __future__ import annotations

from dataclasses import dataclass

from stash.colours import nearest
from stash.fact import Fact, fact
from stash.match.notions.wanted import Line, what_to_buy
from stash.match.shop.lengths import Length
from stash.notions.as_sold import Sold, as_sold
from stash.sentences import Reader, say
from stash.sentences.manner import in_the_manner_of
from stash.sentences.quantities import written


@dataclass(frozen=True, kw_only=True)
class ClothToBuy:
    """One length to buy: ``what`` for, how much at each width, what it must go with.

    ``colours`` are pairs of (name, #rrggbb) of the things it is to match.
    """

    what: Fact
    lengths: tuple[Length, ...]
    notes: tuple[Fact, ...] = ()
    colours: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, kw_only=True)
class NotionToBuy:
    """One notion to buy: the line to read out, and what can be drawn of it."""

    what: Fact
    kind: str
    count: int | None = None
    length_mm: float | None = None
    size_mm: float | None = None
    colour: str | None = None
    nearest: tuple[Fact, ...] = ()
    sold: Sold | None = None

    @classmethod
    def of(cls, line: Line) -> NotionToBuy:
        """The shopping line of a need that the stash cannot supply."""
        need = line.wanted.need
        sold = as_sold(need)
        return cls(
            what=what_to_buy(line.wanted), kind=need.kind.value,
            count=sold.count if need.kind.counted else None,
            length_mm=None if need.kind.counted else sold.length_mm or need.length_mm,
            size_mm=sold.size_mm, colour=line.wanted.colour, nearest=line.nearest, sold=sold,
        )


@dataclass(frozen=True, kw_only=True)
class Card:
    """Everything to buy on one trip."""

    title: str
    cloths: tuple[ClothToBuy, ...]
    notions: tuple[NotionToBuy, ...]
    currency: str = ""


def width_text(length: Length, reader: Reader) -> str:
    """The width as the shop prints it."""
    return written("width_mm", length.width_mm, reader)


def length_text(length: Length, reader: Reader) -> str:
    """What to ask for at this width, or that it does not go."""
    if length.length_mm is None:
        return say(fact("bolt_too_narrow"), reader)
    return written("_mm", length.length_mm, reader)


def cost_text(length: Length, currency: str, reader: Reader) -> str:
    """The price of that length, "" when no price was typed."""
    if length.cost_minor is None:
        return ""
    return in_the_manner_of(f"{length.cost_minor / 100:.2f} {currency}".strip(), reader)


def swatch_said(name: str, colour: str, reader: Reader) -> str:
    """"to match: charcoal": what a swatch is of, and its colour (#rrggbb or #rgb) by name.

    The figures say nothing at a counter, and a phone or a printer shows no colour truly.
    """
    digits = colour.strip().lstrip("#")
    full = digits if len(digits) == 6 else "".join(digit * 2 for digit in digits)
    word = nearest(f"#{full.lower()}").said(reader.language)
    return say(fact("swatch_of", name=name, colour=word), reader)
