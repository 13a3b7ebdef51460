"""A notion that is wanted, the ways a stash can supply it, and the way chosen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from stash.fact import Fact, Term, fact
from stash.model import Bin, Closure, Cloth, Lay, Need, NotionKind
from stash.notions.as_sold import Sold, as_sold


class How(StrEnum):
    """How well a choice answers the need; exact first."""

    EXACT = "exact"
    NEAR = "near"
    FEWER = "fewer"
    MIXED = "mixed"
    FROM_CLOTH = "from cloth"


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """One need of one garment, with what a choice must suit.

    ``closure`` for the buttons of a front; ``cloth`` is what the notion goes with;
    ``lay_on`` lays the pieces of an interfacing on a bin's width, None when they do not
    go on it.
    """

    garment: str
    need: Need
    closure: Closure | None = None
    cloth: Cloth | None = None
    cloth_width_mm: float | None = None
    lay_on: Callable[[Bin], Lay | None] | None = None

    @property
    def colour(self) -> str | None:
        """The colour to match, when the need asks for it and the cloth's is recorded."""
        if self.need.match_colour and self.cloth and self.cloth.colours:
            return self.cloth.colours[0]
        return None

    @property
    def amount(self) -> float:
        """Count or millimetres, whichever the kind is reckoned in."""
        return float((self.need.count if self.need.kind.counted else self.need.length_mm) or 0)


@dataclass(frozen=True, kw_only=True)
class Supply:
    """One way to supply a need: what to take from which bins, and what it asks of the maker.

    ``cost`` orders choices, 0 for the very thing; ``parts`` are (bin code, amount);
    ``told`` says what is done. ``lay`` is how interfacing lies on its bin's width.
    """

    how: How
    parts: tuple[tuple[str, float], ...]
    told: tuple[Fact, ...]
    cost: float
    positions_mm: tuple[float, ...] = ()
    buttonhole_mm: float | None = None
    lay: Lay | None = None


@dataclass(frozen=True, kw_only=True)
class Line:
    """A need with the choice promised to it, or None when the stash cannot supply it.

    ``nearest`` is what the bins hold instead, and what is wrong with it.
    """

    wanted: Wanted
    chosen: Supply | None
    others: tuple[Supply, ...] = ()
    nearest: tuple[Fact, ...] = ()


def much(kind: NotionKind, amount: float) -> Fact:
    """An amount of a kind of notion, as it is said: "7", "1.20 m", "120 m" of thread."""
    if kind.counted:
        return fact("so_many", number=amount)
    if kind is NotionKind.THREAD:
        return fact("so_much_thread", thread_mm=amount)
    return fact("so_much", length_mm=amount)


def what_to_buy(wanted: Wanted) -> Fact:
    """The shopping line, as shops sell it: "8 buttons, 11.4 mm (18L), for the front"."""
    need, sold = wanted.need, as_sold(wanted.need)
    things = _things(sold)
    cloth = wanted.cloth if wanted.colour else None
    return fact(
        "to_buy", things=things, sized=_size(sold),
        matched=fact("to_match", cloth=cloth.name) if cloth else None,
        why=need.reason,
        garment=wanted.garment,
    )


def _things(sold: Sold) -> Fact:
    """"1 zip", "2 spools of 200 m of sewing thread", "1.2 m of elastic"."""
    if sold.kind is NotionKind.THREAD:
        return fact(
            f"{sold.put_up}s_of_thread", count=sold.count, each_thread_mm=sold.put_up_mm,
            thread_mm=sold.needed_mm, use=Term(sold.use),
        )
    if sold.kind.counted:
        return fact(f"count_of_{sold.kind.value}", count=sold.count)
    return fact("much_of", much=much(sold.kind, sold.length_mm or 0.0), thing=Term(sold.kind.value))


def _size(sold: Sold) -> Fact | None:
    if sold.size_mm is None:
        return None
    if sold.kind is NotionKind.BUTTON:
        return fact("of_diameter", diameter_mm=sold.size_mm)
    if sold.kind is NotionKind.SNAP:
        return fact("of_size", size_mm=sold.size_mm)
    return fact("so_long" if sold.kind is NotionKind.ZIP else "so_wide", size_mm=sold.size_mm)
