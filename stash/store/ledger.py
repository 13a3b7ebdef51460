"""The ledger on disk: every change is one event and one transaction."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from stash.errors import Conflict, NotFound
from stash.ledger import (
    Entry,
    Event,
    FoldedState,
    Kind,
    after_undo,
    applied,
    fold,
    held_off,
    merged,
    undoing,
)
from stash.ledger.chain import BEGINNING, checksum
from stash.store import cache
from stash.store.connection import Connections, writing
from stash.store.database import Database
from stash.store.unread import change_of

LAST = 2**63 - 1
"""Beyond every event's number."""
COLUMNS = "id, at, kind, code, change, who, device, token, undoes, checksum"
INSERT = f"INSERT INTO event ({COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
UNDOING = """
    WITH RECURSIVE undo (id, undoes) AS (
        SELECT event.id, event.undoes FROM json_each(?) AS asked
            JOIN event ON event.undoes = asked.value
        UNION
        SELECT event.id, event.undoes FROM undo JOIN event ON event.undoes = undo.id
    )
    SELECT id, undoes FROM undo"""
"""The undos of some events, the undos of those, and so on."""


@dataclass(frozen=True, kw_only=True)
class Hand:
    """Who writes, on which device, and what time it is there: a cut taken at eleven at night
    was taken on that day, whatever the day is in Greenwich."""

    who: str = ""
    device: str = ""
    clock: Callable[[], datetime] = lambda: datetime.now().astimezone()


@dataclass(kw_only=True)
class Act:
    """What one person is doing: it becomes the event of this number once it is over.

    ``earlier`` is the event that its token recorded before, ``event`` what it became.
    """

    number: int
    token: str | None = None
    earlier: Event | None = None
    entries: list[Entry] = field(default_factory=list)
    event: Event | None = None

    @property
    def became(self) -> Event:
        """The event it became, or that it had become before; only once it is over."""
        event = self.event or self.earlier
        assert event is not None
        return event

    def meets(self, token: str | None, recorded: Callable[[str | None], Event | None]) -> None:
        """Take on the token of whatever comes first in it and has one."""
        if token is not None and self.token is None and not self.entries:
            self.token, self.earlier = token, recorded(token)


