"""The words of the command line in the reader's language: what it says, and its help.

What is said of the record follows the settings; help and what is said of a command typed
wrongly come before any record is opened, and follow the terminal (LANGUAGE, LC_ALL, LANG).
"""

from __future__ import annotations

import copy
import gettext
import inspect
import re

import click

from stash.sentences.manner import in_the_manner_of
from stash.sentences.quantities import number
from stash.sentences.reader import spoken
from stash.sentences.translations import DOMAIN, FOLDER, translated

PLACEHOLDER = re.compile(r"[A-Z]{2,}(?: [A-Z]{2,})*")
"""A word that stands for a value in a line of usage."""


def _(text: str, /, **values: object) -> str:
    """A text in the reader's language, its ``{name}`` filled in; a float in its manner.

    A whole number is written as it is: it may be one that is typed again (``undo 1204``).
    """
    from stash.cli.frame import reader  # which says its own words through this

    whose = reader()
    said = {name: in_the_manner_of(number(value, whose), whose) if isinstance(value, float)
            else value for name, value in values.items()}
    return translated(text, whose.language).format(**said)


def speak_the_terminals_language() -> None:
    """Have click's own words ("Usage", "Missing option") looked up in our catalogues."""
    gettext.bindtextdomain(DOMAIN, str(FOLDER))
    gettext.textdomain(DOMAIN)


def paragraphs(text: str | None) -> list[str]:
    """The paragraphs of a help text, each on one line, as translators see them."""
    return [" ".join(part.split()) for part in inspect.cleandoc(text or "").split("\n\n") if part]


def in_the_terminals_language(command: click.Command) -> click.Command:
    """The command, and the commands in it, as they explain themselves at this terminal."""
    language = spoken()
    if language == "en":
        return command
    told = copy.copy(command)
    told.help = "\n\n".join(translated(part, language) for part in paragraphs(command.help))
    if command.epilog:
        told.epilog = "\n".join(translated(line, language) for line in command.epilog.split("\n"))
    told.params = [told_in(language, parameter) for parameter in command.params]
    told.options_metavar = named_in(language, command.options_metavar or "")
    if isinstance(told, click.Group):
        told.subcommand_metavar = named_in(language, told.subcommand_metavar)
        inner = told.commands.items()
        told.commands = {name: in_the_terminals_language(one) for name, one in inner}
    return told


def told_in(language: str, parameter: click.Parameter) -> click.Parameter:
    """An option or an argument as it is called and explains itself in a language."""
    told = copy.copy(parameter)
    told.metavar = named_in(language, parameter.make_metavar(click.Context(click.Command(None))))
    if isinstance(told.type, click.types.IntParamType | click.types.FloatParamType):
        told.type = copy.copy(told.type)
        told.type.name = named_in(language, told.type.name.upper())
    if isinstance(told, click.Option):
        told.help = told.help and translated(told.help, language)
    return told


def named_in(language: str, metavar: str) -> str:
    """What stands for a value to be typed: "NAME=VALUE" is "NOM=VALEUR"; what is typed stays."""
    return PLACEHOLDER.sub(lambda word: translated(word[0], language), metavar)
