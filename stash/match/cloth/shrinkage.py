"""What cloth commonly loses in the first wash, where nobody has measured it.

The figures are weak and only a stand-in: a washed swatch of the cloth itself wins.
Each row says where it is from and how far to trust it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.model import FibreShare


@dataclass(frozen=True)
class Typical:
    """Percent lost along and across in the first wash, with the source and its standing."""

    name: str
    fibres: tuple[str, ...]
    along_pct: float
    across_pct: float
    source: str


TABLE = (
    Typical("viscose", ("viscose", "modal", "lyocell", "cupro"), 6.0, 4.0,
            "3-6 % along, 2-4 % across; from memory, unverified"),
    Typical("silk", ("silk",), 10.0, 3.0,
            "pongee, modacrylic-xf.com 2018-06-12; trade blog, weak"),
    Typical("cotton", ("cotton",), 6.0, 2.5,
            "cotton plain cloth, modacrylic-xf.com 2018-06-12; trade blog, weak"),
    Typical("linen", ("flax", "flax (or linen)", "linen", "ramie", "true hemp", "hemp"), 4.0, 3.0,
            "3-4 % along, 2-3 % across; from memory, unverified"),
    Typical("wool", ("wool",), 4.0, 3.5,
            "worsted, modacrylic-xf.com 2018-06-12; trade blog, weak"),
    Typical("synthetic cloth", ("polyester", "polyamide", "polyamide or nylon", "acrylic"),
            1.0, 1.0, "0-1 %; from memory, unverified"),
)
UNKNOWN = Typical("cloth of unknown fibre", (), 5.0, 3.0, "common practice, no source")


def typical(fibres: Sequence[FibreShare]) -> Typical:
    """The row of the fibre there is most of; the cautious stand-in when none is recorded."""
    if not fibres:
        return UNKNOWN
    most = max(fibres, key=lambda share: share.percent).fibre.lower()
    return next((row for row in TABLE if most in row.fibres), UNKNOWN)
