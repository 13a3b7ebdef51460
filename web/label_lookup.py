"""What a label text stands for, as pages and scripts show it in one line."""

from __future__ import annotations

from dataclasses import asdict, dataclass

from flask import url_for

from labels.payload import Payload, interpret, is_foreign
from stash.errors import InvalidInput, NotFound
from stash.model import Code
from stash.workroom import labels, places
from stash.workroom.labels import Labelled
from web.formatting import amount, cut_size, notion_size
from web.request_stash import own_hosts, stash
from web.texts import _, ngettext


@dataclass(frozen=True)
class LabelLine:
    """One label: where it leads and what it is on."""

    code: str
    what: str
    name: str
    detail: str
    place: str
    url: str

    def to_json(self) -> dict:
        """For the scripts of a page."""
        return asdict(self)


def payload_of(text: str) -> Payload:
    """The label that was read or typed; InvalidInput or NotFound in plain words."""
    if payload := interpret(text):
        known = labels.what(stash(), payload.code.text) != "unknown"
        if is_foreign(payload, own_hosts(), known):
            raise NotFound("label_of_another_stash", host=payload.host)
        return payload
    if "/c/" in text.lower():
        Code.parse(text.lower().rpartition("/c/")[2].strip("/"))
    if "://" in text or len(text) > 20:
        raise InvalidInput("code_of_something_else", field="code")
    return Payload(Code.parse(text))


def of_code(code: str) -> LabelLine:
    """What is known about a code."""
    on = labels.labelled(stash(), code)
    name, detail, place = _said(on)
    return LabelLine(code, on.what, name, detail, place, url_for("scanned.open", code=code))


def _said(on: Labelled) -> tuple[str, str, str]:
    if on.cut:
        cut = on.cut.cut
        size = _(on.cut.gone) if on.cut.gone else cut_size(cut)
        return cut.cloth.name, size, cut.place or ""
    if on.bin:
        held = on.bin.bin
        said = filter(None, (amount(held.amount, held.notion.kind), notion_size(held.notion)))
        return held.notion.name, " · ".join(said), held.place or ""
    if on.place:
        things = len(places.contents(stash(), on.place).codes)
        return on.place.name, ngettext("%(num)d thing lies here", "%(num)d things lie here",
                                       things) % {"num": things}, ""
    if on.what == "blank":
        return _("Not on anything yet"), _("say what it is"), ""
    return _("Not on record here"), "", ""
