"""The table of docs/trust.md, of what once went wrong, names tests that are there."""

from __future__ import annotations

import ast
import re
from pathlib import Path

HERE = Path(__file__).parent
NAMED = re.compile(r"(test_\w+\.py)::(test_\w+)")


def test_every_test_that_the_table_names_exists():
    """A row of the table holds as long as its test does."""
    table = (HERE.parent / "docs" / "trust.md").read_text(encoding="utf-8")
    named = NAMED.findall(table)
    missing = [f"{file}::{test}" for file, test in named if test not in _tests_of(HERE / file)]

    assert len(named) > 50
    assert missing == []


def _tests_of(file: Path) -> set[str]:
    if not file.is_file():
        return set()
    return {node.name for node in ast.parse(file.read_text(encoding="utf-8")).body
            if isinstance(node, ast.FunctionDef)}
