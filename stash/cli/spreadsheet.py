"""``lengthwise record import`` of a table, and ``record template``: in and out by spreadsheet."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from stash.cli.frame import Desk, json_option, pass_desk, say, told
from stash.cli.input import read_file
from stash.cli.open_record import open_record
from stash.cli.output import output_file, replace_option, write_output
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.workroom.spreadsheets.bring_in import BroughtIn, bring_in
from stash.workroom.spreadsheets.headings import Headings, as_said, headings_of, of_heading
from stash.workroom.spreadsheets.take_out import filled, template

FATES = {"new": "comes in", "same": "already so", "changed": "put right", "refused": "refused"}
"""What becomes of a row, as the page of tables calls it."""
TABLES = (".csv", ".tsv", ".txt", ".xlsx", ".ods")


def is_table(file: Path) -> bool:
    """Whether a file that is to be imported is a table, and not a copy of the record."""
    return file.suffix.lower() in TABLES


def import_table(
    desk: Desk, file: Path, said: tuple[tuple[str, ...], tuple[str, ...]], *, rehearse: bool,
    as_json: bool,
) -> None:
    """Bring the rows of a table in, all or none; ``said`` is what --column and --unit say."""
    table, headings = headings_of(read_file(file))
    headings = as_said(headings, _places(headings, said[0]), _places(headings, said[1]))
    with open_record(desk) as stash:
        done = bring_in(stash, table, headings, rehearse=rehearse)
    left_out = [c.heading for c in headings.columns if c.heading and not c.key]
    _tell(done, left_out, rehearse, as_json)


def _places(headings: Headings, said: tuple[str, ...]) -> dict[int, str]:
    """"Regal=place" as {the column's place: "place"}."""
    found: dict[int, str] = {}
    for typed in said:
        name, equals, meaning = typed.rpartition("=")
        if not equals:
            raise InvalidInput("column_and_meaning", typed=typed[:40])
        found[of_heading(headings, name)] = meaning.strip()
    return found


def _tell(done: BroughtIn, left_out: list[str], rehearse: bool, as_json: bool) -> None:
    rows = [{"row": one.row, "fate": one.fate, "says": told(one.says), "code": one.code,
             "fact": one.says.to_json()} for one in done.fates]
    refused = done.count("refused")
    words = {fate: _(word) for fate, word in FATES.items()}
    wide = max(map(len, words.values()))
    lines = [f"{one.row:>6}  {words[one.fate]:<{wide}}  {told(one.says)}" for one in done.fates]
    if left_out:
        lines.append(_("Not read: {names}.", names=', '.join(left_out)))
    if refused:
        lines.append(_("Rows refused: {refused}; nothing was written.", refused=refused))
    elif rehearse:
        lines.append(_(
            "Nothing was written; rows that would be: {changing}.", changing=done.changing))
    else:
        lines.append(_("Rows written: {written}.", written=done.written)
                     + (_(
                         " Taken back with: lengthwise undo {id}",
                         id=done.event.id,
                     ) if done.event else ""))
    value = {"rows": rows, "written": done.written, "not_read": left_out,
             "event": done.event.id if done.event else None}
    say(value, "\n".join(lines), as_json=as_json)
    if refused:
        sys.exit(1)


@click.command("template")
@click.argument("file", type=output_file)
@click.option("--filled", "with_stock", is_flag=True, help="With all that is here.")
@replace_option
@json_option
@pass_desk
def template_command(desk: Desk, file: Path, with_stock: bool, as_json: bool) -> None:
    """Write a table to fill in to FILE (.csv, .xlsx or .ods); "record import" reads it back."""
    kind = file.suffix.lower().lstrip(".")
    if with_stock:
        with open_record(desk) as stash:
            content = filled(stash, desk.reader, kind)
    else:
        content = template(desk.reader, kind)
    write_output(file, content)
    say({"ok": True, "file": str(file)}, _("The table is in {file}.", file=file), as_json=as_json)
