"""What a kitchen scale shows, as it is typed in a form."""

from __future__ import annotations

from stash.model.weights import read_grams
from stash.workroom.weighing import Scale
from web import forms
from web.texts import _

STEPS = ("1", "0.1", "2", "5")
"""Of kitchen scales, in grams; the usual one first."""


def grams_of(name: str) -> float:
    """The grams in one field; InvalidInput names it."""
    return read_grams(forms.text(name), field=name)


def scale_of() -> Scale:
    """The scale of the form, by its step."""
    return Scale(step_g=forms.number("step", _("The scale's step"), 0.001, 100))
