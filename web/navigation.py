"""Where one can go from every page."""

from __future__ import annotations

from dataclasses import dataclass

from web.texts import _


@dataclass(frozen=True)
class Link:
    """A link of the frame; ``far`` ones leave the thumb's row on a small screen."""

    endpoint: str
    label: str
    icon: str = ""
    far: bool = False


WAYS = (
    Link("home.show", "Stash", "M3 18h18M3 14h13M3 10h17M3 6h9"),
    Link("bins.index", "Notions", "M12 4a8 8 0 1 0 0 16 8 8 0 0 0 0-16"
                                 "M10 10h.01M14 10h.01M10 14h.01M14 14h.01"),
    Link("scan.show", "Scan", "M4 8V4h4M16 4h4v4M20 16v4h-4M8 20H4v-4"
                             "M8 8h3v3H8zM13 8h3v3h-3zM8 13h3v3H8zM14 14h2v2h-2z"),
    Link("become.show", "Make", "M5 4h14v16h-5l-2-9-2 9H5z"),
    Link("plans.index", "Plans", far=True),
    Link("shopping.show", "Shopping", far=True),
    Link("patterns.index", "Patterns", far=True),
    Link("labels.show", "Labels", far=True),
)
FURTHER = (
    Link("measuring.index", "Measure by photograph"),
    Link("drafts.index", "Drafts"), Link("people.index", "People"), Link("places.index", "Places"),
    Link("spreadsheet.show", "From a table"), Link("stocktake.choose", "Stock-take"),
    Link("history.show", "History"),
    Link("report.show", "Looking back"), Link("pocket.show", "In your pocket"),
    Link("settings.show", "Settings"), Link("guide.index", "Help"),
)


def ways() -> list[tuple[str, str, str, bool]]:
    """The main ways, named in the person's language."""
    return [(way.endpoint, _(way.label), way.icon, way.far) for way in WAYS]


def further() -> list[tuple[str, str]]:
    """What stands at the foot of every page."""
    return [(way.endpoint, _(way.label)) for way in FURTHER]
