"""Fixed cuts: how often, how soon, how tight; and the screen over a whole stash.

    python tests/bench/lay_cuts.py [--seeds 20] [--seconds 10] [--workers 2]

Trouser pieces drawn for this bench (11 pieces, 5 mm apart, one-way) on 150 x 114 cm,
79 % full; rectangles cut into garment-like pieces with 3 % of room ("jigsaws"); the
length after 2 s against that after 30 s; 10,000 cuts screened for three garments.
Prints a table; nothing is asserted.
"""

from __future__ import annotations

import argparse
import os
import time
from dataclasses import replace
from statistics import median

import numpy as np
from shapely import LineString, Polygon, box
from shapely.ops import split

from stash.deadline import Deadline
from stash.lay import Budget, LayTask, Verdict, check, first_lay, screen_cuts, shortest, solve, warm
from stash.model import Outline, Piece

ROOM = 1.03  # area of a jigsaw's cloth over that of its pieces


def curve(*points: tuple[float, float], steps: int = 5) -> list[tuple[float, float]]:
    """A quadratic curve through its ends, bent towards the middle point."""
    a, b, c = (np.array(p, float) for p in points)
    t = np.linspace(0, 1, steps)[1:, None]
    return [tuple(p) for p in (1 - t) ** 2 * a + 2 * t * (1 - t) * b + t**2 * c]


def trousers() -> tuple[Piece, ...]:
    """Front, back, facing as pairs; band, pockets, fly shield and fly facing."""
    front = [(0, 22), *curve((0, 22), (110, 2), (200, 0)),
             *curve((200, 0), (450, 12), (600, 32)), (1060, 50), (1060, 262), (600, 262),
             *curve((600, 262), (380, 275), (265, 318)),
             *curve((265, 318), (225, 262), (150, 254)), (0, 240)]
    back = [(40, 30), *curve((40, 30), (150, 2), (240, 0)),
            *curve((240, 0), (490, 12), (640, 36)), (1100, 56), (1100, 300), (640, 306),
            *curve((640, 306), (440, 325), (325, 398)),
            *curve((325, 398), (280, 335), (170, 318), steps=6), (0, 278)]
    facing = [(0, 0), (210, 0), (210, 70), *curve((210, 70), (150, 150), (60, 165)), (0, 165)]
    fly = [(0, 0), (200, 0), *curve((200, 0), (185, 48), (150, 52), steps=4), (0, 52)]
    pocket = [(0, 0), (150, 0), (170, 75), (150, 150), (0, 150)]

    def piece(name: str, ring: list, quantity: int = 1, mirrored: bool = False) -> Piece:
        return Piece(
            name=name, outline_mm=tuple(ring), quantity=quantity, mirrored_pair=mirrored
        )

    return (
        piece("front", front, 2, True), piece("back", back, 2, True),
        piece("band", [(0, 0), (860, 0), (860, 90), (0, 90)]), piece("pocket", pocket, 2),
        piece("facing", facing, 2, True),
        piece("fly shield", [(0, 0), (200, 0), (200, 70), (0, 70)]), piece("fly facing", fly),
    )


def jigsaw(seed: int) -> LayTask:
    """A rectangle cut by bent lines into nine pieces, to go back on 3 % more cloth."""
    random = np.random.default_rng(seed)
    length, width = 1200.0, 900.0
    parts = [box(0, 0, length, width)]
    for share in (0.34, 0.67):
        bend = random.uniform(-60, 60, 3)
        line = LineString([(-5, width * share), *((length * x, width * share + b)
                           for x, b in zip((0.25, 0.5, 0.75), bend, strict=True)),
                           (length + 5, width * share)])
        parts = [g for p in parts for g in split(p, line).geoms]
    cut = []
    for p in parts:
        for at in sorted(random.uniform(0.25, 0.75, 2)):
            x = length * at
            lean = random.uniform(-80, 80)
            line = LineString([(x - lean, -200), (x + lean, width + 200)])
            left, *rest = sorted(split(p, line).geoms, key=lambda g: g.centroid.x)
            cut.append(left)
            p = rest[0] if rest else left
        cut.append(p)
    pieces = tuple(
        Piece(name=f"part {k}", outline_mm=tuple(g.exterior.coords[:-1]))
        for k, g in enumerate({g.wkb: g for g in cut if g.area > 500}.values())
    )
    return LayTask(pieces=pieces, cloth=Outline.rectangle(length * ROOM**0.5, width * ROOM**0.5))


