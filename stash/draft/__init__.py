"""Garment drafts: from body measurements to a pattern, one file a garment."""
