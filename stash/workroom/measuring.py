"""Measured by photograph, by weight and by the roll: put on record with origin and error.

Apart from the other acts, since OpenCV takes a while to load.
"""

from __future__ import annotations

from collections.abc import Sequence

from stash.eye.colour.photographed import SeenColour, apart_in, colours_in
from stash.eye.floor.picture import shown_jpeg
from stash.eye.strips.stops import Between, between
from stash.eye.strips.strip import Strip, measure_strips
from stash.eye.tray.pour import Ask, Item, Pour, SizeCount, count_pour
from stash.ledger import Entry, Event, Kind
from stash.ledger.origin import figure_subject
from stash.model import Bin
from stash.model.exact import to_plain
from stash.model.measured import Measured, Origin
from stash.store import Stash

__all__ = [
    "Ask", "Between", "Item", "Pour", "SeenColour", "SizeCount", "Strip", "apart_in", "between",
    "colours_in", "count_pour", "measure_strips", "shown_jpeg",
]


def receive_seen(
    stash: Stash, bins: Sequence[Bin], code: str | None = None, token: str | None = None
) -> tuple[Event, tuple[str, ...]]:
    """New bins whose amounts a photograph told; (the one event of them all, their codes).

    ``code`` is the blank label that the first was given; the others get fresh ones.
    """
    codes = []
    with stash.act(token) as act:
        for held in bins:
            event = stash.bins.receive(held, None if codes else code)
            figure = Measured(value=held.amount, error=0.0, origin=Origin.PHOTOGRAPHED)
            keep_figure(stash, event.code, figure, Kind.RECEIPT)
            codes.append(event.code)
    done = act.event or act.earlier
    assert done is not None
    return done, tuple(c for c in done.change if ":" not in c)


def count_seen(stash: Stash, code: str, amount: float, token: str | None = None) -> Event:
    """A bin whose content a photograph counted again."""
    figure = Measured(value=amount, error=0.0, origin=Origin.PHOTOGRAPHED)
    with stash.act(token) as act:
        held = stash.bins.get(code)
        stash.bins.count(held.code, amount)
        keep_figure(stash, held.code, figure, Kind.COUNT)
    done = act.event or act.earlier
    assert done is not None
    return done


def keep_figure(stash: Stash, code: str, figure: Measured, kind: Kind) -> None:
    """Beside what sets a size or an amount, within the same act: how it is known."""
    change = {figure_subject(code): {"record": to_plain(figure)}}
    stash.ledger.write(lambda: Entry(kind=kind, code=code, change=change))
