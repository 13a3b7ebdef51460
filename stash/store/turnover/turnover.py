"""Bringing the sums up to the last event."""

from __future__ import annotations

import json
import sqlite3
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import closing, contextmanager, suppress
from functools import cache
from pathlib import Path

from stash.ledger import CutState, Event, Kind, held_off
from stash.ledger.flows import CameInAs, FlowFold
from stash.model import Cloth
from stash.model.exact import from_plain
from stash.store.folder import DataFolder, private_file
from stash.store.ledger import Ledger
from stash.store.turnover import tables
from stash.store.turnover.rows import flow_row, here_row, source_row
from stash.store.turnover.sums import KeptSums

BUSY_S = 600.0
"""How long to wait while another program brings the same file up."""
WORTH_ADDING = 4
"""When more than one event in so many is new, all is worked out anew: that is then quicker."""

TOLD_EACH = 1000
"""How far it is, is told after so many events."""

_one_at_a_time = threading.Lock()
ClothOf = Callable[[str], Cloth | None]
Progress = Callable[[int, int], None]


def untold(_done: int, _total: int) -> None:
    """Progress that nobody follows."""


class Turnover:
    """The sums of one stash."""

    def __init__(self, ledger: Ledger, folder: DataFolder):
        self.ledger = ledger
        self.path = folder.path / "turnover.db"

    def unread(self) -> int:
        """How many events are to be read before the sums are up to the last one.

        All of them where the file is missing, of no use, or just being made anew.
        """
        head, known = self.ledger.head(), None
        with (
            suppress(sqlite3.Error),
            closing(sqlite3.connect(f"{self.path.absolute().as_uri()}?mode=ro", timeout=0,
                                    uri=True)) as db,
        ):
            known = _upto(db)
        if known is None or not self._worth_adding(known, head):
            return head[0]
        return head[0] - known[0]

    @contextmanager
    def now(self, progress: Progress = untold) -> Iterator[KeptSums]:
        """The sums of everything on record; ``progress`` is told (events read, of how many)."""
        with _one_at_a_time:
            db = self._brought_up(progress)
        with closing(db):
            yield KeptSums(db)

    def _brought_up(self, progress: Progress) -> sqlite3.Connection:
        """The file; made anew where it is of no use, and in memory where none can be written."""
        for _ in range(2):
            try:
                return self._opened(str(private_file(self.path)), progress)
            except (sqlite3.Error, OSError):
                _forget(self.path)
        return self._opened(":memory:", progress)

    def _opened(self, name: str, progress: Progress) -> sqlite3.Connection:
        db = sqlite3.connect(name, timeout=BUSY_S, isolation_level=None, check_same_thread=False)
        try:
            self._bring_up(db, progress)
        except BaseException:
            db.close()
            raise
        return db

    def _bring_up(self, db: sqlite3.Connection, progress: Progress) -> None:
        head = self.ledger.head()
        if _upto(db) == head:
            return
        db.execute("BEGIN IMMEDIATE")
        try:
            known = _upto(db)
            if known is not None and self._worth_adding(known, head):
                self._add(db, known[0])
            else:
                self._make(db, _told(self.ledger.events(), head[0], progress))
            db.execute("DELETE FROM upto")
            db.execute("INSERT INTO upto VALUES (?, ?, ?)", [tables.FORM, *head])
            db.execute("COMMIT")
        except BaseException:
            db.execute("ROLLBACK")
            raise

    def _worth_adding(self, known: tuple[int, str], head: tuple[int, str]) -> bool:
        new = head[0] - known[0]
        return self.ledger.on_the_chain(*known) and 0 <= new * WORTH_ADDING <= head[0]

    def _make(self, db: sqlite3.Connection, events: Iterable[Event]) -> None:
        """Work everything out from nothing."""
        _emptied(db)
        self._keep(db, FlowFold(), self._standing(events))
        for statement in (*tables.SUMMED_AT_ONCE, *tables.KEPT_UP):
            db.execute(statement)

    def _add(self, db: sqlite3.Connection, after: int) -> None:
        """Work the cuts out again that anything new bears on: themselves, or their cloth."""
        touched = {subject for event in self.ledger.events(after) for subject in event.change}
        cloths = json.dumps(sorted(s for s in touched if s.startswith("cloth:")))
        codes = {s for s in touched if ":" not in s}
        for table in ("flow", "here"):
            codes.update(code for (code,) in db.execute(
                f"SELECT code FROM {table} WHERE cloth IN (SELECT value FROM json_each(?))",
                [cloths]))
        for table in ("flow", "here", "source"):
            db.executemany(f"DELETE FROM {table} WHERE code = ?", [(code,) for code in codes])
        events = list(self.ledger.touching(codes))
        folding = FlowFold(codes=codes, sources=_sources(db, events))
        self._keep(db, folding, self._standing(events))

    def _standing(self, events: Iterable[Event]) -> Iterator[Event]:
        off = held_off(self.ledger.undos())
        return (e for e in events if e.id not in off and e.kind is not Kind.UNDO)

    def _keep(self, db: sqlite3.Connection, folding: FlowFold, events: Iterable[Event]) -> None:
        """Fold the events, and write down what comes of it."""
        cloth_of, known = self._cloth_of(), set(folding.sources)
        db.executemany(tables.insertion("flow", tables.FLOW), (
            flow_row(flow, cloth_of(flow.cloth))
            for event in events for flow in folding.after(event)))
        db.executemany(tables.insertion("source", tables.SOURCE), (
            source_row(code, source) for code, source in folding.sources.items()
            if code not in known))
        db.executemany(tables.insertion("here", tables.HERE), (
            here_row(code, state, folding.sources[code], folding.taken.get(code),
                     cloth_of(state.cloth))
            for code, state in folding.states.items()
            if isinstance(state, CutState) and not state.gone))

    def _cloth_of(self) -> ClothOf:
        @cache
        def cloth_of(subject: str) -> Cloth | None:
            record = self.ledger.record(subject)
            return None if record is None else from_plain(Cloth, record)

        return cloth_of


def _sources(db: sqlite3.Connection, events: Iterable[Event]) -> dict[str, CameInAs]:
    """What is kept of the cuts that these events touch beside those to be worked out again."""
    subjects = json.dumps(sorted({subject for event in events for subject in event.change}))
    rows = db.execute("SELECT code, root, width_mm, day FROM source WHERE code IN"
                      " (SELECT value FROM json_each(?))", [subjects])
    return {code: CameInAs(root=root, width_mm=width_mm, on=day)
            for code, root, width_mm, day in rows}


def _upto(db: sqlite3.Connection) -> tuple[int, str] | None:
    """The number and checksum of the last event in the sums; None in a new file or an old form."""
    if not db.execute("SELECT 1 FROM sqlite_master WHERE name = 'upto'").fetchone():
        return None
    row = db.execute("SELECT event, checksum FROM upto WHERE form = ?", [tables.FORM]).fetchone()
    return row or None


def _emptied(db: sqlite3.Connection) -> None:
    made = db.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
    for (name,) in made:
        db.execute(f"DROP TABLE {name}")
    for statement in tables.TABLES:
        db.execute(statement)


def _told(events: Iterable[Event], total: int, progress: Progress) -> Iterator[Event]:
    """The events, while it is told how many of them were read."""
    for done, event in enumerate(events):
        if done % TOLD_EACH == 0:
            progress(done, total)
        yield event


def _forget(path: Path) -> None:
    for file in (path, path.with_name(f"{path.name}-journal")):
        try:
            file.unlink(missing_ok=True)
        except OSError:
            return
