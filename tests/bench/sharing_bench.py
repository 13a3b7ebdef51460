"""Garments shared out over cuts: how many of those that could be made are made, and in what time.

    python tests/bench/sharing_bench.py [SECONDS]

The demo stash, and eight long cuts; random garments for random bodies by a seed. Beside
each stands a bound that no sharing can pass (areas only), worked out in the same run.
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
from pathlib import Path

from stash.demo import fill
from stash.lay.warm import warm
from stash.match.gather import labels
from stash.match.order import Order
from stash.match.sharing.pairs import pairs
from stash.match.sharing.proposal import most_at_all
from stash.model import Cloth, Construction, Cut, Outline
from stash.store import open_stash
from stash.workroom.questions.assignment import best_making
from stash.workroom.questions.fitting import Asking, question_of, stock_for
from stash.workroom.questions.free_stock import FreeStock

GARMENTS = ("trousers", "shorts", "shirt", "tunic", "a-line-skirt", "straight-skirt", "apron",
            "tote-bag", "nightshirt")


def orders(count: int, seed: int) -> tuple[Order, ...]:
    """So many garments, each for a body of its own."""
    chance = random.Random(seed)
    made = []
    for n in range(count):
        hip = chance.uniform(900, 1120)
        made.append(Order(
            garment=chance.choice(GARMENTS), person=f"P{n}", body="women",
            measurements_mm={"hip": hip, "waist": hip * 0.78, "bust": hip * 0.95,
                             "height": chance.uniform(1600, 1760)},
        ))
    return tuple(made)


def long_cuts(seed: int) -> FreeStock:
    """Eight lengths of 3 to 5 m, of a cloth that suits everything here."""
    chance = random.Random(seed)
    cloth = Cloth(name="Middle", construction=Construction.WOVEN, mass_gsm=185)
    cuts = tuple(
        Cut(code=f"C{n}", cloth=cloth, washed=True, outline=Outline.rectangle(
            chance.uniform(3000, 5000), chance.choice((1150.0, 1400.0, 1500.0))))
        for n in range(8)
    )
    return FreeStock(cuts=cuts, bins=(), held_by={}, taken_whole={})


def measure(name: str, stash, stock: FreeStock, count: int, seed: int, seconds: float) -> None:
    """One row of the table."""
    asking = Asking(seconds=seconds)
    question = question_of(stash, orders(count, seed), stock, asking)
    start, cpu = time.perf_counter(), time.process_time()
    answer = best_making(question, stock, asking, without_buying=False)
    wall, cpu = time.perf_counter() - start, time.process_time() - cpu
    bound = most_at_all(pairs(question, lambda: False))
    made = sum(len(one.labels) for one in answer.made)
    most = max((len(one.labels) for one in answer.made), default=0)
    print(f"{name:>10} {count:>4} {seed:>4} {len(stock.cuts):>5} {made:>5} {bound!s:>6} "
          f"{most:>9} {'yes' if answer.proven else 'no':>6} {wall:>7.1f} {cpu:>7.1f}", flush=True)
    assert len(labels(question.garments)) == made + len(answer.unmade)


def main() -> None:
    """Print the table."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 10.0
    warm()
    print(f"{'stash':>10} {'want':>4} {'seed':>4} {'cuts':>5} {'made':>5} {'bound':>6} "
          f"{'on one cut':>9} {'proven':>6} {'wall s':>7} {'cpu s':>7}")
    with tempfile.TemporaryDirectory() as folder, open_stash(Path(folder)) as stash:
        fill(stash)
        demo = stock_for(stash, Asking())
        for count, seed in ((12, 1), (30, 1), (30, 2), (30, 3), (48, 1)):
            measure("demo", stash, demo, count, seed, seconds)
        for count, seed in ((12, 1), (18, 1), (18, 2), (24, 1)):
            measure("long", stash, long_cuts(seed), count, seed, seconds)


if __name__ == "__main__":
    main()
