"""The first search on a machine: its kernels are compiled before its seconds begin."""

import threading

from until import until

from stash.fact import fact
from web import warm_start
from web.jobs import Job


def test_a_cold_search_says_what_takes_so_long_and_begins_after_it(monkeypatch):
    """The person reads that this time is longer; then the note is gone and the work runs."""
    compiled = threading.Event()
    monkeypatch.setattr(warm_start, "is_warm", lambda: False)
    def warm(tell):
        tell(fact("getting_ready_to_lay"))
        compiled.wait()

    monkeypatch.setattr(warm_start, "warm", warm)
    notes = []
    job = Job(title="trousers")
    thread = threading.Thread(
        target=lambda: warm_start.warmed(lambda begun: notes.append(begun.awaited))(job))

    thread.start()
    until(lambda: job.awaited)
    said = job.awaited
    compiled.set()
    thread.join()

    assert said == fact("getting_ready_to_lay")
    assert notes == [None]


def test_a_warm_search_begins_at_once(monkeypatch):
    """Nothing is compiled twice, and nothing is said about it."""
    monkeypatch.setattr(warm_start, "is_warm", lambda: True)
    monkeypatch.setattr(warm_start, "warm", lambda tell: 1 / 0)

    assert warm_start.warmed(lambda begun: begun.title)(Job(title="trousers")) == "trousers"
