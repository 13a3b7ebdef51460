"""When a draft shows a caution: what the usual safety rules say about this body's garment."""

from __future__ import annotations

from stash.draft.body import Body
from stash.notions.cautions import caution

SMALL_CHILD_MM = 980.0  # a child under 3 is usually shorter (children's table: 98 cm at 3 years)


def cautions_for(
    body: Body, *, nightwear: bool = False, ties: bool = False, buttons: bool = False
) -> tuple[str, ...]:
    """Cautions for a child's garment; none for an adult's.

    Trousers, shorts and shirts are often slept in, so a child's always carry the
    nightwear caution.
    """
    if not body.is_child:
        return ()
    keys = ["nightwear"]
    if ties:
        keys.append("cords")
    if buttons:
        keys.append("small_parts")
    return tuple(caution(key) for key in keys)
