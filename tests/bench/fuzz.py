"""Whatever anybody types, sends or names: an answer or one sentence, never a failure.

    python tests/bench/fuzz.py --cases 100000 [--seed N]

Every parser, route and command stands in the lists of :mod:`fuzz_lists`; a new one that
is not there makes the test of the lists fail. A case that ends in anything but an answer or
a refusal is told with what reproduces it.
"""

from __future__ import annotations

import argparse
import os
import random
import sys
import tempfile
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from fuzz_lists import COMMANDS, FIELDS, PARSERS, nasty
from fuzz_targets import Commands, Parsers, Routes

SLOW_S = 2.0


@dataclass
class Told:
    """What came of it: ``bad`` are the cases that must not be, each with how to do it again."""

    cases: Counter[str] = field(default_factory=Counter)
    bad: list[str] = field(default_factory=list)
    slow: list[str] = field(default_factory=list)


def run(cases: int, seed: int, room: Path) -> Told:
    """So many cases: three in five for the parsers, the rest for routes and commands."""
    random_ = random.Random(seed)
    kinds = (Parsers(PARSERS), Routes(room / "pages", FIELDS), Commands(room / "words", COMMANDS))
    told = Told()
    before = Path.cwd()
    os.chdir(room)
    try:
        for number in range(cases):
            target = random_.choices(kinds, weights=(60, 30, 10))[0]
            case = random.Random(seed * 1_000_003 + number)
            began = time.thread_time()
            name, fault = target.attempt(case, nasty)
            told.cases[type(target).__name__] += 1
            if fault:
                told.bad.append(f"{name}: {fault}")
            if time.thread_time() - began > SLOW_S:
                told.slow.append(name)
    finally:
        os.chdir(before)
        for target in kinds:
            target.close()
    return told


def main() -> None:
    """Print the table; exit with 1 when anything must not be."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--cases", type=int, default=5000)
    asked.add_argument("--seed", type=int, default=1)
    options = asked.parse_args()
    with tempfile.TemporaryDirectory() as room:
        began = time.monotonic()
        told = run(options.cases, options.seed, Path(room))
    for kind, count in told.cases.items():
        print(f"{kind.lower():<10} {count:>8} cases")
    print(f"{len(told.bad)} must not be, {len(told.slow)} took more than {SLOW_S:g} s of work; "
          f"{time.monotonic() - began:.0f} s in all")
    for one in dict.fromkeys(told.bad + [f"slow: {name}" for name in told.slow]):
        print("  " + one)
    sys.exit(bool(told.bad or told.slow))


if __name__ == "__main__":
    main()
