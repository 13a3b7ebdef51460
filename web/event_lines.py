"""The ledger in words: what happened, when, and whether it can be taken back."""

from __future__ import annotations

from dataclasses import dataclass

from stash.model import NotionKind
from stash.workroom import history
from stash.workroom.event_facts import about, happened
from stash.workroom.history import Event, Kind
from web.formatting import say
from web.request_stash import stash


@dataclass(frozen=True)
class EventLine:
    """One event as a page shows it; ``code`` is empty where it is about no label."""

    id: int
    at: str
    code: str
    about: str
    text: str
    stands: bool
    undoable: bool


def lines(code: str) -> list[EventLine]:
    """The history of one label, newest first."""
    kind = kind_of(code)
    return [line(event, kind) for event in history.of(stash(), code)]


def kind_of(code: str) -> NotionKind | None:
    """What a bin holds; None for anything that is not a bin."""
    return history.notion_kind(stash(), code)


def line(event: Event, kind: NotionKind | None = None) -> EventLine:
    """One event in words."""
    noun, _colon, rest = event.code.partition(":")
    code = event.code if not _colon and event.code != "labels" else ""
    if noun == "photo":
        code = rest.partition("/")[0]
    whom = about(stash(), event)
    did = happened(event, kind, history.undone_by(stash(), event))
    return EventLine(
        event.id, event.at, code, say(whom) if whom else "", say(did),
        event.stands, event.stands and event.kind is not Kind.UNDO,
    )
