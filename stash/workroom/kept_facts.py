"""Facts as plain JSON and back, so that an answer read again can be said in any language."""

from __future__ import annotations

from typing import Any

from stash.fact import Fact, Term, Value
from stash.sentences import Reader, say
from stash.units import System

ANYBODY = Reader(System.METRIC)


def plain_of(value: Value) -> Any:
    """Dicts, lists, strings and numbers only; a term stays apart from a name."""
    if isinstance(value, Fact):
        return {"kind": value.kind, "values": {n: plain_of(v) for n, v in value.pairs}}
    if isinstance(value, Term):
        return {"term": str(value)}
    if isinstance(value, tuple):
        return [plain_of(one) for one in value]
    return value


def plain_of_all(facts: tuple[Fact, ...]) -> list[Any]:
    """Each of them."""
    return [plain_of(one) for one in facts]


def fact_of(plain: dict[str, Any]) -> Fact:
    """The fact that :func:`plain_of` wrote; KeyError where this version cannot say it any more."""
    found = _fact(plain)
    say(found, ANYBODY)
    return found


def facts_of(plain: list[dict[str, Any]]) -> tuple[Fact, ...]:
    """The facts that :func:`plain_of_all` wrote."""
    return tuple(fact_of(one) for one in plain)


def _fact(plain: dict[str, Any]) -> Fact:
    return Fact(plain["kind"], tuple((n, _value(v)) for n, v in plain["values"].items()))


def _value(plain: Any) -> Value:
    if isinstance(plain, list):
        return tuple(_value(one) for one in plain)
    if isinstance(plain, dict):
        return Term(plain["term"]) if "term" in plain else _fact(plain)
    value: Value = plain
    return value
