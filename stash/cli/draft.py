"""``lengthwise draft``: draft a garment to measure; print or save its pieces."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import click

from stash.cli import written
from stash.cli.draft_option import parse_option
from stash.cli.frame import Desk, json_option, pass_desk, reader, say
from stash.cli.open_record import open_record
from stash.cli.output import output_file, replace_option
from stash.cli.pattern_said import pattern_title, piece_line, save_pattern, saved_line
from stash.cli.person import parse_measure
from stash.cli.words import _
from stash.model import Need, NotionKind, Pattern
from stash.model.wire import pattern_json
from stash.sentences import say as say_fact
from stash.sentences.regional import both_names
from stash.workroom import people
from stash.workroom.drafts import (
    GarmentInfo,
    Measure,
    Option,
    about,
    draft,
    drafted,
    for_cut,
    garments,
    how,
    word,
)


@click.command()
@click.argument("name")
@click.option(
    "--measure", "measures", multiple=True, metavar="TERM=LENGTH",
    help="For example hip=100cm; may be repeated.",
)
@click.option("--for", "person", help="Use the measurements of a person on record.")
@click.option(
    "--body", type=click.Choice(["women", "men", "children"]),
    help="The body table for what was not measured.",
)
@click.option(
    "--option", "choices", multiple=True, metavar="NAME=VALUE",
    help="For example length=45cm or sleeve=long; may be repeated.",
)
@click.option("--list-options", is_flag=True, help="Show measurements and options; draft nothing.")
@replace_option
@click.option("--svg", type=output_file, help="Save a full-size drawing.")
@click.option("--dxf", type=output_file, help="Save for a cutting program.")
@click.option(
    "--tiled", nargs=2, type=(click.Choice(["a4", "letter", "a0"]), click.Path(path_type=Path)),
    metavar="PAPER FILE",
    help="Save a full-size PDF: on pages of a4 or letter paper, or on one sheet of a0 width.",
)
@click.option("--as-measured", default="", metavar="DAY",
              help="Draw by the measurements of an earlier day, for example 2025-03-01.")
@click.option("--cloth", "code", default="", metavar="CODE",
              help="Draw a knit by the stretch on record of this cut.")
@json_option
@pass_desk
def command(
    desk: Desk, name: str, measures: tuple[str, ...], person: str | None, body: str | None,
    choices: tuple[str, ...], list_options: bool, svg: Path | None, dxf: Path | None,
    tiled: tuple[str, Path] | None, as_measured: str, code: str, as_json: bool,
) -> None:
    """Draft a garment from body measurements."""
    if list_options:
        info = about(name)
        say(info_json(info), _info_text(info), as_json=as_json)
        return
    measured = dict(map(parse_measure, measures))
    options: Mapping[str, object] = dict(map(parse_option, choices))
    if code:
        with open_record(desk) as stash:
            options = for_cut(stash, name, options, code)
    if person:
        with open_record(desk) as stash:
            known = people.person(stash, person)
        known = replace(known, measurements_mm={**known.measurements_mm, **measured},
                        body=body or known.body)
        pattern = drafted(known, name, options, as_measured)
    else:
        pattern = draft(name, measured, options, body)
    saved = save_pattern(pattern, svg, dxf, tiled)
    say({**pattern_json(pattern), "files": saved}, _text(pattern, saved), as_json=as_json)


def info_json(info: GarmentInfo) -> dict[str, object]:
    """Measurements and options of a garment, lengths in mm."""
    return {
        "garment": info.name, "title": info.title, "measurements": list(info.measurements),
        "estimated_when_missing": list(info.estimates),
        "how_to_measure": {name: how(name) for name in _asked(info) + list(info.estimates)},
        "options": [o.to_json() for o in info.options], "garments": list(garments()),
    }


def _info_text(info: GarmentInfo) -> str:
    lines = [_(info.title)]
    lines += [
        _("  {word}, needed: {how}", word=both_names(word(name), reader()), how=_(how(name)))
        for name in _asked(info)
    ]
    lines += [_(
        "  {word}, else estimated: {how}",
        word=both_names(word(name), reader()), how=_(how(name)),
    ) for name in info.estimates]
    return "\n".join(lines + [
        written.of(f"  {o.name}", _("{what}; {range}", what=_(o.about), range=_range(o)))
        for o in info.options])


def _asked(info: GarmentInfo) -> list[str]:
    return [name for either in info.measurements for name in either.split("|")]


def _range(option: Option) -> str:
    if not isinstance(option, Measure):
        return f"{', '.join(option.words)} [{option.default}]"
    default = "" if option.default is None else f" [{written.tape(option.default)}]"
    return _("{least} to {most}", least=written.tape(option.least_mm),
             most=written.tape(option.most_mm)) + default


def _text(pattern: Pattern, saved: list[str]) -> str:
    lines = [pattern_title(pattern), *map(piece_line, pattern.pieces)]
    lines += [_("Notions"), *(f"  {_need_line(n)}" for n in pattern.notions)]
    if pattern.estimated:
        lines.append(_("Estimated, please measure: ") + ", ".join(_said(pattern.measurements_mm, e)
                                                               for e in pattern.estimated))
    lines += [say_fact(f, reader()) for f in pattern.facts]
    return "\n".join([*lines, *map(_, pattern.cautions), *map(saved_line, saved)])


def _need_line(need: Need) -> str:
    much = need.count if need.count is not None else need.length_mm
    amount = written.amount(need.kind, float(much or 0))
    size = f", {written.size_of(need.kind, need.size_mm[1])}" if need.size_mm else ""
    if need.kind is NotionKind.THREAD and need.group:  # sewing, overlock: threads of two cones
        size = f", {_(need.group)}"
    return _(
        "{amount} {thing}{size} (for {part})",
        amount=amount, thing=_(need.kind.value), size=size, part=say_fact(need.reason, reader()),
    )


def _said(values: Mapping[str, float], name: str) -> str:
    return f"{_(word(name))} {written.tape(values[name])}"
