"""One photograph of a poured tray: how many of which size, and what is to be asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.eye.colour.photographed import SeenColour, by_greys, grey_level
from stash.eye.floor.find_sheets import Array
from stash.eye.floor.seen_floor import Floor, fit_floor
from stash.eye.floor.standpoint import Stand, camera_stand
from stash.eye.floor.upright import read_picture
from stash.eye.rounds.circle import TOWARD, Circles, Seen
from stash.eye.rounds.covered import covered
from stash.eye.rounds.find import CHECKED_GROUND, Found, Rest, find_rounds
from stash.eye.rounds.kinds import groups
from stash.eye.rounds.on_top import faces, on_top, unexplained
from stash.eye.tray.bare_paper import FAINT, ground_seen, light_of
from stash.eye.tray.from_above import Flat, flattened
from stash.eye.tray.hidden import Hidden, hidden_by
from stash.eye.tray.rim import find_rim
from stash.eye.tray.size import TrueSize, true_size
from stash.model.tray import TRAY, TrayBoard

Picture = NDArray[np.uint8]
Doubt = Literal["round?", "clear?", "covered?", "on top?", "what?"]
CLEAR_ERROR_MM = 0.7  # of a diameter: the rim of what is nearly clear is told by its dark edge
PLAIN_RIM, LEAST_PLAIN = 0.55, 3
ASKED_NEAR = 1.5  # of a radius: a question so near is about the same thing
PAPER_PERCENTILE = 97  # of the light on the tray: its white squares
OUTER_PART = (0.72, 0.8, 0.88)  # of a radius: also a ring is solid there


@dataclass(frozen=True, kw_only=True)
class RoundThing:
    """One round thing. ``at_px`` and ``radius_px`` are for drawing over the photograph."""

    centre_mm: tuple[float, float]
    diameter_mm: float
    error_mm: float
    sure: bool
    at_px: tuple[float, float]
    radius_px: float


@dataclass(frozen=True, kw_only=True)
class Ask:
    """Something to look at: a round thing that is not sure, a clear one, or something else.

    ``covered?`` is counted already; another may lie on it. ``on top?`` lies on others that are.
    """

    why: Doubt
    centre_mm: tuple[float, float]
    area_mm2: float
    at_px: tuple[float, float]
    radius_px: float
    item: int | None = None


@dataclass(frozen=True, kw_only=True)
class SizeCount:
    """How many there are of one size; ``error_mm`` is two standard errors of the diameter."""

    diameter_mm: float
    error_mm: float
    count: int


@dataclass(frozen=True, kw_only=True)
class Pour:
    """What lies on the tray. ``count`` is of the sure ones; each ask may add to it.

    ``tray_px`` is the part of the photograph that holds the tray: (left, top, width, height).
    ``colour`` is None where several sizes lie there or the greys were not seen.
    """

    count: int
    sizes: tuple[SizeCount, ...]
    items: tuple[RoundThing, ...]
    asks: tuple[Ask, ...]
    tray_px: tuple[int, int, int, int]
    colour: SeenColour | None = None


def count_pour(data: bytes, *, ruler_mm: float | None = None, tray: TrayBoard = TRAY) -> Pour:
    """What was poured on the printed tray, from the bytes of one photograph.

    ``ruler_mm`` is what the tray's printed ruler truly measures. Raises InvalidInput when
    no tray lies in the picture.
    """
    image = read_picture(data)
    rim = find_rim(cv2.cvtColor(image, cv2.COLOR_BGR2GRAY), tray)
    if rim is None:
        raise InvalidInput("no_tray_seen", field="photo")
    size_px = image.shape[1], image.shape[0]
    floor = fit_floor([rim], size_px)
    flat = flattened(image, floor, tray)
    hidden = hidden_by(ground_seen(flat, tray), flat.cell_mm)
    light = light_of(flat.colour)
    look = np.log(light + FAINT)
    found = find_rounds(hidden.share, flat.cell_mm, look, CHECKED_GROUND)
    scale = 1.0 if ruler_mm is None else ruler_mm / tray.ruler_mm
    bright = _brightness(light, flat.cell_mm, found.circles)
    sight = _Sight(floor, camera_stand(floor), scale, size_px, _tray_px(floor, tray, size_px))
    pour = _told(found, hidden, flat, bright, sight)
    if len(pour.sizes) != 1:
        return _and_rests(pour, found.rests, flat, sight)
    certain = found.circles.picked(np.array([item.sure for item in pour.items], bool))
    return replace(_heaped(pour, found.rests, certain, _Look(hidden.share, look, flat, sight)),
                   colour=_colour(image, floor, flat, certain))


@dataclass(frozen=True)
class _Sight:
    """How the tray is seen; ``scale`` is its printed size over its nominal one."""

    floor: Floor
    stand: Stand
    scale: float
    size_px: tuple[int, int]
    tray_px: tuple[int, int, int, int]

    def drawn(self, spot_mm: Array, radius_mm: float) -> tuple[tuple[float, float], float]:
        """Where a circle on the tray lies in the photograph, and its radius, in pixels."""
        turns = np.array([(1, 0), (-1, 0), (0, 1), (0, -1)]) * radius_mm
        rim = self.floor.to_image(np.asarray(spot_mm) + turns)
        x, y = rim.mean(axis=0)
        return (float(x), float(y)), float(np.hypot(*(rim - (x, y)).T).mean())


def _told(found: Found, hidden: Hidden, flat: Flat, bright: Array, sight: _Sight) -> Pour:
    circles = Circles(found.circles.middle_mm + flat.corner_mm, found.circles.radius_mm)
    clear = _are_clear(hidden, flat.cell_mm, found.circles)
    parts = groups(circles.radius_mm)
    # A rim that is plainly seen, of the size of most, is one however clear its middle is, and
    # so are those beside it once there are several.
    usual = np.isin(np.arange(len(circles)), parts[0]) if parts else np.zeros(0, bool)
    plain = found.sure & usual & (found.rim > PLAIN_RIM)
    sure = found.sure & (~clear | plain | (usual & (plain.sum() >= LEAST_PLAIN)))
    sizes = [_size(circles, found.seen, part[sure[part]] if sure[part].any() else part, bright,
                   sight.stand) for part in parts]
    sizes = [replace(size, error_mm=float(np.hypot(size.error_mm, CLEAR_ERROR_MM)))
             if clear[part].mean() > 0.5 else size
             for part, size in zip(parts, sizes, strict=True)]
    items = _items(circles, sure, parts, sizes, sight)
    asks = [
        Ask(why="clear?" if clear[i] else "round?", centre_mm=one.centre_mm, item=i,
            area_mm2=float(np.pi * circles.radius_mm[i] ** 2), at_px=one.at_px,
            radius_px=one.radius_px)
        for i, one in enumerate(items) if not one.sure
    ]
    counts = [
        SizeCount(diameter_mm=size.diameter_mm * sight.scale, error_mm=size.error_mm * sight.scale,
                  count=int(sure[part].sum()))
        for part, size in zip(parts, sizes, strict=True)
    ]
    return Pour(
        count=int(sure.sum()),
        sizes=tuple(sorted((c for c in counts if c.count), key=lambda c: -c.count)),
        items=tuple(items), asks=tuple(asks), tray_px=sight.tray_px)


def _tray_px(
    floor: Floor, tray: TrayBoard, size_px: tuple[int, int]
) -> tuple[int, int, int, int]:
    """Where the tray's check lies in the photograph, as far as that shows it."""
    left, top, right, foot = tray.check_mm
    seen = floor.to_image(np.array([(left, top), (right, top), (right, foot), (left, foot)]))
    low = np.floor(seen.min(axis=0)).clip(0, size_px)
    high = np.ceil(seen.max(axis=0)).clip(0, size_px)
    return int(low[0]), int(low[1]), int(high[0] - low[0]), int(high[1] - low[1])


