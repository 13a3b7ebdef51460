"""Whether an event may still be undone, and the entry that does it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from stash.errors import Conflict, StashError
from stash.ledger.event import Entry, Event, Kind
from stash.ledger.explained import dependent
from stash.ledger.fold import FoldedState, fold_subject, standing


def undoing(target: Event) -> Entry:
    """The entry that holds ``target`` off."""
    return Entry(
        kind=Kind.UNDO, code=target.code, undoes=target.id, change={s: {} for s in target.change}
    )


def after_undo(
    target: Event, histories: Mapping[str, Iterable[Event]], undo: Event
) -> dict[str, FoldedState | None]:
    """The states of everything ``target`` touched, once ``undo`` holds it off.

    ``histories`` gives for each subject all events that touch it, without ``undo``.
    Raises Conflict when the event no longer stands, when something later depends on
    it, or when a later count or re-measure has made it meaningless.
    """
    before = {subject: fold_subject(events, subject) for subject, events in histories.items()}
    if not _stands(target, histories[next(iter(target.change))]):
        raise Conflict("undone_before")
    after: dict[str, FoldedState | None] = {}
    for subject, events in histories.items():
        try:
            after[subject] = fold_subject([*events, undo], subject)
        except StashError as error:
            raise _blocked(target, events, subject, error) from error
    if after == before:
        raise Conflict("undo_replaced")
    return after


def _blocked(
    target: Event, events: Iterable[Event], subject: str, error: StashError
) -> Conflict:
    """Which later event depends on the one to be undone, and why it could not stand alone."""
    later = dependent(events, target, subject)
    if later is None:
        return Conflict("undo_blocked", because=error.fact)
    return Conflict(
        "undo_depends", event=later.id, what=later.kind.called, on=later.at[:10],
        because=error.fact)


def _stands(target: Event, events: Iterable[Event]) -> bool:
    return next(e.stands for e in standing(events) if e.id == target.id)
