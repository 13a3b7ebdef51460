"""Measuring by photograph and by scale, ours beside a prototype's.

Renders on seeds of the bench's own (nothing is tuned on them), simulated cameras over measured
spectra, weighings drawn at random, and real pictures that registry packages ship. With
``--pours N`` N pours of one kind are counted, and a seventh as many of every other sort (a hundred
take an hour on a small machine); ``--only pours|mixed|hard|real|colour|weight|strips|grain`` does
one table. In slices: ``--kept FOLDER --seconds 400``, again and again; what is kept is not
measured twice.
"""

from __future__ import annotations

import argparse
import warnings
from collections.abc import Callable
from math import cos, inf, radians, sin
from pathlib import Path

import numpy as np
from eye_counts import FIRST_SEED, hard, mixed, pours
from eye_kept import Kept
from eye_plain import hidden_on_plain

from stash.eye.rounds.find import find_rounds


def real() -> None:
    """Pictures that scikit-image ships: coins on a dark ground."""
    print("\n## Real pictures\n\n| picture | there | counted for certain | asked | prototype |\n"
          "|---|---|---|---|---|")
    try:
        from skimage import data
    except ImportError:
        print("| scikit-image is not here: pip install scikit-image | | | | |")
        return
    coins = data.coins()
    found = find_rounds(*hidden_on_plain(coins, 0.2))
    print(f"| scikit-image “coins” (Greek coins from Pompeii) | 24 | {int(found.sure.sum())} | "
          f"{int((~found.sure).sum()) + len(found.rests)} | 24, 15 asked |")


