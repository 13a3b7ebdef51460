"""Patterns that come from elsewhere, and patterns written out."""
