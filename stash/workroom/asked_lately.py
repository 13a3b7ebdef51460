"""Answers found again: what was said of each cut, its lay, when, and whether that still holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from stash.errors import NotFound
from stash.fact import Fact, Term, Value
from stash.model import Laid
from stash.model.exact import from_plain, to_plain
from stash.store import Stash
from stash.workroom.answer_lays import lays
from stash.workroom.questions.assignment import MakingAnswer
from stash.workroom.questions.fitting import FitAnswer

# Of one answer: as many lays as somebody looks at, and misses as somebody reads.
MOST_LINES = 24


@dataclass(frozen=True, kw_only=True)
class KeptLine:
    """One cut of a kept answer: ``kind`` of its verdict, what was told of it, its lay if any.

    ``what`` comes out of it, where that is not all that was asked for.
    """

    key: str
    code: str
    name: str
    kind: str
    told: tuple[Fact, ...] = ()
    laid: Laid | None = None
    what: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class KeptAnswer:
    """An answer as it was given. ``query`` asks it again; ``changed`` events came since."""

    key: str
    title: str
    query: str
    asked_on: str
    changed: int
    lines: tuple[KeptLine, ...]

    def line(self, key: str) -> KeptLine:
        """One of its lines; NotFound when there is none with a lay."""
        for one in self.lines:
            if one.key == key and one.laid:
                return one
        raise NotFound("no_such_lay")


def keep(stash: Stash, key: str, asked: tuple[str, str], answer: FitAnswer | MakingAnswer) -> None:
    """Keep an answer under its key; ``asked`` is (title, query)."""
    title, query = asked
    stash.answers.keep(key, {
        "title": title, "query": query, "asked_on": datetime.now().isoformat("T", "minutes"),
        "event": stash.ledger.newest(), "lines": [_line_plain(one) for one in _lines(answer)],
    })


def kept(stash: Stash, key: str) -> KeptAnswer:
    """One kept answer; NotFound when there is none that this version can read."""
    plain = stash.answers.get(key)
    found = plain and _answer(stash, key, plain)
    if not found:
        raise NotFound("answer_not_kept")
    return found


def lately(stash: Stash) -> list[KeptAnswer]:
    """Every kept answer, the newest first."""
    read = (_answer(stash, key, plain) for key, plain in stash.answers.all())
    return [one for one in read if one]


def _lines(answer: FitAnswer | MakingAnswer) -> Iterator[KeptLine]:
    named = {one.key: one for one in lays(answer)}
    if not isinstance(answer, MakingAnswer):
        for c in answer.fit.candidates[:MOST_LINES]:
            yield KeptLine(
                key=c.cut.code, code=c.cut.code, name=c.cut.cloth.name, kind=c.verdict.kind,
                told=(c.verdict.told, *c.suitability.soft, *c.suitability.notes, *c.hangs_on),
                laid=c.laid,
            )
        named = {key: one for key, one in named.items() if key not in
                 {c.cut.code for c in answer.fit.candidates}}
    for key, one in named.items():
        yield KeptLine(
            key=key, code=one.laid.cut.code, name=one.laid.cut.cloth.name,
            kind="change" if one.changes else "fits", told=one.changes, laid=one.laid,
            what=one.what,
        )


def _line_plain(line: KeptLine) -> dict[str, Any]:
    return {
        "key": line.key, "code": line.code, "name": line.name, "kind": line.kind,
        "told": [_plain(fact) for fact in line.told], "laid": to_plain(line.laid),
        "what": list(line.what),
    }


def _answer(stash: Stash, key: str, plain: dict[str, Any]) -> KeptAnswer | None:
    """None where a later or an earlier version wrote what this one cannot read."""
    try:
        lines = tuple(
            KeptLine(
                key=one["key"], code=one["code"], name=one["name"], kind=one["kind"],
                told=tuple(_fact(told) for told in one["told"]), what=tuple(one["what"]),
                laid=from_plain(Laid, one["laid"]) if one["laid"] else None,
            ) for one in plain["lines"]
        )
        return KeptAnswer(
            key=key, title=plain["title"], query=plain["query"], asked_on=plain["asked_on"],
            changed=max(stash.ledger.newest() - plain["event"], 0), lines=lines,
        )
    except (KeyError, TypeError, ValueError, AttributeError):
        return None


def _plain(value: Value) -> Any:
    if isinstance(value, Fact):
        return {"kind": value.kind, "values": {n: _plain(v) for n, v in value.pairs}}
    if isinstance(value, Term):
        return {"term": str(value)}
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    return value


def _fact(plain: dict[str, Any]) -> Fact:
    return Fact(plain["kind"], tuple((n, _value(v)) for n, v in plain["values"].items()))


def _value(plain: Any) -> Value:
    if isinstance(plain, list):
        return tuple(_value(one) for one in plain)
    if isinstance(plain, dict):
        return Term(plain["term"]) if "term" in plain else _fact(plain)
    value: Value = plain
    return value
