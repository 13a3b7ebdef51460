"""What the form of a pattern says differently from the pattern on record."""

from __future__ import annotations

from collections.abc import Iterator

from stash.errors import InvalidInput
from stash.model import Construction, Need, NotionKind, Part, Pattern, Piece, Role
from stash.quantity import Quantity
from stash.workroom import patterns
from stash.workroom.patterns import USUAL_MOST_MM as USUAL_MOST_MM
from stash.workroom.patterns import PatternChange, PieceChange, allowance_mm
from stash.workroom.patterns import length_line as length_line
from web import forms
from web.bin_kinds import kind_name
from web.dragged import points_text as points_text
from web.formatting import amount, say, size_of
from web.texts import _

NEW_NEEDS = 3
EVERY_CLOTH = tuple(Construction)


def change_of(pattern: Pattern) -> PatternChange:
    """What differs; InvalidInput names what cannot be read."""
    rows = [(piece, _piece_change(row, piece)) for row, piece in enumerate(pattern.pieces)]
    wearer = forms.text("wearer")
    cautions = tuple(c.strip() for c in forms.text("cautions", most=2000).splitlines() if c.strip())
    needs = (*(need for n, need in enumerate(pattern.notions) if forms.ticked(f"need-{n}")),
             *_new_needs())
    lie = forms.text("direction")
    return PatternChange(
        wearer=None if wearer == pattern.wearer else wearer,
        pieces=tuple((p.name, change) for p, change in rows if change != PieceChange()),
        needs=None if needs == pattern.notions else needs,
        mass_gsm=None if forms.left_alone("weight") else (
            patterns.parse_weights(forms.text("weight") or "any")),
        stretch_pct=None if forms.left_alone("stretch") else (
            patterns.parse_percent(forms.text("stretch") or "0")),
        cautions=None if cautions == pattern.cautions else cautions,
        one_way=None if lie in ("", direction(pattern)) else lie == "one-way",
        constructions=_constructions(pattern),
    )


def direction(pattern: Pattern) -> str:
    """Which ways its pieces may point; "" where they differ."""
    one_way = {len(piece.turns_deg) == 1 for piece in pattern.pieces}
    return "" if len(one_way) > 1 else "one-way" if True in one_way else "both-ways"


def weights(pattern: Pattern) -> str:
    """The weights of cloth it takes as they are typed; "" for any."""
    wanted = pattern.wants.mass_gsm
    return "" if wanted == patterns.ANY_MASS_GSM else f"{wanted[0]:g}-{wanted[1]:g}"


def need_said(need: Need) -> str:
    """One notion in a line: of what, how much, which size, and what for."""
    parts = [kind_name(need.kind)]
    if need.count or need.length_mm:
        parts.append(str(need.count) if need.count else amount(need.length_mm, need.kind))
    if need.size_mm:
        parts.append(size_of(need.size_mm[1], need.kind))
    return _("%(notion)s, for %(what)s", notion=", ".join(parts), what=say(need.reason))


def _constructions(pattern: Pattern) -> tuple[Construction, ...] | None:
    cloth, known = forms.text("cloth"), pattern.wants.constructions
    if forms.left_alone("cloth"):
        return None
    wanted = (Construction(cloth),) if cloth in set(Construction) else EVERY_CLOTH
    return None if wanted == known else wanted


def _new_needs() -> Iterator[Need]:
    for row in range(NEW_NEEDS):
        typed = forms.text(f"amount-new-{row}")
        kind = forms.text(f"kind-new-{row}")
        if not kind:
            if typed:
                raise InvalidInput("choose_a_notion", field=f"kind-new-{row}")
            continue
        yield patterns.read_need(
            NotionKind(kind), typed, forms.text(f"size-new-{row}"), field=f"-new-{row}")


def _piece_change(row: int, piece: Piece) -> PieceChange:
    """What differs about one piece."""
    part, role, lie = (forms.text(f"{key}-{row}") for key in ("part", "role", "lie"))
    turn = forms.text(f"grain-{row}")
    quantity = None if forms.left_alone(f"quantity-{row}") else forms.count(
        f"quantity-{row}", _("How many"), 1, 200)
    quantity = None if quantity == piece.quantity else quantity
    pair = None if lie in ("", "pair" if piece.mirrored_pair else "single") else lie == "pair"
    allowance, included = _allowance(row, piece)
    at, most = _length_line(row)
    return PieceChange(
        name=None if forms.left_alone(f"name-{row}") else forms.needed(
            f"name-{row}", _("The name of a piece")),
        part=Part(part) if part in set(Part) - {piece.part} else None,
        role=Role(role) if role in set(Role) - {piece.role} else None,
        quantity=quantity, pair=pair, fold=forms.text(f"fold-{row}") or None,
        grain_deg=patterns.parse_turn(turn, f"grain-{row}") if turn else None,
        allowance_mm=allowance, included_mm=included, lengthen_at_mm=at, length_most_mm=most,
    )


def _allowance(row: int, piece: Piece) -> tuple[float | None, float | None]:
    """(what is to be cut beyond the seam line, what the outline holds already)."""
    said, field = forms.text(f"allowed-{row}"), f"allowance-{row}"
    known = allowance_mm(piece)
    if said == "none":
        return (None if known == 0 else 0.0), None
    if said not in ("in", "add"):
        if forms.text(field) and not forms.left_alone(field):
            raise InvalidInput("say_which_allowance", field=f"allowed-{row}")
        return None, None
    if not forms.text(field):
        raise InvalidInput("field_empty", label=_("The seam allowance"), field=field)
    mm = forms.length(field, Quantity.MARGIN)
    if said == "add":
        return mm, None
    return None, None if mm == known else mm


def _length_line(row: int) -> tuple[float | None, float | None]:
    """(where it may be lengthened, 0 for nowhere; by how much at most), what differs."""
    at, most = f"line-{row}", f"most-{row}"
    where = None if forms.left_alone(at) else forms.length_or_nothing(at, Quantity.PATTERN)
    far = None if forms.left_alone(most) or not forms.text(most) else forms.length(
        most, Quantity.PATTERN)
    return where, far
