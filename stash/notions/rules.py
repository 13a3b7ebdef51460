"""Trade rules by name, each with its value, source and status."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from stash.notions.published_tables import rows


@dataclass(frozen=True)
class Rule:
    """One rule of the trade; ``status`` says how far its ``source`` can be trusted."""

    key: str
    value: float
    unit: str
    rule: str
    status: str
    source: str


@cache
def rules() -> dict[str, Rule]:
    """Every rule of rules.csv, by key."""
    return {row["key"]: _read(row) for row in rows("rules")}


def _read(row: Mapping[str, str]) -> Rule:
    typed: dict[str, Any] = dict(row)
    typed["value"] = float(row["value"])
    return Rule(**typed)


def value(key: str) -> float:
    """The number of one rule, in the unit that the rule states."""
    return rules()[key].value
