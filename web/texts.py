"""The one place through which every text on a page goes, into the reader's language."""

from __future__ import annotations

import re

from flask import Flask, has_request_context

from stash.sentences.translations import translated
from stash.sentences.unbroken import units_kept
from web.request_stash import reader

BROKEN = re.compile(r"\s*\n\s*")


def gettext(text: str) -> str:
    """The text in the person's language."""
    return units_kept(translated(one_line(text), _language()))


def ngettext(one: str, many: str, count: int) -> str:
    """The text that goes with a count."""
    return units_kept(translated((one_line(one), one_line(many), count), _language()))


def one_line(text: str) -> str:
    """A text as one line, however a template is broken."""
    return BROKEN.sub(" ", text)


def headed(text: str) -> str:
    """The text beginning with a capital; names and German nouns inside keep theirs."""
    return text[:1].upper() + text[1:]


def _language() -> str:
    """Of whoever asks; English where nobody does, as in a search in the background."""
    return reader().language if has_request_context() else "en"


def _(text: str, **values: object) -> str:
    """For texts made in Python: translate first, then fill in ``%(name)s``."""
    return gettext(text) % values if values else gettext(text)


def install(app: Flask) -> None:
    """Give the templates ``_()`` and ``ngettext()``."""
    app.jinja_env.add_extension("jinja2.ext.i18n")
    app.jinja_env.install_gettext_callables(gettext, ngettext, newstyle=True)
