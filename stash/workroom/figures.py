"""How the size of a cut or the amount in a bin is known: kept beside it, and read again.

The one rule of which figure stays is here too: ``spare_better``, asked by whatever weighs,
rolls, counts or traces before it writes.
"""

from __future__ import annotations

from stash.errors import SurerFigure
from stash.fact import Fact, fact
from stash.ledger import Entry, Kind
from stash.ledger.origin import figure_subject, origin_of
from stash.model.exact import to_plain
from stash.model.measured import Measured, Origin, agree, better
from stash.store import Stash

__all__ = ["Measured", "Origin"]

TAPE_MM, TAPE_SHARE = 5.0, 0.003
"""How far a cut's length by the tape is out (common practice, no source)."""
PRESUMED_SHARE = 0.02  # an error beyond this share is worth settling with the tape


def keep_figure(stash: Stash, code: str, figure: Measured, kind: Kind) -> None:
    """Beside what sets a size or an amount, within the same act: how it is known."""
    change = {figure_subject(code): {"record": to_plain(figure)}}
    stash.ledger.write(lambda: Entry(kind=kind, code=code, change=change))


def figure_of(stash: Stash, code: str) -> Measured | None:
    """How the size or the amount on record is known; None when it was measured by hand."""
    return origin_of(stash.ledger.history(code), code)


def known_figure(
    stash: Stash, code: str, on_record: float, *, counted: bool = False
) -> Measured:
    """What is on record with its error and origin; by hand where nothing else says so."""
    known = figure_of(stash, code)
    if known is None:
        error = 0.0 if counted else TAPE_MM + TAPE_SHARE * on_record
        return Measured(value=on_record, error=error,
                        origin=Origin.COUNTED if counted else Origin.MEASURED)
    return Measured(value=on_record, error=known.error, origin=known.origin)


def spare_better(
    stash: Stash, code: str, on_record: float, figure: Measured, *, counted: bool = False
) -> None:
    """Refuse to put a worse figure in the place of a better one; SurerFigure says which is which.

    A figure of the same origin as that on record is fresher, and replaces it.
    """
    now = known_figure(stash, code, on_record, counted=counted)
    if now.origin is figure.origin or better(figure, now) is figure:
        return
    kind = "better_on_record" if agree(now, figure) else "better_on_record_differs"
    unit = "number" if counted else "mm"
    raise SurerFigure(f"{kind}_number" if counted else kind, code=code, **{
        f"recorded_{unit}": on_record, f"recorded_error_{unit}": now.error,
        f"new_{unit}": figure.value, f"new_error_{unit}": figure.error})


def how_known(figure: Measured, *, counted: bool = False) -> tuple[Fact, ...]:
    """What is said of a figure: its origin, its error, and the measurement that would settle it."""
    origin = figure.origin.value
    if not figure.error:
        said = fact(f"known_{origin}_exactly")
    elif counted:
        said = fact(f"known_{origin}_number", error_number=float(round(figure.error)))
    else:
        said = fact(f"known_{origin}", error_mm=figure.error)
    by_hand = figure.origin in (Origin.MEASURED, Origin.COUNTED)
    rough = figure.share > PRESUMED_SHARE and figure.error > 0 and not by_hand
    return (said, fact("count_settles" if counted else "tape_settles")) if rough else (said,)


def figure_json(figure: Measured | None) -> dict[str, object] | None:
    """``{"origin", "error"}``, None when it was measured by hand."""
    return None if figure is None else {"origin": figure.origin.value, "error": figure.error}
