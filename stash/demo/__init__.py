"""A stash to play with: the Heron Loft, a workroom that clothes a small travelling troupe."""

from stash.demo.fill import NAME, fill, is_another_stash

__all__ = ["NAME", "fill", "is_another_stash"]
