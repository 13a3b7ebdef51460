"""What everything waits for is said at a terminal, and nowhere else."""

from __future__ import annotations

import sys

import pytest

from stash import waited_for
from stash.cli.waits import say_what_is_waited_for
from stash.fact import fact


@pytest.fixture(autouse=True)
def nobody_listens(monkeypatch):
    """As in a new process."""
    monkeypatch.setattr(waited_for, "_listeners", [])


@pytest.mark.parametrize("terminal", [True, False])
def test_a_wait_is_told_at_a_terminal_only(monkeypatch, capsys, terminal):
    """On the terminal's own stream, so that what a program reads stays as it is."""
    monkeypatch.setattr(sys.stderr, "isatty", lambda: terminal)
    say_what_is_waited_for()
    waited_for.waiting_for(fact("getting_ready_to_lay"))
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("Getting ready") is terminal
