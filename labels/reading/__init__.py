"""Labels read back: from a photograph's bytes, an image array, or a running camera."""

from labels.reading.cascade import Effort, look, read
from labels.reading.photograph import look_bytes, open_photograph, read_bytes
from labels.reading.sight import Reading, Sight

__all__ = [
    "Effort", "Reading", "Sight", "look", "look_bytes", "open_photograph", "read", "read_bytes",
]
