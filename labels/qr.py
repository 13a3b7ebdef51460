"""QR symbols for labels: the smallest and strongest that holds the text.

Upper-case addresses use alphanumeric mode (ISO/IEC 18004, 7.4.4), so an address of
up to 35 characters stays in version 3 (29 x 29 modules) at level H, which repairs the
most damage; a bare code is version 1.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
import qrcode
from qrcode.constants import ERROR_CORRECT_H, ERROR_CORRECT_M, ERROR_CORRECT_Q
from qrcode.exceptions import DataOverflowError

from labels.mask import penalties
from stash.errors import InvalidInput

QUIET_MODULES = 4
PREFERRED_VERSION = 3
_LEVELS = {"H": ERROR_CORRECT_H, "Q": ERROR_CORRECT_Q, "M": ERROR_CORRECT_M}


@dataclass(frozen=True)
class Symbol:
    """``modules[row, column]`` is True where dark; no quiet zone is included."""

    text: str
    version: int
    level: str
    modules: np.ndarray

    @property
    def side(self) -> int:
        """Modules along one side, quiet zone included on both."""
        return len(self.modules) + 2 * QUIET_MODULES


def symbol(text: str) -> Symbol:
    """The symbol for a label: version 3 or less at the strongest level that fits, else level H.

    InvalidInput when the text is longer than a label can sensibly hold.
    """
    if len(text) > 100:
        raise InvalidInput("address_too_long")
    for level in _LEVELS:
        made = _make(text, level)
        if made.version <= PREFERRED_VERSION:
            return made
    return _make(text, "H")


def _make(text: str, level: str) -> Symbol:
    version, unmasked = _encode(text, level, mask=0)
    masked = unmasked ^ _flips(version, level)
    return Symbol(text, version, level, masked[penalties(masked).argmin()])


def _encode(text: str, level: str, mask: int, version: int | None = None) -> tuple[int, np.ndarray]:
    code = qrcode.QRCode(version, _LEVELS[level], border=0, mask_pattern=mask)
    code.add_data(text, optimize=0)
    try:
        code.make(fit=True)
    except DataOverflowError as error:
        raise InvalidInput("text_too_long") from error
    return code.version, np.array(code.get_matrix(), dtype=bool)


@cache
def _flips(version: int, level: str) -> np.ndarray:
    """What each of the eight masks changes against mask 0: the same for every text.

    So a symbol is laid out once and not eight times, which is what takes the time.
    """
    symbols = np.stack([_encode("0", level, mask, version)[1] for mask in range(8)])
    flips: np.ndarray = symbols ^ symbols[0]
    return flips
