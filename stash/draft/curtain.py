"""Curtain: drops of cloth joined to the fullness of the heading, for one or two curtains.

Cut drops follow the repeat, so that the print meets at every join.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import CURTAINS
from stash.draft.garment import Garment, Options, choice, hem, measure
from stash.draft.panel import Cutting, Panel, strip
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.sewing import Join, seams, sewing_needs
from stash.errors import InvalidInput
from stash.model import Joined, Need, Part, Pattern, Piece, Role
from stash.notions.fastenings import tape_need

# Common practice, no source: side hems of 25 mm turned twice, a casing of 60 mm below a
# 25 mm heading, 15 mm turned in, tabs every 150 mm, tape sewn 40 mm below the fold.
SIDE_MM, CASING_MM, HEADER_MM, TURN_MM = 50.0, 60.0, 25.0, 15.0
TAB_EVERY_MM, TAPE_TURN_MM, TAPE_MM = 150.0, 40.0, 75.0


Heading = Literal["casing", "tape", "tabs"]
CurtainFullness = Literal["1.8", "1", "1.5", "2", "2.2", "2.5", "3"]
CurtainPanels = Literal["2", "1"]
Lining = Literal["none", "full"]


@dataclass(frozen=True, kw_only=True)
class CurtainOptions(Options):
    """Options of the curtain."""

    width: float = measure("length of the rail or rod", 200, 8000, 1500.0)
    length: float = measure("finished drop", 200, 5000, 1400.0)
    heading: Heading = choice(Heading, "how it hangs")
    fullness: CurtainFullness = choice(
        CurtainFullness, "flat width of the curtain for one of the rail"
    )
    panels: CurtainPanels = choice(CurtainPanels, "how many curtains share the rail")
    cloth_width: float = measure("usable width of the cloth", 300, 3200, 1370.0)
    repeat: float = measure(
        "lengthwise repeat of the print, 0 when there is none", 0, 1500, 0.0
    )
    lining: Lining = choice(Lining, "lining")
    seam: float = measure("seam allowance", 0, 30, 15.0)
    hem: float = hem(100.0)


@dataclass(frozen=True)
class Drops:
    """How one curtain is made up: whole widths of cloth, perhaps a half, and the cut drop."""

    whole: int
    half: bool
    cut_mm: float
    flat_mm: float

    @property
    def joins(self) -> int:
        """Seams between widths in one curtain."""
        return self.whole + self.half - 1


def drops(options: CurtainOptions) -> Drops:
    """Widths for the fullness, rounded up to half a width, and the drop up to a whole repeat."""
    curtains = int(options.panels)
    cloth, seam = options.cloth_width, options.seam
    flat = options.width / curtains * float(options.fullness)
    usable = cloth - 2 * seam
    if usable <= 2 * SIDE_MM:
        raise InvalidInput("cloth_too_narrow_for_curtain", field="cloth_width")
    halves = max(1, ceil(2 * (flat + 2 * SIDE_MM - 2 * seam) / usable - 1e-9))
    repeat, needed = options.repeat, _cut_drop_mm(options)
    cut = ceil(needed / repeat - 1e-9) * repeat if repeat else needed
    return Drops(halves // 2, halves % 2 == 1, cut, flat)


def draft(body: Body, options: CurtainOptions) -> Pattern:
    """Drops as wide as the cloth; a half width goes to the outer edge."""
    made, curtains = drops(options), int(options.panels)
    panels = _drop_panels(made, curtains, options.cloth_width)
    if options.lining == "full":
        under = replace(made, cut_mm=_lining_drop_mm(options))
        panels += _drop_panels(under, curtains, options.cloth_width, lining=True)
    pieces = tuple(_on_repeat(p.piece()) for p in panels)
    if options.heading == "tabs":
        pieces += tuple(p.piece() for p in _tabs(made, curtains))
    joins = _joins(made, curtains, options)
    return Pattern(
        garment="curtain", pieces=pieces, joins=_meetings(made, options), wants=CURTAINS,
        seams=seams(joins, "overlock"),
        notions=(*_needs(made, curtains, options), *sewing_needs(joins, "overlock")),
        measurements_mm=dict(body.values), options=options.to_json(),
    )


def _meetings(made: Drops, options: CurtainOptions) -> tuple[Joined, ...]:
    """Width to width where one is not enough, each cut drop as long as the next."""
    names = ["drop"] * made.whole + ["half drop"] * made.half
    pairs = list(dict.fromkeys(zip(names, names[1:], strict=False)))
    ends = {"": made.cut_mm}
    if options.lining == "full":
        ends["lining "] = _lining_drop_mm(options)
    return tuple(
        Joined((f"{end}{a}", "side"), (f"{end}{b}", "side 2"), long, long)
        for end, long in ends.items() for a, b in pairs
    )


def _cut_drop_mm(options: CurtainOptions) -> float:
    heading = {
        "casing": HEADER_MM + HEADER_MM + CASING_MM + TURN_MM,
        "tape": TAPE_TURN_MM,
        "tabs": options.seam,
    }[options.heading]
    return options.length + heading + options.hem


def _lining_drop_mm(options: CurtainOptions) -> float:
    """Without the hem: a lining is hemmed narrowly, so that it hangs a little shorter."""
    return _cut_drop_mm(options) - options.hem


def _drop_panels(made: Drops, curtains: int, cloth: float, *, lining: bool = False) -> list[Panel]:
    role, name = (Role.LINING, "lining ") if lining else (Role.MAIN, "")
    none = Turnings(0.0, 0.0, 0.0)
    turns = (0.0,) if not lining else (0.0, 180.0)
    panels = []
    for what, wide, count in (
        ("drop", cloth, made.whole * curtains), ("half drop", cloth / 2, made.half * curtains),
    ):
        if count:
            cutting = Cutting(quantity=count, role=role, turns_deg=turns)
            panels.append(rectangle(name + what, (made.cut_mm, wide), none, cutting))
    return panels


def _on_repeat(piece: Piece) -> Piece:
    """The top corner of every drop lies on the repeat, so that all drops start alike."""
    if piece.role is not Role.MAIN:
        return piece
    return replace(piece, match_points_mm=((0.0, 0.0),))


def _tabs(made: Drops, curtains: int) -> list[Panel]:
    """Loops 60 mm wide and 180 mm long before they are folded, and a facing for the top edge."""
    count = ceil(made.flat_mm / TAB_EVERY_MM) + 1
    tabs = Cutting(quantity=count * curtains, part=Part.LOOP)
    along_top = Cutting(quantity=curtains, part=Part.FACING)
    facing = strip("top facing", made.flat_mm + 2 * SIDE_MM, 90.0, along_top)
    return [strip("tab", 180.0, 150.0, tabs), facing]


def _joins(made: Drops, curtains: int, options: CurtainOptions) -> list[Join]:
    layers = 2 if options.lining == "full" else 1
    drop, flat = options.length, made.flat_mm
    joins = [
        Join("side hems", drop, 2 * curtains, 0), Join("bottom hem", flat, layers * curtains, 0),
        Join("heading", flat, 2 * curtains, 0),
    ]
    if made.joins > 0:
        joins.append(Join("joined widths", made.cut_mm, made.joins * layers * curtains))
    return joins


def _needs(made: Drops, curtains: int, options: CurtainOptions) -> list[Need]:
    if options.heading != "tape":
        return []
    return [tape_need(made.flat_mm * curtains, TAPE_MM, "heading")]


GARMENT = Garment(
    name="curtain", title="Curtain", measurements=(), estimates=(),
    takes=CurtainOptions,
    draft=draft,
)
