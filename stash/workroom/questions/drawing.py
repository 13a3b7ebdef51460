"""A lay drawn to scale, and the table of where each piece lies."""

from __future__ import annotations

from stash.lay import LayTask, Position, draw, positions_table
from stash.model import Laid
from stash.sentences import Reader


def drawing(laid: Laid, reader: Reader, title: str = "") -> str:
    """SVG text of the lay on its cut."""
    cut = laid.cut
    return draw(
        _task(laid), laid.lay, title=title or f"{cut.cloth.name} {cut.code}",
        reader=reader,
    )


def positions(laid: Laid) -> tuple[Position, ...]:
    """Where to chalk each piece."""
    return positions_table(_task(laid), laid.lay)


def _task(laid: Laid) -> LayTask:
    cut = laid.cut
    return LayTask(
        pieces=laid.pieces, cloth=laid.cloth, one_way=laid.one_way, repeat=cut.cloth.repeat,
        spread=laid.lay.spread,
    )
