"""Darts moved, panels cut, flare and facings: seen before and after, then kept as her own.

Everything chosen so far stands in the address, so that each step is a plain form.
"""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for
from markupsafe import Markup

from stash.errors import InvalidInput, StashError
from stash.model import Pattern
from stash.quantity import Quantity, read_length
from stash.sentences.saying import piece_named
from stash.workroom import altering, pattern_files, people
from stash.workroom.altering import Altered, Base
from stash.workroom.drafts import about, is_draft
from web import forms
from web.error_pages import status_of
from web.formatting import tell
from web.garment_form import OPTION, options_of, person_of
from web.request_stash import reader, stash, system
from web.texts import _

pages = Blueprint("altering", __name__, url_prefix="/alter")

CARRIED = frozenset({"of", "person"})


@pages.get("/")
def show():
    """What is altered, before and after, and the forms for the next step."""
    if not request.args.get("of"):
        return redirect(url_for("patterns.index"))
    if "do" in request.args:
        return _with_next()
    return _page(request.args.getlist("step"))


def _with_next():
    """The step that a form asked for is put into words and carried in the address."""
    steps = request.args.getlist("step")
    try:
        words = _WORDED[request.args.get("do", "")]()
        _altered([*steps, words])
    except (StashError, KeyError) as error:
        refused = error if isinstance(error, StashError) else _not_said()
        return _page(steps, refused)
    return redirect(url_for("altering.show", **_carried(), step=[*steps, words]), 303)


def _not_said() -> InvalidInput:
    return InvalidInput("alterations_wanted", example=altering.EXAMPLES[0], field="do")


def _page(steps: list[str], error: StashError | None = None):
    before, made = altering.before(stash(), _base()), None
    try:
        made = _altered(steps) if steps else None
    except StashError as refused:
        error, steps = error or refused, []
    after = made.pattern if made else before
    drawings = pattern_files.preview_pair(before, after, (_("Before"), _("After")), reader())
    return render_template(
        "altering/show.html", error=error, steps=steps, made=made, pattern=after,
        typed=request.args if error else None, carried=_carried(), title=_title(),
        before=[Markup(pair[0]) for pair in drawings],
        after=[Markup(pair[1]) for pair in drawings] if made else [],
        pieces=[(p.name, _piece(p.name)) for p in after.pieces], darts=_darts(after),
        edges=[(f"{p}|{e}", _edge(p, e)) for p, e in altering.edges_of(after)],
        folded=[(name, _piece(name)) for name in altering.folded(after)],
        people=[(p.name, p.name) for p in people.everyone(stash())],
    ), status_of(error) if error else 200


def _darts(pattern: Pattern) -> list[tuple[str, str]]:
    """Every dart, to choose from."""
    found = []
    for piece, edge, number, count in altering.darts_in(pattern):
        said = f"{_piece(piece)}, {_(altering.edge_term(edge))}"
        found.append((f"{piece}|{edge} {number}", f"{said} {number}" if count > 1 else said))
    return found


def _piece(name: str) -> str:
    return piece_named(name, reader())


def _edge(piece: str, edge: str) -> str:
    return _("%(what)s: %(name)s", what=_piece(piece), name=_(altering.edge_term(edge)))


def _base() -> Base:
    name = request.args.get("of", "")
    person = person_of(request.args)
    if not is_draft(name):
        return Base(name=name, person=person)
    return Base(name=name, person=person, options=options_of(about(name), request.args))


def _title() -> str:
    name = request.args.get("of", "")
    return _(about(name).title) if is_draft(name) else name


def _carried() -> dict[str, str]:
    """What every form passes on: what is altered, for whom, with which options."""
    return {
        key: value for key, value in request.args.items()
        if key in CARRIED or key.startswith((OPTION, "measure-"))
    }


def _altered(steps: list[str]) -> Altered:
    return altering.altered(stash(), _base(), steps)


@pages.post("/keep")
def keep():
    """The altered pattern kept under a name of her own."""
    steps = request.args.getlist("step")
    try:
        name = forms.needed("name", _("The name of the pattern"))
        event, kept = altering.keep(stash(), _altered(steps), name, forms.token())
    except StashError as error:
        return _page(steps, error)
    tell(_("The pattern “%(name)s” is saved.", name=kept.name), undo=event.id)
    return redirect(url_for("patterns.show", name=kept.name), 303)


@pages.post("/again/<path:name>")
def again(name: str):
    """An altered draft drawn again for somebody else, kept as another pattern."""
    person = people.person(stash(), forms.needed("person", _("For")))
    event, kept = altering.keep_again(stash(), name, person, forms.token())
    tell(_("The pattern “%(name)s” is saved.", name=kept.name), undo=event.id)
    return redirect(url_for("patterns.show", name=kept.name), 303)


def _named(field: str) -> str:
    """The field's own name: each form's fields begin with what it does."""
    return f"{request.args.get('do', '')}-{field}"


def _asked(field: str) -> str:
    """What was chosen or typed in a field of the form that was sent."""
    return request.args.get(_named(field), "").strip()


def _two(field: str) -> tuple[str, str]:
    """The piece and the edge (or the dart) that were chosen in one list."""
    piece, _bar, edge = _asked(field).partition("|")
    if not edge:
        raise _not_said()
    return piece, edge


def _length(field: str) -> str:
    """A length as words; empty where none was typed."""
    typed = _asked(field)
    if not typed:
        return ""
    mm = read_length(typed, Quantity.PATTERN, field=_named(field), system=system())
    return f"{mm:g}mm"


def _needed(field: str) -> str:
    words = _length(field)
    if not words:
        raise InvalidInput("field_empty", label=_("How much"), field=_named(field))
    return words


def _same_piece(piece: str, field: str) -> str:
    """The edge chosen in another list, which must be of the same piece."""
    other, edge = _two(field)
    if other != piece:
        raise InvalidInput(
            "edges_of_two_pieces", piece=piece, other=other, field=_named(field))
    return edge


def _move() -> str:
    piece, dart = _two("dart")
    to = _same_piece(piece, "to")
    return f"move dart {piece} {dart} to {to} {_length('at')}".strip()


def _flare() -> str:
    piece, dart = _two("dart")
    return f"turn dart {piece} {dart} into flare at {_same_piece(piece, 'to')}"


def _gather() -> str:
    piece, dart = _two("dart")
    return f"gather dart {piece} {dart}"


def _panel() -> str:
    piece, dart = _two("dart")
    end = _same_piece(piece, "to")
    return f"cut panel {piece} from dart {dart} to {end} {_length('at')}".strip()


def _seam() -> str:
    piece, start = _two("from")
    end = "fold" if _asked("to") == "fold" else _same_piece(piece, "to")
    words = f"add seam {piece} from {start} {_length('from-at')} to {end} {_length('at')}"
    allowed = _length("allowance")
    return " ".join(f"{words} {f'allowance {allowed}' if allowed else ''}".split())


def _fold() -> str:
    return f"cut panel {_asked('piece')} along fold"


def _spread() -> str:
    piece, hinge = _two("from")
    edge = _same_piece(piece, "to")
    cuts = _asked("cuts") or "1"
    both = " at both edges" if _asked("both") else ""
    return (f"slash and spread {piece} from {hinge} to {edge}, {cuts} cuts, "
            f"{_needed('amount')} each{both}")


def _facing() -> str:
    piece, edge = _two("from")
    return f"add facing {piece} {edge} {_needed('width')}"


_WORDED = {
    "move": _move, "flare": _flare, "gather": _gather, "panel": _panel, "seam": _seam,
    "fold": _fold, "spread": _spread, "facing": _facing,
}


