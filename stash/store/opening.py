"""Opening a stash: the one way in."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from pathlib import Path

from stash.errors import Unavailable
from stash.store import words
from stash.store.answers import AnswerFiles
from stash.store.backup import swap
from stash.store.backup.daily import keep_copy
from stash.store.bins import Bins
from stash.store.cloths import Cloths
from stash.store.connection import Connections, writing
from stash.store.cuts import Cuts
from stash.store.devices import Devices
from stash.store.folder import DataFolder
from stash.store.labels import Labels
from stash.store.ledger import Act, Hand, Ledger
from stash.store.migrations import migrate
from stash.store.patterns import Patterns
from stash.store.people import People
from stash.store.photos import Photos
from stash.store.piece_photos import PiecePhotos
from stash.store.places import Places
from stash.store.plans import Plans
from stash.store.searches import Searches
from stash.store.settings import Settings
from stash.store.turnover import Turnover


def open_stash(
    folder: Path, *, who: str = "", device: str = "", hand: Hand | None = None,
    keeping: bool = True,
) -> Stash:
    """The stash kept in ``folder``, made when there is none yet.

    ``who`` and ``device`` are written beside every event (``hand`` gives a clock
    too). May be shared by threads; each gets its own connection. Without ``keeping`` no
    copy of the day is made. Unavailable when the folder cannot be used or its record
    is lost, StoreTooNew when a later version wrote it.
    """
    data = DataFolder(Path(folder))
    data.prepare()
    swap.finish(data)
    if data.lost:
        raise Unavailable("record_missing", path=str(data.database))
    connections = Connections(data.database)
    hand = hand or Hand(who=who, device=device)
    try:
        migrate(connections.here(), data.copies)
        if keeping:
            keep_copy(connections.here(), data, hand.clock().date())
    except BaseException:
        connections.close()
        raise
    return Stash(data, connections, hand)


class Stash:
    """Everything on record, one collection a noun."""

    def __init__(self, folder: DataFolder, connections: Connections, hand: Hand):
        self.folder = folder
        self._connections = connections
        self.ledger = Ledger(connections, hand)
        self.labels = Labels(self.ledger)
        self.cloths = Cloths(self.ledger)
        self.cuts = Cuts(self.ledger, self.labels, self.cloths)
        self.bins = Bins(self.ledger, self.labels)
        self.people = People(self.ledger)
        self.places = Places(self.ledger, self.labels)
        self.settings = Settings(self.ledger)
        self.plans = Plans(self.ledger)
        self.patterns = Patterns(self.ledger)
        self.photos = Photos(self.ledger, folder)
        self.piece_photos = PiecePhotos(folder)
        self.answers = AnswerFiles(folder)
        self.devices = Devices(self.ledger)
        self.searches = Searches(self.ledger)
        self.turnover = Turnover(self.ledger, folder)

    def written_by(self, who: str, device: str = "") -> Stash:
        """The same stash in another hand, for a server that knows who is asking."""
        clock = self.ledger.hand.clock
        return Stash(self.folder, self._connections, Hand(who=who, device=device, clock=clock))

    @cached_property
    def secret_key(self) -> str:
        """What the web signs its cookies with."""
        return self.folder.secret_key()

    def search(self, typed: str) -> list[str]:
        """Codes of the present cuts and bins whose words begin with those typed."""
        found: list[str] = []
        for subject in words.find(self.ledger.db, typed):
            if subject.startswith("cloth:"):
                sql = "SELECT code FROM cut WHERE cloth = ? AND gone IS NULL ORDER BY rowid"
            else:
                sql = "SELECT code FROM bin WHERE code = ? AND gone IS NULL"
            found.extend(code for (code,) in self.ledger.db.execute(sql, [subject]))
        return found

    @contextmanager
    def together(self) -> Iterator[None]:
        """Several acts, each with an event of its own: all are recorded, or none."""
        with writing(self.ledger.db):
            yield

    @contextmanager
    def act(self, token: str | None = None) -> Iterator[Act]:
        """One act of a person: all that is written inside is one event, with one undo."""
        with self.ledger.act(token) as act:
            yield act

    @contextmanager
    def reading(self) -> Iterator[None]:
        """Everything read inside is of one moment, whoever writes meanwhile."""
        db = self.ledger.db
        db.execute("BEGIN")
        try:
            yield
        finally:
            db.rollback()

    def settle(self) -> None:
        """Bring everything into the one file, so that it can be moved."""
        self.ledger.db.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()

    def close(self) -> None:
        """Close the connections of all threads."""
        self._connections.close()

    def __enter__(self) -> Stash:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()
