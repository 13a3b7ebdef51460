"""Every sentence the house can say, by the kind of its fact; one file a topic.

``{name}`` is filled with the fact's value of that name, written by the unit in it. A pair
``(one, many)`` is chosen by the value ``count``. A new file here is found by itself.
"""

from __future__ import annotations

import importlib
import pkgutil

Wording = str | tuple[str, str]

TOPICS = tuple(
    importlib.import_module(f"{__name__}.{topic.name}") for topic in pkgutil.iter_modules(__path__)
)
WORDING: dict[str, Wording] = {
    kind: wording for topic in TOPICS for kind, wording in topic.SENTENCES.items()
}
