"""A stash to play with: the Heron Loft, a workroom that clothes a small travelling troupe."""
