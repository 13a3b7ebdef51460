"""Every number of the trade in the drafts says where it comes from."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

import stash.draft
from stash.draft.catalogue import about, draft, garments
from stash.draft.option import Measure

FOLDER = Path(stash.draft.__file__).parent
# Rooms that hold geometry, data structures and words, no numbers of the trade.
NOT_TRADE = {"geometry.py", "option.py", "chosen.py", "blame.py", "known.py", "__init__.py"}
SAYS = re.compile(
    r"common practice|no source|from memory|chosen here|chalk|ruler|arithmetic"
    r"|\b1[89]\d\d\b|\b20\d\d\b"
    r"|Sewing Lab|Baldt|Burton|Rosenfeld|ANSUR|ASTM|ISO|NMSU|lessonotes|slide|Cunningham"
    r"|7pinedesign|\.com|source"
    r"|rule ", re.I)
PLAIN = {0, 1, 2, 3, 4, 8, 0.5, 10, 100, 1000, 90, 180, 45, 25.4, 360}


def numbers(node: ast.AST) -> set[float]:
    """The numbers in a piece of code that are more than halves and counts."""
    found = {
        n.value for n in ast.walk(node)
        if isinstance(n, ast.Constant) and isinstance(n.value, int | float)
        and not isinstance(n.value, bool)
    }
    return {n for n in found if abs(n) not in PLAIN and abs(n) > 1e-3}


def modules() -> list[Path]:
    """The drafts and what they share."""
    return [p for p in sorted(FOLDER.glob("*.py")) if p.name not in NOT_TRADE]


@pytest.mark.parametrize("path", modules(), ids=lambda p: p.stem)
def test_every_constant_says_where_it_comes_from(path: Path):
    """On its line, or in the comment above it or the constants it stands with."""
    text = path.read_text(encoding="utf-8")
    lines = text.splitlines()
    for node in ast.parse(text).body:
        if not isinstance(node, ast.Assign) or not numbers(node.value):
            continue
        start = node.lineno - 1
        while start > 0 and lines[start - 1].strip():
            start -= 1
        block = "\n".join(lines[start:(node.end_lineno or node.lineno) + 1])
        assert SAYS.search(block), f"{path.name}:{node.lineno} {lines[node.lineno - 1]}"


@pytest.mark.parametrize("path", modules(), ids=lambda p: p.stem)
def test_every_step_with_numbers_says_where_they_come_from(path: Path):
    """In the function's docstring or a comment in it, or in the docstring of its file or class."""
    text = path.read_text(encoding="utf-8")
    tree = ast.parse(text)
    lines = text.splitlines()
    whole = ast.get_docstring(tree) or ""
    for owner in ast.walk(tree):
        if not isinstance(owner, ast.FunctionDef) or not numbers(owner):
            continue
        block = "\n".join(lines[owner.lineno - 1:owner.end_lineno])
        said = f"{block}\n{whole}"
        assert SAYS.search(said), f"{path.name}: {owner.name} {sorted(numbers(owner))}"


def plain_size(n: ast.AST) -> bool:
    """A length or girth: a number of five or more that is no count, inch or right angle."""
    return (
        isinstance(n, ast.Constant) and isinstance(n.value, int | float)
        and not isinstance(n.value, bool) and abs(n.value) >= 5 and n.value not in PLAIN
    )


@pytest.mark.parametrize("path", modules(), ids=lambda p: p.stem)
def test_every_size_in_a_step_says_where_it_comes_from(path: Path):
    """Number by number: on its line or the line above, in the step's docstring; or the file says
    outright that sizes without a source are common practice. That a file names some source is not
    enough: it need not be this number's.
    """
    text = path.read_text(encoding="utf-8")
    tree, lines = ast.parse(text), text.splitlines()
    if "common practice" in " ".join((ast.get_docstring(tree) or "").split()):
        return
    for step in (n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef)):
        if SAYS.search(ast.get_docstring(step) or ""):
            continue
        for n in filter(plain_size, ast.walk(step)):
            near = "\n".join(lines[max(0, n.lineno - 2):n.lineno])
            assert SAYS.search(near), f"{path.name}:{n.lineno} {step.name} {n.value}"


@pytest.mark.parametrize("name", garments())
def test_every_default_says_where_it_comes_from(name: str):
    """Each option that is a length names its source, or that it is common practice."""
    for option in about(name).options:
        if isinstance(option, Measure):
            assert SAYS.search(option.source), (name, option.name)


@pytest.mark.parametrize("name", garments())
def test_what_a_garment_asks_of_its_cloth_says_where_it_comes_from(name: str):
    """The weights and the stretch too."""
    girths = {"bust": 920.0, "waist": 760.0, "hip": 1000.0}
    assert SAYS.search(draft(name, girths, body="women").wants.source)
