"""What a shop is asked for: a zip by its sold length, thread by the spool, tape by the metre."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from stash.model import Need, NotionKind
from stash.notions.buttons import with_spare
from stash.notions.fastenings import zip_sold_mm
from stash.notions.published_tables import rows
from stash.notions.rules import value

# Shops cut elastic, tape and interfacing by the decimetre; common practice, no source.
STEP_MM = 100.0


@dataclass(frozen=True, kw_only=True)
class Sold:
    """One line of a shopping list.

    ``count`` pieces, spools or cones; ``size_mm`` a zip's or button's size, or the width
    of what is cut; ``length_mm`` what is cut from the roll; ``put_up_mm`` what one spool
    holds; ``use`` what thread is for; ``needed_mm`` the length the sewing takes.
    """

    kind: NotionKind
    count: int = 1
    size_mm: float | None = None
    length_mm: float | None = None
    put_up: str = ""
    put_up_mm: float | None = None
    use: str = ""
    needed_mm: float | None = None


def as_sold(need: Need) -> Sold:
    """The line for one need."""
    size = need.size_mm[1] if need.size_mm else None
    if need.kind is NotionKind.THREAD:
        return thread_sold([need])
    if need.kind is NotionKind.ZIP:
        sold = zip_sold_mm(size or 0.0, need.trimmed)
        return Sold(kind=need.kind, count=need.count or 1, size_mm=sold, needed_mm=size)
    if need.kind is NotionKind.BUTTON:
        return Sold(kind=need.kind, count=with_spare(need.count or 1), size_mm=size)
    if need.kind.counted:
        return Sold(kind=need.kind, count=need.count or 1, size_mm=size)
    if need.kind is NotionKind.INTERFACING:
        size = size or value("interfacing_width")
    length = need.length_mm or 0.0
    return Sold(
        kind=need.kind, size_mm=size, length_mm=ceil(length / STEP_MM - 1e-9) * STEP_MM,
        needed_mm=length,
    )


def thread_sold(needs: Sequence[Need]) -> Sold:
    """Spools for thread of one colour and use, in the put-up that leaves least over.

    An overlocker runs one spool for each of its threads, so as many are needed however
    little they give. Nobody likes to change spools twice in a seam: at most two for each
    thread, unless even the largest put-up takes more.
    """
    at_once = max(need.spools_at_once for need in needs)
    total = sum(need.length_mm or 0.0 for need in needs)
    each = max(sum(need.most_each_mm or need.length_mm or 0.0 for need in needs), total / at_once)
    use = needs[0].group
    put_up = "cone" if use == "overlock" and at_once > 1 else "spool"
    each_of = {
        length: max(1, ceil(each / length - 1e-9))
        for row in rows("put_ups") if row["put_up"] == put_up
        for length in [float(row["length_m"]) * 1000]
    }
    most = max(2, min(each_of.values()))
    best = min(
        (length for length, count in each_of.items() if count <= most),
        key=lambda length: (each_of[length] * length, each_of[length]),
    )
    return Sold(
        kind=NotionKind.THREAD, count=at_once * each_of[best], put_up=put_up,
        put_up_mm=best, use=use, needed_mm=total,
    )
