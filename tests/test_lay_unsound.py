"""A lay that fails its check is a fault to be told of, never an answer."""

from importlib import import_module

import pytest

from stash.fact import fact
from stash.lay import LayTask, NoLayFound, first_lay
from stash.lay.solve import UnsoundLay
from stash.model import Piece
from stash.sentences import Reader, say
from stash.units import System

SQUARE = Piece(name="square", outline_mm=((0, 0), (100, 0), (100, 100), (0, 100)))


def test_an_unsound_lay_is_warned_of_and_left_out(monkeypatch):
    """With a check that finds fault with everything, nothing is shown."""
    room = import_module("stash.lay.solve")
    fault = fact("leaves_the_cloth", piece="square#1")
    monkeypatch.setattr(room, "check", lambda task, lay: [fault])

    with pytest.warns(UnsoundLay, match="leaves_the_cloth.*square#1"):
        answer = first_lay(LayTask(pieces=(SQUARE,), width_mm=500))

    assert isinstance(answer, NoLayFound)
    assert say(answer.because, Reader(System.METRIC)) == (
        "No lay could be made sure of on this cloth, so none is shown. square#1 leaves the cloth."
    )
