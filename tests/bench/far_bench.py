"""How far is as far as it goes: our seconds and values beside a 20 s search of the same cut.

    python tests/bench/far_bench.py [--cuts 12] [--long 20] [--seeds 7,8,9]
    python tests/bench/far_bench.py --stash [--seconds 20] [--only robe,shirt]

Cuts and bodies are the bench's own, drawn from its seeds; nothing was tuned on them. For
each it grows one option with the usual second to halve and two to polish, and again with
``--long`` seconds, and prints the share that came within 5 and 20 mm of the long search.
``--stash`` asks the demo's whole stash and compares with the same question in five times
the seconds. Seconds are the processor's, so a busy machine answers the same; beside them
stands the clock on the wall.
"""

from __future__ import annotations

import argparse
import random
import statistics
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from stash.demo.fill import fill
from stash.lay import warm
from stash.match.far.growing import growing
from stash.match.far.over_cuts import Seconds, over_cuts
from stash.match.far.reach import Growth, Reach, reach
from stash.match.fit.question import Effort
from stash.match.order import Order
from stash.match.strip_lays import Table
from stash.model import Cloth, Cut, Outline
from stash.store import Stash
from stash.workroom.opening import open_stash
from stash.workroom.questions.farthest import suitable_cuts
from stash.workroom.questions.orders import orders_for
from stash.workroom.settings import habits

ASKED = (("a-line-skirt", "length"), ("a-line-skirt", "flare"), ("trousers", "length"),
         ("robe", "length"), ("shirt", "length"), ("circle-skirt", "length"),
         ("tunic", "length"), ("cushion-cover", "copies"))
OF_THE_STASH = (("a-line-skirt", "length"), ("trousers", "length"), ("robe", "length"),
                ("shirt", "length"), ("tote-bag", "copies"))


@dataclass(frozen=True)
class Spent:
    """A stop rule of processor seconds."""

    at_s: float

    @classmethod
    def after(cls, seconds: float) -> Spent:
        """So many seconds of this process from now."""
        return cls(time.process_time() + seconds)

    def share(self, parts: int) -> Spent:
        """One of so many parts of what is left."""
        left = max(self.at_s - time.process_time(), 0.0)
        return Spent.after(left / max(parts, 1))

    def __call__(self) -> bool:
        """True once they are spent."""
        return time.process_time() >= self.at_s


def effort(seconds: float, polish: float) -> Effort:
    """Clocks for one cut."""
    return Effort(searching=lambda: Spent.after(seconds), each=lambda: Spent.after(polish))


def cuts(count: int, dice: random.Random) -> list[Cut]:
    """Rectangles and L-shapes of shop widths."""
    found = []
    for n in range(count):
        length, width = dice.uniform(700, 2600), dice.choice((1100.0, 1140.0, 1400.0, 1500.0))
        outline = Outline.rectangle(length, width)
        if dice.random() < 0.4:
            x, y = length * dice.uniform(0.5, 0.8), width * dice.uniform(0.4, 0.7)
            outline = Outline(((0, 0), (length, 0), (length, y), (x, y), (x, width), (0, width)))
        cloth = Cloth(name=f"cloth {n}", one_way=dice.random() < 0.2)
        found.append(Cut(code=f"C{n}", cloth=cloth, outline=outline, washed=True))
    return found


def questions(seed: int, count: int) -> Iterator[tuple[Cut, Order, str]]:
    """(cut, order, what grows), by the seed."""
    dice = random.Random(seed)
    for cut in cuts(count, dice):
        body = {"hip": dice.uniform(900, 1150), "bust": dice.uniform(860, 1100)}
        body["waist"] = body["hip"] - dice.uniform(160, 260)
        garment, option = dice.choice(ASKED)
        yield cut, Order(garment=garment, measurements_mm=body, body="women"), option


def one_by_one(seeds: list[int], count: int, long_s: float) -> None:
    """A line a question and the summary."""
    off, seconds, proved = [], [], 0
    for cut, order, option in (q for seed in seeds for q in questions(seed, count)):
        began = time.process_time()
        found = reach(growing(order, option), cut, Table(), effort(1.0, 2.0))
        seconds.append(time.process_time() - began)
        long = reach(growing(order, option), cut, Table(), effort(long_s / 2, long_s / 2))
        off.append(_value(long) - _value(found))
        proved += bool(found and found.proved_at_most is not None)
        print(f"{order.garment:14} {option:7} {cut.length_mm:5.0f} x {cut.width_mm:4.0f}"
              f"  ours {_value(found):7.0f}  long {_value(long):7.0f}  {seconds[-1]:.2f} s",
              flush=True)
    near = [sum(d <= mm for d in off) for mm in (5, 20)]
    print(f"{len(off)} questions: within 5 mm {near[0]}, within 20 mm {near[1]}, "
          f"worst {max(off):.0f} mm; processor seconds a cut: "
          f"median {statistics.median(seconds):.2f}, most {max(seconds):.2f}; "
          f"with a proved limit {proved}")


def whole_stash(seconds: float, only: str) -> None:
    """The demo's stash, a line a garment: in the seconds, and in five times as many."""
    with tempfile.TemporaryDirectory() as folder, open_stash(Path(folder)) as stash:
        fill(stash)
        table = habits(stash)
        for garment, option in OF_THE_STASH:
            if only and garment not in only.split(","):
                continue
            order, *_ = orders_for(stash, [garment], [_somebody(stash)], {})
            free = suitable_cuts(stash, order)

            def asked(most: float, order=order, option=option, free=free) -> list[Growth]:
                end = Spent.after(most)
                return over_cuts(
                    growing(order, option), free, table, Seconds(share=end.share, over=end)
                )

            began, wall = time.process_time(), time.monotonic()
            ours = asked(seconds)
            took, wall = time.process_time() - began, time.monotonic() - wall
            long = {g.tries.cut.code: g for g in asked(5 * seconds)}
            step = growing(order, option).step
            off = [_best(long[g.tries.cut.code]) - _best(g) for g in ours]
            best = [max(map(_best, some)) for some in (ours, long.values())]
            print(f"{garment:14} {option:7} {len(free)} cuts, {sum(g.looked for g in ours)} tried, "
                  f"{took:.1f} s ({wall:.1f} s by the clock); best {best[0]:.0f}, long "
                  f"{best[1]:.0f}; within a step {sum(d <= step for d in off)}, "
                  f"within four {sum(d <= 4 * step for d in off)} of {len(off)}, "
                  f"worst {max(off):.0f}", flush=True)


def _somebody(stash: Stash) -> str:
    return stash.people.all()[0].name


def _best(growth: Growth) -> float:
    return growth.best.value if growth.best else 0.0


def _value(found: Reach | None) -> float:
    return found.value if found else 0.0


def main() -> None:
    """One by one, or the whole stash."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--cuts", type=int, default=12)
    asked.add_argument("--long", type=float, default=20.0)
    asked.add_argument("--seeds", default="7,8,9")
    asked.add_argument("--stash", action="store_true")
    asked.add_argument("--seconds", type=float, default=20.0)
    asked.add_argument("--only", default="", help="With --stash: these garments alone.")
    args = asked.parse_args()
    warm()
    if args.stash:
        whole_stash(args.seconds, args.only)
    else:
        one_by_one([int(seed) for seed in args.seeds.split(",")], args.cuts, args.long)


if __name__ == "__main__":
    main()
