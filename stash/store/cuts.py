"""Cuts of cloth: what is here, and everything that may happen to it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from stash.errors import Conflict, InvalidInput, NotFound
from stash.fact import Term
from stash.ledger import CutHold, CutState, Entry, Event, Kind
from stash.ledger.bites import Bite, End
from stash.ledger.selvedges import still_edges
from stash.ledger.shapes import checked
from stash.model import Cloth, Code, Cut, Laid, Lay, Outline
from stash.model.exact import from_plain, to_plain
from stash.model.outline import SelvedgeLine
from stash.store.cache import CUT_COLUMNS, cut_state
from stash.store.cloths import Cloths
from stash.store.labels import Labels
from stash.store.ledger import Ledger
from stash.store.places import place_name

WIDEST_MM = 10_000.0
LONGEST_NAME = 100


@dataclass(frozen=True, kw_only=True)
class CutCard:
    """All there is to say about a cut: also what became of it, and who holds what of it."""

    cut: Cut
    cloth: str
    gone: str | None
    holds: tuple[CutHold, ...]
    free_outline: Outline | None
    lent: str | None = None


@dataclass(frozen=True, kw_only=True)
class CutColumns:
    """The present cuts as columns of equal length, for reckoning with all at once."""

    code: list[str]
    length_mm: list[float]
    width_mm: list[float]
    area_mm2: list[float]
    washed: list[int]
    held: list[int]
    cloth: list[str]
    colour: list[str | None]
    fibres: list[str]
    mass_gsm: list[float | None]
    construction: list[str]


class Cuts:
    """The cuts on record, by label code."""

    def __init__(self, ledger: Ledger, labels: Labels, cloths: Cloths):
        self.ledger = ledger
        self.labels = labels
        self.cloths = cloths

    def get(self, code: str) -> Cut:
        """A cut that is here; NotFound when it is unknown or gone."""
        card = self.card(code)
        if card.gone:
            raise NotFound("cut_gone", code=card.cut.code, how=Term(card.gone))
        return card.cut

    def card(self, code: str) -> CutCard:
        """A cut, here or gone, with its holds."""
        code = Code.parse(code).text
        state = self._state(code)
        return _card(code, state, self.cloths.get(state.cloth))

    def all(self, *, gone: bool = False) -> list[Cut]:
        """The cuts that are here, newest first; with ``gone`` those that are not."""
        return [card.cut for card in self.cards(gone=gone)]

    def cards(self, *, gone: bool = False) -> list[CutCard]:
        """As :meth:`all`, with holds and what became of each."""
        cloths = self.cloths.all()
        rows = self.ledger.db.execute(
            f"SELECT {', '.join(CUT_COLUMNS)} FROM cut WHERE (gone IS NOT NULL) = ?"
            " ORDER BY rowid DESC",
            [int(gone)],
        )
        states = ((row[0], cut_state(row)) for row in rows.fetchall())
        return [_card(code, state, cloths[state.cloth]) for code, state in states]

    def cards_of(self, codes: Iterable[str]) -> list[CutCard]:
        """The cuts of these codes, here or gone, in their order; others are left out."""
        wanted = list(codes)
        rows = self.ledger.db.execute(
            f"SELECT {', '.join(f'cut.{name}' for name in CUT_COLUMNS)}, cloth.record"
            " FROM cut JOIN cloth ON cloth.subject = cut.cloth"
            " WHERE cut.code IN (SELECT value FROM json_each(?))", [json.dumps(wanted)])
        found = {row[0]: _card(row[0], cut_state(row), from_plain(Cloth, json.loads(row[-1])))
                 for row in rows}
        return [found[code] for code in wanted if code in found]

    def of_cloth(self, subject: str) -> list[str]:
        """The codes of the present cuts of one cloth, newest first."""
        rows = self.ledger.db.execute(
            "SELECT code FROM cut WHERE cloth = ? AND gone IS NULL ORDER BY rowid DESC", [subject])
        return [code for (code,) in rows]

    def of_cloths_called(self, name: str) -> list[str]:
        """The codes of the present cuts of cloths of this very name, newest first."""
        rows = self.ledger.db.execute(
            "SELECT cut.code FROM cloth JOIN cut ON cut.cloth = cloth.subject"
            " WHERE cloth.name = ? AND cut.gone IS NULL ORDER BY cut.rowid DESC", [name])
        return [code for (code,) in rows]

    def newest_of(self, codes: Iterable[str]) -> list[str]:
        """Those of the codes that are cuts and here, newest first."""
        rows = self.ledger.db.execute(
            "SELECT code FROM cut WHERE code IN (SELECT value FROM json_each(?))"
            " AND gone IS NULL ORDER BY rowid DESC", [json.dumps(sorted(codes))])
        return [code for (code,) in rows]

    def newest(self, most: int) -> list[str]:
        """The codes of the cuts that came last and are here, newest first."""
        rows = self.ledger.db.execute(
            "SELECT code FROM cut WHERE gone IS NULL ORDER BY rowid DESC LIMIT ?", [most])
        return [code for (code,) in rows]

    def how_many(self) -> int:
        """How many are here."""
        (number,) = self.ledger.db.execute(
            "SELECT COUNT(*) FROM cut WHERE gone IS NULL").fetchone()
        return int(number)

    def columns(self) -> CutColumns:
        """The present cuts column by column, without building a value for each."""
        rows = self.ledger.db.execute(
            "SELECT cut.code, cut.length_mm, cut.width_mm, cut.area_mm2, cut.washed,"
            " cut.holds <> '[]', cut.cloth, cloth.colour, cloth.fibres, cloth.mass_gsm,"
            " cloth.construction FROM cut JOIN cloth ON cloth.subject = cut.cloth"
            " WHERE cut.gone IS NULL"
        ).fetchall()
        columns = zip(*rows, strict=True) if rows else [()] * 11
        return CutColumns(
            **dict(zip(CutColumns.__dataclass_fields__, map(list, columns), strict=True))
        )

    def receive(self, cut: Cut, code: str | None = None, token: str | None = None) -> Event:
        """Record a new cut under a blank label's code, or under a fresh one.

        The event's ``code`` is the cut's. Conflict when the label is in use.
        """
        _check_size(cut.outline)

        def make() -> Entry:
            taken = self.labels.claim(code or cut.code)
            subject, part = self.cloths.part(cut.cloth)
            arrival = {**_arrival(cut, subject), "place": place_name(self.ledger, cut.place)}
            change = {**part, taken: {"cut": arrival}}
            return Entry(kind=Kind.RECEIPT, code=taken, change=change)

        return self.ledger.write(make, token)

    def cut_off(
        self, code: str, length_mm: float, token: str | None = None, *,
        end: End = End.FAR, plan: str | None = None, despite_hold: bool = False,
    ) -> Event:
        """Cut a length off one end, for a plan or for nothing in particular.

        NotEnough, Held or InvalidInput when it cannot be.
        """
        _check_length(length_mm)
        part: dict[str, Any] = {
            "length_mm": length_mm, **_despite(despite_hold), **_for(plan), **_from_end(end)}
        return self._change(Kind.CUT_OFF, code, part, token)

    def bite(
        self, code: str, bites: Iterable[Bite], token: str | None = None, *,
        plan: str | None = None, despite_hold: bool = False,
    ) -> Event:
        """Cut a strip, a corner or pieces off; Held or InvalidInput when it cannot be."""
        part = {"bites": [to_plain(bite) for bite in bites], **_despite(despite_hold),
                **_for(plan)}
        return self._change(Kind.CUT_OFF, code, part, token)

    def remains(
        self, code: str, length_mm: float, token: str | None = None, *,
        end: End = End.FAR, despite_hold: bool = False,
    ) -> Event:
        """This much length is left, the rest went off one end; 0 when it was used up."""
        if length_mm != 0:
            _check_length(length_mm)
        part: dict[str, Any] = {"left_mm": length_mm, **_despite(despite_hold), **_from_end(end)}
        return self._change(Kind.CUT_OFF, code, part, token)

    def cut_out(
        self,
        code: str,
        outline_left: Outline | None,
        token: str | None = None,
        *,
        lay: Laid | Lay | Mapping[str, Any] | None = None,
        plan: str | None = None,
        remnants: Iterable[tuple[str | None, Outline]] = (),
        held: CutHold | None = None,
        waste_mm2: float | None = None,
        despite_hold: bool = False,
    ) -> Event:
        """A lay was cut: what is left of the cut, and remnants with labels of their own.

        ``outline_left`` is in the cut's own frame, None when nothing is left of it.
        Each remnant is (code of a blank label or None, outline) and remembers the cut
        it came from. ``plan`` gives up that plan's hold on this cut, but for ``held``, which
        it keeps, in the frame before the cut. ``waste_mm2`` is what was too small to keep.
        """
        pieces = [(typed, checked(outline)) for typed, outline in remnants]

        def make() -> Entry:
            parent, state = Code.parse(code).text, self._state(code)
            part = {
                "outline": to_plain_outline(outline_left), "lay": to_plain(lay), "plan": plan,
                **_despite(despite_hold), **_where_known(held=held, waste_mm2=waste_mm2),
            }
            change: dict[str, dict[str, Any]] = {parent: part}
            for typed, outline in pieces:
                taken = self.labels.claim(typed)
                if taken in change:
                    raise Conflict("label_on_two_remnants", code=taken)
                change[taken] = {"cut": _remnant(state, parent, outline)}
            return Entry(kind=Kind.CUT_OUT, code=parent, change=change)

        return self.ledger.write(make, token)

    def remeasure(
        self, code: str, outline: Outline, token: str | None = None, *,
        selvedges_mm: tuple[SelvedgeLine, ...] | None = None, width_presumed: bool = False,
    ) -> Event:
        """The cut was measured again: this is its true outline.

        ``selvedges_mm`` are its edges that are selvedge; None leaves those that are edges still.
        ``width_presumed``: it was not measured across, only along, or turned.
        """
        _check_size(outline)
        part: dict[str, Any] = {"outline": to_plain(checked(outline))}
        if selvedges_mm is not None:
            part["selvedges_mm"] = to_plain(selvedges_mm)
        if width_presumed:
            part["width_presumed"] = True
        return self._change(Kind.REMEASURE, code, part, token)

    def wash(self, code: str, token: str | None = None, outline: Outline | None = None) -> Event:
        """The cut was washed: measured after it, or shrunk as its cloth is said to."""
        if outline is not None:
            _check_size(outline)
            return self._change(Kind.WASH, code, {"outline": to_plain(checked(outline))}, token)

        def make() -> Entry:
            state = self._state(code)
            cloth = self.cloths.get(state.cloth)
            part = {
                "along": 1 - cloth.shrink_along_pct / 100,
                "across": 1 - cloth.shrink_across_pct / 100,
            }
            parsed = Code.parse(code).text
            return Entry(kind=Kind.WASH, code=parsed, change={parsed: part})

        return self.ledger.write(make, token)

    def move(self, code: str, place: str | None, token: str | None = None) -> Event:
        """The cut now lies in another place, by the place's name or label."""
        name = place_name(self.ledger, place)
        return self._change(Kind.MOVE, code, {"place": name}, token)

    def gift(self, code: str, token: str | None = None, *, despite_hold: bool = False) -> Event:
        """The cut was given away."""
        return self._change(Kind.GIFT, code, _despite(despite_hold), token)

    def discard(self, code: str, token: str | None = None, *, despite_hold: bool = False) -> Event:
        """The cut was thrown away."""
        return self._change(Kind.DISCARD, code, _despite(despite_hold), token)

    def sell(
        self, code: str, token: str | None = None, *, price_minor: int | None = None,
        despite_hold: bool = False,
    ) -> Event:
        """The cut was sold, for so much in all."""
        part: dict[str, Any] = {**_despite(despite_hold), "price_minor": price_minor}
        return self._change(Kind.SELL, code, part, token)

    def lend(self, code: str, to: str, token: str | None = None) -> Event:
        """Somebody has the cut for a while."""
        if not to.strip() or len(to) > LONGEST_NAME:
            raise InvalidInput("borrower_wanted", field="to")
        return self._change(Kind.LEND, code, {"to": " ".join(to.split())}, token)

    def back(self, code: str, token: str | None = None) -> Event:
        """The cut that was lent is back."""
        return self._change(Kind.BACK, code, {}, token)

    def join(self, code: str, into: str, token: str | None = None) -> Event:
        """The cut was sewn to another: both are one now, under a code of its own."""
        return self._change(Kind.JOIN, code, {"into": Code.parse(into).text}, token)

    def correct(self, code: str, token: str | None = None, **fields: str | None) -> Event:
        """Set ``acquired`` or ``keep_for`` of a cut anew."""
        if not fields or not fields.keys() <= {"acquired", "keep_for"}:
            raise InvalidInput("not_to_be_set_so")
        return self._change(Kind.CORRECTION, code, {"set": fields}, token)

    def _change(self, kind: Kind, code: str, part: Mapping[str, Any], token: str | None) -> Event:
        def make() -> Entry:
            parsed = Code.parse(code).text
            self._state(parsed)
            return Entry(kind=kind, code=parsed, change={parsed: part})

        return self.ledger.write(make, token)

    def _state(self, code: str) -> CutState:
        state = self.ledger.state(Code.parse(code).text)
        if not isinstance(state, CutState):
            raise NotFound("no_such_cut", code=str(Code.parse(code)))
        return state


