"""The process in which foreign files are read: ``python -m stash.foreign.child``.

It takes (reader, arguments, limits) one after the other, and answers each with
("read", value), ("refused", class, fact, field) or ("failed", why).
"""

from __future__ import annotations

import os
import pickle
import sys
from typing import Any

from stash.errors import InvalidInput, StashError
from stash.foreign import memory, pipe, processor


def main() -> None:
    """Serve until nobody asks any more."""
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # what a library prints must not get between the answers
    while (task := pipe.receive(sys.stdin.buffer)) is not None:
        pipe.send_packed(answers, _served(task))


def _served(task: bytes) -> bytes:
    reader, arguments, limits = pickle.loads(task)
    most_bytes = limits.answer_mb * 1_000_000
    try:
        with memory.bounded(limits.memory_mb), processor.bounded(limits.seconds):
            packed = pickle.dumps(_told(reader, arguments), protocol=5)
    except MemoryError:
        packed = pickle.dumps(("failed", "memory"))
    return packed if len(packed) <= most_bytes else pickle.dumps(("failed", "answer"))


def _told(reader: Any, arguments: Any) -> tuple[Any, ...]:
    try:
        return "read", reader(*arguments)
    except StashError as error:
        known = error if isinstance(error, InvalidInput) else None
        return "refused", type(error).__name__, error.fact, known.field if known else None
    except MemoryError:
        return "failed", "memory"
    except RecursionError:
        return "failed", "depth"
    except Exception as error:
        if "emory" in str(error):  # as cv2 and Pillow say it
            return "failed", "memory"
        return "failed", f"{type(error).__name__}: {error}"[:500]


if __name__ == "__main__":
    main()
