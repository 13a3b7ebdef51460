"""Strips of known width and length beside a sheet, rendered: what comes out."""

from __future__ import annotations

import sys
from dataclasses import dataclass

import numpy as np
from trace_photo import Camera, Scene, photograph

from stash.eye.strips.strip import measure_strips

WIDTHS_MM = (4, 6, 8, 10, 15, 20, 25, 38)
COLOURS = ((235, 238, 240), (40, 38, 36), (60, 50, 150), (170, 190, 200))


@dataclass(frozen=True)
class Laid:
    """One strip as it was drawn: its ring on the floor and its true sizes in mm."""

    ring: tuple[tuple[float, float], ...]
    width_mm: float
    length_mm: float


def laid(width_mm: float, at_mm: tuple[float, float], random: np.random.Generator) -> Laid:
    """A strip that lies in a shallow arc."""
    length = float(random.uniform(180, 420))
    bend = float(random.uniform(-0.0012, 0.0012))
    turn = float(random.uniform(-0.1, 0.1))
    s = np.linspace(0, length, 80)
    angle = turn + bend * (s - length / 2)
    steps = np.stack([np.cos(angle), np.sin(angle)], axis=1) * (length / 79)
    line = np.array(at_mm) + np.concatenate([[(0.0, 0.0)], np.cumsum(steps[:-1], axis=0)])
    normal = np.stack([-np.sin(angle), np.cos(angle)], axis=1) * width_mm / 2
    ring = np.concatenate([line + normal, (line - normal)[::-1]])
    return Laid(tuple(map(tuple, ring)), width_mm, length * 79 / 79)


def strip_photo(seed: int) -> tuple[bytes, list[Laid]]:
    """A photograph of three strips and what they truly measure."""
    random = np.random.default_rng(seed)
    widths = random.choice(WIDTHS_MM, 3, replace=False)
    strips = [
        laid(float(w), (float(random.uniform(190, 215)), y), random)
        for w, y in zip(widths, (-60.0, 60.0, 180.0), strict=True)
    ]
    light = random.uniform() < 0.5
    scene = Scene(
        pieces=[s.ring for s in strips],
        paper=COLOURS[int(random.integers(2)) if not light else 1],
        floor=(200, 205, 210) if light else (62, 84, 112), planks=bool(random.uniform() < 0.5),
        shadow=float(random.uniform(0, 0.35)), window=(-120, -230, 720, 420), density=5.0,
        seed=seed)
    if not light:
        scene = Scene(**{**scene.__dict__, "paper": COLOURS[0]})
    camera = Camera(
        target_mm=(270, 90), height_mm=float(random.uniform(620, 720)),
        tilt_deg=float(random.uniform(0, 25)), towards_deg=float(random.uniform(60, 120)),
        size_px=(3264, 2448), bend=(float(random.uniform(-0.02, 0)), 0.004))
    return photograph(scene, camera), strips


def report(first: int, count: int) -> None:
    """Print the errors of the strips over some seeds."""
    rows = []
    missed = false = unended = 0
    for seed in range(first, first + count):
        data, true = strip_photo(seed)
        found = list(measure_strips(data))
        for strip in true:
            near = [f for f in found if abs(f.width_mm - strip.width_mm) < 1.5
                    and abs(f.length_mm - strip.length_mm) < 16]
            if not near:
                missed += 1
                print("missed", seed, strip.width_mm, round(strip.length_mm),
                      [(round(f.width_mm, 1), round(f.length_mm)) for f in found])
                continue
            found.remove(near[0])
            if not near[0].ended:
                unended += 1
                continue
            rows.append((strip.width_mm, near[0].width_mm - strip.width_mm,
                         near[0].length_mm - strip.length_mm))
        false += len(found)
        for strip in found:
            print("false", seed, strip)
    off = np.array(rows)
    print(f"strips {len(rows) + missed + unended}, missed {missed}, false {false}, "
          f"an end on the sheet and said so {unended}")
    for name, column in (("width", 1), ("length", 2)):
        print(f"{name}: bias {off[:, column].mean():+.2f} mm, 95 % within "
              f"{np.percentile(np.abs(off[:, column]), 95):.2f}, worst "
              f"{np.abs(off[:, column]).max():.2f}")


if __name__ == "__main__":
    report(*(int(word) for word in sys.argv[1:3]) if len(sys.argv) > 2 else (500, 8))
