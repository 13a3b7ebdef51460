"""A camera (or a film of one) watched for labels, each told once when it comes into view."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import cv2
import numpy as np

from labels.again import FORGET_AFTER_S, is_new
from labels.reading.cascade import Thoroughness, look
from labels.reading.readings import LabelReading, PhotoReadings
from stash.errors import Unavailable

FRAMES_A_SECOND = 30
"""What cameras and films show, near enough to forget by."""
THOROUGH_EVERY = 6


def frames(source: str) -> Iterator[np.ndarray]:
    """Pictures from camera ``0``, ``1``..., a video file, or numbered images (``f_%03d.png``).

    Unavailable when nothing can be opened there.
    """
    index = int(source) if source.isdecimal() else None
    capture = cv2.VideoCapture(source if index is None else index)
    try:
        ok, frame = capture.read() if capture.isOpened() else (False, None)
        if not ok:
            raise _absent(source, index)
        while ok and frame is not None:
            yield frame
            ok, frame = capture.read()
    finally:
        capture.release()


def sights(pictures: Iterable[np.ndarray]) -> Iterator[PhotoReadings]:
    """What is seen in each frame, by the quick part of the cascade.

    While nothing is read, every so many frames are looked at thoroughly: a label round a
    bolt held still before the camera is read too, and the picture does not stutter.
    """
    unread = 0
    for picture in pictures:
        unread += 1
        full = unread % THOROUGH_EVERY == 0
        sight = look(picture, Thoroughness.FULL if full else Thoroughness.FAST)
        if sight.readings:
            unread = 0
        yield sight


def newcomers(
    seen: Iterable[PhotoReadings], forget_after_s: float = FORGET_AFTER_S
) -> Iterator[LabelReading]:
    """Each label when it comes into view, and again only after it was out of view for a while."""
    last_frame: dict[str, int] = {}
    for number, sight in enumerate(seen):
        for reading in sight.readings:
            before = last_frame.get(reading.code)
            unseen_s = None if before is None else (number - before) / FRAMES_A_SECOND
            if is_new(unseen_s, forget_after_s):
                yield reading
            last_frame[reading.code] = number


def _absent(source: str, index: int | None) -> Unavailable:
    if index is None:
        return Unavailable("not_a_film", typed=source)
    return Unavailable("no_camera", number=index)
