"""Commands begin at once: what they do not need is not loaded, and the list loads none of them."""

from __future__ import annotations

import importlib
import subprocess
import sys

import pytest
from click.testing import CliRunner

from stash.model import (
    Bin,
    Cloth,
    Cut,
    FibreShare,
    Notion,
    NotionKind,
    Outline,
    Pattern,
    Person,
    Piece,
)
from stash.store import open_stash
from web.command import COMMANDS, main

HEAVY = ("cv2", "ezdxf", "flask", "fontTools", "fpdf", "highspy", "numba", "shapely")
RUN = (
    "import sys\nfrom web.command import main\n"
    "try: main()\nexcept SystemExit as end: assert not end.code, end.code\n"
    "print('loaded', *(name for name in {names!r} if name in sys.modules), file=sys.stderr)"
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """A whole cut, a bin, a place, a person, a pattern: none of them asks for geometry."""
    data = tmp_path_factory.mktemp("stash")
    cloth = Cloth(name="Reed linen", fibres=(FibreShare("flax", 100.0),))
    button = Notion(kind=NotionKind.BUTTON, name="Shell button", size_mm=15.0)
    with open_stash(data) as stash:
        stash.cuts.receive(Cut(code="", cloth=cloth, outline=Outline.rectangle(1500.0, 1400.0)))
        stash.bins.receive(Bin(code="", amount=12, notion=button))
        stash.places.receive("Loft shelf")
        stash.people.save(Person(name="Odile", measurements_mm={"hip": 1040.0}))
        front = Piece(name="front", outline_mm=((0, 0), (300, 0), (300, 200), (0, 200)))
        stash.patterns.save("Sail bag", Pattern(garment="Sail bag", pieces=(front,)))
    return data


def loaded(arguments: list[str], names: tuple[str, ...]) -> list[str]:
    """Which of the libraries a new process has loaded once the command was done."""
    done = subprocess.run(
        [sys.executable, "-c", RUN.format(names=names), *arguments],
        capture_output=True, text=True, check=True,
    )
    assert done.stdout.strip()
    return done.stderr.split()[1:]


def test_the_list_of_commands_loads_none_of_them():
    """Not even the libraries of the record."""
    assert loaded(["--help"], (*HEAVY, "numpy", "sqlite_utils", "stash.store")) == []


@pytest.mark.parametrize("listed", ["cut", "bin", "place", "person", "plan", "pattern"])
def test_a_list_of_what_is_on_record_loads_no_geometry(listed, folder):
    """A list is read from the record: nothing is laid, drafted, printed or served for it."""
    assert loaded(["--data", str(folder), listed, "list"], (*HEAVY, "numpy")) == []


def test_a_list_of_patterns_loads_nothing_that_reads_alters_or_draws_them(folder):
    """No more than the list of cuts does: what the other commands of the group need stays away."""
    rooms = ("stash.pattern", "stash.draft", "stash.foreign.picture", "PIL")

    assert loaded(["--data", str(folder), "pattern", "list"], rooms) == []


@pytest.mark.parametrize("asked", ["fit", "need", "far", "like", "shop", "serve", "plan"])
def test_the_help_of_a_heavy_command_is_light(asked, folder):
    """Its options are shown without loading what it does."""
    assert loaded(["--data", str(folder), asked, "--help"], HEAVY) == []


def test_the_record_finds_numpy_as_ever_once_it_is_loaded():
    """It was only said not to be there while the library of the record was loaded."""
    asked = "import stash.store, sys; assert 'numpy' not in sys.modules; import numpy"
    subprocess.run([sys.executable, "-c", asked], check=True)


@pytest.mark.parametrize("name", COMMANDS)
def test_each_line_of_the_list_belongs_to_a_command(name):
    """The module is there, its command has help of its own, and the line is shown whole."""
    command = importlib.import_module(COMMANDS[name][0]).command

    assert command.name in {name, "command"}
    assert command.help
    assert COMMANDS[name][1] in CliRunner().invoke(main, ["--help"]).output
