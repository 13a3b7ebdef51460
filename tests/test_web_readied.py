"""The first search on a machine: its kernels are compiled before its seconds begin."""

import threading
import time

from web import readied
from web.jobs import Job


def test_a_cold_search_says_what_takes_so_long_and_begins_after_it(monkeypatch):
    """The person reads that this time is longer; then the note is gone and the work runs."""
    compiled = threading.Event()
    monkeypatch.setattr(readied, "is_warm", lambda: False)
    monkeypatch.setattr(readied, "warm", lambda: compiled.wait(20))
    notes = []
    job = Job(title="trousers")
    thread = threading.Thread(
        target=lambda: readied.readied(lambda begun: notes.append(begun.note))(job))

    thread.start()
    while not job.note:
        time.sleep(0.01)
    said = job.note
    compiled.set()
    thread.join(20)

    assert said == "getting ready, which takes up to a minute the first time"
    assert notes == [""]


def test_a_warm_search_begins_at_once(monkeypatch):
    """Nothing is compiled twice, and nothing is said about it."""
    monkeypatch.setattr(readied, "is_warm", lambda: True)
    monkeypatch.setattr(readied, "warm", lambda: 1 / 0)

    assert readied.readied(lambda begun: begun.note)(Job(title="trousers")) == ""
