"""Every sentence the house can say, by the kind of its fact; one file a topic.

``{name}`` is filled with the fact's value of that name, written by the unit in it. A pair
``(one, many)`` is chosen by the value ``count``.
"""

from __future__ import annotations

from stash.sentences.wording import cutting, quantities_typed, record, settings

Wording = str | tuple[str, str]

TOPICS = (cutting, quantities_typed, record, settings)
WORDING: dict[str, Wording] = {
    kind: wording for topic in TOPICS for kind, wording in topic.SENTENCES.items()
}
