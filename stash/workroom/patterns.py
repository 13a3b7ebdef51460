"""Patterns of her own: read from files and photographs, typed in, kept in every version."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from stash.draft.body import term
from stash.errors import InvalidInput
from stash.fact import Fact, fact
from stash.foreign import read_apart
from stash.foreign.limits import DRAWING
from stash.ledger import Event
from stash.model import (
    ClothWants,
    Construction,
    Cut,
    Need,
    NotionKind,
    Outline,
    Pattern,
    Person,
    Piece,
    Point,
)
from stash.model.amounts import read_amount, read_notion_size
from stash.model.underlay import photo_number
from stash.pattern.correcting import PieceChange, corrected
from stash.pattern.drawn import Reading
from stash.pattern.length_line import MOST_MM as USUAL_MOST_MM
from stash.pattern.length_line import line_of, long_mm
from stash.pattern.piece_words import (
    parse_change,
    parse_need,
    parse_percent,
    parse_turn,
    parse_weights,
    written_need,
)
from stash.pattern.reshaping import edited_ring
from stash.pattern.rings import checked_ring
from stash.pattern.seam_allowance import known_mm
from stash.pattern.sizes import choose_size, parse_size_table, with_table
from stash.pattern.typed import TypedPiece, parse_typed, typed_piece
from stash.pattern.width_table import WidthEstimate, parse_table
from stash.store import Stash
from stash.store.patterns import KeptPattern

__all__ = [
    "USUAL_MOST_MM", "KeptPattern", "PieceChange", "Reading", "TypedPiece", "checked_ring",
    "parse_change", "parse_need", "parse_percent", "parse_turn", "parse_typed", "parse_weights",
    "read_pattern", "typed_piece", "written_need",
]

ANY_MASS_GSM = ClothWants().mass_gsm


def read_pattern(
    data: bytes, units: str | None = None, grain: str | None = None, size: str | None = None
) -> Reading:
    """The pieces of an SVG or DXF file, read through the door for foreign files.

    Of several sizes one is read; InvalidInput names them where none was chosen.
    """
    from stash.pattern import importing  # what reads drawings comes with the first one

    return read_apart(DRAWING, importing.read_pattern, data, units, grain, size)


def size_for(
    data: bytes, person: Person, table: str = "", units: str | None = None
) -> tuple[str | None, Fact | None]:
    """The size of a drawing that is nearest to a person's measurements, and what is said of it.

    ``table`` says whom each size is for, where the names of layers do not: lines such as
    "38: bust 88 cm, hip 94 cm". None for a drawing of one size.
    """
    from stash.pattern import importing

    found = read_apart(DRAWING, importing.sizes_of, data, units)
    if not found:
        return None, None
    chosen = choose_size(with_table(found, parse_size_table(table)), person.measurements_mm)
    over = tuple(
        fact("measure_changed", measure=term(name), change_signed_mm=mm)
        for name, mm in chosen.over_mm.items()
    )
    said = fact("size_chosen", size=chosen.name, person=person.name, changes=over)
    return chosen.name, said


def allowance_mm(piece: Piece) -> float | None:
    """The seam allowance its outline holds all round; None where it is not known or differs."""
    return known_mm(piece)


@dataclass(frozen=True)
class LengthLine:
    """So far below its top a piece may be lengthened or shortened, by at most so much if said."""

    at_mm: float
    most_mm: float | None


def length_line(piece: Piece) -> LengthLine | None:
    """Where a piece may be lengthened or shortened; None for nowhere."""
    line = line_of(piece)
    top = min(x for x, _ in piece.outline_mm)
    return LengthLine(line.at_mm[0][0] - top, piece.length_most_mm) if line else None


def cut_long_mm(pattern: Pattern) -> float:
    """How long its longest piece with a line for lengthening is cut; 0 where none has one."""
    return long_mm(pattern)


def read_need(kind: NotionKind, amount: str, size: str, field: str = "") -> Need:
    """A notion as it was typed in parts; ``field`` ends the names of the form's fields."""
    value = read_amount(kind, amount, field=f"amount{field}")
    return written_need(kind, value, read_notion_size(kind, size, field=f"size{field}"))


def outline_edited(piece: Piece) -> tuple[Point, ...]:
    """The outline as it is corrected: of a piece on the fold its half, over the photograph."""
    return edited_ring(piece)


def kept(stash: Stash, name: str, version: int | None = None) -> KeptPattern:
    """A pattern, the newest version unless another is named."""
    return stash.patterns.kept(name, version)


def versions(stash: Stash, name: str) -> list[KeptPattern]:
    """Every version of one pattern, oldest first."""
    return stash.patterns.versions(name)


def keep(
    stash: Stash, name: str, pieces: Sequence[Piece], source: str, token: str | None = None,
    photographs: Sequence[bytes] = (),
) -> tuple[Event, KeptPattern]:
    """Keep pieces as a new version of a pattern; InvalidInput when two have one name.

    So it is when the pattern bears the name of a draft, which would be drawn in its place.

    ``photographs`` are those that lie under traced pieces; the ones no piece lies over are left.
    """
    from stash.workroom.drafts import is_draft  # a list of patterns does without the drafts

    if len({piece.name for piece in pieces}) < len(pieces):
        raise InvalidInput("same_piece_name", field="piece")
    if is_draft(name):
        raise InvalidInput("name_is_a_draft", name=name, field="name")
    pattern = Pattern(garment=name, pieces=tuple(pieces))
    wanted = {piece.under.photo for piece in pieces if piece.under}
    for jpeg in photographs:
        if photo_number(jpeg) in wanted:
            stash.piece_photos.keep(jpeg)
    event = stash.patterns.save(name, pattern, token, source=source)
    return event, stash.patterns.kept(name)


