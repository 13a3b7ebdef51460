"""How long the match takes over a large stash, each part beside a plain way of doing it.

Run by hand: ``.venv/bin/python tests/bench/match_bench.py [CUTS]``. Ratios within one run on one
machine mean more than seconds, which depend on what else the machine is doing.
"""

from __future__ import annotations

import sys
import time
from random import Random

import numpy as np

from stash.deadline import Deadline
from stash.eye.colour.difference import apart
from stash.lay import Budget, first_lay, screen, screen_cuts, shortest
from stash.match.cloth.similar import Wish, alike
from stash.match.fit.which_cuts import Effort, Fit, Question, fit
from stash.match.gather import gather, of_role
from stash.match.order import Order
from stash.match.strip_lays import Table
from stash.model import Cloth, Cut, Outline, Role

WOMAN = {"hip": 1040.0, "waist": 820.0, "bust": 980.0, "height": 1680.0}
SET = ("trousers", "shorts", "shirt")


def stash_of(count: int, seed: int = 1) -> tuple[Cut, ...]:
    """Invented cuts: lengths of 0.3 to 5 m, common widths, every seventh with a corner gone."""
    random = Random(seed)
    widths = [880, 900, 1100, 1120, 1140, 1150, 1380, 1400, 1450, 1480, 1500]
    cloths = [
        Cloth(name=f"Cloth {i}", mass_gsm=random.uniform(60, 420), one_way=random.random() < 0.2,
              colours=(f"#{random.randrange(2**24):06x}",))
        for i in range(max(count // 5, 1))
    ]
    return tuple(cut_of(i, random, random.choice(widths), random.choice(cloths))
                 for i in range(count))


def cut_of(number: int, random: Random, width: float, cloth: Cloth) -> Cut:
    """One cut."""
    length = random.uniform(300, 5000)
    ring = [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)]
    if number % 7 == 0:
        x, y = length * random.uniform(0.5, 0.9), width * random.uniform(0.4, 0.8)
        ring[2:3] = [(length, y), (x, y), (x, width)]
    return Cut(code=f"{number:06d}", cloth=cloth, washed=True, outline=Outline(tuple(ring)))


def timed(what: str, work, times: int = 1):
    """(seconds, result), the best of several; printed."""
    best, result = float("inf"), None
    for _ in range(times):
        start = time.perf_counter()
        result = work()
        best = min(best, time.perf_counter() - start)
    print(f"{what:62s} {best * 1000:10.1f} ms")
    return best, result


def screening(cuts: tuple[Cut, ...], garments) -> None:
    """All cuts at once beside one after another."""
    pieces = of_role(gather(garments), Role.MAIN)
    sizes = np.array([[c.length_mm, c.width_mm, c.outline.area_mm2] for c in cuts])
    at_once, _ = timed(
        f"screen {len(cuts)} cuts for a set of three, all at once",
        lambda: screen_cuts(pieces, sizes[:, 0], sizes[:, 1], areas_mm2=sizes[:, 2]), 3,
    )
    some = cuts[:200]
    each, _ = timed(
        f"screen {len(some)} of them one after another",
        lambda: [screen(Table().task(pieces, cloth=c.outline)) for c in some],
    )
    print(f"  ratio per cut: {each / len(some) / (at_once / len(cuts)):.0f} x faster at once")


def fitting(cuts: tuple[Cut, ...], garments) -> None:
    """The whole question, the moment of its first answer, and the same by brute force."""
    start, seen = time.perf_counter(), []

    def progress(answer: Fit) -> None:
        seen.append(time.perf_counter() - start)

    effort = Effort(searching=lambda: Deadline.after(8), each=lambda: Deadline.after(1), workers=2)
    whole, answer = timed(
        f"fit {len(cuts)} cuts, ten best searched",
        lambda: fit(Question(garments=garments, cuts=cuts), effort, progress),
    )
    print(f"  first fits shown after {seen[0] * 1000:.0f} ms; {len(answer.fits)} fits laid, "
          f"{answer.untried} suitable cuts not tried, {len(answer.set_aside)} set aside")
    pieces = of_role(gather(garments), Role.MAIN)
    some = [c.cut for c in answer.fits[:10]]
    each, _ = timed(
        f"first lay of {len(some)} cuts, each by itself",
        lambda: [first_lay(Table().task(pieces, cloth=c.outline)) for c in some],
    )
    laid = len(answer.candidates) - answer.untried
    print(f"  ratio per cut: {each / max(len(some), 1) / (whole / max(laid, 1)):.1f} x "
          "a first lay by itself")


def sweeping(garments) -> None:
    """What a few sweeps take off the first fill, and what they cost."""
    pieces = of_role(gather(garments), Role.MAIN)
    task = Table().task(pieces, width_mm=1400)
    shortest(task, Budget(iterations=0))
    for sweeps in (0, 100, 600):
        seconds, answer = timed(
            f"strip 1400 mm wide, {sweeps} sweeps", lambda n=sweeps: shortest(
                task, Budget(iterations=n))
        )
        print(f"  {answer.lay.length_mm:.0f} mm, {answer.lay.utilisation:.1%} of it used")


def likeness(cuts: tuple[Cut, ...]) -> None:
    """Colour search beside comparing one colour after another."""
    wish = Wish(colour="#7a1f2b")
    at_once, _ = timed(f"like #7a1f2b over {len(cuts)} cuts", lambda: alike(cuts, wish), 3)
    some = cuts[:500]
    each, _ = timed(
        f"the same, {len(some)} cuts one after another",
        lambda: [apart(c.cloth.colours[0], "#7a1f2b") for c in some],
    )
    print(f"  ratio per cut: {each / len(some) / (at_once / len(cuts)):.0f} x faster at once")


def main(count: int) -> None:
    """Every part, in turn."""
    cuts = stash_of(count)
    garments = tuple(
        Order(garment=name, measurements_mm=WOMAN, body="women").drafted() for name in SET
    )
    first_lay(Table().task(of_role(gather(garments), Role.MAIN),
                           cloth=Outline.rectangle(6000, 1500)))  # compiled code is loaded
    screening(cuts, garments)
    sweeping(garments)
    fitting(cuts, garments)
    likeness(cuts)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