@dataclass(frozen=True)
class _Look:
    """The tray from above: what hides the check, the logarithm of light, and where it lies."""

    hidden: NDArray[np.float32]
    look: NDArray[np.float32]
    flat: Flat
    sight: _Sight


def _heaped(pour: Pour, rests: Sequence[Rest], certain: Circles, seen: _Look) -> Pour:
    """With a question at what may lie on others, and at what is left over and not explained."""
    radius, cell_mm = float(np.median(certain.radius_mm)), seen.flat.cell_mm
    upper = np.zeros((0, 2))
    if likeness := faces(seen.look, cell_mm, certain):
        upper = on_top(seen.hidden, likeness, certain)
        rests = unexplained(rests, certain, upper, radius)
    pour = _and_rests(pour, rests, seen.flat, seen.sight)
    for spot in upper + seen.flat.corner_mm:
        at, radius_px = seen.sight.drawn(spot, radius)
        pour = _asking(pour, Ask(why="on top?", centre_mm=_pair(spot), at_px=at,
                                 radius_px=radius_px, area_mm2=float(np.pi * radius**2)))
    under = covered(seen.look, cell_mm, certain)
    for one, hides in zip((item for item in pour.items if item.sure), under, strict=True):
        if hides:
            pour = _asking(pour, Ask(
                why="covered?", centre_mm=one.centre_mm, at_px=one.at_px, radius_px=one.radius_px,
                area_mm2=float(np.pi * one.diameter_mm**2 / 4)))
    return pour


