"""What happened, as a fact: one for each event of the ledger."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from stash.fact import Fact, fact
from stash.ledger import Event, Kind, taken_apart
from stash.model import NotionKind
from stash.store import Stash
from stash.store.unread import Unread

NOUNS = {"person", "plan", "pattern", "setting", "search"}
SETTINGS = frozenset((
    "units", "language", "addresses", "edge_mm", "clearance_mm", "off_grain_deg", "widths_mm",
    "increment_mm", "selvedge_mm", "printer_shift_mm", "machines", "remnant_mm", "workroom",
    "instance", "second_place",
))
"""What may be set, by the names in the record; each is said by the words of its page."""
STOCK_TAKE = "stock-take "
"""A stock-take is kept as a setting, under the name of the place."""
BESIDE = ("size", "figure", "grain", "row", "label")
"""What is written down beside a happening, and is none itself."""
MANY = {Kind.RECEIPT: "event_things_came", Kind.MOVE: "event_things_moved"}
AMOUNTS = {Kind.TAKE: "event_took", Kind.PUT: "event_put_in", Kind.COUNT: "event_counted"}

REMOVED = {"record": None}
"""What an event says of something that it takes off its list."""
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
        steps = dict.fromkeys(
            _happened(step, kind) for step in taken_apart(event)
            if step.code.partition(":")[0] not in BESIDE)
        return fact("event_several", steps=tuple(steps))
    noun = event.code.partition(":")[0] if ":" in event.code or event.code == "labels" else ""
    return _of_noun(event, noun) or _of_thing(event, kind) or event.kind.called


def _things(event: Event) -> int:
    """How many cuts and bins an event is about."""
    return sum(":" not in subject for subject in event.change)


def about(stash: Stash, event: Event) -> Fact | None:
    """Whom or what an event is about that has no label: a person, a plan, some settings."""
    noun, _colon, rest = event.code.partition(":")
    if noun not in NOUNS:
        return None
    if noun == "setting":
        return _about_settings(event)
    given = _named(event, event.code) or _earlier_name(stash, event)
    return fact(f"event_about_{noun}", name=given or rest.partition("/")[0])


def _about_settings(event: Event) -> Fact:
    names = [code.removeprefix("setting:") for code in event.change]
    if names[0].startswith(STOCK_TAKE):
        return fact("event_about_stock_take", place=names[0].removeprefix(STOCK_TAKE))
    said = (f"setting_{name}" if name in SETTINGS else "setting_other" for name in names)
    return fact("event_about_settings", settings=tuple(fact(kind) for kind in dict.fromkeys(said)))


def _named(event: Event, code: str) -> str:
    """As she wrote it, where the event says so; a subject is the name made comparable."""
    part = event.change.get(code)
    record = part.get("record") if isinstance(part, Mapping) else None
    return str(record.get("name") or "") if isinstance(record, Mapping) else ""


def _earlier_name(stash: Stash, event: Event) -> str:
    """As she wrote it earlier, where this event does not say: what it holds, or takes off."""
    if record := stash.ledger.record(event.code):
        return str(record.get("name") or "")
    earlier = (_named(one, event.code) for one in stash.ledger.history(event.code))
    return next(filter(None, earlier), "")


def _of_noun(event: Event, noun: str) -> Fact | None:
    if event.kind is Kind.UNDO:
        return fact("event_undo")
    if noun == "setting":
        return _of_setting(event)
    if f"place:{event.code}" in event.change:
        return fact("event_place_labelled")
    if noun == "photo":
        gone = event.kind is Kind.DISCARD
        return fact("event_photo_removed") if gone else fact("event_photo_saved")
    if noun == "labels":
        n = float(len(event.change))
        reserved = event.kind is Kind.RECEIPT
        return fact("event_labels_reserved", n=n) if reserved else fact("event_labels_printed", n=n)
    if noun in NOUNS and event.kind is Kind.RECEIPT:
        return fact("event_saved")
    if noun in NOUNS and event.change.get(event.code) == REMOVED:
        return fact("event_removed")
    if noun == "plan" and event.kind is Kind.TAKE:  # what was held for it left its bins
        return fact("event_made")
    return None


def _of_setting(event: Event) -> Fact:
    """Whatever is decided is saved; of a stock-take, how it came out."""
    found = event.change.get(event.code, {}).get("record", {}).get("value")
    if not event.code.startswith(f"setting:{STOCK_TAKE}") or not isinstance(found, Mapping):
        return fact("event_saved")
    return fact("event_stock_taken", found=found["found"], missing=len(found["missing"]),
                strays=len(found["strays"]))


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
