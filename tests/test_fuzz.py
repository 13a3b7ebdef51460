"""Whatever is typed, sent or named gets an answer or a sentence, and nothing half done.

``python tests/bench/fuzz.py --cases 100000`` tries more of it.
"""

from __future__ import annotations

import ast
from pathlib import Path

import click
from fuzz import run
from fuzz_lists import COMMANDS, NOT_FROM_OUTSIDE, NOT_TRIED, PARSERS

from web.command import main

ROOT = Path(__file__).parents[1]


def readers():
    """Every function of the house that by its name reads what came from outside."""
    for top in ("stash", "labels", "web"):
        for path in (ROOT / top).rglob("*.py"):
            module = ".".join(path.relative_to(ROOT).with_suffix("").parts)
            for node in ast.parse(path.read_text(encoding="utf-8")).body:
                if isinstance(node, ast.FunctionDef) and node.name.startswith(
                        ("parse", "read_", "tidy")):
                    yield f"{module}:{node.name}"


def leaves(group, words=()):
    """Every command that does something."""
    for name in group.list_commands(click.Context(group)):
        found = group.get_command(click.Context(group), name)
        if isinstance(found, click.Group):
            yield from leaves(found, (*words, name))
        else:
            yield " ".join((*words, name))


def test_every_parser_is_on_the_list():
    """A new one is tried, or the list says why not."""
    assert sorted(set(readers()) - PARSERS.keys() - NOT_FROM_OUTSIDE.keys()) == []


def test_every_command_is_on_the_list():
    """Nor is one on it that is gone."""
    assert sorted(leaves(main)) == sorted(COMMANDS)
    assert set(NOT_TRIED) <= set(COMMANDS)


def test_nothing_that_is_typed_or_sent_ends_in_a_failure(tmp_path):
    """Parsers, all routes of the app, and commands."""
    told = run(5000, seed=1, room=tmp_path)

    assert told.bad == []
    assert min(told.cases.values()) > 300
