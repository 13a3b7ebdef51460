"""A lay moved over to pieces that have changed a little, and its overlaps removed.

Where a search from nothing draws a lay in pace by pace, this begins with everything inside
the cut and overlapping by what the pieces grew. What comes near is tried again with some
items swapped, for as long as the meter runs.
"""

from __future__ import annotations

from collections.abc import Iterator

from stash.lay.search.moves import Search
from stash.lay.search.overlap import LayState, empty_state, laid, snapped
from stash.lay.search.ways_to_spread import WayToSpread
from stash.model import Lay, Placement, Spread

MOST_KEPT = 60  # states that came near
DISTURBED = 3  # of so many attempts one begins with the moved lay itself, disturbed


def moved_over(way: WayToSpread, before: Lay) -> LayState | None:
    """Every item where its like lay before, as near as it may lie; None where it may not.

    Only cloth spread open: beneath a fold a placement does not name its item.
    """
    board = way.board
    if board.sheet.spread is not Spread.OPEN or before.spread is not Spread.OPEN:
        return None
    where = {placement.piece: placement for placement in before.placements}
    state = empty_state(len(board.items), len(board.table.blocked_layers))
    state.weight[:] = board.table.heft
    for i, item in enumerate(board.items):
        placement = where.get(f"{item.piece.name}#{item.copies[0]}")
        if placement is None or not _put(way, state, i, placement):
            return None
    return state


def _put(way: WayToSpread, state: LayState, i: int, at: Placement) -> bool:
    """Lay item i as it lay, or else in another of its stances."""
    table, board = way.board.table, way.board

    def unlike(s: int) -> tuple[bool, float]:
        own = board.stances[s]
        return own.mirrored != at.mirrored, abs(own.turn_deg - at.turn_deg)

    for s in sorted((int(s) for s in table.choices[i] if s >= 0), key=unlike):
        free, x, y = snapped(table, i, s, at.x_mm, at.y_mm, way.cut_back)
        if free:
            laid(table, state, i, s, x, y)
            return True
    return False


def separated_from(search: Search, start: LayState, cut_back: float) -> Iterator[LayState | None]:
    """The lay once nothing overlaps, None after each attempt that failed; ends when found."""
    near: list[tuple[float, LayState]] = []
    first = start
    while not search.spent:
        left, state = search.separated(start, cut_back)
        if state is None:
            return
        if left == 0.0:
            yield state
            return
        yield None
        near.append((left, state))
        near.sort(key=lambda pair: pair[0])
        del near[MOST_KEPT:]
        start = search.varied(near, cut_back)
        if len(near) % DISTURBED == 0:
            start = search.varied([(0.0, first)], cut_back)
