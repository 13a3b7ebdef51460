"""Who is told what everything waits for, when something takes long once."""

from __future__ import annotations

from collections.abc import Callable

from stash.fact import Fact

_listeners: list[Callable[[Fact], None]] = []


def tell_of_waits(listener: Callable[[Fact], None]) -> None:
    """Have ``listener`` told, from now on, what is waited for."""
    _listeners.append(listener)


def waiting_for(what: Fact) -> None:
    """Tell whoever listens."""
    for listener in _listeners:
        listener(what)
