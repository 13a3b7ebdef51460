"""How long, or how much, by the kitchen scale or by the turns of a roll: reckoned, then kept."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import InvalidInput, StashError
from stash.fact import Fact
from stash.model import Bin, Cut, NotionKind
from stash.model.amounts import AMOUNT, read_amount
from stash.model.measured import Measured
from stash.model.weights import read_grams
from stash.quantity import Quantity
from stash.units import significant
from stash.workroom import bins, cuts, weighing
from web import forms
from web.error_pages import status_of
from web.formatting import amount, cut_size, error_of, length, local, tell
from web.request_stash import stash, system
from web.scale_form import STEPS, grams_of, scale_of
from web.texts import _

pages = Blueprint("weighing", __name__, url_prefix="/weigh")
Saying = Callable[[float], str]


@dataclass(frozen=True, kw_only=True)
class Reckoned:
    """A figure as the page says it; not ``useful`` where its error makes it worthless."""

    by: str
    figure: Measured
    useful: bool = True
    because: tuple[Fact, ...] = ()
    would_help: tuple[Fact, ...] = ()
    enough: bool | None = None
    needed: float | None = None


@pages.route("/cut/<code>", methods=["GET", "POST"])
def cut(code: str):
    """A cut's length by its weight or its turns, or what its cloth weighs."""
    held = cuts.cut(stash(), code)
    return _answer(
        held.code, _cut_page(held), _BY_CUT,
        lambda figure: weighing.record_length(
            stash(), held.code, figure, forms.token(), replace=forms.ticked("replace")),
        length, error_of)


@pages.route("/bin/<code>", methods=["GET", "POST"])
def content(code: str):
    """How much is in a bin by its weight."""
    held = bins.held(stash(), code)
    kind = held.notion.kind
    return _answer(
        held.code, _bin_page(held), {"weight": _bin_by_weight},
        lambda figure: weighing.record_amount(
            stash(), held.code, figure, forms.token(), replace=forms.ticked("replace")),
        lambda value: amount(float(value), kind), _amount_wrong(kind))


def _amount_wrong(kind: NotionKind) -> Saying:
    """How an error of an amount is said: so many, or a length."""
    return (lambda value: amount(float(round(value)), kind)) if kind.counted else error_of


def _answer(
    code: str, page: Callable, ways: dict[str, Callable[[str], Reckoned]],
    keep: Callable[[Measured], Any], shown: Saying, wrong: Saying,
):
    """The empty form; what was reckoned from it; or the record, once it was asked to keep that."""
    if request.method == "GET":
        return page()
    try:
        by = request.form.get("by", "")
        if by == "known":
            return _kept_swatch(code)
        if by not in ways:
            raise InvalidInput("choose_a_way_to_weigh", field="by")
        found = ways[by](code)
        if not (forms.ticked("keep") and found.useful):
            return page(found=found)
        event = keep(found.figure)
    except StashError as error:
        return page(error=error)
    tell(_("On record: %(value)s, give or take %(error)s.", value=shown(found.figure.value),
           error=wrong(found.figure.error)), undo=event.id if event else None)
    return redirect(url_for("scanned.open", code=code), 303)


def _cut_page(held: Cut) -> Callable:
    def page(found: Reckoned | None = None, error: StashError | None = None):
        others = [(card.cut.code, f"{card.cut.code}: {cut_size(card.cut)}")
                  for card in cuts.of_cloths_called(stash(), held.cloth.name)
                  if card.cut.code != held.code]
        return render_template(
            "weighing/cut.html", cut=held, found=found, others=others, **_form(error),
            **_said(found, length, error_of)), status_of(error) if error else 200

    return page


def _bin_page(held: Bin) -> Callable:
    kind = held.notion.kind

    def page(found: Reckoned | None = None, error: StashError | None = None):
        said = _said(found, lambda value: amount(float(value), kind), _amount_wrong(kind))
        return render_template(
            "weighing/bin.html", held=held, found=found, counted=kind.counted,
            thread=kind is NotionKind.THREAD, **_form(error), **said,
        ), status_of(error) if error else 200

    return page


