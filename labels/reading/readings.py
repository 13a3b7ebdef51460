"""What a reader saw in one picture."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from labels.payload import Payload
from stash.fact import Fact, fact

Point = tuple[float, float]
Corners = tuple[Point, ...]


@dataclass(frozen=True)
class LabelReading:
    """One label: its checked code, where it lies in the picture and who read it.

    ``corners_px`` are four points from the symbol's own top left, clockwise; ``decoder``
    names the step of the cascade; ``payload`` is the text as decoded.
    """

    code: str
    corners_px: Corners
    decoder: str
    payload: str
    host: str | None = None

    def to_json(self) -> dict[str, object]:
        """The shape other programs see."""
        return {
            "code": self.code,
            "corners_px": [[round(x, 1), round(y, 1)] for x, y in self.corners_px],
            "decoder": self.decoder,
        }


@dataclass(frozen=True)
class PhotoReadings:
    """All that was seen in one picture.

    ``strangers`` are texts of codes that are no labels of this kind, ``unread`` the
    corners of symbols that were located and not read.
    """

    readings: tuple[LabelReading, ...]
    strangers: tuple[str, ...] = ()
    unread: tuple[Corners, ...] = ()

    @property
    def hint(self) -> Fact | None:
        """What to do about labels that were seen and not read; None when there are none."""
        return fact("label_unread") if self.unread else None


def reading(payload: Payload, corners: Corners, decoder: str, text: str) -> LabelReading:
    """A reading of a checked payload."""
    return LabelReading(payload.code.text, corners, decoder, text, payload.host)


def centre(corners: Corners) -> tuple[float, float]:
    """The middle of a symbol."""
    return (
        sum(x for x, _ in corners) / len(corners),
        sum(y for _, y in corners) / len(corners),
    )


def size_px(corners: Corners) -> float:
    """Mean length of the sides."""
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    return sum(hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in sides) / 4


def in_reading_order(readings: list[LabelReading]) -> list[LabelReading]:
    """Row by row from the top, each row from the left.

    A row is what overlaps its first label by half a symbol's height, so a sheet that is
    photographed a little askew keeps its order.
    """
    waiting = sorted(readings, key=lambda r: centre(r.corners_px)[1])
    ordered: list[LabelReading] = []
    while waiting:
        top = centre(waiting[0].corners_px)[1]
        reach = 0.6 * size_px(waiting[0].corners_px)
        row = [r for r in waiting if centre(r.corners_px)[1] - top <= reach]
        waiting = waiting[len(row):]
        ordered += sorted(row, key=lambda r: centre(r.corners_px)[0])
    return ordered
