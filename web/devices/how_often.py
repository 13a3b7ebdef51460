"""How often one address may ask, and how often it may fail to be known."""

from __future__ import annotations

import threading
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field

MOST_ADDRESSES = 2000


@dataclass
class Bucket:
    """Holds ``most`` drops and gains ``a_second`` again."""

    most: float
    a_second: float
    clock: Callable[[], float] = time.monotonic
    _left: OrderedDict[str, tuple[float, float]] = field(default_factory=OrderedDict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def take(self, address: str, drops: float = 1.0) -> bool:
        """Take from an address's share; False when there is not enough left."""
        with self._lock:
            now = self.clock()
            left, since = self._left.pop(address, (self.most, now))
            left = min(self.most, left + (now - since) * self.a_second)
            enough = left >= drops
            self._left[address] = (left - drops if enough else left, now)
            while len(self._left) > MOST_ADDRESSES:
                self._left.popitem(last=False)
            return enough
