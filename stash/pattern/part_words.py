"""What a piece is, read once from the name it comes in with; afterwards only the field counts.

The words are the field's, in English, French and German (common practice, no source). What is
read wrongly is set right like anything else (see ``correcting``).
"""

from __future__ import annotations

from stash.model import Part

WORDS: dict[str, Part] = {
    "front": Part.FRONT, "devant": Part.FRONT, "vorderteil": Part.FRONT,
    "back": Part.BACK, "dos": Part.BACK, "rückenteil": Part.BACK,
    "sleeve": Part.SLEEVE, "manche": Part.SLEEVE, "ärmel": Part.SLEEVE,
    "yoke": Part.YOKE, "empiècement": Part.YOKE, "passe": Part.YOKE,
    "collar": Part.COLLAR, "col": Part.COLLAR, "kragen": Part.COLLAR,
    "stand": Part.COLLAR_STAND, "cuff": Part.CUFF, "poignet": Part.CUFF, "manschette": Part.CUFF,
    "waistband": Part.WAISTBAND, "ceinture": Part.WAISTBAND, "bund": Part.WAISTBAND,
    "band": Part.BAND, "bande": Part.BAND, "placket": Part.PLACKET, "fly": Part.FLY,
    "facing": Part.FACING, "parementure": Part.FACING, "beleg": Part.FACING,
    "pocket": Part.POCKET, "poche": Part.POCKET, "tasche": Part.POCKET, "bag": Part.POCKET,
    "belt": Part.BELT, "tie": Part.BELT, "gürtel": Part.BELT, "strap": Part.STRAP,
    "handle": Part.STRAP, "loop": Part.LOOP, "binding": Part.BINDING, "biais": Part.BINDING,
}
# Where two are named, the smaller one says what the piece is: a front facing is a facing.
LAST = (Part.FRONT, Part.BACK, Part.SLEEVE)


def part_named(name: str) -> Part:
    """The part that a piece's name speaks of; BODY where it speaks of none."""
    words = name.lower().replace("-", " ").replace("_", " ").split()
    found = [WORDS[w] for w in (word.strip(".,:;()") for word in words) if w in WORDS]
    if Part.COLLAR in found and Part.COLLAR_STAND in found:
        return Part.COLLAR_STAND
    small = [part for part in found if part not in LAST]
    return next(iter(small or found), Part.BODY)
