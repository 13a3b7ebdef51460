"""The one place through which every text on a page goes, ready for translations."""

from __future__ import annotations

import gettext as catalogues

from flask import Flask

_catalogue = catalogues.NullTranslations()


def gettext(text: str) -> str:
    """The text in the person's language."""
    return _catalogue.gettext(text)


def ngettext(one: str, many: str, count: int) -> str:
    """The text that goes with a count."""
    return _catalogue.ngettext(one, many, count)


def _(text: str, **values: object) -> str:
    """For texts made in Python: translate first, then fill in ``%(name)s``."""
    return gettext(text) % values if values else gettext(text)


def install(app: Flask) -> None:
    """Give the templates ``_()`` and ``ngettext()``."""
    app.jinja_env.add_extension("jinja2.ext.i18n")
    app.jinja_env.install_gettext_callables(gettext, ngettext, newstyle=True)
