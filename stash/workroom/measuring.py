"""Measured by photograph, by weight and by the roll: put on record with origin and error.

Apart from the other acts, since OpenCV takes a while to load.
"""

from __future__ import annotations

from stash.eye.colour.photographed import SeenColour, apart_in, colours_in
from stash.eye.strips.stops import Between, between
from stash.eye.strips.strip import Strip, measure_strips
from stash.eye.tray.pour import Ask, Item, Pour, SizeCount, count_pour
from stash.ledger import Entry, Kind
from stash.ledger.origin import figure_subject
from stash.model import Bin
from stash.model.exact import to_plain
from stash.model.measured import Measured, Origin
from stash.store import Stash
from stash.workroom.bins import BinRecorded
from stash.workroom.recorded import Recorded

__all__ = [
    "Ask", "Between", "Item", "Pour", "SeenColour", "SizeCount", "Strip", "apart_in", "between",
    "colours_in", "count_pour", "measure_strips",
]


def receive_seen(
    stash: Stash, held: Bin, error: float, code: str | None = None, token: str | None = None
) -> BinRecorded:
    """A new bin whose amount a photograph told, under a blank label's code or a fresh one."""
    figure = Measured(value=held.amount, error=error, origin=Origin.PHOTOGRAPHED)
    with stash.act(token) as act:
        event = stash.bins.receive(held, code)
        keep_figure(stash, event.code, figure, Kind.RECEIPT)
    done = act.event or act.earlier
    assert done is not None
    return Recorded(event=done, now=stash.bins.card(done.code))


def keep_figure(stash: Stash, code: str, figure: Measured, kind: Kind) -> None:
    """Beside what sets a size or an amount, within the same act: how it is known."""
    change = {figure_subject(code): {"record": to_plain(figure)}}
    stash.ledger.write(lambda: Entry(kind=kind, code=code, change=change))
