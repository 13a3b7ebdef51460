"""The door for foreign files holds where the system bounds no memory: macOS and Windows.

Those systems are played on this one: the reading process is told that it runs there, has no
``resource`` and no account of Linux, and the rest is as it is.
"""

from __future__ import annotations

import io
import os
import sys
import threading
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest
from foreign_readers import chatter, spin, swell_slowly
from test_foreign_files import bomb
from test_pattern_hostile import FOREIGN_PREFIX

from stash.errors import InvalidInput
from stash.foreign import Limits, apart, memory, processor, read_apart
from stash.foreign.limits import DRAWING, PICTURE
from stash.pattern.importing import read_pattern
from stash.spreadsheet.reading import read_spreadsheet
from stash.store.photo_prepared import prepared

AMPLE = Limits(seconds=600, memory_mb=200, answer_mb=1)
"""Time enough on the busiest machine: whatever is refused is refused for something else."""
ELSEWHERE = """
import builtins, sys, types
import stash.foreign.memory as memory

def held():  # what the system's own account would say there
    with builtins.open("/proc/self/statm") as file:
        return int(file.read().split()[1]) * 4096

memory.sys = types.SimpleNamespace(platform={platform!r})
memory._pages = lambda column: 0
if {platform!r} == "win32":
    sys.modules["resource"] = None
    memory._resident_windows = held
else:
    memory._most_held = held
"""


@pytest.fixture(params=["win32", "darwin"])
def elsewhere(request, tmp_path, monkeypatch):
    """Reading processes that run on another system, as far as they can tell."""
    text = ELSEWHERE.replace("{platform!r}", repr(request.param))
    (tmp_path / "sitecustomize.py").write_text(text, encoding="utf-8")
    here = str(Path(__file__).parent)
    root = str(Path(__file__).parents[1])
    path = (str(tmp_path), here, root, os.environ.get("PYTHONPATH"))
    monkeypatch.setenv("PYTHONPATH", os.pathsep.join(filter(None, path)))
    if request.param == "win32":
        monkeypatch.setattr(processor, "counted", lambda: False)
    apart.close()
    yield request.param
    apart.close()


def test_a_reading_process_there_gives_its_value(elsewhere):
    """Begun anew, never forked: nothing of this process is in it."""
    assert read_apart(AMPLE, chatter, 9) == b"x" * 9


@pytest.mark.parametrize(("reader", "argument", "kind"), [
    (spin, 3600.0, "file_takes_too_long"),
    (swell_slowly, 3000, "file_takes_too_much"),
    (chatter, 2_000_000, "file_takes_too_much"),
])
def test_time_memory_and_answers_are_bounded_there(elsewhere, reader, argument, kind):
    """By this process's clock or the work done, by the other's own account, by what it sends."""
    with pytest.raises(InvalidInput, match=kind):
        read_apart(replace(AMPLE, seconds=1) if reader is spin else AMPLE, reader, argument)
    assert read_apart(AMPLE, chatter, 3) == b"xxx"


def test_what_would_grow_is_counted_before_it_grows_there(elsewhere):
    """Pixels, shapes and what a zip unpacks to need no bound on memory."""
    sheet = io.BytesIO()
    with zipfile.ZipFile(sheet, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/workbook.xml", b" " * 300_000_000)
    for kind, attempt in (
        ("picture_too_many_pixels", lambda: read_apart(
            replace(PICTURE, seconds=600), prepared, bomb(10_000, 10_000))),
        ("svg_repeats_too_often", lambda: read_apart(
            replace(DRAWING, seconds=600), read_pattern, FOREIGN_PREFIX)),
        ("file_takes_too_much", lambda: read_spreadsheet(sheet.getvalue())),
    ):
        with pytest.raises(InvalidInput, match=kind):
            attempt()


def test_stopping_is_heard_there(elsewhere):
    """The process is ended, not signalled."""
    over = threading.Event()
    threading.Timer(0.3, over.set).start()
    with pytest.raises(InvalidInput, match="reading_stopped"):
        read_apart(AMPLE, spin, 3600.0, stop=over.is_set)


def test_where_nobody_tells_how_much_is_held_reading_goes_on(monkeypatch):
    """Without the account of Linux and without ``resource``: time and answers stay bounded."""
    monkeypatch.setattr(memory, "_pages", lambda column: 0)
    monkeypatch.setitem(sys.modules, "resource", None)

    assert memory.resident() == 0
    with memory.bounded(10):
        assert sum(range(10)) == 45


def test_the_most_held_is_read_in_the_unit_of_each_system(monkeypatch):
    """getrusage(2): bytes on macOS, kilobytes elsewhere."""
    monkeypatch.setattr(memory, "_pages", lambda column: 0)
    kilobytes = memory.resident()
    monkeypatch.setattr(memory.sys, "platform", "darwin")

    assert memory.resident() * 1024 == pytest.approx(kilobytes, rel=0.5)
