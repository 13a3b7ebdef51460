"""How far traced pieces are out, over rendered photographs: ``python tests/bench/trace_error.py``.

Every case is a photograph of known pieces with one or more sheets beside them. Printed are
the length and width of each piece as traced, the errors, and the bound 0.5 % + 1 mm.
"""

from __future__ import annotations

import sys
import time
from dataclasses import replace
from math import hypot

import numpy as np
from shapely.geometry import Polygon
from trace_photo import Camera, Scene, photograph

from stash.eye.outlines.trace import trace_photo

FRONT = ((230, -120), (420, -140), (470, -60), (450, 60), (480, 440), (250, 455))
YOKE = ((-330, -60), (-90, -40), (-80, 60), (-330, 90))
POCKET = ((-300, 190), (-150, 190), (-150, 330), (-225, 370), (-300, 330))
PIECES = (FRONT, YOKE, POCKET)
TALL = (((230, -300), (430, -310), (520, 100), (470, 690), (240, 700), (225, 100)),)
PLAIN = Scene(pieces=PIECES)
ABOVE = Camera(target_mm=(90, 150), height_mm=1000)
LENS = (-0.02, 0.006)
CASES = {
    "from above": (PLAIN, ABOVE),
    "tilt 20": (PLAIN, replace(ABOVE, tilt_deg=20, roll_deg=5)),
    "tilt 35": (PLAIN, replace(ABOVE, tilt_deg=35, height_mm=1100)),
    "tilt 35 sideways": (PLAIN, replace(ABOVE, tilt_deg=35, towards_deg=10, height_mm=1100)),
    "lens": (PLAIN, replace(ABOVE, bend=LENS)),
    "lens, tilt 35": (PLAIN, replace(ABOVE, bend=LENS, tilt_deg=35, height_mm=1100)),
    "pincushion, tilt 25": (PLAIN, replace(ABOVE, bend=(0.02, -0.004), tilt_deg=25)),
    "pincushion, tilt 35": (
        PLAIN, replace(ABOVE, bend=(0.02, -0.004), tilt_deg=35, towards_deg=70, height_mm=1100)
    ),
    "strong lens, tilt 15": (PLAIN, replace(ABOVE, bend=(-0.06, 0.02), tilt_deg=15)),
    "soft shadow": (replace(PLAIN, shadow=0.4), replace(ABOVE, tilt_deg=15, bend=LENS)),
    "hard shadow": (replace(PLAIN, hard_shadow=True), replace(ABOVE, tilt_deg=25, bend=LENS)),
    "writing, 8 MP": (
        replace(PLAIN, writing=True),
        replace(ABOVE, size_px=(3264, 2448), tilt_deg=20, bend=LENS),
    ),
    "grey floor": (
        replace(PLAIN, floor=(95, 95, 95), planks=False, hard_shadow=True),
        replace(ABOVE, tilt_deg=20),
    ),
    "dark paper, light floor": (
        replace(PLAIN, paper=(70, 60, 50), floor=(200, 205, 210), planks=False, shadow=0.3),
        replace(ABOVE, tilt_deg=20, bend=LENS),
    ),
    "brown paper": (
        replace(PLAIN, paper=(120, 160, 190), shadow=0.2),
        replace(ABOVE, tilt_deg=20, bend=LENS),
    ),
    "one metre, one sheet": (
        replace(PLAIN, pieces=TALL),
        replace(ABOVE, target_mm=(200, 180), height_mm=1300, tilt_deg=20, bend=LENS),
    ),
    "one metre, three sheets": (
        replace(
            PLAIN,
            pieces=TALL,
            sheets=((0.0, 0.0, 0.0, 1), (20.0, 420.0, 8.0, 2), (560.0, -250.0, -15.0, 3)),
        ),
        replace(ABOVE, target_mm=(250, 180), height_mm=1300, tilt_deg=20, bend=LENS),
    ),
}


def sizes(ring: np.ndarray) -> np.ndarray:
    """The sides of the smallest rectangle around a ring, the longer first."""
    corners = np.array(Polygon(ring).minimum_rotated_rectangle.exterior.coords)
    sides = [hypot(*(corners[i + 1] - corners[i])) for i in (0, 1)]
    return np.sort(sides)[::-1]


def errors(scene: Scene, camera: Camera) -> list[tuple[np.ndarray, np.ndarray, float]]:
    """For each piece: true sizes, traced sizes and the error that the tracing states."""
    traced = trace_photo(photograph(scene, camera)).shapes
    true = sorted(scene.pieces, key=lambda ring: -Polygon(ring).area)
    return [
        (sizes(np.array(ring)), sizes(np.array(shape.outline.ring_mm)), shape.error_mm)
        for ring, shape in zip(true, traced, strict=True)
    ]


def main() -> None:
    """Print one line a piece, and the worst at the end."""
    worst = 0.0
    for name, (scene, camera) in CASES.items():
        if len(sys.argv) > 1 and sys.argv[1] not in name:
            continue
        start = time.perf_counter()
        try:
            found = errors(scene, camera)
        except Exception as error:
            print(f"{name:26} FAILED: {error}")
            continue
        seconds = time.perf_counter() - start
        for true, traced, stated in found:
            share = np.abs(traced - true) / (0.005 * true + 1)
            worst = max(worst, share.max())
            print(
                f"{name:26} {true[0]:6.1f} x {true[1]:6.1f}  off by {traced[0] - true[0]:+5.2f} "
                f"{traced[1] - true[1]:+5.2f} mm, {100 * share.max():3.0f} % of the bound, "
                f"stated {stated:.1f} mm"
            )
        print(f"{'':26} {seconds:.1f} s, rendering included", flush=True)
    print(f"worst: {100 * worst:.0f} % of the bound")


if __name__ == "__main__":
    main()
