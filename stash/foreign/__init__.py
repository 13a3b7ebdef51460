"""The one door for files from elsewhere: drawings, pictures, spreadsheets.

``read_apart(reader, ...)`` runs a reader in a process of its own, which may take so much
time and memory and answer with so many bytes, and no more. What goes wrong there is one
sentence here. It is a bound on what a file can cost, not a prison: the readers themselves
are trusted. A backup is not read here but by counted work: ``store/backup/source.py``.
"""

from stash.foreign.apart import read_apart
from stash.foreign.limits import Limits

__all__ = ["Limits", "read_apart"]
