"""``lengthwise labels``: print a PDF of labels."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from labels.pdf import Layout, Printing
from labels.printing import PrintedSheet, WantedLabels, print_sheet
from labels.sheets import PAGES_MM, SHEETS, LabelSheet, own_grid, roll, sheet_named
from labels.who_answers import silence_at
from stash.cli.frame import Desk, json_option, pass_desk, say, told
from stash.cli.open_record import open_record
from stash.cli.output import output_file, replace_option, write_output
from stash.cli.words import _
from stash.errors import InvalidInput


@click.command("labels")
@click.option("--for", "codes", multiple=True, metavar="CODE...", help="Labels of these codes.")
@click.argument("more", nargs=-1, metavar="")
@click.option("--blank", "blanks", type=int, help="So many new labels, given to nothing yet.")
@click.option("--place", help="Labels of everything that lies in this place.")
@click.option("--places", "every_place", is_flag=True, help="A label for every place.")
@click.option("--changed", "only_changed", is_flag=True, help="Labels whose record moved on.")
@click.option("--sheet", "sheet_name", help=f"{', '.join(SHEETS)} [default: a4-24].")
@click.option("--grid", help="Own sheet in mm: COLUMNSxROWS,WxH,LEFT,TOP,GAPX,GAPY.")
@click.option("--roll", "roll_size", help="Roll: 50mm continuous, 50x80mm die-cut.")
@click.option("--start", default=1, show_default=True, help="First free place on the sheet.")
@click.option("--page", type=click.Choice(list(PAGES_MM)), default="a4", help="Paper of --grid.")
@click.option("--shift", help="Correct the printer: mm right, mm down [default: as last set].")
@click.option(
    "--layout",
    type=click.Choice([layout.value for layout in Layout]),
    default=Layout.PLAIN.value,
    show_default=True,
    help="What the label is for.",
)
@click.option("--address", help="Address in the symbols [default: this instance's].")
@replace_option
@click.option("--out", required=True, type=output_file)
@json_option
@pass_desk
def command(desk: Desk, /, out: Path, as_json: bool, **options: Any) -> None:
    """Print labels for chosen cuts and bins, or blank ones to stick on first and scan later."""
    printing = Printing(
        sheet=_sheet(options), start=options["start"], layout=Layout(options["layout"]),
        address=options["address"], reader=desk.reader,
    )
    with open_record(desk) as stash:
        printed = print_sheet(stash, _wanted(options), printing, options["shift"])
    write_output(out, printed.pdf)
    _tell(printed, printing, out, as_json)


def _wanted(options: dict[str, Any]) -> WantedLabels:
    typed = " ".join((*options["codes"], *options["more"])).replace(",", " ").split()
    wanted = WantedLabels(
        codes=tuple(typed),
        blanks=options["blanks"],
        place=options["place"],
        every_place=options["every_place"],
        changed=options["only_changed"],
    )
    chosen = [bool(wanted.codes), wanted.blanks is not None, wanted.place is not None,
              wanted.every_place, wanted.changed]
    if sum(chosen) != 1:
        raise InvalidInput("say_which_labels")
    return wanted


def _sheet(options: dict[str, Any]) -> LabelSheet:
    given = [options["sheet_name"], options["grid"], options["roll_size"]]
    if sum(value is not None for value in given) > 1:
        raise InvalidInput("one_way_of_sheets")
    if options["grid"] is not None:
        return own_grid(options["grid"], PAGES_MM[options["page"]])
    if options["roll_size"] is not None:
        return roll(options["roll_size"])
    return sheet_named(options["sheet_name"] or "a4-24")


def _tell(printed: PrintedSheet, printing: Printing, out: Path, as_json: bool) -> None:
    labels, sheet, start = printed.labels, printing.sheet, printing.start
    *_before, (page, position) = sheet.positions(len(labels), start)
    silence = silence_at(printed.address)
    warning = told(silence) if silence else ""
    following = (position + 1) % sheet.per_page + 1
    codes = [label.code for label in labels]
    say(
        {
            "codes": codes,
            "file": str(out),
            "sheet": sheet.name,
            "pages": page + 1,
            "next_start": following,
            "address": printed.address,
            "address_answers": silence is None,
            "warning": warning,
        },
        (f"{warning}\n" if warning else "")
        + _(
            "Labels: {number}, pages: {pages}, in {out}: {names}\nPrint at 100 %, and lay "
            "a ruler on the printed one before you stick them.",
            number=len(codes), pages=page + 1, out=out, names=", ".join(codes),
        )
        + (_(" The next free place is {following}.", following=following) if following > 1 else ""),
        as_json=as_json,
    )
