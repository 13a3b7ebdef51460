"""The one family of errors a person may see.

An error carries a fact: what is wrong, with its numbers. ``stash.sentences`` says it and
what to do about it. Nothing here knows about HTTP statuses or exit codes: the edges
decide those. "It does not fit" is not an error; it is an answer (see ``stash.lay``).
"""

from __future__ import annotations

from stash.fact import Fact, Value, fact


class StashError(Exception):
    """Base of every error a person may see: ``InvalidInput("not_a_size", typed="3")``.

    ``what`` is a fact or the kind of one, whose values follow by name.
    """

    def __init__(self, what: Fact | str, /, **values: Value):
        self.fact = _fact(what, values)
        super().__init__(str(self.fact))


class NotFound(StashError):
    """Nothing on record carries this code or name."""


class InvalidInput(StashError):
    """A value typed, read or uploaded cannot be used as it stands; ``field`` names the form's."""

    def __init__(self, what: Fact | str, /, *, field: str | None = None, **values: Value):
        super().__init__(what, **values)
        self.field = field


class Conflict(StashError):
    """The record has moved on, so this change no longer applies to it."""


class NotEnough(Conflict):
    """More was asked for than the record says is there; a re-measure may be due."""

    def __init__(self, what: Fact | str, /, *, asked: float, available: float, **values: Value):
        super().__init__(what, **values)
        self.asked = asked
        self.available = available


class SurerFigure(Conflict):
    """A surer figure is on record and stays; told to ``replace`` it, the act goes on."""


class Held(Conflict):
    """A plan holds what was asked for; ``plans`` names who must give it up first."""

    def __init__(self, what: Fact | str, /, *, plans: tuple[str, ...], **values: Value):
        super().__init__(what, **values)
        self.plans = plans


class StoreTooNew(StashError):
    """The data folder was written by a newer version of Lengthwise."""


class Unavailable(StashError):
    """An optional part of this computer (camera, library) is not there."""


def _fact(what: Fact | str, values: dict[str, Value]) -> Fact:
    if isinstance(what, Fact):
        return what
    if not what.isidentifier():
        raise ValueError(f"an error carries the kind of a fact, not a sentence: {what!r}")
    return fact(what, **values)
