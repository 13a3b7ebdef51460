"""What is grown: an option of a draft that is a length, or the number of copies."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Protocol

from stash.draft.catalogue import about
from stash.draft.garment import Measure
from stash.errors import InvalidInput
from stash.lay.cloth.validate import MOST_COPIES as MOST_PIECES
from stash.match.gather import of_role
from stash.match.order import Order
from stash.model import Pattern, Piece, Role
from stash.pattern.length_line import LENGTH, alters_by_mm, long_mm

# A tape is read to half a centimetre at the cutting table.
STEP_MM = 5.0
COPIES = "copies"


class Growing(Protocol):
    """Something that asks for more cloth the larger its ``value`` is.

    ``least`` to ``most`` is its range, ``step`` the difference that matters.
    """

    @property
    def name(self) -> str:
        """What grows."""

    @property
    def least(self) -> float:
        """Where its range begins."""

    @property
    def most(self) -> float:
        """Where its range ends."""

    @property
    def step(self) -> float:
        """The difference that matters."""

    def pieces(self, value: float) -> tuple[Piece, ...] | None:
        """The pieces of the main cloth at this value; None where it cannot be drafted."""


@dataclass(frozen=True)
class GrowingOption:
    """A length of a draft, all else as ordered."""

    order: Order
    name: str
    least: float
    most: float
    step: float = STEP_MM

    def pieces(self, value: float) -> tuple[Piece, ...] | None:
        """The draft with the option at ``value`` millimetres."""
        try:
            garment = self.order.with_options(**{self.name: value}).drafted()
        except InvalidInput:
            return None
        return of_role(garment.pattern.pieces, Role.MAIN)


@dataclass(frozen=True)
class GrowingCount:
    """So many copies of one garment, from one to many."""

    one: tuple[Piece, ...]
    name: str = COPIES
    least: float = 1.0
    step: float = 1.0

    @property
    def most(self) -> float:
        """As many as one lay can be asked for."""
        return float(MOST_PIECES // sum(piece.quantity for piece in self.one))

    def pieces(self, value: float) -> tuple[Piece, ...] | None:
        """The pieces of ``value`` copies."""
        copies = round(value)
        return tuple(replace(piece, quantity=piece.quantity * copies) for piece in self.one)


def growing(order: Order, name: str) -> Growing:
    """The option of this name, or "copies"; InvalidInput lists what can grow."""
    if name == COPIES:
        return GrowingCount(of_role(order.drafted().pattern.pieces, Role.MAIN))
    if order.pattern:
        return _growing_own(order, order.pattern, name)
    for option in about(order.garment).options:
        if option.name == name and isinstance(option, Measure):
            return GrowingOption(order, name, option.least_mm, option.most_mm)
    raise InvalidInput(
        "cannot_grow", typed=name, known=tuple(can_grow(order)), field="grow"
    )


def _growing_own(order: Order, own: Pattern, name: str) -> Growing:
    """How long a pattern of her own may be: as far as its lines let it be altered."""
    most_mm = alters_by_mm(own)
    if name != LENGTH or not most_mm:
        raise InvalidInput("own_pattern_grows_in_copies" if not most_mm else "cannot_grow",
                           typed=name, known=can_grow(order), field="grow")
    return GrowingOption(order, LENGTH, long_mm(own) - most_mm, long_mm(own) + most_mm)


def can_grow(order: Order) -> tuple[str, ...]:
    """The names of everything that can grow, "copies" last."""
    if order.pattern:
        return (LENGTH, COPIES) if alters_by_mm(order.pattern) else (COPIES,)
    lengths = [o.name for o in about(order.garment).options if isinstance(o, Measure)]
    return (*(name for name in lengths if not name.startswith("seam")), COPIES)
