"""How many misses are saved by a join: the demo's suitable cuts, by how full they would be.

    python tests/bench/piecing_bench.py [--seconds 1]

For each garment and each demo cut that suits it and does not hold its lay, the joins alone
are tried for a second. Printed: misses, saved, and processor seconds, by the share of the
cut that the pieces would fill.
"""

from __future__ import annotations

import argparse
import time
from collections import defaultdict

from stash.deadline import Deadline
from stash.demo.scenario import heron_loft
from stash.lay import Budget, solve, warm
from stash.match.cloth.suitability import suit_all
from stash.match.fit.question import Effort
from stash.match.gather import area_mm2
from stash.match.order import Order
from stash.match.rescue.changes import Attempt
from stash.match.rescue.pieced import pieced
from stash.match.strip_lays import Table, at_origin

GARMENTS = ("trousers", "shorts", "shirt", "tunic", "straight-skirt", "a-line-skirt",
            "circle-skirt", "robe", "nightshirt", "apron", "tote-bag")
CLASSES = ((0.0, 0.7), (0.7, 0.8), (0.8, 0.9), (0.9, 1.0))


def main() -> None:
    """Print a line for each class."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--seconds", type=float, default=1.0)
    seconds = asked.parse_args().seconds
    warm()
    loft = heron_loft()
    person = loft.people[0]
    missed: dict[tuple[float, float], list[tuple[bool, float]]] = defaultdict(list)
    for name in GARMENTS:
        order = Order(garment=name, person=person.name, measurements_mm=person.measurements_mm)
        attempt = Attempt(orders=(order,), table=Table())
        pieces = attempt.pieces()
        for cut in loft.cuts:
            if not suit_all(cut, {name: order.drafted().pattern.wants}).suits:
                continue
            full = area_mm2(pieces) / cut.outline_washed.area_mm2
            if full >= 1.0:
                continue
            task = attempt.table.task(
                pieces, cloth=at_origin(cut.outline_washed), one_way=cut.cloth.one_way,
                repeat=cut.cloth.repeat)
            if solve(task, Budget(iterations=600)).lay:
                continue
            began = time.process_time()
            here = Attempt(orders=(order,), table=Table(), one_way=cut.cloth.one_way)
            clock = Deadline.after(seconds)
            effort = Effort(searching=lambda clock=clock: clock, iterations=400)
            found = pieced(here, cut, effort)
            spent = time.process_time() - began
            kind = next(c for c in CLASSES if c[0] <= full < c[1])
            missed[kind].append((bool(found), spent))
    for low, high in CLASSES:
        rows = missed[low, high]
        if rows:
            saved, most = sum(ok for ok, _ in rows), max(s for _, s in rows)
            print(f"{low:.0%} to {high:.0%} full: {saved} of {len(rows)} saved "
                  f"({saved / len(rows):.0%}), most {most:.2f} s")


if __name__ == "__main__":
    main()
