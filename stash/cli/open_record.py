"""What the commands that read and write the record share: opening it, and its JSON shapes."""

from __future__ import annotations

from collections.abc import Iterable

from stash.cli import written
from stash.cli.frame import Desk, reader, say, told
from stash.cli.words import _
from stash.fact import Fact
from stash.model import Cloth, Outline
from stash.sentences.manner import minute
from stash.sentences.regional import both_names
from stash.workroom import history
from stash.workroom.bins import BinCard
from stash.workroom.cuts import CutCard
from stash.workroom.event_facts import about, happened
from stash.workroom.explaining import whole_mm
from stash.workroom.history import Event
from stash.workroom.labels import name_of
from stash.workroom.opening import Stash, account, open_stash
from stash.workroom.recorded import Recorded


def open_record(desk: Desk) -> Stash:
    """The stash of the chosen data folder, in the hand of the command line."""
    return open_stash(desk.data, who=account(), device="command line")


def event_json(event: Event) -> dict[str, object]:
    """One event of the ledger; ``stands`` is false once it was undone."""
    return {
        "event": event.id, "at": event.at, "kind": event.kind.value, "code": event.code,
        "who": event.who, "device": event.device, "undoes": event.undoes,
        "stands": event.stands, "change": event.change,
    }


def cut_json(card: CutCard) -> dict[str, object]:
    """A cut and its cloth, in millimetres and grams per square metre."""
    cut, cloth = card.cut, card.cut.cloth
    return {
        "code": cut.code, "name": cloth.name, "length_mm": cut.length_mm,
        "width_mm": cut.width_mm, **cut.outline.to_json(),
        "selvedges_mm": [[list(end) for end in edge] for edge in cut.selvedges_mm],
        "washed": cut.washed,
        "place": cut.place, "acquired": cut.acquired, "keep_for": cut.keep_for,
        "came_from": cut.came_from, "gone": card.gone, "lent": card.lent,
        "held_by": [hold.plan for hold in card.holds],
        "construction": cloth.construction and cloth.construction.value,
        "fibres": [{"fibre": s.fibre, "percent": s.percent} for s in cloth.fibres],
        "presumed": [*cloth.presumed, *(["width_mm"] if cut.width_presumed else [])],
        "mass_gsm": cloth.mass_gsm,
        "one_way": cloth.one_way, "colours": list(cloth.colours),
        "shrink_along_pct": cloth.shrink_along_pct, "shrink_across_pct": cloth.shrink_across_pct,
        "shrink_status": cloth.shrink_status.value, "shrink_from": cloth.shrink_from,
        "pile": cloth.pile, "dry_clean_only": cloth.dry_clean_only,
        "care": cloth.care, "notes": cloth.notes,
    }


def bin_json(card: BinCard) -> dict[str, object]:
    """A bin and its notion; ``amount`` is a count or millimetres."""
    held, notion = card.bin, card.bin.notion
    return {
        "code": held.code, "kind": notion.kind.value, "name": notion.name,
        "size_mm": notion.size_mm, "colour": notion.colour, "material": notion.material,
        "fusible": notion.fusible, "mass_gsm": notion.mass_gsm,
        "shortenable": notion.shortenable,
        "thickness_mm": notion.thickness_mm, "shank": notion.shank,
        "amount": held.amount, "counted": notion.kind.counted, "free": card.free,
        "held_by": [hold.plan for hold in card.holds], "place": held.place, "gone": card.gone,
        "notes": notion.notes,
    }


def cut_line(card: CutCard) -> str:
    """One cut in one line: code, name, size, weight, fibres, place, what became of it."""
    cut, cloth = card.cut, card.cut.cloth
    parts = [
        f"{cut.code}  {cloth.name}",
        written.size(cut.length_mm, cut.width_mm),
        "" if cut.outline.is_rectangle else _whole(cut.outline),
        _mass(cloth),
        written.fibres(cloth),
        cut.place or "",
        _("held for {names}", names=", ".join(h.plan for h in card.holds)) if card.holds else "",
        _("lent to {lent}", lent=card.lent) if card.lent else "",
        _(card.gone) if card.gone else "",
    ]
    return ", ".join(part for part in parts if part)


