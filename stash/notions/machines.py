"""What sewing machines there are, and how raw edges are finished on them."""

from __future__ import annotations

from collections.abc import Collection
from enum import StrEnum


class Machine(StrEnum):
    """A machine by the stitch it sews: ISO 4915 classes 301, 304, 504 and 514."""

    LOCKSTITCH = "lockstitch"
    ZIGZAG = "zigzag"
    OVERLOCK_3 = "overlock-3"
    OVERLOCK_4 = "overlock-4"


def finish_on(machines: Collection[Machine]) -> str:
    """The word of a draft's ``finish`` option that these machines sew, the neatest first.

    A four-thread overlocker sews three threads too, which is enough for a woven edge;
    with a lockstitch alone edges are turned under (common practice, no source).
    """
    if Machine.OVERLOCK_3 in machines or Machine.OVERLOCK_4 in machines:
        return "overlock"
    return "zigzag" if Machine.ZIGZAG in machines else "turned"
