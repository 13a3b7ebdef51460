"""A lay drawn to scale, and the table of where each piece lies."""

from __future__ import annotations

from stash.lay import (
    STYLE,
    InPage,
    Layers,
    LayTask,
    Position,
    draw,
    draw_in_page,
    positions_table,
)
from stash.ledger.selvedges import edges_beside
from stash.model import Laid
from stash.sentences import Reader

__all__ = ["STYLE", "InPage", "Layers", "Position", "drawing", "in_page", "positions"]


def drawing(laid: Laid, reader: Reader, title: str = "", *, on_phone: bool = False) -> str:
    """SVG text of the lay on its cut; for a phone with fewer and larger words."""
    cut = laid.cut
    return draw(
        _task(laid), laid.lay, title=title or f"{cut.cloth.name} {cut.code}",
        reader=reader, on_phone=on_phone,
    )


def in_page(laid: Laid, key: str, reader: Reader) -> InPage:
    """The lay and its pieces one by one, for a page that takes its colours from ``STYLE``."""
    return draw_in_page(_task(laid), laid.lay, key, reader)


def positions(laid: Laid) -> tuple[Position, ...]:
    """Where to chalk each piece."""
    return positions_table(_task(laid), laid.lay)


def _task(laid: Laid) -> LayTask:
    cut = laid.cut
    return LayTask(
        pieces=laid.pieces, cloth=laid.cloth, one_way=laid.one_way, repeat=cut.cloth.repeat,
        spread=laid.lay.spread,
        selvedges_mm=edges_beside(cut.selvedges_washed_mm, laid.cloth),
    )
