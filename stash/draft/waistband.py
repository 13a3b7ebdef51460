"""A waistband or casing doubled over its fold, with everything marked that it is sewn to."""

from __future__ import annotations

from collections.abc import Sequence

from stash.draft.panel import Cutting, Panel, line_mark
from stash.draft.rectangle import Turnings, rectangle
from stash.model import Mark, MarkKind, Part

Station = tuple[MarkKind, float]


def waistband(
    size_mm: tuple[float, float], seam_mm: float, stations: Sequence[Station], count: int = 1
) -> Panel:
    """``size_mm`` finished: (along the waist, deep); cut twice as deep, the fold in the middle.

    ``stations`` are what meets the band along the waist: (kind, mm from its start).
    """
    long, deep = size_mm
    band = rectangle(
        "waistband", (long, 2 * deep), Turnings(seam_mm, seam_mm, seam_mm),
        Cutting(quantity=count, part=Part.WAISTBAND),
    )
    return _marked(band, long, deep, stations)


def _marked(band: Panel, long: float, deep: float, stations: Sequence[Station]) -> Panel:
    fold = line_mark(MarkKind.FOLD, (0.0, deep), (long, deep))
    across = [Mark(kind, ((at, 0.0), (at, 2 * deep))) for kind, at in stations if 0 < at < long]
    on_seam = [("side 2", long - at) for _, at in stations if 0 < at < long]
    return band.marked((fold, *across), notches=tuple(on_seam))


def from_centre_front(front_mm: float, waist_mm: float, *, underlap: bool) -> list[Station]:
    """A band that opens at the centre front: sides, centre back, and where the overlap starts.

    ``front_mm`` is half the front's waist.
    """
    stations = [
        (MarkKind.SIDE_SEAM, front_mm), (MarkKind.CENTRE, waist_mm / 2),
        (MarkKind.SIDE_SEAM, waist_mm - front_mm),
    ]
    return [*stations, (MarkKind.OVERLAP, waist_mm)] if underlap else stations


def from_centre_back(back_mm: float, waist_mm: float, *, underlap: bool) -> list[Station]:
    """A band that is joined or opens at the centre back; ``back_mm`` is half the back's waist."""
    return from_centre_front(back_mm, waist_mm, underlap=underlap)