def to_plain_outline(outline: Outline | None) -> dict[str, Any] | None:
    """The outline as the ledger keeps it, after a check that it is one."""
    plain: dict[str, Any] | None = None if outline is None else to_plain(checked(outline))
    return plain


def _card(code: str, state: CutState, cloth: Cloth) -> CutCard:
    cut = Cut(
        code=code, cloth=cloth, outline=state.outline, washed=state.washed, place=state.place,
        acquired=state.acquired, keep_for=state.keep_for, came_from=state.came_from,
        selvedges_mm=state.selvedges_mm, width_presumed=state.width_presumed,
    )
    return CutCard(
        cut=cut, cloth=state.cloth, gone=state.gone, holds=state.holds,
        free_outline=None if state.gone else state.free_outline, lent=state.lent,
    )


def _arrival(cut: Cut, cloth: str) -> dict[str, Any]:
    return {
        **({"width_presumed": True} if cut.width_presumed else {}),
        "cloth": cloth, "outline": to_plain(checked(cut.outline)), "washed": cut.washed,
        "acquired": cut.acquired, "keep_for": cut.keep_for, "came_from": cut.came_from,
    }


def _remnant(parent: CutState, code: str, outline: Outline) -> dict[str, Any]:
    edges = still_edges(parent.selvedges_mm, outline)
    return {
        **({"selvedges_mm": to_plain(edges)} if edges else {}),
        **({"width_presumed": True} if parent.width_presumed else {}),
        "cloth": parent.cloth, "outline": to_plain(outline), "washed": parent.washed,
        "place": parent.place, "acquired": parent.acquired, "came_from": code,
    }


def _check_length(length_mm: float) -> None:
    if not 0 < length_mm <= 1_000_000:
        raise InvalidInput("length_out_of_range", field="length")


def _check_size(outline: Outline) -> None:
    _check_length(outline.length_mm)
    if not 0 < outline.width_mm <= WIDEST_MM:
        raise InvalidInput("cloth_too_wide", most_width_mm=10_000.0, field="width")


def _despite(despite_hold: bool) -> dict[str, bool]:
    return {"despite_hold": True} if despite_hold else {}


def _from_end(end: End) -> dict[str, str]:
    """The far end is where one cuts unless another is named."""
    return {"end": end.value} if end is End.NEAR else {}


def _where_known(**facts: object) -> dict[str, Any]:
    """Those that there are, as the ledger keeps them."""
    return {name: to_plain(fact) for name, fact in facts.items() if fact is not None}


def _for(plan: str | None) -> dict[str, str]:
    return {"plan": plan} if plan else {}