class Ledger:
    """Writes events, and keeps what they add up to beside them."""

    def __init__(self, connections: Connections, hand: Hand):
        self.connections = connections
        self.hand = hand
        self._here = threading.local()
        self._inserted: list[Event] = []

    @property
    def db(self) -> Database:
        """The calling thread's connection."""
        return self.connections.here()

    def state(self, subject: str) -> FoldedState | None:
        """What is recorded now under a label code or another subject."""
        return cache.read(self.db, subject)

    def record(self, subject: str) -> Mapping[str, Any] | None:
        """What is recorded now under a subject that is no label: a plan, a place, a setting."""
        state = self.state(subject)
        return state if isinstance(state, Mapping) else None

    @contextmanager
    def act(self, token: str | None = None) -> Iterator[Act]:
        """Everything written inside becomes one event, or none of it is recorded.

        An act within an act is a part of it. When ``token`` was seen before, nothing is
        written again: each write inside answers with what was recorded then.
        """
        if (outer := getattr(self._here, "act", None)) is not None:
            yield outer
            return
        with writing(self.db):
            act = self._here.act = Act(number=self.newest() + 1)
            try:
                act.meets(token, self.recorded)
                yield act
                if act.entries:
                    act.event = self._insert(merged(act.entries), act)
            finally:
                self._here.act = None

    def write(self, make: Callable[[], Entry], token: str | None = None) -> Event:
        """Record what ``make`` returns, once for each token; the event.

        ``make`` runs under the write lock, so what it reads is still true when its
        entry is written. A token seen before returns the event it recorded then;
        Conflict when it recorded something else.
        """
        with self.act(token) as act:
            act.meets(token, self.recorded)
            if act.earlier:
                return act.earlier
            entry = make()
            self._apply(entry)
            act.entries.append(entry)
        return act.event or self._event_of(entry, act)

    def _apply(self, entry: Entry) -> None:
        """Bring the tables up to what they add up to with this entry."""
        with writing(self.db) as db:
            plain = replace(entry, change=json.loads(cache.plain_text(entry.change)))
            before = {s: cache.read(db, s) for s in plain.change}
            states = {s: applied(state, plain, s) for s, state in before.items()}
            for subject, state in _records_first(states):
                if state is not before[subject]:
                    cache.write(db, subject, state)

    def undo(self, event_id: int, token: str | None = None) -> Event:
        """Hold an event off; undoing an undo lets the first event stand again."""
        with writing(self.db) as db:
            if earlier := self.recorded(token):
                return earlier
            target = self.event(event_id)
            histories = self._histories(target.change)
            undo = self._insert(undoing(target), Act(number=self.newest() + 1, token=token))
            states = after_undo(target, histories, undo)
            for subject, state in _records_first(states):
                cache.write(db, subject, state)
            return undo

    def event(self, event_id: int) -> Event:
        """One event by its number."""
        if not 0 < event_id < 2**63:  # beyond what SQLite can count
            raise NotFound("no_such_entry", entry=str(event_id)[:40])
        row = self.db.execute(f"SELECT {COLUMNS} FROM event WHERE id = ?", [event_id]).fetchone()
        if row is None:
            raise NotFound("no_such_entry", entry=event_id)
        return self._marked([row])[0]

    def recorded(self, token: str | None) -> Event | None:
        """The event that this token recorded, if it was seen before.

        A token may end in "~" and a digest of what was asked; Conflict when the same
        token then asked for something else.
        """
        if token is None:
            return None
        plain, _, asked = token.partition("~")
        found = self.db.execute(
            "SELECT id, token FROM event WHERE token = ? OR (token > ? AND token < ?)",
            [plain, f"{plain}~", f"{plain}\x7f"],
        ).fetchone()
        if found is None:
            return None
        before = found[1].partition("~")[2]
        if asked and before and asked != before:
            raise Conflict("form_recorded_before", entry=found[0])
        return self.event(found[0])

    def history(self, code: str) -> list[Event]:
        """Everything that happened to a code or another subject, newest first."""
        rows = self.db.execute(
            f"SELECT {COLUMNS} FROM event WHERE code = :code"
            " OR id IN (SELECT event FROM touched WHERE subject = :code) ORDER BY id",
            {"code": code},
        )
        return self._marked(rows.fetchall())[::-1]

    def latest(self, limit: int = 50, before: int = LAST) -> list[Event]:
        """The newest events before that number, newest first, each with whether it stands."""
        rows = self.db.execute(
            f"SELECT {COLUMNS} FROM event WHERE id < ? ORDER BY id DESC LIMIT ?",
            [min(before, LAST), limit])
        return self._marked(rows.fetchall())

    def recorded_here(self) -> list[int]:
        """The numbers of the events that were written through this ledger and stayed."""
        return [event.id for event in self._inserted
                if self.on_the_chain(event.id, event.checksum)]

    def events(self, after: int = 0) -> Iterator[Event]:
        """Every event in order, as it was written; those after a number."""
        return map(_event, self.db.execute(
            f"SELECT {COLUMNS} FROM event WHERE id > ? ORDER BY id", [after]))

    def touching(self, subjects: Iterable[str]) -> Iterator[Event]:
        """Every event that touches one of the subjects, in order, as it was written."""
        return map(_event, self.db.execute(
            f"SELECT {COLUMNS} FROM event WHERE id IN (SELECT event FROM touched WHERE subject IN"
            " (SELECT value FROM json_each(?))) ORDER BY id", [json.dumps(sorted(subjects))]))

    def _histories(self, subjects: Iterable[str]) -> dict[str, list[Event]]:
        """What touches each of the subjects, in order; an event that touches many is read once.

        A table brought in names thousands, and read for each of them would fill the memory.
        """
        histories: dict[str, list[Event]] = {subject: [] for subject in subjects}
        events = {event.id: event for event in self.touching(histories)}
        for subject, number in self.db.execute(
            "SELECT subject, event FROM touched WHERE subject IN"
            " (SELECT value FROM json_each(?)) ORDER BY event", [json.dumps(sorted(histories))]):
            histories[subject].append(events[number])
        return histories

    def undos(self) -> Iterator[tuple[int, int]]:
        """(number, number undone) of every undo."""
        return iter(self.db.execute("SELECT id, undoes FROM event WHERE undoes IS NOT NULL"))

    def head(self) -> tuple[int, str]:
        """The number and the checksum of the last event; (0, "") where there is none."""
        row = self.db.execute("SELECT id, checksum FROM event ORDER BY id DESC LIMIT 1").fetchone()
        return row or (0, BEGINNING)

    def on_the_chain(self, number: int, checksum: str) -> bool:
        """Whether the event of this number is there, and all before it is as it was."""
        sql = "SELECT 1 FROM event WHERE id = ? AND checksum = ?"
        return bool(self.db.execute(sql, [number, checksum]).fetchone())

    def newest(self) -> int:
        """The number of the last event ever written."""
        found = self.db.execute("SELECT seq FROM sqlite_sequence WHERE name = 'event'").fetchone()
        return found[0] if found else 0

    def rows(self) -> Iterator[tuple[int, Event | None]]:
        """The number of each event in order with the event, None where it cannot be read."""
        for row in self.db.execute(f"SELECT {COLUMNS} FROM event ORDER BY id"):
            try:
                yield row[0], _event(row)
            except (ValueError, TypeError):
                yield row[0], None

    def replay(self) -> dict[str, FoldedState]:
        """Work everything out again from the events alone, and keep that; the states."""
        with writing(self.db) as db:
            states = fold(self.events(), held_off(self.undos()))
            cache.empty(db)
            db.execute("DELETE FROM touched")
            db.execute("INSERT INTO touched (subject, event)"
                       " SELECT key, event.id FROM event, json_each(event.change)")
            for subject, state in _records_first(states):
                cache.write(db, subject, state)
        return states

    def cached(self) -> dict[str, FoldedState]:
        """What is kept now; equals what :meth:`replay` works out."""
        return dict(cache.everything(self.db))

    def keep(self, events: Iterable[Event]) -> None:
        """Take over events of another ledger as they are; only into an empty one."""
        with writing(self.db) as db:
            if db.execute("SELECT 1 FROM event LIMIT 1").fetchone():
                raise Conflict("record_here", path=str(self.connections.path))
            db.conn.executemany(INSERT, map(_row, _linked(events)))
            self.replay()

    def _insert(self, entry: Entry, act: Act) -> Event:
        event = self._event_of(entry, act)
        last = self.db.execute("SELECT checksum FROM event ORDER BY id DESC LIMIT 1").fetchone()
        event = replace(event, checksum=checksum(last[0] if last else BEGINNING, event))
        _insert_event(self.db, event)
        self._inserted.append(event)
        return event

    def _event_of(self, entry: Entry, act: Act) -> Event:
        moment = self.hand.clock().isoformat(timespec="milliseconds")
        return Event(
            id=act.number, at=moment, kind=entry.kind, code=entry.code,
            change=json.loads(cache.plain_text(entry.change)), undoes=entry.undoes,
            who=self.hand.who, device=self.hand.device, token=act.token,
        )

    def _marked(self, rows: list[tuple[Any, ...]]) -> list[Event]:
        """Events as read, each marked whether it stands."""
        numbers = json.dumps([row[0] for row in rows])
        off = held_off(self.db.execute(UNDOING, [numbers]))
        return [replace(_event(row, change_of), stands=row[0] not in off) for row in rows]


