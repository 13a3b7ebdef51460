"""How values are written on a page, and what every page carries."""

from __future__ import annotations

import json
import re
import secrets
from collections.abc import Callable, Iterable
from typing import Any

from flask import Flask, flash, get_flashed_messages
from jinja2 import pass_context
from markupsafe import Markup

from stash import units
from stash.fact import Fact
from stash.model import Bin, Cloth, Cut, Notion, NotionKind
from stash.model.amounts import AMOUNT, SIZE
from stash.quantity import PRICED_MM, Quantity
from stash.sentences import named, quantities
from stash.sentences import tell as sentences
from stash.sentences.garments import garment_said
from stash.sentences.manner import in_the_manner_of, minute
from stash.sentences.regional import both_names
from stash.sentences.saying import piece_named
from stash.sentences.unbroken import times, unbroken
from stash.workroom.drafts import title_of, word
from stash.workroom.explaining import whole_mm
from stash.workroom.questions.drawing import Layers, Position
from stash.workroom.questions.notions_json import line_to_buy
from web.bin_kinds import kind_name
from web.drawing import notion as notion_drawing
from web.drawing import to_scale as cloth_drawing
from web.drawing.rule import rule
from web.navigation import further, ways
from web.request_stash import reader, system, units_open
from web.texts import _


def install(app: Flask) -> None:
    """Give the templates their filters and the parts of the frame.

    Nothing is worked out while a template is compiled: an example in it would stay for good
    in the language of whoever opened the page first.
    """
    app.jinja_env.filters.update({name: _anew(shown) for name, shown in {
        "measure": length, "cloth": cloth, "width": width, "mass": mass, "exactly": exactly,
        "cut_length": shown_as(Quantity.CUT_LENGTH), "tape": shown_as(Quantity.PATTERN),
        "margin": shown_as(Quantity.MARGIN), "button": button, "amount": amount, "needed": needed,
        "turn": turn, "lies": lies, "error_of": error_of, "small_error": small_error,
        "small": lambda mm: quantities.written("small_mm", mm, reader()),
        "per_cent": lambda share: unbroken(quantities.written("_pct", share, reader())),
        "fibres": fibres, "notion_size": notion_size, "notion_measure": notion_measure,
        "size_of": size_of, "cut_size": cut_size, "days": days, "bin_amount": bin_amount,
        "say": say,
        "garment": garment, "called": called, "local": local, "measure_name": measure_name,
        "piece_name": lambda name: piece_named(name, reader()),
        "titled": lambda head: head.titled(reader()),
        "both_names": lambda word: both_names(word, reader()),
        "named": lambda code: named(code, reader()),
        "example": example, "priced": priced,
    }.items()})
    app.jinja_env.globals.update(
        bare_hint=bare_hint, units_open=units_open, price_label=price_label,
        running_label=running_label,
        language=lambda: reader().language, once=once, notices=notices,
        rule=lambda mm: rule(mm, system()),
        bar=cloth_drawing.bar, whole=cloth_drawing.whole, framed=cloth_drawing.framed,
        with_edges=cloth_drawing.with_edges,
        swatch=cloth_drawing.swatch,
        notion_drawing=notion_drawing.drawing, kind_name=kind_name, ways=ways, further=further,
        what_to_buy=line_to_buy, about=about, times=times,
    )


def _anew(shown: Callable[..., Any]) -> Callable[..., Any]:
    """A filter worked out for each reader: what a template says of a constant, ``'1.5 m'|example``,
    would else be worked out once, for whoever opened the page first."""
    @pass_context
    def for_reader(_context: object, *values: object) -> object:
        return shown(*values)
    return for_reader


def say(told: Fact | Iterable[Fact]) -> str:
    """A fact, or several, as this workroom reads them."""
    return sentences((told,) if isinstance(told, Fact) else told, reader())


def about(what: str, name: str) -> str:
    """A heading and whom or what it is about, with the colon as this language sets it."""
    return _("%(what)s: %(name)s", what=what, name=name)


