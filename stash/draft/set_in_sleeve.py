"""A fitted sleeve set into a bodice block: its cap as high as the arm lets it be.

A set-in cap is about a third of the armhole high (common practice, no source); where the arm
wants more room it is lower, and where that is not enough the armhole is deepened. The cap
is longer than the armhole by an ease that is stated: it is shrunk in over the shoulder.
Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal, TypeVar

from stash.draft.garment import Sewn, measure
from stash.draft.geometry import Path, length, solve
from stash.draft.option import choice
from stash.draft.sleeve import DrawnSleeve, Sleeve, draw_sleeve
from stash.errors import InvalidInput

# Common practice, no source.
HIGHEST, LOWEST = 1 / 3, 1 / 5  # of the armhole
ARM_EASE_MM, WRIST_EASE_MM, ELBOW_EASE_MM = 50.0, 60.0, 35.0
CAP_EASE_MM = 25.0  # 2 to 4 cm on woven cloth
LEAST_UNDERARM_MM, SHORT_SHARE, DEEPEST_MM = 25.0, 0.4, 110.0
B = TypeVar("B")

SetIn = Literal["long", "short", "none"]


@dataclass(frozen=True, kw_only=True)
class SetInOptions(Sewn):
    """Options of a bodice's sleeves."""

    sleeve: SetIn = choice(SetIn, "how long the sleeves are")
    sleeve_length: float | None = measure("finished sleeve from the shoulder seam", 80, 900)
    cap_ease: float = measure(
        "how much longer the sleeve's cap is than the armhole", 0, 45, CAP_EASE_MM
    )


@dataclass(frozen=True)
class Armholes:
    """The back's and the front's armhole, from the shoulder to the underarm."""

    back: Path
    front: Path

    @property
    def whole_mm(self) -> float:
        """Both together."""
        return length(self.back) + length(self.front)


@dataclass(frozen=True, kw_only=True)
class Arm:
    """What a sleeve is drawn for: the arm from the end of the shoulder, round the upper arm and
    the wrist, what the sleeve is longer by, and how big the arm is beside a grown one of 30 cm.
    """

    long: float
    round: float
    wrist: float
    longer: float
    size: float


def _girth(a: Armholes, ease: float, share: float) -> float:
    """Round the sleeve at the underarm, with a cap of this share of the armhole."""
    high = share * a.whole_mm
    return draw_sleeve(_sleeve(a, ease, high)).girth_mm


def _sleeve(a: Armholes, ease: float, high: float) -> Sleeve:
    return Sleeve(
        back_armhole=length(a.back), front_armhole=length(a.front), length=high + 1.0,
        hem_girth=1.0, ease=ease, height=high,
    )


def cap_share(a: Armholes, ease: float, girth_mm: float) -> float:
    """The cap's height over the armhole at which the sleeve is as wide as wanted."""
    return solve(lambda share: girth_mm - _girth(a, ease, share), LOWEST, HIGHEST)


def with_room(
    block: B, deeper: Callable[[B, float], B], armholes: Callable[[B], Armholes],
    arm: tuple[float, float],
) -> B:
    """The block, its armhole deepened where a low cap would else be tight on the arm.

    ``arm`` is (girth the sleeve is to have, ease of its cap). InvalidInput names the upper arm
    when even a very deep armhole would not do.
    """
    girth, ease = arm

    def room(mm: float) -> float:
        return _girth(armholes(deeper(block, mm)), ease, LOWEST) - girth

    if room(0.0) >= 0:
        return block
    if room(DEEPEST_MM) < 0:
        raise InvalidInput("arm_too_big_for_armhole", arm_measure_mm=girth, field="upper_arm")
    return deeper(block, solve(room, 0.0, DEEPEST_MM))


def set_in_sleeve(options: SetInOptions, a: Armholes, arm: Arm) -> DrawnSleeve:
    """The sleeve for these armholes."""
    size, ease = arm.size, options.cap_ease * arm.size
    girth = arm.round + ARM_EASE_MM * size
    high = cap_share(a, ease, girth) * a.whole_mm
    long, least = options.sleeve == "long", high + LEAST_UNDERARM_MM
    usual = max((1.0 if long else SHORT_SHARE) * arm.long, least)
    down = (options.sleeve_length or usual) + arm.longer
    if down < least:
        raise InvalidInput(
            "sleeve_too_short", sleeve_measure_mm=down, least_measure_mm=least,
            field="sleeve_length",
        )
    hem = arm.wrist + WRIST_EASE_MM if long else arm.round + ELBOW_EASE_MM * size
    return draw_sleeve(replace(_sleeve(a, ease, high), length=down, hem_girth=hem))
