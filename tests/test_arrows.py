"""The arrows between rooms run one way."""

import ast

from importlinter.cli import EXIT_STATUS_SUCCESS, lint_imports


def test_every_import_follows_the_plan(monkeypatch, request):
    """web stands on labels, labels on stash; inside stash the arrows point down."""
    monkeypatch.chdir(request.config.rootpath)

    assert lint_imports(no_cache=True) == EXIT_STATUS_SUCCESS


def test_pages_and_commands_hand_the_stash_on_and_never_reach_into_it(request):
    """What a door opened goes to the workroom whole: no ``stash().cuts``, no ``stash.plans``."""
    reached = [
        f"{path}:{node.lineno} .{node.attr}"
        for folder in ("web", "stash/cli", "labels/cli")
        for path in sorted((request.config.rootpath / folder).rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Attribute) and _opened(node.value) and node.attr not in ALLOWED
    ]

    assert reached == []


ALLOWED = {"close"}


def _opened(node: ast.expr) -> bool:
    """``stash()`` of a request, or a name that a record was opened under."""
    if isinstance(node, ast.Call):
        return isinstance(node.func, ast.Name) and node.func.id == "stash"
    return isinstance(node, ast.Name) and node.id == "stash"