def measure_name(key: str) -> str:
    """What a measurement of the body is called."""
    return both_names(word(key), reader())


def length(mm: float) -> str:
    """A length in the units this workroom reads."""
    return quantities.written("_mm", mm, reader())


def error_of(mm: float) -> str:
    """How far a length may be out."""
    return quantities.written("error_mm", mm, reader())


def small_error(mm: float) -> str:
    """How far what is told to a tenth of a millimetre may be out."""
    return quantities.written("error_small_mm", mm, reader())


def cloth(mm: float) -> str:
    """How much cloth is missing, spared or saved: never millimetres."""
    return quantities.written("short_mm", mm, reader())


def width(mm: float) -> str:
    """A width of cloth as shops print it."""
    return quantities.written("width_mm", mm, reader())


def cut_size(cut: Cut) -> str:
    """Length by width; of a remnant first what is whole, since a rectangle is not there."""
    long = shown_as(Quantity.CUT_LENGTH)
    size = times(long(cut.length_mm), width(cut.width_mm))
    if cut.outline.is_rectangle:
        return size
    whole_length_mm, whole_width_mm = whole_mm(cut.outline)
    whole = times(long(whole_length_mm), width(whole_width_mm))
    return _("%(whole)s in one piece, of %(size)s", whole=whole, size=size)


def shown_as(quantity: Quantity) -> Callable[[float], str]:
    """A filter that writes every length of one kind in the same unit."""
    return lambda mm: quantities.shown(mm, quantity, reader())


def local(text: str) -> str:
    """A figure as it is typed in English, in the reader's manner: 1,2 m."""
    return in_the_manner_of(text, reader())


def garment(name: str) -> str:
    """A garment by its title, never by the word that commands use for it."""
    return _(title_of(name))


def called(labels: Iterable[str]) -> str:
    """Garments and kinds of cloth as a sentence calls them: "shirt for Bram, lining"."""
    return ", ".join(
        said if (said := garment_said(label, reader())) != label else _(label) for label in labels
    )


EXAMPLES = {
    "1.5 m": "1 5/8 yd", "1.6 m": "1 3/4 yd", "140 cm": "54 in", "20 cm": "8 in",
    "19.4 cm": "7 3/4 in", "19.7 cm": "7 7/8 in", "1.5 cm": "5/8 in", "6 cm": "2 1/2 in",
    "3.5 m": "4 yd",
    "28-36-22": "11 in-14 in-9 in", "15 mm": "5/8 in", "4 mm": "1/8 in",
    "180 g/m²": "5 oz/yd²", "60 g/m²": "2 oz/yd²",
    "38: bust 88 cm, hip 94 cm": "38: bust 34 1/2 in, hip 37 in",
}
"""What a field proposes in metres, and the like of it in yards and inches."""


def example(text: str) -> str:
    """What could be typed, in the units and the manner of whoever reads this page."""
    return EXAMPLES.get(text, text) if in_inches() else local(text)


def in_inches() -> bool:
    """Whether this workroom reads yards and inches."""
    return system() is units.System.INCHES


_IN_MM = re.compile(r"(\d+)\s?mm")


def in_units(text: str) -> str:
    """The words of an option, each figure that they name in millimetres as this workroom reads."""
    return _IN_MM.sub(
        lambda found: quantities.shown(float(found[1]), Quantity.PATTERN, reader()), text)


def priced(minor_per_m: float) -> float:
    """What a metre costs in minor currency, as the price of the length that the shop counts in."""
    return minor_per_m * PRICED_MM[system()] / 100_000


def price_label() -> str:
    """What a field for a price asks for."""
    return _("Price a yard") if in_inches() else _("Price a metre")


def running_label() -> str:
    """What a length off the bolt is counted in."""
    return _("Running yards") if in_inches() else _("Running metres")


