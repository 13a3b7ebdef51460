"""The ledger in words: what happened, when, and whether it can be taken back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from stash.model import NotionKind
from stash.workroom import history
from stash.workroom.history import Event, Kind, taken_apart
from web.formatting import amount, length
from web.request_stash import stash
from web.texts import _

WORDS = {
    Kind.RECEIPT: "Came into the stash", Kind.CUT_OFF: "Cut off", Kind.CUT_OUT: "Cut out",
    Kind.TAKE: "Took", Kind.PUT: "Put in", Kind.COUNT: "Counted", Kind.REMEASURE: "Measured again",
    Kind.WASH: "Washed", Kind.MOVE: "Moved", Kind.HOLD: "Held", Kind.RELEASE: "Released",
    Kind.GIFT: "Given away", Kind.DISCARD: "Thrown away", Kind.CORRECTION: "Corrected",
    Kind.UNDO: "Undone",
}


NOUNS = {"person": "Person", "plan": "Plan", "pattern": "Pattern", "setting": "Setting"}


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
    return EventLine(
        event.id, event.at, code, _about(noun, rest), _text(event, noun, kind), event.stands,
        event.stands and event.kind is not Kind.UNDO,
    )


def _about(noun: str, rest: str) -> str:
    return f"{_(NOUNS[noun])} “{rest.partition('/')[0]}”" if noun in NOUNS else ""


def _text(event: Event, noun: str, kind: NotionKind | None) -> str:
    if event.kind is Kind.UNDO:
        return _(WORDS[Kind.UNDO])
    if event.kind is Kind.SEVERAL:
        steps = (_text(step, step.code.partition(":")[0] if ":" in step.code else "", kind)
                 for step in taken_apart(event))
        return "; ".join(dict.fromkeys(steps))
    if noun == "photo":
        return _("Photograph removed") if event.kind is Kind.DISCARD else _("Photograph saved")
    if noun == "labels":
        words = _("Labels reserved: %(n)d") if event.kind is Kind.RECEIPT else _(
            "Labels printed: %(n)d")
        return words % {"n": len(event.change)}
    if noun in NOUNS and event.kind is Kind.RECEIPT:
        return _("recorded")
    return describe(event, kind)


def describe(event: Event, kind: NotionKind | None = None) -> str:
    """One short sentence; ``kind`` is what the bin holds that the event is about."""
    words, change = _(WORDS[event.kind]), _change(event)
    if kind and event.kind in (Kind.TAKE, Kind.PUT, Kind.COUNT) and "amount" in change:
        return f"{words}: {amount(change['amount'], kind)}"
    if detail := _detail(event.kind, change):
        return f"{words}: {detail}"
    return words


def _change(event: Event) -> Mapping[str, Any]:
    own = event.change.get(event.code)
    return own if isinstance(own, Mapping) else {}


def _detail(kind: Kind, change: Mapping[str, Any]) -> str:
    if kind is Kind.CUT_OFF:
        if "left_mm" in change:
            return _("%(left)s left", left=length(change["left_mm"])) if change["left_mm"] else (
                _("nothing left"))
        return length(change["length_mm"])
    if kind is Kind.MOVE:
        return str(change.get("place") or "")
    if kind in (Kind.HOLD, Kind.RELEASE):
        plan = change.get("plan") or (change.get("cut") or {}).get("plan")
        return _("for “%(plan)s”", plan=plan) if plan else ""
    return ""

