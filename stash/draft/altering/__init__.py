"""Darts moved, panels cut: exact operations on the stitching lines of drafted pieces.

Each takes a piece on the table and gives it back, or its parts; ``alterations.py`` does several one
after another, re-makes the allowances, brings the joins along and proves what must agree.
How each is done is common practice, no source (flat pattern cutting: slash, pivot, spread).
"""