def _asking(pour: Pour, more: Ask) -> Pour:
    """With one more question, unless one is asked there anyway."""
    gaps = [np.hypot(ask.at_px[0] - more.at_px[0], ask.at_px[1] - more.at_px[1])
            for ask in pour.asks]
    if min(gaps, default=np.inf) < ASKED_NEAR * more.radius_px:
        return pour
    return replace(pour, asks=(*pour.asks, more))


def _and_rests(pour: Pour, rests: Sequence[Rest], flat: Flat, sight: _Sight) -> Pour:
    """With a question at each thing that is left over."""
    asks = list(pour.asks)
    for rest in rests:
        spot = np.array(rest.middle_mm) + flat.corner_mm
        at, radius = sight.drawn(spot, max(2.0, (rest.area_mm2 / np.pi) ** 0.5))
        asks.append(Ask(why="what?", centre_mm=_pair(spot), area_mm2=rest.area_mm2, at_px=at,
                        radius_px=radius))
    return replace(pour, asks=tuple(asks))


def _size(
    circles: Circles, seen: Seen, some: NDArray[np.intp], bright: Array, stand: Stand
) -> TrueSize:
    mine = Seen(seen.edge_mm[some], seen.beyond[some], seen.bare[some])
    return true_size(circles.picked(some), mine, stand, float(np.median(bright[some])))


def _items(
    circles: Circles, sure: NDArray[np.bool_], parts: Sequence[NDArray[np.intp]],
    sizes: Sequence[TrueSize], sight: _Sight,
) -> list[RoundThing]:
    """The round things in reading order within the order of the circles."""
    of = {int(i): size for part, size in zip(parts, sizes, strict=True) for i in part}
    items = []
    for i, (spot, radius) in enumerate(zip(circles.middle_mm, circles.radius_mm, strict=True)):
        at, radius_px = sight.drawn(spot, float(radius))
        items.append(RoundThing(
            centre_mm=_pair(spot), diameter_mm=of[i].diameter_mm * sight.scale,
            error_mm=of[i].error_mm * sight.scale, sure=bool(sure[i]), at_px=at,
            radius_px=radius_px))
    return items


def _colour(image: Picture, floor: Floor, flat: Flat, circles: Circles) -> SeenColour | None:
    """The colour of the circles' outer parts by the tray's greys; None where those are hidden."""
    rows, columns = _outer_cells(circles, flat.cell_mm, flat.colour.shape[:2])
    levels = np.median(flat.colour[rows, columns].reshape(-1, 3), axis=0)[::-1]
    return by_greys(levels, np.array([grey_level(image, floor, b) for b in TRAY.grey_boxes]))


def _brightness(light: NDArray[np.float32], cell_mm: float, circles: Circles) -> Array:
    """The light of each circle's outer part, as a share of the paper's."""
    paper = float(np.percentile(light, PAPER_PERCENTILE))
    rows, columns = _outer_cells(circles, cell_mm, light.shape)
    if not len(circles):
        return np.zeros(0)
    return np.asarray(np.median(light[rows, columns], axis=(1, 2)) / paper, float)


def _outer_cells(
    circles: Circles, cell_mm: float, shape: tuple[int, ...]
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Rows and columns of cells spread over the outer part of each circle."""
    reach = circles.radius_mm[:, None] * np.array(OUTER_PART)
    spots = circles.middle_mm[:, None, None] + reach[:, None, :, None] * TOWARD[None, ::3, None]
    cells = np.clip(np.round(spots / cell_mm).astype(int), 0, (shape[1] - 1, shape[0] - 1))
    return cells[..., 1], cells[..., 0]


def _are_clear(hidden: Hidden, cell_mm: float, circles: Circles) -> NDArray[np.bool_]:
    """Which circles lie on a patch through which most of the check is seen."""
    cells = np.round(circles.middle_mm / cell_mm).astype(int)
    high, wide = hidden.clear.shape
    return hidden.clear[np.clip(cells[:, 1], 0, high - 1), np.clip(cells[:, 0], 0, wide - 1)] > 0


def _pair(spot: Array) -> tuple[float, float]:
    return float(spot[0]), float(spot[1])
