"""Labels read back: from a photograph's bytes, an image array, or a running camera."""

from labels.reading.cascade import Thoroughness, look, read
from labels.reading.photograph import look_apart, look_bytes, open_photograph, read_bytes
from labels.reading.readings import LabelReading, PhotoReadings

__all__ = [
    "LabelReading", "PhotoReadings", "Thoroughness", "look", "look_apart", "look_bytes",
    "open_photograph", "read", "read_bytes",
]
