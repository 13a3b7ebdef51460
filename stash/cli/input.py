"""Files that a command reads."""

from __future__ import annotations

from pathlib import Path

from stash.errors import InvalidInput, NotFound
from stash.foreign.picture import LARGEST_BYTES


def read_file(path: Path) -> bytes:
    """What a file holds; NotFound when it is not there, InvalidInput when it is far too large."""
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise InvalidInput(
                "file_too_large", file=path.name, most_mb=LARGEST_BYTES // 1_000_000, field="file")
        return path.read_bytes()
    except FileNotFoundError:
        raise NotFound("no_such_file", path=str(path), field="file") from None
    except OSError as error:
        raise InvalidInput(
            "file_fails", file=str(path), because=error.strerror, field="file") from None
