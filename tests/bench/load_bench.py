"""Twenty phones in a stock-take, and a record of a million events.

    python tests/bench/load_bench.py [--minutes 5] [--cuts 100000 --events 1000000] [--only phones]

The phones scan ten times a second in all while one long search runs; beside it stands what a
page costs with nobody else asking. The record is made twice, at a tenth and in full.
"""

from __future__ import annotations

import argparse
import http.client
import os
import random
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from stash.ledger import Event, Kind
from stash.model import Cloth, Code, Cut, Outline
from stash.model.exact import to_plain
from stash.store import open_stash
from web import create_app
from web.http_server import answering

PHONES = 20
TRIALS = 41
WORDS = ("linen", "twill", "voile", "drill")
SCANS_A_SECOND = 10.0


def ask(port: int, path: str, form: str | None = None) -> tuple[int, float]:
    """(status, milliseconds) of one request."""
    began = time.perf_counter()
    line = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    kind = {"Content-Type": "application/x-www-form-urlencoded", "Accept": "application/json"}
    line.request("POST" if form else "GET", path, form, kind if form else {})
    answer = line.getresponse()
    answer.read()
    line.close()
    return answer.status, 1000 * (time.perf_counter() - began)


def stock_take(minutes: float) -> None:
    """Twenty phones over so many minutes."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as room:
        with open_stash(Path(room)) as stash, stash.together():
            codes = [stash.cuts.receive(Cut(
                code="", cloth=Cloth(name=f"Cloth {n}"), place="Shelf 1",
                outline=Outline.rectangle(3000, 1400))).code for n in range(300)]
        app = create_app(Path(room))
        with answering(app, "127.0.0.1", 0) as server:
            alone = [ask(server.port, "/c/" + code)[1] for code in codes[:60]]
            search = _search(Path(room), minutes * 60 + 60)  # longer: it is stopped
            before = _memory_mb()
            told = _phones(server.port, codes, minutes * 60)
            after = _memory_mb()
            searched_to_the_end = search.poll() is None
            search.kill()
            search.wait()
    wrong = [status for status, _ in told if status >= 400]
    times = sorted(ms for _, ms in told)
    print(f"{len(told)} requests of {PHONES} phones in {minutes:g} min: {len(wrong)} errors, "
          f"median {statistics.median(times):.0f} ms, p95 {times[int(0.95 * len(times))]:.0f} ms "
          f"(alone {statistics.median(alone):.0f} ms), memory {before:.0f} -> {after:.0f} MB; "
          f"the search {'ran all the while' if searched_to_the_end else 'had ended before'}")


def _search(room: Path, seconds: float) -> subprocess.Popen[bytes]:
    """Our own search for the shortest lay of three garments, for longer than the phones scan."""
    asked = ["need", "trousers", "robe", "shirt", "--width", "140cm", "--body", "women",
             "--measure", "hip=104cm", "--measure", "waist=82cm", "--measure", "bust=96cm",
             "--one-way"]
    return subprocess.Popen(
        [sys.executable, "-c", "from web.command import main; main()", "--data", str(room), *asked,
         "--seconds", f"{min(3600.0, max(0.1, seconds)):g}"], stdout=subprocess.DEVNULL)


def _phones(port: int, codes: list[str], seconds: float) -> list[tuple[int, float]]:
    told: list[tuple[int, float]] = []
    end = time.monotonic() + seconds

    def phone(seed: int) -> None:
        rng = random.Random(seed)
        while (now := time.monotonic()) < end:
            code = rng.choice(codes)
            told.append(ask(port, "/stock-take/in/Shelf%201/seen", f"code={code}"))
            if rng.random() < 0.2:
                told.append(ask(port, "/c/" + code))
            time.sleep(max(0.0, now + PHONES / SCANS_A_SECOND - time.monotonic()))

    threads = [threading.Thread(target=phone, args=(n,)) for n in range(PHONES)]
    for thread in threads:
        thread.start()
        time.sleep(1 / SCANS_A_SECOND)
    for thread in threads:
        thread.join()
    return told


def _memory_mb() -> float:
    from stash.foreign.memory import resident

    return resident() / 1e6


def sizes(cuts: int, events: int) -> None:
    """Opening, finding and recording at a tenth of the size and in full.

    Processor time, for the disk is flushed by every recording and others use it; the
    clock stands beside it.
    """
    rows = [_size(cuts // 10, events // 10), _size(cuts, events)]
    print(f"{'':<28}{cuts // 10:>12} cuts{cuts:>12} cuts   ratio   by the clock")
    for name in rows[0]:
        (small, began), (large, ended) = rows[0][name], rows[1][name]
        print(f"{name:<28}{small:>14.2f} ms{large:>14.2f} ms{large / small:>8.2f}"
              f"{began:>9.2f} {ended:.2f} ms")


def _size(cuts: int, events: int) -> dict[str, tuple[float, float]]:
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as room:
        place = Path(room)
        began = time.process_time()
        with open_stash(place) as stash:
            stash.ledger.keep(_history(cuts, events))
            stash.settle()
        print(f"{cuts} cuts and {events} events made in {time.process_time() - began:.0f} s "
              "of work")
        open_stash(place).close()  # makes the copy of the day
        codes = random.Random(2).sample(_codes(cuts), TRIALS)
        with open_stash(place) as stash:
            return {
                "opening": _median(lambda _: open_stash(place).close(), codes),
                "one cut by its code": _median(stash.cuts.get, codes),
                "finding by words": _median(
                    lambda c: stash.search(_name_of_cloth(int(c, 36) % (cuts // 10))), codes),
                "history of one cut": _median(stash.ledger.history, codes),
                "the newest 50 entries": _median(lambda _: stash.ledger.latest(), codes),
                "cutting a length off": _median(lambda c: stash.cuts.cut_off(c, 1.0), codes),
                "undoing it": _median(
                    lambda number: stash.ledger.undo(int(number)),
                    [str(event.id) for event in stash.ledger.latest(TRIALS)]),
                "receiving a new cut": _median(
                    lambda c: stash.cuts.receive(Cut(
                        code="", cloth=Cloth(name=f"New {c}"),
                        outline=Outline.rectangle(3000, 1400))), codes),
            }


def _median(do: Callable[[str], object], codes: list[str]) -> tuple[float, float]:
    """Milliseconds of work, and by the clock."""
    works, clocks = [], []
    for code in codes:
        work, clock = time.process_time_ns(), time.perf_counter_ns()
        do(code)
        works.append((time.process_time_ns() - work) / 1e6)
        clocks.append((time.perf_counter_ns() - clock) / 1e6)
    return statistics.median(works), statistics.median(clocks)


def _codes(cuts: int) -> list[str]:
    """So many different label codes."""
    rng, found = random.Random(1), {}
    while len(found) < cuts:
        found[Code.draw(rng).text] = None
    return list(found)


def _name_of_cloth(which: int) -> str:
    return f"{WORDS[which % len(WORDS)]} {which:05d}"


def _history(cuts: int, events: int) -> Iterator[Event]:
    """A receipt for each cut, then what happens in a workroom; one in fifty is undone."""
    outline = to_plain(Outline.rectangle(300_000.0, 1400.0))
    codes = _codes(cuts)
    for number in range(events):
        code, undoes = codes[number % cuts], None
        if number < cuts:
            which = number // 10  # ten cuts of each cloth
            cloth, subject = Cloth(name=_name_of_cloth(which)), f"cloth:{which:010x}"
            change = {subject: {"record": to_plain(cloth)},
                      code: {"cut": {"cloth": subject, "outline": outline,
                                     "place": f"Shelf {number % 301}"}}}
            kind = Kind.RECEIPT
        elif number % 50 == 49 and number > cuts:
            kind, undoes, code = Kind.UNDO, number, codes[(number - 1) % cuts]
            change = {code: {}}
        elif number % 7 == 3:
            kind, change = Kind.MOVE, {code: {"place": f"Shelf {number % 307}"}}
        else:
            kind, change = Kind.CUT_OFF, {code: {"length_mm": 1.0}}
        yield Event(id=number + 1, at="2026-03-01T09:00:00.000+00:00", kind=kind, code=code,
                    change=change, undoes=undoes)


def main() -> None:
    """Print both tables."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--minutes", type=float, default=5.0)
    asked.add_argument("--cuts", type=int, default=100_000)
    asked.add_argument("--events", type=int, default=1_000_000)
    asked.add_argument("--only", choices=("phones", "sizes"))
    options = asked.parse_args()
    os.environ.setdefault("OMP_NUM_THREADS", "1")
    if options.only != "sizes":
        stock_take(options.minutes)
    if options.only != "phones":
        sizes(options.cuts, options.events)


if __name__ == "__main__":
    main()
