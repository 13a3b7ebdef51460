"""A whole stash put on record, one cut after the other: each one act, with its photograph."""

from __future__ import annotations

from stash.eye.colour.photographed import SeenColour
from stash.ledger import Kind
from stash.model import Cut
from stash.store import Stash
from stash.workroom.cuts import CutRecorded
from stash.workroom.recorded import Recorded
from stash.workroom.seen_colours import note_seen_colour


def enter(
    stash: Stash, cut: Cut, code: str | None, photo: bytes | None, token: str | None = None, *,
    colour: SeenColour | None = None,
) -> CutRecorded:
    """A cut comes in with its photograph, under a blank label's code or a fresh one.

    ``colour`` is how the photograph shows it: kept where that is the colour of its cloth now.
    All of it is one event, so that one undo takes it back.
    """
    with stash.act(token) as act:
        event = stash.cuts.receive(cut, code)
        if photo:
            stash.photos.add(event.code, photo)
        if colour and colour.light.known and cut.cloth.colours == (colour.colour,):
            note_seen_colour(stash, event.code, colour, Kind.RECEIPT)
    done = act.event or act.earlier or event
    return Recorded(event=done, now=stash.cuts.card(done.code))
