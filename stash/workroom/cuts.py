"""Cuts of cloth: recorded, used, washed, measured again, moved, and gone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

from stash.cloth_kinds import kind_called, supposed_by_kind
from stash.errors import Conflict, InvalidInput
from stash.ledger import Event, Kind
from stash.ledger.bites import Bite, End, LongSide, Pieces, around, bitten
from stash.ledger.grain import GrainBy
from stash.ledger.selvedges import still_edges, stretched
from stash.ledger.shapes import resized, shrinkage_pct, without_corner
from stash.ledger.whole import whole
from stash.model import Cloth, Cut, Outline, ShrinkStatus
from stash.model.outline import SelvedgeLine
from stash.store import Stash
from stash.store.cuts import CutCard
from stash.workroom.figures import Measured, Origin, keep_figure, spare_better
from stash.workroom.finding import cut_cards
from stash.workroom.grain_kept import keep_grain
from stash.workroom.recorded import Recorded

__all__ = ["Bite", "CutCard", "LongSide", "End", "Pieces", "Use", "Washed"]

NAMES_OFFERED = 300
CORRECTED_MM = 15.0
"""So far a traced edge may be dragged and still be the selvedge it was found as."""
LEAST_MM2 = 100.0
"""Less than a square centimetre is not worth asking about."""

CutRecorded = Recorded[CutCard]


def card(stash: Stash, code: str) -> CutCard:
    """One cut, here or gone, with what holds it."""
    return stash.cuts.card(code)


def cut(stash: Stash, code: str) -> Cut:
    """A cut that is here; NotFound when it is unknown or gone."""
    return stash.cuts.get(code)


def cards(
    stash: Stash, *, gone: bool = False, words: str | None = None, place: str | None = None
) -> list[CutCard]:
    """The cuts that are here (or those that are gone), newest first, narrowed down."""
    found = cut_cards(stash, words) if words and not gone else None
    if place is None:
        return stash.cuts.cards(gone=gone) if found is None else found
    there = set(stash.places.contents(place))
    if found is None and not gone:
        return stash.cuts.cards_of(stash.cuts.newest_of(there))
    found = stash.cuts.cards(gone=gone) if found is None else found
    return [card for card in found if card.cut.code in there]


def of_cloths_called(stash: Stash, name: str) -> list[CutCard]:
    """The cuts that are here of cloths of this very name, newest first."""
    return stash.cuts.cards_of(stash.cuts.of_cloths_called(name))


def receive(
    stash: Stash, cut: Cut, code: str | None = None, token: str | None = None, *,
    bites: Sequence[Bite] = (),
) -> CutRecorded:
    """A new cut comes in, under a blank label's code or a fresh one, without its ``bites``."""
    if bites:
        cut = replace(cut, outline=bitten(cut.outline, bites))
    return _recorded(stash, stash.cuts.receive(cut, code, token))


@dataclass(frozen=True, kw_only=True)
class Use:
    """How cloth is cut off: from which end and edge, for which plan, despite which holds.

    ``end`` may be left out where both ends are alike.
    """

    end: End | None = None
    edge: LongSide = LongSide.LEFT
    plan: str | None = None
    despite_hold: bool = False


def cut_off(
    stash: Stash, code: str, length_mm: float, token: str | None = None, *, use: Use = Use(),
) -> CutRecorded:
    """A length is cut straight off one end; InvalidInput asks which one when it matters."""
    end = use.end or End.FAR
    if use.end is None and _end_matters(stash.cuts.get(code).outline, length_mm):
        raise InvalidInput("which_end", field="end")
    return _recorded(stash, stash.cuts.cut_off(
        code, length_mm, token, end=end, plan=use.plan, despite_hold=use.despite_hold))


def cut_share(
    stash: Stash, code: str, share: float, token: str | None = None, *, use: Use = Use(),
) -> CutRecorded:
    """About so much of its length was cut off: 0.5 is about half."""
    length_mm = stash.cuts.get(code).outline.length_mm * share
    return cut_off(stash, code, length_mm, token, use=use)


def cut_strip(
    stash: Stash, code: str, length_mm: float | None, width_mm: float,
    token: str | None = None, *, use: Use = Use(),
) -> CutRecorded:
    """A strip is cut off along one edge: so long from one end, or all along (None)."""
    end = None if length_mm is None else use.end or End.FAR
    strip = Bite(length_mm=length_mm, width_mm=width_mm, end=end, edge=use.edge)
    return bite(stash, code, (strip,), token, use=use)


def cut_pieces(
    stash: Stash, code: str, pieces: Pieces, token: str | None = None, *, use: Use = Use(),
) -> CutRecorded:
    """Equal pieces are cut off one end, side by side from one edge, row behind row.

    Conflict when the cloth there is too narrow or bitten for them.
    """
    outline = stash.cuts.get(code).outline
    bites = pieces.bites(outline, use.end or End.FAR, use.edge)
    taken = outline.area_mm2 - bitten(outline, bites).area_mm2
    if taken < pieces.area_mm2 - LEAST_MM2:
        raise Conflict("pieces_do_not_fit")
    return bite(stash, code, bites, token, use=use)


