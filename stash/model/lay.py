"""A lay: pieces arranged on a cloth."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum


class Spread(StrEnum):
    """How the cloth lies on the table."""

    OPEN = "open"
    LENGTHWISE = "lengthwise"
    CROSSWISE = "crosswise"


@dataclass(frozen=True)
class Placement:
    """Where one copy of a piece lies, in the frame of the *opened-out* cloth.

    If ``mirrored``, y -> -y; then turn by ``turn_deg`` counter-clockwise about the
    origin; then shift by (``x_mm``, ``y_mm``). x runs along the cloth, y across.
    ``piece`` is ``NAME#1``, ``NAME#2`` ...
    """

    piece: str
    x_mm: float
    y_mm: float
    turn_deg: float = 0.0
    mirrored: bool = False


@dataclass(frozen=True, kw_only=True)
class Lay:
    """Placements and what they use.

    ``length_mm`` is the length used, ``utilisation`` the area of the pieces over the
    area of cloth used (0 to 1). For a folded spread ``fold_mm`` is where the fold
    line lies in the opened-out cloth: a y for lengthwise, an x for crosswise.
    """

    placements: tuple[Placement, ...]
    length_mm: float
    width_mm: float
    utilisation: float
    spread: Spread = Spread.OPEN
    fold_mm: float | None = None

    def shifted(self, x_mm: float, y_mm: float) -> Lay:
        """The same lay moved along and across; its length still ends where it ends."""
        if not x_mm and not y_mm:
            return self
        fold = self.fold_mm
        if fold is not None:
            fold += y_mm if self.spread is Spread.LENGTHWISE else x_mm
        return replace(
            self,
            placements=tuple(
                replace(p, x_mm=p.x_mm + x_mm, y_mm=p.y_mm + y_mm) for p in self.placements
            ),
            length_mm=self.length_mm + x_mm,
            fold_mm=fold,
        )
