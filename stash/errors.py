"""The one family of errors a person may see.

``str(error)`` is a whole sentence that says what is wrong and what to do.
Nothing here knows about HTTP statuses or exit codes: the edges decide those.
"It does not fit" is not an error; it is an answer (see ``stash.lay``).
"""


class StashError(Exception):
    """Base of every error a person may see."""


class NotFound(StashError):
    """Nothing on record carries this code or name."""


class InvalidInput(StashError):
    """A value typed, read or uploaded cannot be used as it stands."""

    def __init__(self, message: str, *, field: str | None = None):
        super().__init__(message)
        self.field = field


class Conflict(StashError):
    """The record has moved on, so this change no longer applies to it."""


class NotEnough(Conflict):
    """More was asked for than the record says is there; a re-measure may be due."""

    def __init__(self, message: str, *, asked: float, available: float):
        super().__init__(message)
        self.asked = asked
        self.available = available


class Held(Conflict):
    """A plan holds what was asked for; ``plans`` names who must give it up first."""

    def __init__(self, message: str, *, plans: tuple[str, ...]):
        super().__init__(message)
        self.plans = plans


class StoreTooNew(StashError):
    """The data folder was written by a newer version of Lengthwise."""


class Unavailable(StashError):
    """An optional part of this computer (camera, library) is not there."""
