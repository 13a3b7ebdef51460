"""What the person decided once: units, the address on her labels, her printer's offsets."""

from __future__ import annotations

import json
import secrets
from typing import Any

from stash.errors import InvalidInput
from stash.ledger import Entry, Event, Kind
from stash.store.ledger import Ledger

LONGEST = 20_000


class Settings:
    """Plain JSON values by name."""

    def __init__(self, ledger: Ledger):
        self.ledger = ledger

    def get(self, name: str, default: Any = None) -> Any:
        """The value, or ``default`` when it was never set."""
        record = self.ledger.record(f"setting:{name}")
        return default if record is None else record["value"]

    def set(self, name: str, value: Any, token: str | None = None) -> Event:
        """Set a value; the earlier one stays in the ledger."""
        if len(json.dumps(value)) > LONGEST:
            raise InvalidInput("setting_too_long")
        subject = f"setting:{name}"
        entry = Entry(kind=Kind.CORRECTION, code=subject,
                      change={subject: {"record": {"value": value}}})
        return self.ledger.write(lambda: entry, token)

    def all(self) -> dict[str, Any]:
        """Every value by its name."""
        rows = self.ledger.db.execute("SELECT subject, record FROM record WHERE noun = 'setting'")
        return {
            subject.removeprefix("setting:"): json.loads(record)["value"]
            for subject, record in rows
        }

    @property
    def instance(self) -> str:
        """What tells this stash from every other; made when it is first asked for."""
        if self.get("instance") is None:
            self.set("instance", secrets.token_hex(8), token="instance")
        return str(self.get("instance"))

    @property
    def address(self) -> str | None:
        """"http://host:port" that labels are printed with, or None before it is known."""
        known = self.addresses
        return known[0] if known else None

    @property
    def addresses(self) -> list[str]:
        """The present address first, then all that older labels may carry."""
        return list(self.get("addresses", ()))

    def set_address(self, address: str, token: str | None = None) -> None:
        """Print labels with this address from now on; earlier ones stay known."""
        known = self.addresses
        tidy = address.strip().rstrip("/").lower()
        if not tidy.startswith(("http://", "https://")) or len(tidy) > 200:
            raise InvalidInput("address_begins_with_http", field="address")
        if known[:1] != [tidy]:
            self.set("addresses", [tidy, *(a for a in known if a != tidy)], token)
