"""How true pieces are that were put together: ``python tests/bench/joined_error.py``.

``--photographs 2 3`` and ``--seeds 4-6`` run a slice of it; each case is told as it ends.

Rendered: a floor with a sheet of paper of a metre and a half and three smaller pieces, in two
to six overlapping photographs that share calibration sheets. Each photograph has its own
tilt, turn, height and exposure; one lens bends them all. Printed are how far the outlines lie
from the truth anywhere, in the best fit of place and turn, and what was stated.
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from shapely import affinity
from shapely.geometry import Point, Polygon
from trace_photo import Camera, Scene, photographs

from stash.errors import StashError
from stash.eye.outlines.trace import trace_photos

Ring = Sequence[tuple[float, float]]
LONG: Ring = ((0, 0), (1480, -10), (1500, 260), (1180, 420), (700, 380), (260, 455), (15, 430))
BIB: Ring = ((120, 840), (420, 830), (455, 960), (440, 1080), (130, 1090))
CUFF: Ring = ((660, 860), (940, 880), (930, 960), (650, 940))
STRAP: Ring = ((1000, 1010), (1420, 990), (1425, 1050), (1004, 1070))
PIECES = (LONG, BIB, STRAP, CUFF)  # the largest first, as tracings are given
SHEETS = ((60.0, 510.0, 4.0, 1), (560.0, 520.0, -6.0, 2), (1010.0, 500.0, 9.0, 3),
          (520.0, -330.0, 3.0, 4), (1040.0, -340.0, -4.0, 5))
FLOOR = Scene(pieces=PIECES, sheets=SHEETS, window=(-1100, -1000, 2600, 1750), density=2.0,
              shadow=0.15, writing=False)


def cameras(count: int, seed: int, size_px: tuple[int, int] = (3264, 2448)) -> list[Camera]:
    """Where one walks along the floor: two to four pictures in a row, or two rows of three."""
    random = np.random.default_rng(seed)
    rows = 1 if count < 5 else 2
    across = count // rows
    xs = np.linspace(330, 1170, across)
    ys = [330.0] if rows == 1 else [90.0, 650.0]
    return [
        Camera(target_mm=(float(x + random.uniform(-30, 30)), float(y + random.uniform(-30, 30))),
               height_mm=float((1450 if rows == 1 else 1000) * random.uniform(0.97, 1.08)),
               tilt_deg=float(random.uniform(3, 15)), towards_deg=float(random.uniform(0, 360)),
               roll_deg=float(random.uniform(-6, 6)), size_px=size_px, bend=(-0.02, 0.006),
               exposure=float(random.uniform(0.85, 1.12)))
        for y in ys for x in xs]


def apart_mm(traced: Ring, true: Ring) -> float:
    """The furthest that a traced outline lies from the true one, laid over it as well as can be."""
    there = Polygon([(x, -y) for x, y in true])
    here = Polygon(traced)
    rim = np.array([there.exterior.interpolate(t, normalized=True).coords[0]
                    for t in np.linspace(0, 1, 400, endpoint=False)])
    here = affinity.translate(here, there.centroid.x - here.centroid.x,
                              there.centroid.y - here.centroid.y)
    for _ in range(40):
        near = np.array([here.exterior.interpolate(
            here.exterior.project(_point(p))).coords[0] for p in rim])
        a, b = near - near.mean(axis=0), rim - rim.mean(axis=0)
        turn = np.arctan2((a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum(), (a * b).sum())
        here = affinity.rotate(here, turn, origin=tuple(near.mean(axis=0)), use_radians=True)
        here = affinity.translate(here, *(rim.mean(axis=0) - near.mean(axis=0)))
    return float(here.hausdorff_distance(there))


def _point(place: np.ndarray) -> Point:
    return Point(place)


@dataclass
class Told:
    """One case: how far each outline is off, what was stated, and how long it took."""

    off_mm: list[float]
    stated_mm: float
    render_s: float
    trace_s: float


def case(count: int, seed: int) -> Told:
    """So many photographs rendered and traced; LookupError where other pieces were found."""
    begun = time.perf_counter()
    photos = photographs(replace(FLOOR, seed=seed), cameras(count, seed))
    rendered = time.perf_counter()
    found = trace_photos(photos)
    traced = time.perf_counter()
    if len(found.shapes) != len(PIECES):
        raise LookupError(f"{len(found.shapes)} pieces found of {len(PIECES)}")
    off = [apart_mm(shape.outline.ring_mm, ring)
           for shape, ring in zip(found.shapes, PIECES, strict=True)]
    return Told(off, found.shapes[0].error_mm, rendered - begun, traced - rendered)


def main(asked: argparse.Namespace) -> None:
    """One line a case as it ends, and one for each number of photographs."""
    for count in asked.photographs:
        told = []
        for seed in asked.seeds:
            try:
                one = case(count, seed)
            except (StashError, LookupError) as error:
                print(f"{count} photographs, seed {seed}: {error}", flush=True)
                continue
            told.append(one)
            print(f"{count} photographs, seed {seed}: "
                  + ", ".join(f"{mm:.2f}" for mm in one.off_mm)
                  + f" mm, stated {one.stated_mm:.1f}; rendered in {one.render_s:.0f} s,"
                  f" traced in {one.trace_s:.0f} s", flush=True)
        if told:
            print(f"| {count} | {len(told)} of {len(asked.seeds)} | "
                  f"{max(one.off_mm[0] for one in told):.2f} | "
                  f"{max(max(one.off_mm[1:]) for one in told):.2f} | "
                  f"{max(one.stated_mm for one in told):.1f} |", flush=True)


def seeds(text: str) -> range:
    """range(4, 7) of "4-6"; "4" is that one."""
    first, _, last = text.partition("-")
    return range(int(first), int(last or first) + 1)


def slice_asked() -> argparse.Namespace:
    """Which slice."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--photographs", type=int, nargs="+", default=[2, 3, 4, 6])
    parser.add_argument("--seeds", type=seeds, default=range(1, 4))
    return parser.parse_args()


if __name__ == "__main__":
    main(slice_asked())
