"""What was printed too small still measures true: the ruler's true length reaches the reader."""

from __future__ import annotations

import pytest

from stash.workroom import measuring


@pytest.mark.parametrize("reader", ["count_pour", "measure_strips", "between"])
def test_the_true_length_of_the_printed_ruler_reaches_the_reader(reader, monkeypatch):
    """A photograph is read in another process; nothing typed beside it is lost on the way."""
    seen = {}

    def read_here(_limits, read, *arguments, **_):
        seen.update(read.keywords, photo=arguments[0])

    monkeypatch.setattr(measuring, "read_apart", read_here)
    places = ((1.0, 2.0), (3.0, 4.0)) if reader == "between" else ()

    getattr(measuring, reader)(b"photo", *places, ruler_mm=97.0)

    assert seen == {"ruler_mm": 97.0, "photo": b"photo"}
