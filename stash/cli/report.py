"""``lengthwise report``: looking back at metres and money."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli import written
from stash.cli.frame import Desk, json_option, pass_desk, reader, say
from stash.cli.open_record import open_record
from stash.cli.output import output_file, replace_option, write_output
from stash.cli.words import _
from stash.sentences.looking_back import row_said
from stash.workroom.report import By, CutLay, Report, report

WAYS = ("in", "used", "lost", "away", "waste")


@click.command()
@click.option("--by", type=click.Choice([by.value for by in By]), default=By.MONTH.value,
              show_default=True, help="What the rows are.")
@replace_option
@click.option("--csv", "table", type=output_file, help="Write the rows to a table (CSV).")
@json_option
@pass_desk
def command(desk: Desk, by: str, table: Path | None, as_json: bool) -> None:
    """Look back: cloth in, used, lost and given away, what lies idle, and each lay's waste."""
    with open_record(desk) as stash:
        found = report(stash, By(by))
    if table:
        write_output(table, "\ufeff" + found.csv())
    say(found.to_json(), _text(found, By(by)), as_json=as_json)


def _text(found: Report, by: By) -> str:
    lines = [" " * 16 + "".join(f" {_(way):>10}" for way in WAYS)]
    for row in found.rows:
        much = [*(row.mm.get(way, 0.0) for way in WAYS[:-1]), row.waste_mm]
        cells = "".join(f" {written.cut_length(mm) if mm else '-':>10}" for mm in much)
        lines.append(f"{row_said(by.value, row.key, reader()) or '-':<16}{cells}")
    lines.append(_(
        "Here now: {length} of running cloth.",
        length=written.cut_length(found.here_mm),
    ))
    lines += [_lay(one) for one in found.lays[-10:]]
    if found.lays:
        home = found.published[0]
        lines.append(_(
            "Home layouts use {least_pct} to {most_pct} % of the cloth ({status}).",
            least_pct=round(home.least_pct), most_pct=round(home.most_pct),
            status=_(home.status),
        ))
    lines += [
        _(
            "  untouched since {since}: {code}  {name}, {length}",
            since=written.on_day(one.since), code=one.code, name=one.name,
            length=written.cut_length(one.mm),
        )
        for one in found.idle[:5]
    ]
    return "\n".join(lines)


def _lay(one: CutLay) -> str:
    became = _(
        "{utilisation} became pieces",
        utilisation=written.share(one.utilisation),
    ) if one.utilisation else _("cut out")
    rag = _(", {rag_g} g of rag", rag_g=round(one.rag_g)) if one.rag_g else ""
    return f"  {written.on_day(one.on)}  {one.plan or ''}: {one.name} {one.code}, {became}{rag}"
