"""Looking back: metres and money by month, fibre, person or plan; each drawing with its table."""

from __future__ import annotations

from flask import Blueprint, Response, render_template, request

from stash.workroom.report import By, report
from web.request_stash import stash
from web.texts import _

BESIDE = {"below": "less than usual", "within": "as usual", "above": "more than usual"}
PUBLISHED = (
    "home single-garment layouts", "standard wovens, industry goal", "rule-of-thumb figure",
    "common practice, no source", "sourced (trade article)",
)
"""Words of the published table, for translators."""
pages = Blueprint("report", __name__, url_prefix="/report")

NAMES = {By.MONTH: "by month", By.FIBRE: "by fibre", By.PERSON: "by person", By.PLAN: "by plan"}


@pages.get("/")
def show():
    """The report."""
    by = _by()
    found = report(stash(), by)
    most = max([1.0, *(mm for row in found.rows for mm in row.mm.values())])
    return render_template(
        "report/show.html", found=found, by=by, most=most,
        beside={key: _(words) for key, words in BESIDE.items()},
        choices=[(one.value, _(NAMES[one])) for one in By],
    )


@pages.get("/report.csv")
def table():
    """The rows for a spreadsheet."""
    return Response("\ufeff" + report(stash(), _by()).csv(), mimetype="text/csv", headers={
        "Content-Disposition": 'attachment; filename="report.csv"'})


def _by() -> By:
    asked = request.args.get("by", "")
    return By(asked) if asked in tuple(By) else By.MONTH
