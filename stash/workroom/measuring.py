"""Measured by photograph, by weight and by the roll: put on record with origin and error.

Apart from the other acts, since OpenCV takes a while to load.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from dataclasses import replace as replaced
from functools import partial

from stash.errors import InvalidInput
from stash.eye.colour import photographed
from stash.eye.colour.difference import CLOSE, NEAR
from stash.eye.colour.photographed import SeenColour
from stash.eye.floor import upright
from stash.eye.strips import stops, strip
from stash.eye.strips.stops import Between
from stash.eye.strips.strip import SeenStrips, Strip
from stash.eye.tray import pour
from stash.eye.tray.pour import Ask, Pour, RoundThing, SizeCount
from stash.fact import Fact, fact
from stash.foreign import read_apart
from stash.foreign.limits import MEASURED
from stash.ledger import Entry, Event, Kind
from stash.model import Bin
from stash.model.measured import Measured, Origin
from stash.store import Stash
from stash.workroom.figures import keep_figure, spare_better
from stash.workroom.origins import size_record, size_subject
from stash.workroom.seen_colours import note_seen_colour

__all__ = ["Ask", "Between", "RoundThing", "Pour", "SeenColour", "SeenStrips", "SizeCount", "Strip"]

Pixel = tuple[float, float]


def count_pour(photo: bytes, *, ruler_mm: float | None = None) -> Pour:
    """What was poured on the printed tray."""
    return read_apart(MEASURED, partial(pour.count_pour, ruler_mm=ruler_mm), photo)


def measure_strips(photo: bytes, *, ruler_mm: float | None = None) -> SeenStrips:
    """Every strip beside the calibration sheet, the longest first, and what is asked about."""
    return read_apart(MEASURED, partial(strip.seen_strips, ruler_mm=ruler_mm), photo)


def between(photo: bytes, one: Pixel, other: Pixel, *, ruler_mm: float | None = None) -> Between:
    """How far two places of a photograph are from each other, each moved onto its edge."""
    return read_apart(MEASURED, partial(stops.between, ruler_mm=ruler_mm), photo, one, other)


def read_pixel(text: str) -> Pixel:
    """Where in a photograph, from "900,600": across and down in pixels; InvalidInput for less."""
    try:
        x, y = (float(part) for part in text.split(","))
    except ValueError:
        raise InvalidInput("not_a_place_in_picture", typed=text[:40], field="at") from None
    return x, y


def colours_in(photo: bytes, at_px: Sequence[Pixel] = ()) -> tuple[SeenColour, ...]:
    """The colour at each place of a photograph."""
    return read_apart(MEASURED, photographed.colours_in, photo, tuple(at_px))


def colours_along(photo: bytes, lines_px: Sequence[Sequence[Pixel]]) -> tuple[SeenColour, ...]:
    """The colour along each line of a photograph."""
    return read_apart(MEASURED, photographed.colours_along, photo, tuple(map(tuple, lines_px)))


def matched(apart_de00: float, error_de00: float) -> Fact:
    """Whether two colours of one photograph match, as far as it tells."""
    if apart_de00 > NEAR:
        return fact("colours_differ")
    if apart_de00 > CLOSE:
        return fact("colours_near")
    return fact("colours_match" if apart_de00 <= error_de00 else "colours_close")


def light_said(seen: SeenColour) -> Fact:
    """What the light of its photograph makes of a colour."""
    return fact(f"light_{seen.light.value}", error_number=seen.error_de00)


def apart_in(photo: bytes, one: Pixel, other: Pixel) -> tuple[float, float]:
    """(CIEDE2000 between two places of one photograph, how far that may be out)."""
    return read_apart(MEASURED, photographed.apart_in, photo, one, other)


def shown_jpeg(photo: bytes) -> tuple[bytes, tuple[int, int]]:
    """(a photograph as a page shows it, the size in pixels that it is measured at)."""
    return read_apart(MEASURED, upright.shown_jpeg, photo)


@dataclass(frozen=True, kw_only=True)
class SeenBin:
    """A new bin as a photograph shows it; ``error`` is of its amount, in its unit.

    ``colour``: how the photograph showed its colour, where the greys were seen in it.
    """

    held: Bin
    error: float = 0.0
    size_error_mm: float | None = None
    colour: SeenColour | None = None


def receive_seen(
    stash: Stash, seen: Sequence[SeenBin], code: str | None = None, token: str | None = None
) -> tuple[Event, tuple[str, ...]]:
    """New bins whose amounts a photograph told; (the one event of them all, their codes).

    ``code`` is the blank label that the first was given; the others get fresh ones.
    """
    codes: list[str] = []
    with stash.act(token) as act:
        for one in seen:
            event = stash.bins.receive(_coloured(one), None if codes else code)
            figure = Measured(value=one.held.amount, error=one.error, origin=Origin.PHOTOGRAPHED)
            keep_figure(stash, event.code, figure, Kind.RECEIPT)
            if one.size_error_mm and one.held.notion.size_mm:
                _keep_size(stash, event.code, one.held.notion.size_mm, one.size_error_mm)
            if one.colour:
                note_seen_colour(stash, event.code, one.colour, Kind.RECEIPT)
            codes.append(event.code)
    done = act.event or act.earlier
    assert done is not None
    return done, tuple(c for c in done.change if ":" not in c)


def _coloured(one: SeenBin) -> Bin:
    """The bin, in the colour that its photograph shows."""
    if one.colour is None:
        return one.held
    return replaced(one.held, notion=replaced(one.held.notion, colour=one.colour.colour))


def _keep_size(stash: Stash, code: str, size_mm: float, error_mm: float) -> None:
    figure = Measured(value=size_mm, error=error_mm, origin=Origin.PHOTOGRAPHED)
    change = {size_subject(code): size_record(figure)}
    stash.ledger.write(lambda: Entry(kind=Kind.RECEIPT, code=code, change=change))


def count_seen(
    stash: Stash, code: str, figure: Measured, token: str | None = None, *, replace: bool = False
) -> Event:
    """A bin whose content a photograph counted again.

    Raises SurerFigure where a better count is on record, unless told to ``replace`` it.
    """
    with stash.act(token) as act:
        held = stash.bins.get(code)
        if not replace:
            spare_better(
                stash, held.code, held.amount, figure, counted=held.notion.kind.counted)
        stash.bins.count(held.code, figure.value)
        keep_figure(stash, held.code, figure, Kind.COUNT)
    done = act.event or act.earlier
    assert done is not None
    return done


def counted_in(pour: Pour, more: Sequence[int]) -> Measured:
    """How many lie on the tray: the sure ones and ``more`` at each place that was asked about.

    Each place that is not sure may be one out, whatever was answered.
    """
    return Measured(value=float(pour.count + sum(more)), error=float(len(pour.asks)),
                    origin=Origin.PHOTOGRAPHED)
