"""The usual cautions where a garment or notion can hurt someone."""

from __future__ import annotations

from stash.notions.published_tables import rows

KEYS = ("nightwear", "cords", "small_parts")


def caution(key: str) -> str:
    """One caution with its source: "nightwear", "cords" or "small_parts"."""
    row = next(r for r in rows("cautions") if r["key"] == key)
    return f"{row['says']} ({row['source']})"
