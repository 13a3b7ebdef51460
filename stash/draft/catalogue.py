"""The garments that can be drafted, and the one way to draft any of them by name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from importlib import import_module

from stash.draft.blame import refusal
from stash.draft.body import check, complete
from stash.draft.garment import Garment, Option
from stash.draft.known import said_of_body, said_of_fit
from stash.draft.soundness import broken
from stash.errors import NotFound
from stash.model import Pattern

# name of the garment -> its module in this package, each with a GARMENT
MODULES = {
    "trousers": "trousers",
    "shorts": "shorts",
    "shirt": "shirt",
    "yoke-shirt": "yoke_shirt",
    "tunic": "tunic",
    "fitted-bodice": "fitted_bodice",
    "dress": "dress",
    "knit-top": "knit_top",
    "leggings": "leggings",
    "straight-skirt": "straight_skirt",
    "a-line-skirt": "a_line_skirt",
    "circle-skirt": "circle_skirt",
    "gathered-skirt": "gathered_skirt",
    "pleated-skirt": "pleated_skirt",
    "robe": "robe",
    "nightshirt": "nightshirt",
    "apron": "apron",
    "tote-bag": "tote_bag",
    "pillowcase": "pillowcase",
    "cushion-cover": "cushion_cover",
    "curtain": "curtain",
    "wrap": "wrap",
}
NOTHING: Mapping[str, object] = {}


@dataclass(frozen=True)
class GarmentInfo:
    """What a garment is called, the measurements it asks for and the options it takes.

    ``measurements`` are asked for ("bust|chest": either); ``estimates`` are taken
    from a body table when they are not given.
    """

    name: str
    title: str
    measurements: tuple[str, ...]
    estimates: tuple[str, ...]
    options: tuple[Option, ...]


def garments() -> tuple[str, ...]:
    """The names of every garment, as they are listed to a person."""
    return tuple(MODULES)


def about(name: str) -> GarmentInfo:
    """Measurements and options of one garment; NotFound for an unknown name."""
    g = _garment(name)
    return GarmentInfo(g.name, g.title, g.measurements, g.estimates, g.options)


def draft(
    name: str,
    measurements_mm: Mapping[str, float],
    options: Mapping[str, object] = NOTHING,
    body: str | None = None,
) -> Pattern:
    """The pattern of one garment for one body, every estimate named in ``estimated``.

    InvalidInput names the measurement or option that cannot be used, or that is missing.
    """
    garment = _garment(name)
    garment.read_options(options)
    check(measurements_mm)  # a misspelt name is told before the one it leaves missing
    garment.ask_for(measurements_mm)

    def drawn(measured: Mapping[str, float], chosen: Mapping[str, object]) -> Pattern:
        wanted = [m for m in garment.measurements if "|" not in m] + list(garment.estimates)
        whole, read = complete(measured, wanted, body), garment.read_options(chosen)
        pattern = garment.draft(whole, read)
        said = (*said_of_body(whole), *said_of_fit(garment, read))
        return replace(pattern, facts=(*pattern.facts, *said))

    pattern = drawn(measurements_mm, options)
    if faults := broken(pattern):
        raise refusal(garment, faults[0], drawn, measurements_mm, options)
    return pattern


def _garment(name: str) -> Garment:
    known = "-".join(name.lower().replace("_", " ").replace("-", " ").split())
    if known not in MODULES:
        raise NotFound("no_such_draft", name=name, known=tuple(MODULES))
    garment: Garment = import_module(f"stash.draft.{MODULES[known]}").GARMENT
    return garment
