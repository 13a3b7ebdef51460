"""How long the record takes at 10,000 cuts and 100,000 events, beside plain sqlite3.

Run: python tests/bench/store_bench.py [cuts] [events]

Each line gives our time, that of the least sqlite3 could do for the same (one
unchecked INSERT or UPDATE a transaction, or reading the bare rows), and the ratio.
"""

from __future__ import annotations

import random
import sqlite3
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from stash.model import Cloth, Cut, FibreShare, Outline
from stash.store import Stash, open_stash

SEED = 7


def seconds(action: Callable[[], object], repeats: int = 1) -> float:
    """The fastest of several runs."""
    best = float("inf")
    for _ in range(repeats):
        start = time.perf_counter()
        action()
        best = min(best, time.perf_counter() - start)
    return best


def fill(stash: Stash, cuts: int, events: int) -> list[str]:
    """Random cuts of 500 cloths, then lengths cut off them; the codes."""
    rng = random.Random(SEED)
    cloths = [
        Cloth(
            name=f"Cloth {n}", fibres=(FibreShare(rng.choice(["flax", "cotton", "wool"]), 100.0),),
            mass_gsm=rng.uniform(80, 350), colours=(f"#{rng.randrange(1 << 24):06x}",),
        )
        for n in range(500)
    ]
    with stash.together():
        codes = [
            stash.cuts.receive(
                Cut(code="", cloth=rng.choice(cloths), outline=Outline.rectangle(500_000.0, 1400.0))
            ).code
            for _ in range(cuts)
        ]
        for _ in range(events - cuts):
            stash.cuts.cut_off(rng.choice(codes), rng.uniform(10, 900))
    return codes


def bare(path: Path) -> sqlite3.Connection:
    """A plain connection with the same care for the disk."""
    connection = sqlite3.connect(path, isolation_level=None)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    return connection


def bare_writes(connection: sqlite3.Connection, count: int) -> None:
    """One event and one new length, each pair a transaction, without a check."""
    for n in range(count):
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("INSERT INTO event (code, length) VALUES (?, ?)", (f"C{n % 97}", 1.0))
        connection.execute("UPDATE cut SET length = length - 1 WHERE code = ?", (f"C{n % 97}",))
        connection.execute("COMMIT")


def line(what: str, ours: float, plain: float) -> None:
    """One row of the table."""
    print(f"{what:<46} {ours * 1000:>10.2f} ms {plain * 1000:>10.2f} ms {ours / plain:>7.1f}")


def main(cuts: int, events: int) -> None:
    """Fill, measure, print."""
    with tempfile.TemporaryDirectory() as folder, open_stash(Path(folder) / "loft") as stash:
        start = time.perf_counter()
        codes = fill(stash, cuts, events)
        print(f"{cuts} cuts and {events} events recorded in {time.perf_counter() - start:.1f} s\n")
        print(f"{'':<46} {'ours':>13} {'sqlite3':>13} {'ratio':>7}")
        plain = bare(Path(folder) / "bare.db")
        plain.execute("CREATE TABLE event (id INTEGER PRIMARY KEY, code TEXT, length REAL)")
        plain.execute("CREATE TABLE cut (code TEXT PRIMARY KEY, length REAL)")
        plain.executemany("INSERT INTO cut VALUES (?, 1e6)", [(f"C{n}",) for n in range(97)])
        measure(stash, codes, plain, Path(folder) / "loft" / "stash.db")
        plain.close()


def measure(stash: Stash, codes: list[str], plain: sqlite3.Connection, file: Path) -> None:
    """The table."""
    count = 300
    ours = seconds(lambda: [stash.cuts.cut_off(code, 1.0) for code in codes[:count]])
    line("cut off a length (one)", ours / count, seconds(lambda: bare_writes(plain, count)) / count)
    same = bare(file)
    read_cuts = "SELECT * FROM cut"
    line("all cuts as values", seconds(stash.cuts.all, 3),
         seconds(lambda: same.execute(read_cuts).fetchall(), 3))
    line("all cuts as columns", seconds(stash.cuts.columns, 3),
         seconds(lambda: same.execute("SELECT code, length_mm, width_mm FROM cut").fetchall(), 3))
    line("one cut by its code", seconds(lambda: [stash.cuts.get(c) for c in codes[:count]]) / count,
         seconds(lambda: [
             same.execute("SELECT * FROM cut WHERE code = ?", (c,)).fetchone()
             for c in codes[:count]
         ]) / count)
    line("search “cott”", seconds(lambda: stash.search("cott"), 3),
         seconds(lambda: same.execute(
             "SELECT code FROM cut JOIN cloth ON cloth = subject WHERE fibres LIKE '%cott%'"
         ).fetchall(), 3))
    line("history of one cut", seconds(lambda: stash.ledger.history(codes[0]), 3),
         seconds(lambda: same.execute(
             "SELECT * FROM event WHERE code = ?", (codes[0],)).fetchall(), 3))
    line("replay of every event", seconds(stash.ledger.replay),
         seconds(lambda: same.execute("SELECT * FROM event ORDER BY id").fetchall()))
    same.close()


if __name__ == "__main__":
    main(*(int(n) for n in [*sys.argv[1:], *("10000", "100000")[len(sys.argv) - 1 :]]))
