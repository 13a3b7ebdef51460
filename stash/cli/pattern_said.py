"""How patterns are read from files, and said as JSON and as text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import repeat
from pathlib import Path

from stash.cli import written
from stash.cli.frame import Desk, reader, say, told
from stash.cli.open_record import open_record
from stash.cli.output import write_output
from stash.cli.words import _
from stash.model import Outline, Pattern, Piece, Role
from stash.model.wire import facts_json, piece_json
from stash.sentences.saying import piece_named
from stash.sentences.translations import translated
from stash.workroom import pattern_files, patterns
from stash.workroom.drafts import title_of
from stash.workroom.patterns import KeptPattern, LongEnough, Reading


def save_pattern(
    pattern: Pattern, svg: Path | None, dxf: Path | None, tiled: tuple[str, Path] | None
) -> list[str]:
    """Write the pattern in every form that was asked for; the names of the files."""
    asked = [("svg", svg), ("dxf", dxf)]
    if tiled:
        asked.append((f"{tiled[0]}.pdf", tiled[1]))
    wanted = [(form, path) for form, path in asked if path]
    for form, path in wanted:
        write_output(path, pattern_files.content(pattern, form, pattern_title(pattern), reader()))
    return [str(path) for _form, path in wanted]


def saved_line(file: str) -> str:
    """Where a pattern was written."""
    return _("Saved {file}", file=file)


def pattern_title(pattern: Pattern) -> str:
    """What a pattern is called: a draft by its title, her own as she named it."""
    return translated(title_of(pattern.garment), reader().language)


def save_sizes(sizes: Sequence[tuple[str, Pattern]], path: Path, title: str) -> str:
    """Write several sizes as one exchange file; its name."""
    write_output(path, pattern_files.sizes_content(sizes, title, reader()))
    return str(path)


def piece_value(piece: Piece, drawn_mm: tuple[float, float] | None = None) -> dict[str, object]:
    """One piece; width and height as drawn in the file, or across and along the grain."""
    outline = Outline(piece.outline_mm)
    width, height = drawn_mm or (outline.width_mm, outline.length_mm)
    return {
        **piece_json(piece), "width_mm": round(width, 2), "height_mm": round(height, 2),
        "area_mm2": round(outline.area_mm2, 1),
    }


def keep_reading(
    desk: Desk, name: str, reading: Reading, source: str, as_json: bool
) -> None:
    """Keep a new version of a pattern and say what is in it."""
    with open_record(desk) as stash:
        _event, kept = patterns.keep(stash, name, reading.pieces, source)
    say({"pattern": kept.name, "version": kept.version, **reading_json(reading)},
        reading_text(kept_title(kept), reading), as_json=as_json)


def kept_title(kept: KeptPattern) -> str:
    """Under which name and as which version it was kept."""
    return _("Kept {name}, version {version}", name=kept.name, version=kept.version)


def reading_json(
    reading: Reading, extra: Sequence[Mapping[str, object]] = ()
) -> dict[str, object]:
    """The pieces that came in, with what else is known of each, and what was left out or assumed.
    """
    pieces = [
        {**piece_value(piece, drawn), **more}
        for piece, drawn, more in zip(
            reading.pieces, reading.drawn_mm, extra or repeat({}), strict=False)
    ]
    return {"pieces": pieces, "notes": [told(note) for note in reading.notes],
            "note_facts": facts_json(reading.notes)}


def reading_text(title: str, reading: Reading) -> str:
    """The pieces, a line each, under a title."""
    return "\n".join([title, *map(piece_line, reading.pieces),
                      *map(told, reading.notes)])


def piece_line(piece: Piece) -> str:
    """One piece in one line: how many, which way, how large."""
    box = Outline(piece.outline_mm)
    ways = _(" mirrored") if piece.mirrored_pair else _(" on the fold") if piece.on_fold else ""
    size = written.piece_size(box.length_mm, box.width_mm)
    role = "" if piece.role is Role.MAIN else f", {_(piece.role.value)}"
    return f"  {piece.quantity} {piece_named(piece.name, reader())}{ways}, {size}{role}"


def estimate_value(one: LongEnough) -> dict[str, object]:
    """One cut by a printed table."""
    return {
        "cut": one.cut.code, "name": one.cut.cloth.name, "fits": one.spare_mm >= 0,
        "spare_mm": one.spare_mm, "reason": told(one.need.reason),
        "fact": one.need.reason.to_json(),
    }


def estimate_line(one: LongEnough) -> str:
    """One cut that is long enough."""
    return _(
        "  {code}  {name}, {length} spare",
        code=one.cut.code, name=one.cut.cloth.name, length=written.tape(one.spare_mm),
    )