def bite(
    stash: Stash, code: str, bites: Sequence[Bite], token: str | None = None, *, use: Use = Use(),
) -> CutRecorded:
    """Anything else is cut off: a corner, a notch, several at once."""
    return _recorded(stash, stash.cuts.bite(
        code, bites, token, plan=use.plan, despite_hold=use.despite_hold))


def flaw(stash: Stash, code: str, bites: Sequence[Bite], token: str | None = None) -> CutRecorded:
    """A flaw was found: the cloth is there, but not to be laid on."""
    with stash.act(token):
        cut = stash.cuts.get(code)
        event = stash.cuts.remeasure(
            code, bitten(cut.outline, bites), width_presumed=cut.width_presumed)
    return _recorded(stash, event)


def square_off(stash: Stash, code: str, token: str | None = None) -> CutRecorded:
    """Its ragged ends and edges are cut away: what is left is its largest rectangle."""
    with stash.act(token):
        outline = stash.cuts.get(code).outline
        event = stash.cuts.bite(code, around(outline, whole(outline)))
    return _recorded(stash, event)


def _end_matters(outline: Outline, length_mm: float) -> bool:
    if outline.is_rectangle or not 0 < length_mm < outline.length_mm:
        return False
    near, far = (
        bitten(outline, (Bite(length_mm=length_mm, end=end),)).area_mm2 for end in End)
    return abs(near - far) > LEAST_MM2


def remains(
    stash: Stash, code: str, length_mm: float, token: str | None = None, *,
    end: End | None = None, despite_hold: bool = False,
) -> CutRecorded:
    """So much length is left, whatever was used off one end; 0 when it was used up.

    InvalidInput asks which end it was when it matters.
    """
    outline = stash.cuts.get(code).outline
    if end is None and length_mm > 0 and _end_matters(outline, outline.length_mm - length_mm):
        raise InvalidInput("which_end", field="end")
    return _recorded(stash, stash.cuts.remains(
        code, length_mm, token, end=end or End.FAR, despite_hold=despite_hold))


def measure(
    stash: Stash, code: str, length_mm: float, width_mm: float, token: str | None = None, *,
    corner_mm: tuple[float, float] | None = None,
) -> CutRecorded:
    """It was measured again: its outline takes the new size and keeps its shape.

    ``corner_mm`` is a corner that turned out to be missing, length by width.
    """
    with stash.act(token):
        known = stash.cuts.get(code)
        outline = resized(known.outline, length_mm, width_mm)
        if corner_mm:
            outline = without_corner(outline, *corner_mm)
        edges = stretched(
            known.selvedges_mm, length_mm / known.length_mm, width_mm / known.width_mm)
        event = stash.cuts.remeasure(code, outline, selvedges_mm=edges if edges else None)
    return _recorded(stash, event)


def traced(
    stash: Stash, code: str, outline: Outline, error_mm: float = 0.0, token: str | None = None, *,
    grain: GrainBy | None = None, selvedges_mm: tuple[SelvedgeLine, ...] = (),
    replace: bool = False,
) -> CutRecorded:
    """Its outline was traced from photographs: that is its shape from now on.

    ``selvedges_mm`` are its edges that are selvedge, as they were found: they are moved onto
    the corrected outline. ``grain`` is what said where its grain runs; where nothing did, its
    page asks. Raises SurerFigure where a better length is on record, unless told to ``replace``.
    """
    figure = Measured(value=outline.length_mm, error=error_mm, origin=Origin.PHOTOGRAPHED)
    with stash.act(token) as act:
        if not replace:
            spare_better(stash, code, stash.cuts.get(code).length_mm, figure)
        event = stash.cuts.remeasure(
            code, outline, selvedges_mm=still_edges(selvedges_mm, outline, CORRECTED_MM))
        keep_figure(stash, event.code, figure, Kind.REMEASURE)
        if grain is not None:
            keep_grain(stash, event.code, grain)
    return _recorded(stash, act.event or act.earlier or event)


@dataclass(frozen=True, kw_only=True)
class Washed(Recorded[CutCard]):
    """A wash, with what the cut lost in it, in per cent."""

    shrank_along_pct: float
    shrank_across_pct: float


