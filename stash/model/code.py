"""The short code on a label: five characters and a check character.

The alphabet leaves out 0, 1, I, L and O. Its 31 characters are a prime number
of symbols, so a weighted sum modulo 31 catches every single wrong character
and every swap of two characters (ISO/IEC 7064 states the same property for
its own pure systems with prime moduli).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from random import Random

from stash.errors import InvalidInput

ALPHABET = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
DATA_LENGTH = 5
FORM = re.compile(rf"[{ALPHABET}]{{{DATA_LENGTH + 1}}}")


@dataclass(frozen=True, order=True)
class Code:
    """A checked code, upper case, for example ``Code.parse("7k3f-q9")``."""

    text: str

    def __str__(self) -> str:
        return self.text

    @classmethod
    def parse(cls, typed: str) -> Code:
        """Read what a person typed or a reader saw; InvalidInput when it is not a code."""
        text = re.sub(r"[\s\-.]", "", typed).upper()
        if not FORM.fullmatch(text):
            raise InvalidInput(
                "not_a_code", typed=typed.strip()[:40], letters=DATA_LENGTH + 1, field="code")
        if check_character(text[:DATA_LENGTH]) != text[-1]:
            raise InvalidInput("code_misread", typed=text, field="code")
        return cls(text)

    @classmethod
    def draw(cls, random: Random) -> Code:
        """A new code; the caller makes sure it is not yet taken."""
        data = "".join(random.choice(ALPHABET) for _ in range(DATA_LENGTH))
        return cls(data + check_character(data))


def check_character(data: str) -> str:
    """The character that makes the weighted sum of all characters 0 modulo 31."""
    total = sum(weight * ALPHABET.index(c) for weight, c in enumerate(data, start=2))
    return ALPHABET[-total % len(ALPHABET)]
