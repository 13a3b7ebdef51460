"""Templates can be read: their lines end where a screen does, and each of them parses."""

from __future__ import annotations

from pathlib import Path

import pytest
from jinja2 import Environment

FOLDER = Path(__file__).parents[1] / "web" / "templates"
TEMPLATES = sorted(FOLDER.rglob("*.html"))
LONGEST = 120


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.relative_to(FOLDER).as_posix())
def test_no_line_is_longer_than_a_screen(path):
    """120 characters: what stands further right is not read, nor seen in a comparison."""
    lines = path.read_text(encoding="utf-8").splitlines()

    assert [n for n, line in enumerate(lines, 1) if len(line) > LONGEST] == []


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.relative_to(FOLDER).as_posix())
def test_each_template_parses(path):
    """A tag that is left open is found here, not by the person who opens the page."""
    Environment(extensions=["jinja2.ext.i18n"], autoescape=True).parse(
        path.read_text(encoding="utf-8"))
