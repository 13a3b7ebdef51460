"""The one place through which every text on a page goes, into the reader's language."""

from __future__ import annotations

from flask import Flask, has_request_context

from stash.sentences.catalogue import translated
from web.request_stash import reader


def gettext(text: str) -> str:
    """The text in the person's language."""
    return translated(text, _language())


def ngettext(one: str, many: str, count: int) -> str:
    """The text that goes with a count."""
    return translated((one, many, count), _language())


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
