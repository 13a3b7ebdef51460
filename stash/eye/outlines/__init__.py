"""Outlines of what lies on a floor: its shape, its edge to a fraction of a pixel, its error."""
