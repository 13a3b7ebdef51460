"""Both panels of trousers or shorts as drawn, with the darts of a fitted waist.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.draft.body import Body
from stash.draft.darts import Dart, darts, sewn_length
from stash.draft.leg import Leg, LegPanel, draw_back, draw_front
from stash.draft.trouser_waist import LegOptions, waist_quarters
from stash.notions.fastenings import opening_least_mm


@dataclass(frozen=True, kw_only=True)
class Legs:
    """Both panels as drawn, with the darts of a fitted waist."""

    leg: Leg
    front: LegPanel
    back: LegPanel
    front_darts: tuple[Dart, ...] = ()
    back_darts: tuple[Dart, ...] = ()
    opening_least_mm: float = 0.0

    @property
    def waist_mm(self) -> float:
        """The whole waist once the darts are sewn."""
        front = sewn_length(self.front.waist, self.front_darts)
        return 2 * (front + sewn_length(self.back.waist, self.back_darts))

    @property
    def fly_mm(self) -> float:
        """Opening of a fitted front: three quarters of the way to the crotch curve.

        Never less than lets the hips through.
        """
        drawn = 0.75 * (self.front.points["J"][0] - self.front.points["X"][0])
        return max(drawn, self.opening_least_mm)


def draw_legs(leg: Leg, body: Body, options: LegOptions) -> Legs:
    """Front and back, trued; with a fitted waist also its darts.

    Darts take what the waistline is longer than its share of the waist; back darts
    are 12 to 14 cm long (trousers lesson, lessonotes.com), front ones shorter.
    """
    front = draw_front(leg)
    back = draw_back(leg, front)
    if options.waist == "elastic":
        return Legs(leg=leg, front=front, back=back)
    front_waist, back_waist = (w - options.side for w in waist_quarters(body))
    scale = leg.rise / 290
    return Legs(
        leg=leg, front=front, back=back,
        front_darts=darts(front.waist, front_waist, 90 * scale, most=1),
        back_darts=darts(back.waist, back_waist, 130 * scale),
        opening_least_mm=opening_least_mm(body["hip"], body["waist"]),
    )
