"""The address of a workroom's pages, as labels carry it."""

from __future__ import annotations

import re

from stash.errors import InvalidInput

DEFAULT_NAME = "stash"
"""Short, so that the address stays in version 3 at level H, even as ``stash-2``."""
DEFAULT_PORT = 5000
_HOST = re.compile(r"[a-z0-9]([a-z0-9.-]*[a-z0-9])?(:\d{1,5})?", re.IGNORECASE)


def default_address() -> str:
    """What labels carry before this instance was ever served: the name it would announce."""
    return f"http://{DEFAULT_NAME}.local:{DEFAULT_PORT}"


def tidy(typed: str) -> str:
    """``http://host:port`` from what a person typed; InvalidInput when it is no address."""
    scheme, _, rest = typed.strip().rstrip("/").rpartition("://")
    if scheme.lower() not in {"", "http", "https"} or not _HOST.fullmatch(rest):
        raise InvalidInput("not_an_address", typed=typed.strip()[:60], field="address")
    return f"{scheme.lower() or 'http'}://{rest.lower()}"
