"""Readers that misbehave, for the tests of the door for foreign files."""

import os
import time

import numpy as np

from stash.errors import InvalidInput, NotEnough


def spin(seconds):
    """A reader that works for so long."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        pass
    return seconds


def doze(seconds):
    """A reader that takes so long and does next to nothing."""
    time.sleep(seconds)
    return seconds


def swell(megabytes):
    """A reader that takes so much memory."""
    return int(np.ones(megabytes * 1_000_000, np.uint8).sum())


def chatter(size):
    """A reader that answers with so many bytes, and prints besides."""
    print("nothing of this must get between the answers")
    return b"x" * size


def refuse(kind):
    """A reader that refuses a file."""
    if kind == "not enough":
        raise NotEnough("no_such_file", path="x", asked=1.0, available=0.0)
    raise InvalidInput("no_such_file", path=kind, field="file")


def fall():
    """A reader that falls over as native code does."""
    os.abort()


def swell_slowly(megabytes):
    """A reader that takes so much memory, ten megabytes at a time."""
    held = []
    while len(held) * 10 < megabytes:
        held.append(np.ones(10_000_000, np.uint8))
        time.sleep(0.01)
    return len(held)