def bare_hint() -> str:
    """What a number without a unit means to whoever reads this page."""
    if in_inches():
        return _("with its unit: yd, in, m or cm")
    return _("m, cm, yd or in; a bare number is centimetres")


def button(mm: float) -> str:
    """A button's diameter in millimetres and lignes."""
    return quantities.written("diameter_mm", mm, reader())


def lies(row: Position) -> str:
    """"turned 180°, turned over, two layers"; "not turned" where nothing else is to be said."""
    how = [_("turned %(turn)s", turn=turn(row.turn_deg))] if row.turn_deg else []
    if row.mirrored:
        how.append(_("turned over"))
    if row.layers is not Layers.ONE:
        how.append(_(row.layers.value))
    return ", ".join(how or [_("not turned")])


def turn(degrees: float) -> str:
    """How far a piece is turned."""
    return quantities.written("_deg", degrees, reader())


def exactly(value: float) -> str:
    """A number in full, for a hidden field: read back, it is the very same."""
    return json.dumps(value)


def mass(gsm: float | None) -> str:
    """The weight of a cloth."""
    return "" if gsm is None else quantities.written("_gsm", gsm, reader())


def amount(value: float, kind: NotionKind) -> str:
    """A count of things, or a length of tape."""
    if kind.counted:
        return quantities.written("", value, reader())
    return quantities.shown(value, AMOUNT[kind], reader())


def needed(value: float, kind: NotionKind) -> str:
    """How much of a bin is promised: of thread whole metres, since nobody winds off less."""
    if kind is NotionKind.THREAD:
        return quantities.written("thread_mm", value, reader())
    return amount(value, kind)


def fibres(cloth: Cloth) -> str:
    """The composition: "55 % linen, 45 % cotton"."""
    return quantities.composition(cloth.fibres, reader())


def notion_size(notion: Notion) -> str:
    """A notion's size in its trade's unit."""
    if notion.size_mm is None:
        return ""
    if notion.kind in (NotionKind.BUTTON, NotionKind.SNAP):
        return button(notion.size_mm)
    size = quantities.shown(notion.size_mm, SIZE[notion.kind], reader())
    return size if notion.kind is NotionKind.ZIP else _("%(size)s wide", size=size)


def size_of(mm: float, kind: NotionKind) -> str:
    """The size of one kind of notion, in its trade's unit."""
    return quantities.shown(mm, SIZE[kind], reader())


def notion_measure(notion: Notion) -> str:
    """A notion's size as it is typed: without the lignes beside the millimetres."""
    if notion.size_mm is None:
        return ""
    kind = SIZE[notion.kind]
    shown = quantities.shown(notion.size_mm, kind, reader())
    return shown.partition(" (")[0] if kind is Quantity.BUTTON else shown


def bin_amount(held: Bin) -> str:
    """What a bin holds, with its unit."""
    return amount(held.amount, held.notion.kind)


def days(moment: str | None) -> str:
    """Date and minute of an ISO moment."""
    return minute(moment, reader()) if moment else ""


def once() -> Markup:
    """The hidden token that makes a form count only once."""
    return Markup('<input type="hidden" name="token" value="%s">') % secrets.token_urlsafe(12)


def tell(
    text: str, kind: str = "good", undo: object = None, onward: Iterable[tuple[str, str]] = ()
) -> None:
    """Say something on the next page; ``undo`` is the event that an Undo button takes back.

    ``onward`` are ways that lead on from there: each its address, and what it says.
    """
    flash([text, undo, list(onward)], kind)


def tell_saved(event: int | None, text: str) -> None:
    """Say what was saved by this event, or that there was nothing to save."""
    tell(text if event else _("Nothing was changed."), undo=event)


def notices() -> list[tuple[str, str, object, list[tuple[str, str]]]]:
    """What there is to say at the top of this page."""
    return [(kind, text, undo, onward) for kind, (text, undo, onward) in
            get_flashed_messages(with_categories=True)]
