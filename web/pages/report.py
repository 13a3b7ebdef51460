"""Looking back: metres and money by month, fibre, person or plan; each drawing with its table."""

from __future__ import annotations

import copy
import csv
import io
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from flask import Blueprint, Response, current_app, render_template, request
from markupsafe import Markup

from stash.colours import nearest
from stash.quantity import Quantity
from stash.sentences.looking_back import row_said
from stash.sentences.quantities import fibre
from stash.workroom.opening import open_stash
from stash.workroom.report import By, ReportRow, bring_up, is_summed_up, report
from stash.workroom.stock_groups import GroupedBy, StockGroup, stock_groups
from web.drawing.bars import Bar, bars
from web.formatting import shown_as
from web.jobs import Job, jobs
from web.request_stash import reader, stash
from web.texts import _

PICTURES = {
    GroupedBy.FIBRE: "What there is by fibre", GroupedBy.COLOUR: "What there is by colour",
    GroupedBy.LENGTH: "What there is by length", GroupedBy.AGE: "What there is by age",
}
BESIDE = {"below": "less than usual", "within": "as usual", "above": "more than usual"}
PUBLISHED = (
    "home single-garment layouts", "standard wovens, industry goal", "rule-of-thumb figure",
    "common practice, no source", "sourced (trade article)",
)
"""Words of the published table, for translators."""
MOST_ROWS, MOST_LAYS = 120, 60
"""What a page shows of a long past; the table for a spreadsheet has every row."""
pages = Blueprint("report", __name__, url_prefix="/report")

NAMES = {By.MONTH: "by month", By.FIBRE: "by fibre", By.PERSON: "by person", By.PLAN: "by plan"}


@dataclass(frozen=True)
class SumsWanted:
    """What a job works on: the data folder whose past is summed up."""

    data: Path


@pages.get("/")
def show():
    """The report; while a long past is summed up for the first time, how far that is."""
    if not is_summed_up(stash()) and (job := _summing()):
        return render_template("report/summing.html", job=job)
    by = _by()
    found = report(stash(), by, most_lays=MOST_LAYS)
    most = max([1.0, *(mm for row in found.rows for mm in row.mm.values())])
    return render_template(
        "report/show.html", pictures=_pictures(), found=found, by=by, most=most,
        rows=_largest(found.rows), all_lays=len(found.lays) < MOST_LAYS,
        beside={key: _(words) for key, words in BESIDE.items()},
        choices=[(one.value, _(NAMES[one])) for one in By],
        row_said=lambda key: row_said(by.value, key, reader()),
    )


def _summing() -> Job | None:
    """The work in the background, begun where nobody has; None when that came to nothing."""
    job = jobs().newest(SumsWanted)
    if job is None or job.result:  # it came to an end once, and much has happened since
        question = SumsWanted(current_app.config["DATA"])
        job = jobs().start(
            Job(title=_("Looking back"), answered_at="report.show", question=question), _sum_up)
    return None if job.over else copy.copy(job)


def _sum_up(job: Job) -> bool:
    with open_stash(job.question.data) as opened:
        bring_up(opened, job.step)
        return is_summed_up(opened)


def _largest(rows: tuple[ReportRow, ...]) -> tuple[ReportRow, ...]:
    """As many rows as a page takes: those of the most cloth, in their order."""
    most = sorted(rows, key=lambda row: -sum(map(abs, row.mm.values())))[:MOST_ROWS]
    return rows if len(rows) <= MOST_ROWS else tuple(row for row in rows if row in most)


@dataclass(frozen=True)
class StockPicture:
    """One picture of the stash with its table."""

    by: str
    title: str
    drawn: Markup
    rows: tuple[tuple[str, StockGroup], ...]


def _pictures() -> list[StockPicture]:
    found = []
    for by in GroupedBy:
        rows = tuple((_group_name(by, group), group) for group in _groups(by))
        title = _(PICTURES[by])
        shown = [Bar(name, group.running_mm, shown_as(Quantity.CUT_LENGTH)(group.running_mm),
                     group.colour) for name, group in rows]
        found.append(StockPicture(by.value, title, bars(shown, title), rows))
    return found


def _groups(by: GroupedBy) -> tuple[StockGroup, ...]:
    return stock_groups(stash(), by, date.today())


def _group_name(by: GroupedBy, group: StockGroup) -> str:
    if by is GroupedBy.FIBRE:
        return fibre(group.key, reader()) if group.key else _("not said")
    if by is GroupedBy.COLOUR:
        return nearest(group.colour).said(reader().language) if group.colour else _("not said")
    if group.least is None:
        return _("not said")
    if by is GroupedBy.LENGTH:
        length = shown_as(Quantity.CUT_LENGTH)
        if group.most is None:
            return _("%(least)s and more", least=length(group.least))
        return _("up to %(most)s", most=length(group.most)) if not group.least else _(
            "%(least)s to %(most)s", least=length(group.least), most=length(group.most))
    if group.most is None:
        return _("%(least)g years and more", least=group.least)
    return _("%(least)g to %(most)g years", least=group.least, most=group.most) if (
        group.least) else _("under a year")


@pages.get("/stash.csv")
def stock_table():
    """One picture's table for a spreadsheet."""
    asked = request.args.get("by", "")
    by = GroupedBy(asked) if asked in tuple(GroupedBy) else GroupedBy.FIBRE
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")
    table.writerow(("group", "cuts", "running_mm"))
    table.writerows(
        (_group_name(by, group), group.cuts, round(group.running_mm, 1)) for group in _groups(by))
    return Response("\ufeff" + text.getvalue(), mimetype="text/csv", headers={
        "Content-Disposition": f'attachment; filename="stash-by-{by.value}.csv"'})


@pages.get("/report.csv")
def table():
    """The rows for a spreadsheet."""
    rows = report(stash(), _by(), most_lays=0).csv()
    return Response("\ufeff" + rows, mimetype="text/csv", headers={
        "Content-Disposition": 'attachment; filename="report.csv"'})


def _by() -> By:
    asked = request.args.get("by", "")
    return By(asked) if asked in tuple(By) else By.MONTH
