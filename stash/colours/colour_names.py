"""The names of colour_names.csv; each row gives its source and status.

The nearest name is by distance in Oklab, a published perceptual space (B. Ottosson, "A
perceptual color space for image processing", 2020): enough to name a colour, never to match one.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from stash.errors import InvalidInput

HEX = re.compile(r"#?([0-9a-f]{6})", re.IGNORECASE)
BOTH = re.compile(r"[^#]*\(\s*(#[0-9a-f]{6})\s*\)", re.IGNORECASE)
MOST_COLOURS = 4
LONGEST = 40
HUE_COUNTS = 3.0  # a name is of a hue first, of a depth second (by trial on the demo's cloths)
DARKEST = 0.25  # below this lightness cloth is black to the eye (common practice, no source)
Lab = tuple[float, float, float]


@dataclass(frozen=True)
class ColourName:
    """One colour: its English name, the French and German ones, other words, and "#rrggbb".

    ``family`` is the name of the plain colour it is a kind of: navy is a blue.
    """

    name: str
    family: str
    french: str
    german: str
    also: tuple[str, ...]
    hex: str
    status: str
    source: str

    @property
    def words(self) -> tuple[str, ...]:
        """Every word it goes by."""
        return (self.name, self.french, self.german, *self.also)

    def said(self, language: str) -> str:
        """Its name in a language."""
        return {"fr": self.french, "de": self.german}.get(language, self.name)


@cache
def colour_names() -> tuple[ColourName, ...]:
    """Every colour there is a name for, in the order of the table."""
    text = files(__package__).joinpath("colour_names.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines())
    return tuple(ColourName(
        name=row["name"], family=row["family"], french=row["french"], german=row["german"],
        also=tuple(word for word in row["also"].split(";") if word), hex=row["hex"],
        status=row["status"], source=row["source"]) for row in rows)


@cache
def _by_word() -> dict[str, ColourName]:
    found: dict[str, ColourName] = {}
    for colour in colour_names():
        for word in colour.words:
            found.setdefault(_plain(word), colour)
    return found


def read_colour(text: str, *, field: str = "colour") -> str:
    """"#7a1f2b" of a name in any of the three languages, of "#7A1F2B" or "dark red (#7a1f2b)".

    Raises InvalidInput for a word that is no colour here.
    """
    if found := HEX.fullmatch(text.strip()) or BOTH.fullmatch(text.strip()):
        return f"#{found.group(1).lower().lstrip('#')}"
    named = _by_word().get(_plain(text))
    if named is None:
        raise InvalidInput("not_a_colour_name", typed=text.strip()[:LONGEST], field=field)
    return named.hex


def read_colours(text: str, *, field: str = "colour") -> tuple[str, ...]:
    """Up to four colours, apart by commas or semicolons; figures also by spaces."""
    parts = [part for part in re.split(r"[,;]|\s+(?=#)", text) if part.strip()]
    return tuple(read_colour(part, field=field) for part in parts[:MOST_COLOURS])


@cache
def nearest(colour: str) -> ColourName:
    """The name that is nearest to "#7a1f2b"."""
    here = _oklab(colour)

    def apart(one: ColourName) -> float:
        light, red, yellow = (a - b for a, b in zip(here, _oklab(one.hex), strict=True))
        return HUE_COUNTS * (red * red + yellow * yellow) + light * light

    return min(colour_names(), key=apart)


def colour_named(name: str) -> ColourName:
    """The colour of this English name; KeyError when there is none."""
    return next(one for one in colour_names() if one.name == name)


@cache
def colour_says(colour: str, word: str) -> bool:
    """Whether a word that somebody types is the beginning of one that names this colour."""
    if not HEX.fullmatch(colour):
        return colour.casefold().startswith(word)
    near = nearest(colour)
    named = (*near.words, *colour_named(near.family).words)
    return any(part.startswith(word) for said in named for part in _plain(said).split())


def _plain(word: str) -> str:
    return " ".join(word.replace("-", " ").split()).casefold()


@cache
def _oklab(colour: str) -> Lab:
    red, green, blue = (_linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
    long = (0.4122214708 * red + 0.5363325363 * green + 0.0514459929 * blue) ** (1 / 3)
    middle = (0.2119034982 * red + 0.6806995451 * green + 0.1073969566 * blue) ** (1 / 3)
    short = (0.0883024619 * red + 0.2817188376 * green + 0.6299787005 * blue) ** (1 / 3)
    return (
        max(DARKEST, 0.2104542553 * long + 0.7936177850 * middle - 0.0040720468 * short),
        1.9779984951 * long - 2.4285922050 * middle + 0.4505937099 * short,
        0.0259040371 * long + 0.7827717662 * middle - 0.8086757660 * short,
    )


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
