"""Readings as they come in from the steps: checked, put back to scale, none told twice."""

from __future__ import annotations

import math

from labels.payload import interpret
from labels.reading.decoders import Decoded
from labels.reading.readings import (
    Corners,
    LabelReading,
    PhotoReadings,
    Point,
    centre,
    in_reading_order,
    reading,
    size_px,
)

SMALLEST_SIDE_PX = 20


class Gathered:
    """What has been read, what else was decoded, and what was located and stays unread."""

    def __init__(self) -> None:
        self.readings: list[LabelReading] = []
        self.strangers: list[str] = []
        self._located: list[Corners] = []

    def add(
        self, found: list[Decoded], decoder: str, scale: float = 1.0, at: Point = (0.0, 0.0)
    ) -> None:
        """Take texts found in a picture ``scale`` times larger whose corner lies ``at``."""
        for text, seen in found:
            corners = tuple((x / scale + at[0], y / scale + at[1]) for x, y in seen)
            payload = interpret(text)
            if payload is None:
                if text and text not in self.strangers:
                    self.strangers.append(text)
            elif not self._already(payload.code.text, corners):
                self.readings.append(reading(payload, corners, decoder, text))

    def locate(
        self, located: list[Corners], scale: float = 1.0, at: Point = (0.0, 0.0)
    ) -> None:
        """Note where symbols are that could not be read; a speck is not one."""
        for seen in located:
            corners = tuple((x / scale + at[0], y / scale + at[1]) for x, y in seen)
            if _is_square(corners) and not any(_near(corners, c) for c in self._located):
                self._located.append(corners)

    @property
    def unread(self) -> list[Corners]:
        """Symbols located and not read since."""
        return [c for c in self._located if not any(_near(r.corners_px, c) for r in self.readings)]

    @property
    def complete(self) -> bool:
        """Something was read and nothing that was located is left."""
        return bool(self.readings) and not self.unread

    def sight(self) -> PhotoReadings:
        """All of it, labels in reading order."""
        return PhotoReadings(
            tuple(in_reading_order(self.readings)), tuple(self.strangers), tuple(self.unread)
        )

    def _already(self, code: str, corners: Corners) -> bool:
        return any(r.code == code and _near(r.corners_px, corners) for r in self.readings)


def _is_square(corners: Corners) -> bool:
    sides = [math.dist(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
    return min(sides) >= SMALLEST_SIDE_PX and max(sides) <= 3 * min(sides)


def _near(one: Corners, other: Corners) -> bool:
    (x0, y0), (x1, y1) = centre(one), centre(other)
    return (x0 - x1) ** 2 + (y0 - y1) ** 2 <= max(size_px(one), size_px(other)) ** 2 / 4
