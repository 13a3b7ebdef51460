"""Published strip instances: our density against a general packing library, side by side.

    python tests/bench/lay_strips.py FOLDER [--seconds 30] [--seed 1]

FOLDER holds instance files of the ESICUP working group as JSON (fields strip_height,
items[].demand, allowed_orientations, shape.data). Both engines run at the same moment,
one worker each, so that a busy machine is equally busy for both. Prints a table with
versions; nothing is asserted.
"""

from __future__ import annotations

import argparse
import json
import multiprocessing
import os
import platform
import resource
import time
from importlib.metadata import version
from pathlib import Path

from shapely import Polygon

from stash.deadline import Deadline
from stash.lay import Budget, LayTask, check, shortest, warm
from stash.model import Piece

WIDTH_MM = 1500.0
# Best known densities in %, from the record layouts of github.com/JeroenGar/sparrow,
# commit a4bfbbe0, data/records (accessed with the instances).
BEST_KNOWN = {"trousers": 92.61, "shirts": 90.92, "swim": 79.83, "albano": 89.82}


def read(path: Path) -> LayTask:
    """An instance scaled so that its strip is as wide as cloth."""
    given = json.loads(path.read_text())
    scale = WIDTH_MM / given["strip_height"]
    pieces = []
    for item in given["items"]:
        ring = [(x * scale, y * scale) for x, y in item["shape"]["data"]]
        ring = ring[:-1] if ring[0] == ring[-1] else ring
        pieces.append(Piece(
            name=str(item["id"]), outline_mm=tuple(ring), quantity=item["demand"],
            turns_deg=tuple(item["allowed_orientations"]),
        ))
    return LayTask(pieces=tuple(pieces), width_mm=WIDTH_MM)


def ours(task: LayTask, seconds: float, seed: int, answers) -> None:
    """Density in % of our lay, its check, processor seconds and memory."""
    warm()
    used = time.process_time()
    answer = shortest(task, Budget(seed=seed, stop=Deadline.after(seconds)))
    used = time.process_time() - used
    memory_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    faults = check(task, answer.lay)
    answers.put(("ours", 100 * answer.lay.utilisation, used, memory_mb, faults))


def library(task: LayTask, seconds: float, seed: int, answers) -> None:
    """Density in % of the library's lay at the same budget."""
    import spyrrow

    items = [
        spyrrow.Item(p.name, list(p.outline_mm), p.quantity, list(p.turns_deg))
        for p in task.pieces
    ]
    config = spyrrow.StripPackingConfig(
        early_termination=False, total_computation_time=int(seconds), num_workers=1, seed=seed
    )
    used = time.process_time()
    found = spyrrow.StripPackingInstance("strip", task.width_mm, items).solve(config)
    used = time.process_time() - used
    area = sum(Polygon(p.outline_mm).area * p.quantity for p in task.pieces)
    answers.put(("library", 100 * area / (found.width * task.width_mm), used, 0.0, []))


def side_by_side(task: LayTask, seconds: float, seed: int) -> dict[str, tuple]:
    """Both engines at once, each in a process of its own."""
    context = multiprocessing.get_context("spawn")
    answers = context.Queue()
    runs = [
        context.Process(target=engine, args=(task, seconds, seed, answers))
        for engine in (ours, library)
    ]
    for run in runs:
        run.start()
    got = [answers.get() for _ in runs]
    for run in runs:
        run.join()
    return {name: rest for name, *rest in got}


def main() -> None:
    """Run every instance in the folder and print the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("folder", type=Path)
    parser.add_argument("--seconds", type=float, default=30.0)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    warm()
    print(f"{platform.machine()}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}, "
          f"Python {platform.python_version()}, numba {version('numba')}, "
          f"shapely {version('shapely')}, spyrrow {version('spyrrow')}; "
          f"{given.seconds:g} s, one worker each, seed {given.seed}")
    print("| instance | pieces | ours % | spyrrow % | best known % | ours - spyrrow | "
          "processor s, ours/spyrrow | memory MB |")
    print("|---|---|---|---|---|---|---|---|")
    totals = []
    for path in sorted(given.folder.glob("*.json")):
        task = read(path)
        got = side_by_side(task, given.seconds, given.seed)
        mine, its = got["ours"], got["library"]
        totals.append((mine[0], its[0]))
        print(f"| {path.stem} | {sum(p.quantity for p in task.pieces)} | {mine[0]:.2f} | "
              f"{its[0]:.2f} | {BEST_KNOWN.get(path.stem, 0):.2f} | {mine[0] - its[0]:+.2f} | "
              f"{mine[1]:.0f}/{its[1]:.0f} | {mine[2]:.0f} |"
              + (f" FAULTS {mine[3]}" if mine[3] else ""), flush=True)
    mean = [sum(column) / len(totals) for column in zip(*totals, strict=True)]
    print(f"| mean | | {mean[0]:.2f} | {mean[1]:.2f} | | {mean[0] - mean[1]:+.2f} | | |")


if __name__ == "__main__":
    main()
