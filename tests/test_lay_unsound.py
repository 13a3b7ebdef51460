"""A lay that fails its check is a fault to be told of, never an answer."""

from importlib import import_module

import pytest

from stash.lay import LayTask, Verdict, first_lay
from stash.lay.solve import UnsoundLay
from stash.model import Piece

SQUARE = Piece(name="square", outline_mm=((0, 0), (100, 0), (100, 100), (0, 100)))


def test_an_unsound_lay_is_warned_of_and_left_out(monkeypatch):
    """With a check that finds fault with everything, nothing is shown."""
    room = import_module("stash.lay.solve")
    monkeypatch.setattr(room, "check", lambda task, lay: ["square#1 leaves the cloth."])

    with pytest.warns(UnsoundLay, match="square#1 leaves the cloth"):
        answer = first_lay(LayTask(pieces=(SQUARE,), width_mm=500))

    assert answer.verdict is Verdict.NOT_FOUND
    assert answer.lay is None
