"""The one room that makes sentences: a fact, the reader's units and language, and out it comes.

``say(fact, reader)`` fills the wording of the fact's kind (``wording/``, one file a topic)
with its values, each written by the unit in its name (``quantities``). A translator edits
the catalogues; nothing else in the house knows a language.
"""

from stash.sentences.reader import METRIC, Reader
from stash.sentences.saying import named, say, says, tell

__all__ = ["METRIC", "Reader", "named", "say", "says", "tell"]
