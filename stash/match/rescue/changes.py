"""The small changes a cutter tries when the cloth is short, in the order she tries them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from stash.fact import Fact, Term, fact
from stash.match.gather import gather, of_role
from stash.match.order import Order
from stash.match.piecing.split import Split, in_parts
from stash.match.strip_lays import Table
from stash.model import Cloth, Part, Piece, Role, Spread
from stash.pattern.length_line import alters_by_mm

# Seam and hem: 3/8 in and a narrow hem are the least of the published allowances
# (American Sewing Guild, "How deep is that hem"); lengths are common practice, no source.
NARROW_SEAM_MM = 10.0
NARROW_HEM_MM = 20.0
SHORTER_MM = (30.0, 50.0)
SMALL = {Part.FACING, Part.POCKET, Part.WAISTBAND, Part.COLLAR, Part.COLLAR_STAND, Part.CUFF,
         Part.YOKE, Part.BAND, Part.PLACKET, Part.FLY, Part.STRAP, Part.LOOP}


@dataclass(frozen=True, kw_only=True)
class Attempt:
    """What is to be laid, and how: the orders, the pieces moved or turned, the table.

    ``elsewhere`` names the pieces cut from another cut, ``crosswise`` those laid across,
    ``splits`` say which are cut in parts.
    """

    orders: tuple[Order, ...]
    table: Table
    one_way: bool = False
    elsewhere: frozenset[str] = frozenset()
    crosswise: frozenset[str] = frozenset()
    splits: tuple[Split, ...] = ()

    def pieces(self) -> tuple[Piece, ...]:
        """The pieces that must come from the cut itself."""
        main = of_role(gather([o.drafted() for o in self.orders]), Role.MAIN)
        return tuple(
            replace(part, turns_deg=(90.0, 270.0)) if p.name in self.crosswise else part
            for p in main
            if p.name not in self.elsewhere
            for part in in_parts(p, self.splits)
        )

    def moved(self) -> tuple[Piece, ...]:
        """The pieces that another cut must give."""
        main = of_role(gather([o.drafted() for o in self.orders]), Role.MAIN)
        return tuple(p for p in main if p.name in self.elsewhere)


@dataclass(frozen=True, kw_only=True)
class Change:
    """One change: what to do, and what it costs the garment.

    ``kind`` tells changes apart that cannot be made together; ``drastic`` ones make
    another garment of it, and are offered alone and last.
    """

    kind: str
    told: Fact
    costs: Fact
    drastic: bool = False
    apply: Callable[[Attempt], Attempt] = field(repr=False, compare=False)


def changes(attempt: Attempt, cloth: Cloth) -> tuple[Change, ...]:
    """Every change that applies, least harm first."""
    return (
        *_spread(attempt), *_word(attempt, QUARTERS), *_allowances(attempt), *_waistband(attempt),
        *_moved(attempt), *_word(attempt, BINDING), *_shorter(attempt),
        *_direction(attempt, cloth), *_word(attempt, SHORT_SLEEVES), *_shorts(attempt),
        *_fewer(attempt),
    )


@dataclass(frozen=True, kw_only=True)
class OtherWord:
    """Another word chosen for one of a draft's options, where the draft offers it."""

    option: str
    word: str
    told: Fact
    costs: Fact
    drastic: bool = False


QUARTERS = OtherWord(
    option="panels", word="quarters",
    told=fact("panels_in_quarters"), costs=fact("seams_between_panels"),
)
BINDING = OtherWord(
    option="facing", word="binding", told=fact("bind_instead"), costs=fact("binding_needed"),
)
SHORT_SLEEVES = OtherWord(
    option="sleeve", word="short", drastic=True,
    told=fact("short_sleeves"), costs=fact("other_in_winter"),
)


def _word(attempt: Attempt, other: OtherWord) -> Iterator[Change]:
    if any(order.offers(other.option, other.word) for order in attempt.orders):
        yield Change(
            kind=other.option, told=other.told, costs=other.costs, drastic=other.drastic,
            apply=_choose(other.option, other.word),
        )


def _spread(attempt: Attempt) -> Iterator[Change]:
    if attempt.table.spread is not Spread.OPEN:
        yield Change(
            kind="spread",
            told=fact("lay_open"),
            costs=fact("cut_singly"),
            apply=lambda a: replace(a, table=replace(a.table, spread=Spread.OPEN)),
        )


def _allowances(attempt: Attempt) -> Iterator[Change]:
    for option, narrow_mm, costs in (
        ("seam", NARROW_SEAM_MM, "less_to_let_out"), ("hem", NARROW_HEM_MM, "hem_lighter"),
    ):
        now = [o.option(option) for o in attempt.orders]
        wide = [float(v) for v in now if isinstance(v, int | float) and v > narrow_mm]
        if wide:
            yield Change(
                kind=option,
                told=fact(f"narrow_{option}", to_mm=narrow_mm, from_mm=max(wide)),
                costs=fact(costs),
                apply=_set_where(option, narrow_mm),
            )


def narrower_seams(attempt: Attempt) -> tuple[Change, ...]:
    """The narrow seam allowances alone, where they are wider now."""
    return tuple(change for change in _allowances(attempt) if change.kind == "seam")


