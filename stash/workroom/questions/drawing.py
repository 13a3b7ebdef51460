"""The lay of an answer as a drawing to scale."""

from __future__ import annotations

from stash.lay import LayTask
from stash.lay.drawing.lay_svg import draw
from stash.match.fit.answers import Candidate
from stash.model import Piece
from stash.units import System


def draw_candidate(
    pieces: tuple[Piece, ...], candidate: Candidate, system: System = System.METRIC
) -> str:
    """SVG text of the lay on this cut."""
    cut, lay = candidate.cut, candidate.lay
    task = LayTask(
        pieces=pieces, cloth=cut.outline_washed, one_way=cut.cloth.one_way,
        repeat=cut.cloth.repeat, spread=lay.spread,
    )
    return draw(task, lay, title=f"{cut.cloth.name} {cut.code}", system=system)
