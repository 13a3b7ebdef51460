"""The command line in French and German: its help, its messages, and what is typed wrongly."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from stash.sentences.reader import LANGUAGES
from stash.sentences.translations import translated
from stash.store import open_stash
from web.command import main

TERMINALS = {"en": "en_GB.UTF-8", "fr": "fr_FR.UTF-8", "de": "de_DE.UTF-8"}


def run(data: Path, terminal: str, *words: str) -> str:
    """What a command says at a terminal of this language."""
    env = {"LC_ALL": TERMINALS[terminal], "LANGUAGE": None}
    return CliRunner(env=env).invoke(main, ["--data", str(data), *words]).output


@pytest.mark.parametrize("language", LANGUAGES[1:])
def test_help_is_translated(language):
    """Of every command, group and option; a new line may be English until a translator comes."""
    sys.path.insert(0, str(Path(__file__).parent / "bench"))
    from renew_catalogues import every_help

    lines = [line for line in every_help() if len(line.split()) > 3 and "=" not in line]
    assert len(lines) > 250
    waiting = [line for line in lines if translated(line, language) == line]
    assert len(waiting) <= len(lines) // 50, waiting


@pytest.mark.parametrize(("terminal", "usage", "only", "wrong"), [
    ("de", "Aufruf: ", "Nur nach einem Abschnitt fragen.", "Fehlendes Argument"),
    ("fr", "Usage\u00a0: ", "Ne demander que pour un coupon.", "Argument manquant"),
    ("en", "Usage: ", "Ask about one cut only.", "Missing argument"),
])
def test_help_and_mistakes_speak_the_terminals_language(tmp_path, terminal, usage, only, wrong):
    """The library's own words too; and the next terminal is answered in its own."""
    help_ = run(tmp_path, terminal, "fit", "--help")

    assert usage in help_
    assert only in help_
    assert wrong in run(tmp_path, terminal, "cut", "add")


@pytest.mark.parametrize(("terminal", "chosen", "said"), [
    ("en", None, "There are no plans yet."),
    ("de", None, "Es gibt noch keine Vorhaben."),
    ("en", "fr", "Il n’y a pas encore de projets."),
    ("de", "fr", "Il n’y a pas encore de projets."),
    ("fr", "en", "There are no plans yet."),
])
def test_the_setting_is_stronger_than_the_terminal(tmp_path, terminal, chosen, said):
    """Where she has chosen a language, every answer is in it; else in the terminal's."""
    with open_stash(tmp_path) as stash:
        if chosen:
            stash.settings.set("language", chosen)

    assert run(tmp_path, terminal, "plan", "list").strip() == said
