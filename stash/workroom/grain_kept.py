"""Who said where the grain of a traced cut runs: kept beside its outline, and read again."""

from __future__ import annotations

from stash.ledger import Entry, Kind
from stash.ledger.grain import GrainBy, grain_by, grain_subject
from stash.store import Stash


def keep_grain(stash: Stash, code: str, by: GrainBy) -> None:
    """Beside what sets an outline, within the same act: who said where its grain runs."""
    change = {grain_subject(code): {"record": {"by": by.value}}}
    stash.ledger.write(lambda: Entry(kind=Kind.REMEASURE, code=code, change=change))


def grain_is_presumed(stash: Stash, code: str) -> bool:
    """True for an outline that was traced with nothing to show its grain."""
    by = grain_by(stash.ledger.history(code), code)
    return by is not None and by.presumed
