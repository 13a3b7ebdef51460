"""A dart left unsewn: its intake stays in the edge and is gathered there."""

from __future__ import annotations

from dataclasses import replace

from stash.draft.altering.edge_darts import OpenDart, without
from stash.draft.altering.on_paper import OnPaper, whole_mm
from stash.draft.altering.ring import between_mm, closed, portion
from stash.model import Mark, MarkKind

# Common practice, no source: gathers run on a little beyond where the dart was.
BEYOND_MM = 20.0


def gather_dart(paper: OnPaper, dart: OpenDart) -> OnPaper:
    """The edge runs straight across where the dart opened, notched and marked to be gathered."""
    edges = []
    for edge in paper.edges:
        if edge.name != dart.edge:
            edges.append(edge)
            continue
        before = between_mm(edge, 0.0, dart.start_mm)
        after = between_mm(edge, dart.end_mm, whole_mm(edge))
        across = replace(before, path_mm=(dart.first, dart.last), notches_mm=(),
                         double_notches_mm=())
        (whole,) = closed((before, across, after))
        edges.append(whole)
    smooth = replace(paper, edges=tuple(edges), marks=without(paper, dart))
    return _marked(smooth, dart)


def _marked(paper: OnPaper, dart: OpenDart) -> OnPaper:
    """A snip at both ends of the gathers and a line between."""
    edge = paper.edge(dart.edge)
    start = max(0.0, dart.start_mm - BEYOND_MM)
    chord = whole_mm(replace(edge, path_mm=(dart.first, dart.last)))
    end = min(whole_mm(edge), dart.start_mm + chord + BEYOND_MM)
    snipped = replace(edge, notches_mm=(*edge.notches_mm, start, end))
    line = Mark(MarkKind.GATHER, portion(edge.path_mm, start, end))
    return replace(
        paper, marks=(*paper.marks, line),
        edges=tuple(snipped if e.name == dart.edge else e for e in paper.edges),
    )


def gathered_mm(dart: OpenDart) -> float:
    """How much longer the edge is than what it is gathered to."""
    (x0, y0), (x1, y1) = dart.first, dart.last
    return float(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5)
