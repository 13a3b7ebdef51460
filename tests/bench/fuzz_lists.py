"""Everything that reads what somebody else wrote: the lists that the fuzz works through."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]

PARSERS: dict[str, Callable[[Any], tuple[Any, ...]]] = {
    # name of the parser: from what was drawn to the arguments of a call
    "stash.colours.colour_names:read_colour": lambda t: (t,),
    "stash.colours.colour_names:read_colours": lambda t: (t,),
    "stash.cli.bite_option:parse_bite": lambda t: (t,),
    "stash.cli.bite_option:parse_pieces": lambda t: (t,),
    "stash.cli.draft_option:parse_option": lambda t: (t,),
    "stash.cli.person:parse_measure": lambda t: (t,),
    "stash.eye.floor.upright:read_picture": lambda t: (as_bytes(t),),
    "stash.draft.altering.step_words:parse_alteration": lambda t: (t, a_pattern()),
    "stash.fibres.composition:parse_composition": lambda t: (t,),
    "stash.model.address:tidy": lambda t: (t,),
    "stash.model.came:parse_came": lambda t: (t,),
    "stash.model.amounts:read_amount": lambda t: (kind(t), t),
    "stash.model.amounts:read_notion_size": lambda t: (kind(t), t),
    "stash.model.weights:read_grams": lambda t: (t,),
    "stash.model.weights:read_swatch": lambda t: (t,),
    "stash.model.weights:read_known": lambda t: (kind(t), t),
    "stash.pattern.piece_words:parse_change": lambda t: (t,),
    "stash.pattern.piece_words:parse_weights": lambda t: (t,),
    "stash.pattern.piece_words:parse_percent": lambda t: (t,),
    "stash.pattern.piece_words:parse_need": lambda t: (t,),
    "stash.pattern.piece_words:parse_turn": lambda t: (t,),
    "stash.workroom.patterns:read_need": lambda t: (kind(t), t, t[::-1]),
    "stash.pattern.sizes:parse_size_table": lambda t: (t,),
    "stash.pattern.annotation:read_annotation": lambda t: ([t],),
    "stash.pattern.dxf_reading:read_dxf": lambda t: (as_dxf(t), "mm"),
    "stash.pattern.importing:read_pattern": lambda t: (as_bytes(t), "mm"),
    "stash.pattern.svg_lines:read_lines": lambda t: (as_svg(t), "mm"),
    "stash.pattern.svg_reading:read_svg": lambda t: (as_svg(t), "mm"),
    "stash.pattern.typed:parse_typed": lambda t: (t,),
    "stash.pattern.width_table:parse_table": lambda t: (t.splitlines() or [t],),
    "stash.quantity:read_length": lambda t: (t, quantity(t)),
    "stash.quantity:read_new_length": lambda t: (t,),
    "stash.workroom.measuring:read_pixel": lambda t: (t,),
    "stash.quantity:read_length_or_nothing": lambda t: (t, quantity(t)),
    "stash.quantity:read_size": lambda t: (t, quantity(t), quantity(t)),
    "stash.quantity:read_cut_size": lambda t: (t,),
    "stash.spreadsheet.reading:read_spreadsheet": lambda t: (as_bytes(t),),
    "stash.store.places:tidy_name": lambda t: (t,),
    "stash.units:parse_length": lambda t: (t,),
    "stash.units:parse_mass": lambda t: (t,),
    "stash.model.code:Code.parse": lambda t: (t,),
    "labels.payload:interpret": lambda t: (t,),
    "labels.reading.photograph:read_bytes": lambda t: (as_bytes(t),),
    "labels.reading.tag_codes:read_tag": lambda t: (as_bytes(t),),
    "stash.store.backup.verify:verify": lambda t: (as_file(t),),
}
NOT_FROM_OUTSIDE = {
    "stash.foreign.apart:read_apart": "takes a reader, not a text",
    "stash.spreadsheet.told:read_told": "takes a row and its columns; the commands try it",
    "stash.cli.pattern_said:read_file": "opens a file that was named; the commands try it",
    "stash.cli.input:read_file": "opens a file that was named; the commands try it",
    "labels.reading.photographs:read_file": "opens a file that was named; the commands try it",
    "stash.workroom.patterns:read_pattern": "the door to stash.pattern.importing:read_pattern",
    "labels.reading.flat:read_flat": "takes a decoded picture",
    "labels.reading.tag_codes:read_tag_apart": "read_tag in a process of its own",
    "labels.reading.lost_finder:read_pairs": "takes a decoded picture",
    "labels.reading.unroll:read_bent": "takes a decoded picture",
    "web.pages.scan:read_photos": "reads a request; the routes try it",
}
NOT_TRIED = {"serve": "answers until it is stopped", "demo": "fills a folder and serves it",
             "scan": "may open a camera; its reader is tried as a parser"}
COMMANDS = """
bin add
bin count
bin gone
bin list
bin measure
bin move
bin put
bin show
bin take
bin weigh
buttons
calibration
colour
cut add
cut back
cut flaw
cut gone
cut join
cut lend
cut list
cut measure
cut move
cut off
cut out
cut remains
cut roll
cut sell
cut show
cut square
cut wash
cut weigh
demo
device list
device pair
device revoke
draft
far
find
fit
keep bring
keep check
keep copies
keep copy
keep table
labels
lay
like
need
pattern add
pattern alter
pattern import
pattern list
pattern set
pattern show
pattern table
pattern trace
person add
person adjust
person list
person show
place add
place list
place show
plan add
plan choose
plan hold
plan list
plan made
plan release
plan remove
plan show
record backup
record check
record copies
record export
record import
record repair
record restore
record table
record template
record verify
report
scan
serve
settings set
settings show
shop
thread
undo
"""
COMMANDS = tuple(COMMANDS.strip().splitlines())

TEXTS = (
    "", " ", "0", "-1", "1", "1.5 m", "30 cm", "1 1/2 yd", "2'6\"", "45 in", "150x114", "1m x 2m",
    "9" * 400, "0." + "0" * 400 + "1", "1e400", "-1e400", "1e-400", "nan", "inf", "-inf", "1/0",
    "½", "١٢٣ cm", "\0", "a" * 3000, "..", "../..", ".", "new", "one", "NaN", "null", "true",
    "=1+1", "+1", "@x", "<b>x</b>", "'; DROP TABLE event; --", "%s%n", "{0}", "{{7*7}}", "😀",
    "e\u0301" * 50, "\u202e", "K7MN4P", "K7M-N4P", "AAAAAA", "aaaaaa", "9223372036854775808",
    "-9223372036854775809", "[[0,0],[9,0],[9,9]]", "[[NaN,0]]", "[" * 2000, '{"a":' * 500,
    "100% cotton", "60% flax, 50% cotton", "front, 30cm x 40cm, cut 2", "metric", "inches",
    "http://" + "a" * 3000, "http://[::1", "https://x:99999", "1 m;2 m", "1-2-3", "10 000",
    "10,5", "10.5.5", "cm", "m m", "1 furlong", "#12345", "#7a1f2b", "2026-02-30", "0000-00-00",
    "woven", "knit", "button", "shirt", "tote-bag", "trousers@..", "person=..", "hip=nan",
)
ALPHABET = "0123456789./-+xX'\" cmdinyft%½=:,;@#\n\t\\\0éß字😀aZ{}[]<>&"


def nasty(random_: random.Random) -> str:
    """A text that somebody might type, or would rather not."""
    pick = random_.random()
    if pick < 0.55:
        return random_.choice(TEXTS)
    if pick < 0.7:
        return random_.choice(TEXTS)[:200] + random_.choice(TEXTS)[:200]
    text = "".join(random_.choice(ALPHABET) for _ in range(random_.randint(0, 24)))
    return text if pick < 0.95 else text * random_.randint(1, 60)


def fields() -> tuple[str, ...]:
    """The names of all fields that pages read or show."""
    names: set[str] = set()
    for path in (ROOT / "web").rglob("*.py"):
        text = path.read_text(encoding="utf-8")
        names |= set(re.findall(r'(?:forms\.\w+|get|getlist)\(\s*f?"([\w{}-]+)"', text))
    for path in (ROOT / "web" / "templates").rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        names |= set(re.findall(r'(?:field|choose|name)(?:\(|=)"([\w-]+)"', text))
    return tuple(sorted(name.replace("{row}", "0").replace("{n}", "0") for name in names))


FIELDS = fields()


def as_bytes(text: str) -> bytes:
    """Bytes that begin as some kind of file does, or as none."""
    heads = (b"", b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff\xe0", b"GIF89a", b"<svg ", b"0\nSECTION\n",
             b"BM", b"RIFF\x10\0\0\0WEBP", b"PK\x03\x04", b"SQLite format 3\0", b"%PDF-1.7")
    return heads[len(text) % len(heads)] + text.encode("utf-8", "surrogatepass")


def as_svg(text: str) -> bytes:
    """A drawing with the text where its path and its size stand."""
    from xml.sax.saxutils import quoteattr

    clean = "".join(c for c in text if c.isprintable())
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width={quoteattr(clean[:20])} height="9cm" '
            f'viewBox="0 0 90 90"><path d={quoteattr("M0 0 " + clean)}/></svg>').encode()


def as_dxf(text: str) -> bytes:
    """A drawing of text where its entities stand."""
    return f"0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n1\n10\n{text}\n20\n0\n0\nENDSEC\n0\nEOF\n".encode(
        "utf-8", "surrogatepass")


def as_file(text: str) -> Path:
    """A file with such bytes in it."""
    path = Path("somebody's file")
    path.write_bytes(as_bytes(text))
    return path


def kind(text: str) -> Any:
    """A kind of notion, by the length of the text."""
    from stash.model import NotionKind

    return list(NotionKind)[len(text) % len(NotionKind)]


def a_pattern() -> Any:
    """A skirt to be altered."""
    from stash.draft.catalogue import draft

    return draft("straight-skirt", {"hip": 1000.0, "waist": 740.0})


def quantity(text: str) -> Any:
    """A kind of length, by the length of the text."""
    from stash.quantity import Quantity

    return list(Quantity)[len(text) % len(Quantity)]
