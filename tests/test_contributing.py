"""The contributor's door: what the guides promise is there, and what they tell to run runs."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
GUIDES = ["README.md", "CONTRIBUTING.md", "DEVELOPERS.md"]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("guide", GUIDES)
def test_each_make_target_named_is_in_the_makefile(guide):
    """``make quick`` in a guide is a target that stands there."""
    targets = set(re.findall(r"^([a-z]+):", (ROOT / "Makefile").read_text(), re.MULTILINE))

    named = set(re.findall(r"(?:^|`)make ([a-z]+)", (ROOT / guide).read_text(), re.MULTILINE))

    assert named
    assert named <= targets


@pytest.mark.parametrize("guide", [*GUIDES, "docs/decisions/README.md"])
def test_each_file_named_is_there(guide):
    """A folder, a module, a page: every path in a guide leads somewhere."""
    text = (ROOT / guide).read_text(encoding="utf-8")
    paths = re.findall(r"`((?:stash|labels|web|tests|docs)/[\w/.-]*)`", text)
    links = re.findall(r"\]\(([^)#:]+)\)", text)
    here = (ROOT / guide).parent

    assert [p for p in paths if not (ROOT / p).exists()] == []
    assert [link for link in links if not (here / link).exists()] == []


def test_every_decision_is_listed_and_says_when_to_look_again():
    """One page a choice: what was chosen, what was measured or thought of, and until when."""
    folder = ROOT / "docs" / "decisions"
    listed = (folder / "README.md").read_text(encoding="utf-8")

    for page in folder.glob("[a-z]*.md"):
        text = page.read_text(encoding="utf-8")
        assert f"({page.name})" in listed
        assert "**Chosen:**" in text
        assert "**Look again**" in text


def test_the_hooks_of_a_commit_are_the_checks_of_make_lint():
    """Style, types, arrows and templates: the same tools in both."""
    hooks = (ROOT / ".pre-commit-config.yaml").read_text(encoding="utf-8")
    lint = (ROOT / "Makefile").read_text(encoding="utf-8").split("\nlint:")[1]

    for tool in ("ruff", "mypy", "lint-imports", "djlint"):
        assert f".venv/bin/{tool}" in hooks
        assert f"$(BIN)/{tool}" in lint


def test_types_are_strict_in_every_room():
    """None is left out."""
    mypy = PROJECT["tool"]["mypy"]
    left_out = {m for o in mypy["overrides"] if o.get("ignore_errors") for m in o["module"]}

    assert mypy["strict"]
    assert mypy["files"] == ["stash", "labels"]
    assert left_out == set()
