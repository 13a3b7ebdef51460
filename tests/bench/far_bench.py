"""How far is as far as it goes: our seconds and values beside a 20 s search of the same cut.

    python tests/bench/far_bench.py [--cuts 12] [--long 20] [--seed 7]

Cuts and bodies are the bench's own, drawn from its seed; nothing was tuned on them. For
each it grows one option with the usual second a cut and two to polish, and again with
``--long`` seconds, and prints the share that came within 5 and 20 mm of the long search.
"""

from __future__ import annotations

import argparse
import random
import statistics
import time

from stash.deadline import Deadline
from stash.lay import warm
from stash.match.far.growing import growing
from stash.match.far.reach import Reach, reach
from stash.match.fit.question import Effort
from stash.match.order import Order
from stash.match.strip_lays import Table
from stash.model import Cloth, Cut, Outline

ASKED = (("a-line-skirt", "length"), ("a-line-skirt", "flare"), ("trousers", "length"),
         ("robe", "length"), ("shirt", "length"), ("circle-skirt", "length"),
         ("tunic", "length"), ("cushion-cover", "copies"))


def effort(seconds: float, polish: float) -> Effort:
    """Clocks for one cut."""
    return Effort(
        searching=lambda: Deadline.after(seconds), each=lambda: Deadline.after(polish)
    )


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


def main() -> None:
    """Print a line a question and the summary."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--cuts", type=int, default=12)
    asked.add_argument("--long", type=float, default=20.0)
    asked.add_argument("--seed", type=int, default=7)
    args = asked.parse_args()
    dice = random.Random(args.seed)
    warm()
    off, seconds, proved = [], [], 0
    for cut in cuts(args.cuts, dice):
        body = {"hip": dice.uniform(900, 1150), "bust": dice.uniform(860, 1100)}
        body["waist"] = body["hip"] - dice.uniform(160, 260)
        garment, option = dice.choice(ASKED)
        order = Order(garment=garment, measurements_mm=body, body="women")
        began = time.process_time()
        found = reach(growing(order, option), cut, Table(), effort(1.0, 2.0))
        seconds.append(time.process_time() - began)
        long = reach(growing(order, option), cut, Table(), effort(args.long / 2, args.long / 2))
        off.append(_value(long) - _value(found))
        proved += bool(found and found.proved_at_most is not None)
        print(f"{garment:14} {option:7} {cut.length_mm:5.0f} x {cut.width_mm:4.0f}"
              f"  ours {_value(found):7.0f}  long {_value(long):7.0f}  {seconds[-1]:.2f} s")
    near = [sum(d <= mm for d in off) / len(off) for mm in (5, 20)]
    print(f"within 5 mm {near[0]:.0%}, within 20 mm {near[1]:.0%}, worst {max(off):.0f} mm; "
          f"processor seconds a cut: median {statistics.median(seconds):.2f}, "
          f"most {max(seconds):.2f}; with a proved limit {proved} of {len(off)}")


def _value(found: Reach | None) -> float:
    return found.value if found else 0.0


if __name__ == "__main__":
    main()
