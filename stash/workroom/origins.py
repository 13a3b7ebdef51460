"""Every figure that is shown of a cut or a bin: its error, and where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from stash.errors import InvalidInput
from stash.fact import Fact, fact
from stash.ledger import CutState
from stash.match.cloth.hangs_on import WIDTH_PRESUMED_MM
from stash.model import Bin, Cut
from stash.model.exact import from_plain, to_plain
from stash.model.measured import Measured, Origin
from stash.store import Stash
from stash.workroom.figures import how_known, known_figure
from stash.workroom.weighing import mass_of

FigureOf = Literal["length_mm", "width_mm", "mass_gsm", "amount", "amount_mm", "size_mm"]
WIDTH_TAPE_MM = 6.0
"""How far a width by the tape is out (common practice, no source): edges are seldom straight."""
SAME_SIZE_MM = 0.06  # a size is kept to a tenth


@dataclass(frozen=True, kw_only=True)
class KnownFigure:
    """One figure as it is shown; ``of`` names it with its unit."""

    of: FigureOf
    figure: Measured


def of_cut(stash: Stash, cut: Cut) -> tuple[KnownFigure, ...]:
    """Length, width, and what a square metre of its cloth weighs, where anything says so."""
    length = known_figure(stash, cut.code, cut.outline.length_mm)
    width = _width(cut, length)
    shown = (KnownFigure(of="length_mm", figure=length), KnownFigure(of="width_mm", figure=width))
    try:
        mass = mass_of(stash, cut)
    except InvalidInput:
        return shown
    return (*shown, KnownFigure(of="mass_gsm", figure=mass))


def _width(cut: Cut, length: Measured) -> Measured:
    """How its width is known; a photograph tells both sizes."""
    if cut.width_presumed:
        return Measured(
            value=cut.width_mm, error=WIDTH_PRESUMED_MM, origin=Origin.PRESUMED)
    seen = length.origin is Origin.PHOTOGRAPHED
    return Measured(value=cut.width_mm, error=length.error if seen else WIDTH_TAPE_MM,
                    origin=length.origin if seen else Origin.MEASURED)


def of_bin(stash: Stash, held: Bin) -> tuple[KnownFigure, ...]:
    """How much is in it, and how large each is."""
    counted = held.notion.kind.counted
    amount = known_figure(stash, held.code, held.amount, counted=counted)
    shown = (KnownFigure(of="amount" if counted else "amount_mm", figure=amount),)
    size = held.notion.size_mm
    if size is None:
        return shown
    record = stash.ledger.record(size_subject(held.code))
    kept = from_plain(Measured, record) if record else None
    if kept is None or abs(kept.value - size) > SAME_SIZE_MM:
        kept = Measured(value=size, error=0.0, origin=Origin.PRESUMED)
    return (*shown, KnownFigure(of="size_mm", figure=kept))


def size_subject(code: str) -> str:
    """The subject under which the figure of a bin's size is recorded."""
    return f"size:{code}"


def size_record(figure: Measured) -> dict[str, object]:
    """What is recorded there."""
    return {"record": to_plain(figure)}


def colour_subject(stash: Stash, code: str) -> str:
    """The subject under which it is recorded how a colour is known; cuts of one cloth share it."""
    state = stash.ledger.state(code)
    return f"colour:{state.cloth if isinstance(state, CutState) else code}"


def own_colours(thing: Cut | Bin) -> tuple[str, ...]:
    """The colours on record of a cut's cloth, or of what is in a bin."""
    return thing.cloth.colours if isinstance(thing, Cut) else (thing.notion.colour or "",)


def colour_known(stash: Stash, thing: Cut | Bin) -> dict[str, Any] | None:
    """``{"colour", "error_de00", "light"}`` of the photograph that told its colour.

    None where it was chosen by eye, since then at the least.
    """
    known = stash.ledger.record(colour_subject(stash, thing.code))
    return dict(known) if known and known["colour"] in own_colours(thing) else None


def said_of_colour(stash: Stash, thing: Cut | Bin) -> tuple[Fact, ...]:
    """How sure its colour is, where a photograph told it; nothing where it was chosen by eye."""
    known = colour_known(stash, thing)
    if known is None:
        return ()
    warm = known["light"] == "warm"
    return (fact("colour_photographed_warm" if warm else "colour_photographed",
                 error_number=known["error_de00"]),)


def said_of(shown: tuple[KnownFigure, ...]) -> tuple[Fact, ...]:
    """A fact for each figure; after that of the length or the amount, what would settle it."""
    return tuple(said for one in shown for said in _said(one))


def _said(one: KnownFigure) -> tuple[Fact, ...]:
    origin, error = one.figure.origin.value, one.figure.error
    if one.of in ("length_mm", "amount_mm", "amount"):
        return how_known(one.figure, counted=one.of == "amount")
    if one.of == "width_mm":
        said = fact(f"width_{origin}", error_mm=error)
        presumed = one.figure.origin is Origin.PRESUMED
        return (said, fact("width_settles")) if presumed else (said,)
    if one.of == "mass_gsm":
        return (fact(f"mass_{origin}", error_gsm=error),)
    if not error:
        return (fact("size_as_written"),)
    return (fact("size_photographed", error_small_mm=error),)


def figures_json(shown: tuple[KnownFigure, ...]) -> dict[str, object]:
    """``{"length_mm": {"value", "error", "origin"}, ...}``; ``amount_mm`` of what has a length."""
    return {
        one.of: {"value": round(one.figure.value, 2), "error": round(one.figure.error, 2),
                 "origin": one.figure.origin.value}
        for one in shown
    }
