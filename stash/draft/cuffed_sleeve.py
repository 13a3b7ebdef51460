"""A shirt sleeve pleated into a buttoned cuff, with a slit and its two laps.

The placket follows C. Ingalls, Text-Book on Domestic Art (1911), Shirt Waist Sleeve: the under lap
1/2 in finished, the over lap with a point an inch beyond its short side, 1/4 in seams. Today's slit
of 12 to 15 cm, an over lap of 2.5 cm and the cuff are common practice, no source.
x runs down the arm from the top of the cap, y from the back (negative) to the front.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.draft.body import Body
from stash.draft.cutting_line import Edge
from stash.draft.garment import Allowances
from stash.draft.geometry import line
from stash.draft.panel import Cutting, Panel
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.sleeve import DrawnSleeve, sleeve_panel
from stash.model import Mark, MarkKind, Part, Point
from stash.notions.buttons import buttonhole_mm

UNDER_MM, SEAM_MM = 12.7, 6.35  # Ingalls 1911: 1/2 in finished, 1/4 in seams
# Common practice, no source.
OVER_MM, SLIT_MM, POINT_MM = 25.0, 130.0, 25.0
CUFF_MM, CUFF_EASE_MM, BUTTON_IN_MM = 65.0, 50.0, 15.0
SLIT_AT, PLEAT_FROM_MM, PLEATS_APART_MM, PLEAT_LONG_MM = 0.25, 22.0, 12.0, 60.0
HEM_SHARE, LEAST_PLEAT_MM, ONE_PLEAT_MM, PLEATS_MOST_MM = 0.68, 10.0, 30.0, 90.0


@dataclass(frozen=True)
class ShirtCuff:
    """Sizes of the cuff and of what is sewn into it, mm.

    ``long`` is the cuff's length, ``hem`` the sleeve's lower edge, ``taken`` what its pleats
    take in; ``laps`` what both laps of the slit add to the edge beyond their seams.
    """

    long: float
    deep: float
    hem: float
    taken: float
    laps: float
    slit: float
    size: float

    @property
    def pleats(self) -> tuple[float, ...]:
        """What each pleat takes in."""
        if not self.taken:
            return ()
        count = 1 if self.taken <= ONE_PLEAT_MM * self.size else 2
        return (self.taken / count,) * count


def cuff_for(body: Body, girth_mm: float) -> ShirtCuff:
    """The cuff for a wrist, and the sleeve's lower edge to go into it."""
    size = min(1.0, body["wrist"] / 150)
    long = body["wrist"] + (CUFF_EASE_MM + 2 * BUTTON_IN_MM) * size
    laps = (OVER_MM + UNDER_MM - 2 * SEAM_MM) * size
    least = long - laps
    taken = min(HEM_SHARE * girth_mm - least, PLEATS_MOST_MM * size)
    if taken < LEAST_PLEAT_MM:
        taken = 0.0
    return ShirtCuff(long, CUFF_MM * size, least + taken, taken, laps, SLIT_MM * size, size)


def cuffed_sleeve_panel(drawn: DrawnSleeve, cuff: ShirtCuff, allow: Allowances) -> Panel:
    """The sleeve with its slit behind and its pleats before it."""
    panel = sleeve_panel(drawn, allow)
    edges = tuple(
        replace(e, allowance_mm=allow.seam, turned=False) if e.name == "hem" else e
        for e in panel.edges
    )
    down, start = drawn.hem[0]
    slit_at = start + SLIT_AT * cuff.hem
    marks = [Mark(MarkKind.SLIT, line((down - cuff.slit, slit_at), (down, slit_at)))]
    at = slit_at + PLEAT_FROM_MM * cuff.size
    for wide in cuff.pleats:
        marks += pleat_marks((down - PLEAT_LONG_MM * cuff.size, at), (down, at), wide)
        at += wide + PLEATS_APART_MM * cuff.size
    return replace(panel, edges=edges).marked(marks)


def pleat_marks(top: Point, foot: Point, taken_mm: float) -> list[Mark]:
    """A pleat that takes in so much: the line it is folded along, and the line it is laid on."""
    across = foot[1] + taken_mm
    return [
        Mark(MarkKind.PLEAT_FOLD, (top, foot)),
        Mark(MarkKind.PLEAT_TO, ((top[0], across), (foot[0], across))),
    ]


def placket_panels(cuff: ShirtCuff, seam: float) -> list[Panel]:
    """The over lap, folded along its middle to a point, and the straight under lap."""
    wide, slit, size = OVER_MM * cuff.size, cuff.slit, cuff.size
    point, box = POINT_MM * size, 15.0 * size
    foot = slit + point + box
    edges = (
        Edge("slit", line((foot, 2 * wide), (point + box, 2 * wide)), SEAM_MM),
        Edge("point", line(
            (point + box, 2 * wide), (point + box, wide), (0.7 * point, wide), (0.0, wide / 2),
            (0.7 * point, 0.0)), SEAM_MM),
        Edge("edge", line((0.7 * point, 0.0), (foot, 0.0)), SEAM_MM),
        Edge("cuff", line((foot, 0.0), (foot, 2 * wide)), seam),
    )
    middle = (point + box + (foot - point - box) / 2, wide / 2)
    hole = buttonhole_mm(10.0 * size)
    over = Panel(
        name="over lap", edges=edges,
        cutting=Cutting(quantity=2, pair=True, part=Part.PLACKET),
        marks=(
            Mark(MarkKind.FOLD, line((0.7 * point, wide), (foot, wide))),
            Mark(MarkKind.BUTTONHOLE, ((middle[0] - hole / 2, middle[1]),
                                       (middle[0] + hole / 2, middle[1]))),
        ),
    )
    narrow = UNDER_MM * size
    under = rectangle(
        "under lap", (slit, 2 * narrow), Turnings(SEAM_MM, seam, SEAM_MM),
        Cutting(quantity=2, part=Part.PLACKET),
    )
    fold = Mark(MarkKind.FOLD, line((0.0, narrow), (slit, narrow)))
    return [over, under.marked((fold,))]


def cuff_panel(cuff: ShirtCuff, seam: float, button_mm: float) -> Panel:
    """The cuff, cut four times: one half of each shows, one lines it."""
    middle, inside = cuff.deep / 2, BUTTON_IN_MM * cuff.size
    hole = buttonhole_mm(button_mm)
    far = cuff.long - inside
    return rectangle(
        "cuff", (cuff.long, cuff.deep), Turnings(seam, seam, seam),
        Cutting(quantity=4, pair=True, part=Part.CUFF),
    ).marked((
        Mark(MarkKind.BUTTON, ((inside, middle),)),
        Mark(MarkKind.BUTTONHOLE, ((far - hole + 3.0, middle), (far + 3.0, middle))),
    ))
