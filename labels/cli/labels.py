"""``lengthwise labels``: print a PDF of labels."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path

import click

from labels.address import default_address, tidy
from labels.choose import as_printed, changed, in_place, labels_for
from labels.content import Label, blank
from labels.pdf import Layout, sheet_pdf
from labels.sheets import PAGES_MM, SHEETS, Sheet, own_grid, roll, sheet_named
from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.errors import InvalidInput, Unavailable
from stash.store import Stash, open_stash
from stash.units import System

MOST_SHIFT_MM = 20.0


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """Which labels were asked for; exactly one of these."""

    codes: tuple[str, ...] = ()
    blanks: int | None = None
    place: str | None = None
    every_place: bool = False
    changed: bool = False


@click.command("labels")
@click.option("--for", "codes", multiple=True, metavar="CODE...", help="Labels of these codes.")
@click.argument("more", nargs=-1, metavar="")
@click.option("--blank", "blanks", type=int, help="So many new labels, given to nothing yet.")
@click.option("--place", help="Labels of everything that lies in this place.")
@click.option("--places", "every_place", is_flag=True, help="A label for every place.")
@click.option("--changed", "only_changed", is_flag=True, help="Labels whose record moved on.")
@click.option("--sheet", "sheet_name", help=f"{', '.join(SHEETS)} [default: a4-24].")
@click.option("--grid", help="Own sheet in mm: COLUMNSxROWS,WxH,LEFT,TOP,GAPX,GAPY.")
@click.option("--roll", "roll_size", help="Roll: 62mm continuous, 62x100mm die-cut.")
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
@click.option("--out", required=True, type=click.Path(dir_okay=False, path_type=Path))
@json_option
@pass_desk
def command(desk: Desk, out: Path, as_json: bool, **options) -> None:
    """Print labels for chosen cuts and bins, or blank ones to stick on first and scan later."""
    wanted = _wanted(options)
    sheet = _sheet(options)
    with open_stash(desk.data) as stash:
        sheet = sheet.shifted(*_shift(stash, options["shift"]))
        _check_start(sheet, options["start"])
        labels = _labels(stash, wanted)
        address = tidy(options["address"] or stash.settings.address or default_address())
        pdf = sheet_pdf(
            labels, sheet, options["start"], address=address, layout=Layout(options["layout"])
        )
        _write(out, pdf)
        stash.labels.printed({label.code: as_printed(label) for label in labels})
    _tell(labels, sheet, options["start"], out, as_json)


def _wanted(options: dict) -> Wanted:
    typed = " ".join((*options["codes"], *options["more"])).replace(",", " ").split()
    wanted = Wanted(
        codes=tuple(typed),
        blanks=options["blanks"],
        place=options["place"],
        every_place=options["every_place"],
        changed=options["only_changed"],
    )
    chosen = [bool(wanted.codes), wanted.blanks is not None, wanted.place is not None,
              wanted.every_place, wanted.changed]
    if sum(chosen) != 1:
        raise InvalidInput(
            "Say which labels: --for CODE..., --blank N, --place P, --places or --changed."
        )
    return wanted


def _sheet(options: dict) -> Sheet:
    given = [options["sheet_name"], options["grid"], options["roll_size"]]
    if sum(value is not None for value in given) > 1:
        raise InvalidInput("Give one of --sheet, --grid and --roll.")
    if options["grid"] is not None:
        return own_grid(options["grid"], PAGES_MM[options["page"]])
    if options["roll_size"] is not None:
        return roll(options["roll_size"])
    return sheet_named(options["sheet_name"] or "a4-24")


def _shift(stash: Stash, typed: str | None) -> tuple[float, float]:
    """The printer's correction: the one typed, which is kept, or the one kept before."""
    kept = stash.settings.get("printer_shift_mm", [0, 0])
    if typed is None:
        return tuple(kept)
    try:
        across, down = (float(n) for n in typed.split(","))
    except ValueError:
        across = down = math.inf
    if not max(abs(across), abs(down)) <= MOST_SHIFT_MM:
        raise InvalidInput(
            "Write the printer's shift as mm right, mm down, at most 20 each: --shift 0.5,-1.",
            field="shift",
        )
    if [across, down] != kept:
        stash.settings.set("printer_shift_mm", [across, down])
    return across, down


def _check_start(sheet: Sheet, start: int) -> None:
    """Refuse a wrong start before codes are reserved for labels that are never printed."""
    next(sheet.positions(1, start))


def _labels(stash: Stash, wanted: Wanted) -> list[Label]:
    system = System(stash.settings.get("units", System.METRIC.value))
    if wanted.blanks is not None:
        return [blank(code) for code in stash.labels.reserve(wanted.blanks)]
    if wanted.place is not None:
        return in_place(stash, wanted.place, system)
    if wanted.every_place:
        return labels_for(stash, _place_codes(stash), system)
    if wanted.changed:
        found = changed(stash, system)
        if not found:
            raise InvalidInput("Every printed label still says the truth: nothing to print.")
        return found
    return labels_for(stash, wanted.codes, system)


def _place_codes(stash: Stash) -> list[str]:
    """Every place's code; a place that had no label gets one."""
    for name in stash.places.names():
        if stash.places.find(name) is None:
            stash.places.receive(name)
    codes = [place.code for place in stash.places.all()]
    if not codes:
        raise InvalidInput("No place is on record yet: say where a cut or a bin lies first.")
    return codes


def _write(out: Path, pdf: bytes) -> None:
    try:
        out.write_bytes(pdf)
    except OSError as error:
        raise Unavailable(f"{out} cannot be written ({error.strerror}): choose another.") from error


def _tell(labels: list[Label], sheet: Sheet, start: int, out: Path, as_json: bool) -> None:
    *_, (page, position) = sheet.positions(len(labels), start)
    following = (position + 1) % sheet.per_page + 1
    codes = [label.code for label in labels]
    say(
        {
            "codes": codes,
            "file": str(out),
            "sheet": sheet.name,
            "pages": page + 1,
            "next_start": following,
        },
        f"{len(codes)} labels on {page + 1} page(s) in {out}: {', '.join(codes)}\n"
        "Print at 100 %, and lay a ruler on the printed one before you stick them."
        + (f" The next free place is {following}." if following > 1 else ""),
        as_json=as_json,
    )
