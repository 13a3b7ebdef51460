"""No error carries a sentence: it carries the kind of a fact, and every kind can be said."""

import ast
import string
from pathlib import Path

import pytest

from stash.sentences.wording import WORDING

ERRORS = {"StashError", "NotFound", "InvalidInput", "Conflict", "NotEnough", "Held",
          "StoreTooNew", "Unavailable", "fact"}
NOT_VALUES = {"field", "available", "plans"}
FILES = sorted(p for room in ("stash", "labels", "web") for p in Path(room).rglob("*.py"))


def made(path):
    """(line, kind, names of its values or None when they come from elsewhere) in one file."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        name = getattr(node.func, "id", "") if isinstance(node, ast.Call) else ""
        if name not in ERRORS or not node.args:
            continue
        kinds = [node.args[0]]
        if isinstance(kinds[0], ast.IfExp):
            kinds = [kinds[0].body, kinds[0].orelse]
        names = {k.arg for k in node.keywords}
        if name != "fact":
            names -= NOT_VALUES
        for kind in kinds:
            if isinstance(kind, ast.Constant | ast.JoinedStr | ast.BinOp):
                yield node.lineno, ast.unparse(kind), kind, None if None in names else names


@pytest.mark.parametrize("path", FILES, ids=str)
def test_every_fact_of_a_file_can_be_said(path):
    """Its kind has a wording, and the wording asks for no value that the fact lacks."""
    for line, said, kind, names in made(path):
        where = f"{path}:{line}: {said[:80]}"
        if isinstance(kind, ast.JoinedStr):  # a kind for each word of a list: narrow_hem, ...
            given = [part.value for part in kind.values if isinstance(part, ast.Constant)]
            assert any(all(part in k for part in given) for k in WORDING), where
            continue
        assert isinstance(kind, ast.Constant) and kind.value.isidentifier(), where
        assert kind.value in WORDING, where
        forms = WORDING[kind.value]
        for form in (forms,) if isinstance(forms, str) else forms:
            asked = {name for _, name, _, _ in string.Formatter().parse(form) if name}
            assert names is None or asked <= names, where
