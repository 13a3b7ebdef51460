"""A colour in a form: its name in a field, and a picker beside it; never figures to be typed.

Where the name was edited it is what counts, but for a picked colour of that very name, as a
photograph's is (``static/js/entry.js``).
"""

from __future__ import annotations

from flask import Flask

from stash.cloth_kinds import weight_words
from stash.colours import colour_names, nearest, read_colours
from web import forms
from web.drawing.to_scale import HEX
from web.request_stash import reader
from web.texts import _

NO_COLOUR = "#b9ad95"
"""What a picker shows where no colour is known; as shown, it says nothing."""


def install(app: Flask) -> None:
    """Give the templates the names of colours."""
    app.jinja_env.globals.update(
        colour_words=colour_words, said_colours=said_colours, no_colour=NO_COLOUR,
        weight_words=said_weights)


def colours_from_form() -> tuple[str, ...] | None:
    """The colours that were named or picked; None where the form says nothing new of them."""
    picked = "" if forms.untouched("colour-picked") else forms.text("colour-picked")
    if forms.untouched("colour") or not forms.text("colour"):
        if picked:
            return read_colours(picked, field="colour")
        return () if forms.was_shown("colour") and not forms.text("colour") else None
    named = read_colours(forms.text("colour"))
    exact = read_colours(picked, field="colour") if picked else ()
    return exact if exact and said_colours(exact) == forms.text("colour") else named


def said_colours(colours: tuple[str, ...] | list[str]) -> str:
    """Colours by the names that are nearest to them, in the reader's language."""
    return ", ".join(dict.fromkeys(
        nearest(one).said(reader().language) if HEX.fullmatch(one) else one for one in colours))


def said_weights() -> list[tuple[str, str]]:
    """The words for weights, to choose from."""
    return [(one.word, _(one.word)) for one in weight_words()]


def colour_words() -> list[tuple[str, str]]:
    """(name, #rrggbb) of every colour there is a name for, in the reader's language."""
    return [(one.said(reader().language), one.hex) for one in colour_names()]

