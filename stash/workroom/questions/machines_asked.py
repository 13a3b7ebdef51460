"""Thread for an overlocker that nobody said she has: the line says so, and asks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stash.fact import fact
from stash.match.notions.wanted import Line
from stash.notions.thread import OVERLOCK
from stash.store import Stash
from stash.workroom.settings import preferences


def machines_asked(stash: Stash, lines: Sequence[Line]) -> tuple[Line, ...]:
    """The lines, the first overlock thread to be bought with what it hangs on.

    Drafts finish raw edges on an overlocker unless her settings name her machines: three
    cones bought for a machine that is not there would be a trip for nothing.
    """
    told = list(lines)
    if not preferences(stash).machines:
        for number, line in enumerate(lines):
            if line.chosen is None and line.wanted.need.group == OVERLOCK:
                told[number] = replace(line, nearest=(*line.nearest, fact("machines_unknown")))
                break
    return tuple(told)
