"""In her pocket: what a phone keeps to read without a network, and what waits to be sent."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path

from flask import Blueprint, Response, current_app, render_template, request, url_for

from labels.reading.tag_codes import read_tag_apart
from stash.errors import InvalidInput, StashError
from stash.fact import Fact
from stash.model.role import DeviceRole
from stash.quantity import Quantity, read_length
from stash.units import System
from stash.workroom import plans, pocket
from web import forms
from web.config import PHOTO_BYTES
from web.devices.who_asks import guest
from web.error_pages import status_of, told
from web.formatting import bin_amount, cut_size, fibres, mass
from web.jobs import jobs
from web.pages.shopping import ShoppingQuestion
from web.request_stash import reader, stash, system
from web.texts import _

pages = Blueprint("pocket", __name__)

HOUSE = frozenset([".css", ".js", ".svg", ".wasm", ".webmanifest"])
"""Files of the house that a page without a network needs."""


@pages.get("/service-worker.js")
def worker():
    """The script that keeps the pages; it stands at the root, since it serves all of them."""
    return Response(
        f"const KEPT = {json.dumps(_house())};\n" + _script("service_worker.js"),
        mimetype="text/javascript", headers={"Cache-Control": "no-cache"})


def _house() -> dict[str, object]:
    """The files of the house with a version of them all, and the words for when nothing is kept."""
    static = Path(current_app.static_folder or "")
    found = sorted(path for path in static.rglob("*") if path.suffix in HOUSE
                   and path.name != "service_worker.js")
    digest = hashlib.sha256()
    for path in found:
        stat = path.stat()
        digest.update(f"{path.name} {stat.st_size} {stat.st_mtime_ns}".encode())
    files = [url_for("static", filename=path.relative_to(static).as_posix()) for path in found]
    nothing = render_template("pocket/nothing_kept.html")
    return {"version": digest.hexdigest()[:12], "files": files, "nothing": nothing}


def _script(name: str) -> str:
    return (Path(current_app.static_folder or "") / "js" / name).read_text(encoding="utf-8")


@pages.get("/pocket/")
def show():
    """The page of the copy: searching it, recording in it, the shop, and what waits."""
    known = _needs()
    if not request.args.get("need"):
        return _page(known, request.args)
    try:
        return _page(known, request.args, answer=_enough(known))
    except StashError as refused:
        return _page(known, request.args, error=refused)


@pages.post("/pocket/tag")
def tag():
    """The codes on a photographed tag as the bolt's note; the rest of the form as it was typed."""
    request.max_content_length = PHOTO_BYTES
    typed = request.form.to_dict()
    try:
        sent = request.files.get("tag")
        if sent is None or not sent.filename:
            raise InvalidInput("choose_a_photograph", field="tag")
        codes = read_tag_apart(forms.content_of(sent))
        if not codes:
            raise InvalidInput("no_code_on_tag", field="tag")
    except StashError as refused:
        return _page(_needs(), typed, error=refused)
    known = [typed["note"]] if typed.get("note") else []
    return _page(_needs(), {**typed, "note": ", ".join(dict.fromkeys([*known, *codes]))})


def _page(
    known: list[pocket.KnownNeed], typed: Mapping[str, str], *,
    answer: Fact | None = None, error: StashError | None = None,
):
    return render_template(
        "pocket/show.html", secure=guest().here or request.is_secure, error=error,
        typed=typed, answer=answer, inches=system() is System.INCHES,
        wanted=[(what, what) for what in dict.fromkeys(need.what for need in known)],
        records=_may(DeviceRole.RECORD),
    ), status_of(error) if error else 200


def _may(role: DeviceRole) -> bool:
    return (known := guest().role) is not None and known.allows(role)


def _needs() -> list[pocket.KnownNeed]:
    """What held lays need, and what finished shopping lists say of each width."""
    lists = [
        pocket.KnownNeed(
            what=f"{job.title}: {told(cloth.what)}", width_mm=row.width_mm,
            length_mm=row.length_mm * (1 - pocket.SHRINKS_PCT / 100))
        for job in jobs().done(ShoppingQuestion) for cloth in job.result.card.cloths
        for row in cloth.lengths if row.length_mm]
    return [*pocket.needs(stash()), *lists]


def _enough(known: list[pocket.KnownNeed]) -> Fact:
    args = request.args
    shrinks = float(args.get("shrinks") or pocket.SHRINKS_PCT)
    width_mm, length_mm = (
        read_length(args.get(name, ""), kind, field=name, system=system())
        for name, kind in (("width", Quantity.WIDTH), ("length", Quantity.CUT_LENGTH)))
    own = [need for need in known if need.what == args.get("need")]
    return pocket.enough(own, width_mm, length_mm, min(max(shrinks, 0.0), 40.0))


@pages.get("/pocket/here")
def here():
    """Whether the stash answers."""
    return Response(status=204)


@pages.get("/pocket/copy.json")
def copy():
    """What this device may keep: body measurements only where its role allows them."""
    language = reader().language
    return {"as_of": f"{pocket.as_of(stash())} {language} {guest().role}", "pages": _pages()}


def _pages() -> list[str]:
    found = [url_for("pocket.show"), url_for("pocket.lines"), url_for("home.show"),
             url_for("plans.index"), url_for("shopping.show"), url_for("cutting.style")]
    for view in plans.views(stash()):
        name = view.plan.name
        found.append(url_for("plans.show", name=name))
        if view.lays:
            found.append(url_for("cutting.show", name=name))
        found += [url_for("plans.drawing", name=name, code=code, phone=phone)
                  for code in view.lays for phone in (False, True)]
    found += [url_for("shopping.listed", key=job.key) for job in jobs().done(ShoppingQuestion)]
    if _may(DeviceRole.ALL):
        found.append(url_for("people.index"))
    return found


@pages.get("/pocket/stash.json")
def lines():
    """Every cut and bin in one line each, as they are shown and searched without a network."""
    found = pocket.kept(stash())
    return {
        "cuts": [{
            "code": one.cut.code, "name": one.cut.cloth.name, "size": cut_size(one.cut),
            "whole_mm": [round(mm) for mm in one.whole_mm], "fibres": fibres(one.cut.cloth),
            "mass": mass(one.cut.cloth.mass_gsm), "mass_gsm": one.cut.cloth.mass_gsm,
            "colours": list(one.cut.cloth.colours), "place": one.cut.place or "",
            "washed": one.cut.washed, "held_for": list(one.held_for),
        } for one in found.cuts],
        "bins": [{
            "code": held.code, "name": held.notion.name, "amount": bin_amount(held),
            "counted": held.notion.kind.counted, "kind": _(held.notion.kind.value),
            "colours": [held.notion.colour] if held.notion.colour else [],
            "place": held.place or "",
        } for held in found.bins],
        "needs": [{"what": need.what, "width_mm": round(need.width_mm, 1),
                   "length_mm": round(need.length_mm, 1)} for need in _needs()],
    }
