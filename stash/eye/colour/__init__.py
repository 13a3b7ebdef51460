"""Colours from photographs: corrected by printed greys beside them, compared, and how sure."""
