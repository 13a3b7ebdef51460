"""A file from elsewhere costs only so much time and memory, whatever is in it."""

from __future__ import annotations

import io
import os
import pickle
import struct
import threading
import time
import zlib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from drawings_that_swell import LONG_DRAWINGS
from foreign_readers import chatter, doze, fall, refuse, spin, swell
from PIL import Image

from stash.errors import InvalidInput
from stash.foreign import Limits, apart, memory, pipe, processor, read_apart
from stash.foreign.limits import PICTURE
from stash.foreign.picture import checked_size
from stash.pattern.importing import read_pattern
from stash.store.photo_prepared import prepared

AMPLE = Limits(seconds=600, memory_mb=200, answer_mb=1)
"""Time enough on the busiest machine: whatever is refused is refused for something else."""


@pytest.fixture(autouse=True, scope="module")
def _readers_of_these_tests():
    """The reading process finds ``foreign_readers`` beside this file."""
    here = str(Path(__file__).parent)
    before = os.environ.get("PYTHONPATH")
    os.environ["PYTHONPATH"] = os.pathsep.join(filter(None, (here, before)))
    apart.close()
    yield
    apart.close()
    if before is None:
        del os.environ["PYTHONPATH"]
    else:
        os.environ["PYTHONPATH"] = before


def test_a_reader_gives_its_value_and_its_refusal():
    """With the field the refusal is about."""
    assert read_apart(AMPLE, spin, 0.0) == 0.0
    assert read_apart(AMPLE, chatter, 9) == b"x" * 9
    with pytest.raises(InvalidInput, match=r"no_such_file\(path='sly'\)") as refused:
        read_apart(AMPLE, refuse, "sly")
    assert refused.value.field == "file"
    with pytest.raises(InvalidInput, match="no_such_file"):
        read_apart(AMPLE, refuse, "not enough")


@pytest.mark.parametrize(("reader", "argument", "kind"), [
    (spin, 3600.0, "file_takes_too_long"),
    (swell, 1500, "file_takes_too_much"),
    (chatter, 2_000_000, "file_takes_too_much"),
])
def test_too_much_of_anything_is_given_up(reader, argument, kind):
    """And the next file is read as if nothing had been."""
    with pytest.raises(InvalidInput, match=kind):
        read_apart(replace(AMPLE, seconds=1) if reader is spin else AMPLE, reader, argument)
    assert read_apart(AMPLE, chatter, 3) == b"xxx"


@pytest.mark.skipif(not processor.counted(), reason="this system counts no processor time")
def test_a_reader_that_works_little_may_take_its_time():
    """A busy machine refuses no file that a quiet one reads: work is counted, not the clock."""
    assert read_apart(replace(AMPLE, seconds=1), doze, 3.0) == 3.0


def test_where_no_work_is_counted_the_clock_ends_it(monkeypatch):
    """As on Windows."""
    monkeypatch.setattr(processor, "counted", lambda: False)
    with pytest.raises(InvalidInput, match="file_takes_too_long"):
        read_apart(replace(AMPLE, seconds=1), doze, 3600.0)


def test_a_reader_that_falls_over_takes_nobody_with_it():
    """As a decoder in native code may."""
    with pytest.raises(InvalidInput, match="foreign_file_damaged"):
        read_apart(AMPLE, fall)
    assert read_apart(AMPLE, spin, 0.0) == 0.0


def test_reading_can_be_stopped():
    """Within a moment, by whoever asked."""
    over = threading.Event()
    threading.Timer(0.3, over.set).start()
    with pytest.raises(InvalidInput, match="reading_stopped"):
        read_apart(AMPLE, spin, 3600.0, stop=over.is_set)


def test_where_the_system_does_not_bound_memory_the_process_watches_itself():
    """As on macOS and Windows."""
    told = threading.Event()
    with memory.watched(50_000_000, told.set):
        held = np.ones(200_000_000, np.uint8)
        told.wait()  # however long it takes to look
    del held
    calm = threading.Event()
    with memory.watched(500_000_000, calm.set):
        time.sleep(0.2)
    assert not calm.is_set()


def test_an_answer_is_made_of_values_only():
    """A process taken over by a file cannot make this one call anything."""
    class Sly:
        def __reduce__(self):
            return os.system, ("true",)

    for thing in (Sly(), apart.read_apart):
        with pytest.raises(pickle.UnpicklingError):
            pipe.answer(pickle.dumps(thing))


def bomb(width, height):
    """A PNG of one colour that says it is so large (PNG, ISO/IEC 15948: chunks and CRC)."""
    def chunk(kind, data):
        return (struct.pack(">I", len(data)) + kind + data
                + struct.pack(">I", zlib.crc32(kind + data)))

    head = struct.pack(">IIBBBBB", width, height, 8, 6, 0, 0, 0)
    rows = zlib.compress(bytes((1 + 4 * width) * min(height, 200)), 9)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


@pytest.mark.parametrize("size", [(10_000, 10_000), (8000, 8000), (100_000, 100_000)])
def test_a_picture_is_refused_by_its_pixels_before_it_is_decoded(size):
    """A few hundred kilobytes that would become gigabytes."""
    trap = bomb(*size)
    before = memory.resident()
    with pytest.raises(InvalidInput, match="picture_too_many_pixels"):
        checked_size(trap)
    with pytest.raises(InvalidInput, match="picture_too_many_pixels"):
        read_apart(PICTURE, prepared, trap)
    assert memory.resident() - before < 100_000_000


def test_a_photograph_of_a_large_camera_is_taken():
    """100 million pixels as JPEG, which need not be decoded whole."""
    out = io.BytesIO()
    Image.new("RGB", (11_600, 8700), "teal").save(out, "JPEG")

    kept = read_apart(PICTURE, prepared, out.getvalue())

    assert (kept.width_px, kept.height_px) == (1600, 1200)


def test_a_drawing_that_takes_for_ever_is_given_up():
    """A scribble of curves that cross each other a million times."""
    scribble = b"".join(b"C5 5 9 0 %d %d " % (i % 800, (i * 7) % 800) for i in range(2000))
    data = (b'<svg xmlns="http://www.w3.org/2000/svg" width="900mm" height="900mm" '
            b'viewBox="0 0 900 900"><path d="M0 0 ' + scribble + b'z"/></svg>')
    with pytest.raises(InvalidInput, match="file_takes_too_long"):
        read_apart(Limits(seconds=4, memory_mb=700), read_pattern, data)


@pytest.mark.parametrize("name", LONG_DRAWINGS)
def test_a_small_drawing_of_endless_work_is_given_up(name):
    """Nested repeats under another prefix, 60,000 arcs, 20,000 curves, 60,000 lines of DXF."""
    with pytest.raises(InvalidInput, match="svg_repeats_too_often|file_takes_too_long"):
        read_apart(Limits(seconds=6, memory_mb=700), read_pattern, LONG_DRAWINGS[name], "mm")
