"""What was recorded, and taking it back."""

from __future__ import annotations

from stash.errors import NotFound
from stash.ledger import BinState, Event, Kind, taken_apart
from stash.model import NotionKind
from stash.store import Stash

__all__ = ["Event", "Kind", "taken_apart"]

FAR_BACK = 200


def of(stash: Stash, code: str) -> list[Event]:
    """Everything that happened to a label, newest first."""
    return stash.ledger.history(code)


def undone_by(stash: Stash, event: Event) -> Event | None:
    """What an undo took back; None for any other event."""
    return stash.ledger.event(event.undoes) if event.undoes is not None else None


def latest(stash: Stash, most: int, before: int = 0) -> list[Event]:
    """The newest events of all, newest first; those before that number where one is given."""
    return stash.ledger.latest(most, before) if before > 0 else stash.ledger.latest(most)


def undo(stash: Stash, event: int, token: str | None = None) -> Event:
    """Take one event back; the undo is an event too."""
    return stash.ledger.undo(event, token)


def undo_newest(stash: Stash) -> Event:
    """Take back the newest event that still stands; NotFound when there is none."""
    for event in stash.ledger.latest(FAR_BACK):
        if event.stands and event.kind is not Kind.UNDO:
            return stash.ledger.undo(event.id)
    raise NotFound("nothing_to_undo")


def notion_kind(stash: Stash, code: str) -> NotionKind | None:
    """What the bin of this code holds; None for anything that is not a bin."""
    state = stash.ledger.state(code)
    return state.notion.kind if isinstance(state, BinState) else None