def wash(
    stash: Stash, code: str, length_mm: float | None = None, width_mm: float | None = None,
    token: str | None = None, *, for_cloth: bool = False,
) -> Washed:
    """It was washed; what was measured after it wins over the shrinkage on record.

    The outline is scaled, never replaced, so a corner that was missing stays missing.
    Measured, the shrinkage is kept with a cloth that has none yet, for its other cuts;
    ``for_cloth`` keeps it also where another figure is on record.
    """
    with stash.act(token):
        before = stash.cuts.get(code)
        after = None
        if length_mm or width_mm:
            reckoned = before.outline_washed
            after = resized(
                before.outline, length_mm or reckoned.length_mm, width_mm or reckoned.width_mm)
        event = stash.cuts.wash(code, outline=after)
        along, across = shrinkage_pct(before.outline, stash.cuts.get(code).outline)
        first = after is not None and not before.cloth.shrink_known
        if (for_cloth or first) and not before.washed:
            stash.cloths.correct(before.code, replace(
                before.cloth, shrink_along_pct=along, shrink_across_pct=across,
                shrink_status=ShrinkStatus.SISTER, shrink_from=before.code))
    return Washed(
        event=event, now=stash.cuts.card(event.code), shrank_along_pct=along,
        shrank_across_pct=across)


def move(stash: Stash, code: str, place: str | None, token: str | None = None) -> CutRecorded:
    """It lies in another place now: the place's name, or the code of its label."""
    return _recorded(stash, stash.cuts.move(code, place, token))


def give_away(
    stash: Stash, code: str, token: str | None = None, *, despite_hold: bool = False
) -> CutRecorded:
    """It was given away."""
    return _recorded(stash, stash.cuts.gift(code, token, despite_hold=despite_hold))


def throw_away(
    stash: Stash, code: str, token: str | None = None, *, despite_hold: bool = False
) -> CutRecorded:
    """It was thrown away."""
    return _recorded(stash, stash.cuts.discard(code, token, despite_hold=despite_hold))


def sell(
    stash: Stash, code: str, price_minor: int | None = None, token: str | None = None, *,
    despite_hold: bool = False,
) -> CutRecorded:
    """It was sold, for so much in all."""
    return _recorded(stash, stash.cuts.sell(
        code, token, price_minor=price_minor, despite_hold=despite_hold))


def lend(stash: Stash, code: str, to: str, token: str | None = None) -> CutRecorded:
    """Somebody has it for a while; until it is back nothing is laid on it."""
    return _recorded(stash, stash.cuts.lend(code, to, token))


def back(stash: Stash, code: str, token: str | None = None) -> CutRecorded:
    """It was lent and is back."""
    return _recorded(stash, stash.cuts.back(code, token))


def join(
    stash: Stash, code: str, other: str, length_mm: float, width_mm: float,
    token: str | None = None,
) -> CutRecorded:
    """Two cuts of cloth were sewn into one of this size; it gets a code of its own."""
    with stash.act(token):
        first, second = stash.cuts.get(code), stash.cuts.get(other)
        if first.code == second.code:
            raise InvalidInput("join_two_cuts", field="other")
        outline = Outline.rectangle(length_mm, width_mm)
        if outline.area_mm2 > first.outline.area_mm2 + second.outline.area_mm2 + LEAST_MM2:
            raise InvalidInput("joined_is_more", field="size")
        event = stash.cuts.receive(replace(
            first, code="", outline=outline, came_from=first.code,
            washed=first.washed and second.washed))
        for one in (first, second):
            stash.cuts.join(one.code, event.code)
    return _recorded(stash, event)


def describe(
    stash: Stash, code: str, cloth: Cloth, keep_for: str | None, token: str | None = None
) -> CutRecorded | None:
    """What is on record about its cloth, and what it is kept for, is put right.

    None when nothing is changed by it.
    """
    known = stash.cuts.get(code)
    if (cloth, keep_for) == (known.cloth, known.keep_for):
        return None
    with stash.act(token):
        event = stash.cloths.correct(code, cloth)
        if keep_for != stash.cuts.get(code).keep_for:
            stash.cuts.correct(code, keep_for=keep_for)
    return _recorded(stash, event)


def cloth_names(stash: Stash) -> list[str]:
    """Names to choose from while one types: of the cloths that came last."""
    return stash.cloths.newest_names(NAMES_OFFERED)


def cloth_named(stash: Stash, name: str) -> Cloth | None:
    """The cloth on record of this name, or None."""
    return stash.cloths.named(name)


def as_known(stash: Stash, said: Cloth) -> Cloth:
    """What is said of a cloth, beside what the record says of the one of that name, if any."""
    known, silent = cloth_named(stash, said.name), Cloth(name=said.name)
    if known is None:
        return said
    return known.told(**{one.name: getattr(said, one.name) for one in fields(Cloth)
                         if getattr(said, one.name) != getattr(silent, one.name)})


def presumed_by_name(stash: Stash, cloth: Cloth) -> Cloth:
    """The cloth, with what its name presumes where nobody said otherwise, marked as presumed.

    Of a cloth that is on record by this name nothing is presumed anew: the record says it.
    """
    known = cloth_named(stash, cloth.name)
    return cloth if known else supposed_by_kind(cloth, kind_called(cloth.name))


def _recorded(stash: Stash, event: Event) -> CutRecorded:
    return Recorded(event=event, now=stash.cuts.card(event.code))
