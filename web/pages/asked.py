"""Asked lately: answers found again after a restart, sifted, their lays side by side."""

from __future__ import annotations

import re
from dataclasses import dataclass

from flask import Blueprint, Response, render_template, request, url_for

from stash.workroom.asked_lately import FIT, KeptAnswer, KeptLine, kept, lately, since
from stash.workroom.cut_facets import FACETS, Facets, facets_now, sifted
from stash.workroom.questions.drawing import drawing as lay_drawing
from stash.workroom.questions.drawing import positions
from web.facets import FacetChoice, choices
from web.pages.become import DRAWING_POLICY
from web.request_stash import reader, stash

pages = Blueprint("asked", __name__, url_prefix="/asked")

# What the answer may be sifted by, and the kinds of verdict that each shows.
SHOWN = {"": None, "fits": ("fits",), "change": ("change",),
         "small": ("impossible", "not_found", "not_judged", "not_tried")}
GAP = 0.03
VIEW = re.compile(r'viewBox="([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+)"')


@dataclass(frozen=True)
class SideLay:
    """One lay among several at one scale: where it stands beside and below the others."""

    line: KeptLine
    width: float
    height: float
    x: float
    y: float


@pages.get("/")
def index():
    """Every answer that is kept, the newest first."""
    return render_template("asked/index.html", answers=lately(stash()))


@pages.get("/<key>")
def show(key: str):
    """One kept answer: which of its cuts are shown, and the ticked lays side by side."""
    answer = kept(stash(), key, FIT)
    chosen = request.args.get("show", "")
    ticked = request.args.getlist("side")
    lines, facets = _sifted(answer, chosen)
    sides = _sides([line for line in answer.lines if line.key in ticked and line.laid])
    return render_template(
        "asked/show.html", answer=answer, lines=lines, chosen=chosen,
        facets=facets, ticked=ticked, sides=sides,
        since={one.key: since(stash(), answer.head, one.laid) for one in lines if one.laid},
        wide=sum(one.width for one in sides) * (1 + GAP),
        high=max((one.height for one in sides), default=0.0),
        broad=max((one.width for one in sides), default=0.0),
        long=sum(one.height for one in sides) * (1 + GAP),
    )


@pages.get("/<key>/lay/<which>")
def lay(key: str, which: str):
    """One of its lays by itself, large, with the table of positions, to print."""
    answer = kept(stash(), key, FIT)
    line = answer.line(which)
    assert line.laid
    return render_template(
        "become/lay.html", heading=answer.head.titled(reader()), title=f"{line.name} {line.code}",
        laid=line.laid, head=answer.head, since=since(stash(), answer.head, line.laid),
        positions=positions(line.laid), spreads=None,
        back=url_for("asked.show", key=key),
        drawn=url_for("asked.drawing", key=key, which=which),
        on_phone=url_for("asked.drawing", key=key, which=which, phone=1))


@pages.get("/<key>/lay/<which>.svg")
def drawing(key: str, which: str):
    """One of its lays, drawn again."""
    line = kept(stash(), key, FIT).line(which)
    assert line.laid
    drawn = lay_drawing(line.laid, reader(), f"{line.name} {line.code}",
                        on_phone="phone" in request.args)
    return Response(drawn, mimetype="image/svg+xml", headers={
        "Content-Security-Policy": DRAWING_POLICY})


def _sifted(answer: KeptAnswer, chosen: str) -> tuple[list[KeptLine], list[FacetChoice]]:
    """The lines that are shown, and what they can be sifted by further."""
    kinds = SHOWN.get(chosen)
    lines = [line for line in answer.lines if kinds is None or line.kind in kinds]
    asked = {name: value for name in FACETS if (value := request.args.get(name, ""))}

    def facets(line: KeptLine) -> Facets:
        return facets_now(stash(), line.cut)

    shown, counts = sifted(lines, facets, asked)
    return shown, choices(counts, asked, len(lines))


def _sides(lines: list[KeptLine]) -> list[SideLay]:
    """The lays at one scale: a unit of every drawing is a millimetre of cloth."""
    sides: list[SideLay] = []
    x = y = 0.0
    for line in lines:
        assert line.laid
        view = VIEW.search(lay_drawing(line.laid, reader()))
        width, height = (float(view[3]), float(view[4])) if view else (1000.0, 1000.0)
        sides.append(SideLay(line, width, height, x, y))
        x, y = x + width * (1 + GAP), y + height * (1 + GAP)
    return sides