def colour() -> None:
    """Over spectra; see eye_colour.py."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import eye_colour
    print("\n## Colour (CIEDE2000)\n\n| light | how | half within | nine in ten within | under 5 | "
          "under 12 |\n|---|---|---|---|---|---|")
    print(eye_colour.table(5))
    print("\nPrototype: plain 8.5 / 15.0, white only 5.9 / 12.5, five steps 4.9 / 10.6; daylight "
          "3.5 to 4.0 / 5.8 to 6.8, warm 6.5 to 7.4 / 11.5 to 13.9; two compared 1.4 / 4.0.")


def weight() -> None:
    """Stated errors of lengths by weight (2 m of 180 g/m2 cotton, 1.4 m wide) and of notions."""
    from stash.eye.weighing.mass_per_area import by_cut, by_label, by_swatch
    from stash.eye.weighing.moisture import moisture_share
    from stash.eye.weighing.roll import board_length, rolled_length
    from stash.eye.weighing.scale import Scale
    from stash.eye.weighing.weighed_bin import Known, count_by_weight, strip_by_weight
    from stash.eye.weighing.weighed_length import WeighedCloth, length_by_weight

    print("\n## By weight and by the roll (error, nineteen in twenty)\n\n| what | ours, 1 g | "
          "ours, 0.1 g | prototype |\n|---|---|---|---|")

    def cut(mass: Callable, step: float) -> str:
        scale = Scale(step_g=step)
        answer = length_by_weight(WeighedCloth(
            grams=504, width_mm=1400, mass_gsm=mass(scale),
            moisture_share=moisture_share({"cotton": 100}), scale=scale))
        return f"{100 * answer.figure.share:.1f} %{'' if answer.useful else ', refused'}"

    rows = (
        ("length, swatch of 10 x 10 cm", lambda s: by_swatch(100, 100, 1.8, s),
         "28 to 44 %; 4 to 17 %"),
        ("length, label within 5 %", lambda _s: by_label(180), "10 %"),
        ("length, recorded cut of 0.5 m2", lambda s: by_cut(0.5e6, 90, s), "3 to 4.4 %"),
        ("length, the same piece weighed at 2.5 m", lambda s: by_cut(3.5e6, 630, s),
         "2.4 to 3.2 %"),
    )
    for name, mass, before in rows:
        print(f"| {name} | {cut(mass, 1.0)} | {cut(mass, 0.1)} | {before} |")
    for name, grams, known, before in (
        ("elastic 20 mm, 6 m, against 3 m weighed", 54.0, (3000, 27.0), "5 %; 2 %"),
        ("elastic 6 mm, 10 m, against 3 m weighed", 26.0, (3000, 7.8), "14 %; 2 %"),
        ("ribbon, 5 m, against 3 m weighed", 6.5, (3000, 3.9), "25 %; 3 %"),
    ):
        shown = [strip_by_weight(grams, Known(amount=known[0], grams=known[1], step_g=s),
                                 Scale(step_g=s), 0.01).figure.share for s in (1.0, 0.1)]
        print(f"| {name} | {100 * shown[0]:.1f} % | {100 * shown[1]:.1f} % | {before} |")
    for name, each, number in (("buttons 15 mm, 200, ten weighed", 0.55, 10),
                               ("buttons 15 mm, 200, forty counted first", 0.55, 40),
                               ("buttons 9 mm, 200, ten weighed", 0.12, 10),
                               ("buttons 9 mm, 200, forty counted first", 0.12, 40)):
        shown = [count_by_weight(200 * each, Known(amount=number, grams=number * each, step_g=s),
                                 Scale(step_g=s)).figure.share for s in (1.0, 0.1)]
        before = {0.55: ("17 %", "5 %; 2 %"), 0.12: ("86 %", "15 %; 2 %")}[each][number == 40]
        print(f"| {name} | {100 * shown[0]:.0f} % | {100 * shown[1]:.1f} % | {before} |")
    roll, board = rolled_length(140, 40, 30).share, board_length(480, 440, 12).share
    print(f"| a roll of 30 turns, 4 to 14 cm | {100 * roll:.1f} % | | 3 % |")
    print(f"| a board of 12 turns | {100 * board:.1f} % | | 2.5 to 4 % |")


def strips(count: int) -> None:
    """Widths and lengths; see eye_strips.py."""
    import eye_strips

    print("\n## Strips\n")
    eye_strips.report(FIRST_SEED + 4000, count)
    print("Prototype: width bias -0.17, 95 % within 0.30; length within 0.43.")


def grain(count: int) -> None:
    """The arrow card's direction on cloths laid anyhow."""
    from trace_photo import Camera, Scene
    from trace_photo import photograph as taken

    from stash.eye.outlines.remnant import trace_remnant

    random = np.random.default_rng(FIRST_SEED)
    off = []
    for _ in range(count):
        turn = float(random.uniform(-60, 60))
        c, s = cos(radians(turn)), sin(radians(turn))
        spots = [(x * c - y * s + 470, x * s + y * c + 60)
                 for x, y in ((-210, -150), (210, -150), (210, 150), (-210, 150))]
        card = (470 - 90 * c + 22 * s, 60 - 90 * s - 22 * c, turn)
        scene = Scene(pieces=(spots,), cards=(card,), paper=(120, 80, 60), floor=(190, 200, 205),
                      planks=False, density=2.5, window=(-500, -600, 1200, 900))
        found = trace_remnant(taken(scene, Camera(
            target_mm=(330, 80), height_mm=1050, tilt_deg=float(random.uniform(0, 25)),
            size_px=(2000, 1500), bend=(-0.02, 0.006))))
        ring = np.array(found.outline.ring_mm)
        edges = np.roll(ring, -1, axis=0) - ring
        longest = edges[np.hypot(*edges.T).argmax()]
        angle = abs(np.degrees(np.arctan2(longest[1], longest[0]))) % 180
        off.append(min(angle, 180 - angle))
    print(f"\n## Grain\n\nOf {count} cloths whose long edge runs along the grain, by the card: off "
          f"by {np.median(off):.2f} degrees in the middle, {max(off):.2f} at worst "
          "(prototype 0.02, 0.10).")


def main() -> None:
    """Print the tables."""
    options = argparse.ArgumentParser()
    options.add_argument("--pours", type=int, default=28)
    options.add_argument("--only", default="")
    options.add_argument("--kept", type=Path)
    options.add_argument("--seconds", type=float, default=inf)
    chosen = options.parse_args()
    kept, few = Kept(chosen.kept, chosen.seconds), max(4, chosen.pours // 7)
    tables: dict[str, Callable[[], None]] = {
        "pours": lambda: pours(kept, chosen.pours), "mixed": lambda: mixed(kept, few),
        "hard": lambda: hard(kept, few), "real": real, "colour": colour, "weight": weight,
        "strips": lambda: strips(few), "grain": lambda: grain(few),
    }
    for name, table in tables.items():
        if chosen.only in ("", name):
            table()


if __name__ == "__main__":
    main()
