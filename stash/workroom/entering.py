"""A whole stash put on record, one cut after the other: each one act, with its photograph."""

from __future__ import annotations

from stash.model import Cut
from stash.store import Stash
from stash.workroom.cuts import CutRecorded
from stash.workroom.recorded import Recorded


def enter(
    stash: Stash, cut: Cut, code: str | None, photo: bytes | None, token: str | None = None
) -> CutRecorded:
    """A cut comes in with its photograph, under a blank label's code or a fresh one.

    All of it is one event, so that one undo takes it back.
    """
    with stash.act(token) as act:
        event = stash.cuts.receive(cut, code)
        if photo:
            stash.photos.add(event.code, photo)
    done = act.event or act.earlier or event
    return Recorded(event=done, now=stash.cuts.card(done.code))
