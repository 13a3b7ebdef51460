"""A lay on one cut: the one shape it has from the match to the ledger and the page."""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.model.cloth import Cut
from stash.model.lay import Lay
from stash.model.outline import Outline
from stash.model.pattern import Piece, Role
from stash.model.plan import PlannedGarment


@dataclass(frozen=True, kw_only=True)
class Laid:
    """Pieces laid on a cut, and the garments they were drafted for.

    ``lay`` lies in the frame of ``cut.outline_washed``: ``cut`` says what the cloth was
    taken to lose in the wash, nothing where it was laid unwashed on purpose. ``one_way``
    says whether every piece was made to point one way.
    """

    cut: Cut
    lay: Lay
    pieces: tuple[Piece, ...]
    garments: tuple[PlannedGarment, ...] = ()
    role: Role = Role.MAIN
    one_way: bool = False

    @property
    def cloth(self) -> Outline:
        """What the pieces lie on: the cut as it will be when it is cut into."""
        return self.cut.outline_washed

    @property
    def spare_mm(self) -> float:
        """Length of the cut beyond the lay, once washed."""
        return max(self.cloth.bounds_mm[2] - self.lay.length_mm, 0.0)

    @property
    def to_mm(self) -> float:
        """How far along the cut, as it lies now, the lay reaches."""
        washed, now = self.cloth.bounds_mm, self.cut.outline.bounds_mm
        share = (now[2] / washed[2]) if washed[2] else 1.0
        return min(self.lay.length_mm * share, now[2])

    def shifted(self, x_mm: float, y_mm: float) -> Laid:
        """The same lay on a cut whose frame begins elsewhere; mm of the washed cloth."""
        return replace(self, lay=self.lay.shifted(x_mm, y_mm))
