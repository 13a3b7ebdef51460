"""The data folder: where the record, the photographs and the secret key live."""

from __future__ import annotations

import os
import secrets
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

    def prepare(self) -> None:
        """Make the folders; Unavailable when this person may not write there."""
        try:
            self.path.mkdir(parents=True, exist_ok=True)
            self.photos.mkdir(exist_ok=True)
        except OSError as error:
            raise self._unwritable(error) from error
        if not os.access(self.path, os.W_OK):
            raise self._unwritable(PermissionError("it is read-only"))

    def secret_key(self) -> str:
        """The key that signs the web's cookies: made once, readable by its owner only."""
        path = self.path / "secret.key"
        try:
            descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        except FileExistsError:
            return path.read_text(encoding="ascii")
        except OSError as error:
            raise self._unwritable(error) from error
        key = secrets.token_hex(32)
        with os.fdopen(descriptor, "w", encoding="ascii") as file:
            file.write(key)
        return key

    def _unwritable(self, error: OSError) -> Unavailable:
        reason = error.strerror or str(error)
        return Unavailable(
            f"The data folder {self.path} cannot be written ({reason}). "
            "Choose another with --data, or change who may write there."
        )
