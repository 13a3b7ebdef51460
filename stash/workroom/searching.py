"""What a search is told: for how many seconds, and which aims count more.

The one table of both; pages and commands read it, so that the same question takes the same
time and ranks alike at either door.
"""

from __future__ import annotations

from collections.abc import Collection

from stash.match.fit.ranking import Weights

QUICK, GOOD, THOROUGH = 4.0, 15.0, 60.0
"""Seconds of a look through the stash, as a person may choose them."""
SECONDS = {
    "fit": QUICK, "plan": QUICK, "shop": 6.0, "need": 3.0, "far": 20.0, "far_on_one": 3.0,
    "lay": 5.0, "again": 3.0,
}
"""How long each question searches when nothing is said."""
AIMS = ("use-up", "oldest", "cheapest")
"""What may count more: using remnants up, what has lain longest, sparing dear cloth."""


def weights(aims: Collection[str]) -> Weights:
    """The usual weights with some aims raised."""
    return Weights(
        use_up=3.0 if "use-up" in aims else 1.0,
        oldest=1.0 if "oldest" in aims else 0.0,
        cheapest=1.0 if "cheapest" in aims else 0.0,
    )
