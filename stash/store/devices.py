"""Devices that were paired with this stash: a name, a role, and the digest of a key.

They belong to this computer, not to the history: a backup does not carry them, and a
record brought back elsewhere is paired anew.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
import sqlite3
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from stash.errors import Conflict, InvalidInput, NotFound
from stash.model.role import DeviceRole
from stash.store.connection import writing
from stash.store.ledger import Ledger
from stash.store.naming import is_name, key_of

OFFER_MINUTES = 10
LONGEST_NAME = 60
NOTED_S = 60
COLUMNS = "id, name, role, paired_at, last_used, revoked_at"


@dataclass(frozen=True, kw_only=True)
class Device:
    """A paired device; moments are ISO 8601, local. A revoked one is known no more."""

    id: int
    name: str
    role: DeviceRole
    paired_at: str
    last_used: str | None = None
    revoked_at: str | None = None


@dataclass(frozen=True, kw_only=True)
class Offer:
    """A device may be paired once with ``secret``, until that moment."""

    secret: str
    name: str
    role: DeviceRole
    until: str


class Devices:
    """Every device that may ask, by its key."""

    def __init__(self, ledger: Ledger):
        self.ledger = ledger

    def offer(self, name: str, role: DeviceRole) -> Offer:
        """Offer to pair a device of this name, once; Conflict when the name is in use."""
        tidy = " ".join(name.split())
        if not is_name(tidy) or len(tidy) > LONGEST_NAME:
            raise InvalidInput("device_name", count=LONGEST_NAME, field="name")
        secret, until = secrets.token_urlsafe(16), self._now() + timedelta(minutes=OFFER_MINUTES)
        with writing(self.ledger.db) as db:
            self._refuse_taken(tidy)
            db.execute("DELETE FROM device_offer WHERE until < ?", (_text(self._now()),))
            db.execute("INSERT INTO device_offer VALUES (?, ?, ?, ?)",
                       (_digest(secret), tidy, role.value, _text(until)))
        return Offer(secret=secret, name=tidy, role=role, until=_text(until))

    def pair(self, secret: str) -> tuple[Device, str]:
        """(the device, its key) for a secret that was offered; it serves this one time."""
        key = secrets.token_urlsafe(32)
        with writing(self.ledger.db) as db:
            name, role = self._offered(secret)
            self._refuse_taken(name)
            db.execute("DELETE FROM device_offer WHERE secret_sha256 = ?", (_digest(secret),))
            db.execute("INSERT INTO device (name, role, key_sha256, paired_at) VALUES (?, ?, ?, ?)",
                       (name, role, _digest(key), _text(self._now())))
        device = self.known(key)
        assert device is not None
        return device, key

    def known(self, key: str) -> Device | None:
        """The device with this key, if it was paired and not revoked."""
        wanted, found = _digest(key), None
        rows = self.ledger.db.execute(
            f"SELECT key_sha256, {COLUMNS} FROM device WHERE revoked_at IS NULL").fetchall()
        for row in rows:  # every row is compared, so that time tells nothing
            if hmac.compare_digest(row[0], wanted):
                found = row
        return _device(found[1:]) if found else None

    def used(self, device: Device) -> None:
        """Note that a device was just used; a disk that cannot take that keeps nobody out."""
        now = self._now()
        if device.last_used and now - datetime.fromisoformat(device.last_used) < timedelta(
                seconds=NOTED_S):
            return
        with suppress(sqlite3.Error):
            self.ledger.db.execute(
                "UPDATE device SET last_used = ? WHERE id = ?", (_text(now), device.id))

    def all(self) -> list[Device]:
        """Those that may ask, by name."""
        rows = self.ledger.db.execute(
            f"SELECT {COLUMNS} FROM device WHERE revoked_at IS NULL ORDER BY name")
        return [_device(row) for row in rows]

    def revoke(self, name: str) -> Device:
        """Know this device no more; NotFound when there is none of this name."""
        with writing(self.ledger.db) as db:
            device = self._named(name)
            if device is None:
                known = tuple(d.name for d in self.all())
                raise NotFound("no_such_device" if known else "no_devices", name=name, known=known)
            db.execute("UPDATE device SET revoked_at = ? WHERE id = ?",
                       (_text(self._now()), device.id))
        return device

    def _named(self, name: str) -> Device | None:
        return next((d for d in self.all() if key_of(d.name) == key_of(name)), None)

    def _refuse_taken(self, name: str) -> None:
        if self._named(name):
            raise Conflict("device_name_taken", name=name)

    def _offered(self, secret: str) -> tuple[str, str]:
        wanted, found = _digest(secret), None
        rows = self.ledger.db.execute(
            "SELECT secret_sha256, name, role FROM device_offer WHERE until >= ?",
            (_text(self._now()),)).fetchall()
        for row in rows:
            if hmac.compare_digest(row[0], wanted):
                found = row
        if found is None:
            raise NotFound("offer_over")
        return found[1], found[2]

    def _now(self) -> datetime:
        return self.ledger.hand.clock().astimezone(UTC)


def _digest(secret: str) -> str:
    return hashlib.sha256(secret.encode("utf-8", "surrogatepass")).hexdigest()


def _text(moment: datetime) -> str:
    return moment.isoformat(timespec="seconds")


def _device(row: tuple[int, str, str, str, str | None, str | None]) -> Device:
    paired, used, revoked = (_local(moment) if moment else None for moment in row[3:])
    assert paired is not None
    return Device(id=row[0], name=row[1], role=DeviceRole(row[2]), paired_at=paired,
                  last_used=used, revoked_at=revoked)


def _local(moment: str) -> str:
    """Kept in UTC, so that moments may be compared as text; told by the clock on the wall."""
    return _text(datetime.fromisoformat(moment).astimezone())
