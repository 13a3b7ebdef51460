"""Fibre names of Regulation (EU) 1007/2011, their label codes, and compositions as typed."""

from stash.fibres.composition import checked, format_composition, parse_composition
from stash.fibres.names import Fibre, fibre, fibres

__all__ = ["Fibre", "checked", "fibre", "fibres", "format_composition", "parse_composition"]
