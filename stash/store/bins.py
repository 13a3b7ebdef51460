"""Bins of notions: what is in them, and everything that may happen to it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from stash.errors import InvalidInput, NotFound
from stash.fact import Term
from stash.ledger import BinHold, BinState, Entry, Event, Kind
from stash.model import Bin, Code, Notion
from stash.model.exact import to_plain
from stash.store.cache import BIN_COLUMNS, bin_state
from stash.store.labels import Labels
from stash.store.ledger import Ledger
from stash.store.places import place_name

MOST = 100_000_000.0


@dataclass(frozen=True, kw_only=True)
class BinCard:
    """All there is to say about a bin: also what became of it, and who holds what of it."""

    bin: Bin
    gone: str | None
    holds: tuple[BinHold, ...]
    free: float


class Bins:
    """The bins on record, by label code."""

    def __init__(self, ledger: Ledger, labels: Labels):
        self.ledger = ledger
        self.labels = labels

    def get(self, code: str) -> Bin:
        """A bin that is here; NotFound when it is unknown or gone."""
        card = self.card(code)
        if card.gone:
            raise NotFound("bin_gone", code=card.bin.code, how=Term(card.gone))
        return card.bin

    def card(self, code: str) -> BinCard:
        """A bin, here or gone, with its holds."""
        parsed = Code.parse(code).text
        return _card(parsed, self._state(parsed))

    def all(self, *, gone: bool = False) -> list[Bin]:
        """The bins that are here, newest first; with ``gone`` those that are not."""
        return [card.bin for card in self.cards(gone=gone)]

    def cards(self, *, gone: bool = False) -> list[BinCard]:
        """As :meth:`all`, with holds and what became of each."""
        rows = self.ledger.db.execute(
            f"SELECT {', '.join(BIN_COLUMNS)} FROM bin WHERE (gone IS NOT NULL) = ?"
            " ORDER BY rowid DESC",
            [int(gone)],
        )
        return [_card(row[0], bin_state(row)) for row in rows.fetchall()]

    def cards_of(self, codes: Iterable[str]) -> list[BinCard]:
        """The bins of these codes, here or gone, in their order; others are left out."""
        wanted = list(codes)
        rows = self.ledger.db.execute(
            f"SELECT {', '.join(BIN_COLUMNS)} FROM bin"
            " WHERE code IN (SELECT value FROM json_each(?))", [json.dumps(wanted)])
        found = {row[0]: _card(row[0], bin_state(row)) for row in rows}
        return [found[code] for code in wanted if code in found]

    def how_many(self) -> int:
        """How many are here."""
        (number,) = self.ledger.db.execute(
            "SELECT COUNT(*) FROM bin WHERE gone IS NULL").fetchone()
        return int(number)

    def newest(self, most: int) -> list[str]:
        """The codes of the bins that came last and are here, newest first."""
        rows = self.ledger.db.execute(
            "SELECT code FROM bin WHERE gone IS NULL ORDER BY rowid DESC LIMIT ?", [most])
        return [code for (code,) in rows]

    def kinds(self) -> dict[str, str]:
        """The kind of each present bin by its code, the newest first."""
        return dict(self.ledger.db.execute(
            "SELECT code, kind FROM bin WHERE gone IS NULL ORDER BY rowid DESC").fetchall())

    def receive(self, bin: Bin, code: str | None = None, token: str | None = None) -> Event:
        """Record a new bin under a blank label's code, or under a fresh one."""
        checked(bin.notion)
        _check_amount(bin.notion, bin.amount, least=0)

        def make() -> Entry:
            taken = self.labels.claim(code or bin.code)
            arrival = {
                "notion": to_plain(bin.notion), "amount": float(bin.amount),
                "place": place_name(self.ledger, bin.place),
            }
            return Entry(kind=Kind.RECEIPT, code=taken, change={taken: {"bin": arrival}})

        return self.ledger.write(make, token)

    def take(
        self,
        code: str,
        amount: float,
        token: str | None = None,
        *,
        plan: str | None = None,
        despite_hold: bool = False,
    ) -> Event:
        """Take a count or a length in mm; ``plan`` takes what that plan holds of it."""
        part: dict[str, Any] = {"amount": float(amount)}
        if plan:
            part["plan"] = plan
        if despite_hold:
            part["despite_hold"] = True
        return self._change(Kind.TAKE, code, part, token, least=None)

    def put(self, code: str, amount: float, token: str | None = None) -> Event:
        """Put more of the same into the bin."""
        return self._change(Kind.PUT, code, {"amount": float(amount)}, token, least=None)

    def count(self, code: str, amount: float, token: str | None = None) -> Event:
        """The bin was counted or measured: this much is in it."""
        return self._change(Kind.COUNT, code, {"amount": float(amount)}, token, least=0)

    def move(self, code: str, place: str | None, token: str | None = None) -> Event:
        """The bin now stands in another place."""
        name = place_name(self.ledger, place)
        return self._change(Kind.MOVE, code, {"place": name}, token)

    def gift(self, code: str, token: str | None = None, *, despite_hold: bool = False) -> Event:
        """The bin was given away."""
        return self._change(Kind.GIFT, code, {"despite_hold": despite_hold}, token)

    def discard(self, code: str, token: str | None = None, *, despite_hold: bool = False) -> Event:
        """The bin was thrown away."""
        return self._change(Kind.DISCARD, code, {"despite_hold": despite_hold}, token)

    def correct(self, code: str, notion: Notion, token: str | None = None) -> Event:
        """Describe what is in the bin anew; counted stays counted, measured stays measured."""

        def make() -> Entry:
            parsed = Code.parse(code).text
            if self._state(parsed).notion.kind.counted != notion.kind.counted:
                raise InvalidInput("counted_stays_counted", field="kind")
            part = {"notion": to_plain(checked(notion))}
            return Entry(kind=Kind.CORRECTION, code=parsed, change={parsed: part})

        return self.ledger.write(make, token)

    def _change(
        self, kind: Kind, code: str, part: Mapping[str, Any], token: str | None,
        least: float | None = 0,
    ) -> Event:
        def make() -> Entry:
            parsed = Code.parse(code).text
            state = self._state(parsed)
            if "amount" in part:
                _check_amount(state.notion, part["amount"], least=least)
            return Entry(kind=kind, code=parsed, change={parsed: part})

        return self.ledger.write(make, token)

    def _state(self, code: str) -> BinState:
        state = self.ledger.state(Code.parse(code).text)
        if not isinstance(state, BinState):
            raise NotFound("no_such_bin", code=str(Code.parse(code)))
        return state


def checked(notion: Notion) -> Notion:
    """The notion itself; InvalidInput for what nothing can be."""
    if not notion.name.strip() or len(notion.name) > 200:
        raise InvalidInput("bin_name_wanted", most=200, field="name")
    if notion.size_mm is not None and not 0 < notion.size_mm <= 10_000:
        raise InvalidInput("not_a_notion_size", field="size")
    return notion


def _card(code: str, state: BinState) -> BinCard:
    bin = Bin(code=code, notion=state.notion, amount=state.amount, place=state.place)
    return BinCard(bin=bin, gone=state.gone, holds=state.holds, free=state.free)


def _check_amount(notion: Notion, amount: float, *, least: float | None) -> None:
    """``least`` 0 allows an empty bin, None asks for more than nothing."""
    enough = amount > 0 if least is None else amount >= least
    if not (enough and amount <= MOST):
        raise InvalidInput("amount_wanted", field="amount")
    if notion.kind.counted and amount != int(amount):
        raise InvalidInput(
            "counted_in_whole_numbers", what=Term(f'{notion.kind.value}s'), field="amount")