def _form(error: StashError | None) -> dict[str, object]:
    """What is typed stays, whether it was refused or reckoned."""
    return {"error": error, "typed": request.form if request.method == "POST" else None,
            "steps": [(step, local(f"{step} g")) for step in STEPS]}


def _said(found: Reckoned | None, shown: Saying, wrong: Saying) -> dict[str, str]:
    if found is None:
        return {}
    figure = found.figure
    return {"value": shown(figure.value), "error_said": wrong(figure.error),
            "share": f"{100 * figure.share:.0f}",
            "least": shown(max(figure.value - figure.error, 0.0))}


def _by_weight(code: str) -> Reckoned:
    given: Measured | None = None
    gsm = forms.maybe_mass("mass")
    if gsm:
        given = weighing.by_label(gsm)
    elif forms.text("swatch_grams"):
        given = weighing.by_swatch(
            forms.length("swatch_length", Quantity.PATTERN),
            forms.length("swatch_width", Quantity.PATTERN),
            read_grams(forms.text("swatch_grams"), field="swatch_grams"), scale_of())
    found = weighing.weigh_cut(
        stash(), code, grams_of("grams"), scale_of(), given, forms.text("like") or None)
    answer = found.answer
    return Reckoned(by="weight", figure=answer.figure, useful=answer.useful,
                    because=answer.because, would_help=answer.would_help)


def _by_turns(_code: str) -> Reckoned:
    turns = forms.number("turns", _("Turns"), 1, 2000)
    if forms.text("girth") or forms.text("board"):
        figure = weighing.board_length(
            forms.length("girth", Quantity.PATTERN), forms.length("board", Quantity.PATTERN), turns)
    else:
        figure = weighing.rolled_length(
            forms.length("outer", Quantity.PATTERN), forms.length("core", Quantity.PATTERN), turns)
    return Reckoned(by="turns", figure=figure, because=(weighing.by_turns(figure, turns),))


_BY_CUT: dict[str, Callable[[str], Reckoned]] = {"weight": _by_weight, "turns": _by_turns}


def _kept_swatch(code: str):
    mass, event = weighing.weigh_swatch(stash(), code, grams_of("known_grams"), scale_of(),
                                        forms.token())
    tell(_("This cloth weighs %(mass).0f g/m², give or take %(error)s. Other cuts of it are "
           "reckoned by that now.", mass=mass.value,
           error=local(f"{significant(mass.error):g}")), undo=event.id)
    return redirect(url_for("scanned.open", code=code), 303)


def _bin_by_weight(code: str) -> Reckoned:
    kind, scale = bins.held(stash(), code).notion.kind, scale_of()
    empty = read_grams(forms.text("empty"), field="empty") if forms.text("empty") else 0.0
    answer = weighing.weigh_bin(stash(), code, grams_of("grams"), scale, _known(kind, scale), empty)
    needed = read_amount(kind, forms.text("need"), field="need", system=system()) if forms.text(
        "need") else None
    return Reckoned(
        by="weight", figure=answer.figure, because=answer.because, would_help=answer.would_help,
        useful=answer.useful and kind is not NotionKind.THREAD, needed=needed,
        enough=weighing.enough(answer.figure, needed) if needed is not None else None)


def _known(kind: NotionKind, scale: weighing.Scale) -> weighing.Known:
    """A known amount that was weighed, or what the label says a metre weighs."""
    if forms.text("per_metre") and not kind.counted:
        grams = forms.number("per_metre", _("Grams to a metre"), 0.001, 1000)
        return weighing.Known(amount=1000.0, grams=grams, step_g=None)
    if not forms.text("known_amount"):
        raise InvalidInput("known_weight_wanted", field="known_amount")
    held = (float(forms.count("known_amount", _("How many"), 1)) if kind.counted
            else forms.length("known_amount", AMOUNT[kind]))
    return weighing.Known(amount=held, grams=grams_of("known_grams"), step_g=scale.step_g)
