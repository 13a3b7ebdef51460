"""``lengthwise record``: backups, copies, checks, and the way back."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import click

from stash.cli.frame import Desk, json_option, pass_desk, reader, say, told
from stash.cli.instead import only_one
from stash.cli.open_record import open_record
from stash.cli.output import output_file, replace_option, write_output
from stash.cli.spreadsheet import import_table, is_table, template_command
from stash.cli.words import _
from stash.errors import StashError
from stash.fact import Fact
from stash.sentences.manner import minute
from stash.workroom import safekeeping
from stash.workroom.safekeeping import Findings

DAMAGED = ("photo_damaged", "piece_photo_damaged")
given_file = click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
new_file = click.argument("file", type=output_file)


@click.group()
def command() -> None:
    """Keep the record safe: back it up, check it, bring it back."""


@command.command()
@new_file
@replace_option
@json_option
@pass_desk
def backup(desk: Desk, file: Path, as_json: bool) -> None:
    """Write the whole record, photographs too, to FILE (a zip)."""
    with open_record(desk) as stash:
        report = safekeeping.back_up(stash, file)
    size = file.stat().st_size
    _tell(report, _(
        "Entries: {events}, picture files: {photos}, in {file} ({size} bytes).",
        events=report.events, photos=report.photos, file=file, size=float(size),
    ), as_json, written=True, file=str(file), bytes=size)


@command.command()
@given_file
@json_option
def verify(file: Path, as_json: bool) -> None:
    """Look a backup FILE through, photographs too, without bringing it back."""
    report = _attempt(lambda: safekeeping.verify_file(file), as_json)
    _tell(report, _(
        "{file} is sound: entries {events}, picture files {photos}.",
        file=file, events=report.events, photos=report.photos,
    ),
          as_json, file=str(file))


@command.command()
@given_file
@click.option("--replace", is_flag=True, help="Put a record that is there already aside.")
@json_option
@pass_desk
def restore(desk: Desk, file: Path, replace: bool, as_json: bool) -> None:
    """Bring the record back from FILE: a backup, or one of the daily copies.

    Either all of it comes back, or nothing is changed; then it may be run again.
    """
    report = _attempt(
        lambda: safekeeping.bring_back(file, desk.data, replace=replace), as_json)
    _tell(report, _(
        "All of it is back: entries {events}, picture files {photos}.",
        events=report.events, photos=report.photos,
    ), as_json,
          file=str(file), photos_lost=sum(f.kind in DAMAGED for f in report.faults))


@command.command()
@json_option
@pass_desk
def check(desk: Desk, as_json: bool) -> None:
    """Check file, ledger, tables and photographs, and name everything that is wrong."""
    report = safekeeping.check_record(desk.data)
    _tell(report, _(
        "The record is sound: entries {events}, photographs {photos}.",
        events=report.events, photos=report.photos,
    ),
          as_json, subjects=report.subjects, sound=report.ok)


@command.command()
@click.option("--copies-in", "second", type=click.Path(file_okay=False, path_type=Path),
              help="Look for copies in this second place too.")
@json_option
@pass_desk
def repair(desk: Desk, second: Path | None, as_json: bool) -> None:
    """Put the record right in one step, from the newest good copy where that is needed."""
    done = safekeeping.put_right(desk.data, second)
    if done.before.ok:
        text = _("The record is sound; nothing was changed.")
    else:
        source = _(
            "from the copy {copy}",
            copy=done.copy,
        ) if done.copy else _("from its own ledger")
        lost = "" if not done.lost else _(" {lost} entries are lost.", lost=done.lost)
        later = _(" {saved} later entries were kept too.", saved=done.saved) if done.saved else ""
        text = (_(
            "Repaired {source}: entries {events}.{later}{lost} What lay there before is put "
            "aside among the copies.",
            source=source, events=done.after.events, later=later, lost=lost,
        ))
    _tell(done.after, text, as_json, copy=str(done.copy or ""), saved=done.saved, lost=done.lost,
          was=[_fault(one) for one in done.before.faults])


@command.command()
@click.option("--also", type=click.Path(file_okay=False, path_type=Path),
              help="From now on make the copies in this folder too, best on another disk.")
@click.option("--only-here", is_flag=True, help="Make no copies in a second place any more.")
@json_option
@pass_desk
def copies(desk: Desk, also: Path | None, only_here: bool, as_json: bool) -> None:
    """List the copies made once a day it is used, newest first, and where they lie."""
    only_one(also=also, only_here=only_here)
    if also or only_here:
        safekeeping.copy_also_to(desk.data, also)
    else:
        safekeeping.renew_second_place(desk.data)
    with open_record(desk) as stash:
        found = [str(path) for path in safekeeping.copies_here(stash)]
        places = [{"place": c.place, "newest": str(c.newest or ""), "at": c.at}
                  for c in safekeeping.copies(stash)]
    lines = found or [_("There is no copy yet; the first is made tomorrow.")]
    lines += [_(
        "{place}: last copy {when}",
        place=p['place'], when=minute(p['at'], reader()) if p['at'] else _("none yet"),
    )
              for p in places]
    say({"ok": True, "copies": found, "places": places}, "\n".join(lines), as_json=as_json)


@command.command()
@new_file
@click.option("--photos", is_flag=True, help="With the photographs.")
@click.option("--measurements", is_flag=True,
              help="With body measurements, and the history that holds them.")
@replace_option
@json_option
@pass_desk
def export(
    desk: Desk, file: Path, photos: bool, measurements: bool, as_json: bool
) -> None:
    """Write tables (CSV) and JSON, each field described, to FILE (a zip).

    With --photos and --measurements "record import" makes an identical record of it.
    """
    with open_record(desk) as stash:
        report = safekeeping.take_out(stash, file, photos=photos, measurements=measurements)
    _tell(report, _(
        "{file} holds the tables and what each field means.",
        file=file,
    ), as_json, written=True, file=str(file))


@command.command("import")
@given_file
@click.option("--dry-run", "rehearse", is_flag=True,
              help="Of a table: say what would become of each row, and write nothing.")
@click.option("--column", "columns", multiple=True, metavar="HEADING=MEANING",
              help="Of a table: what a column says, as in Shelf=place; empty leaves it out.")
@click.option("--unit", "units", multiple=True, metavar="HEADING=UNIT",
              help="Of a table: the unit of a column's bare numbers, as in Width=cm.")
@click.option("--replace", is_flag=True,
              help="Of a backup: put a record that is there already aside.")
@json_option
@click.pass_context
def bring(
    ctx: click.Context, file: Path, rehearse: bool, columns: tuple[str, ...],
    units: tuple[str, ...], replace: bool, as_json: bool,
) -> None:
    """Bring in FILE: a table of cuts and bins (.csv, .xlsx, .ods), or a backup (.zip, .db).

    Of a table all rows are written or none, and the same file twice doubles nothing.
    """
    if is_table(file):
        import_table(ctx.find_root().obj, file, (columns, units), rehearse=rehearse,
                     as_json=as_json)
    else:
        ctx.invoke(restore, file=file, replace=replace, as_json=as_json)


command.add_command(template_command)


@command.command()
@new_file
@replace_option
@json_option
@pass_desk
def table(desk: Desk, file: Path, as_json: bool) -> None:
    """Write the cuts and bins that are here to FILE, a table for a spreadsheet (CSV)."""
    with open_record(desk) as stash:
        text = safekeeping.table(stash)
    write_output(file, text.encode("utf-8-sig"))
    say({"ok": True, "file": str(file)}, _("The table is in {file}.", file=file), as_json=as_json)


def _tell(
    report: Findings, text: str, as_json: bool, *, written: bool = False, **more: object
) -> None:
    """Print a report; exit with 1 when anything is wrong, also with what was written."""
    faults = [_fault(one) for one in report.faults]
    value = {"ok": report.ok, "events": report.events, "photos": report.photos, "faults": faults}
    said = [text] if written and faults else []
    said += [str(one["says"]) for one in faults[:20]]
    if len(faults) > 20:
        said.append(_("And {number} more.", number=len(faults) - 20))
    if faults and "was" not in more:
        said.append(_("“lengthwise record repair” puts right what can be put right."))
    say({**value, **more}, "\n".join(said or [text]), as_json=as_json)
    if not report.ok:
        sys.exit(1)


def _fault(found: Fact) -> dict[str, object]:
    return {**found.to_json(), "says": told(found)}


def _attempt(work: Callable[[], Findings], as_json: bool) -> Findings:
    """A program that asked for JSON gets a refusal as JSON too."""
    try:
        return work()
    except StashError as error:
        if not as_json:
            raise
        return Findings(faults=(error.fact,))
