"""A stock-take: what was seen in a place, against what is said to lie there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from stash.errors import NotFound
from stash.ledger import Event
from stash.store import Stash
from stash.store.naming import key_of

__all__ = ["Standing", "key_of"]


@dataclass(frozen=True)
class Standing:
    """A place as it stands: codes found as expected, missing, and out of place."""

    found: tuple[str, ...]
    missing: tuple[str, ...]
    strays: tuple[str, ...]
    unknown: tuple[str, ...]

    @property
    def complete(self) -> bool:
        """True when nothing is missing and nothing is out of place."""
        return not (self.missing or self.strays or self.unknown)


def compare(stash: Stash, place: str, seen: Iterable[str]) -> Standing:
    """What was scanned against what is said to be there."""
    expected = stash.places.contents(place)
    there = dict.fromkeys(seen)
    things = [c for c in there if stash.labels.state(c) in ("cut", "bin")]
    return Standing(
        found=tuple(c for c in expected if c in there),
        missing=tuple(c for c in expected if c not in there),
        strays=tuple(c for c in things if c not in expected),
        unknown=tuple(c for c in there if stash.labels.state(c) in ("blank", "unknown")),
    )


def move_all(
    stash: Stash, codes: Sequence[str], place: str | None, token: str | None = None
) -> Event | None:
    """Everything named lies in this place from now on (None: nobody knows where); one event."""
    with stash.act(token) as act:
        for code in codes:
            _move(stash, code, place)
    return act.event or act.earlier


def _move(stash: Stash, code: str, place: str | None) -> None:
    what = stash.labels.state(code)
    if what == "cut":
        stash.cuts.move(code, place)
    elif what == "bin":
        stash.bins.move(code, place)
    else:
        raise NotFound("nothing_with_label", code=code)


def finish(stash: Stash, place: str, standing: Standing, token: str | None = None) -> None:
    """Write down how the place was found."""
    stash.settings.set(f"stock-take {place}", {
        "found": len(standing.found), "missing": list(standing.missing),
        "strays": list(standing.strays),
    }, token=token)
