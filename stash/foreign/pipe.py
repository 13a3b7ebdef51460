"""What the door and its reading process say to each other: pickles, each with its length before it.

What comes back is taken apart with care: it may only be made of plain values and of the
classes of this house, whatever a foreign file may have done to the process that read it.
"""

from __future__ import annotations

import io
import pickle
import struct
from typing import Any, BinaryIO

LENGTH = struct.Struct(">Q")
PLAIN = frozenset({
    ("numpy", "ndarray"), ("numpy", "dtype"), ("numpy._core.multiarray", "_reconstruct"),
    ("numpy.core.multiarray", "_reconstruct"), ("numpy._core.numeric", "_frombuffer"),
    ("numpy._core.multiarray", "scalar"), ("numpy.core.multiarray", "scalar"),
    ("builtins", "set"), ("builtins", "frozenset"), ("builtins", "complex"),
    ("builtins", "bytearray"), ("types", "MappingProxyType"), ("pathlib", "PosixPath"),
    ("pathlib", "WindowsPath"), ("_codecs", "encode"), ("copyreg", "_reconstructor"),
    ("builtins", "object"),
})


class TooLong(Exception):
    """An answer of more bytes than allowed."""


def send_packed(to: BinaryIO, packed: bytes) -> None:
    """Write one value that is pickled already."""
    to.write(LENGTH.pack(len(packed)))
    to.write(packed)
    to.flush()


def receive(source: BinaryIO, most_bytes: int | None = None) -> bytes | None:
    """The next value, still packed; None at the end, TooLong when there is more than allowed."""
    head = source.read(LENGTH.size)
    if len(head) < LENGTH.size:
        return None
    (length,) = LENGTH.unpack(head)
    if most_bytes is not None and length > most_bytes:
        raise TooLong
    packed = source.read(length)
    return packed if len(packed) == length else None


class _Answer(pickle.Unpickler):
    def find_class(self, module: str, name: str) -> Any:
        """Only classes of this house, and what numbers and arrays are made of."""
        found = super().find_class(module, name)
        ours = module.partition(".")[0] in ("stash", "labels") and isinstance(found, type)
        if not ours and (module, name) not in PLAIN:
            raise pickle.UnpicklingError(f"{module}.{name}")
        return found


def answer(packed: bytes) -> Any:
    """An answer unpacked; UnpicklingError when it holds anything but values."""
    return _Answer(io.BytesIO(packed)).load()
