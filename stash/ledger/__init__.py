"""The history as pure values: every remaining length and count is a fold over events."""

from stash.ledger.act import merged, taken_apart
from stash.ledger.bins import BinHold, BinState
from stash.ledger.cuts import CutHold, CutState
from stash.ledger.event import NEEDS, Entry, Event, Kind
from stash.ledger.fold import FoldedState, applied, fold, fold_subject, held_off, standing
from stash.ledger.undo import after_undo, undoing

__all__ = [
    "NEEDS", "BinHold", "BinState", "CutHold", "CutState", "Entry", "Event", "Kind", "FoldedState",
    "after_undo", "applied", "fold", "fold_subject", "held_off", "merged", "standing",
    "taken_apart", "undoing",
]
