"""What happened, as a fact: one for each event of the ledger."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from stash.fact import Fact, fact
from stash.ledger import Event, Kind, taken_apart
from stash.model import NotionKind
from stash.store.unread import Unread

NOUNS = {"person", "plan", "pattern", "setting", "search"}
MANY = {Kind.RECEIPT: "event_things_came", Kind.MOVE: "event_things_moved"}
AMOUNTS = {Kind.TAKE: "event_took", Kind.PUT: "event_put_in", Kind.COUNT: "event_counted"}

MOST_KEPT = 100
_kept: dict[object, Fact] = {}


def happened(
    event: Event, kind: NotionKind | None = None, undone: Event | None = None
) -> Fact:
    """What an event did; ``kind`` is what the bin holds that it is about.

    ``undone`` is the event that an undo took back, where it is known. A large event is long to
    read and stays as it was recorded (its checksum says so): it is read once, and told again.
    """
    if not isinstance((undone or event).change, Unread):
        return _happened(event, kind, undone)
    key = event.checksum, kind, undone and undone.checksum
    if key not in _kept:
        if len(_kept) >= MOST_KEPT:
            _kept.clear()
        _kept[key] = _happened(event, kind, undone)
    return _kept[key]


def _happened(event: Event, kind: NotionKind | None, undone: Event | None = None) -> Fact:
    if undone is not None:
        return fact("event_undo_of", what=happened(undone, kind))
    if (count := _things(event)) > 1 and event.kind in MANY:
        return fact(MANY[event.kind], count=count)
    if event.kind is Kind.SEVERAL:
        steps = dict.fromkeys(_happened(step, kind) for step in taken_apart(event))
        return fact("event_several", steps=tuple(steps))
    noun = event.code.partition(":")[0] if ":" in event.code or event.code == "labels" else ""
    return _of_noun(event, noun) or _of_thing(event, kind) or fact(
        f"event_{event.kind.value.replace('-', '_')}")


def _things(event: Event) -> int:
    """How many cuts and bins an event is about."""
    return sum(":" not in subject for subject in event.change)


def about(event: Event) -> Fact | None:
    """Whom or what an event is about that has no label: a person, a plan, a setting."""
    noun, _colon, rest = event.code.partition(":")
    if noun not in NOUNS:
        return None
    # As she wrote it, where the event says so; the subject is the name made comparable.
    part = event.change.get(event.code)
    record = part.get("record") if isinstance(part, Mapping) else None
    given = record.get("name") if isinstance(record, Mapping) else None
    return fact(f"event_about_{noun}", name=str(given or rest.partition("/")[0]))


def _of_noun(event: Event, noun: str) -> Fact | None:
    if event.kind is Kind.UNDO:
        return fact("event_undo")
    if noun == "photo":
        gone = event.kind is Kind.DISCARD
        return fact("event_photo_removed") if gone else fact("event_photo_saved")
    if noun == "labels":
        n = float(len(event.change))
        reserved = event.kind is Kind.RECEIPT
        return fact("event_labels_reserved", n=n) if reserved else fact("event_labels_printed", n=n)
    if noun in NOUNS and event.kind is Kind.RECEIPT:
        return fact("event_saved")
    if noun == "plan" and event.kind is Kind.TAKE:  # what was held for it left its bins
        return fact("event_made")
    return None


def _of_thing(event: Event, kind: NotionKind | None) -> Fact | None:
    own = event.change.get(event.code)
    change: Mapping[str, Any] = own if isinstance(own, Mapping) else {}
    if kind and event.kind in AMOUNTS and "amount" in change:
        counted = fact("so_many", number=change["amount"])
        much = counted if kind.counted else fact("so_much", length_mm=change["amount"])
        return fact(AMOUNTS[event.kind], much=much)
    if event.kind is Kind.CUT_OFF:
        return _cut_off(change)
    if event.kind is Kind.LEND:
        return fact("event_lent_to", to=str(change.get("to", "")))
    if event.kind is Kind.MOVE and change.get("place"):
        return fact("event_moved_to", place=str(change["place"]))
    plan = change.get("plan") or (change.get("cut") or {}).get("plan")
    if plan and event.kind in (Kind.HOLD, Kind.RELEASE):
        held = event.kind is Kind.HOLD
        return fact("event_held_for", plan=plan) if held else fact("event_released_from", plan=plan)
    return None


def _cut_off(change: Mapping[str, Any]) -> Fact | None:
    if "bites" in change:
        return fact("event_part_cut_off")
    if "left_mm" not in change:
        return fact("event_cut_off_so_much", length_mm=change["length_mm"]) if change else None
    left = change["left_mm"]
    return fact("event_cut_off_left", left_mm=left) if left else fact("event_cut_off_all")