def _mass(cloth: Cloth) -> str:
    """Its weight, and whether anybody weighed it."""
    if not cloth.mass_gsm:
        return ""
    said = written.mass(cloth.mass_gsm)
    return _("{mass} presumed", mass=said) if "mass_gsm" in cloth.presumed else said


def _whole(outline: Outline) -> str:
    """What of a remnant is whole: no line claims a rectangle that is not there."""
    return _("of which {size} whole (remnant)", size=written.size(*whole_mm(outline)))


def bin_line(card: BinCard) -> str:
    """One bin in one line: code, name, size, amount, place, what became of it."""
    held, notion = card.bin, card.bin.notion
    parts = [
        f"{held.code}  {notion.name}",
        both_names(notion.kind.value, reader()),
        written.notion_size(notion),
        written.amount(notion.kind, held.amount),
        held.place or "",
        _("held for {names}", names=", ".join(h.plan for h in card.holds)) if card.holds else "",
        _(card.gone) if card.gone else "",
    ]
    return ", ".join(part for part in parts if part)


def history_lines(stash: Stash, events: Iterable[Event]) -> list[str]:
    """Events, one in a line: its number, when, and what happened; an undone one says so."""
    return [_history_line(stash, event) for event in events]


def _history_line(stash: Stash, event: Event) -> str:
    kind = history.notion_kind(stash, event.code)
    did = told(happened(event, kind, history.undone_by(stash, event)))
    undone = "" if event.stands else "  " + _("(undone)")
    return f"{event.id:>6}  {minute(event.at, reader())}  {did}{undone}"


def whose(stash: Stash, event: Event) -> str:
    """What an event is about: a cut or a bin beside its code, else a person, a plan, a setting."""
    if (noun := about(stash, event)) is not None:
        return told(noun)
    code = event.code.removeprefix("photo:").partition("/")[0]
    return f"{name_of(stash, code)} {code}".strip() if code != "labels" else ""


def say_cut(done: Recorded[CutCard], as_json: bool) -> None:
    """What happened to a cut: how it is now, and how to take that back."""
    strayed = strayed_lays(done.now)
    line = "\n".join([cut_line(done.now), *map(told, strayed)])
    _say_done(done.event, line, {"cut": cut_json(done.now), **strayed_json(strayed)}, as_json)


def strayed_lays(card: CutCard) -> tuple[Fact, ...]:
    """Lays held on a cut that no longer lie on it."""
    if not card.holds:
        return ()
    # The lay's libraries load only where one is held.
    from stash.workroom.questions.strayed import strayed_from

    return strayed_from(card.cut, card.holds)


def strayed_json(strayed: Iterable[Fact]) -> dict[str, object]:
    """``{"strayed": [{..., "says"}]}``."""
    return {"strayed": told_json(strayed)}


def told_json(facts: Iterable[Fact]) -> list[dict[str, object]]:
    """``[{..., "says"}]``."""
    return [{**one.to_json(), "says": told(one)} for one in facts]


def short_holds(card: BinCard) -> tuple[Fact, ...]:
    """Plans that were promised more of a bin than is there."""
    if not card.holds:
        return ()
    from stash.workroom.questions.since_held import short_of  # the drafts load with it

    return short_of(card.bin, card.holds)


def say_bin(done: Recorded[BinCard], as_json: bool) -> None:
    """What happened to a bin: how it is now, and how to take that back."""
    short = short_holds(done.now)
    line = "\n".join([bin_line(done.now), *map(told, short)])
    now: dict[str, object] = {"bin": bin_json(done.now), "changed_since": told_json(short)}
    _say_done(done.event, line, now, as_json)


def _say_done(event: Event, line: str, now: dict[str, object], as_json: bool) -> None:
    text = _("{line}\nTaken back with: lengthwise undo {id}", line=line, id=event.id)
    say({**event_json(event), **now}, text, as_json=as_json)