@dataclass(frozen=True, kw_only=True)
class PatternChange:
    """What is to be different about a pattern; None leaves it as it is.

    ``pieces`` are corrections by the name of a piece; ``needs``, ``cautions`` and
    ``constructions`` take the place of those so far, also when they are none.
    """

    wearer: str | None = None
    pieces: tuple[tuple[str, PieceChange], ...] = ()
    needs: tuple[Need, ...] | None = None
    cautions: tuple[str, ...] | None = None
    mass_gsm: tuple[float, float] | None = None
    stretch_pct: float | None = None
    constructions: tuple[Construction, ...] | None = None
    one_way: bool | None = None


def correct(
    stash: Stash, name: str, change: PatternChange, token: str | None = None
) -> tuple[Event, KeptPattern]:
    """Keep a pattern as a new version with everything that is known of it set right."""
    if change == PatternChange():
        raise InvalidInput("nothing_to_set", field="piece")
    before = stash.patterns.kept(name)
    pieces = before.pattern.pieces
    for whose, piece_change in change.pieces:
        pieces = _corrected(pieces, whose, piece_change)
    if change.one_way is not None:
        every = PieceChange(one_way=change.one_way)
        pieces = tuple(corrected(p, every) for p in pieces)
    if len({p.name for p in pieces}) < len(pieces):
        raise InvalidInput("same_piece_name", field="piece")
    pattern = replace(
        before.pattern, pieces=pieces, wants=_wants(before.pattern.wants, change),
        wearer=before.pattern.wearer if change.wearer is None else change.wearer,
        notions=before.pattern.notions if change.needs is None else change.needs,
        cautions=before.pattern.cautions if change.cautions is None else change.cautions,
        recipe=None if change.pieces else before.pattern.recipe,
    )
    event = stash.patterns.save(before.name, pattern, token, source=before.source)
    return event, stash.patterns.kept(name)


def _corrected(
    pieces: tuple[Piece, ...], whose: str, change: PieceChange
) -> tuple[Piece, ...]:
    if whose not in {p.name for p in pieces}:
        raise InvalidInput(
            "no_piece_called", typed=whose, known=tuple(p.name for p in pieces), field="piece"
        )
    return tuple(corrected(p, change) if p.name == whose else p for p in pieces)


def _wants(wants: ClothWants, change: PatternChange) -> ClothWants:
    mass = change.mass_gsm
    return replace(
        wants,
        mass_gsm=mass or wants.mass_gsm, mass_best_gsm=mass or wants.mass_best_gsm,
        stretch_across_pct=wants.stretch_across_pct if change.stretch_pct is None
        else change.stretch_pct,
        constructions=wants.constructions if change.constructions is None
        else change.constructions,
        source="as set by its maker" if mass else wants.source,
    )


def photograph(
    stash: Stash, name: str, number: str, version: int | None = None
) -> bytes:
    """The photograph of that number under a piece of a pattern; NotFound when there is none."""
    return stash.piece_photos.under(stash.patterns.get(name, version), number)


def remove(stash: Stash, name: str, token: str | None = None) -> Event:
    """Take a pattern off the list; an undo brings it back."""
    return stash.patterns.remove(name, token)


def renamed(pieces: Sequence[Piece], names: Sequence[str]) -> tuple[Piece, ...]:
    """The pieces with the given names, in order; those beyond them keep theirs."""
    if len(names) > len(pieces):
        raise InvalidInput("too_many_names", pieces=len(pieces), names=len(names), field="piece")
    every = [*names, *(piece.name for piece in pieces[len(names):])]
    return tuple(replace(p, name=n) for p, n in zip(pieces, every, strict=True))


def typed(pieces: Sequence[Piece]) -> Reading:
    """Typed pieces as if they had been read, with the size they were typed in."""
    boxes = [Outline(piece.outline_mm) for piece in pieces]
    return Reading(tuple(pieces), tuple((box.width_mm, box.length_mm) for box in boxes))


@dataclass(frozen=True, kw_only=True)
class LongEnough:
    """How a cut does by a printed table of widths and lengths; ``need`` as read off the table."""

    cut: Cut
    need: WidthEstimate

    @property
    def spare_mm(self) -> float:
        """What is left of its length; negative when it is too short."""
        return self.cut.outline_washed.length_mm - self.need.length_mm


@dataclass(frozen=True, kw_only=True)
class TableEstimate:
    """The cuts by a printed table, the best first, and those the table says nothing of."""

    found: tuple[LongEnough, ...]
    set_aside: tuple[tuple[Cut, InvalidInput], ...]


def need_by_table(rows: Iterable[str], width_mm: float) -> WidthEstimate:
    """The length a printed table asks for at this width."""
    return parse_table(rows).need_mm(width_mm)


def estimate_by_table(stash: Stash, rows: Iterable[str]) -> TableEstimate:
    """Which cuts are long enough, by a printed table."""
    printed = parse_table(rows)
    found, aside = [], []
    for cut in stash.cuts.all():
        try:
            need = printed.need_mm(cut.outline_washed.width_mm)
        except InvalidInput as error:
            aside.append((cut, error))
        else:
            found.append(LongEnough(cut=cut, need=need))
    found.sort(key=lambda one: (one.spare_mm < 0, abs(one.spare_mm)))
    return TableEstimate(found=tuple(found), set_aside=tuple(aside))