def _waistband(attempt: Attempt) -> Iterator[Change]:
    if any(o.option("waistband") == "separate" and o.offers("waistband", "pieced")
           for o in attempt.orders):
        yield Change(
            kind="waistband",
            told=fact("piece_waistband"),
            costs=fact("two_seams_more"),
            apply=_choose("waistband", "pieced", only_from="separate"),
        )
    if any(o.option("waistband") == "cut-on" and o.offers("waistband", "separate")
           for o in attempt.orders):
        yield Change(
            kind="waistband",
            told=fact("band_elsewhere"),
            costs=fact("seam_at_waist"),
            apply=_band_elsewhere,
        )
    bands = _bands(attempt)
    if bands and not attempt.one_way:
        yield Change(
            kind="waistband",
            told=fact("band_crosswise"),
            costs=fact("gives_in_wear"),
            apply=lambda a: replace(a, crosswise=a.crosswise | bands),
        )


def _bands(attempt: Attempt) -> frozenset[str]:
    return frozenset(p.name for p in attempt.pieces() if p.part is Part.WAISTBAND)


def _band_elsewhere(attempt: Attempt) -> Attempt:
    apart = _choose("waistband", "separate", only_from="cut-on")(attempt)
    return replace(apart, elsewhere=apart.elsewhere | _bands(apart))


def _moved(attempt: Attempt) -> Iterator[Change]:
    small = frozenset(p.name for p in attempt.pieces() if p.part in SMALL)
    if small and small != {p.name for p in attempt.pieces()}:
        yield Change(
            kind="elsewhere",
            told=fact("pieces_elsewhere", pieces=tuple(sorted(small))),
            costs=fact("second_cloth"),
            apply=lambda a: replace(a, elsewhere=a.elsewhere | small),
        )


def _shorter(attempt: Attempt) -> Iterator[Change]:
    """Shorter as drafted, or folded up at the lines of a pattern of her own."""
    of_length = [o for o in attempt.orders if o.length_mm()]
    at_lines = bool(of_length) and all(o.pattern for o in of_length)
    for less_mm in _less_mm(of_length):
        def cut_short(a: Attempt, less_mm: float = less_mm) -> Attempt:
            return replace(a, orders=tuple(
                o.with_options(length=mm - less_mm) if (mm := o.length_mm()) else o
                for o in a.orders
            ))

        yield Change(
            kind="length",
            told=fact("fold_shorter" if at_lines else "make_shorter", less_mm=less_mm),
            costs=fact("shorter_edges_trued" if at_lines else "worn_shorter"),
            apply=cut_short,
        )


def _less_mm(orders: Sequence[Order]) -> tuple[float, ...]:
    """By how much shorter is tried: what the pieces' lines allow, where that is less."""
    rooms = [alters_by_mm(o.pattern) for o in orders if o.pattern]
    least = min(rooms, default=SHORTER_MM[-1])
    return tuple(sorted({min(mm, least) for mm in SHORTER_MM})) if orders else ()


def _direction(attempt: Attempt, cloth: Cloth) -> Iterator[Change]:
    if attempt.one_way and not cloth.pile:
        looked = "upside_down" if cloth.pile is False else "upside_down_or_shading"
        yield Change(
            kind="direction",
            told=fact("point_both_ways"),
            costs=fact(looked),
            apply=lambda a: replace(a, one_way=False),
        )


def _shorts(attempt: Attempt) -> Iterator[Change]:
    if any(o.garment == "trousers" and not o.pattern for o in attempt.orders):
        def shorts(a: Attempt) -> Attempt:
            return replace(a, orders=tuple(
                replace(o, garment="shorts", options=_without_length(o))
                if o.garment == "trousers" and not o.pattern else o
                for o in a.orders
            ))

        yield Change(
            kind="length", told=fact("shorts_for_trousers"),
            costs=fact("shorts_not_trousers"), drastic=True, apply=shorts,
        )


def _fewer(attempt: Attempt) -> Iterator[Change]:
    """Leave one garment of a set for another cut: the largest first."""
    if len(attempt.orders) < 2:
        return
    for i, order in enumerate(attempt.orders):
        yield Change(
            kind="set",
            told=fact("leave_one_of", garment=Term(order.garment), person=order.person)
            if order.person else fact("leave_one", garment=Term(order.garment)),
            costs=fact("one_fewer"),
            drastic=True,
            apply=_leave(i),
        )


def _leave(i: int) -> Callable[[Attempt], Attempt]:
    def apply(a: Attempt) -> Attempt:
        return replace(a, orders=a.orders[:i] + a.orders[i + 1 :])

    return apply


def _set_where(option: str, value: float) -> Callable[[Attempt], Attempt]:
    """Lower a length where the draft has it and it is larger now."""
    def apply(a: Attempt) -> Attempt:
        return replace(a, orders=tuple(
            o.with_options(**{option: value})
            if isinstance(now := o.option(option), int | float) and now > value else o
            for o in a.orders
        ))

    return apply


def _choose(option: str, word: str, only_from: str | None = None) -> Callable[[Attempt], Attempt]:
    """Make a choice wherever the draft offers it."""
    def apply(a: Attempt) -> Attempt:
        return replace(a, orders=tuple(
            o.with_options(**{option: word})
            if o.offers(option, word) and only_from in (None, o.option(option)) else o
            for o in a.orders
        ))

    return apply


def _without_length(order: Order) -> dict[str, object]:
    """Shorts take their own length and hem; what else was chosen stays."""
    return {k: v for k, v in order.options.items() if k not in {"length", "leg_width", "hem"}}

