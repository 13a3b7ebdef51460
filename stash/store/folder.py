"""The data folder: where the record, the photographs and the secret key live."""

from __future__ import annotations

import os
import secrets
import threading
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from stash.errors import Unavailable


@dataclass(frozen=True)
class DataFolder:
    """The files of one stash."""

    path: Path

    @property
    def database(self) -> Path:
        """The SQLite file."""
        return self.path / "stash.db"

    @property
    def photos(self) -> Path:
        """Photographs, one folder a code."""
        return self.path / "photos"

    @property
    def copies(self) -> Path:
        """Copies of the record: one a day, and one before it is changed over to a newer form."""
        return self.path / "copies"

    @property
    def recorded(self) -> bool:
        """Whether there is a file that may be a record; never where no disk can hold the name."""
        with suppress(OSError):
            return self.database.exists()
        return False

    @property
    def lost(self) -> bool:
        """Whether the record is missing or empty although photographs or copies show there was one.

        Such a folder must not be taken for a new stash.
        """
        if self.recorded and self.database.stat().st_size > 0:
            return False
        with suppress(OSError):
            return any(self.photos.glob("*/*.jpg")) or any(self.copies.glob("day-*.db"))
        return False

    def prepare(self) -> None:
        """Make the folders, for their owner only; Unavailable when there can be none.

        A record that is there already may be read also where nothing can be written.
        """
        try:
            private_folder(self.path)
            self.photos.mkdir(exist_ok=True, mode=0o700)
            self._close_to_others()
        except OSError as error:
            if not self.recorded:
                raise self._unwritable(error) from error

    def _close_to_others(self) -> None:
        """What earlier versions left open for every account of this computer is closed."""
        for path in (self.photos, self.copies, self.database, *self._beside_database()):
            with suppress(FileNotFoundError, PermissionError):
                mode = path.stat().st_mode
                if mode & 0o077:
                    path.chmod(mode & ~0o077)

    def _beside_database(self) -> list[Path]:
        return [self.database.with_name(self.database.name + end) for end in ("-wal", "-shm")]

    def secret_key(self) -> str:
        """The key that signs the web's cookies: made once, readable by its owner only.

        Where it cannot be kept, on a full disk, one is made that lasts as long as this run.
        """
        path = self.path / "secret.key"
        with suppress(OSError):
            if key := path.read_text(encoding="ascii"):
                return key
        made = secrets.token_hex(32)
        draft = path.with_suffix(f".{os.getpid()}.part")
        try:
            write_private(draft, made.encode("ascii"))
            draft.replace(path)
        except OSError:
            with suppress(OSError):
                draft.unlink()
        return made

    def _unwritable(self, error: OSError) -> Unavailable:
        reason = error.strerror or str(error)
        return Unavailable("folder_unwritable", path=str(self.path), reason=reason)


def private_file(path: Path) -> Path:
    """The file, made empty if it is not there, which only its owner can read."""
    os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
    return path


def private_folder(path: Path) -> Path:
    """The folder, made with those above it where they are missing, for its owner only."""
    for folder in [*reversed(path.parents), path]:
        if not folder.is_dir():
            folder.mkdir(mode=0o700, exist_ok=True)
    return path


def write_private(path: Path, content: bytes) -> None:
    """Write a file for its owner only, and have it on the disk before going on."""
    private_folder(path.parent)
    descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    with os.fdopen(descriptor, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(descriptor)


def write_once(path: Path, content: bytes) -> None:
    """Write a picture where there is none yet; Unavailable when it cannot be written.

    Through a neighbour, so that a half-written file is never taken for a whole one.
    """
    if path.exists():
        return
    draft = path.with_suffix(f".{os.getpid()}-{threading.get_ident()}.part")
    try:
        write_private(draft, content)
        draft.replace(path)
    except OSError as error:
        raise Unavailable(
            "photo_unwritable", path=str(path.parent), reason=error.strerror or str(error)
        ) from error
