"""Trade rules by name, each with its value, source and status."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from stash.notions.table import rows


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
    return {r["key"]: Rule(**{**r, "value": float(r["value"])}) for r in rows("rules")}


def value(key: str) -> float:
    """The number of one rule, in the unit that the rule states."""
    return rules()[key].value
