"""Curtain: drops of cloth joined to the fullness of the heading, for one or two curtains.

Cut drops follow the repeat, so that the print meets at every join.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

from stash.draft.body import Body
from stash.draft.cloth_wants import CURTAINS
from stash.draft.garment import Choice, Garment, Measure, Options, hem
from stash.draft.panel import Cutting, Panel, strip
from stash.draft.rectangle import Allowances, rectangle
from stash.draft.sewing import Join, seams, sewing_needs
from stash.errors import InvalidInput
from stash.model import Need, Part, Pattern, Piece, Role
from stash.notions.fastenings import tape_need

WIDTH = Measure(
    name="width", about="length of the rail or rod", least_mm=200, most_mm=8000, default=1500.0
)
LENGTH = Measure(
    name="length", about="finished drop", least_mm=200, most_mm=5000, default=1400.0
)
HEADING = Choice(name="heading", about="how it hangs", words=("casing", "tape", "tabs"))
FULLNESS = Choice(
    name="fullness", about="flat width of the curtain for one of the rail",
    words=("1.8", "1", "1.5", "2", "2.2", "2.5", "3"),
)
PANELS = Choice(name="panels", about="how many curtains share the rail", words=("2", "1"))
CLOTH = Measure(
    name="cloth_width", about="usable width of the cloth",
    least_mm=300, most_mm=3200, default=1370.0,
)
REPEAT = Measure(
    name="repeat", about="lengthwise repeat of the print, 0 when there is none",
    least_mm=0, most_mm=1500, default=0.0,
)
LINING = Choice(name="lining", about="lining", words=("none", "full"))
SEAM = Measure(name="seam", about="seam allowance", least_mm=0, most_mm=30, default=15.0)

# Common practice, no source: side hems of 25 mm turned twice, a casing of 60 mm below a
# 25 mm heading, 15 mm turned in, tabs every 150 mm, tape sewn 40 mm below the fold.
SIDE_MM, CASING_MM, HEADER_MM, TURN_MM = 50.0, 60.0, 25.0, 15.0
TAB_EVERY_MM, TAPE_TURN_MM, TAPE_MM = 150.0, 40.0, 75.0


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


def drops(options: Options) -> Drops:
    """Widths for the fullness, rounded up to half a width, and the drop up to a whole repeat."""
    curtains = int(str(options["panels"]))
    cloth, seam = float(options["cloth_width"]), float(options["seam"])
    flat = float(options["width"]) / curtains * float(str(options["fullness"]))
    usable = cloth - 2 * seam
    if usable <= 2 * SIDE_MM:
        raise InvalidInput("The cloth is too narrow for a curtain.", field="cloth_width")
    halves = max(1, ceil(2 * (flat + 2 * SIDE_MM - 2 * seam) / usable - 1e-9))
    repeat, needed = float(options["repeat"]), _cut_drop_mm(options)
    cut = ceil(needed / repeat - 1e-9) * repeat if repeat else needed
    return Drops(halves // 2, halves % 2 == 1, cut, flat)


def draft(body: Body, options: Options) -> Pattern:
    """Drops as wide as the cloth; a half width goes to the outer edge."""
    made, curtains = drops(options), int(str(options["panels"]))
    panels = _drop_panels(made, curtains, float(options["cloth_width"]))
    if options["lining"] == "full":
        panels += _drop_panels(made, curtains, float(options["cloth_width"]), lining=True)
    pieces = tuple(_on_repeat(p.piece()) for p in panels)
    if options["heading"] == "tabs":
        pieces += tuple(p.piece() for p in _tabs(made, curtains))
    joins = _joins(made, curtains, options)
    return Pattern(
        garment="curtain", pieces=pieces, wants=CURTAINS, seams=seams(joins, "overlock"),
        notions=(*_needs(made, curtains, options), *sewing_needs(joins, "overlock")),
        measurements_mm=dict(body.values), options=dict(options),
    )


def _cut_drop_mm(options: Options) -> float:
    heading = {
        "casing": HEADER_MM + HEADER_MM + CASING_MM + TURN_MM,
        "tape": TAPE_TURN_MM,
        "tabs": float(options["seam"]),
    }[str(options["heading"])]
    return float(options["length"]) + heading + float(options["hem"])


def _drop_panels(made: Drops, curtains: int, cloth: float, *, lining: bool = False) -> list[Panel]:
    role, name = (Role.LINING, "lining ") if lining else (Role.MAIN, "")
    none = Allowances(0.0, 0.0, 0.0)
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


def _joins(made: Drops, curtains: int, options: Options) -> list[Join]:
    layers = 2 if options["lining"] == "full" else 1
    drop, flat = float(options["length"]), made.flat_mm
    joins = [
        Join("side hems", drop, 2 * curtains, 0), Join("bottom hem", flat, layers * curtains, 0),
        Join("heading", flat, 2 * curtains, 0),
    ]
    if made.joins > 0:
        joins.append(Join("joined widths", made.cut_mm, made.joins * layers * curtains))
    return joins


def _needs(made: Drops, curtains: int, options: Options) -> list[Need]:
    if options["heading"] != "tape":
        return []
    return [tape_need(made.flat_mm * curtains, TAPE_MM, "heading")]


GARMENT = Garment(
    name="curtain", title="Curtain", measurements=(), estimates=(),
    options=(WIDTH, LENGTH, HEADING, FULLNESS, PANELS, CLOTH, REPEAT, LINING, SEAM, hem(100.0)),
    draft=draft,
)
