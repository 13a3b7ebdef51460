"""What somebody who uses the pages may do."""

from __future__ import annotations

from enum import StrEnum


class DeviceRole(StrEnum):
    """Look at the stash; look and record; everything, body measurements and settings too."""

    LOOK = "look"
    RECORD = "record"
    ALL = "all"

    def allows(self, other: DeviceRole) -> bool:
        """Whether this role may do what the other may."""
        ranks = list(DeviceRole)
        return ranks.index(self) >= ranks.index(other)