def _records_first(
    states: Mapping[str, FoldedState | None],
) -> list[tuple[str, FoldedState | None]]:
    """A cut names its cloth, so cloths are written before cuts."""
    return sorted(states.items(), key=lambda item: ":" not in item[0])


def _linked(events: Iterable[Event]) -> Iterator[Event]:
    """Each event with its checksum, where it brings none."""
    before = BEGINNING
    for event in events:
        linked = event if event.checksum else replace(event, checksum=checksum(before, event))
        yield linked
        before = linked.checksum


def _row(event: Event) -> tuple[Any, ...]:
    return (
        event.id, event.at, event.kind.value, event.code, cache.plain_text(event.change),
        event.who, event.device, event.token, event.undoes, event.checksum,
    )


def _insert_event(db: Database, event: Event) -> None:
    db.execute(INSERT, _row(event))
    db.conn.executemany(
        "INSERT INTO touched (subject, event) VALUES (?, ?)",
        [(subject, event.id) for subject in event.change],
    )


def _event(row: tuple[Any, ...], read: Callable[[str], Any] = json.loads) -> Event:
    return Event(
        id=row[0], at=row[1], kind=Kind(row[2]), code=row[3], change=read(row[4]),
        who=row[5], device=row[6], token=row[7], undoes=row[8], checksum=row[9],
    )
