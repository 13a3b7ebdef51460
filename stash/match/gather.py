"""Several garments as one set of pieces, named so that none is mistaken for another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from stash.model import Pattern, Piece, PlannedGarment, Role
from stash.model.outline import ring_area_mm2


@dataclass(frozen=True, kw_only=True)
class DraftedGarment:
    """One thing to make: its pattern, for whom, and the options it was drafted with."""

    pattern: Pattern
    person: str = ""
    options: Mapping[str, object] = field(default_factory=dict)

    @property
    def name(self) -> str:
        """The garment's name in its draft, for example ``shirt``."""
        return self.pattern.garment

    @property
    def planned(self) -> PlannedGarment:
        """What is asked for again to have the same garment."""
        return PlannedGarment(
            garment=self.name, person=self.person, options=dict(self.options)
        )


def labels(garments: Sequence[DraftedGarment]) -> tuple[str, ...]:
    """A different label for each: ``shirt``, or ``shirt for Bram`` and ``shirt for Pip``."""
    names = Counter(g.name for g in garments)
    told = [
        f"{g.name} for {g.person}" if names[g.name] > 1 and g.person else g.name for g in garments
    ]
    seen: Counter[str] = Counter()
    result = []
    for label in told:
        seen[label] += 1
        result.append(f"{label} {seen[label]}" if seen[label] > 1 else label)
    return tuple(result)


def gather(garments: Sequence[DraftedGarment]) -> tuple[Piece, ...]:
    """All pieces of all garments; with several garments each name opens with its label.

    A single garment keeps the names of its draft.
    """
    if len(garments) == 1:
        return garments[0].pattern.pieces
    return tuple(
        replace(piece, name=f"{label} {piece.name}")
        for label, garment in zip(labels(garments), garments, strict=True)
        for piece in garment.pattern.pieces
    )


def of_role(pieces: Iterable[Piece], role: Role) -> tuple[Piece, ...]:
    """The pieces cut from one kind of cloth."""
    return tuple(piece for piece in pieces if piece.role is role)


def area_mm2(pieces: Iterable[Piece]) -> float:
    """Area of every copy together."""
    return sum(piece.quantity * ring_area_mm2(piece.outline_mm) for piece in pieces)
