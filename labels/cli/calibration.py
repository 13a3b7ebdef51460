"""``lengthwise calibration``: print what lies beside, or under, what is photographed."""

from __future__ import annotations

from pathlib import Path

import click

from labels.arrow_card_on_paper import arrow_card_pdf
from labels.calibration_on_paper import PAPERS_MM, calibration_sheet_pdf
from labels.tray_on_paper import tray_pdf
from stash.cli.frame import json_option, reader, say
from stash.cli.instead import only_one
from stash.cli.output import output_file, replace_option, write_output
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.model.calibration import BOARD
from stash.model.tray import TRAY


@click.command("calibration")
@click.option("--sheet", is_flag=True,
              help="The sheet that lies beside pieces, remnants and cloth (as a matter of course).")
@click.option("--tray", is_flag=True, help="The page that buttons are poured on.")
@click.option("--arrow", is_flag=True, help="The card that tells the grain.")
@click.option("--sheets", default=1, show_default=True, help="How many different sheets.")
@click.option("--paper", type=click.Choice(list(PAPERS_MM)), default="a4", show_default=True)
@replace_option
@click.option("--out", required=True, type=output_file)
@json_option
def command(
    sheet: bool, tray: bool, arrow: bool, sheets: int, paper: str, out: Path, as_json: bool,
) -> None:
    """Print the sheet, the tray or the arrow card by which photographs are measured."""
    only_one(sheet=sheet, tray=tray, arrow=arrow)
    what = "tray" if tray else "arrow" if arrow else "sheet"
    if not 1 <= sheets <= BOARD.sheets:
        raise InvalidInput("sheets_to_print", most=BOARD.sheets, field="sheets")
    whose = reader()
    if what == "tray":
        content, ruler_mm = tray_pdf(paper, reader=whose), TRAY.ruler_mm if paper == "a4" else None
    elif what == "arrow":
        content, ruler_mm = arrow_card_pdf(paper, reader=whose), None
    else:
        content = calibration_sheet_pdf(tuple(range(1, sheets + 1)), paper, reader=whose)
        ruler_mm = BOARD.ruler_mm
    write_output(out, content)
    value = {"file": str(out), "what": what, "sheets": sheets if what == "sheet" else 1}
    check = _(
        " and check its ruler of {ruler_mm} mm",
        ruler_mm=format(ruler_mm, ".0f"),
    ) if ruler_mm else ""
    say({**value, "ruler_mm": ruler_mm}, _(
        "Saved {out}. Print it at 100 %{check}.",
        out=out, check=check,
    ),
        as_json=as_json)
