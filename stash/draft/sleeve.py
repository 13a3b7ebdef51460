"""A sleeve set into an armhole: its cap as long as the armhole and a little ease.

The cap of a shirt's is a quarter of the armhole high (L. I. Baldt, Clothing for Women, 1916,
Fig. 46A); a set-in sleeve says its own height.
x runs down the arm from the top of the cap, y from the back (negative) to the front.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.draft.cutting_line import Edge
from stash.draft.garment import Allowances
from stash.draft.geometry import Path, back, curve, join, length, line, solve
from stash.draft.panel import Cutting, Panel
from stash.model import Part, Point

CAP_EASE_MM = 10.0


@dataclass(frozen=True, kw_only=True)
class Sleeve:
    """Lengths of the back and front armhole, the sleeve's length from the top of the cap,
    its girth at the hem, and the ease that the cap is longer than the armhole, mm.
    ``height`` is the cap's, a quarter of the armhole where it is not said; ``alike`` draws both
    halves alike, for a knit.
    """

    back_armhole: float
    front_armhole: float
    length: float
    hem_girth: float
    ease: float = CAP_EASE_MM
    height: float | None = None
    alike: bool = False

    @property
    def cap(self) -> float:
        """Height of the cap: a quarter of the armhole, unless it is said."""
        if self.height is not None:
            return self.height
        return (self.back_armhole + self.front_armhole) / 4


@dataclass(frozen=True)
class DrawnSleeve:
    """The sleeve's edges; the cap runs from the front underarm over the top to the back's."""

    front_cap: Path
    back_cap: Path
    front_seam: Path
    back_seam: Path
    hem: Path

    @property
    def girth_mm(self) -> float:
        """Width across the underarm line."""
        return self.front_cap[0][1] - self.back_cap[-1][1]


def draw_sleeve(s: Sleeve) -> DrawnSleeve:
    """Each half of the cap is made as wide as its armhole is long; seams then match."""
    bends = ((0.47, 0.56),) * 2 if s.alike else ((0.42, 0.52), (0.52, 0.6))
    front = _half_cap(s.cap, s.front_armhole + s.ease / 2, *bends[0])
    rear = _half_cap(s.cap, s.back_armhole + s.ease / 2, *bends[1])
    back_cap = back(tuple((x, -y) for x, y in rear))
    front_out, back_out = front[0], back_cap[-1]
    taken = (front_out[1] - back_out[1] - s.hem_girth) / 2  # alike, so that both seams agree
    front_hem: Point = (s.length, front_out[1] - taken)
    back_hem: Point = (s.length, back_out[1] + taken)
    return DrawnSleeve(
        front_cap=front, back_cap=back_cap, front_seam=line(front_hem, front_out),
        back_seam=line(back_out, back_hem), hem=line(back_hem, front_hem),
    )


def _half_cap(cap: float, wanted: float, low: float, high: float) -> Path:
    """Half a cap of the wanted length from the underarm to the top; only its width is free."""

    def half(width: float) -> Path:
        return curve((cap, width), (cap, low * width), (0.0, high * width), (0.0, 0.0))

    return half(solve(lambda width: length(half(width)) - wanted, 1.0, wanted))


def sleeve_panel(drawn: DrawnSleeve, allow: Allowances) -> Panel:
    """The sleeve, cut as a pair; notches at the top, one in front and two behind."""
    cap = join(drawn.front_cap, drawn.back_cap)
    front, whole = length(drawn.front_cap), length(cap)
    notches = (0.4 * front, front, whole - 0.4 * (whole - front))
    edges = (
        Edge("front seam", drawn.front_seam, allow.seam),
        Edge("cap", cap, allow.at("armhole")),
        Edge("back seam", drawn.back_seam, allow.seam),
        Edge("hem", drawn.hem, allow.hem, turned=allow.hem > 0),
    )
    return Panel(
        name="sleeve", edges=edges, cutting=Cutting(quantity=2, pair=True, part=Part.SLEEVE),
        match=(drawn.front_cap[0][0], 0.0),
        notches=(("cap", notches[0]), ("cap", notches[1])), doubles=(("cap", notches[2]),),
    )
