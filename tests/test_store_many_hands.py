"""Many threads and processes may write at once, and one may die in mid-write: nothing is lost."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import textwrap
import threading
import time

import pytest

from stash.errors import NotEnough
from stash.ledger import fold
from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline
from stash.store import open_stash

WRITER = textwrap.dedent("""
    import sys
    from pathlib import Path
    from stash.store import open_stash

    with open_stash(Path(sys.argv[1])) as stash:
        while True:
            stash.bins.put(sys.argv[2], 1)
            print("put", flush=True)
""")


@pytest.fixture(autouse=True)
def _patient(monkeypatch):
    """Whoever writes waits for its turn, however busy the machine is."""
    monkeypatch.setattr("stash.store.connection.BUSY_S", 3600.0)


def a_bin_of(stash, amount):
    """The code of a new bin of buttons."""
    notion = Notion(kind=NotionKind.BUTTON, name="Shell")
    return stash.bins.receive(Bin(code="", notion=notion, amount=amount)).code


def test_eight_threads_lose_nothing(tmp_path):
    """8 threads cut 40 mm off one cut and put 40 buttons in one bin, one at a time."""
    with open_stash(tmp_path) as stash:
        cut = Cut(code="", cloth=Cloth(name="Linen"), outline=Outline.rectangle(1000.0, 1400.0))
        code, bin_code = stash.cuts.receive(cut).code, a_bin_of(stash, 0)
        failures = []

        def work():
            try:
                for _ in range(40):
                    stash.cuts.cut_off(code, 1.0)
                    stash.bins.put(bin_code, 1)
            except Exception as error:  # collected, then asserted empty
                failures.append(error)

        run_together([work] * 8)
        assert failures == []
        assert stash.cuts.get(code).length_mm == pytest.approx(1000.0 - 8 * 40)
        assert stash.bins.get(bin_code).amount == 8 * 40
        assert stash.ledger.cached() == fold(stash.ledger.events())


def test_the_last_button_is_taken_by_one_of_many(tmp_path):
    """8 threads want the one button there is: one gets it, seven are told there is none."""
    with open_stash(tmp_path) as stash:
        code, outcomes = a_bin_of(stash, 1), []

        def work():
            try:
                stash.bins.take(code, 1)
                outcomes.append("taken")
            except NotEnough:
                outcomes.append("none left")

        run_together([work] * 8)
        assert sorted(outcomes) == ["none left"] * 7 + ["taken"]
        assert stash.bins.get(code).amount == 0


def test_one_token_from_many_threads_records_once(tmp_path):
    """A form sent eight times at once is one event."""
    with open_stash(tmp_path) as stash:
        code, events = a_bin_of(stash, 10), []
        run_together([lambda: events.append(stash.bins.take(code, 1, "once"))] * 8)
        assert len(events) == 8
        assert len({event.id for event in events}) == 1
        assert stash.bins.get(code).amount == 9


@pytest.mark.skipif(os.name == "nt", reason="Windows cannot send SIGKILL")
@pytest.mark.parametrize("lifetime_s", [0.002, 0.011, 0.023, 0.042])
def test_a_writer_killed_in_the_middle_leaves_a_sound_record(tmp_path, lifetime_s):
    """What it said was recorded is there; half an event is not."""
    with open_stash(tmp_path) as stash:
        code = a_bin_of(stash, 0)
    writer = subprocess.Popen(
        [sys.executable, "-c", WRITER, str(tmp_path), code], stdout=subprocess.PIPE
    )
    first = writer.stdout.readline()
    time.sleep(lifetime_s)
    writer.send_signal(signal.SIGKILL)
    said = [first, *writer.communicate()[0].splitlines(keepends=True)]
    promised = sum(line == b"put\n" for line in said)
    with open_stash(tmp_path) as stash:
        assert stash.ledger.db.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        amount = stash.bins.get(code).amount
        assert promised <= amount <= promised + 1
        assert len(stash.ledger.history(code)) == amount + 1
        assert stash.ledger.cached() == fold(stash.ledger.events())


def run_together(works):
    """Each in a thread of its own, started as one."""
    gate = threading.Barrier(len(works))

    def through_the_gate(work):
        gate.wait()
        work()

    threads = [threading.Thread(target=through_the_gate, args=(work,)) for work in works]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