def rate(name: str, tasks: list[tuple[LayTask, int]], given: argparse.Namespace) -> None:
    """How many were laid within the seconds, and how long they took."""
    took, faults = [], 0
    for task, seed in tasks:
        started = time.monotonic()
        stop = Deadline.after(given.seconds)
        answer = solve(task, Budget(seed=seed, workers=given.workers, stop=stop))
        if answer.verdict is Verdict.FITS:
            took.append(time.monotonic() - started)
            faults += bool(check(task, answer.lay))
    middle = f"{median(took):.2f}" if took else "-"
    slowest = f"{max(took):.2f}" if took else "-"
    print(f"| {name} | {len(took)} of {len(tasks)} within {given.seconds:g} s | median {middle} s, "
          f"slowest {slowest} s, faults {faults} |", flush=True)


def tightening(one_way: bool, width: float) -> None:
    """Length after 2 s and after 30 s."""
    task = LayTask(pieces=trousers(), width_mm=width, one_way=one_way, clearance_mm=5.0)
    lengths = [
        shortest(task, Budget(workers=2, stop=Deadline.after(s))).lay.length_mm for s in (2, 30)
    ]
    way = "one-way" if one_way else "two-way"
    print(f"| strip {width:g} mm, {way} | 2 s: {lengths[0]:.0f} mm, 30 s: {lengths[1]:.0f} mm | "
          f"2 s is {100 * (lengths[0] / lengths[1] - 1):.2f} % longer |", flush=True)


def two_garments(size: float) -> tuple[Piece, ...]:
    """Long and short trousers, a little larger or smaller, so that their pieces are new."""
    return tuple(
        replace(p, name=f"{which} {p.name}",
                outline_mm=tuple((x * k * size, y * k * size) for x, y in p.outline_mm))
        for which, k in (("long", 1.0), ("short", 0.8)) for p in trousers()
    )


def quick() -> None:
    """The first lay of a set of two garments, and the screen of a stash."""
    cloth = Outline.rectangle(3400, 1400)
    new, known = [], []
    for k in range(9):
        task = LayTask(pieces=two_garments(1 - 0.001 * k), cloth=cloth, clearance_mm=5.0)
        for times in (new, known):
            started = time.perf_counter()
            verdict = first_lay(task).verdict.value
            times.append(1000 * (time.perf_counter() - started))
    print(f"| first lay, two garments, 22 pieces | {verdict} | new {median(new):.0f} ms "
          f"(the very first {new[0]:.0f}), known pieces {median(known):.0f} ms |")
    two = two_garments(1.0)
    random = np.random.default_rng(0)
    lengths, widths = random.uniform(300, 4000, 10_000), random.uniform(700, 1500, 10_000)
    started = time.perf_counter()
    left = [int(screen_cuts(pieces, lengths, widths).sum())
            for pieces in (trousers(), two, two[7:])]
    print(f"| screen, 10,000 cuts x 3 garments | left {left} | "
          f"{time.perf_counter() - started:.3f} s |", flush=True)


def main() -> None:
    """Print every row."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--seeds", type=int, default=20)
    parser.add_argument("--seconds", type=float, default=10.0)
    parser.add_argument("--workers", type=int, default=2)
    given = parser.parse_args()
    warm()
    print(f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}, {given.workers} workers")
    print("| what | result | detail |\n|---|---|---|")
    quick()
    tight = LayTask(pieces=trousers(), cloth=Outline.rectangle(1140, 1500), one_way=True,
                    clearance_mm=5.0)
    full = sum(Polygon(p.outline_mm).area * p.quantity for p in tight.pieces) / (1140 * 1500)
    rate(f"trousers on 150 x 114 cm, one-way, {full:.0%} full",
         [(tight, seed) for seed in range(given.seeds)], given)
    rate("jigsaws, 3 % of room", [(jigsaw(s), s) for s in range(given.seeds)], given)
    for one_way, width in ((False, 1120.0), (True, 1120.0), (True, 1500.0)):
        tightening(one_way, width)


if __name__ == "__main__":
    main()
