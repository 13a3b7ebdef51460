"""A label read twice: one rule for a film, for a camera here, and for the camera of a page."""

from __future__ import annotations

FORGET_AFTER_S = 2.5
"""Out of view for longer than this, and a label that is shown again is told again."""


def is_new(out_of_view_s: float | None, forget_after_s: float = FORGET_AFTER_S) -> bool:
    """Whether a label is told: it was never seen (None), or not for long enough.

    Pages measure the same span with their own clock; they are given the number.
    """
    return out_of_view_s is None or out_of_view_s > forget_after_s
