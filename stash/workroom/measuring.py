"""Measured by photograph, by weight and by the roll: put on record with origin and error.

Apart from the other acts, since OpenCV takes a while to load.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from stash.eye.colour import photographed
from stash.eye.colour.photographed import SeenColour
from stash.eye.floor import upright
from stash.eye.strips import stops, strip
from stash.eye.strips.stops import Between
from stash.eye.strips.strip import Strip
from stash.eye.tray import pour
from stash.eye.tray.pour import Ask, Pour, RoundThing, SizeCount
from stash.foreign import read_apart
from stash.foreign.limits import MEASURED
from stash.ledger import Event, Kind
from stash.model import Bin
from stash.model.measured import Measured, Origin
from stash.store import Stash
from stash.workroom.figures import keep_figure

__all__ = ["Ask", "Between", "RoundThing", "Pour", "SeenColour", "SizeCount", "Strip"]

Pixel = tuple[float, float]


def count_pour(photo: bytes, *, ruler_mm: float | None = None) -> Pour:
    """What was poured on the printed tray."""
    return read_apart(MEASURED, partial(pour.count_pour, ruler_mm=ruler_mm), photo)


def measure_strips(photo: bytes, *, ruler_mm: float | None = None) -> tuple[Strip, ...]:
    """Every strip beside the calibration sheet, the longest first."""
    return read_apart(MEASURED, partial(strip.measure_strips, ruler_mm=ruler_mm), photo)


def between(photo: bytes, one: Pixel, other: Pixel, *, ruler_mm: float | None = None) -> Between:
    """How far two places of a photograph are from each other, each moved onto its edge."""
    return read_apart(MEASURED, partial(stops.between, ruler_mm=ruler_mm), photo, one, other)


def colours_in(photo: bytes, at_px: Sequence[Pixel] = ()) -> tuple[SeenColour, ...]:
    """The colour at each place of a photograph."""
    return read_apart(MEASURED, photographed.colours_in, photo, tuple(at_px))


def apart_in(photo: bytes, one: Pixel, other: Pixel) -> tuple[float, float]:
    """(CIEDE2000 between two places of one photograph, how far that may be out)."""
    return read_apart(MEASURED, photographed.apart_in, photo, one, other)


def shown_jpeg(photo: bytes) -> tuple[bytes, tuple[int, int]]:
    """(a photograph as a page shows it, the size in pixels that it is measured at)."""
    return read_apart(MEASURED, upright.shown_jpeg, photo)


def receive_seen(
    stash: Stash, bins: Sequence[Bin], code: str | None = None, token: str | None = None
) -> tuple[Event, tuple[str, ...]]:
    """New bins whose amounts a photograph told; (the one event of them all, their codes).

    ``code`` is the blank label that the first was given; the others get fresh ones.
    """
    codes: list[str] = []
    with stash.act(token) as act:
        for held in bins:
            event = stash.bins.receive(held, None if codes else code)
            figure = Measured(value=held.amount, error=0.0, origin=Origin.PHOTOGRAPHED)
            keep_figure(stash, event.code, figure, Kind.RECEIPT)
            codes.append(event.code)
    done = act.event or act.earlier
    assert done is not None
    return done, tuple(c for c in done.change if ":" not in c)


def count_seen(stash: Stash, code: str, amount: float, token: str | None = None) -> Event:
    """A bin whose content a photograph counted again."""
    figure = Measured(value=amount, error=0.0, origin=Origin.PHOTOGRAPHED)
    with stash.act(token) as act:
        held = stash.bins.get(code)
        stash.bins.count(held.code, amount)
        keep_figure(stash, held.code, figure, Kind.COUNT)
    done = act.event or act.earlier
    assert done is not None
    return done
