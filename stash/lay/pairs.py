"""What keeps two items apart: their no-fit region, and the frame it is looked up in."""

from __future__ import annotations

from stash.lay.compiled import woven


@woven
def between(table, state, i, s, k):
    """(region, flip x, flip y, x, y) for item i in stance s and item k, or obstacle k - n.

    Item i at p overlaps where (p - (x, y)) * flip is inside the region, which is -1 when the
    two may lie over each other.
    """
    n = len(state.stance)
    if k >= n:
        met = table.blocked_layers[k - n] & table.layers[s]
        return (table.blocked[k - n, s] if met else -1), 1.0, 1.0, 0.0, 0.0
    t = state.stance[k]
    if k == i or t < 0 or not (table.layers[t] & table.layers[s]):
        return -1, 1.0, 1.0, 0.0, 0.0
    return (
        table.region[t, s], table.flip[t, 0], table.flip[t, 1],
        state.position[k, 0], state.position[k, 1],
    )
