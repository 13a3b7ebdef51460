"""A zip that is there whole or not at all, and that only its owner can read."""

from __future__ import annotations

import os
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from stash.errors import Unavailable
from stash.store.folder import private_file


@contextmanager
def whole_zip(path: Path) -> Iterator[zipfile.ZipFile]:
    """Written beside ``path`` first, so that one half made never takes the place of another.

    Unavailable when it cannot be written.
    """
    draft = path.with_name(f"{path.name}.{os.getpid()}.part")
    try:
        # A zip knows no date before 1980; a photograph that claims one is dated then.
        with zipfile.ZipFile(
            private_file(draft), "w", zipfile.ZIP_DEFLATED, strict_timestamps=False
        ) as file:
            yield file
        draft.replace(path)
    except OSError as error:
        raise Unavailable(
            "cannot_be_written", path=str(path), reason=error.strerror or str(error)) from error
    finally:
        with suppress(OSError):  # it is in its place, or there never was one
            draft.unlink()
