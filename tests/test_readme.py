"""What the README tells a newcomer to type works as it stands."""

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from web.command import main

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^\$ lengthwise (.+)$", README, re.MULTILINE)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """One folder for all commands, in the order in which they are read."""
    return tmp_path_factory.mktemp("readme")


@pytest.mark.parametrize("line", COMMANDS)
def test_each_command_answers(line, folder, monkeypatch):
    """Run from top to bottom in one folder, every command ends well and says something."""
    monkeypatch.chdir(folder)

    done = CliRunner().invoke(main, ["--data", "stash", *shlex.split(line)])

    assert done.exit_code == 0, done.output
    assert done.output.strip()


def test_the_first_paragraph_states_the_job():
    """Before anything else: for whom, and what it does."""
    opening = README.split("\n\n")[1]

    assert opening.startswith("Lengthwise is for")
    assert "shop" in opening


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md", "CHANGELOG.md"])
def test_links_and_pictures_lead_somewhere(page):
    """Every file that a page points at is there."""
    text = (ROOT / page).read_text(encoding="utf-8")
    targets = re.findall(r"\]\(([^)#:]+)\)|src=\"([^\":]+)\"", text)

    assert [t for pair in targets for t in pair if t and not (ROOT / t).exists()] == []


def test_the_two_commands_are_the_ones_ci_runs():
    """README's make test is what .ci/run calls; both targets are in the Makefile."""
    makefile = (ROOT / "Makefile").read_text()

    assert "make demo" in README
    assert "make test" in README
    assert re.search(r"^demo:", makefile, re.MULTILINE)
    assert re.search(r"^make test$", (ROOT / ".ci" / "run").read_text(), re.MULTILINE)
