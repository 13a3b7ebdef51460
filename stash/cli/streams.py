"""What is printed reaches a terminal or a file in any encoding: no letter stops a command.

A console of Windows shows everything, but what is sent on from there to a file or to another
program is in an old code page, which has no place for most names of the world.
"""

from __future__ import annotations

import io
import sys


def print_every_letter() -> None:
    """From here on a letter that the output has no place for is printed as its escape."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def takes_every_letter() -> bool:
    """Whether the output is in Unicode; else JSON is written in ASCII, so that it stays JSON."""
    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    return encoding.lower().replace("_", "-").startswith("utf")
