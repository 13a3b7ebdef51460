"""Plans, and the cloth and notions they hold until the person gives them up."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from stash.errors import Conflict, InvalidInput, NotFound
from stash.fact import Term
from stash.ledger import NEEDS, BinHold, BinState, CutHold, CutState, Entry, Event, Kind
from stash.model import Code, Plan
from stash.model.exact import from_plain, to_plain
from stash.store.ledger import Ledger
from stash.store.naming import is_name, key_of


@dataclass(frozen=True, kw_only=True)
class Holdings:
    """What one plan holds, by label code."""

    cuts: Mapping[str, CutHold]
    bins: Mapping[str, BinHold]


class Plans:
    """Plans by name; case and accents do not matter."""

    def __init__(self, ledger: Ledger):
        self.ledger = ledger

    def get(self, name: str) -> Plan:
        """One plan; NotFound when there is none of this name."""
        record = self.ledger.state(_subject(name))
        if record is None:
            known = ", ".join(plan.name for plan in self.all()[:8]) or Term("none yet")
            raise NotFound("no_such_plan", typed=name, known=known)
        return from_plain(Plan, record)

    def all(self) -> list[Plan]:
        """Every plan, by name."""
        rows = self.ledger.db.execute(
            "SELECT record FROM record WHERE noun = 'plan' ORDER BY subject"
        )
        return [from_plain(Plan, json.loads(record)) for (record,) in rows]

    def save(self, plan: Plan, token: str | None = None) -> Event:
        """Record a plan, or a change of one; its holds stay as they are."""
        if not is_name(plan.name) or len(plan.name) > 100:
            raise InvalidInput("plan_name_wanted", most=100, field="name")
        subject = _subject(plan.name)

        def make() -> Entry:
            known = self.ledger.record(subject)
            record = to_plain(plan if known is None else replace(plan, name=known["name"]))
            kind = Kind.RECEIPT if known is None else Kind.CORRECTION
            return Entry(kind=kind, code=subject, change={subject: {"record": record}})

        return self.ledger.write(make, token)

    def hold(
        self,
        name: str,
        cuts: Mapping[str, CutHold] | None = None,
        bins: Mapping[str, float] | None = None,
        token: str | None = None,
    ) -> Event:
        """Hold stretches of cuts (in the cut's own frame, unwashed as it lies) and amounts of bins.

        What the plan already holds of the same cut or bin is replaced. Held or
        NotEnough when another plan holds it or there is too little; then nothing is held.
        """

        def make() -> Entry:
            plan = self.get(name).name
            change = {
                Code.parse(code).text: to_plain(replace(hold, plan=plan))
                for code, hold in (cuts or {}).items()
            }
            for code, amount in (bins or {}).items():
                if not amount > 0:
                    raise InvalidInput("amount_wanted_to_hold", field="amount")
                change[Code.parse(code).text] = {"plan": plan, "amount": float(amount)}
            if not change:
                raise InvalidInput("nothing_to_hold")
            change[_subject(name)] = NEEDS
            return Entry(kind=Kind.HOLD, code=_subject(name), change=change)

        return self.ledger.write(make, token)

    def release(self, name: str, token: str | None = None, code: str | None = None) -> Event:
        """Give up everything the plan holds, or only what it holds of one cut or bin."""

        def make() -> Entry:
            plan = self.get(name).name
            held = self.holdings(name)
            codes = [*held.cuts, *held.bins]
            if code is not None:
                codes = [c for c in codes if c == Code.parse(code).text]
            if not codes:
                raise Conflict("plan_holds_nothing", plan=plan)
            change = {c: {"plan": plan} for c in codes}
            return Entry(kind=Kind.RELEASE, code=_subject(name), change=change)

        return self.ledger.write(make, token)

    def made(self, name: str, token: str | None = None) -> Event:
        """The garments are sewn: the notions held for them leave their bins, in one event.

        Conflict while the plan still holds cloth, which is cut out or given up first.
        """

        def make() -> Entry:
            plan = self.get(name)
            held = self.holdings(name)
            if held.cuts:
                raise Conflict("plan_still_holds_cloth", plan=plan.name, cuts=tuple(held.cuts))
            if plan.made:
                raise Conflict("plan_made", plan=plan.name, day=plan.made)
            today = self.ledger.hand.clock().date().isoformat()
            change: dict[str, dict[str, Any]] = {
                code: {"amount": hold.amount, "plan": hold.plan}
                for code, hold in held.bins.items()
            }
            change[_subject(name)] = {"record": to_plain(replace(plan, made=today))}
            return Entry(kind=Kind.TAKE, code=_subject(name), change=change)

        return self.ledger.write(make, token)

    def remove(self, name: str, token: str | None = None) -> Event:
        """Give up all holds and take the plan off the list; undo brings both back."""

        def make() -> Entry:
            plan = self.get(name).name
            held = self.holdings(name)
            change: dict[str, dict[str, Any]] = {
                code: {"plan": plan} for code in (*held.cuts, *held.bins)}
            change[_subject(name)] = {"record": None}
            return Entry(kind=Kind.RELEASE, code=_subject(name), change=change)

        return self.ledger.write(make, token)

    def holdings(self, name: str) -> Holdings:
        """What a plan holds now."""
        key = key_of(name)
        cuts: dict[str, CutHold] = {}
        bins: dict[str, BinHold] = {}
        for code, state in self._held():
            for hold in state.holds:
                if key_of(hold.plan) != key:
                    continue
                if isinstance(hold, CutHold):
                    cuts[code] = hold
                else:
                    bins[code] = hold
        return Holdings(cuts=cuts, bins=bins)

    def held_by(self, code: str) -> tuple[str, ...]:
        """The names of the plans that hold something of a cut or bin."""
        state = self.ledger.state(Code.parse(code).text)
        held = state.holds if isinstance(state, (CutState, BinState)) else ()
        return tuple(hold.plan for hold in held)

    def _held(self) -> list[tuple[str, CutState | BinState]]:
        rows = self.ledger.db.execute(
            "SELECT code FROM cut WHERE holds <> '[]' UNION ALL"
            " SELECT code FROM bin WHERE holds <> '[]'"
        ).fetchall()
        states = ((code, self.ledger.state(code)) for (code,) in rows)
        return [(code, s) for code, s in states if isinstance(s, (CutState, BinState))]


def _subject(name: str) -> str:
    return f"plan:{key_of(name)}"
