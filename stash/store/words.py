"""Finding cloth and notions by what a person types, whatever she types."""

from __future__ import annotations

import colorsys
import re

from stash.errors import InvalidInput
from stash.fibres import fibre
from stash.model import Cloth, Notion
from stash.store.database import Database

_HUES = (
    (15, "red"), (40, "orange"), (68, "yellow"), (165, "green"), (200, "turquoise"),
    (255, "blue"), (315, "purple"), (340, "pink"), (361, "red"),
)


def write(db: Database, subject: str, text: str) -> None:
    """Remember the words under which a subject is found, in small letters; none forget it."""
    text = text.casefold()
    if not text:
        db.execute("DELETE FROM findable WHERE subject = ?", (subject,))
        return
    db.execute(
        "INSERT INTO findable (subject, text) VALUES (?, ?) ON CONFLICT (subject)"
        " DO UPDATE SET text = excluded.text WHERE text <> excluded.text",
        (subject, text),
    )


def find(db: Database, typed: str, limit: int = 200) -> list[str]:
    """Subjects that hold every typed word or a word that begins with it, best first."""
    terms = re.findall(r"\w+", typed)
    if not terms:
        return []
    question = " ".join(f'"{term}"*' for term in terms[:12])
    rows = db.execute(
        "SELECT subject FROM findable_fts JOIN findable ON id = findable_fts.rowid"
        " WHERE findable_fts MATCH ? ORDER BY rank LIMIT ?",
        (question, limit),
    )
    return [subject for (subject,) in rows]


def of_cloth(cloth: Cloth) -> str:
    """Name, fibres, construction, colours in words, care and notes."""
    fibres = (fibre_words(share.fibre) for share in cloth.fibres)
    colours = (colour_words(colour) for colour in cloth.colours)
    made = cloth.construction.value if cloth.construction else ""
    return " ".join((cloth.name, *fibres, made, *colours, cloth.care, cloth.notes))


def of_notion(notion: Notion) -> str:
    """Kind, name, material, colour in words and notes."""
    colour = colour_words(notion.colour) if notion.colour else ""
    return " ".join((notion.kind.value, notion.name, notion.material, colour, notion.notes))


def fibre_words(name: str) -> str:
    """A fibre by all its names, so that "linen" finds flax."""
    try:
        known = fibre(name)
    except InvalidInput:
        return name
    return " ".join((known.name, *known.also))


def colour_words(colour: str) -> str:
    """"#7a1f2b" in plain words ("dark red"); a colour already in words stays as it is."""
    if not re.fullmatch(r"#[0-9a-fA-F]{6}", colour):
        return colour
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    hue, light, strength = colorsys.rgb_to_hls(red, green, blue)
    vivid = max(red, green, blue) - min(red, green, blue)
    if vivid < 0.08:
        return "white" if light > 0.92 else "black" if light < 0.13 else "grey"
    name = next(word for limit, word in _HUES if hue * 360 < limit)
    if name == "orange" and light < 0.45:
        return "brown"
    if name in ("orange", "yellow") and light > 0.6 and strength < 0.6:
        return "beige cream"
    shade = "dark " if light < 0.33 else "pale " if light > 0.78 else ""
    return shade + name
