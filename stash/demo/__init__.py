"""A stash to play with: the Heron Loft, a workroom that clothes a small travelling troupe."""

from stash.demo.fill import fill

__all__ = ["fill"]
