"""Writers killed in the middle of writing: nothing acknowledged is lost, nothing is half there.

    python tests/bench/kill_bench.py --kills 500 [--first 0]

A writer records cuts, lengths, acts of several changes and photographs, and says each one
aloud once it was told that it is recorded. It is killed at a random moment; then the record
must be sound and hold everything that was said.
"""

from __future__ import annotations

import argparse
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from stash.store import open_stash
from stash.store.backup.integrity import check

WRITER = """
import io, random, sys
from pathlib import Path
from PIL import Image
from stash.errors import Conflict
from stash.model import Cloth, Cut, Outline, Person
from stash.store import open_stash
from stash.store import photos
photos.read_apart = lambda limits, reader, *given: reader(*given)  # no process to outlive this one
rng = random.Random(int(sys.argv[2]))
with open_stash(Path(sys.argv[1])) as stash:
    code = stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(300_000, 1400))).code
    event = None
    print("begun", flush=True)
    while True:
        what = rng.random()
        if what < 0.5:
            event = stash.cuts.cut_off(code, rng.uniform(0.1, 2.0))
        elif what < 0.8:
            with stash.act() as act:
                stash.people.save(Person(name=f"Person {rng.random()}"))
                stash.cuts.move(code, f"Shelf {rng.randint(1, 9)}")
            event = act.event
        elif what < 0.9 and event is not None:
            try:
                event = stash.ledger.undo(event.id)
            except Conflict:  # something later stands on it
                continue
        else:
            out = io.BytesIO()
            Image.new("RGB", (40, 30), tuple(rng.randbytes(3))).save(out, "PNG")
            event = stash.photos.add(code, out.getvalue())
        print(event.id, event.checksum, flush=True)
"""


def one(place: Path, seed: int) -> tuple[int, list[str]]:
    """(how many writes were acknowledged, what is wrong after the kill)."""
    writer = subprocess.Popen(
        [sys.executable, "-c", WRITER, str(place), str(seed)], stdout=subprocess.PIPE, text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)})
    assert writer.stdout is not None
    writer.stdout.readline()
    time.sleep(random.Random(seed).uniform(0.0, 0.4))
    writer.send_signal(signal.SIGKILL if os.name != "nt" else signal.SIGTERM)
    said, _ = writer.communicate()
    heard = [line.split() for line in said.splitlines() if len(line.split()) == 2]
    report = check(place)
    faults = [str(fault) for fault in report.faults]
    with open_stash(place, keeping=False) as stash:
        kept = {event.id: event.checksum for event in stash.ledger.events()}
    lost = [number for number, checksum in heard if kept.get(int(number)) != checksum]
    return len(heard), faults + [f"acknowledged and lost: {number}" for number in lost]


def main() -> None:
    """Print the figures; exit with 1 when anything was lost."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--kills", type=int, default=100)
    asked.add_argument("--first", type=int, default=0, help="The first seed, to go on from.")
    kills, first = (options := asked.parse_args()).kills, options.first
    written, wrong = 0, []
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as room:
        for seed in range(first, first + kills):
            place = Path(room) / f"loft-{seed // 20}"  # twenty kills of one record, then a new one
            count, faults = one(place, seed)
            written += count
            wrong += [f"kill {seed}: {fault}" for fault in faults]
    print(f"{kills} kills, {written} acknowledged writes, {len(wrong)} lost or unsound")
    print("\n".join(wrong))
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
