"""The ground: what kernels work on while items are moved one by one."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from stash.lay.nofit.depth import Charts
from stash.lay.search.board import BoardArrays
from stash.lay.search.neighbours import Bands
from stash.lay.search.overlap import LayState


class Ground(NamedTuple):
    """The board as arrays, its charts, where every item lies, and who is near whom.

    ``near`` (n + o + 1,) is where neighbours are listed, ``cut_back`` how far from the
    board's far end the lay must end.
    """

    table: BoardArrays
    charts: Charts
    state: LayState
    bands: Bands
    near: np.ndarray
    cut_back: float
