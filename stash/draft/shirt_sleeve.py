"""The sleeves of shirts and tunics: short or long, measured to the armholes of their body.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from stash.draft.bodice import Bodice, Half, draw_back, draw_front
from stash.draft.body import Body
from stash.draft.body_table import scye_depth
from stash.draft.bound_edges import BoundOptions
from stash.draft.garment import choice, fit, measure, seam_of
from stash.draft.geometry import length, solve
from stash.draft.panel import Panel, joined
from stash.draft.sewing import Join
from stash.draft.sleeve import DrawnSleeve, Sleeve, draw_sleeve
from stash.errors import InvalidInput
from stash.model import Joined

# Common practice, no source, where none is named.
LEAST_UNDERARM_MM = 25.0
ARM_EASE_MM = 60.0
DEEPEST_MM = 120.0
LEAST_SIDE_MM = 80.0
LOWEST_CAP = 0.8  # of its height a cap may be lowered by, for a fuller arm


SleeveKind = Literal["short", "long"]


@dataclass(frozen=True, kw_only=True)
class SleevedOptions(BoundOptions):
    """Options of what has sleeves and a faced or bound edge."""

    sleeve: SleeveKind = choice(SleeveKind, "how long the sleeves are")
    sleeve_length: float | None = measure("finished sleeve from the shoulder seam", 80, 900)
    full_bust: float = fit("room for a full bust: wider and longer in the front", 0, 80)
    side: float = fit("take in at each side seam, front and back", -30, 30)
    sway_back: float = fit("shorten the centre back, for a sway back", 0, 40)
    round_back: float = fit("raise the back neck, for a rounded back", 0, 12)
    longer_sleeve: float = fit("lengthen the sleeve, for a longer arm", -60, 60)
    fuller_arm: float = fit("more room round the upper arm", 0, 60)
    seam_side: float | None = seam_of("side")
    seam_shoulder: float | None = seam_of("shoulder")
    seam_armhole: float | None = seam_of("armhole")
    seam_neck: float | None = seam_of("neck")


def with_arm_room(bodice: Bodice, upper_arm_mm: float) -> Bodice:
    """The bodice, its armhole deepened where the sleeve would else be tight on the arm.

    InvalidInput names the upper arm when even a very deep armhole would not do; the scye depth
    where the arm would find room in an armhole as deep as that bust usually has.
    """
    def room(mm: float) -> float:
        return _arm_room(_deeper(bodice, mm), upper_arm_mm)

    deepest = _deepest(bodice)
    if room(0.0) >= 0:
        return bodice
    if room(deepest) < 0:
        usual = replace(bodice, scye_depth=scye_depth(bodice.bust))
        if _arm_room(_deeper(usual, _deepest(usual)), upper_arm_mm) >= 0:
            raise InvalidInput(
                "scye_leaves_no_room", scye_measure_mm=bodice.scye_depth,
                arm_measure_mm=upper_arm_mm, field="scye_depth",
            )
        raise InvalidInput(
            "arm_finds_no_room", arm_measure_mm=upper_arm_mm, bust_measure_mm=bodice.bust,
            field="upper_arm",
        )
    return _deeper(bodice, solve(room, 0.0, deepest))


def _deeper(bodice: Bodice, mm: float) -> Bodice:
    return replace(bodice, scye_depth=bodice.scye_depth + mm)


def _deepest(bodice: Bodice) -> float:
    return min(DEEPEST_MM, bodice.length - bodice.scye_depth - LEAST_SIDE_MM)


def _arm_room(bodice: Bodice, upper_arm_mm: float) -> float:
    """How much wider than the arm with its ease the sleeve of this bodice is, at its widest."""
    sleeve = _sleeve_for(draw_back(bodice), draw_front(bodice))
    drawn = draw_sleeve(replace(sleeve, length=sleeve.cap + 1, hem_girth=1.0))
    return drawn.girth_mm - upper_arm_mm - ARM_EASE_MM


def _sleeve_for(back: Half, front: Half) -> Sleeve:
    return Sleeve(
        back_armhole=length(back.armhole), front_armhole=length(front.armhole),
        length=0.0, hem_girth=0.0,
    )


def shirt_sleeve(body: Body, options: SleevedOptions, back: Half, front: Half) -> DrawnSleeve:
    """The sleeve for these armholes; a shoulder longer than the body's shortens it."""
    sleeve = fuller(_sleeve_for(back, front), options.fuller_arm)
    beyond = length(back.shoulder) - body["shoulder"]
    long = options.sleeve == "long"
    least = sleeve.cap + LEAST_UNDERARM_MM
    usual = max((1.0 if long else 0.45) * body["arm_length"] - beyond, least)
    length_mm = (options.sleeve_length or usual) + options.longer_sleeve
    if length_mm < least:
        raise InvalidInput(
            "sleeve_too_short", sleeve_measure_mm=length_mm, least_measure_mm=least,
            field="sleeve_length",
        )
    return draw_sleeve(replace(sleeve, length=length_mm, hem_girth=_sleeve_hem(sleeve, body, long)))


def fuller(sleeve: Sleeve, more_mm: float) -> Sleeve:
    """A sleeve so much wider at the underarm: its cap as long as before, and lower."""
    if not more_mm:
        return sleeve

    def lowered(mm: float) -> Sleeve:
        return replace(sleeve, height=sleeve.cap - mm)

    def girth(mm: float) -> float:
        low = replace(lowered(mm), length=sleeve.cap + 1, hem_girth=1.0)
        return draw_sleeve(low).girth_mm

    wanted = girth(0.0) + more_mm
    if girth(LOWEST_CAP * sleeve.cap) < wanted:
        raise InvalidInput(
            "cap_too_low", most_measure_mm=girth(LOWEST_CAP * sleeve.cap) - girth(0.0),
            field="fuller_arm",
        )
    return lowered(solve(lambda mm: girth(mm) - wanted, 0.0, LOWEST_CAP * sleeve.cap))


def _sleeve_hem(sleeve: Sleeve, body: Body, long: bool) -> float:
    """A short sleeve narrows a little; a long one narrows but lets the hand through."""
    across = draw_sleeve(replace(sleeve, length=sleeve.cap + 1, hem_girth=1.0)).girth_mm
    if long:
        return max(0.62 * across, body["wrist"] + 90)
    return max(0.92 * across, body["upper_arm"] + 50)


def body_meetings(front: Panel, back: Panel, sleeve: Panel) -> list[Joined]:
    """Shoulder, side, sleeve seam, and the cap eased into both armholes."""
    cap, whole = sleeve.length("cap"), front.length("armhole") + back.length("armhole")
    share = cap / whole
    return [
        joined((back, "shoulder"), (front, "shoulder")), joined((back, "side"), (front, "side")),
        joined((sleeve, "back seam"), (sleeve, "front seam")),
        *(
            Joined(("sleeve", "cap"), (p.name, "armhole"), share * p.length("armhole"),
                   p.length("armhole"))
            for p in (front, back)
        ),
    ]


def shirt_joins(back: Half, front: Half, sleeve: DrawnSleeve) -> list[Join]:
    """Every seam of the body and the sleeves."""
    cap = length(sleeve.front_cap) + length(sleeve.back_cap)
    hem_round = 2 * (length(back.hem) + length(front.hem))
    return [
        Join("shoulder", length(front.shoulder), 2), Join("side", length(front.side), 2),
        Join("armhole", cap, 2), Join("sleeve seam", length(sleeve.front_seam), 2),
        Join("hem", hem_round, 1, 0), Join("sleeve hem", length(sleeve.hem), 2, 0),
    ]
