"""Waiting in tests: for the thing itself, never for a time, so that no machine is too busy."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any


def until(true: Callable[[], Any]) -> None:
    """Until it is so. What never comes about hangs, and pytest tells where (faulthandler)."""
    while not true():
        time.sleep(0.05)


def once_over(client, where: str) -> str:
    """The address of what was asked, once the work in the background is over."""
    key = where.rpartition("/")[2]
    until(lambda: client.get(f"/waiting/{key}/state").json["over"])
    return where
