"""Colours by name: what a sewist calls them, in three languages, and the nearest name of any."""

from stash.colours.colour_names import (
    ColourName,
    colour_named,
    colour_names,
    colour_says,
    nearest,
    read_colour,
    read_colours,
)

__all__ = [
    "ColourName", "colour_named", "colour_names", "colour_says", "nearest", "read_colour",
    "read_colours",
]
