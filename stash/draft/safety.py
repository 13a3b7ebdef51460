"""When a draft shows a caution: what the usual safety rules say about this body's garment."""

from __future__ import annotations

from stash.draft.body import Body
from stash.notions.cautions import caution


def cautions_for(
    body: Body, *, slept_in: bool = True, ties: bool = False, buttons: bool = False
) -> tuple[str, ...]:
    """Cautions for a child's garment; none for an adult's.

    Trousers, shorts and shirts are often slept in, so a child's always carry the
    nightwear caution.
    """
    if not body.is_child:
        return ()
    keys = ["nightwear"] if slept_in else []
    if ties:
        keys.append("cords")
    if buttons:
        keys.append("small_parts")
    return tuple(caution(key) for key in keys)
